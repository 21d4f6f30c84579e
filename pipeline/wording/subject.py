"""What a number is of, as it is said: 'spin’s economy in the middle overs'."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from pipeline.config.cuts import CUTS
from pipeline.contracts.finding import Finding
from pipeline.text import listed, possessive
from pipeline.wording.labels import value_label

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format


def subject(finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> str:
    """The measure with its owner, and where and for whom; no value is in it."""
    return cell_subject(finding.values, beat, measure, form)


def cell_subject(values: Mapping[str, str], beat: AnyKind, measure: Measure, form: Format) -> str:
    """The measure of a cell's balls; a share of the balls has its owner in its own name."""
    fixed = {cut: [value] for cut, value in values.items()}
    fixed |= {cut: kept for cut, kept in beat.where.chosen().items() if cut not in fixed}
    owners = (cut for cut in CUTS if CUTS[cut].owner and cut in fixed)
    owner = None if beat.counted else next(owners, None)
    overs = beat.where.overs
    where = [f"in overs {overs[0]} to {overs[1]}"] if overs else []
    where += [phrase(cut, fixed[cut], form) for cut in CUTS if cut in fixed and cut != owner]
    if owner is None:
        return " ".join([measure.said or measure.label, *where])
    whose = listed([value_label(owner, value, form) for value in fixed[owner]])
    return " ".join([f"{possessive(whose)} {measure.label}", *where])


def phrase(cut: str, values: list[str], form: Format) -> str:
    """A filter or a cell in a sentence: 'at coast grounds', 'in the middle overs'."""
    if cut == "phase":
        phases = [form.phases.get(value) for value in values]
        said = [phase.said for phase in phases if phase and phase.said]
        if len(said) == len(values):
            return listed(said)
    named = [value_label(cut, value, form).replace("–", " to ") for value in values]
    return CUTS[cut].phrase.format(listed(named))


def two_groups(beat: AnyKind) -> tuple[str, str, str]:
    """(the cut, its two values) of a beat that holds two groups against each other."""
    if beat.groups is None:
        raise ValueError(f"beat '{beat.id}' has no two groups")
    return beat.groups
