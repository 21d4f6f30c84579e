"""What `explain` prints: one heading a line, in the order in which a challenge goes."""

from __future__ import annotations

from typing import Any

from pipeline.explain.remade import Again
from pipeline.terminal import headed
from pipeline.wording.provenance_lines import behind

View = dict[str, Any]


def told(fact: View, topic: str, findings: View, again: Again) -> list[str]:
    """Lines to print."""
    finding = next((f for f in findings["findings"] if f["id"] == fact["finding"]), None)
    lines = [f"{topic}: {fact['id']} = {fact['display']} ({fact['spoken']})"]
    for name, words in behind(fact, finding, again.measure):
        lines += headed(name, words)
    lines += _corrections(again.corrections)
    lines += _query(fact, findings)
    word = "the same to the last digit" if again.same else f"NOT the same: {again.value!r}"
    return lines + headed("made again", word)


def _corrections(fixes: list[View]) -> list[str]:
    if not fixes:
        return headed("corrections", "none touches it")
    lines = []
    for fix in fixes:
        place = ", ".join(f"{name} {value}" for name, value in fix["place"].items())
        change = f"{fix['field']} was {fix['old'] or 'blank'}, is {fix['new'] or 'blank'}"
        lines += headed("corrections", f"{place}: {change} ({fix['reason']}; {fix['source']})")
    return lines


def _query(fact: View, findings: View) -> list[str]:
    """The query that was run, as it can be run again."""
    text = findings["queries"].get(fact["query"] or "")
    if not text:
        return headed("query", "a count over the topic’s findings or matches")
    return ["  query", *(f"    {line}" for line in text.splitlines())]
