"""How much of a topic's balls has the known kind, arm, hand or country that its beats lean on."""

from __future__ import annotations

from pipeline.config.cuts import COVERED_NAMES
from pipeline.contracts.notes import UnknownLeftOut
from pipeline.contracts.selection import Holdings
from pipeline.text import listed
from pipeline.wording import numbers
from pipeline.wording.noted import About, Noted

ENOUGH = 0.95  # under this share of known balls the brief cautions


def known(data: Holdings) -> dict[str, float]:
    """Shares of valid balls that are known, of the things that the topic leans on."""
    return {name: 1 - count / data.balls for name, count in data.unknown_balls.items()}


def known_line(data: Holdings) -> str:
    """'known, of the balls: bowling kind 96.9%'; blank when the topic leans on nothing."""
    parts = [
        f"{COVERED_NAMES[name]} {numbers.percent(share, 1, signed=False)}"
        for name, share in known(data).items()
    ]
    return f"known, of the balls: {listed(parts)}" if parts else ""


def thin(data: Holdings) -> list[Noted]:
    """A note on each thing leant on that is known for too few of the topic's balls."""
    return [
        Noted(UnknownLeftOut(share=1 - share), About(unknown=(name,)))
        for name, share in known(data).items()
        if share < ENOUGH
    ]
