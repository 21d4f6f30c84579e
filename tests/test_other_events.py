"""Other events of a topic: named as rivals with their distance, and asked about by a beat."""

from __future__ import annotations

from pathlib import Path

import pytest

from pipeline.config.load import load
from pipeline.contracts.finding import Change, Finding
from pipeline.errors import UserError
from tests.asking import HEAD, ask, by_id
from tests.league import FIVE, brief, codes, league, scored

DRINKS = (
    "{id: drinks, name: the longer drinks break, date: 2019-03-01, before: 4 seasons, "
    "after: 3 seasons}"
)
ALSO = f"""also:
  - {DRINKS}
  - {{name: the new ball, date: 2012-03-01}}
  - {{name: the old tax, date: 2010-03-01}}
"""
BEATS = """  - {id: a, kind: before_after, measure: run_rate}
  - {id: b, kind: before_after, measure: run_rate, about: drinks}
  - {id: c, kind: trend, measure: run_rate, about: drinks}
"""


@pytest.fixture(scope="module")
def found(built: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Finding]:
    return by_id(ask(built, tmp_path_factory.mktemp("asked"), BEATS, "[a, b]", HEAD + ALSO))


def test_a_beat_about_another_event_is_the_same_asked_of_its_date(
    built: Path, tmp_path: Path, found
):
    """As in a topic whose own event it is: value, interval, test and drift."""
    head = HEAD.replace("the long grass", "the longer drinks break")
    head = head.replace(
        "2017-03-01, before: 5 seasons, after: 5", "2019-03-01, before: 4 seasons, after: 3"
    )
    own = by_id(
        ask(built, tmp_path, "  - {id: b, kind: before_after, measure: run_rate}", "[b]", head)
    )
    asked, wanted = found["b.run_rate"], own["b.run_rate"]
    assert isinstance(asked, Change) and isinstance(wanted, Change) and asked.drift and wanted.drift
    assert (asked.a, asked.b, asked.asks) == (wanted.a, wanted.b, wanted.asks)
    assert asked.told.p == wanted.told.p and asked.drift.test == wanted.drift.test
    assert asked.a != found["a.run_rate"].a


def test_a_trend_about_it_answers_the_same_question(found):
    assert found["c.run_rate"].asks.identity == found["b.run_rate"].asks.identity
    assert found["c.run_rate"].again == "b.run_rate"


def test_each_is_the_others_rival_with_its_distance_and_what_is_far_away_is_none(found):
    mine, theirs = (
        codes(found[name])["rival_event"].rivals for name in ("a.run_rate", "b.run_rate")
    )
    assert [(one.name, one.days) for one in mine] == [("the longer drinks break", 730)]
    assert [(one.name, one.days) for one in theirs] == [("the long grass", -730)]


@pytest.mark.parametrize(
    ("beats", "also", "told"),
    [
        (
            "kind: trend, measure: run_rate",
            ALSO,
            "no beat is about it, so 'before' would be passed over",
        ),
        (
            "kind: trend, measure: run_rate, about: drinks",
            ALSO.replace("the new ball", "the long grass"),
            "two events are called 'the long grass'; name them apart",
        ),
        (
            "kind: trend, measure: run_rate, about: drunks",
            ALSO,
            "no event in 'also' has the id 'drunks'",
        ),
        (
            "kind: trend, measure: run_rate, about: drinks",
            "",
            "no event in 'also' has the id 'drinks'",
        ),
        (
            "kind: groups, measure: run_rate, between: {innings: ['1', '2']}, about: drinks",
            ALSO,
            "a groups beat compares no time; leave 'about' out",
        ),
        (
            "kind: trend, measure: run_rate, about: drinks",
            ALSO.replace("{name: the new ball", "{id: drinks, name: the new ball"),
            "two events have the id 'drinks'; ids are unique",
        ),
    ],
)
def test_what_a_beat_is_about_is_checked_when_it_is_read(
    built: Path, tmp_path: Path, beats: str, also: str, told: str
):
    with pytest.raises(UserError, match=told) as caught:
        ask(built, tmp_path, f"  - {{id: a, {beats}}}", "[]", HEAD + also)
    assert all(problem.line for problem in caught.value.problems)


def test_windows_that_another_event_has_no_matches_for_are_told_at_it(built: Path, tmp_path: Path):
    also = ALSO.replace("before: 4 seasons, after: 3", "before: 4 seasons, after: 9")
    with pytest.raises(
        UserError,
        match=r"also\[1\]\.after: for 'the longer drinks break': 9 seasons asked; the data hold 4",
    ):
        ask(built, tmp_path, BEATS, "[]", HEAD + also)
    load(tmp_path / "config", only="asked")  # the file itself is well written


def test_its_page_speaks_of_its_own_event(tmp_path: Path):
    """Each beat names the event that it is about; the method has the windows of both."""
    matches = [
        scored(year, 240 + 60 * (year > 2016) + at + year % 3, day=at)
        for year in range(2008, 2024)
        for at in range(1, 9)
    ]
    two = "before: 2 seasons, after: 2 seasons"
    also = f"also: [{{id: drinks, name: the drinks, date: 2020-01-01, {two}}}]\n"
    beats = BEATS.replace("  - {id: c, kind: trend, measure: run_rate, about: drinks}\n", "")
    made = brief(league(tmp_path / "league", matches), beats, FIVE + also, "[a, b]")
    page = {each.id: " ".join(each.dont_say) for each in made.content.beats}
    assert "the hail" in page["a"] and "the drinks" not in page["a"]
    method = " ".join(made.content.method)
    assert "Before the hail" in method and "Before the drinks" in method
    assert "2018 and 2019; after it, 2020 and 2021" in method


def test_of_two_events_each_has_its_windows_in_the_data_line(tmp_path: Path):
    """And of one that no beat is about nothing is said."""
    matches = [
        scored(year, 240 + at + year % 3, day=at)
        for year in range(2008, 2024)
        for at in range(1, 5)
    ]
    two = "before: 2 seasons, after: 2 seasons"
    also = f"also: [{{id: drinks, name: the drinks, date: 2020-01-01, {two}}}]\n"
    project = league(tmp_path / "league", matches)
    a, b = BEATS.splitlines()[:2]
    both = brief(project, f"{a}\n{b}", FIVE + also, "[]").content
    assert "the hail: 2012–2016 against 2017–2021, 24 matches in neither window" in both.data_line
    assert "the drinks: 2018–2019 against 2020–2021, 48 matches in neither window" in both.data_line
    method = " ".join(both.method)
    assert "Around the drinks, the seasons 2008 to 2023 (12 before, 4 after)" in method
    alone = brief(project, b, FIVE + also, "[]").content
    assert "2018–2019 against 2020–2021" in alone.data_line
    assert "2012–2016" not in alone.data_line and "the hail" not in " ".join(alone.method)


def test_a_settling_in_makes_no_break_in_a_series_that_only_drifts(tmp_path: Path):
    """What the gap leaves of a year takes its own days on the axis of time, not a year's."""
    matches = [
        scored(year, round(600 * 1.04 ** (year - 2004)) + 3 * (at % 3), balls=60, day=at)
        for year in range(2004, 2022)
        for at in range(1, 7)
    ]
    project = league(tmp_path / "league", matches)
    beats = "  - {id: turn, kind: turning_point, measure: run_rate}"
    told = {}
    for gap in ("", ", gap_after: 2 weeks", ", gap_after: 2 months"):
        windows = f"before: 5 years, after: 5 years, period: year{gap}"
        when = f"event: {{name: the hail, date: 2013-03-01, {windows}}}\n"
        head = "\n".join(line for line in FIVE.splitlines() if not line.startswith("event")) + "\n"
        found = by_id(ask(project, tmp_path / f"asked{len(told)}", beats, "[]", head + when))
        told[gap] = found["turn.run_rate"]
    assert {one.verdict for one in told.values()} == {"can't tell"}
