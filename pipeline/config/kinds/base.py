"""What every kind of beat has, and the traits by which the stages treat it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, ClassVar, Literal, Self, get_args

from pydantic import Field, ValidationInfo, field_validator, model_validator

from pipeline.config.fields import Line, OverRange, Slug, Strict
from pipeline.config.measure import Measure
from pipeline.config.selection import (
    CutName,
    CutNames,
    Measures,
    Selection,
    Values,
    as_list,
    check_values,
)
from pipeline.contracts.codes import Unit

Compares = Literal["windows", "groups", "series"]
Drifts = Literal["rows", "whole", "none"]


@dataclass(frozen=True)
class Traits:
    """What sets a kind apart; a stage asks these, never for the kind's name.

    `compares` two windows, two groups, or every point of a series; `has_whole` says that the row
    of all balls is told beside the others; `takes_matches` that its methods hold for a proportion
    of whole matches; `per_ball` that its measures must be counted against balls; `within` that only
    balls of the two windows are read, not the seasons outside them; `marginals` that a row of
    one of its two cuts alone can be asked for; `drifts` which of its rows are asked for a step
    beside their drift; `panel` that its headlines are asked again in other reasonable ways;
    `composed` that what else changed between the windows is asked of those of its rows that are
    headlines.
    """

    compares: Compares
    has_whole: bool = True
    takes_matches: bool = False
    per_ball: bool = False
    within: bool = False
    marginals: bool = False
    drifts: Drifts = "rows"
    composed: bool = False
    panel: bool = False

    @property
    def timed(self) -> bool:
        """Whether it needs the topic's event."""
        return self.compares == "windows"


class Control(Strict):
    """What the event did not touch: its change is taken off the change that is told."""

    name: Line = Field(description="as it is said: 'overs 1 to 10'")
    competition: Values | None = Field(None, description="another competition of the same format")
    where: Selection = Field(Selection(), description="filters laid over the beat's own")

    @model_validator(mode="after")
    def _says_what(self) -> Control:
        if not self.competition and not self.where.given():
            raise ValueError("a control names a competition, or balls with 'where'")
        return self


class EventControl(Control):
    """The event's control in a beat that names none; it may overlap the whole beat."""


class AnyKind(Strict):
    """What every beat has."""

    traits: ClassVar[Traits]

    id: Slug = Field(description="the beat's name, with which its findings' ids begin")
    title: Line | None = Field(None, description="the beat's own heading; made when absent")
    where: Selection = Field(Selection(), description="which balls; all of the topic's when absent")
    about: Slug | None = Field(
        None, description="another event, by its id in 'also'; the topic's own when absent"
    )
    note: Line | None = Field(None, description="for the presenter; printed on the beat's page")

    @classmethod
    def measures_written(cls, tree: dict[str, Any]) -> list[str]:
        """Names of the measures of a beat as it stands in a file, right or wrong."""
        return [str(name) for name in as_list(tree.get("measure")) or []]

    @property
    def measures(self) -> list[str]:
        """Names of its measures."""
        return self.measures_written(dict(self))

    @property
    def makes(self) -> dict[str, Measure]:
        """Measures that are made of the beat itself, and so stand in no file."""
        return {}

    def ranges(self, overs: int | None) -> list[OverRange]:
        """The over ranges of the 'band' that its rows are of; `overs` are those of an innings."""
        return []

    def relation(self, tables: dict[str, str], conditions: list[str], phase: str) -> str | None:
        """SQL to stand in for the deliveries, of a kind whose rows are not theirs as they are.

        `tables` are paths; `conditions`, on deliveries `d` and matches `m`, choose the balls;
        `phase` is the expression of a ball's phase.
        """
        return None

    @property
    def cuts(self) -> list[str]:
        """The cuts that its rows are divided by, the coarsest first."""
        return []

    @property
    def groupings(self) -> list[list[str]]:
        """The sets of cuts that rows are grouped by: all balls, then finer."""
        return [[], self.cuts] if self.cuts else [[]]

    @property
    def marginals(self) -> list[list[str]]:
        """Each of several cuts alone, whose rows are told only where the topic asks for them."""
        several = self.traits.marginals and len(self.cuts) > 1
        return [[cut] for cut in self.cuts] if several else []

    @property
    def made_groupings(self) -> list[list[str]]:
        """Sets of cuts that its findings are of beside those that rows are grouped by."""
        return []

    @property
    def made_rows(self) -> list[str]:
        """Ids of rows that are of no cut."""
        return []

    @property
    def groups(self) -> tuple[str, str, str] | None:
        """(the cut, its two values) that are held against each other; of kinds that do."""
        return None

    @property
    def counted(self) -> dict[str, list[str]]:
        """The balls that are counted, out of all of that cut that are known; of shares."""
        return {}

    @property
    def known(self) -> list[str]:
        """Cuts whose unknown balls are none of the beat's."""
        return list(self.counted)

    @property
    def person(self) -> Literal["bowler", "batter"] | None:
        """Whose numbers the rows are, where each is one player's."""
        return None

    @property
    def threshold(self) -> str | None:
        """How much it takes to be listed, where only some are: '300 balls'."""
        return None

    @property
    def held_against(self) -> Control | None:
        """What its changes are held against beside the drift."""
        return None

    @property
    def point(self) -> Unit | None:
        """What a point of its series is, where it says so; else it is the topic's period."""
        return None

    @property
    def hides_when(self) -> bool:
        """Whether there are frames that say nothing of when."""
        return False

    def question(self, control: Control | None) -> Self:
        """The beat without its words, and with the event's control where it names none.

        What an event left alone another may have touched.
        """
        update: dict[str, Any] = {"title": None, "note": None}
        own = "control" in type(self).model_fields and not self.about
        if own and self.held_against is None and control:
            update["control"] = EventControl(**control.model_dump())
        return self.model_copy(update=update)

    def touched(self) -> Iterator[str]:
        """Every cut that it divides, compares or filters by."""
        yield from self.cuts
        yield from self.counted
        yield from self.where.given()


class Beat(AnyKind):
    measure: Measures = Field(description="one or more measures of measures.yaml")


def kind_of(model: type[AnyKind]) -> str:
    """The word that a topic writes for it."""
    (word,) = get_args(model.model_fields["kind"].annotation)
    return str(word)


class TwoGroups(Beat):
    """Two values of one cut, the second held against the first."""

    between: dict[CutName, Values] = Field(description="one cut and its two values")
    by: CutNames = Field([], description="cuts to divide by")

    @field_validator("between")
    @classmethod
    def _values_are_known(
        cls, between: dict[str, list[str]], info: ValidationInfo
    ) -> dict[str, list[str]]:
        return known_values(between, info)

    @model_validator(mode="after")
    def _one_cut_two_values(self) -> TwoGroups:
        if len(self.between) != 1 or len(next(iter(self.between.values()))) != 2:
            raise ValueError("'between' names one cut with two values: {region: [coast, inland]}")
        ((cut, (one, other)),) = self.between.items()
        if one == other:
            raise ValueError(f"'between' holds '{one}' against itself; name two values")
        if cut in self.by:
            raise ValueError("'by' names another cut than 'between'")
        return self

    @property
    def groups(self) -> tuple[str, str, str]:
        ((cut, values),) = self.between.items()
        return cut, values[0], values[1]


def known_values(chosen: dict[str, list[str]], info: ValidationInfo) -> dict[str, list[str]]:
    """Values of closed cuts are of their sets."""
    for cut, values in chosen.items():
        check_values(cut, values, info)
    return chosen
