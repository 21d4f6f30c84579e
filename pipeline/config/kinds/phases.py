"""phases: a measure along the innings, over by over or in bands, before and after."""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

from pydantic import BeforeValidator, Field, WithJsonSchema

from pipeline.config.fields import Bands, OverRange, parse_bands
from pipeline.config.kinds.base import Beat, Control, Traits


class Phases(Beat):
    """A measure along the innings, over by over or in bands, before and after."""

    traits: ClassVar[Traits] = Traits("windows", has_whole=False, composed=True, panel=True)

    kind: Literal["phases"] = Field(description="the kind of beat")
    bands: Annotated[
        Bands | None,
        BeforeValidator(parse_bands),
        WithJsonSchema({"description": "5 overs | [1-6, 7-15, 16-20]"}),
    ] = Field(None, description="a tenth of the innings each when absent")
    control: Control | None = Field(None, description="instead of the event's own control")

    @property
    def cuts(self) -> list[str]:
        return ["band"]

    @property
    def held_against(self) -> Control | None:
        return self.control

    def ranges(self, overs: int | None) -> list[OverRange]:
        """The over ranges: as given, or a tenth of the innings each.

        `overs` are an innings'; None (no limit) goes with bands that are written out.
        """
        if isinstance(self.bands, list):
            return [(first, last) for first, last in self.bands]
        if overs is None:
            raise ValueError("bands of a number of overs need an innings of a number of overs")
        each = self.bands or max(1, overs // 10)
        return [(first, min(first + each - 1, overs)) for first in range(1, overs + 1, each)]
