"""trend: the long series over time, period by period, with the events marked."""

from __future__ import annotations

from typing import ClassVar, Literal

from pydantic import Field

from pipeline.config.kinds.base import Beat, Control, Traits
from pipeline.contracts.codes import Unit


class Trend(Beat):
    """The long series over time, period by period, with the events marked."""

    traits: ClassVar[Traits] = Traits("series", composed=True, panel=True)

    kind: Literal["trend"] = Field(description="the kind of beat")
    every: Unit | None = Field(
        None, description="a point of the series; the topic's period when absent"
    )
    blind: bool = Field(False, description="frames with the time axis and the event hidden, too")
    control: Control | None = Field(None, description="instead of the event's own control")

    @property
    def held_against(self) -> Control | None:
        return self.control

    @property
    def point(self) -> Unit | None:
        return self.every

    @property
    def hides_when(self) -> bool:
        return self.blind
