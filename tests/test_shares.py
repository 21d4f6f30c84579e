"""Share beats: who bowls or faces how much of it, in per cent and in balls an innings."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from demo_data import planted
from pipeline.config.kinds.share import share_measure, share_name
from pipeline.config.load import load
from pipeline.errors import UserError
from pipeline.metrics.tally import tally
from pipeline.significance.on_the_field import felt
from pipeline.tables import played
from pipeline.wording.change import felt_said
from tests.builders import cleaned, delivery, match
from tests.conftest import copy_project
from tests.test_sheets import VIEW

SHARE = {"kind": "share", "per": 100, "an_innings": False, "per_wicket": False, "by_match": False}
ONE_DAY = {
    "overs": 50,
    "balls_per_over": 6,
    "phases": {"powerplay": {"overs": [1, 10]}, "death": {"overs": [41, 50]}},
}


def test_a_share_is_of_the_balls_whose_kind_is_known(tmp_path: Path):
    """Q Bowl is spin, C Batt unknown: two of two known balls, wides not counted."""
    unknown = {**delivery(1), "bowler": "C Batt"}
    balls = [delivery(1), delivery(1), delivery(wides=1), unknown]
    data = cleaned(tmp_path, only={"m1.json": match(balls)})
    name = share_name({"bowler_kind": ["spin"]})
    beat = {"id": "who", "kind": "trend", "measures": [name], "where": {}}
    beat |= {"of": {"bowler_kind": ["spin"]}}
    measures = {name: {"numerator": "legal", "denominator": "legal"}}
    view = {**VIEW, "beats": [beat], "measures": measures}
    tallies, selection = tally(view, played(data), [])
    (row,) = tallies.to_pylist()
    assert (row["y"], row["x"]) == (2, 2)
    assert selection["data"]["unknown_balls"] == {"bowler_kind": 1}


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
    beat = {"kind": "share", "where": where}
    result = {"refused": None, "difference": 10.0, "difference_low": 9.0, "difference_high": 11.0}
    found = felt(beat, values, result, SHARE, {"format": ONE_DAY})
    assert (found and found["times"]) == balls
    if found:
        assert (found["value"], found["low"]) == (
            pytest.approx(balls / 10),
            pytest.approx(balls * 0.09),
        )
    assert felt(beat, values, result, SHARE, {"format": {**ONE_DAY, "overs": None}}) is None


@pytest.mark.parametrize(
    ("value", "half", "said"),
    [
        (1.8, 0.5, "Over an innings, that is about two balls more."),
        (
            -15.4,
            2.0,
            "Over an innings, that is just over fifteen balls fewer: two and a half overs.",
        ),
        (1.2, 1.0, "Over an innings, that is about one ball more."),
        (0.3, 2.0, None),
    ],
)
def test_balls_in_words(value: float, half: float, said: str | None):
    balls = {"value": value, "low": value - half, "high": value + half, "per": "innings"}
    balls |= {"times": 300, "of": "balls"}
    measure = {"kind": "share", "unit": "per cent of balls"}
    assert felt_said({"verdict": "changed", "felt": balls}, measure) == said
    assert felt_said({"verdict": "held", "felt": balls}, measure) is None


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("of: {bowler_kind: spin}", "of: {bowler_kind: spinn}", "did you mean 'spin'"),
        ("of: {bowler_kind: spin}", "of: {ground: Kelpgate}", "'of' names one of bowler_kind"),
        ("of: {bowler_kind: spin}", "measure: economy", "'of' is missing here"),
        ("headlines: [", "headlines: [who.pace-share, ", "beat 'who' has no measure 'pace-share'"),
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
    text = (built / "output/long-grass/findings.json").read_text("utf-8")
    found = next(f for f in json.loads(text)["findings"] if f["id"] == "who.spin-share")
    before, after = (100 * planted.spin_share(season, planted.MIDDLE) for season in (2016, 2017))
    assert found["difference_low"] < after - before < found["difference_high"]
    assert (found["verdict"], found["drift"]["verdict"]) == ("changed", "beyond the drift")
    balls = found["felt"]
    assert balls["low"] < (after - before) / 100 * 180 < balls["high"]
    talking = (built / "output/long-grass/talking-points.md").read_text("utf-8")
    assert "fifteen balls more: two and a half overs." in talking
