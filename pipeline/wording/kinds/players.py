"""players: who moved, who stands clear of the others, and what separates the rest, in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from pipeline.contracts.finding import Finding, Player
from pipeline.contracts.findings import PlayersList
from pipeline.contracts.parts import Shrunk
from pipeline.text import capitalised
from pipeline.voice.sentence import Told
from pipeline.wording import numbers, phrases, shown_numbers
from pipeline.wording.kinds.base import KindWords
from pipeline.wording.names import (
    NO_OTHERS,
    all_of,
    among_groups,
    claims,
    drawn_shown,
    has_moved,
    is_apart,
    is_luck,
    list_noted,
    list_said,
    named,
)
from pipeline.wording.refusals import refused_said
from pipeline.wording.subject import subject
from pipeline.wording.temptations import Rank, Temptation
from pipeline.wording.values import unit_said, values_said

if TYPE_CHECKING:
    from pipeline.config.event_views import NamedEvent
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format

MEANS = {"pace": "the quicks’ mean", "spin": "the spinners’ mean", "batters": "the batters’ mean"}

NOBODY = "There is nobody of the kind to hold that against"


class Players(KindWords):
    """Everyone's change, then each player's; only who stands clear has a line."""

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
        return list_said(listed, named(own), beat)

    def of_list(
        self, own: Sequence[Finding], beat: AnyKind, found: PlayersList | None
    ) -> list[str]:
        return [] if found is None else list_noted(found, named(own), beat)

    def heading(self, what: str, beat: AnyKind, form: Format) -> list[str]:
        if not beat.where.given():
            return [f"{what} of each {beat.person}"]
        return [f"{what}, {beat.person} by {beat.person}"]

    def details(self, beat: AnyKind, form: Format) -> list[str]:
        return [f"{beat.threshold} or more"]

    def may_be_said(self, finding: Finding) -> bool:
        """A name that does not stand clear would be a ranking, though it moved as others did."""
        return not isinstance(finding, Player) or is_apart(finding)

    def tempting(
        self, mine: Sequence[Finding], beat: AnyKind, form: Format
    ) -> Iterator[Temptation]:
        drawn = [finding for finding in named(mine) if finding.shrunk]
        if len(mine) <= 2 or not drawn:
            return
        line = "“Top of the list.” Say who stands clear; the order among the others is not known."
        if not any(is_apart(finding) for finding in drawn):
            spread = among_groups(drawn).values()
            luck = bool(spread) and all(is_luck(among) for among in spread)
            ends = ": the ends of this list are mostly luck" if luck else ", so none can be picked"
            line = f"“The biggest loser was …” No one stands clear of the rest{ends}."
        yield Temptation(Rank.ORDER, line)

    def label(self, finding: Finding, beat: AnyKind, form: Format) -> str:
        return super().label(finding, beat, form) if finding.values else "Everyone"

    def grouped(self, finding: Finding, beat: AnyKind, form: Format) -> tuple[str, str]:
        """A name stands with those whose mean it is held against."""
        kind = finding.shrunk.group if isinstance(finding, Player) and finding.shrunk else ""
        return capitalised(all_of(kind)) if kind else "", self.label(finding, beat, form)

    def after_its_measure(self, finding: Finding, beat: AnyKind, form: Format) -> str:
        """A name keeps its capital."""
        return self.label(finding, beat, form) if finding.values else ""

    def extra(self, finding: Finding) -> str:
        if not isinstance(finding, Player) or finding.shrunk is None:
            return shown_numbers.NONE
        return ", ".join([drawn_shown(finding.shrunk), *claims(finding)])

    def title(
        self,
        mine: Sequence[Finding],
        beat: AnyKind,
        measure: Measure,
        headlines: Sequence[str],
        form: Format,
        event: NamedEvent | None,
    ) -> str:
        """Players are told as a list: who moved, and who stands clear of the rest."""
        told = named(mine)
        count, moved = numbers.said(len(told), 0), sum(has_moved(player) for player in told)
        apart = sum(is_apart(player) for player in told)
        if not told:
            return "Nobody has enough in both windows"
        if len(told) == 1:
            return "One name, and it moved by more than luck" if moved else NO_OTHERS
        clear = f"{numbers.said(apart, 0) if apart else 'no one'} stands clear of the rest"
        if apart > 1:
            clear = f"{numbers.said(apart, 0)} stand clear of the rest"
        if not moved:
            return f"{capitalised(count)} names, and {clear}"
        of = f"{numbers.said(moved, 0)} of {count}" if moved < len(told) else f"all {count}"
        return f"{capitalised(of)} moved by more than luck; {clear}"


def player_said(finding: Player, beat: AnyKind, measure: Measure, form: Format) -> list[str]:
    """One player: the values, the change with luck allowed for, and which of the claims hold."""
    what = subject(finding, beat, measure, form)
    if finding.refused:
        return [refused_said(what, finding)]
    if finding.shrunk is None:
        raise ValueError(f"{finding.id} is not refused, and not drawn in")
    a, b = values_said(finding, measure)
    drawn, first = finding.shrunk, numbers.with_unit(a, unit_said(measure))
    reach = phrases.interval_said(drawn.low * 100, drawn.high * 100, "per cent")
    went = Told("players.went", what=what, first=first, second=b)
    return [went, Told("players.luck", reach=reach), _held_against(drawn)]


def _held_against(drawn: Shrunk) -> str:
    """Both claims; of one who is alone in the group there is no second one.

    An edition of 0.8 made the second alone.
    """
    if drawn.moved is None:
        apart = "apart from" if drawn.apart else "not told apart from"
        return f"It is {apart} {_mean_said(drawn)}." if drawn.of > 1 else f"{NOBODY}."
    if drawn.of <= 1:
        return Told("players.moved_lone" if drawn.moved else "players.still_lone")
    claims = {
        (True, True): "both",
        (True, False): "moved_only",
        (False, True): "apart_only",
        (False, False): "neither",
    }
    return Told(f"players.{claims[drawn.moved, drawn.apart]}", mean=_mean_said(drawn))


def _mean_said(drawn: Shrunk) -> str:
    """'the quicks’ mean, about nine per cent down'."""
    whose, size = MEANS.get(drawn.group, "the mean of the others"), abs(drawn.mean) * 100
    mean = numbers.said(size, 0)
    if mean == "nought":
        return f"{whose}, which hardly moved"
    return f"{whose}, about {mean} per cent {'up' if drawn.mean > 0 else 'down'}"


WORDS = Players()
