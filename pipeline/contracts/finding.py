"""A finding: the answer to one comparison, signed and unrounded; a type for each kind of answer."""

from __future__ import annotations

from pipeline.contracts.base import Contract
from pipeline.contracts.codes import Adjustment, Because, MeasureKind, Refusal, Verdict
from pipeline.contracts.comparison import Comparison
from pipeline.contracts.composition import Composition
from pipeline.contracts.notes import AnyNote
from pipeline.contracts.over_time import ControlCheck, Drift, TurningDate, Yardstick
from pipeline.contracts.panel import Panel
from pipeline.contracts.parts import Effect, Felt, GroupChange, Margin, OfWhole, Shrunk, Side


class Answer(Contract, tag_field="about", kw_only=True):
    """What every finding has. `effect` is none where it is `refused`.

    `cell` is the row's id inside its beat ('all' for the whole), `values` what it is of. The
    verdict is set by the family that the finding is judged in; `asked_at` is the error rate at
    which a change was asked for there, and `again` the first finding that answers the same
    question, where this is not it. A headline of a kind that is asked again has its `panel`.
    """

    id: str
    beat: str
    measure: str
    asks: Comparison
    sides: tuple[str, str]
    cell: str
    values: dict[str, str]
    refused: Refusal | None
    effect: Effect | None
    margin: Margin
    kind: MeasureKind
    notes: list[AnyNote]
    verdict: Verdict = "can't tell"
    because: Because = "refused"
    p_adjusted: float | None = None
    adjusted_by: Adjustment | None = None
    family_size: int = 0
    asked_at: float = 0.05
    again: str | None = None
    panel: Panel | None = None

    @property
    def told(self) -> Effect:
        """The effect of a finding that was not refused."""
        if self.effect is None:
            raise ValueError(f"{self.id} is refused: it has no effect to tell")
        return self.effect


class Change(Answer, tag="change", kw_only=True):
    """A change between two windows; `shares` are a mix's group's shares of the balls.

    `composition` is what else changed, of headlines of kinds that are asked. `yardstick` is how far
    it moves with no event, where the drift beside it could be tested.
    """

    a: Side
    b: Side
    felt: Felt | None = None
    drift: Drift | None = None
    control: ControlCheck | None = None
    shares: tuple[float, float] | None = None
    composition: Composition | None = None
    yardstick: Yardstick | None = None


class Groups(Answer, tag="groups", kw_only=True):
    """Two groups compared, with no event."""

    a: Side
    b: Side
    felt: Felt | None = None


class Gap(Answer, tag="gap", kw_only=True):
    """How much more the second group changed than the first."""

    a: GroupChange
    b: GroupChange
    drift: Drift | None = None


class Mix(Answer, tag="mix", kw_only=True):
    """What the change of who did what was worth by itself."""

    a: Side
    b: Side
    of_whole: OfWhole | None = None


class Rates(Answer, tag="rates", kw_only=True):
    """What the rates themselves did, the mix held still."""

    a: Side
    b: Side
    of_whole: OfWhole | None = None


class Turn(Answer, tag="turn", kw_only=True):
    """When it changed, asked without being told; none when there are too few points."""

    a: Side
    b: Side
    turn: TurningDate | None


class Player(Answer, tag="player", kw_only=True):
    """One player's change, raw and drawn in."""

    a: Side
    b: Side
    shrunk: Shrunk | None


Finding = Change | Groups | Gap | Mix | Rates | Turn | Player


def drift_of(finding: Finding) -> Drift | None:
    """The second verdict of the answers that have one."""
    return finding.drift if isinstance(finding, Change | Gap) else None


def control_of(finding: Finding) -> ControlCheck | None:
    return finding.control if isinstance(finding, Change) else None


def yardstick_of(finding: Finding) -> Yardstick | None:
    """How far its number moves with no event, where that can be told from none."""
    yardstick = finding.yardstick if isinstance(finding, Change) else None
    return yardstick if yardstick and yardstick.told else None


def felt_of(finding: Finding) -> Felt | None:
    return finding.felt if isinstance(finding, Change | Groups) else None
