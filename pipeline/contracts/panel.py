"""A headline asked again in other reasonable ways, fixed before anybody saw a number."""

from __future__ import annotations

from pipeline.contracts.base import Contract
from pipeline.contracts.codes import Refusal, Stretch, Verdict, Way


class Choice(Contract, kw_only=True):
    """One other way: the same estimate of other matches, with its verdict by the same rule.

    `what` is the window, the name of what is left out, the match, or the codes of what is held
    still; '' of a way that needs none.
    `value` and its ends are on the scale that the headline is told on (a share's points, else a
    fraction) and at its level; none where it is `refused`. `same`: the verdict is the headline's
    and, of a change, so is its way.
    """

    kind: Way
    what: str
    value: float | None
    low: float | None
    high: float | None
    verdict: Verdict
    same: bool
    refused: Refusal | None = None


class Panel(Contract, kw_only=True):
    """All of them, by kind; `stretch` is what a window is longer or shorter by, and a period."""

    stretch: Stretch
    choices: list[Choice]

    @property
    def same(self) -> int:
        return sum(choice.same for choice in self.choices)

    @property
    def turned(self) -> list[Choice]:
        """Those in which it comes out otherwise."""
        return [choice for choice in self.choices if not choice.same]
