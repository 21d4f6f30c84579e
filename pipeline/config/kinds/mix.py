"""mix: how much of a change is who did what, and how much is the rates themselves?"""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from pipeline.config.kinds.base import Beat, Traits
from pipeline.config.selection import CutNames


class Mix(Beat):
    """How much of a change is who did what, and how much is the rates themselves?"""

    traits: ClassVar[Traits] = Traits("windows", per_ball=True, drifts="whole")

    kind: Literal["mix"] = Field(description="the kind of beat")
    by: Annotated[CutNames, Field(min_length=1)] = Field(description="the groups of the mix")

    @property
    def cuts(self) -> list[str]:
        return list(self.by)

    @property
    def known(self) -> list[str]:
        return list(self.by)

    @property
    def made_rows(self) -> list[str]:
        """The two parts of the change."""
        return ["mix", "rates"]
