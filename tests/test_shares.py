"""Share beats: who bowls or faces how much of it, in per cent and in balls an innings."""

from __future__ import annotations

from pathlib import Path

import pytest

from demo_data import planted
from pipeline.config.kinds.share import Share, share_measure, share_name
from pipeline.config.load import load
from pipeline.config.project import Phase
from pipeline.contracts.facts import Facts
from pipeline.contracts.files import read_json
from pipeline.contracts.findings import Findings
from pipeline.errors import UserError
from pipeline.significance.effects import Compared
from pipeline.significance.on_the_field import felt
from pipeline.wording.on_the_field import felt_said
from tests import finding_makers
from tests.asking import by_id
from tests.builders import delivery
from tests.conftest import copy_project
from tests.finding_makers import change, effect, side
from tests.tallying import played_in, tallied
from tests.view_makers import ONE_DAY, scale

PHASES = {
    "powerplay": Phase(overs=[1, 10], label="overs 1–10"),
    "death": Phase(overs=[41, 50], label="overs 41–50"),
}
PHASED = ONE_DAY.model_copy(update={"phases": PHASES})


def test_a_share_is_of_the_balls_whose_kind_is_known(tmp_path: Path):
    """Q Bowl is spin, C Batt unknown: two of two known balls, wides not counted."""
    unknown = {**delivery(1), "bowler": "C Batt"}
    balls = [delivery(1), delivery(1), delivery(wides=1), unknown]
    matches = [played_in(year, balls) for year in (2019, 2020)]
    beats = "  - {id: who, kind: share, of: {bowler_kind: spin}}"
    rows, selection = tallied(tmp_path, matches, beats)
    assert [(row["measure"], row["y"], row["x"]) for row in rows] == [("spin-share", 2, 2)] * 2
    assert selection.data.unknown_balls == {"bowler_kind": 2}


@pytest.mark.parametrize(
    ("of", "name", "label"),
    [
        ({"bowler_kind": ["spin"]}, "spin-share", "spin’s share of the balls"),
        ({"batter_hand": ["left"]}, "left-share", "left-handers’ share of the balls"),
        ({"bowler_arm": ["left"]}, "left-share", "left-arm bowling’s share of the balls"),
    ],
)
def test_names_of_shares(of: dict, name: str, label: str):
    assert share_name(of) == name and share_measure(of).label == label
    assert share_name({cut: values[0] for cut, values in of.items()}) == name


@pytest.mark.parametrize(
    ("where", "values", "balls"),
    [
        ({}, {}, 300),
        ({"overs": [11, 40]}, {}, 180),
        ({"phase": ["powerplay", "death"]}, {}, 120),
        ({}, {"phase": "death"}, 60),
        ({"overs": [45, 60]}, {"phase": "death"}, 36),
        ({}, {"phase": "unknown"}, None),
    ],
)
def test_balls_of_a_full_innings(where: dict, values: dict, balls: int | None):
    """A 50-over innings is 300 valid balls (common practice, arithmetic)."""
    beat = Share(id="who", kind="share", of={"bowler_kind": ["spin"]}, where=where)
    result = Compared(side(), side(), None, effect(difference=10.0, half=1.0))
    found = felt(beat, values, result, scale("share"), PHASED, 5)
    assert (found and found.times) == balls
    if found:
        assert (found.value, found.low) == pytest.approx((balls / 10, balls * 0.09))
    unlimited = PHASED.model_copy(update={"overs": None})
    assert felt(beat, values, result, scale("share"), unlimited, 5) is None


@pytest.mark.parametrize(
    ("value", "half", "said"),
    [
        (1.8, 0.5, "Over an innings, that’s about two balls more."),
        (
            -15.4,
            2.0,
            "Over an innings, that’s just over fifteen balls fewer: two and a half overs.",
        ),
        (1.2, 1.0, "Over an innings, that’s about one ball more."),
        (0.3, 2.0, None),
    ],
)
def test_balls_in_words(value: float, half: float, said: str | None):
    balls = finding_makers.felt(value, half, times=300, of="balls", per="innings")
    measure = share_measure({"bowler_kind": ["spin"]})
    assert felt_said(change(verdict="changed", felt=balls), measure, ONE_DAY) == said
    assert felt_said(change(verdict="held", felt=balls), measure, ONE_DAY) is None


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("of: {bowler_kind: spin}", "of: {bowler_kind: spinn}", "did you mean 'spin'"),
        ("of: {bowler_kind: spin}", "of: {ground: Kelpgate}", "'of' names one of bowler_kind"),
        ("of: {bowler_kind: spin}", "measure: economy", "'of' is missing here"),
        ("wickets, rate]", "who.pace-share]", "no finding 'who.spin-share.pace-share' (valid: "),
    ],
)
def test_mistakes_in_a_share_beat_are_placed(
    tmp_path: Path, monkeypatch, old: str, new: str, said: str
):
    folder = copy_project(tmp_path)
    monkeypatch.chdir(folder)
    topic = folder / "config" / "topics" / "long-grass.yaml"
    text = topic.read_text("utf-8")
    assert old in text
    topic.write_text(text.replace(old, new, 1), "utf-8")
    with pytest.raises(UserError) as caught:
        load("config")
    assert any(said in str(p) and "long-grass.yaml:" in str(p) for p in caught.value.problems)


@pytest.mark.slow
def test_the_planted_share_is_recovered(built: Path):
    """Spin bowls 36 per cent of the middle overs before 2017 and 44 after: 14 balls an innings."""
    findings = read_json(built / "output/long-grass/findings.json", Findings)
    found = by_id(findings)["who.spin-share"]
    before, after = (100 * planted.spin_share(season, planted.MIDDLE) for season in (2016, 2017))
    assert found.told.difference.low < after - before < found.told.difference.high
    assert (found.verdict, found.drift.verdict) == ("changed", "beyond the drift")
    assert found.felt.low < (after - before) / 100 * 180 < found.felt.high
    facts = read_json(built / "output/long-grass/facts.json", Facts).facts
    (felt,) = (fact for fact in facts if fact.id == "who.spin-share.felt")
    assert felt.spoken == "about fifteen balls more"
