"""A list of players in words: who moved, who stands clear, and what separates the others."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from pipeline.contracts.finding import Finding, Player
from pipeline.contracts.findings import PlayersList
from pipeline.contracts.notes import AtLeast
from pipeline.contracts.parts import Heterogeneity, Shrunk
from pipeline.text import capitalised, listed
from pipeline.voice.sentence import Told
from pipeline.wording import numbers, phrases

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind

FEW = 3  # of a list: few enough to say
LUCK = 0.05  # p of the spread between players: from here luck makes as much
ALL = {"pace": "the quicks", "spin": "the spinners", "batters": "the batters"}
NO_OTHERS = "One name, and nobody to hold it against"
ARMS = {
    "left pace": ("left-arm quick", "left-arm quicks"),
    "right pace": ("right-arm quick", "right-arm quicks"),
    "left spin": ("left-arm spinner", "left-arm spinners"),
    "right spin": ("right-arm spinner", "right-arm spinners"),
}
HANDS = {"left": ("left-hander", "left-handers"), "right": ("right-hander", "right-handers")}


def named(findings: Sequence[Finding]) -> list[Player]:
    return [finding for finding in findings if isinstance(finding, Player)]


def is_apart(player: Player) -> bool:
    """Whether the player is told from the others' mean."""
    return player.shrunk is not None and player.shrunk.apart


def has_moved(player: Player) -> bool:
    """Whether the player's own change is told from none, with luck allowed for."""
    return player.shrunk is not None and player.shrunk.moved is True


def claims(player: Player) -> list[str]:
    """What may be said of a name, as words of a table."""
    said = (("moved", has_moved(player)), ("apart", is_apart(player)))
    return [word for word, holds in said if holds]


def drawn_shown(drawn: Shrunk) -> str:
    """'−17% (−29 to −4)': the change with luck allowed for; no end is rounded to none."""
    low, high = drawn.low * 100, drawn.high * 100
    most = max(numbers.first_digit(end) for end in (low, high))
    return f"{numbers.percent(drawn.change, most)} ({numbers.between(low, high, most)})"


def list_said(found: PlayersList, told: Sequence[Player], beat: AnyKind) -> list[str]:
    """Who is in the list, how many of them moved, and who stands clear."""
    if not told:
        least = _least(found.at_least)
        return [Told("players.none", least=least)]
    said = [threshold_said(found, beat), moved_said(told), *apart_said(told)]
    return [sentence for sentence in said if sentence]


def list_noted(found: PlayersList, told: Sequence[Player], beat: AnyKind) -> list[str]:
    """What its table says besides: what separates them, where luck does not, and who is rare."""
    silent = len(told) < 2 or any(map(is_apart, told)) or _all_luck(told)
    spread = [] if silent else spread_said(told)
    said = [capitalised(_fewer_said(found)), *spread, _rare(found, beat)] if told else []
    return [str(sentence) for sentence in said if sentence]


def threshold_said(found: PlayersList, beat: AnyKind) -> Told:
    who = numbers.with_unit(numbers.said(found.kept, 0), f"{beat.person}s")
    return Told("players.list", who=who, least=_least(found.at_least))


def _fewer_said(found: PlayersList) -> str:
    """How many are not in the list for want of play."""
    if not found.left_out:
        return "Nobody played in both windows with fewer."
    return f"{numbers.said(found.left_out, 0)} more played in both windows, with fewer."


def moved_said(told: Sequence[Player]) -> str:
    """How many changed themselves, whatever the others did."""
    if any(player.shrunk and player.shrunk.moved is None for player in told):
        return ""  # an edition that did not ask
    moved = [player for player in told if has_moved(player)]
    if not moved:
        none = "that any one of them moved" if len(told) > 1 else "that it moved"
        return Told("players.moved.none", none=none)
    count, whole = numbers.said(len(moved), 0), numbers.said(len(told), 0)
    of = f"{count} of the {whole}" if len(moved) < len(told) else f"all {whole}"
    of = "the one name here" if len(told) == 1 else of
    names = f": {listed([_name(player) for player in moved])}" if _few(moved, told) else ""
    return Told("players.moved", of=of, ways=f"{_ways(moved)}{names}")


def _ways(moved: Sequence[Player]) -> str:
    """'moved, all up'; 'moved, six up and three down'."""
    up = sum(player.told.difference.value > 0 for player in moved)
    down = len(moved) - up
    if up and down:
        return f"moved, {numbers.said(up, 0)} up and {numbers.said(down, 0)} down"
    return f"moved, {'each of them ' if len(moved) > 1 else ''}{'up' if up else 'down'}"


def apart_said(told: Sequence[Player]) -> list[str]:
    """Who stands clear of the others' mean, else what separates them."""
    apart = [player for player in told if is_apart(player)]
    if len(told) == 1:
        return [Told("players.alone")]
    if not apart:
        but = ".but" if any(map(has_moved, told)) else ""
        luck = spread_said(told) if _all_luck(told) else []
        return [Told(f"players.clear.none{but}"), *luck]
    count, stand = numbers.said(len(apart), 0), "stands" if len(apart) == 1 else "stand"
    return [Told("players.clear", count=count, stand=stand, names=_clear(apart, told))]


def _clear(apart: Sequence[Player], told: Sequence[Player]) -> str:
    """': A Quibble', of a few of them, and whether their own numbers can be told from no change."""
    if not _few(apart, told):
        return ""
    line = f": {listed([_name(player) for player in apart])}"
    if any(has_moved(player) for player in apart):
        return line
    number = "number" if len(apart) == 1 else "numbers"
    return f"{line}, whose own {number} can’t be told from no change"


def spread_said(told: Sequence[Player]) -> list[str]:
    """What separates those whom nothing tells apart: no more than luck, or how much more."""
    known = among_groups(told)
    beyond = {name: among for name, among in known.items() if not is_luck(among)}
    if not known:
        return []
    if not beyond:
        return [Told("players.spread.luck")]
    alone = len(known) == 1
    return [_spread_of("them" if alone else all_of(name), beyond[name]) for name in beyond]


def _all_luck(told: Sequence[Player]) -> bool:
    """Whether no more than luck separates the players of any group; none of them is no luck."""
    known = among_groups(told).values()
    return bool(known) and all(map(is_luck, known))


def among_groups(told: Sequence[Player]) -> dict[str, Heterogeneity]:
    """How far the players of each group differ; none of a group of one."""
    drawn = [player.shrunk for player in told if player.shrunk]
    return {each.group: each.among for each in drawn if each.among}


def all_of(group: str) -> str:
    """'the quicks': the players of a kind together."""
    return ALL.get(group, "the others")


def is_luck(among: Heterogeneity) -> bool:
    """Whether luck makes as much: the test finds no more, and most of a deviation is drawn in."""
    return among.p >= LUCK and among.kept < 0.5


def _spread_of(whom: str, among: Heterogeneity) -> Told:
    if among.p >= LUCK:
        return Told("players.spread.open", whom=whom)
    return Told("players.spread.more", share=phrases.estimated_share(among.kept), whom=whom)


def _few(chosen: Sequence[Player], told: Sequence[Player]) -> bool:
    return len(chosen) <= FEW < len(told)


def _name(player: Player) -> str:
    return next(iter(player.values.values()))


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
        return Told("players.rare.none", kind=rare[0])
    if held[rare] == 1:
        return Told("players.rare", count="one", are="is", kind=f"a {rare[0]}")
    return Told("players.rare", count=numbers.said(held[rare], 0), are="are", kind=rare[1])
