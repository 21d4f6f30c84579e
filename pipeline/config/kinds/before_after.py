"""before_after: how did a measure change across the event, overall and by up to two cuts?"""

from __future__ import annotations

from typing import ClassVar, Literal

from pydantic import Field

from pipeline.config.kinds.base import Beat, Control, Traits
from pipeline.config.selection import CutNames


class BeforeAfter(Beat):
    """How did a measure change across the event, overall and by up to two cuts?"""

    traits: ClassVar[Traits] = Traits(
        "windows", takes_matches=True, marginals=True, composed=True, panel=True
    )

    kind: Literal["before_after"] = Field(description="the kind of beat")
    by: CutNames = Field([], description="up to two cuts to divide by")
    control: Control | None = Field(None, description="instead of the event's own control")

    @property
    def cuts(self) -> list[str]:
        return list(self.by)

    @property
    def held_against(self) -> Control | None:
        return self.control
