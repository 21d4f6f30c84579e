"""A beat's page: which findings are put into words, in which order, and how they follow."""

from __future__ import annotations

from pipeline.brief.beats import MOST_SAID, lines_said
from pipeline.config.kinds import KINDS, AnyBeat
from pipeline.contracts.finding import Finding
from tests.brief_makers import brief_view
from tests.chart_makers import ECONOMY
from tests.finding_makers import change, effect

BEAT: AnyBeat = KINDS["before_after"].model_validate(
    {"id": "b", "kind": "before_after", "measure": "economy", "by": "ground"}
)


GROUNDS = ("Alder", "Birch", "Cedar", "Elder")


def row(ground: str, size: float, p: float = 0.001, **more) -> Finding:
    """A row of the beat that changed by so much."""
    found = effect(size, 4.5 * size, p=p)
    return change(f"b.economy.{ground.lower()}", values={"ground": ground}, effect=found, **more)


def lines(*rows: Finding, headlines: tuple[str, ...] = ()) -> list[str]:
    return lines_said(rows, BEAT, ECONOMY, headlines, brief_view([BEAT]))


def grounds(said: list[str]) -> list[str]:
    """Which row each line is of."""
    return [next(name for name in GROUNDS if name in line) for line in said]


def test_lines_that_turn_say_so():
    said = lines(row("Alder", 0.1), row("Birch", -0.1), row("Cedar", 0.1, verdict="held"))
    assert grounds(said) == ["Alder", "Birch", "Cedar"]
    assert [line.startswith("Now the other way. ") for line in said] == [False, True, False]


def test_the_surest_are_said_in_the_order_of_the_table():
    ps = (0.04, 0.01, 0.03, 0.02)
    said = lines(*(row(name, 0.1, p) for name, p in zip(GROUNDS, ps, strict=True)))
    assert len(said) == MOST_SAID and grounds(said) == ["Birch", "Cedar", "Elder"]


def test_a_headline_is_said_before_anything_surer():
    ps = (0.9, 0.01, 0.03, 0.02)
    rows = [row(name, 0.1, p) for name, p in zip(GROUNDS, ps, strict=True)]
    assert grounds(lines(*rows, headlines=("b.economy.alder",))) == ["Alder", "Birch", "Elder"]


def test_what_changed_is_said_first_and_what_is_refused_last():
    held = row("Birch", 0.001, 0.0001, verdict="held")
    rows = (row("Alder", 0.1, refused="few_matches"), held, row("Cedar", 0.1), row("Elder", 0.1))
    assert grounds(lines(*rows)) == ["Birch", "Cedar", "Elder"]
    more = [row(name, 0.1, 0.04) for name in GROUNDS]
    assert grounds(lines(held, *more[2:], more[0])) == ["Cedar", "Elder", "Alder"]
