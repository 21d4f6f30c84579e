"""A fact that somebody asks about by its id: which topic has it, and what bears on it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING

from pipeline.contracts.facts import Fact
from pipeline.contracts.findings import Findings
from pipeline.contracts.selection import Fix
from pipeline.errors import Problem, UserError, nearest
from pipeline.short_ids import full

if TYPE_CHECKING:
    import pandas as pd


# Of a finding's facts, the one that is meant where only one can be: when it turned, how much it
# moved, in per cent or in points.
CHIEF = ("date", "change", "difference")


def meant(name: str, facts: Sequence[Fact]) -> list[Fact]:
    """The facts that an id means, in full or for short: the fact itself, or all of a finding's."""
    for asked in _in_full(name, facts):
        for key in ("id", "finding"):
            if found := [fact for fact in facts if getattr(fact, key) == asked]:
                return found
    return []


def chief(name: str, facts: Sequence[Fact]) -> Fact | None:
    """The one fact that an id means: itself, or of a finding's facts the one to be told.

    None where nothing has the id, or its finding has no number of its own.
    """
    found = meant(name, facts)
    if len(found) == 1 and found[0].id in _in_full(name, facts):
        return found[0]
    parts = {fact.id.rpartition(".")[2]: fact for fact in found}
    return next((parts[part] for part in CHIEF if part in parts), None)


def _in_full(name: str, facts: Sequence[Fact]) -> list[str]:
    """The id as it is, and in full."""
    measures: dict[str, list[str]] = {}
    for fact in facts:
        own = measures.setdefault(fact.beat or "", [])
        if fact.measure and fact.measure not in own:
            own.append(fact.measure)
    return list(dict.fromkeys((name, full(name, measures))))


def topic_of(name: str, known: Mapping[str, Sequence[Fact]]) -> tuple[str, list[Fact]]:
    """(the one topic that has the id, the facts that it means there), of the facts of each topic.

    Raises UserError where no topic has it, or more than one.
    """
    having = {topic: found for topic, facts in known.items() if (found := meant(name, facts))}
    if len(having) == 1:
        return next(iter(having.items()))
    if having:
        message = f"{len(having)} topics have it: {', '.join(having)}; name one with --topic"
        raise UserError(Problem(name, message))
    raise UserError(Problem(name, f"no such fact{no_fact(name, known.values())}"))


def no_fact(name: str, known: Iterable[Sequence[Fact]]) -> str:
    """What to ask for instead of an id that means no one fact."""
    facts = [fact for each in known for fact in each]
    if found := meant(name, facts):
        ids = ", ".join(fact.id for fact in found)
        return f" of its own, since the finding has no interval; it has {ids}"
    several = sorted({f"{fact.beat}.{fact.measure}" for fact in facts if fact.beat == name})
    if several:
        return f"; '{name}' has several measures: write one of {', '.join(several)}"
    near = nearest(name, dict.fromkeys(fact.id for fact in facts))
    return f" (did you mean '{near}'?)" if near else "; the brief's index lists them all"


def touching(finding: str | None, findings: Findings, rows: pd.DataFrame) -> list[Fix]:
    """The corrections that bear on a fact's own matches, or on a player or a ground anywhere.

    `finding` is the id of the one that the fact is of; `rows` are the tallies of the fact's beat.
    """
    cell = next((each.cell for each in findings.findings if each.id == finding), "all")
    mine = rows[rows["cell"] == cell] if cell in set(rows["cell"]) else rows
    matches = set(mine["match_id"])
    if not matches:
        return []
    return [
        fix
        for fix in findings.corrections
        if "match" not in fix.place or fix.place["match"] in matches
    ]
