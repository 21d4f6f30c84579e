"""One measure of one beat as it was asked: its rows, its cells, its sides."""

from __future__ import annotations

from functools import cached_property
from typing import Any

import pandas as pd

from pipeline.significance.kinds.players import enough
from pipeline.significance.kinds.turning_point import SIDES

View = dict[str, Any]
WINDOWS = ("before", "after")


class Asked:
    """One measure of one beat: its rows, its cells, and what is known of the topic.

    `every` are its rows of every season; `compared` those of the two sides; `control` those of its
    control, whose windows begin with that word.
    """

    def __init__(self, beat: View, name: str, rows: pd.DataFrame, view: View, selection: View):
        self.beat, self.name, self.view, self.selection = beat, name, view, selection
        self.measure = view["measures"][name]
        self.about = selection["beats"][beat["id"]]
        of_control = rows["window"].str.startswith("control ") & ("control" in self.about)
        self.control, self.every = rows[of_control], rows[~of_control]

    @cached_property
    def compared(self) -> pd.DataFrame:
        """The rows of both sides; a group may well be called 'outside', a window is not."""
        if self.beat["kind"] in ("groups", "turning_point"):
            return self.every
        if self.beat["kind"] == "trend":
            return _as_windows(self.every, self.selection["windows"])
        return self.every[self.every["window"].isin(WINDOWS)]

    @cached_property
    def sides(self) -> tuple[str, str]:
        if self.beat["kind"] == "groups":
            ((_, values),) = self.beat["between"].items()
            return values[0], values[1]
        return SIDES if self.beat["kind"] == "turning_point" else WINDOWS

    @cached_property
    def cells(self) -> list[View]:
        """The cells whose values are all known; of a players beat, those with enough balls."""
        known = [cell for cell in self.about["cells"] if cell["known"]]
        return self._enough[0] if self.beat["kind"] == "players" else known

    @cached_property
    def _enough(self) -> tuple[list[View], View]:
        return enough(self.compared, self.about["cells"], self.beat["at_least"])

    @property
    def threshold(self) -> View:
        return self._enough[1]

    @property
    def people(self) -> dict[str, View]:
        return self.about["people"]

    @cached_property
    def unknown(self) -> float:
        """Share of the beat's balls that fall in cells of unknown kind, hand or arm."""
        rows = self.compared
        total = rows.loc[rows["cell"] == "all", "balls"].sum()
        unknown = [cell["id"] for cell in self.about["cells"] if not cell["known"]]
        return float(rows.loc[rows["cell"].isin(unknown), "balls"].sum() / total) if total else 0.0


def _as_windows(rows: pd.DataFrame, windows: View | None) -> pd.DataFrame:
    """A trend's rows as a before/after comparison; none when the topic has no event."""
    if windows is None:
        return rows.iloc[:0]
    side = dict.fromkeys(windows["before"], "before")
    side |= dict.fromkeys(windows["after"], "after")
    kept = rows[rows["season"].isin(side)]
    return kept.assign(window=kept["season"].map(side))
