"""One measure of one beat as it is asked: its rows, its cells, its sides, how it is answered."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import cached_property, partial
from typing import TYPE_CHECKING, Any

import pandas as pd

from pipeline.calendar import as_day
from pipeline.config.comparison import comparison_of
from pipeline.config.level_of import level_of
from pipeline.contracts.codes import Unit
from pipeline.contracts.comparison import Asks, Comparison
from pipeline.contracts.over_time import Drift, Yardstick
from pipeline.contracts.parts import Felt, Margin
from pipeline.contracts.selection import BeatSelection, Cell, Selection
from pipeline.contracts.timing import Period, Timing, Windows
from pipeline.event_of import event_of
from pipeline.periods import Grid
from pipeline.significance.arrays import WINDOWS, Pair, cluster_sums, pair
from pipeline.significance.change import compare
from pipeline.significance.effects import AnySide, Compared
from pipeline.significance.level import Alike, ByCluster, by_cluster, by_period
from pipeline.significance.methods.ratio import Floats
from pipeline.significance.on_the_field import felt, stretch_of
from pipeline.significance.second_verdict import Asked, alike_of, asked_of, drift_checks, too_few
from pipeline.significance.yardstick import yardsticks

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
    that word; `made_of` the sums of the batters, bowlers or sides that its groups are made of.
    """

    def __init__(
        self,
        beat: AnyBeat,
        name: str,
        rows: pd.DataFrame,
        view: SignificanceView,
        selection: Selection,
        made_of: pd.DataFrame | None = None,
    ):
        self.beat, self.name, self.view, self.selection = beat, name, view, selection
        self.scale: Scale = view.measures[name]
        self.statistics: Statistics = view.statistics
        self.about: BeatSelection = selection.beats[beat.id]
        self.timing: Timing = selection.timing_of(beat.about)
        of_control = rows["window"].str.startswith("control ") & (self.about.control is not None)
        self.made_of = made_of
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
        return Grid.of(unit, event_of(self.view, self.beat))

    def by_period(self, unit: Unit, of_control: bool = False) -> pd.DataFrame:
        """All its rows, or its control's, each with the name of its period.

        `in_time` is one that stands in the order of time when sorted.
        """
        rows = self.control if of_control else self.every
        if unit == "season":
            places = {one.label: at for at, one in enumerate(self.selection.seasons)}
            seasons = rows["season"]
            order = {label: f"{places.get(label, 0):05} {label}" for label in seasons.unique()}
            return rows.assign(period=seasons, in_time=seasons.map(order))
        grid, days = self.grid(unit), _days(rows["date"])
        begun = {day: grid.begins(day).isoformat() for day in set(days)}
        labels = grid.labels(rows["season"], days)
        return rows.assign(period=labels, in_time=[begun[day] for day in days])

    @cached_property
    def compared(self) -> pd.DataFrame:
        """The rows of both sides, those of windows with their periods.

        A group may well be called 'outside', a window is not.
        """
        match self.beat.traits.compares:
            case "groups":
                return self.every
            case "series":
                return _in_windows(self._every_period, self.windows)
            case "windows":
                rows = self._every_period
                return rows[rows["window"].isin(WINDOWS)]

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

    def compare(self, cells: list[Cell]) -> list[Compared[Side]]:
        """Both windows of each cell, and the change between them, held against its periods'."""
        whole = pair(self.compared, [cell.id for cell in cells], WINDOWS)
        return compare(whole, self.scale, self.statistics, self.by_periods([c.id for c in cells]))

    def by_periods(self, cells: list[str]) -> Callable[[Pair], ByCluster]:
        """What makes the errors of changes of these cells by the topic's periods."""
        return partial(by_period, unit=self.timing.unit, alike=self.alike(cells))

    def alike(self, cells: list[str], against: list[str] | None = None) -> Floats | None:
        """How alike neighbouring periods are beside drift and step, of all there are; else none."""
        if self.scale.by_match or too_few(self.asked_periods):
            return None
        return alike_of(self._every_period, cells, self.asked_periods, against)

    def alike_groups(self, first: list[str], second: list[str]) -> Alike:
        """The same of two groups of cells, and of how the second moves against the first."""
        return Alike(self.alike(first), self.alike(second), self.alike(second, against=first))

    def compare_groups(self, cells: list[Cell], sides: tuple[str, str]) -> list[Compared[Side]]:
        """Both groups of each cell, and their difference, held against what they are made of."""
        names = [cell.id for cell in cells]
        whole = pair(self.compared, names, sides)
        return compare(whole, self.scale, self.statistics, self._by_groups(names, sides))

    def _by_groups(
        self, cells: list[str], sides: tuple[str, str]
    ) -> Callable[[Pair], ByCluster] | None:
        """The errors by what the groups are made of; none where the match is all that varies."""
        level = level_of(self.beat)
        if level == "ground":
            rows = self.compared.rename(columns={"ground": "cluster"})
        elif level is None or self.made_of is None or self.made_of.empty:
            return None
        else:
            rows = self.made_of
        of, (a, b) = level, cluster_sums(rows, cells, sides)
        return lambda _: by_cluster(of, a, b)

    def drifts(
        self, cells: list[str], against: list[str] | None = None, per: float | None = None
    ) -> list[Drift]:
        """What the periods say of each cell's change, or of its gap to another's."""
        return drift_checks(self._every_period, cells, self.asked_periods, against, per)

    def yardsticks(self, cells: list[str]) -> list[Yardstick | None]:
        """How far each cell moves from period to period anyway; none of shares of matches."""
        if self.scale.by_match:
            return [None] * len(cells)
        return yardsticks(self._every_period, cells, self.asked_periods)

    @cached_property
    def _every_period(self) -> pd.DataFrame:
        return self.by_period(self.timing.unit)

    @cached_property
    def asked_periods(self) -> Asked:
        """The periods that a drift is asked of."""
        event = event_of(self.view, self.beat)
        if event is None:
            raise ValueError(f"beat '{self.beat.id}' has no event whose drift could be asked")
        return asked_of(self.timing, self.selection.seasons, event)

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
    clusters: pd.DataFrame | None = None,
) -> Question:
    """One measure of a beat, of the topic's tallies and of what its groups are made of."""
    made_of = None if clusters is None else _asked_of(clusters, beat, name)
    return Question(beat, name, _asked_of(tallies, beat, name), view, selection, made_of)


def _asked_of(table: pd.DataFrame, beat: AnyBeat, name: str) -> pd.DataFrame:
    return table[(table["beat"] == beat.id) & (table["measure"] == name)]


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
    return [as_day(day) for day in dates]
