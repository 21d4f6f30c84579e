"""streaks: runs of an outcome through a whole topic, where their order is luck and is not."""

from __future__ import annotations

import random
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from pipeline.config.load import load
from pipeline.errors import UserError
from pipeline.significance.methods.ratio import Sums, change
from pipeline.significance.methods.runs import count_runs, expected_runs
from tests.builders import delivery
from tests.league import FIVE, brief, findings, league
from tests.tallying import played_in

BEAT = "  - {id: squeeze, kind: streaks, of: dots, length: 4}\n"
CAME, AGAINST = "squeeze.four-dots-in-a-row", "squeeze.four-dots-against-rate"
DOTS, BALLS = 28, 60
Order = list[bool]


def luck(rng: random.Random) -> Order:
    """An innings of so many dots, in any order."""
    order = [True] * DOTS + [False] * (BALLS - DOTS)
    rng.shuffle(order)
    return order


def gathered(rng: random.Random) -> Order:
    """The same dots in lumps of four to eight."""
    lumps: list[Order] = []
    left = DOTS
    while left:
        size = min(left, rng.randint(4, 8))
        lumps.append([True] * size)
        left -= size
    parts = lumps + [[False]] * (BALLS - DOTS)
    rng.shuffle(parts)
    return [ball for part in parts for ball in part]


def seasons(after: Any) -> list[tuple[int, Order]]:
    """(year, innings) of ten seasons of four to seven matches; `after` orders them from 2017."""
    rng = random.Random(11)
    return [
        (year, (after if year >= 2017 else luck)(rng))
        for year in range(2012, 2022)
        for _ in range(4 + year * 7 % 4)
    ]


def played(innings: list[tuple[int, Order]], folder: Path) -> Path:
    """Their project; every third innings has a wide too, after a ball that scores."""
    matches = []
    for at, (year, order) in enumerate(innings):
        balls = [delivery(0 if dot else 1) for dot in order]
        if at % 3 == 0:
            balls.insert(order.index(False) + 1, delivery(wides=1))
        matches.append(played_in(year, balls, dates=[f"{year}-06-{at % 28 + 1:02}"]))
    return league(folder, matches)


@pytest.fixture(scope="module")
def lumpy(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return played(seasons(gathered), tmp_path_factory.mktemp("lumpy"))


def test_the_sums_are_those_counted_by_hand(lumpy: Path):
    found = findings(lumpy, BEAT, FIVE)
    for side, years in (("a", range(2012, 2017)), ("b", range(2017, 2022))):
        orders = [order for year, order in seasons(gathered) if year in years]
        came, against = getattr(found[CAME], side), getattr(found[AGAINST], side)
        assert came.numerator == against.numerator == sum(count_runs(order, 4) for order in orders)
        assert came.denominator == len(orders)
        lengths = [BALLS + (at % 3 == 0) for at, (year, _) in enumerate(seasons(gathered))]
        wanted = [
            n for n, (year, _) in zip(lengths, seasons(gathered), strict=True) if year in years
        ]
        expected = expected_runs(np.array(wanted), DOTS, 4).sum()
        assert against.denominator / 1e6 == pytest.approx(expected, abs=len(orders) * 1e-6)


def test_lumps_are_more_than_their_rate_makes_and_it_says_so(lumpy: Path):
    made = brief(lumpy, BEAT, FIVE)
    found = {finding.id: finding for finding in made.findings.findings}
    for name in (CAME, AGAINST):
        assert found[name].verdict == "changed" and found[name].told.difference.value > 0
    assert found[AGAINST].a.low < 1 < found[AGAINST].a.high and found[AGAINST].b.low > 1
    (page,) = made.content.beats
    came, against = (" ".join(part.lines) for part in page.parts)
    assert "The count of four or more dot balls in a row" in came
    assert "luck makes some streaks" in against and "So they gather more than they did" in against
    assert not any("panicked" in line for part in page.parts for line in part.lines)
    assert any("They panicked" in line for line in page.dont_say)


def test_luck_is_called_lumps_one_time_in_twenty():
    """Two windows of 25 innings, each with its own rate, 400 times; Monte Carlo error 1.1 %."""
    rng = np.random.default_rng(5)
    alarms = [float(change(world(rng), world(rng)).p_value()[0]) < 0.05 for _ in range(400)]
    assert 0.02 <= np.mean(alarms) <= 0.08


def world(rng: np.random.Generator, innings: int = 25) -> Sums:
    """Runs that came and runs expected, an innings a match; the order of each is luck."""
    y, x = np.zeros((innings, 1)), np.zeros((innings, 1))
    for at in range(innings):
        dots = rng.binomial(BALLS, rng.uniform(0.35, 0.55))
        order = rng.permutation(BALLS) < dots
        y[at], x[at] = count_runs(order, 4), expected_runs(BALLS, dots, 4)
    return Sums(y, x, np.ones_like(y, bool))


def test_cuts_that_tear_an_innings_are_refused_with_their_line(lumpy: Path):
    topic = lumpy / "config" / "topics" / "torn.yaml"
    torn = BEAT.replace("length: 4", "by: bowler_kind")
    topic.write_text(f"{FIVE}headlines: []\nbeats:\n{torn}", "utf-8")
    with pytest.raises(
        UserError, match=r"torn\.yaml:\d+:\d+: beats\[1\].*would tear streaks apart"
    ):
        load(lumpy / "config", only="torn")
    topic.unlink()


def test_an_outcome_that_is_a_list_is_a_mistake_with_its_line(lumpy: Path):
    topic = lumpy / "config" / "topics" / "torn.yaml"
    topic.write_text(f"{FIVE}beats:\n{BEAT.replace('of: dots', 'of: [dots]')}", "utf-8")
    with pytest.raises(UserError, match=r"torn\.yaml:\d+:\d+: beats\[1\]\.of"):
        load(lumpy / "config", only="torn")
    topic.unlink()


def test_streaks_of_two_lengths_in_one_topic_are_told_apart(lumpy: Path):
    """Each in its own words, by its own name, as the answer to a question of its own."""
    longer = BEAT.replace("squeeze", "vice").replace("length: 4", "length: 6, by: innings")
    made = brief(lumpy, BEAT + longer, FIVE)
    found = {finding.id: finding for finding in made.findings.findings}
    pages = {page.id: page for page in made.content.beats}
    for beat, count in (("squeeze", "four"), ("vice", "six")):
        lines = " ".join(line for part in pages[beat].parts for line in part.lines)
        assert f"{count} or more dot balls" in lines
        assert lines.lower().count("luck makes some streaks") == 1
    told = [" ".join(pages[beat].lines) for beat in ("squeeze", "vice")]
    assert "six or more" not in told[0] and "four or more" not in told[1]
    identities = {finding.asks.identity for finding in found.values() if finding.cell == "all"}
    assert len(identities) == 4
    of_rows = pages["vice"].parts[1].lines
    assert len(set(of_rows)) == len(of_rows)


def test_by_side_every_innings_is_whole(lumpy: Path):
    found = findings(lumpy, BEAT.replace("length: 4", "length: 4, by: innings"), FIVE)
    assert found[f"{CAME}.1"].a.numerator == found[CAME].a.numerator  # nobody batted second


def test_no_measure_of_the_files_can_count_streaks(lumpy: Path):
    measures = lumpy / "config" / "measures.yaml"
    text = measures.read_text("utf-8")
    measures.write_text(text.replace("numerator: runs_bowler", "numerator: streak", 1), "utf-8")
    with pytest.raises(UserError, match="which only a streaks beat counts"):
        load(lumpy / "config", only=None)
    measures.write_text(text, "utf-8")
