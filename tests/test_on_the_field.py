"""A difference on the field: how many overs it is of, and when it is one that can be felt."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from pipeline.config import views
from pipeline.config.load import load
from pipeline.contracts.parts import Felt
from pipeline.significance.effects import Compared
from pipeline.significance.on_the_field import Stretch, felt
from tests.conftest import ROOT
from tests.finding_makers import WIDTH, effect, side
from tests.tallying import HEAD


@pytest.fixture()
def config(tmp_path: Path) -> Path:
    return Path(shutil.copytree(ROOT / "config", tmp_path / "config"))


FOUR = Stretch(4, "season")


def asked(
    config: Path, difference: float, more: str = "", values: dict | None = None, **how
) -> Felt | None:
    """Of a before_after beat: `more` are keys of it; `how` its measure, form and overs' limit."""
    measure, form = how.get("measure", "economy"), how.get("form", "one-day")
    beat = f"beats:\n  - {{id: a, kind: before_after, measure: {measure}{more}}}\n"
    text = HEAD.replace("one-day", form) + beat
    (config / "topics" / "asked.yaml").write_text(text, "utf-8")
    view = views.significance(load(config, only="asked"), "asked")
    limited = view.format.model_copy(update={"overs": how.get("overs", view.format.overs)})
    sides = [side(denominator=denominator) for denominator in (999, 330)]
    result = Compared(*sides, refused=None, effect=effect(difference=difference))
    return felt(view.beats[0], values or {}, result, view.measures[measure], limited, FOUR)


@pytest.mark.parametrize("sign", [1, -1])
@pytest.mark.parametrize(
    ("difference", "told"), [(0.0189, False), (0.019, True), (2.1, True), (2.1001, False)]
)
def test_only_what_can_be_felt_is_told(config: Path, sign: int, difference: float, told: bool):
    """Runs an over, times fifty overs: from 0.95 to 105."""
    found = asked(config, sign * difference)
    assert (found is not None) is told
    if found:
        assert (found.times, found.of, found.per) == (50, "overs", "innings")
        assert found.value == pytest.approx(sign * difference * 50)
        ends = [(sign * difference + end) * 50 for end in (-WIDTH, WIDTH)]
        assert [found.low, found.high] == pytest.approx(ends)


@pytest.mark.parametrize(
    ("more", "how", "overs"),
    [
        ("", {}, 10),
        ("", {"form": "twenty-over"}, 4),
        ("", {"overs": 42}, 9),  # a fifth, rounded up: eight overs would leave two unbowled
        ("", {"overs": 41}, 9),
        ("", {"overs": 40}, 8),
        (", where: {phase: middle}", {}, 10),
        (", where: {overs: 41-43}", {}, 3),
        (", where: {overs: 11-40, phase: [powerplay, middle]}", {}, 10),
        (", where: {overs: 10-12, phase: powerplay}", {}, 1),
    ],
)
def test_a_bowlers_spell_is_a_fifth_of_the_overs_at_most(config, more: str, how: dict, overs: int):
    found = asked(config, 1.0, more, {"bowler_kind": "spin"}, **how)
    assert found is not None
    assert (found.times, found.per, found.value) == (overs, "spell", pytest.approx(overs))


@pytest.mark.parametrize(
    ("values", "times", "per"),
    [
        ({}, 50, "innings"),
        ({"phase": "death"}, 10, "those overs"),
        ({"region": "coast"}, 50, "innings"),
        ({"batter_hand": "left"}, None, None),  # nobody knows how long a hand bats
    ],
)
def test_whose_overs_they_are(config: Path, values: dict, times: int | None, per: str | None):
    found = asked(config, 1.0, "", values)
    assert (found and found.times, found and found.per) == (times, per)


@pytest.mark.parametrize(
    ("measure", "difference", "times", "of"),
    [
        ("bowling_average", 2.0, 10, "wickets"),
        ("bowling_strike_rate", 2.0, 10, "wickets"),
        ("boundary_share", 2.0, 300, "balls"),
        ("sixes_per_innings", 0.2, 82, "innings"),  # 330 innings in four seasons
    ],
)
def test_what_is_counted_of_other_measures(config, measure, difference, times: int, of: str):
    found = asked(config, difference, measure=measure)
    assert found is not None and (found.times, found.of) == (times, of)
    assert found.value == pytest.approx(difference * times / (100 if of == "balls" else 1))


@pytest.mark.parametrize("how", [{"form": "multi-day"}, {"measure": "batting_strike_rate"}])
def test_no_count_of_overs_where_none_is_fixed(config: Path, how: dict):
    """Overs without limit; a rate that is not of an over."""
    assert asked(config, 1.0, **how) is None
