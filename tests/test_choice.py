"""What a beat says: at most three lines, what bears on the question first, what is open at once."""

from __future__ import annotations

from pipeline.config.kinds import AnyBeat
from pipeline.config.topic import Expectation
from pipeline.contracts.finding import Finding
from pipeline.episode.choice import MOST, MOST_TOGETHER, Chosen, of_beat
from pipeline.episode.lines_of import lines_of
from pipeline.wording.second_verdict import BEYOND
from tests.brief_makers import FOURS, brief_view, findings_of
from tests.outcomes import CANT_TELL
from tests.word_makers import (
    BEAT,
    GAP,
    PLAYERS,
    beat,
    beside,
    gap_between,
    moved,
    player,
    players_list,
)


def row(
    name: str, p: float = 0.01, verdict: str = "changed", change: float = 0.1, **more
) -> Finding:
    values = {"bowler_kind": name}
    found = moved(change, 0.03, verdict, id=f"b.economy.{name}", values=values, **more)
    if found.effect:
        found.told.p = p
    return found


def says(
    *found: Finding,
    of: AnyBeat = BEAT,
    headlines: tuple[str, ...] = (),
    expected: tuple[Expectation, ...] = (),
) -> Chosen:
    view = brief_view([of], expected=list(expected))
    return of_beat(of, view, findings_of(*found, headlines=list(headlines)))


def names(some: list[Finding]) -> list[str]:
    return [each.id.removeprefix("b.economy.") for each in some]


def test_the_surest_changes_are_said_in_the_tables_order():
    rows = [row("a", 0.04), row("b", 0.02), row("c", 0.001), row("d", 0.03)]
    assert names(says(*rows).alone) == ["b", "c", "d"]
    assert says(*rows).together == []


def test_a_headline_comes_before_anything_surer_and_a_refused_row_only_as_one():
    refused = moved(0, 0, CANT_TELL, id="b.economy.e", refused="no_balls")
    rows = [refused, row("a", 0.04), row("b", 0.01), row("c", 0.02), row("d", 0.03)]
    assert names(says(*rows).alone) == ["b", "c", "d"]
    assert names(says(*rows, headlines=("b.economy.a",)).alone) == ["a", "b", "c"]
    assert names(says(*rows, headlines=("b.economy.e",)).alone) == ["e", "b", "c"]


def test_what_people_say_wrongly_comes_before_what_they_say_rightly():
    rows = [row("a", 0.01), row("b", 0.02), row("c", 0.03), row("d", 0.04), row("f", 0.05)]

    def saying(name: str, means: str) -> Expectation:
        return Expectation(say=name, finding=f"b.economy.{name}", means=means)

    wrong, right = saying("f", "falls"), saying("d", "rises")
    assert names(says(*rows, expected=(wrong, right)).alone) == ["a", "d", "f"]
    two = says(row("a", 0.01), *rows[1:], expected=(wrong,), headlines=("b.economy.c",))
    assert names(two.alone) == ["a", "c", "f"]


def test_what_goes_against_the_surest_change_is_said_before_what_goes_with_it():
    rows = [row("a", 0.001), row("b", 0.002), row("c", 0.003), row("d", 0.02, change=-0.1)]
    assert names(says(*rows).alone) == ["a", "b", "d"]


def test_several_that_cant_be_told_are_one_line_beside_what_can():
    rows = [row("a"), *(row(name, verdict=CANT_TELL) for name in "bcdefg")]
    said = says(*rows)
    assert names(said.alone) == ["a"] and names(said.together) == ["b", "c", "d"]
    assert len(said.others) == 3 and len(said.together) == MOST_TOGETHER


def test_where_nothing_can_be_told_one_is_told_with_its_numbers_all_the_same():
    rows = [row(name, verdict=CANT_TELL) for name in "abc"]
    said = says(*rows, headlines=("b.economy.b",))
    assert names(said.alone) == ["b"] and names(said.together) == ["a", "c"]
    assert names(says(rows[0]).alone) == ["a"]


def test_one_with_a_step_beside_its_drift_is_told_by_itself():
    rows = [row(name, verdict=CANT_TELL) for name in "abc"]
    stepped = row("d", verdict=CANT_TELL, drift=beside(BEYOND))
    said = says(row("e"), *rows, stepped)
    assert names(said.together) == ["a", "b", "c"] and names(said.alone) == ["e", "d"]


def test_what_a_beat_asks_is_told_before_what_changed_more_surely():
    gap = gap_between(0.03, 0.09, 0.06, 0.12, CANT_TELL, id="b.economy.gap")
    rows = [row("a", 0.01), row("b", 0.02), row("c", 0.03), gap]
    assert "gap" in names(says(*rows, of=GAP).alone)


def test_only_players_who_are_told_apart_are_named():
    everyone = moved(0.1, 0.03, id="b.economy.all", values={})
    found = [everyone, player(True, id="b.economy.q"), player(False, id="b.economy.p")]
    assert names(says(*found, of=PLAYERS).alone) == ["all", "q"]
    assert names(says(*found, of=PLAYERS, headlines=("b.economy.p",)).alone) == ["all", "q", "p"]


def test_what_an_earlier_beat_answers_comes_after_what_is_new():
    again = row("a", 0.0001, again="x.economy.a")
    rows = [again, row("b", 0.02), row("c", 0.03), row("d", 0.04)]
    assert names(says(*rows).alone) == ["b", "c", "d"]


def mixed(measure: str) -> list[Finding]:
    """The whole, which changed, and two groups that nobody can tell, of a mix of this measure."""

    def one(cell: str, verdict: str, half: float, **more) -> Finding:
        identity = f"b.{measure}.{cell}"
        return moved(0.1, half, verdict, id=identity, measure=measure, cell=cell, **more)

    groups = [
        one(name, CANT_TELL, 0.3, values={"bowler_kind": name}, shares=(0.4, 0.5))
        for name in ("pace", "spin")
    ]
    return [one("all", "changed", 0.03, values={}), *groups]


def test_a_headline_has_the_line_that_is_left_beside_what_all_rows_say():
    of = beat("mix", where={"phase": ["middle"]}, by=["bowler_kind"], measure=["economy", "fours"])
    found = findings_of(*mixed("economy"), *mixed("fours"), headlines=["b.fours.all"])
    said = of_beat(of, brief_view([of]), found)
    assert [each.id for each in said.told] == ["b.fours.all"]
    lines = lines_of(of, brief_view([of]), found)
    assert [len(each) for each in lines.values()] == [1, 2]


def test_lists_of_many_measures_leave_a_line_for_a_finding():
    of = beat("players", role="bowler", at_least="300 balls", measure=["economy", "fours", "sixes"])
    view = brief_view([BEAT])
    measures = {**view.measures, "sixes": FOURS}
    view = view.model_copy(update={"beats": [of], "measures": measures})
    rows = [moved(0.1, 0.03, id=f"b.{name}", measure=name, values={}) for name in of.measures]
    lists = {f"b.{name}": players_list(2) for name in of.measures}
    found = findings_of(*rows, headlines=["b.sixes"], lists=lists)
    assert [each.id for each in of_beat(of, view, found).alone] == ["b.sixes"]
    lines = lines_of(of, view, found)
    assert sum(map(len, lines.values())) == MOST
