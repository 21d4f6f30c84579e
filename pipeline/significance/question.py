"""One measure of one beat as it is asked: its rows, its cells, its sides, how it is answered."""

from __future__ import annotations

from datetime import date
from functools import cached_property
from typing import TYPE_CHECKING, Any

import pandas as pd

from pipeline.config.comparison import comparison_of
from pipeline.contracts.codes import Unit
from pipeline.contracts.comparison import Asks, Comparison
from pipeline.contracts.parts import Drift, Felt, Margin
from pipeline.contracts.selection import BeatSelection, Cell, Selection
from pipeline.contracts.timing import Period, Timing, Windows
from pipeline.event_of import event_of
from pipeline.periods import Grid
from pipeline.significance.arrays import WINDOWS, pair
from pipeline.significance.change import compare
from pipeline.significance.effects import AnySide, Compared
from pipeline.significance.on_the_field import felt, stretch_of
from pipeline.significance.second_verdict import asked_of, drift_checks

if TYPE_CHECKING:
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.kinds.base import Control
    from pipeline.config.project import Statistics
    from pipeline.config.views import Scale, SignificanceView
    from pipeline.contracts.parts import Side

WHOLE = Cell(id="all", values={}, known=True)


class Question:
    """One measure of one beat: its rows, its cells, and what is known of the topic.

    `every` are its rows of every season; `control` those of its control, whose windows begin with
    that word.
    """

    def __init__(
        self,
        beat: AnyBeat,
        name: str,
        rows: pd.DataFrame,
        view: SignificanceView,
        selection: Selection,
    ):
        self.beat, self.name, self.view, self.selection = beat, name, view, selection
        self.scale: Scale = view.measures[name]
        self.statistics: Statistics = view.statistics
        self.about: BeatSelection = selection.beats[beat.id]
        self.timing: Timing = selection.timing_of(beat.about)
        of_control = rows["window"].str.startswith("control ") & (self.about.control is not None)
        self.control, self.every = rows[of_control], rows[~of_control]

    @property
    def windows(self) -> Windows | None:
        return self.timing.windows

    @property
    def unit(self) -> Unit:
        """What a point of its series is."""
        return self.beat.point or self.timing.unit

    @property
    def periods(self) -> list[Period]:
        return self.timing.periods[self.unit]

    def grid(self, unit: Unit) -> Grid:
        """How the calendar is cut for the event that the beat is about."""
        event = event_of(self.view, self.beat)
        return Grid(unit, event.date, event.settled) if event else Grid(unit)

    def by_period(self, unit: Unit) -> pd.DataFrame:
        """All its rows, each with the name of its period."""
        labels = self.grid(unit).labels(self.every["season"], _days(self.every["date"]))
        return self.every.assign(period=labels)

    @cached_property
    def compared(self) -> pd.DataFrame:
        """The rows of both sides; a group may well be called 'outside', a window is not."""
        match self.beat.traits.compares:
            case "groups":
                return self.every
            case "series":
                return _in_windows(self.every, self.windows)
            case "windows":
                return self.every[self.every["window"].isin(WINDOWS)]

    @property
    def groups(self) -> tuple[str, str, str]:
        """(the cut, its two values) of a beat that holds two groups against each other."""
        if self.beat.groups is None:
            raise ValueError(f"beat '{self.beat.id}' has no two groups")
        return self.beat.groups

    @property
    def cells(self) -> list[Cell]:
        """The cells whose values are all known, in the order they are told."""
        return [cell for cell in self.about.cells if cell.known]

    @property
    def finest(self) -> list[Cell]:
        """The cells that divide the whole: of all of its cuts."""
        return [
            cell for cell in self.cells if cell.values and len(cell.values) == len(self.beat.cuts)
        ]

    @property
    def unknown(self) -> float:
        """Share of the beat's balls that fall in cells of unknown kind, hand or arm."""
        rows = self.compared
        total = rows.loc[rows["cell"] == "all", "balls"].sum()
        unknown = [cell.id for cell in self.about.cells if not cell.known]
        return float(rows.loc[rows["cell"].isin(unknown), "balls"].sum() / total) if total else 0.0

    def compare(self, cells: list[Cell], sides: tuple[str, str] = WINDOWS) -> list[Compared[Side]]:
        """Both sides of each cell, and their difference."""
        whole = pair(self.compared, [cell.id for cell in cells], sides)
        return compare(whole, self.scale, self.statistics)

    def drifts(
        self, cells: list[str], against: list[str] | None = None, per: float | None = None
    ) -> list[Drift]:
        """What the periods say of each cell's change, or of its gap to another's."""
        event = event_of(self.view, self.beat)
        if event is None:
            raise ValueError(f"beat '{self.beat.id}' has no event whose drift could be asked")
        asked = asked_of(self.timing, self.selection.seasons, event)
        return drift_checks(self.by_period(self.timing.unit), cells, asked, against, per)

    def felt(self, values: dict[str, str], result: Compared[Side]) -> Felt | None:
        """The same difference on the field."""
        stretch = stretch_of(self.timing)
        return felt(self.beat, values, result, self.scale, self.view.format, stretch)

    def answer(
        self, asks: Asks, cell: str, values: dict[str, str], sides: tuple[str, str]
    ) -> dict[str, Any]:
        """What a finding is of: its id, its place and the comparison that it answers."""
        return {
            "id": finding_id(self.beat.id, self.name, cell),
            "beat": self.beat.id,
            "measure": self.name,
            "asks": self.comparison(asks, cell, values),
            "sides": sides,
            "cell": cell,
            "values": values,
        }

    def numbers(self, result: Compared[AnySide]) -> dict[str, Any]:
        """What was found of it."""
        return {
            "a": result.a,
            "b": result.b,
            "refused": result.refused,
            "effect": result.effect,
            "margin": Margin(size=self.scale.margin.size, unit=self.scale.margin.unit),
            "kind": self.scale.kind,
            "notes": list(result.notes),
        }

    def comparison(self, asks: Asks, cell: str, values: dict[str, str]) -> Comparison:
        """The question that a finding answers, whichever beat shows it."""
        return comparison_of(
            self.beat, self.name, asks, values, self.timing, self._held_against(cell)
        )

    def _held_against(self, cell: str) -> Control | None:
        """The control of a cell that has one: one that overlaps the cell is none."""
        control = self.about.control
        return self.beat.held_against if control and cell in control.pairs else None


def question_of(
    beat: AnyBeat,
    name: str,
    tallies: pd.DataFrame,
    view: SignificanceView,
    selection: Selection,
) -> Question:
    """One measure of a beat, of the topic's tallies."""
    rows = tallies[(tallies["beat"] == beat.id) & (tallies["measure"] == name)]
    return Question(beat, name, rows, view, selection)


def finding_id(beat: str, measure: str, cell: str) -> str:
    """'kinds.economy.spin-death'; the whole beat's finding has no cell."""
    return f"{beat}.{measure}" if cell == "all" else f"{beat}.{measure}.{cell}"


def _in_windows(rows: pd.DataFrame, windows: Windows | None) -> pd.DataFrame:
    """A series' rows as a before/after comparison; none when the topic has no event."""
    if windows is None:
        return rows.iloc[:0]
    of_matches = zip(rows["season"], _days(rows["date"]), strict=True)
    sided = rows.assign(window=[windows.side(*match) for match in of_matches])
    return sided[sided["window"].isin(WINDOWS)]


def _days(dates: pd.Series) -> list[date]:
    """Dates of the tallies, whether they are kept as dates or as text."""
    return [date.fromisoformat(day) if isinstance(day, str) else day for day in dates]
