"""What stands behind one number: headings and words, in the order in which a challenge goes."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pipeline.wording import numbers, second_verdict
from pipeline.wording.challenged import METHODS, shuffled

View = dict[str, Any]
Named = tuple[str, str]
# How the interval of a kind of fact was made; any other leaves matches out one at a time.
MADE = {
    "date": "95%; the dates that the likelihood ratio leaves in",
    "luck-allowed-for": "95%; drawn in towards players of the kind, as far as each error asks",
    "step": "95%; weighted least squares over the seasons, t with seasons less three",
}


def behind(fact: View, finding: View | None, measure: View | None) -> Iterator[Named]:
    """(heading, words) pairs of a fact; `finding` and `measure` where it has them."""
    yield "what", f"{fact['definition']}; in {fact['unit']}"
    if finding:
        yield from _sides(finding, measure)
        yield from _test(finding)
    if fact["interval"]:
        made = MADE.get(fact["id"].rpartition(".")[2], "95%; matches left out one at a time")
        yield "interval", f"{fact['interval']} ({made})"
    if fact["arithmetic"]:
        yield "arithmetic", fact["arithmetic"]


def _sides(finding: View, measure: View | None) -> Iterator[Named]:
    """Both sides as their sums: numerator over denominator, matches, balls."""
    for side, name in zip(("a", "b"), finding["sides"], strict=True):
        part = finding[side]
        if part.get("refused"):
            yield name, f"no number: {part['refused'].replace('_', ' ')}"
            continue
        sums = f"{part['numerator']:,} / {part['denominator']:,}"
        of = ""
        if measure:
            times = f" × {numbers.figures(measure['per'])}" if measure["per"] != 1 else ""
            of = f"{times} ({measure['numerator']} / {measure['denominator']})"
        counts = f"{numbers.matches(part['matches'])}, {numbers.counted(part['balls'], 'ball')}"
        if finding["about"] in ("gap", "mix", "rates"):
            yield name, f"{numbers.figures(part['value'])}; {counts}"
        else:
            yield name, f"{numbers.figures(part['value'])} from {sums}{of}; {counts}"


def _test(finding: View) -> Iterator[Named]:
    if finding["refused"]:
        yield "verdict", f"{finding['verdict']}: {finding['refused'].replace('_', ' ')}"
        return
    adjusted = numbers.p_shown(finding["p_adjusted"])
    method = METHODS[finding["adjusted_by"]]
    yield (
        "test",
        f"{numbers.p_shown(finding['p'])}; {adjusted} among {finding['family_size']} ({method})"
        f"{shuffled(finding)}",
    )
    yield "verdict", f"{finding['verdict']} ({finding['because'].replace('_', ' ')})"
    line = second_verdict.challenged(finding)
    if line:
        yield "drift", f"{finding['drift']['verdict']}: {line[:1].lower()}{line[1:]}"
    if finding["control"]:
        yield "control", f"{finding['control']['verdict']}: {finding['control']['name']}"
