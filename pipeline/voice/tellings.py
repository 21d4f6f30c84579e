"""What can be told, and what a form of it needs: its slots, and how strong its words may be."""

from __future__ import annotations

from typing import NamedTuple

from pipeline.voice.strength import Says

FREQUENT = 8  # forms at least of what is told on most pages
SOME = 4  # of what is told now and then
RARE = 3


class Outcome(NamedTuple):
    """`slots` are the ones that each form has once; `says` is the verdict that it may tell.

    What is told of two groups is `timeless`: nothing of them comes before or after.
    """

    slots: tuple[str, ...]
    says: Says
    forms: int = FREQUENT  # at least
    timeless: bool = False


def _of(slots: str, says: Says = "free", forms: int = FREQUENT, timeless: bool = False) -> Outcome:
    return Outcome(tuple(slots.split()), says, forms, timeless)


_NUMBERS = {
    "number.rose": _of("what first second", "rose"),
    "number.fell": _of("what first second", "fell"),
    "number.open": _of("what first second", "neutral"),
    "number.open.same": _of("what first", "neutral", SOME),
    "number.held": _of("what first second", "held"),
    "number.held.same": _of("what first", "held"),
    "times.changed": _of("times", "neutral", SOME),
    "felt.changed": _of("over felt", "neutral", timeless=True),
    "felt.overs": _of("over felt overs", "neutral", timeless=True),
}
_SURE = {
    "sure.changed.rise": _of("reach", "rose"),
    "sure.changed.fall": _of("reach", "fell"),
    "sure.changed.gap": _of("reach where", "apart", timeless=True),
    "sure.held": _of("margin", "under"),
    "sure.held.gap": _of("margin", "under", timeless=True),
    "open.plain": _of("", "open"),
    "open.plain.gap": _of("", "open", timeless=True),
    "open.usual.time": _of("way swings", "open", timeless=True),
    "open.usual.clusters": _of("way units", "open", SOME, timeless=True),
    "open.few": _of("matches", "open", timeless=True),
    "open.many.way": _of("way tested", "open", timeless=True),
    "open.many.held": _of("tested", "open", SOME, timeless=True),
    "open.many.level": _of("tested", "open", SOME, timeless=True),
    "open.many.none": _of("tested", "open", RARE, timeless=True),
    "reach.change": _of("reach", "reach"),
    "reach.gap": _of("reach where", "reach", timeless=True),
}
_WAS = "it rising size per before"
_DRIFT = {
    "drift.untested": _of("reason", "untested"),
    "drift.beyond.against": _of(f"{_WAS} way", "step"),
    "drift.beyond.against.share": _of("it up before way", "step"),
    "drift.beyond.with": _of(f"{_WAS} way", "step"),
    "drift.beyond.with.share": _of("it up before way", "step"),
    "drift.beyond.still": _of(f"{_WAS} way", "step", SOME),
    "drift.beyond.still.share": _of("it up before way", "step", SOME),
    "drift.beyond.flat": _of("before way within", "step"),
    "drift.beyond.but": _of(f"{_WAS} way", "step"),
    "drift.beyond.but.share": _of("it up before way", "step", SOME),
    "drift.beyond.but.flat": _of("before way within", "step", SOME),
    "drift.beyond.turned": _of("", "free", RARE),
    "drift.beyond.bent.turned": _of("", "bent", RARE),
    "drift.beyond.bent.curving": _of("", "bent", RARE),
    "drift.beyond.bent.both": _of("", "bent", RARE),
    "drift.in_line.was": _of(_WAS, "neutral"),
    "drift.in_line.was.share": _of("it up before", "neutral"),
    "drift.in_line.carried": _of(f"{_WAS} expected", "neutral"),
    "drift.in_line.against": _of(f"{_WAS} higher", "neutral", SOME),
    "drift.in_line.against.share": _of("it up before higher", "neutral", SOME),
    "drift.in_line.step": _of("", "no_step"),
    "drift.in_line.many": _of("tested", "no_step", SOME),
    "drift.none": _of("before within", "no_step"),
    "drift.none.many": _of("before tested within", "no_step", RARE),
}
_BESIDE = {
    "control.beyond": _of("name way reach"),
    "control.turned": _of("rose name way reach", "free", SOME),
    "control.open": _of("name reach", "open"),
    "control.many": _of("name reach", "open", RARE),
    "control.few": _of("units", "free", RARE),
    "control.poor.gaining": _of("name", "free", RARE),
    "control.poor.losing": _of("name", "free", RARE),
    "control.poor.jump": _of("way", "free", RARE),
    "control.poor.no_jump": _of("", "open", RARE),
    "like.changed": _of("alike what rose size plain", "free", RARE),
    "like.open": _of("alike what reach plain", "open", RARE),
    "panel.all": _of("count that"),
    "panel.all.open": _of("count"),
    "panel.both": _of("", "free", RARE),
    "panel.both.open": _of("", "free", RARE),
    "panel.none": _of("count", "free", RARE),
    "panel.none.open": _of("count", "free", RARE),
    "panel.some": _of("same count that"),
    "panel.some.open": _of("same count"),
    "panel.one": _of("way", "free", RARE),
    "panel.one.not": _of("way", "free", RARE),
    "panel.one.open": _of("way", "free", RARE),
    "panel.one.open.not": _of("way", "free", RARE),
    "yardstick.moves": _of("swings what size", "neutral"),
}
_GROUPS = {
    "gap.changes": _of("first one second other"),
    "gap.changed": _of("first second went reach", "differed"),
    "gap.held": _of("margin", "under"),
    "gap.open": _of("", "open"),
    "gap.open.usual.time": _of("swings", "open", SOME),
    "gap.open.usual.clusters": _of("units", "open", RARE),
    "gap.reach": _of("first second reach", "reach"),
    "groups.number": _of("what first here second there", "neutral", timeless=True),
    "groups.held": _of("what first here second there", "held", timeless=True),
    "groups.held.same": _of("what first here there", "held", SOME, timeless=True),
}
_MIX = {
    "mix.balls": _of("who did first balls second", "neutral", RARE),
    "mix.balls.same": _of("who did first balls", "neutral", RARE),
    "mix.alone": _of("who what way size", "free", SOME),
    "mix.alone.held": _of("who what way size", "free", RARE),
    "mix.no_part": _of("what", "free", RARE),
    "mix.no_share": _of("", "free", RARE),
    "mix.little": _of("who margin", "under", RARE),
    "mix.moved": _of("what way size", "free", RARE),
    "mix.part.other_way": _of("who way size", "free", RARE),
    "mix.part.hardly": _of("who", "free", RARE),
    "mix.part.open": _of("who most", "open", RARE),
    "mix.part.more": _of("who way size", "free", RARE),
    "mix.part.least": _of("least who", "free", RARE),
    "mix.part.between": _of("between who", "free", RARE),
    "mix.many": _of("who size way", "neutral", RARE),
    "mix.open": _of("who reach", "open", RARE),
    "mix.rates.rose": _of("who what first second", "rose", RARE),
    "mix.rates.fell": _of("who what first second", "fell", RARE),
    "mix.rates.part": _of("reach", "free", RARE),
    "mix.rates.held": _of("who what margin", "held", RARE),
    "mix.rates.many": _of("who what first second", "neutral", RARE),
    "mix.rates.open": _of("who what reach", "free", RARE),
}
_PLAYERS = {
    "players.none": _of("least", "free", RARE),
    "players.list": _of("who least", "free", RARE),
    "players.moved": _of("of ways", "free", RARE),
    "players.moved.none": _of("none", "free", RARE),
    "players.alone": _of("", "free", RARE),
    "players.clear": _of("count stand names", "free", RARE),
    "players.clear.none": _of("", "free", RARE),
    "players.clear.none.but": _of("", "free", RARE),
    "players.spread.luck": _of("", "free", RARE),
    "players.spread.open": _of("whom", "open", RARE),
    "players.spread.more": _of("share whom", "free", RARE),
    "players.rare": _of("count are kind", "free", RARE),
    "players.rare.none": _of("kind", "free", RARE),
    "players.went": _of("what first second", "neutral", RARE),
    "players.luck": _of("reach", "free", RARE),
    "players.both": _of("mean", "luck", RARE),
    "players.moved_only": _of("mean", "luck", RARE),
    "players.apart_only": _of("mean", "none_told", RARE),
    "players.neither": _of("mean", "none_told", RARE),
    "players.moved_lone": _of("", "luck", RARE),
    "players.still_lone": _of("", "none_told", RARE),
}
_OTHERS = {
    "turn.put": _of("what ends", "free", SOME),
    "turn.put.event": _of("event what ends", "free", SOME),
    "turn.reach": _of("early late", "free", SOME),
    "turn.only": _of("tried", "free", RARE),
    "turn.inside": _of("event", "fits", RARE),
    "turn.just_then": _of("event", "fits", RARE),
    "turn.outside": _of("event year", "free", RARE),
    "turn.step": _of("reach", "free", RARE),
    "turn.second": _of("ends", "free", RARE),
    "turn.none": _of("what every", "free", RARE),
    "turn.lean": _of("what lean", "free", RARE),
    "streaks.luck": _of("", "free", RARE),
    "streaks.number": _of("what each first second", "neutral", RARE),
    "streaks.number.same": _of("what each first", "neutral", RARE),
    "streaks.held": _of("what first each second", "held", RARE),
    "streaks.held.same": _of("what first each", "held", RARE),
    "streaks.gather": _of("more reach", "free", RARE),
    "refused.number": _of("what reason", "free", SOME),
    "link.other_way": _of("", "neutral"),
    "link.here": _of("", "neutral", RARE, timeless=True),
}
_AROUND = {
    "together": _of("names", "open", 5),
    "turn": _of("", "free"),
    "again.rose": _of("what", "free", SOME),
    "again.fell": _of("what", "free", SOME),
    "again.held": _of("what", "free", SOME),
    "again.told": _of("what", "free", SOME),
    "join.first": _of("what", "free", SOME),
    "join.narrower": _of("now", "free", 6),
    "join.wider": _of("now", "free", 6),
    "join.elsewhere": _of("before now", "free", 6),
    "join.split": _of("each", "free", 6),
    "join.next": _of("what"),
    "join.turning_point": _of("what", "free", SOME),
    "join.mix": _of("did", "free", SOME),
    "join.share": _of("who did", "free", SOME),
    "join.players": _of("what each", "free", SOME),
    "join.gap": _of("first second", "free", SOME),
    "join.groups": _of("first second", "free", SOME),
    "join.phases": _of("what", "free", SOME),
    "join.trend": _of("what", "free", SOME),
    "join.streaks": _of("", "free", RARE),
    "answer.beyond.one": _of("", "free", SOME),
    "answer.beyond.two": _of("", "free", SOME),
    "answer.beyond.many": _of("", "free", SOME),
    "answer.stepped": _of("what way", "step", SOME),
    "cold.held": _of("what margin", "under", SOME),
    "cold.open": _of("balls", "open", SOME),
    "close.matches": _of("count size", "free", SOME),
    "close.matches.one": _of("count size", "free", SOME),
    "close.periods": _of("what periods", "free", SOME),
    "close.far": _of("count", "free", SOME),
    "close.before": _of("wanted before there", "free", SOME),
    "close.cause": _of("what", "free", SOME),
}
OUTCOMES: dict[str, Outcome] = {
    **_NUMBERS,
    **_SURE,
    **_DRIFT,
    **_BESIDE,
    **_GROUPS,
    **_MIX,
    **_PLAYERS,
    **_OTHERS,
    **_AROUND,
}
