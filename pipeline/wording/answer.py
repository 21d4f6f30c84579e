"""The answer in one breath, and what people expected against what was found."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, Literal

from pipeline.contracts.finding import Finding, Mix, Turn
from pipeline.text import capitalised, listed
from pipeline.wording import numbers, of_kinds, phrases
from pipeline.wording.scales import change_of
from pipeline.wording.second_verdict import explained
from pipeline.wording.subject import subject

if TYPE_CHECKING:
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format
    from pipeline.config.views import NamedEvent

    Headline = tuple[Finding, AnyBeat, Measure]

MOST_MATCHES = 400  # more than that settles nothing soon
AGREE, DISAGREE, CANT_SAY = "The data agree", "The data disagree", "The data can’t say"


def answer(
    headlines: Sequence[Headline], form: Format, event: NamedEvent | None = None
) -> list[str]:
    """One or two sentences for what moved, one for whether the drift explains it, then the rest."""
    if not headlines:
        return ["No headline was chosen; each beat says what was found."]
    findings = [finding for finding, _, _ in headlines]
    found = [headline for headline in headlines if headline[0].verdict == "changed"]
    told = sorted(found, key=lambda headline: isinstance(headline[0], Turn))[:2]
    sentences = [of_kinds.in_short(*headline, form, event) for headline in told]
    explanation = explained(finding for finding, _, _ in told)
    sentences += [explanation] if explanation else []
    held = [
        subject(finding, beat, measure, form)
        for finding, beat, measure in headlines
        if finding.verdict == "held" and not isinstance(finding, Mix)
    ]
    if held:
        sentences.append(f"{capitalised(listed(list(dict.fromkeys(held))[:2]))} held.")
    if not found and not held:
        sentences.append("None of the headline numbers can be told from no change at all.")
        return sentences + _what_would_settle(findings)
    open_ones = sum(finding.verdict == "can't tell" for finding in findings)
    if open_ones:
        said = numbers.said(open_ones, 0)
        noun = "headline number" if open_ones == 1 else "headline numbers"
        sentences.append(f"On {said} {noun} the data can’t say.")
    return sentences


def _what_would_settle(findings: Sequence[Finding]) -> list[str]:
    """How many more matches would show a change of the size seen, if it is one."""
    wanted = [needed for finding in findings if (needed := more_matches(finding))]
    if not wanted or min(wanted) > MOST_MATCHES:
        return []
    count = phrases.about_count(min(wanted))
    return [f"It would take {count} more matches on each side to settle the nearest of them."]


def more_matches(finding: Finding) -> int | None:
    """Matches to add on each side for the change seen to be one that such data show.

    The smallest change that can be seen shrinks with the root of the matches.
    """
    effect = finding.effect
    if effect is None or effect.relative is None or not effect.detectable_change:
        return None
    seen = math.log1p(effect.detectable_change)
    size = abs(math.log1p(effect.relative.value))
    fewest = min(finding.a.matches, finding.b.matches)
    return max(1, round(fewest * ((seen / size) ** 2 - 1))) if 0 < size < seen else None


def expected_found(means: Literal["rises", "falls", "holds"], finding: Finding) -> tuple[str, str]:
    """(the data agree, disagree or can't say; what was found) for one thing people say."""
    if finding.verdict == "can't tell":
        return CANT_SAY, "it can’t be told from no difference"
    if finding.verdict == "held":
        return (AGREE if means == "holds" else DISAGREE), "it held"
    change = change_of(finding)
    found = "rises" if finding.told.difference.value > 0 else "falls"
    return (AGREE if means == found else DISAGREE), f"{change.way()} {change.said()}"
