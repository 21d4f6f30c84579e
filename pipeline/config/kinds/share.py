"""share: who bowls or faces how much of it, in share and in balls an innings."""

from __future__ import annotations

from typing import Any, ClassVar, Literal

from pydantic import Field, ValidationInfo, field_validator

from pipeline.config.cuts import CUTS
from pipeline.config.fields import Margin
from pipeline.config.kinds.base import AnyKind, Control, Traits, known_values
from pipeline.config.measure import Measure
from pipeline.config.row_ids import UNKNOWN
from pipeline.config.selection import CutName, CutNames, Values, as_list
from pipeline.text import slug

MARGIN = Margin(size=0.6, unit="points")  # two balls in a full one-day innings
SHARED_OUT = ("bowler_kind", "bowler_arm", "bowler_style", "batter_hand")


class Share(AnyKind):
    """Who bowls or faces how much of it, before and after, in share and in balls an innings."""

    traits: ClassVar[Traits] = Traits("windows", marginals=True, composed=True, panel=True)

    kind: Literal["share"] = Field(description="the kind of beat")
    of: dict[CutName, Values] = Field(description="one cut and its values: {bowler_arm: left}")
    by: CutNames = Field([], description="up to two cuts to divide by")
    control: Control | None = Field(None, description="instead of the event's own control")

    @classmethod
    def measures_written(cls, tree: dict[str, Any]) -> list[str]:
        return [share_name(tree["of"])] if isinstance(tree.get("of"), dict) else []

    @property
    def makes(self) -> dict[str, Measure]:
        return {share_name(self.of): share_measure(self.of)}

    @property
    def cuts(self) -> list[str]:
        return list(self.by)

    @property
    def counted(self) -> dict[str, list[str]]:
        return dict(self.of)

    @property
    def held_against(self) -> Control | None:
        return self.control

    @field_validator("of")
    @classmethod
    def _one_kind_of_player(
        cls, of: dict[str, list[str]], info: ValidationInfo
    ) -> dict[str, list[str]]:
        if len(of) != 1 or next(iter(of)) not in SHARED_OUT:
            raise ValueError(f"'of' names one of {', '.join(SHARED_OUT)}: {{bowler_arm: left}}")
        ((cut, values),) = of.items()
        if UNKNOWN in values:
            message = f"a share is of the balls whose {CUTS[cut].name} is known; 'unknown' has none"
            raise ValueError(message)
        return known_values(of, info)


def share_name(of: dict[str, Any]) -> str:
    """The measure that a share beat makes: {bowler_arm: [left]} is 'left-share'."""
    values = [value for listed in of.values() for value in as_list(listed)]
    return f"{'-'.join(slug(str(value)) for value in values)}-share"


def share_measure(of: dict[str, list[str]]) -> Measure:
    """Valid balls of the named kind out of those whose kind is known."""
    ((cut, values),) = of.items()
    named = " and ".join(CUTS[cut].labels.get(value, value) for value in values)
    link = "to" if cut == "batter_hand" else "by"
    whose = f"{named}’" if named.endswith("s") else f"{named}’s"
    return Measure(
        label=f"{whose} share of the balls",
        numerator="legal",
        denominator="legal",
        per=100,
        kind="share",
        unit="per cent of balls",
        spoken="per cent",
        decimals=1,
        rise_favours="neither",
        margin=MARGIN,
        defined=f"valid balls {link} {named}, as a share of those whose {CUTS[cut].name} is known",
    )
