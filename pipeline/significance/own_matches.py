"""Ways to ask a headline again that leave its matches as they are: another scale, or like for like.

And the making of a way's choice, whichever way it is.
"""

from __future__ import annotations

import math
from typing import Any

from scipy.special import ndtri

from pipeline.contracts.codes import Verdict, Way
from pipeline.contracts.finding import Change, Finding, Gap
from pipeline.contracts.panel import Choice
from pipeline.contracts.parts import CONFIDENCE, Span
from pipeline.significance.told_scale import told_of
from pipeline.significance.verdicts import by_ends


def made(
    kind: Way,
    what: str,
    told: Span | None,
    verdict: Verdict,
    finding: Finding,
    refused: Any = None,
) -> Choice:
    own = told_of(finding.told, finding.kind).value
    same = verdict == finding.verdict and refused is None
    if verdict == "changed" and told:
        same = same and told.value * own > 0
    return Choice(
        kind=kind,
        what=what,
        value=told.value if told else None,
        low=told.low if told else None,
        high=told.high if told else None,
        verdict=verdict,
        same=same,
        refused=refused,
    )


def other_scale(finding: Change | Gap) -> list[Choice]:
    """The error on the other scale: of a rate in its units, of a share in per cent of itself.

    Its ends are brought to the told scale by the value before, which leaves the change what it is.
    A gap has no value before, and of shares of matches there is no other scale.
    """
    effect = finding.told
    by_match = effect.interval != "t"
    if isinstance(finding, Gap) or by_match or effect.relative is None or not finding.a.value:
        return []
    before, size = finding.a.value, finding.margin.size
    if finding.kind == "share":
        other, times, edge = effect.relative, before, size
    else:
        other, times, edge = effect.difference, 1 / before, size / 100
    low, high = other.low * times, other.high * times
    told = Span(value=told_of(effect, finding.kind).value, low=low, high=high)
    verdict = by_ends(low, high, edge)
    return [made("scale", "", told, verdict, finding)]


def like_for_like(finding: Change | Gap) -> list[Choice]:
    """Like for like, and with sides, innings and grounds held still, where there are such numbers.

    Their intervals are of 95 % and are brought to the headline's level by the normal law, on the
    scale of logs where a fraction is told. They are of matches: beside an error of periods they
    would answer an easier question, and are left out.
    """
    found = finding.composition if isinstance(finding, Change) else None
    cluster = finding.told.cluster
    if found is None or (cluster is not None and cluster.wider):
        return []
    edge = finding.margin.size / (1 if finding.kind == "share" else 100)
    choices = []
    numbers: tuple[tuple[Way, str, Span | None], ...] = (
        ("like for like", "", found.like_for_like),
        ("held still", ", ".join(found.held), found.held_still if found.held else None),
    )
    for kind, what, span in numbers:
        if span is not None:
            wide = _at_level(span, finding.told.level, finding.kind == "share")
            verdict = by_ends(wide.low, wide.high, edge)
            choices.append(made(kind, what, wide, verdict, finding))
    return choices


def _at_level(span: Span, level: float, units: bool) -> Span:
    """A 95 % interval at another level."""
    to, back = (float, float) if units else (math.log1p, math.expm1)
    times = float(ndtri((1 + level) / 2) / ndtri((1 + CONFIDENCE) / 2))
    value = to(span.value)
    low, high = (back(value + (to(end) - value) * times) for end in (span.low, span.high))
    return Span(value=span.value, low=low, high=high)
