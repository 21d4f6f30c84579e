"""The level that a question is asked at, in words: seasons, grounds, batters, and their luck."""

from __future__ import annotations

from typing import NamedTuple, get_args

from pipeline.config.level_of import LEVELS
from pipeline.contracts.codes import ClusterOf, Unit
from pipeline.contracts.finding import Finding
from pipeline.contracts.notes import FewClusters
from pipeline.contracts.parts import Clusters
from pipeline.wording import numbers

UNITS: tuple[Unit, ...] = get_args(Unit)
# How periods differ among themselves.
SWINGS: dict[ClusterOf, str] = {
    "season": "from season to season",
    "year": "from year to year",
    "half-year": "from one half-year to the next",
    "quarter": "from quarter to quarter",
    "month": "from month to month",
}
USUAL = ("usual_between_periods", "usual_between_clusters")


def swings(of: ClusterOf) -> str:
    """'from season to season'; of grounds 'from ground to ground'."""
    return SWINGS.get(of, f"from {of} to {of}")


def wider_of(finding: Finding) -> Clusters | None:
    """The clusters whose error it has, where that is not its matches'."""
    cluster = finding.effect.cluster if finding.effect else None
    return cluster if cluster and cluster.wider else None


def by_shown(finding: Finding) -> str:
    """' by season (5 and 5)': what an error is by, and how many on each side; else nothing."""
    cluster = wider_of(finding)
    return f" by {cluster.of} ({cluster.a:,} and {cluster.b:,})" if cluster else ""


class Usual(NamedTuple):
    """What a difference is no more than: the last part of its outcome's name, and its slots."""

    by: str
    slots: dict[str, str]


def usual_of(finding: Finding) -> Usual | None:
    """Why what its matches alone would have told is not told; none of any other finding.

    What periods, or grounds, differ by among themselves.
    """
    cluster = wider_of(finding)
    if cluster is None or finding.because not in USUAL:
        return None
    if finding.because == "usual_between_periods":
        return Usual("time", {"swings": swings(cluster.of)})
    return Usual("clusters", {"units": f"{cluster.of}s"})


def usual_said(finding: Finding) -> str:
    """The same as a clause: 'it moves as much from season to season anyway'; or nothing."""
    usual = usual_of(finding)
    if usual is None:
        return ""
    if usual.by == "time":
        return f"it moves as much {usual.slots['swings']} anyway"
    return f"{usual.slots['units']} differ by as much anyway"


def few_said(note: FewClusters) -> str:
    """What is not in an interval, and why it can't be."""
    left_out = f"the interval leaves out how it swings {swings(note.of)}"
    if note.few == "one_cluster_holds_all":
        return f"One {note.of} holds all of it, so {left_out}."
    before, after = (numbers.said(count, 0) for count in (note.a, note.b))
    units = note.of if note.a == 1 else f"{note.of}s"
    return f"With {before} {units} before and {after} after, {left_out}."


def refusing(finding: Finding) -> str:
    """What the two groups of a finding are made of: 'ground'."""
    cut = next(iter(finding.asks.divided), "").partition(":")[0]
    return LEVELS.get(cut, "period")
