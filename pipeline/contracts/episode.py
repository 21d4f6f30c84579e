"""episode.json: what is said in an episode, in its order, with what each line is of."""

from __future__ import annotations

from typing import Literal

from pipeline.contracts.base import Contract

Role = Literal["sets the scene", "answers", "turns", "cuts against", "widens", "closes"]


class SpokenLine(Contract, kw_only=True):
    """A line to say; `findings` are the ids of those that it is of.

    `facts` are numbers that are known to be its own; mostly they are found among its findings'.
    """

    text: str
    findings: list[str]
    facts: list[str] = []


class SpokenBeat(Contract, kw_only=True):
    """A beat as it is said: how it begins after the one before it, then its lines."""

    id: str
    title: str
    role: Role | None
    opening: str  # said first; '' where its first line needs none
    lines: list[SpokenLine]
    charts: list[str]


class Episode(Contract, kw_only=True):
    """What is said, from the cold open to the close; `order` holds the beats' ids as they are told.

    `other_order` is offered where another one would put the answer earlier, with the `reason`.
    """

    topic: str
    cold_open: list[SpokenLine]
    answer: list[SpokenLine]
    beats: list[SpokenBeat]
    close: list[SpokenLine]
    other_order: list[str] = []
    reason: str = ""
