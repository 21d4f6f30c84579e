"""The kinds of beat: each declared once, as a model with its traits."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from pipeline.config.kinds.base import AnyKind, kind_of
from pipeline.config.kinds.before_after import BeforeAfter
from pipeline.config.kinds.gap import Gap
from pipeline.config.kinds.groups import Groups
from pipeline.config.kinds.mix import Mix
from pipeline.config.kinds.phases import Phases
from pipeline.config.kinds.players import Players
from pipeline.config.kinds.share import Share
from pipeline.config.kinds.streaks import Streaks
from pipeline.config.kinds.trend import Trend
from pipeline.config.kinds.turning_point import TurningPoint

AnyBeat = Annotated[
    BeforeAfter | Gap | Trend | TurningPoint | Phases | Share | Mix | Groups | Players | Streaks,
    Field(discriminator="kind"),
]
# In the order in which they are documented.
MODELS: tuple[type[AnyKind], ...] = (
    *(BeforeAfter, Gap, Trend, TurningPoint, Phases, Share, Mix, Groups, Players, Streaks),
)
KINDS = {kind_of(model): model for model in MODELS}
