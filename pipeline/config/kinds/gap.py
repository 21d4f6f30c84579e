"""gap: did the second group change more than the first?"""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from pipeline.config.kinds.base import Traits, TwoGroups
from pipeline.config.selection import CutNames


class Gap(TwoGroups):
    """Did the second group change more than the first?"""

    traits: ClassVar[Traits] = Traits("windows", has_whole=False, panel=True)

    kind: Literal["gap"] = Field(description="the kind of beat")
    by: Annotated[CutNames, Field(max_length=1)] = Field(
        [], description="one more cut to divide by"
    )

    @property
    def cuts(self) -> list[str]:
        return [*self.between, *self.by]

    @property
    def groupings(self) -> list[list[str]]:
        finest = [[*self.between], self.cuts] if self.by else [self.cuts]
        return [[], *finest]

    @property
    def made_groupings(self) -> list[list[str]]:
        """A gap in each value of the other cut."""
        return [list(self.by)]
