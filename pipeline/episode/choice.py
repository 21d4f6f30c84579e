"""Which findings of a beat are said: at most three lines, by what bears on the question."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from pipeline.contracts.finding import Finding
from pipeline.wording import of_kinds
from pipeline.wording.expected import contradicts
from pipeline.wording.scales import sign_of
from pipeline.wording.second_verdict import BEYOND, second

if TYPE_CHECKING:
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.views import BriefView
    from pipeline.contracts.findings import Findings

BANDS = "band"  # the cut of an innings' stretches of overs
MOST = 3  # lines of a beat
MOST_TOGETHER = 3  # findings that one line names; the others are for the table


class Chosen(NamedTuple):
    """What a beat says: findings with a line each, and those of which one line says all there is.

    Both are in the table's order; a beat's `together` has none or several.
    """

    alone: list[Finding]
    together: list[Finding]
    others: tuple[Finding, ...] = ()  # of the same comparison, which no line names

    @property
    def told(self) -> list[Finding]:
        return [*self.alone, *self.together]


def chosen(view: BriefView, findings: Findings) -> dict[str, Chosen]:
    """What each beat says, by its id."""
    return {beat.id: of_beat(beat, view, findings) for beat in view.beats}


def of_beat(beat: AnyBeat, view: BriefView, findings: Findings) -> Chosen:
    """What one beat says."""
    mine = _own(beat, findings)
    may = [each for each in mine if each.id in findings.headlines or of_kinds.may_say(each, beat)]
    wrong = {each.finding for each in view.expected if _surprises(each.finding, view, findings)}
    order = _Bearing(beat, findings, {each.finding for each in view.expected}, wrong, may)
    ranked = sorted(may, key=order.of)
    opening = opened(beat, view, findings)
    room = MOST - len(opening)
    its_own = bool(beat.person and opening) or BANDS in beat.cuts
    kept = [each for each in ranked if not _left_out(each, beat, findings, its_own)]
    kept = kept or ([] if beat.person and opening else ranked[:1])
    bare = [each for each in kept if is_bare(each) and not each.again]
    if bare and not any(each.verdict != "can't tell" for each in kept):
        bare.remove(next(each for each in kept if each in bare))  # one at least with its numbers
    crowded = room < 2 and len(bare) < len(kept)  # the one line is for what more can be told of
    if len(bare) < 2 or crowded:
        return Chosen(_in_order(kept[:room], mine), [])
    heads = set(findings.headlines)
    alike = [each for each in bare if _alike(each, bare[0])]
    named = [each for each in bare if each in alike[:MOST_TOGETHER] or each.id in heads]
    if len(named) < 2:
        alone = [each for each in kept if each not in bare or each in named]
        return Chosen(_in_order(alone[:room], mine), [])
    alone = [each for each in kept if each not in bare][: max(room - 1, 0)]
    others = tuple(_in_order([each for each in alike if each not in named], mine))
    return Chosen(_in_order(alone, mine), _in_order(named, mine), others)


def _alike(one: Finding, other: Finding) -> bool:
    """Whether a listener takes both for the same comparison, so that one verb serves them."""
    return type(one) is type(other) and one.measure == other.measure


def is_bare(finding: Finding) -> bool:
    """Whether nothing can be told of it but that nobody can tell."""
    return finding.verdict == "can't tell" and not finding.refused and second(finding) != BEYOND


def _left_out(finding: Finding, beat: AnyBeat, findings: Findings, opens: bool) -> bool:
    """A row that was refused, or that an earlier beat could not tell, is for the table alone.

    So is any that an earlier beat told, where this one `opens` with what is its own. Unless it is
    a headline, or what the beat asks, or there is nothing else.
    """
    if finding.id in findings.headlines or of_kinds.first_told(finding, beat):
        return False
    if beat.person and is_bare(finding) and not beat.about:
        return True  # everybody's number beside a list of names, which says nothing of them
    return bool(finding.refused) or (bool(finding.again) and (opens or is_bare(finding)))


def _surprises(identity: str, view: BriefView, findings: Findings) -> bool:
    """Whether the data say otherwise than people do of it."""
    found = next((each for each in findings.findings if each.id == identity), None)
    means = [each.means for each in view.expected if each.finding == identity]
    return found is not None and any(contradicts(mean, found) for mean in means)


def opened(beat: AnyBeat, view: BriefView, findings: Findings) -> list[str]:
    """Measures of which it says something of all rows together, which is a line, too.

    The first ones, so that a line is left for a finding.
    """
    mine = _own(beat, findings)
    some = [
        name
        for name in beat.measures
        if of_kinds.opening(
            [each for each in mine if each.measure == name],
            beat,
            view.format,
            findings.lists.get(f"{beat.id}.{name}"),
        )
    ]
    return some[: MOST - 1]


def _own(beat: AnyBeat, findings: Findings) -> list[Finding]:
    return [finding for finding in findings.findings if finding.beat == beat.id]


class _Bearing:
    """How much a finding bears on the question; what bears most comes first."""

    def __init__(
        self,
        beat: AnyBeat,
        findings: Findings,
        expected: set[str],
        surprising: set[str],
        may: Sequence[Finding],
    ) -> None:
        self._beat, self._headlines = beat, findings.headlines
        self._expected, self._surprising = expected, surprising
        self._place: Mapping[str, int] = {each.id: at for at, each in enumerate(may)}
        self._lead = _lead(may, findings.headlines)

    def of(self, finding: Finding) -> tuple[object, ...]:
        """Headlines, what people say (first what they say wrongly), what the beat asks, what goes
        against its lead, what changed, what held, the surest first; what was said before last."""
        changed, held = finding.verdict == "changed", finding.verdict == "held"
        return (
            finding.id not in self._headlines,
            finding.id not in self._surprising,
            finding.id not in self._expected,
            finding.again is not None,
            not of_kinds.first_told(finding, self._beat),
            not (changed and self._goes_against(finding)),
            not changed,
            not held,
            1.0 if finding.effect is None else finding.effect.p,
            self._place[finding.id],
        )

    def _goes_against(self, finding: Finding) -> bool:
        lead = self._lead
        alike = lead is not None and type(lead) is type(finding) and lead.measure == finding.measure
        return alike and lead is not None and sign_of(lead) * sign_of(finding) < 0


def _lead(may: Sequence[Finding], headlines: Sequence[str]) -> Finding | None:
    """What changed most surely, a headline before others."""
    moved = [each for each in may if each.verdict == "changed"]
    return min(moved, key=lambda each: (each.id not in headlines, each.told.p), default=None)


def _in_order(some: Sequence[Finding], whole: Sequence[Finding]) -> list[Finding]:
    ids = {finding.id for finding in some}
    return [finding for finding in whole if finding.id in ids]
