"""The answer in one breath, and what would settle what it leaves open."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from pipeline.contracts.finding import Finding, Gap, Groups, Turn
from pipeline.text import capitalised
from pipeline.voice.line import Line
from pipeline.voice.sentence import Told
from pipeline.wording import composition, of_kinds, phrases
from pipeline.wording.clusters import wider_of
from pipeline.wording.expected import CANT_SAY, STEPPED, found_of
from pipeline.wording.kinds.gap import second_of_it
from pipeline.wording.other_ways import either
from pipeline.wording.scales import sign_of
from pipeline.wording.second_verdict import BEYOND, asked, in_short, lost_said

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


def answer_lines(
    headlines: Sequence[Headline],
    form: Format,
    event_of: EventOf = no_event,
    expected: Sequence[Expectation] = (),
) -> list[Line]:
    """What people say first, and what the data say to it; then what moved, and whether it was on
    its way there; what held; and what can't be told, which is one sentence.
    """
    if not headlines:
        return [Line(("No headline was chosen; each beat says what was found.",))]
    told = sorted(headlines, key=_order)
    lines = _stated_first(headlines, form, event_of, expected)
    stated = {identity for line in lines for identity in line.about}
    lines += _of_one_mind(told, stated, form, event_of)
    for one in told:
        if one[0].verdict != "can't tell" and not _plain(one):
            lines.append(Line((of_kinds.alone(*one, form, event_of(one[1])),), (one[0].id,)))
    open_ones = [one for one in told if one[0].verdict == "can't tell"]
    stepped = {line.about for line in lines if any(map(_is_stepped, line.sentences))}
    unsaid = [one for one in open_ones if (one[0].id,) not in stepped]
    lines += _left_open(unsaid, form, event_of)
    if len(open_ones) == len(headlines):
        lines += [Line((said,)) for said in _what_would_settle(open_ones)]
    return lines


def _order(headline: Headline) -> tuple[bool, bool]:
    finding = headline[0]
    return finding.verdict != "changed", isinstance(finding, Turn)


def _plain(headline: Headline) -> bool:
    """Whether it changed, with a step beyond its drift the same way: of these one word serves all.

    What is another change like for like, or a step beside a straight trend only, is told by itself.
    """
    finding, beat, _ = headline
    drift = asked(finding)
    if finding.verdict != "changed" or beat.about or composition.in_short(finding):
        return False
    if drift is None or drift.test is None or drift.verdict != BEYOND or drift.test.lost_beside:
        return False
    return drift.test.step.value * sign_of(finding) > 0


def _of_one_mind(
    told: Sequence[Headline], stated: set[str], form: Format, event_of: EventOf
) -> list[Line]:
    """What changed beyond its drift: each in a sentence, then that of them all at once."""
    plain = [one for one in told if _plain(one)]
    if not plain:
        return []
    lines = [
        Line((of_kinds.in_short(*one, form, event_of(one[1])),), (one[0].id,))
        for one in plain
        if one[0].id not in stated
    ]
    about = tuple(one[0].id for one in plain)
    of = {1: "answer.beyond.one", 2: "answer.beyond.two"}.get(len(plain), "answer.beyond.many")
    return [*lines, Line((Told(of),), about)]


def _stated_first(
    headlines: Sequence[Headline],
    form: Format,
    event_of: EventOf,
    expected: Sequence[Expectation],
) -> list[Line]:
    """The first thing people say of a headline, what the data say to it, and its number."""
    by_id = {one[0].id: one for one in headlines}
    for item in expected:
        if one := by_id.get(item.finding):
            finding, beat, measure = one
            found = found_of(item.means, finding)
            if stepped := _answered_by_its_step(found, one, form):
                return [Line((f"“{item.say}”?", *stepped), (finding.id,))]
            said = f"“{item.say}”? {found}."
            if not _plain(one):
                return [Line((said,), (finding.id,))]
            short = of_kinds.in_short(finding, beat, measure, form, event_of(beat))
            return [Line((said, short), (finding.id,))]
    return []


def _is_stepped(sentence: str) -> bool:
    return isinstance(sentence, Told) and sentence.outcome == "answer.stepped"


def _answered_by_its_step(found: str, headline: Headline, form: Format) -> list[str]:
    """Where the data can't say it of the number, but of its step; none where they do say."""
    open_ = found == STEPPED or found.startswith(CANT_SAY)
    return _step_alone(headline, form) if open_ else []


def _step_alone(headline: Headline, form: Format) -> list[str]:
    """That there is a step beside the drift of what can't be told; none with more to say of it."""
    finding, beat, measure = headline
    drift = asked(finding)
    if finding.verdict != "can't tell" or beat.about or composition.in_short(finding):
        return []
    if drift is None or drift.test is None or drift.verdict != BEYOND:
        return []
    way = "up" if drift.test.step.value > 0 else "down"
    whose = second_of_it(beat, measure, form) if isinstance(finding, Gap) else ""
    what = of_kinds.named_open(finding, beat, measure, form)
    stepped = Told("answer.stepped", what=what, way=f"{way}{whose}")
    return [stepped, *lost_said(drift.test)]


def _left_open(headlines: Sequence[Headline], form: Format, event_of: EventOf) -> list[Line]:
    """What can't be told, by name; together where nothing more can be said of any of them."""
    bare: list[Headline] = []
    lines = []
    for headline in headlines:
        finding, beat, _ = headline
        more = in_short(finding) or composition.in_short(finding)
        if stepped := _step_alone(headline, form):
            lines.append(Line(tuple(stepped), (finding.id,)))
        elif finding.refused or more or beat.about:
            said = of_kinds.alone(*headline, form, event_of(headline[1]))
            lines.append(Line((said,), (finding.id,)))
        else:
            bare.append(headline)
    for some in _compared_alike(bare):
        names = [of_kinds.named_open(*headline, form) for headline in some]
        about = tuple(headline[0].id for headline in some)
        lines.append(Line((Told("together", names=either(list(dict.fromkeys(names)))),), about))
    return lines


def _compared_alike(headlines: Sequence[Headline]) -> list[list[Headline]]:
    """By what is set against what: 'coast against inland' is not heard of the other hands."""
    found: dict[object, list[Headline]] = {}
    for headline in headlines:
        standing = headline[1].groups if isinstance(headline[0], Groups) else None
        found.setdefault(standing, []).append(headline)
    return list(found.values())


def _what_would_settle(headlines: Sequence[Headline]) -> list[str]:
    """How many more matches would show a change that is more than the margin."""
    found = nearest([finding for finding, _, _ in headlines])
    if found is None:
        return []
    fewest, finding = found
    unit = "points" if finding.margin.unit == "points" else "per cent"
    size = phrases.amount(finding.margin.size, 1, unit)
    count = capitalised(phrases.about_count(fewest))
    return [f"{count} more matches on each side would show {size} in the nearest of them."]


def nearest(findings: Sequence[Finding]) -> tuple[int, Finding] | None:
    """The one that the fewest more matches would settle, and how many; none of a dream."""
    wanted = [(needed, finding) for finding in findings if (needed := more_matches(finding))]
    fewest = min(wanted, key=lambda one: one[0], default=None)
    return fewest if fewest and fewest[0] <= MOST_MATCHES else None


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
