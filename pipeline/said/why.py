"""What is said to a presenter of a number: what it should be, and why it is judged so."""

from __future__ import annotations

from pipeline.contracts.facts import Fact
from pipeline.said.judgement import Judged
from pipeline.said.naming import name_of
from pipeline.said.numbers_of import of_fact
from pipeline.said.targets import Target
from pipeline.said.topic_known import Known
from pipeline.text import capitalised
from pipeline.wording.fact_forms import in_form

RISK = {
    **{"contradicted": 1, "wrong direction": 1, "wrong unit": 1, "stale": 1},
    **{"rounded too far": 2, "unsupported": 2, "for a person": 2},
}


def risk_of(judged: Judged) -> int:
    """1 of what a viewer would hold against the script, 0 of what needs nobody."""
    if judged.result == "for a person" and judged.target is None:
        return 3
    return RISK.get(judged.result, 0)


def fact_now(judged: Judged, known: Known) -> Fact | None:
    """The fact as it is: of a stale number today's, None where there is none any more."""
    fact = judged.target.fact if judged.target else None
    return known.now.get(fact.id) if fact and judged.result == "stale" else fact


def right_form(judged: Judged, known: Known) -> str | None:
    """How a line says the fact."""
    fact = fact_now(judged, known)
    if fact is None or judged.result in ("not a statistic", "unsupported"):
        return None
    return in_form(fact, "said") or None


def why(judged: Judged, said: str, known: Known) -> str:
    """One plain sentence; '' of what needs none."""
    target = judged.target
    match judged.result:
        case "supported" | "not a statistic":
            return ""
        case "unsupported":
            return f"No fact of this topic carries “{said}”."
        case "for a person":
            return f"What “{said}” is of can’t be told from the words around it."
    if target is None or target.fact is None:
        return f"This says {said}, which no fact of this topic carries."
    return _against(judged, target, said, known)


def _against(judged: Judged, target: Target, said: str, known: Known) -> str:
    fact = target.fact
    assert fact is not None
    name = name_of(of_fact(fact, target.finding, known.view))
    is_now = f"{capitalised(name)} is {fact.spoken}"
    match judged.result:
        case "rounded too far":
            return f"{is_now}; “{said}” is no right rounding of it."
        case "wrong unit":
            return f"{is_now}; “{said}” has another unit."
        case "wrong direction":
            return f"{is_now}; this says “{said}” the other way round."
        case "stale":
            then = f"“{said}” is what edition {target.edition} said of {name}"
            now = fact_now(judged, known)
            return f"{then}; it is {now.spoken}." if now else f"{then}; there is none now."
    return f"{is_now}; this says “{said}”."
