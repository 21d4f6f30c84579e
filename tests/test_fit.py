"""Copyfitting: no page with only the rest of a section, and no loop that never ends."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from pipeline.brief.fit import end_of, tighter
from pipeline.brief.paper import MOST_PASSES

SECTIONS = ["top", "run-sheet", "beat-a", "beat-b", "method", "facts"]
PAGES = {
    **{"top": (0, 0.06), "top:end": (0, 0.9), "run-sheet": (1, 0.06), "run-sheet:end": (1, 0.5)},
    **{"beat-a": (2, 0.06), "beat-a:end": (2, 0.8), "beat-b": (3, 0.06), "beat-b:end": (3, 0.8)},
    **{"method": (4, 0.06), "method:end": (5, 0.8), "facts": (6, 0.06), "facts:end": (6, 0.9)},
}


def test_what_fits_is_left_alone():
    assert tighter(PAGES, SECTIONS, {}) == {}


def test_a_beat_that_spills_is_set_tighter_and_then_followed():
    spilled = {**PAGES, "beat-a:end": (3, 0.2)}
    once = tighter(spilled, SECTIONS, {})
    assert once == {"beat-a": "tight"}
    both = {"beat-a": "tight", "beat-b": "follows"}
    assert tighter(spilled, SECTIONS, once) == both
    assert tighter({**PAGES, "beat-a:end": (3, 0.4)}, SECTIONS, {}) == both, "too much to squeeze"


def test_a_section_that_is_tight_can_follow_too():
    spilled = {**PAGES, "beat-a:end": (3, 0.2), "beat-b": (4, 0.06), "beat-b:end": (5, 0.1)}
    once = tighter(spilled, SECTIONS, {})
    assert once == {"beat-a": "tight", "beat-b": "tight"}
    assert tighter(spilled, SECTIONS, once)["beat-b"] == "tight follows"


def test_an_index_that_spills_a_few_lines_is_set_tighter():
    assert tighter({**PAGES, "facts:end": (7, 0.1)}, SECTIONS, {}) == {"facts": "tight"}
    assert tighter({**PAGES, "facts:end": (7, 0.4)}, SECTIONS, {}) == {}


def test_the_top_sheet_is_set_tighter_twice_before_it_takes_a_second_page():
    spilled = {**PAGES, "top:end": (1, 0.1)}
    once = tighter(spilled, SECTIONS, {})
    assert once == {"top": "tight"}
    twice = tighter(spilled, SECTIONS, once)
    assert twice == {"top": "tight tightest"}
    assert tighter(spilled, SECTIONS, twice) == {**twice, "run-sheet": "follows"}


def test_a_page_well_filled_by_the_rest_is_left_alone():
    assert tighter({**PAGES, "beat-a:end": (3, 0.7)}, SECTIONS, {}) == {}


def test_a_short_run_sheet_follows_the_top_sheet_and_a_beat_never_does():
    short = {**PAGES, "top:end": (0, 0.4), "beat-a:end": (2, 0.2), "beat-b:end": (3, 0.2)}
    assert tighter(short, SECTIONS, {}) == {"run-sheet": "follows"}


@given(st.lists(st.tuples(st.integers(0, 3), st.floats(0, 1)), min_size=6, max_size=6))
def test_it_comes_to_rest(lengths: list[tuple[int, float]]):
    """On pages that never change, the classes stop changing within the passes that are made."""
    places, page = {}, 0
    for section, (more, down) in zip(SECTIONS, lengths, strict=True):
        places[section] = (page, 0.06)
        places[end_of(section)] = (page + more, down)
        page += more + 1
    fit: dict[str, str] = {}
    for _ in range(MOST_PASSES):
        before, fit = fit, tighter(places, SECTIONS, fit)
    assert fit == before
