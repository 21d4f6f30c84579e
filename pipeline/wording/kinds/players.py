"""players: who is told apart from the others, and that nobody else is, in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from pipeline.contracts.finding import Finding, Player
from pipeline.contracts.findings import PlayersList
from pipeline.contracts.notes import AtLeast
from pipeline.text import capitalised, listed
from pipeline.wording import numbers, phrases, shown_numbers
from pipeline.wording.kinds.base import KindWords
from pipeline.wording.refusals import refused_said
from pipeline.wording.subject import subject
from pipeline.wording.temptations import Rank, Temptation
from pipeline.wording.values import unit_said, values_said

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format
    from pipeline.config.views import NamedEvent

FEW = 3  # of a list: few enough to say
OTHERS = {
    "pace": "the other quicks",
    "spin": "the other spinners",
    "batters": "the other batters",
}
NO_OTHERS = "One name, and nobody to hold it against"
ARMS = {
    "left pace": ("left-arm quick", "left-arm quicks"),
    "right pace": ("right-arm quick", "right-arm quicks"),
    "left spin": ("left-arm spinner", "left-arm spinners"),
    "right spin": ("right-arm spinner", "right-arm spinners"),
}
HANDS = {"left": ("left-hander", "left-handers"), "right": ("right-hander", "right-handers")}


class Players(KindWords):
    """Everyone's change, then each player's; only who is told apart is named."""

    extra_heading = "Luck allowed for"
    wide = True

    def said(
        self,
        finding: Finding,
        beat: AnyKind,
        measure: Measure,
        form: Format,
        event: NamedEvent | None,
    ) -> list[str]:
        if isinstance(finding, Player):
            return player_said(finding, beat, measure, form)
        return super().said(finding, beat, measure, form, event)

    def opening(
        self, own: Sequence[Finding], beat: AnyKind, form: Format, listed: PlayersList | None
    ) -> list[str]:
        if not own or listed is None:
            return []
        return [" ".join(list_said(listed, named(own), beat))]

    def may_be_said(self, finding: Finding) -> bool:
        """A name that is not told apart would be a ranking."""
        return not isinstance(finding, Player) or is_apart(finding)

    def tempting(
        self, mine: Sequence[Finding], beat: AnyKind, form: Format
    ) -> Iterator[Temptation]:
        drawn = [finding for finding in named(mine) if finding.shrunk]
        if len(mine) <= 2 or not drawn:
            return
        line = "“Top of the list.” The order inside the list is mostly luck; say who is told apart."
        if not any(is_apart(finding) for finding in drawn):
            line = (
                "“The biggest loser was …” Nobody is told apart: the ends of a list are mostly "
                "luck."
            )
        yield Temptation(Rank.ORDER, line)

    def label(self, finding: Finding, beat: AnyKind, form: Format) -> str:
        return super().label(finding, beat, form) if finding.values else "Everyone"

    def after_its_measure(self, finding: Finding, beat: AnyKind, form: Format) -> str:
        """A name keeps its capital."""
        return self.label(finding, beat, form) if finding.values else ""

    def extra(self, finding: Finding) -> str:
        if not isinstance(finding, Player) or finding.shrunk is None:
            return shown_numbers.NONE
        drawn = finding.shrunk
        ends = numbers.between(drawn.low * 100, drawn.high * 100, 0)
        return f"{numbers.percent(drawn.change, 0)} ({ends}){', apart' if drawn.apart else ''}"

    def title(
        self,
        mine: Sequence[Finding],
        beat: AnyKind,
        measure: Measure,
        headlines: Sequence[str],
        form: Format,
        event: NamedEvent | None,
    ) -> str:
        """Players are told as a list."""
        told = named(mine)
        count, apart = numbers.said(len(told), 0), sum(is_apart(player) for player in told)
        if not told:
            return "Nobody has enough in both windows"
        if not apart and len(told) == 1:
            return NO_OTHERS
        if not apart:
            return f"{capitalised(count)} names, and nothing here separates them"
        return f"{capitalised(numbers.said(apart, 0))} of {count} moved by more than luck"


def named(findings: Sequence[Finding]) -> list[Player]:
    return [finding for finding in findings if isinstance(finding, Player)]


def is_apart(player: Player) -> bool:
    """Whether the player is told apart from the others."""
    return player.shrunk is not None and player.shrunk.apart


def player_said(finding: Player, beat: AnyKind, measure: Measure, form: Format) -> list[str]:
    """One player told apart: the values, then the change with luck allowed for."""
    what = capitalised(subject(finding, beat, measure, form))
    if finding.refused:
        return [refused_said(what, finding)]
    if finding.shrunk is None:
        raise ValueError(f"{finding.id} is not refused, and not drawn in")
    a, b = values_said(finding, measure)
    drawn, first = finding.shrunk, numbers.with_unit(a, unit_said(measure))
    reach = phrases.interval_said(drawn.low * 100, drawn.high * 100, "per cent")
    apart = "told apart from" if drawn.apart else "not told apart from"
    others = OTHERS.get(drawn.group, "the others")
    return [
        f"{what} went from {first} to {b}.",
        f"With luck allowed for, that is {reach}: {apart} {others}.",
    ]


def list_said(found: PlayersList, told: Sequence[Player], beat: AnyKind) -> list[str]:
    """How many are told apart, how many the threshold left out, who hardly features."""
    if not told:
        least = _least(found.at_least)
        return [f"Nobody had {least} in both windows, so there are no names here."]
    few = _rare(found, beat)
    return [_apart_said(told), threshold_said(found), *([few] if few else [])]


def _apart_said(told: Sequence[Player]) -> str:
    count = numbers.said(len(told), 0)
    apart = [player for player in told if is_apart(player)]
    if not apart and len(told) == 1:
        return f"{NO_OTHERS}."
    if not apart:
        many = capitalised(count)
        return f"{many} names, {count} different numbers, and nothing here separates them."
    moved = f"{capitalised(numbers.said(len(apart), 0))} of {count} moved by more than luck"
    names = [next(iter(player.values.values())) for player in apart]
    return f"{moved}: {listed(names)}." if len(apart) <= FEW else f"{moved}."


def threshold_said(found: PlayersList) -> str:
    least, out = _least(found.at_least), found.left_out
    left = numbers.said(out, 0) if out else "nobody"
    return f"To be here takes {least} in each window; that left out {left} of those in both."


def _least(at_least: AtLeast) -> str:
    return f"{numbers.said(at_least.count, 0)} {at_least.of}"


def _rare(found: PlayersList, beat: AnyKind) -> str | None:
    """The kind of bowler, or the hand, that hardly features in the list."""
    counts, names = (found.arms, ARMS) if beat.person == "bowler" else (found.hands, HANDS)
    held = {names[key]: counts.get(key, 0) for key in names}
    rare = min(held, key=lambda name: (held[name], name))
    if held[rare] > FEW or found.kept <= FEW:
        return None
    if not held[rare]:
        return f"There is no {rare[0]} in this list."
    if held[rare] == 1:
        return f"Only one of them is a {rare[0]}."
    return f"Only {numbers.said(held[rare], 0)} of them are {rare[1]}."


WORDS = Players()
