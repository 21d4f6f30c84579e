"""Looks of earlier builds: those that today's family counts, and which version a headline is."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

import numpy as np

from pipeline.contracts.finding import Finding
from pipeline.contracts.ledger import EarlierLook, Version
from pipeline.significance.methods.ratio import Floats


class Counted(NamedTuple):
    """Earlier headlines that the families of today's headlines count, one line a question.

    `looks` ask of a number, whatever it was held against; `controls` of a number and its control.
    """

    looks: list[EarlierLook]
    controls: list[EarlierLook]

    @property
    def changes(self) -> Floats:
        """p of each change; of a refused one 1, as it counts among today's."""
        return _or_one(look.p for look in self.looks)

    @property
    def helds(self) -> Floats:
        return _or_one(look.p_held for look in self.looks)

    @property
    def steps(self) -> Floats:
        """p of each step beside the drift that was tested."""
        return np.array([look.p_step for look in self.looks if look.p_step is not None])

    @property
    def beyond(self) -> Floats:
        """p of each that was held against a control."""
        return np.array([look.p_control for look in self.controls if look.p_control is not None])


NONE = Counted([], [])


def counted(earlier: Sequence[EarlierLook], findings: list[Finding], ids: list[str]) -> Counted:
    """Of `earlier`, by date, the headlines whose question is none of today's headlines.

    What was only expected is in the family of tables, whose rate is a share of the rows that are
    called: rows that are looked at no more call nothing, so they are not counted there.
    """
    heads = [finding.asks for finding in findings if finding.id in ids]
    chosen = [look for look in earlier if look.role == "headline"]
    return Counted(
        _once(chosen, lambda look: look.asks.look, {asks.look for asks in heads}),
        _once(chosen, lambda look: look.asks.identity, {asks.identity for asks in heads}),
    )


def _once(
    looks: list[EarlierLook], key: Callable[[EarlierLook], str], today: set[str]
) -> list[EarlierLook]:
    found: dict[str, EarlierLook] = {}
    for look in looks:
        if key(look) not in today:
            found.setdefault(key(look), look)
    return list(found.values())


def _or_one(values: Iterable[float | None]) -> Floats:
    return np.array([1.0 if value is None else value for value in values])


def versions(
    earlier: Sequence[EarlierLook], findings: list[Finding], ids: list[str]
) -> dict[str, Version]:
    """Of each headline that was asked otherwise before: its number, and the other windows tried."""
    found = {}
    for finding in findings:
        if finding.id in ids:
            others = {
                look.asks.identity: look.asks.sides
                for look in earlier
                if look.asks.question == finding.asks.question
                and look.asks.identity != finding.asks.identity
            }
            if others:
                windows = len(set(others.values()) - {finding.asks.sides})
                found[finding.id] = Version(number=len(others) + 1, windows=windows)
    return found
