"""The answer in one breath, and what would settle what it leaves open."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from pipeline.contracts.finding import Finding, Turn
from pipeline.text import capitalised
from pipeline.wording import composition, of_kinds, phrases
from pipeline.wording.clusters import wider_of
from pipeline.wording.expected import found_of
from pipeline.wording.second_verdict import in_short

if TYPE_CHECKING:
    from pipeline.config.event_views import NamedEvent
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format
    from pipeline.config.topic import Expectation

    Headline = tuple[Finding, AnyBeat, Measure]
    EventOf = Callable[[AnyBeat], NamedEvent | None]  # the event that a beat is about

MOST_MATCHES = 400  # more than that settles nothing soon


def no_event(_: AnyBeat) -> None:
    """Of a topic without one."""


def answer(
    headlines: Sequence[Headline],
    form: Format,
    event_of: EventOf = no_event,
    expected: Sequence[Expectation] = (),
) -> list[str]:
    """What was expected first, then every headline with both its verdicts, its subject named.

    What changed comes first, then what held, then what can't be told, which is one sentence.
    """
    if not headlines:
        return ["No headline was chosen; each beat says what was found."]
    told = sorted(headlines, key=_order)
    settled = [headline for headline in told if headline[0].verdict != "can't tell"]
    sentences = _stated_first(headlines, expected)
    sentences += [of_kinds.alone(*one, form, event_of(one[1])) for one in settled]
    open_ones = [headline for headline in told if headline[0].verdict == "can't tell"]
    sentences += _left_open(open_ones, form, event_of)
    if len(open_ones) == len(headlines):
        sentences += _what_would_settle(open_ones)
    return sentences


def _order(headline: Headline) -> tuple[bool, bool]:
    finding = headline[0]
    return finding.verdict != "changed", isinstance(finding, Turn)


def _stated_first(headlines: Sequence[Headline], expected: Sequence[Expectation]) -> list[str]:
    """The first thing people say of a headline, and what the data say to it."""
    by_id = {finding.id: finding for finding, _, _ in headlines}
    for item in expected:
        if finding := by_id.get(item.finding):
            found = found_of(item.means, finding)
            return [f"“{item.say}”: {found[:1].lower()}{found[1:]}."]
    return []


def _left_open(headlines: Sequence[Headline], form: Format, event_of: EventOf) -> list[str]:
    """What can't be told, by name; together where nothing more can be said of any of them."""
    bare: list[Headline] = []
    sentences = []
    for headline in headlines:
        finding, beat, _ = headline
        more = in_short(finding) or composition.in_short(finding)
        if finding.refused or more or beat.about:
            sentences.append(of_kinds.alone(*headline, form, event_of(headline[1])))
        else:
            bare.append(headline)
    if bare:
        asked = [of_kinds.open_question(*headline, form) for headline in bare]
        whether = ", or whether ".join(dict.fromkeys(asked))
        sentences.append(f"Whether {whether}, these matches can’t settle.")
    return sentences


def _what_would_settle(headlines: Sequence[Headline]) -> list[str]:
    """How many more matches would show a change that is more than the margin."""
    wanted = [(needed, finding) for finding, _, _ in headlines if (needed := more_matches(finding))]
    if not wanted:
        return []
    fewest, finding = min(wanted, key=lambda one: one[0])
    if fewest > MOST_MATCHES:
        return []
    unit = "points" if finding.margin.unit == "points" else "per cent"
    size = phrases.amount(finding.margin.size, 1, unit)
    count = capitalised(phrases.about_count(fewest))
    return [f"{count} more matches on each side would show {size} in the nearest of them."]


def more_matches(finding: Finding) -> int | None:
    """Matches to add on each side until a change as large as the margin would be seen.

    The smallest change that can be seen shrinks with the root of the matches. The change that
    happened to be seen has no part in it: it is the largest that luck would show, too. A date that
    is searched for has no sides to add matches to, and what seasons or grounds do anyway is not
    worn away by more matches of the same ones.
    """
    effect = finding.effect
    if effect is None or isinstance(finding, Turn) or wider_of(finding):
        return None
    if finding.margin.unit == "points":
        seen, size = effect.detectable_difference, finding.margin.size
    elif effect.detectable_change:
        seen, size = math.log1p(effect.detectable_change), math.log1p(finding.margin.size / 100)
    else:
        return None
    fewest = min(finding.a.matches, finding.b.matches)
    return max(1, round(fewest * ((seen / size) ** 2 - 1))) if 0 < size < seen else None
