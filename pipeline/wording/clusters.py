"""The level that a question is asked at, in words: seasons, grounds, batters, and their luck."""

from __future__ import annotations

from typing import get_args

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


def usual_said(finding: Finding) -> str:
    """Why what its matches alone would have told is not told; nothing of any other finding.

    'the usual swings from season to season could do that', 'grounds differ enough to do that'.
    """
    cluster = wider_of(finding)
    if cluster is None or finding.because not in USUAL:
        return ""
    if finding.because == "usual_between_periods":
        return f"the usual swings {swings(cluster.of)} could do that by themselves"
    return f"{cluster.of}s differ enough among themselves to do that"


def few_said(note: FewClusters) -> str:
    """What is not in an interval, and why it can't be."""
    left_out = f"the interval leaves out how it swings {swings(note.of)}"
    if note.few == "one_cluster_holds_all":
        return f"One {note.of} holds all of it, so {left_out}."
    before, after = (numbers.said(count, 0) for count in (note.a, note.b))
    return f"With {numbers.with_unit(before, f'{note.of}s')} before and {after} after, {left_out}."


def refusing(finding: Finding) -> str:
    """What the two groups of a finding are made of: 'ground'."""
    cut = next(iter(finding.asks.divided), "").partition(":")[0]
    return LEVELS.get(cut, "period")
