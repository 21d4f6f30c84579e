"""Which lines of a topic's ledger are today's and which earlier ones, and what findings took."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

import msgspec

from pipeline.contracts.comparison import Comparison
from pipeline.contracts.ledger import EarlierLook
from pipeline.errors import Problem, UserError


class Shown(NamedTuple):
    """Identities of what a topic's headlines ask, and its expectations."""

    headlines: frozenset[str]
    expected: frozenset[str]

    def has(self, look: EarlierLook) -> bool:
        """Whether this is a line of today's brief: what is expected may be a headline already."""
        identity = look.asks.identity
        return identity in self.headlines or (look.role == "expected" and identity in self.expected)

    def before(self, ledger: Sequence[EarlierLook]) -> list[EarlierLook]:
        """The lines that are not today's: the same whether today's were added or not."""
        return [look for look in ledger if not self.has(look)]


def shown(asked: dict[str, Comparison], headlines: list[str], expected: list[str]) -> Shown:
    """What is asked today; `asked` are the questions of the findings, by their ids."""
    known = {name: asks.identity for name, asks in asked.items()}
    return Shown(
        *(frozenset(known[name] for name in ids if name in known) for ids in (headlines, expected))
    )


class _Asked(msgspec.Struct):
    id: str
    asks: Comparison


class _Taken(msgspec.Struct):
    """Of findings.json what bears on the ledger, since all of it takes long to read."""

    headlines: list[str]
    findings: list[_Asked]
    expected: list[str] = []
    earlier: list[EarlierLook] = []


def as_counted(findings: Path, ledger: Sequence[EarlierLook]) -> bool:
    """Whether these findings took from the ledger what is in it beside their own lines.

    Raises UserError where they can't be read.
    """
    try:
        taken = msgspec.json.decode(findings.read_bytes(), type=_Taken)
    except (OSError, msgspec.MsgspecError, ValueError) as error:
        raise UserError(Problem(str(findings), f"can't be read: {error}")) from None
    asked = {one.id: one.asks for one in taken.findings}
    return shown(asked, taken.headlines, taken.expected).before(ledger) == taken.earlier
