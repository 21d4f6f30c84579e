"""What `explain` prints: one heading a line, in the order in which a challenge goes."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from typing import Any

from pipeline.explain.again import Again
from pipeline.wording import drift, numbers
from pipeline.wording.challenged import METHODS, shuffled

View = dict[str, Any]
WIDTH, INDENT = 100, 14


def told(fact: View, topic: str, findings: View, again: Again) -> list[str]:
    """Lines to print."""
    finding = next((f for f in findings["findings"] if f["id"] == fact["finding"]), None)
    lines = [f"{topic}: {fact['id']} = {fact['display']} ({fact['spoken']})"]
    lines += _line("what", f"{fact['definition']}; in {fact['unit']}")
    if finding:
        lines += _sides(finding, again.measure)
        lines += [line for name, words in _test(finding) for line in _line(name, words)]
    if fact["interval"]:
        lines += _line("interval", f"{fact['interval']} ({_how(fact)})")
    if fact["arithmetic"]:
        lines += _line("arithmetic", fact["arithmetic"])
    lines += _corrections(again.corrections)
    lines += _query(fact, findings)
    word = "the same to the last digit" if again.same else f"NOT the same: {again.value!r}"
    return lines + _line("made again", word)


def _how(fact: View) -> str:
    """How the interval was made."""
    if fact["id"].endswith(".date"):
        return "95%; the dates that the likelihood ratio leaves in"
    if fact["id"].endswith(".luck-allowed-for"):
        return "95%; drawn in towards players of the kind, as far as each error asks"
    if fact["id"].endswith(".step"):
        return "95%; weighted least squares over the seasons, t with seasons less three"
    return "95%; matches left out one at a time"


def _line(name: str, words: str) -> list[str]:
    wrapped = textwrap.wrap(words, WIDTH - INDENT)
    return [f"  {name if at == 0 else '':{INDENT - 2}}{part}" for at, part in enumerate(wrapped)]


def _sides(finding: View, measure: View | None) -> list[str]:
    """Both sides as their sums: numerator over denominator, matches, balls."""
    lines: list[str] = []
    for side, name in zip(("a", "b"), finding["sides"], strict=True):
        part = finding[side]
        if part.get("refused"):
            lines += _line(name, f"no number: {part['refused'].replace('_', ' ')}")
            continue
        sums = f"{part['numerator']:,} / {part['denominator']:,}"
        of = ""
        if measure:
            times = f" × {measure['per']:g}" if measure["per"] != 1 else ""
            of = f"{times} ({measure['numerator']} / {measure['denominator']})"
        counts = f"{numbers.matches(part['matches'])}, {numbers.counted(part['balls'], 'ball')}"
        if finding["about"] in ("gap", "mix", "rates"):
            lines += _line(name, f"{part['value']:.6g}; {counts}")
        else:
            lines += _line(name, f"{part['value']:.6g} from {sums}{of}; {counts}")
    return lines


def _test(finding: View) -> Iterator[tuple[str, str]]:
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
    line = drift.challenged(finding)
    if line:
        yield "drift", f"{finding['drift']['verdict']}: {line[:1].lower()}{line[1:]}"
    if finding["control"]:
        yield "control", f"{finding['control']['verdict']}: {finding['control']['name']}"


def _corrections(fixes: list[View]) -> list[str]:
    if not fixes:
        return _line("corrections", "none touches it")
    lines = []
    for fix in fixes:
        place = ", ".join(f"{name} {value}" for name, value in fix["place"].items())
        change = f"{fix['field']} was {fix['old'] or 'blank'}, is {fix['new'] or 'blank'}"
        lines += _line("corrections", f"{place}: {change} ({fix['reason']}; {fix['source']})")
    return lines


def _query(fact: View, findings: View) -> list[str]:
    """The query that was run, as it can be run again."""
    text = findings["queries"].get(fact["query"] or "")
    if not text:
        return _line("query", "a count over the topic’s findings or matches")
    return ["  query", *(f"    {line}" for line in text.splitlines())]
