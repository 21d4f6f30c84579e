"""A fact that somebody asks about by its id: which topic has it, and what bears on it."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import TYPE_CHECKING

from pipeline.contracts.findings import Findings
from pipeline.contracts.selection import Fix
from pipeline.errors import Problem, UserError, nearest

if TYPE_CHECKING:
    import pandas as pd


def topic_of(name: str, known: Mapping[str, Collection[str]]) -> str:
    """The one topic that has the id; `known` has the ids of each. Raises UserError otherwise."""
    having = [topic for topic, ids in known.items() if name in ids]
    if len(having) == 1:
        return having[0]
    if having:
        message = f"{len(having)} topics have it: {', '.join(having)}; name one with --topic"
        raise UserError(Problem(name, message))
    near = nearest(name, [identity for ids in known.values() for identity in ids])
    hint = f" (did you mean '{near}'?)" if near else "; the brief's index lists them all"
    raise UserError(Problem(name, f"no such fact{hint}"))


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
