"""The campaign of faults: what it found is committed, and today's code is held to it."""

from __future__ import annotations

from collections import Counter
from pathlib import Path
from random import Random

import pytest

from tests.conftest import ROOT
from tests.faults.areas import AREAS, Area
from tests.faults.numbered import Work, share, try_number
from tests.faults.results import Result, keep, read, result, row, write
from tests.faults.tried import Tried

KILLS = [area for area in AREAS if area.name.startswith("kills")]
pytestmark = pytest.mark.slow
INPUTS = [area for area in AREAS if area not in KILLS]
TRIED = {"topics": 6}  # of each area here; others are quick
OTHERS, SEED = 25, 2  # another seed than the campaign's


@pytest.fixture(scope="module")
def results() -> dict[str, Result]:
    return {each.area: each for each in read()}


def test_every_area_was_tried_and_nothing_ended_in_neither_way(
    results: dict[str, Result],
):
    assert set(results) == {area.name for area in AREAS}
    for each in results.values():
        assert (each.other, each.causes) == (0, 0), each.area
        assert each.ok + each.refused == each.inputs


def test_a_hundred_thousand_inputs_were_tried(results: dict[str, Result]):
    assert sum(results[area.name].inputs for area in INPUTS) >= 100_000


def test_two_hundred_kills_were_made(results: dict[str, Result]):
    assert sum(results[area.name].inputs for area in KILLS) >= 200


def test_the_readme_tells_these_figures(results: dict[str, Result]):
    page = (ROOT / "README.md").read_text("utf-8")
    for one in results.values():
        assert row(one) in page, row(one)


def test_both_ends_were_seen_of_every_kind_of_input(results: dict[str, Result]):
    """An area where everything is refused, or nothing, would try very little."""
    for area in INPUTS:
        one = results[area.name]
        assert min(one.ok, one.refused) > 0.02 * one.inputs, area.name


@pytest.mark.parametrize("area", INPUTS, ids=lambda area: area.name)
def test_todays_code_answers_or_refuses(area: Area, tmp_path: Path):
    numbers = range(TRIED.get(area.name, OTHERS))
    told = {number: try_number(area, SEED, number, tmp_path) for number in numbers}
    assert {at: one for at, one in told.items() if one not in ("ok", "refused")} == {}


def test_an_input_is_the_same_at_every_run(tmp_path: Path):
    draws: list[float] = []

    def trial(rng: Random, folder: Path) -> str:
        draws.append(rng.random())
        return "ok"

    area = Area("any", trial, 1, 1)
    assert [try_number(area, 1, at, tmp_path) for at in (0, 1, 0)] == ["ok"] * 3
    assert draws[0] == draws[2] != draws[1]


def test_what_is_raised_or_warned_is_a_cause(tmp_path: Path):
    def raising(rng: Random, folder: Path) -> str:
        raise ZeroDivisionError("by nought")

    def warning(rng: Random, folder: Path) -> str:
        import warnings

        warnings.warn("an average of nothing", RuntimeWarning, stacklevel=1)
        return "ok"

    told = [try_number(Area("any", each, 1, 1), 1, 0, tmp_path) for each in (raising, warning)]
    assert told[0].startswith("other: ZeroDivisionError")
    assert told[1].startswith("other: RuntimeWarning")


def test_a_campaign_goes_on_where_it_was_ended(tmp_path: Path):
    at = next(at for at, area in enumerate(AREAS) if area.name == "zip")
    tried = Tried(tmp_path / "tried.csv")
    tried.add("zip", SEED, 1, "other: said so, before")
    tried.add("zip", SEED + 1, 0, "other: of another seed")
    tried.add("table", SEED, 0, "other: of another area")
    with tried.path.open("a", encoding="utf-8") as file:
        file.write(f"zip,{SEED},2\n")  # torn: its outcome is not there
    found = dict(share(Work(at, SEED, 0, 3, 1, tmp_path, tried)))
    assert found[1] == "other: said so, before"
    assert {found[0], found[2]} <= {"ok", "refused"}
    assert tried.of("zip", SEED) == found


def test_results_are_counted_and_kept(tmp_path: Path):
    found = Counter({"ok": 5, "refused": 3, "other: A at b.py": 2, "other: C at d.py": 1})
    one = result("zip", found)
    assert one == Result("zip", 11, 5, 3, 3, 2)
    write([one], tmp_path / "results.csv")
    assert read(tmp_path / "results.csv") == [one]
    other = result("table", Counter({"ok": 2}))
    keep([other], ["table", "zip"], tmp_path / "results.csv")
    assert read(tmp_path / "results.csv") == [other, one]
    with pytest.raises(ValueError, match="no outcome"):
        result("zip", Counter({"fine": 1}))
