"""turning_point: when did it really change, without being told?"""

from __future__ import annotations

from typing import ClassVar, Literal

from pydantic import Field

from pipeline.config.kinds.base import Beat, Traits
from pipeline.contracts.codes import Unit


class TurningPoint(Beat):
    """When did it really change, without being told?"""

    traits: ClassVar[Traits] = Traits("series", drifts="none")

    kind: Literal["turning_point"] = Field(description="the kind of beat")
    every: Unit | None = Field(
        None, description="a point of the series; the topic's period when absent"
    )
    blind: bool = Field(False, description="frames with the time axis and the event hidden, too")

    @property
    def point(self) -> Unit | None:
        return self.every

    @property
    def hides_when(self) -> bool:
        return self.blind
