"""players: named players with enough in both windows, told apart or not."""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

from pydantic import BeforeValidator, Field, WithJsonSchema

from pipeline.config.fields import Least, parse_least
from pipeline.config.kinds.base import Beat, Traits


class Players(Beat):
    """Named players with enough in both windows: who moved, and who stands clear."""

    traits: ClassVar[Traits] = Traits("windows", within=True, drifts="none")

    kind: Literal["players"] = Field(description="the kind of beat")
    role: Literal["bowler", "batter"] = Field(description="whose numbers they are")
    at_least: Annotated[
        Least,
        BeforeValidator(parse_least),
        WithJsonSchema({"type": "string", "description": "300 balls | 20 matches"}),
    ] = Field(description="in each window")

    @property
    def cuts(self) -> list[str]:
        return [self.role]

    @property
    def threshold(self) -> str:
        return f"{self.at_least.count} {self.at_least.of}"

    @property
    def person(self) -> Literal["bowler", "batter"]:
        return self.role
