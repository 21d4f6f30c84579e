"""groups: two groups compared, with no event."""

from __future__ import annotations

from collections.abc import Iterator
from typing import ClassVar, Literal

from pydantic import Field

from pipeline.config.kinds.base import Traits, TwoGroups
from pipeline.config.selection import CutNames


class Groups(TwoGroups):
    """Two groups compared, with no event: the second against the first."""

    traits: ClassVar[Traits] = Traits("groups", takes_matches=True, marginals=True, drifts="none")

    kind: Literal["groups"] = Field(description="the kind of beat")
    by: CutNames = Field([], description="up to two cuts to divide by")

    @property
    def cuts(self) -> list[str]:
        return list(self.by)

    def touched(self) -> Iterator[str]:
        yield from super().touched()
        yield from self.between
