"""What a sentence claims that the findings do not carry."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence, Set
from typing import TYPE_CHECKING, NamedTuple

from pipeline.contracts.finding import Finding
from pipeline.contracts.script_check import ClaimChecked, NumberChecked
from pipeline.event_of import event_of
from pipeline.said.cautious import plain
from pipeline.said.clause_says import stays
from pipeline.said.compared_changes import compared
from pipeline.said.forbidden import forbidden
from pipeline.said.meant import meant, names_in
from pipeline.said.only_said import only_one
from pipeline.said.sounded import Sounded
from pipeline.said.stated import PLAIN, stated
from pipeline.said.topic_known import Known
from pipeline.wording import of_kinds
from pipeline.wording.second_verdict import second

if TYPE_CHECKING:
    from pipeline.config.views import BriefView

_CAUSE = "The data show when and how much; what made it is not in them."
_GAP = "No gap between their changes is told, so neither can be called the larger."
_CAUTION = "The data can’t tell this, and neither this sentence nor the next says so."
# What a cause is said to lead to, and no claim besides: 'hence the lower economy'.
_FOLLOWS = re.compile(r"(?:so|hence|thus|therefore|which|making|meaning|and)\b")
_HELD_TO = re.compile(r"\b(?:keep|hold|kept|held)s?\b.*\b(?:to|at)\b")  # a level: 'to 4.87'


class Told(NamedTuple):
    """A sentence with those before and after it, taken apart, and its numbers as judged."""

    text: str
    before: str
    following: str
    heard: Sounded
    numbers: Sequence[NumberChecked]


def claims_of(told: Told, carried: Mapping[str, Set[str]], known: Known) -> list[ClaimChecked]:
    """Each with its place; a sentence may make several."""
    text, heard = told.text, told.heard
    found: list[ClaimChecked] = []
    if span := known.causes.found(text, heard, told.before):
        found.append(
            ClaimChecked(
                said=text[span.begins : span.ends], begins=span.begins, ends=span.ends,
                kind="cause", why=_CAUSE, instead=_of_cause(heard, carried, known),
            )
        )  # fmt: skip
    banned = forbidden(text, heard, carried, known)
    only = None if banned else only_one(text, heard)
    if match := compared(text, heard, carried, known) or only:
        found.append(
            ClaimChecked(
                said=text[match.start() : match.end()], begins=match.start(), ends=match.end(),
                kind="no gap", why=_GAP, risk=2,
            )
        )  # fmt: skip
    if banned:
        found.append(
            ClaimChecked(
                said=text[banned.begins : banned.ends], begins=banned.begins, ends=banned.ends,
                kind="don't say", why=f"Don’t say: {banned.line}", risk=2,
            )
        )  # fmt: skip
    for begins, ends, finding in stated(
        text, told.following, heard, carried, known, told.numbers, told.before
    ):
        if not _is_within(begins, ends, found, told):
            found.append(
                ClaimChecked(
                    said=text[begins:ends], begins=begins, ends=ends, kind="no caution",
                    finding=finding.id, why=_CAUTION, instead=in_a_breath(finding, known.view),
                )
            )  # fmt: skip
    return found


def _is_within(begins: int, ends: int, found: Sequence[ClaimChecked], told: Told) -> bool:
    """Whether a clause says no more than the claims before: it is in one, or tells no size.

    Of a cause it is one more claim where the change is told by itself, or with its size.
    """
    numbers = [each for each in told.numbers if each.result != PLAIN]
    sized = any(begins <= each.begins < ends for each in numbers)
    over = [each.kind for each in found if each.begins < ends and begins < each.ends]
    said = plain(told.text[begins:ends])
    banned = any(each.kind == "don't say" for each in found)
    if "don't say" in over or (banned and stays(said)):
        return True  # which says it of the same change
    if any(each.kind == "no gap" for each in found):
        return not sized or "no gap" in over
    if "cause" in over:
        return not numbers or bool(_HELD_TO.search(said))
    caused = any(each.kind == "cause" for each in found)
    return caused and not numbers and bool(_FOLLOWS.match(said))


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
