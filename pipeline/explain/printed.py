"""What `explain` prints: one heading a line, in the order in which a challenge goes."""

from __future__ import annotations

from pipeline.contracts.facts import Fact
from pipeline.contracts.findings import Findings
from pipeline.contracts.selection import Fix
from pipeline.explain.remade import Again
from pipeline.terminal import headed
from pipeline.wording.provenance_lines import behind


def explained(fact: Fact, topic: str, findings: Findings, again: Again) -> list[str]:
    """Lines to print."""
    finding = next((each for each in findings.findings if each.id == fact.finding), None)
    lines = [f"{topic}: {fact.id} = {fact.display} ({fact.spoken})"]
    for name, words in behind(fact, finding, again.measure):
        lines += headed(name, words)
    lines += _corrections(again.corrections)
    lines += _query(fact, findings)
    same = again.same_as(fact)
    word = "the same as printed, and to nine digits" if same else f"NOT the same: {again.value!r}"
    return lines + headed("made again", word)


def _corrections(fixes: list[Fix]) -> list[str]:
    if not fixes:
        return headed("corrections", "none touches it")
    lines = []
    for fix in fixes:
        place = ", ".join(f"{name} {value}" for name, value in fix.place.items())
        change = f"{fix.field} was {fix.old or 'blank'}, is {fix.new or 'blank'}"
        lines += headed("corrections", f"{place}: {change} ({fix.reason}; {fix.source})")
    return lines


def _query(fact: Fact, findings: Findings) -> list[str]:
    """The query that was run, as it can be run again."""
    text = findings.queries.get(fact.query or "")
    if not text:
        return headed("query", "a count over the topic’s findings or matches")
    return ["  query", *(f"    {line}" for line in text.splitlines())]
