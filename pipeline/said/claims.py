"""What a sentence claims that the findings do not carry."""

from __future__ import annotations

from collections.abc import Mapping, Set
from typing import TYPE_CHECKING

from pipeline.contracts.finding import Finding
from pipeline.contracts.script_check import ClaimChecked
from pipeline.event_of import event_of
from pipeline.said.compared_changes import compared
from pipeline.said.forbidden import forbidden
from pipeline.said.meant import meant, names_in
from pipeline.said.sounded import Sounded
from pipeline.said.stated import stated
from pipeline.said.topic_known import Known
from pipeline.wording import of_kinds
from pipeline.wording.second_verdict import second

if TYPE_CHECKING:
    from pipeline.config.views import BriefView

_CAUSE = "The data show when and how much; what made it is not in them."
_GAP = "No gap between their changes is told, so neither can be called the larger."
_CAUTION = "The data can’t tell this, and neither this sentence nor the next says so."


def claims_of(
    text: str, following: str, heard: Sounded, carried: Mapping[str, Set[str]], known: Known
) -> list[ClaimChecked]:
    """Each with its place; a sentence may make several."""
    found: list[ClaimChecked] = []
    if match := known.causes.found(text, heard):
        found.append(
            ClaimChecked(
                said=text[match.start() : match.end()], begins=match.start(), ends=match.end(),
                kind="cause", why=_CAUSE, instead=_of_cause(heard, carried, known),
            )
        )  # fmt: skip
    if match := compared(text, heard, carried, known):
        found.append(
            ClaimChecked(
                said=text[match.start() : match.end()], begins=match.start(), ends=match.end(),
                kind="no gap", why=_GAP, risk=2,
            )
        )  # fmt: skip
    banned = forbidden(text, heard, carried, known)
    if banned:
        found.append(
            ClaimChecked(
                said=text[banned.begins : banned.ends], begins=banned.begins, ends=banned.ends,
                kind="don't say", why=f"Don’t say: {banned.line}", risk=2,
            )
        )  # fmt: skip
    if banned or any(each.kind == "cause" for each in found):
        return found  # that is said first
    for begins, ends, finding in stated(text, following, heard, carried, known):
        if any(each.begins < ends and begins < each.ends for each in found):
            continue  # one claim of one clause is enough
        found.append(
            ClaimChecked(
                said=text[begins:ends], begins=begins, ends=ends, kind="no caution",
                finding=finding.id, why=_CAUTION, instead=in_a_breath(finding, known.view),
            )
        )  # fmt: skip
    return found


def _of_cause(heard: Sounded, carried: Mapping[str, Set[str]], known: Known) -> str:
    """A step at the date is there only where the second verdict of what is meant has one."""
    names = names_in(heard.mentions, 0, len(heard.tokens))
    found = meant({cut: told for cut, told in names.items() if cut != "season"}, carried, known)
    event = known.view.event is not None
    stepped = event and found and all(second(each) == "beyond the drift" for each in found)
    return "There is a step at the date." if stepped else "The data can’t say what made it."


def in_a_breath(finding: Finding, view: BriefView) -> str:
    """What may be said of it, in a sentence."""
    beat = next(beat for beat in view.beats if beat.id == finding.beat)
    measure = view.measures[finding.measure]
    return of_kinds.breath(finding, beat, measure, view.format, event_of(view, beat))
