"""What else changed between the two windows of a headline, and the change without it."""

from __future__ import annotations

from pipeline.contracts.base import Contract
from pipeline.contracts.codes import Alike, OfBalls, Shown, UnlikeBecause
from pipeline.contracts.parts import Span

MUCH = 0.05  # of the balls: what moved less is not named


class Moved(Contract, kw_only=True):
    """One thing that the balls of both windows are of, and how its mix changed.

    `value` is the one whose share of the balls moved most, from `before` to `after`; `variation`
    half of what all shares moved, 0 for none and 1 for nothing in common. `effect` is what that mix
    would have made of the number by itself, with its 95 % interval, on the scale that is told: a
    fraction, of a share points; none where it has no honest error.
    """

    by: OfBalls
    value: str
    before: float
    after: float
    variation: float
    effect: Span | None

    @property
    def much(self) -> bool:
        """Whether its share moved enough to be named."""
        return abs(self.after - self.before) >= MUCH


class LeftOut(Contract, kw_only=True):
    """What the regression could not hold still: one value, or all of it where there is none."""

    by: OfBalls
    value: str | None = None


class Composition(Contract, kw_only=True):
    """What else changed, the largest first, and the change like for like, in two ways.

    `like_for_like` is over what was met in both windows and weighted `alike` in both: so many
    `sides`, and `kept` of each window's balls; `held_still` by a regression on what is `held`, but
    for `left_out`. Both are on the scale that is told, with 95 % intervals, or refused for a
    reason. `beyond` is each less the plain change; `differs` that this is told from none and more
    than the error, of the first of the two of which it is.
    """

    moved: list[Moved]
    like_for_like: Span | None = None
    differs: Shown | None = None
    beyond: dict[Shown, Span] = {}
    alike: Alike | None = None
    sides: int = 0
    kept: tuple[float, float] | None = None
    unlike: UnlikeBecause | None = None
    held_still: Span | None = None
    held: list[OfBalls] = []
    left_out: list[LeftOut] = []
    unheld: UnlikeBecause | None = None

    @property
    def instead(self) -> Span | None:
        """The number that shows that the change is another one."""
        shown = {"like for like": self.like_for_like, "held still": self.held_still}
        return shown[self.differs] if self.differs else None
