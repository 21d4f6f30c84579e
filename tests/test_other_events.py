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
            "kind: trend, measure: run_rate",
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
    with pytest.raises(UserError, match=r"also\[1\]\.after: 9 seasons asked; the data hold 4"):
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
