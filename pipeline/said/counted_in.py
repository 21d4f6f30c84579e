"""What a number is counted in, and the facts that it may say so: its own unit, or one it shares."""

from __future__ import annotations

from collections.abc import Mapping, Set
from dataclasses import replace

from pipeline.said.candidates import Candidate, candidates, right_but_for_way, supported
from pipeline.said.number_heard import Heard
from pipeline.said.targets import ONLY_NAMED
from pipeline.said.topic_known import Known
from pipeline.said.units import COUNTED, OVER, PER_CENT, POINTS

_RATES = {"economy", "run_rate"}


def meant(
    heard: Heard, carried: Mapping[str, Set[str]], known: Known
) -> tuple[Heard, list[Candidate]]:
    """What it may say in its own unit; of a level that has none, in another of the sentence."""
    named = not ONLY_NAMED.isdisjoint(heard.names) or not ONLY_NAMED.isdisjoint(carried)
    own = candidates(heard, carried, known.targets_in(heard.unit, named))
    in_overs = heard.said.form == "overs"
    waits = heard.unit == "balls" and (heard.own_unit or in_overs) and not heard.way
    if heard.unit == "runs" and _is_of_a_rate(heard, carried) and not supported(own):
        an_over = candidates(heard, carried, known.targets_in(OVER, named))
        if supported(an_over):  # 'half a run an over, and spinners by three-quarters of a run'
            return replace(heard, unit=OVER), an_over
    counted = heard.unit in COUNTED or heard.leads == "by"
    other_form = heard.said.form != "number" and not in_overs
    shared = heard.leads == "by" and heard.unit is not None and not heard.own_unit
    kept = (counted and not shared) or (heard.own_unit and not waits) or other_form
    if kept or supported(own):
        return heard, own
    roles = {"move"} if shared else {"level"}
    for other in _other_units(heard, carried):
        alike = [each for each in known.targets_in(other, named) if each.role in roles]
        told = replace(heard, unit=other)
        more = candidates(told if shared else heard, carried, alike)
        if supported(more) or (shared and right_but_for_way(more) and not right_but_for_way(own)):
            return told, more
    return heard, own


def _is_of_a_rate(heard: Heard, carried: Mapping[str, Set[str]]) -> bool:
    """'Shaved 0.81 of a run off his economy': of each over, as no innings is told in less."""
    measure = heard.names.get("measure")
    values = measure.values if measure else carried.get("measure", ())
    small = heard.said.value < 2 and not heard.said.whole
    return OVER in heard.units or (small and bool(_RATES & set(values)))


def _other_units(heard: Heard, carried: Mapping[str, Set[str]]) -> list[str | None]:
    """Where a number has none of its own: what others of the sentence are counted in, or any."""
    if heard.own_unit or heard.said.form == "overs":
        return ["balls a wicket"]  # 'forty-six balls', of what a wicket takes
    others: list[str | None] = [*sorted(heard.units - {heard.unit})]
    return [*others, None] if heard.names or carried else others


def of_its_share(heard: Heard, carried: Mapping[str, Set[str]]) -> Mapping[str, Set[str]]:
    """'Spin now bowls eight points more': of its share, whatever was measured before."""
    bowls = heard.unit in (PER_CENT, POINTS) or heard.said.form in ("share", "odds")
    parts = heard.parts if heard.own_unit else heard.all_parts
    if bowls and "share" in parts and "measure" not in heard.names:
        return {cut: told for cut, told in carried.items() if cut != "measure"}
    return carried
