"""Labels, subjects and sentences of hundreds of findings have no fault of structure."""

from __future__ import annotations

import re

import pytest

from tests.every_label import Told, everything
from tests.untidy import SIDES, VENUES

DIGITS = "nought|one|two|three|four|five|six|seven|eight|nine"
FAULTS = {
    "a word twice": rf"\b(?!(?:{DIGITS})\b)(\w+) \1\b",
    "an empty part": r"\(\)|‘’|“”|, ,|: :|,\.|;\.|: ?\.|^\W*$",
    "two spaces, or one at an end": r"  |^ | $",
    "a space before a stop": r" [.,;:]",
    "two stops": r"\.\.|,,|;;",
    "one of many": r"(?<![-\w])(?<!and )(?<!point )one (?:seasons|matches|points|overs|balls)\b",
    "are one": r"\bare one (?:season|match)\b",
    "a range of one": r"\bovers? (\d+)[–-]\1\b|\bovers (\d+) to \2\b",
    "nothing counted": r"\b(?:Only|only) 0\b|^0(?:\.0)?% ",
    "no number": r"\b(?:nan|None|inf)\b",
    "two prepositions": r"\b(?:of|for|from|at|in|with) (?:of|for|from|in|at|with)\b",
    "an id": r"\bid-\w+",
    "a template": r"[{}]",
}
UNITS = r"per cent|balls|runs|over|innings|wicket|hundred|expected|luck alone|points"


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> list[Told]:
    return everything(tmp_path_factory.mktemp("every"))


def test_there_are_many_of_every_type_and_outcome(told: list[Told]):
    assert len(told) > 800
    kinds = {type(each.finding).__name__ for each in told}
    assert kinds == {"Change", "Groups", "Gap", "Mix", "Rates", "Turn", "Player"}
    assert {each.finding.verdict for each in told} == {"changed", "held", "can't tell"}
    assert {"few_matches", "none_counted", "no_balls"} <= {each.finding.refused for each in told}


@pytest.mark.parametrize("fault", FAULTS)
def test_no_text_has_a_fault_of_structure(told: list[Told], fault: str):
    found = [text for each in told for text in each.texts() if re.search(FAULTS[fault], text)]
    assert not found, sorted(set(found))[:12]


def test_quotes_are_in_pairs(told: list[Told]):
    for text in {text for each in told for text in each.texts()}:
        assert text.count("“") == text.count("”") and text.count("‘") <= text.count("’"), text


def test_sentences_begin_with_a_capital_and_end_with_a_stop(told: list[Told]):
    for each in told:
        for line in each.lines + each.cautions:
            assert line[0].isupper() or line[0].isdigit(), line
            assert line.endswith("."), line
        for label in (each.label, each.name, each.subtitle, each.title):
            assert not label[0].islower() and not label.endswith("."), label


def test_names_keep_their_capitals(told: list[Told]):
    names = {*SIDES, *VENUES, "Lower Merrow", "Upper Merrow", "Pebble Cup", "Sand Cup"}
    wrong = re.compile("|".join(rf"\b{name[0].lower()}{name[1:]}\b" for name in sorted(names)))
    assert not {t for each in told for t in each.texts() if wrong.search(t)}


def test_a_label_says_its_measure_and_unit_once(told: list[Told]):
    for each in told:
        parts = [part.strip().lower() for part in re.split(r"[,·]", each.subtitle)]
        assert len(parts) == len(set(parts)), each.subtitle
        parts = each.name.lower().split(", ")
        assert len(parts) == len(set(parts)), each.name


def test_a_filtered_beats_whole_says_the_filter(told: list[Told]):
    rows = {(each.finding.beat, each.label) for each in told if each.label.startswith("All balls")}
    by_beat: dict[str, set[str]] = {}
    for beat, label in rows:
        by_beat.setdefault(beat, set()).add(label)
    assert all(len(labels) == 1 for labels in by_beat.values())
    labels = {label for found in by_beat.values() for label in found}
    assert {
        "All balls",
        "All balls, overs 11–40",
        "All balls, spin, left-handers, overs 11–40",
    } <= labels


def test_tags_and_lists_are_said_as_the_topic_says_them(told: list[Told]):
    subjects = {each.subject for each in told}
    assert "the openers’ batting strike rate" in subjects
    assert "pace’s economy against the openers and the keepers" in subjects
    assert "the batting strike rate for batters tagged ‘changed’" in subjects
    assert "Ida Fen’s economy" in subjects


def test_a_value_that_is_said_has_its_unit(told: list[Told]):
    """Both values are said, the unit after the first; a title's size has its own."""
    for each in told:
        if each.finding.refused or type(each.finding).__name__ not in ("Change", "Groups"):
            continue
        first = each.lines[0] if "luck makes" not in each.lines[0] else each.lines[1]
        assert re.search(rf"\b(?:{UNITS})", first), first


def test_values_shown_apart_are_not_said_to_be_the_same(told: list[Told]):
    same = re.compile(r"the same after|where (?:it was|they were)|the same in both")
    for each in told:
        if not any(same.search(line) for line in each.lines):
            continue
        a, b = each.shown
        assert a == b, (each.lines, a, b)
