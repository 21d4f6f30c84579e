"""What else changed between the windows in words, and the change like for like."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from msgspec import structs

from pipeline.contracts.codes import MeasureKind, OfBalls, Shown, UnlikeBecause
from pipeline.contracts.composition import MUCH, Composition, Moved
from pipeline.contracts.finding import Change, Finding
from pipeline.contracts.parts import Span
from pipeline.text import listed
from pipeline.voice.sentence import Told
from pipeline.wording import numbers
from pipeline.wording.labels import value_label
from pipeline.wording.scales import Scaled, scaled, sign_of

if TYPE_CHECKING:
    from pipeline.config.project import Format
    from pipeline.contracts.notes import NotLikeForLike

MOST = 2  # changes that are named
# One of each, and what it did with its share of the balls.
OF: dict[OfBalls, tuple[str, str]] = {
    "batting_team": ("side", "{} faced"),
    "bowling_team": ("side", "{} bowled"),
    "ground": ("ground", "{} had"),
    "country": ("country", "{} had"),
    "competition": ("competition", "the {} had"),
    "innings": ("innings", "{} had"),
    "bowler_kind": ("kind of bowler", "{} bowled"),
    "phase": ("phase", "{} had"),
    "outcome": ("kind of result", "{} had"),
}
OUTCOMES = {
    "decided": "matches that were decided",
    "tied": "ties",
    "undecided": "matches without a result",
}
UNKNOWN = {
    "ground": "grounds without a name",
    "country": "grounds of unknown country",
    "competition": "matches of unknown competition",
    "phase": "overs outside the phases",
}
# Of two that say nearly the same only the larger is named.
ALIKE = ({"batting_team", "bowling_team"}, {"ground", "country"})
WHY: dict[UnlikeBecause, str] = {
    "few_innings": "there are too few innings to hold the sides still",
    "not_by_innings": "what is counted a match can’t be shared out among its innings",
    "little_in_common": "under half of the balls are of pairs of sides that met both times",
    "no_error": "there is too little in common for an interval",
    "below_nought": "what is counted can be below nought",
    "windows_apart": "before and after have no side or no ground in common",
    "no_fit": "the regression has no answer",
}
HELD: dict[str, str] = {
    "batting_team": "sides",
    "bowling_team": "sides",
    "innings": "innings",
    "ground": "grounds",
}


def what_else(finding: Finding, row: str, form: Format) -> str | None:
    """One line of a headline: what else changed, and its number without that, in two ways.

    `row` is what its row is called, '' of the whole.
    """
    found = composition_of(finding)
    if found is None or finding.refused:
        return None
    whose = f" for {row}" if row else ""
    parts = [f"What else changed{whose}: {_changes(found, finding.kind, form)}."]
    return " ".join([*parts, _like_for_like(found, finding.kind)])


def composition_of(finding: Finding) -> Composition | None:
    return finding.composition if isinstance(finding, Change) else None


def named(found: Composition) -> list[Moved]:
    """The largest changes that are worth a name, at most two that say different things."""
    chosen: list[Moved] = []
    for moved in found.moved:
        beside = any({moved.by, one.by} <= pair for one in chosen for pair in ALIKE)
        if moved.much and not beside:
            chosen.append(moved)
    return chosen[:MOST]


def _changes(found: Composition, kind: MeasureKind, form: Format) -> str:
    told = [f"{moved_said(one, form)}{_worth(one, kind)}" for one in named(found)]
    if told:
        return "; ".join(told)
    asked = list(dict.fromkeys(OF[moved.by][0] for moved in found.moved))
    if not asked:
        return "there is nothing that could"
    *others, last = asked
    which = f"{', '.join(others)} or {last}" if others else last
    told_of = f"no {which} by five points of the balls"
    most = max(found.moved, key=lambda moved: moved.variation)
    if most.variation < MUCH:
        return told_of
    moved = numbers.percent(most.variation, 0, signed=False)
    return f"{told_of}, though {moved} of them are of other {OF[most.by][0]}s in all"


def moved_said(moved: Moved, form: Format | None) -> str:
    """'Quillport bowled 14% of the balls before, 3% after'."""
    did = OF[moved.by][1].format(_value(moved, form))
    before, after = _share(moved.before), _share(moved.after)
    return f"{did} {before} of the balls before, {after} after"


def _share(share: float) -> str:
    """A share that is none, or all, only where it is."""
    if share in (0, 1):
        return "none" if share == 0 else "all"
    shown = numbers.percent(share, 0, signed=False)
    return {"0%": "under 1%", "100%": "over 99%"}.get(shown, shown)


def _value(moved: Moved, form: Format | None) -> str:
    if moved.by == "outcome":
        return OUTCOMES[moved.value]
    if moved.value == "unknown" and moved.by in UNKNOWN:
        return UNKNOWN[moved.by]
    said = value_label(moved.by, moved.value, form) if form else moved.value
    return f"the {said}" if moved.by == "innings" else said


def _worth(moved: Moved, kind: MeasureKind) -> str:
    """What it would have made of the number by itself."""
    if moved.effect is None:
        return ""
    effect = on_scale(moved.effect, kind)
    return f" (by itself {effect.shown()}, 95% {effect.interval()})"


def _like_for_like(found: Composition, kind: MeasureKind) -> str:
    """Both numbers with their intervals, or why there is none."""
    if found.like_for_like:
        like = on_scale(found.like_for_like, kind)
        at = " at the same grounds" if found.alike == "pairs at a ground" else ""
        met = f"over the {numbers.counted(found.sides, 'side')} that met{at} both times"
        one = f"Like for like, {met}: {like.shown()}, 95% {like.interval()}"
    else:
        one = f"Like for like there is no number: {_why(found.unlike)}"
    if found.held_still and found.held:
        still = on_scale(found.held_still, kind)
        held = lead("held still", found.held)
        return f"{one}; {held}: {still.shown()}, 95% {still.interval()}."
    if found.unheld:
        with_none = "with sides and grounds held still there is none either"
        if found.like_for_like:
            with_none = "with sides and grounds held still there is no number"
        return f"{one}; {with_none}: {_why(found.unheld)}."
    return f"{one}."


def _why(because: UnlikeBecause | None) -> str:
    if because is None:
        raise ValueError("a number that is refused has a reason")
    return WHY[because]


def on_scale(span: Span, kind: MeasureKind) -> Scaled:
    """A span of a composition, in the unit that it is told in."""
    return scaled(span, None if kind == "share" else span, kind)


def like_way(finding: Finding) -> int:
    """1 where like for like it is told to rise, -1 to fall, 0 where neither, or not another one."""
    instead = _instead(finding)
    return _way(instead) if instead else 0


def _way(span: Span) -> int:
    return (span.low > 0) - (span.high < 0)


def with_that_of(finding: Finding, findings: Iterable[Finding]) -> Finding:
    """A row that repeats a headline's question, with what else changed as of that headline."""
    if not isinstance(finding, Change) or finding.composition:
        return finding
    same = (each for each in findings if each.asks.look == finding.asks.look)
    found = next((one for each in same if (one := composition_of(each))), None)
    return structs.replace(finding, composition=found) if found else finding


def is_unlike(finding: Finding) -> bool:
    """Whether like for like its change is another one."""
    return _instead(finding) is not None


def _instead(finding: Finding) -> Span | None:
    found = composition_of(finding)
    return found.instead if found and not finding.refused else None


def lead(shown: Shown, held: Sequence[str]) -> str:
    """'like for like', 'with sides and grounds held still': what a number is beside the plain."""
    if shown == "like for like":
        return shown
    return f"with {listed(list(dict.fromkeys(HELD[by] for by in held)))} held still"


def unlike_said(finding: Finding) -> str:
    """What the number is beside the plain one that shows that its change is another one."""
    found = composition_of(finding)
    if found is None or found.differs is None:
        raise ValueError(f"{finding.id} is no other change like for like")
    return lead(found.differs, found.held)


def in_short(finding: Finding) -> str:
    """The end of a sentence on a change that is another one like for like; else nothing."""
    found, instead = composition_of(finding), _instead(finding)
    if found is None or found.differs is None or instead is None:
        return ""
    alike = lead(found.differs, found.held)
    if way := _way(instead):
        size = on_scale(instead, finding.kind).said()
        return f"; {alike} it {'rose' if way > 0 else 'fell'} by {size}"
    if finding.verdict == "changed":
        rose = "rose" if sign_of(finding) > 0 else "fell"
        return f"; {alike} we can’t show that it {rose} at all"
    return ""


def not_like_for_like_said(note: NotLikeForLike, subject: str) -> str:
    """The number like for like first, then the plain one, then what made the difference."""
    kind: MeasureKind = "share" if note.points else "rate"
    instead, plain = on_scale(note.instead, kind), on_scale(note.change, kind)
    cause = f" {moved_said(note.cause, None)}." if note.cause else ""
    alike = lead(note.shown, note.held)
    said = {"alike": alike, "what": subject, "plain": f"{plain.said()} {plain.way()}"}
    if way := _way(note.instead):
        rose = "rose" if way > 0 else "fell"
        return f"{Told('like.changed', rose=rose, size=instead.said(), **said)}{cause}"
    return f"{Told('like.open', reach=instead.could_be(), **said)}{cause}"
