"""Which sentences of a finding are said: the doubt once, and what a presenter can say at all.

A line has three parts, a headline's four, one more beside a control: what it came to, how sure that
is, whether it was on its way there, then what helps. A part is a sentence, with what qualifies it.
All that is left out stands in the page's table, or under "If challenged".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from pipeline.contracts.finding import Finding
from pipeline.contracts.findings import Findings
from pipeline.voice.line import Line
from pipeline.voice.sentence import Told

NO_STEP = ("drift.none", "drift.in_line", "drift.untested")
MOST, MOST_OF_HEADLINE = 3, 4
FRAGILE = 0.25  # of the ways of asking: where more come out otherwise, a headline says so
# What a sentence qualifies it stays with: a step without its catch would be too strong.
QUALIFIES = (
    *("drift.beyond.turned", "drift.beyond.bent", "control.few", "control.poor", "mix.no_"),
    *("turn.reach", "turn.only", "drift.in_line.step", "drift.in_line.many"),
)
# What bears most comes first; an outcome's own place is that of the first that it begins with.
BEARING = (
    ("number.", "gap.changes", "groups.", "refused.", "turn.put", "turn.none", "turn.lean"),
    ("players.", "streaks.", "mix.", "again."),
    ("sure.", "open.", "gap.changed", "gap.held", "gap.open", "turn."),
    ("like.", "drift.beyond", "drift.in_line.carried", "drift.in_line.against", "control."),
    ("drift.in_line.was",),
    ("gap.reach", "reach."),
    ("drift.",),
    ("felt.", "times."),
    ("panel.",),
)
REASONED = ("open.usual", "open.many", "gap.open.usual")  # why says enough: no interval beside it


def trimmed(sentences: Sequence[str], finding: Finding, findings: Findings) -> list[str]:
    """The sentences without those that the page's table and its "If challenged" hold.

    That no step can be shown, or that a drift can't be tested, claims nothing, so it is said of a
    change only; nor is a step told, of what can't be told, that a bend in the trend would undo.
    In how many ways it was asked is said of a headline that can be told.
    """
    headline, settled = finding.id in findings.headlines, finding.verdict != "can't tell"
    bent = any(_is_of(each, ["drift.beyond.bent"]) for each in sentences)
    left_out = [
        *([] if finding.verdict == "changed" else NO_STEP),
        *(["drift.beyond"] if bent and not settled else []),
        *([] if settled and headline else ["panel."]),
        *(["reach.", "gap.reach"] if any(_is_of(each, REASONED) for each in sentences) else []),
    ]
    kept = [each for each in sentences if not _is_of(each, left_out)]
    most = MOST_OF_HEADLINE if headline else MOST
    beside = any(_is_of(each, ["control."]) for each in kept)  # asked of this number alone
    return _shortened(kept, most + beside, _fragile(finding))


def _shortened(sentences: Sequence[str], most: int, fragile: bool) -> list[str]:
    """At most so many of them, by what bears most, each with what qualifies it; in their order."""
    parts: list[list[str]] = []
    for sentence in sentences:
        if parts and _is_of(sentence, QUALIFIES):
            parts[-1].append(sentence)
        else:
            parts.append([sentence])
    order = sorted(range(len(parts)), key=lambda at: (_bearing(parts[at][0], fragile), at))
    return [each for at in sorted(order[:most]) for each in parts[at]]


def _bearing(sentence: str, fragile: bool) -> int:
    """The place in `BEARING`; of a fragile headline its ways of asking come before the feel."""
    if fragile and _is_of(sentence, ["panel."]):
        return len(BEARING) - 3
    places = (at for at, names in enumerate(BEARING) if _is_of(sentence, names))
    return next(places, 0)


def _fragile(finding: Finding) -> bool:
    panel = finding.panel
    return panel is not None and len(panel.turned) > FRAGILE * len(panel.choices)


def said_once(lines: Sequence[Line], heard: set[str]) -> list[Line]:
    """The lines without a doubt about the drift that was `heard` before, for the same reason."""
    kept = []
    for line in lines:
        doubts = {each for each in line.sentences if _is_of(each, ["drift.untested"])}
        left = tuple(each for each in line.sentences if each not in doubts & heard)
        heard |= doubts
        kept.append(replace(line, sentences=left))
    return kept


def _is_of(sentence: str, outcomes: Sequence[str]) -> bool:
    if not isinstance(sentence, Told):
        return False
    return any(sentence.outcome.startswith(name) for name in outcomes)
