"""How the interval behind a number was made, in the words of the method."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pipeline.config.sums import of_matches
from pipeline.contracts.codes import ClusterOf
from pipeline.contracts.facts import Fact
from pipeline.contracts.finding import Finding, Mix, Rates, Turn, control_of, drift_of
from pipeline.text import slug
from pipeline.wording.clusters import UNITS, wider_of

if TYPE_CHECKING:
    from pipeline.config.measure import Measure

LEFT_OUT = "matches left out one at a time"
SPLIT = "matches left out one at a time, the whole split anew each time"
WILSON = "Wilson’s, of a share of matches"
NEWCOMBE = "Newcombe’s, of the two shares’ Wilson intervals"
LEAST_SQUARES = "weighted least squares over the {unit}s, t with {unit}s less three"
DATES = "the dates that the likelihood ratio leaves in"
SEARCHED = (
    "a straight line with one step, the steps that the likelihood leaves in at some date, held "
    "against simulated series"
)
FIELLER = "Fieller’s, of the part over the whole change"
DRAWN_IN = "drawn in towards players of the kind, as far as each error asks"
SCATTER = (
    "chi-squared, of what the {unit}s scatter about their drift, less what their matches alone make"
)
REGRESSED = (
    "a quasi-Poisson regression of the sums of innings, errors by match or by batting side, "
    "whichever is wider"
)
# Facts that have one method, whatever the finding is; by the end of their ids.
BY_END = {
    "date": DATES,
    "drift": LEAST_SQUARES,
    "step": LEAST_SQUARES,
    "luck-allowed-for": DRAWN_IN,
    "yardstick": SCATTER,
    "beyond-control": LEFT_OUT,
    "like-for-like": LEFT_OUT,
    "held-still": REGRESSED,
    "of-change": FIELLER,
}
DIFFERENCES = ("difference", "change", "felt")


def method_of(fact: Fact, finding: Finding | None, measure: Measure | None) -> str:
    """The method of a fact that has an interval; of a point of a series there is no finding."""
    end = fact.id.rpartition(".")[2]
    control = control_of(finding) if finding else None
    if end == "beyond-control" and control and (by := control.effect.cluster) and by.wider:
        return _by_clusters(by.of, split=False)
    if end in BY_END:
        drift = drift_of(finding) if finding else None
        return BY_END[end].format(unit=drift.unit if drift else "season")
    if finding and end not in {*DIFFERENCES, *map(slug, finding.sides)}:
        raise ValueError(f"{fact.id} ends in nothing that has a method")
    whole_matches = measure is not None and of_matches(measure.numerator, measure.denominator)
    if end not in DIFFERENCES:
        return WILSON if whole_matches else LEFT_OUT
    if isinstance(finding, Turn):
        return SEARCHED
    cluster = wider_of(finding) if finding else None
    if cluster:
        return _by_clusters(cluster.of, isinstance(finding, Mix | Rates))
    if isinstance(finding, Mix | Rates):
        return SPLIT
    return NEWCOMBE if whole_matches else LEFT_OUT


def _by_clusters(of: ClusterOf, split: bool) -> str:
    """'seasons left out one at a time, one spread for both windows'."""
    left_out = f"{of}s left out one at a time"
    if of in UNITS:
        left_out += ", one spread for both windows"
    return f"{left_out}, the whole split anew each time" if split else left_out
