"""What else changed between the windows of a headline, and its change like for like.

The mixes are told as they are; what each is worth by itself is the part of the mix of a split of
the change (`methods/split.py`), of balls or, of what is counted an innings, of innings. Like for
like is the change over the pairs of sides that met in both windows, weighted alike
(`methods/like_for_like.py`); held still by regression, see `held_still.py`. Matches are left out
one at a time.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import TYPE_CHECKING, NamedTuple, get_args

import msgspec
import numpy as np
import pandas as pd
from scipy.special import stdtrit

from pipeline.contracts.codes import Alike, OfBalls, Shown
from pipeline.contracts.composition import Composition, Moved
from pipeline.contracts.finding import Change, Finding
from pipeline.contracts.notes import NotLikeForLike, OppositionChanged
from pipeline.contracts.parts import Span
from pipeline.significance.held_still import held_still
from pipeline.significance.innings import Divided, divided
from pipeline.significance.methods.like_for_like import LikeForLike, like_for_like
from pipeline.significance.methods.ratio import Estimate
from pipeline.significance.methods.split import split
from pipeline.significance.told_scale import as_told, told_of

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.views import Scale, SignificanceView

OF_BALLS: tuple[OfBalls, ...] = get_args(OfBalls)
BY_SIDE: tuple[OfBalls, ...] = ("batting_team", "bowling_team")
WITHIN: tuple[OfBalls, ...] = ("bowler_kind", "phase")  # what one innings has several of
# What being like for like holds alike, and what goes with it.
OF_SIDES: tuple[OfBalls, ...] = ("batting_team", "bowling_team", "ground", "country", "competition")
# Kinds of bowler whose share of the balls is what is asked, however they are named.
ONE_KIND = {"bowler_kind": ("bowler_kind", "bowler_style")}
IN_COMMON = 0.5  # of each window's balls, or like for like is of too little of them
AS_MANY = 0.8  # of what pairs keep, for pairs at a ground to be held alike
TWICE = 2.0  # matches of a cell in each window, on average, for the same
SURE = 0.95  # that like for like is not the plain change, and that beside one of the next two
MUCH = 0.5  # of a change: what is not like for like of it makes a caution


def compose(findings: list[Finding], view: SignificanceView, mix: pd.DataFrame) -> None:
    """Give every headline that is asked for it its composition, and its caution first of all.

    A note that sides are new is left where no headline of the same event names one.
    """
    chosen = {finding.id: finding for finding in findings}
    beats = {beat.id: beat for beat in view.beats}
    told: set[str | None] = set()
    for name in view.headlines:
        finding = chosen.get(name)
        if not isinstance(finding, Change) or finding.refused or finding.composition:
            continue
        rows = _rows(mix, finding)
        if rows.empty:
            continue
        beat = beats[finding.beat]
        finding.composition = composition_of(rows, finding, view.measures[finding.measure], beat)
        if any(moved.by in BY_SIDE and moved.much for moved in finding.composition.moved):
            told.add(beat.about)
        if finding.composition.differs:
            finding.notes.insert(0, _caution(finding, finding.composition))
    for finding in findings:
        if beats[finding.beat].about in told:
            finding.notes = [n for n in finding.notes if not isinstance(n, OppositionChanged)]


def _rows(mix: pd.DataFrame, finding: Finding) -> pd.DataFrame:
    of = [finding.beat, finding.measure, finding.cell]
    return mix[(mix[["beat", "measure", "cell"]] == of).all(axis=1)]


def composition_of(rows: pd.DataFrame, finding: Change, scale: Scale, beat: AnyKind) -> Composition:
    """Of one finding; `rows` are its own of `tables.MIX`."""
    whole = rows[rows["bowler_kind"].isna() & rows["phase"].isna()]
    with np.errstate(all="ignore"):
        moved = sorted(_moved(rows, whole, scale, _asked(beat)), key=_largest_first)
        if not _adds_up(whole, finding):
            kept = [msgspec.structs.replace(each, effect=None) for each in moved]
            return Composition(moved=kept, unlike="not_by_innings", unheld="not_by_innings")
        still, beyond = held_still(whole, finding, scale)
        told = _alike(Composition(moved=moved, **still), whole, finding, scale)
        if beyond is None or not told.held:
            return told
        return _shown(told, "held still", beyond, finding, scale)


def _asked(beat: AnyKind) -> Collection[OfBalls]:
    """All but what is counted itself."""
    counted = set(beat.counted)
    return [by for by in OF_BALLS if not counted & set(ONE_KIND.get(by, (by,)))]


def _adds_up(whole: pd.DataFrame, finding: Change) -> bool:
    """Whether the sums of innings are the finding's: what is counted a match is in both of its."""
    sides = [whole[whole["window"] == name][["y", "x"]].sum().tolist() for name in finding.sides]
    return sides == [[side.numerator, side.denominator] for side in (finding.a, finding.b)]


def _moved(
    rows: pd.DataFrame, whole: pd.DataFrame, scale: Scale, asked: Collection[OfBalls]
) -> Iterator[Moved]:
    """Everything that the balls are of several values of; shares need balls in both windows."""
    if not all(whole.loc[whole["window"] == name, "balls"].sum() for name in ("before", "after")):
        return
    for by in asked:
        own = rows[rows[by].notna()] if by in WITHIN else whole
        found = divided(own, own[by].astype(str).to_numpy())
        if len(found.names) < 2:
            continue
        before, after = found.shares
        apart = np.round(np.abs(after - before), 9)
        most = int(apart.argmax())
        yield Moved(
            by=by,
            value=found.names[most],
            before=float(before[most]),
            after=float(after[most]),
            variation=float(apart.sum() / 2),
            effect=_effect(found, scale) if _whole(own, whole) else None,
        )


def _whole(own: pd.DataFrame, whole: pd.DataFrame) -> bool:
    """Whether what it is divided into adds up; innings of pace and of spin are the same ones."""
    return bool((own[["y", "x"]].sum() == whole[["y", "x"]].sum()).all())


def _effect(found: Divided, scale: Scale) -> Span | None:
    parts = split(*found.weighed(not scale.an_innings), log=scale.kind != "share")
    return as_told(parts.mix, scale)


def _largest_first(moved: Moved) -> tuple[float, float, int]:
    return (
        -round(moved.variation, 9),
        -round(abs(moved.after - moved.before), 9),
        OF_BALLS.index(moved.by),
    )


class _Held(NamedTuple):
    """Cells that are held alike, the change over them, and each cell's two sides."""

    alike: Alike
    found: LikeForLike
    sides: list[set[str]]
    matches: float  # of a cell in the window that has fewer, on average

    @property
    def kept(self) -> float:
        return min(float(end) for end in self.found.kept)


def _alike(told: Composition, whole: pd.DataFrame, finding: Change, scale: Scale) -> Composition:
    """With the change like for like, or why there is none."""
    pairs = _over(whole, "pairs", scale)
    if pairs is None or pairs.kept < IN_COMMON:
        return msgspec.structs.replace(told, unlike="little_in_common")
    finer = _over(whole, "pairs at a ground", scale)
    thick = finer and finer.kept >= max(IN_COMMON, AS_MANY * pairs.kept) and finer.matches >= TWICE
    held = finer if finer and thick else pairs
    share, found = scale.kind == "share", held.found
    like = as_told(found.units if share else found.log, scale)
    if like is None:
        return msgspec.structs.replace(told, unlike="no_error")
    met = set().union(*(sides for sides, kept in zip(held.sides, found.cells, strict=True) if kept))
    told = msgspec.structs.replace(
        told,
        like_for_like=like,
        alike=held.alike,
        sides=len(met),
        kept=(float(found.kept.before), float(found.kept.after)),
    )
    beyond = found.units_beyond if share else found.log_beyond
    return _shown(told, "like for like", beyond, finding, scale)


def _over(whole: pd.DataFrame, alike: Alike, scale: Scale) -> _Held | None:
    """The change over the cells of these columns that both windows have."""
    columns = ["batting_team", "bowling_team", *(["ground"] if alike != "pairs" else [])]
    codes, keys = pd.factorize(pd.MultiIndex.from_frame(whole[columns].astype(str)), sort=True)
    labels = np.char.zfill(codes.astype(str), 9)
    cells = divided(whole, labels)
    a, b = cells.weighed(not scale.an_innings)
    found = like_for_like(cells.a, cells.b, (a.weight, b.weight))
    if found is None:
        return None
    fewer = [side.here[:, found.cells].sum(0).mean() for side in (cells.a, cells.b)]
    return _Held(alike, found, [set(key[:2]) for key in keys], float(min(fewer)))


def _shown(
    told: Composition, by: Shown, beyond: Estimate, finding: Change, scale: Scale
) -> Composition:
    """With how far one of its numbers is from the plain change, and whether that is another one.

    It is where it lies further off than its own error, or what is said to have changed is half of
    it not there; and the two are told apart.
    """
    span = as_told(beyond, scale)
    number = told.like_for_like if by == "like for like" else told.held_still
    if span is None or number is None:
        return told
    told = msgspec.structs.replace(told, beyond={**told.beyond, by: span})
    sure = abs(beyond.value[0]) > stdtrit(beyond.df[0], 0.5 + SURE / 2) * beyond.se[0]
    plain = told_of(finding.told, finding.kind)
    against = span.value * plain.value < 0
    lost = finding.verdict == "changed" and against and abs(span.value) >= MUCH * abs(plain.value)
    off = lost or abs(span.value) > number.half
    return msgspec.structs.replace(told, differs=by) if sure and off and not told.differs else told


def _caution(finding: Change, found: Composition) -> NotLikeForLike:
    if found.instead is None or found.differs is None:
        raise ValueError(f"{finding.id} is no other change like for like")
    return NotLikeForLike(
        change=told_of(finding.told, finding.kind),
        instead=found.instead,
        shown=found.differs,
        held=found.held if found.differs == "held still" else [],
        points=finding.kind == "share",
        cause=_cause(found),
    )


def _cause(found: Composition) -> Moved | None:
    """What is worth most of what is not like for like, the same way; else what moved most."""
    of_sides = [moved for moved in found.moved if moved.by in OF_SIDES]
    way = -found.beyond[found.differs].value if found.differs else 0.0
    worth = [m for m in of_sides if m.effect and m.effect.value * way > 0]
    if worth:
        return max(worth, key=lambda m: abs(m.effect.value) if m.effect else 0.0)
    return of_sides[0] if of_sides else None
