"""The other kinds of findings, drawn at random; any of them, and any of them refused."""

from __future__ import annotations

import math
from collections.abc import Callable
from random import Random
from typing import Any, get_args

import msgspec

from pipeline.contracts.codes import Unit
from pipeline.contracts.finding import Gap, Groups, Mix, Player, Rates, Turn
from pipeline.contracts.over_time import EventPlace, SecondBreak, TurningDate
from pipeline.contracts.parts import GroupChange, Shrunk, Span
from tests.any_findings import (
    A_BALL,
    ANY,
    MEASURES,
    OF_MATCHES,
    Case,
    any_change,
    asked,
    common,
    felt,
    numbers,
    side,
)
from tests.any_numbers import about, decimals, drift
from tests.finding_makers import clusters

REGIONS = ("inland", "coast")
KINDS = ("pace", "spin")
MADE_OF = ("ground", "batter", "bowler", "side")
WHY: tuple[Any, ...] = (
    *("no_balls", "few_matches", "none_counted", "one_match_holds_all"),
    *("few_effective", "no_spread"),
)
WHY_OF: dict[type, tuple[Any, ...]] = {
    Mix: ("mix_alike", "few_matches", "none_counted"),
    Turn: ("few_points", "no_scatter", "nothing_to_divide_by", "none_at_an_end"),
    Groups: (*WHY, "few_clusters", "one_cluster_holds_all", "uneven_clusters"),
}


def any_groups(rng: Random) -> Case:
    """Two groups, with no event."""
    name = rng.choice(OF_MATCHES)
    values: dict[str, str] = rng.choice(({}, {"bowler_kind": "pace"}, {"phase": "death"}))
    made = numbers(rng, MEASURES[name])
    finding = Groups(**common(name, "groups", values, sides=REGIONS), **made.sides)
    finding.felt = felt(rng, made.difference)
    return Case(finding, asked("groups", name, values), MEASURES[name])


def any_gap(rng: Random) -> Case:
    """Two groups' own changes, and how far apart those are; in units that may be the other way."""
    name = rng.choice(ANY)
    values: dict[str, str] = rng.choice(({}, {"phase": "middle"}))
    measure = MEASURES[name]
    made = numbers(rng, measure)
    one = rng.choice((-1, 1)) * decimals(rng, -3, -1)
    if measure.kind == "share":
        points = (one * 10, one * 10 + made.difference.value)
        sides = [_group(rng, each / 40, each) for each in points]
    else:
        two = (1 + one) * (1 + _relative(made.relative)) - 1
        bases = (decimals(rng, 0, 1), decimals(rng, 0, 1))
        sides = [_group(rng, one, one * bases[0]), _group(rng, two, two * bases[1])]
        apart = two * bases[1] - one * bases[0]
        made.told["effect"].difference = about(apart, abs(apart) * 0.5)
    both = {"a": sides[0], "b": sides[1]}
    finding = Gap(**common(name, "gap", values, sides=KINDS), **{**made.told, **both})
    finding.drift = drift(rng)
    return Case(finding, asked("gap", name, values), measure)


def _relative(span: Span | None) -> float:
    assert span is not None
    return span.value


def _group(rng: Random, change: float, difference: float) -> GroupChange:
    half = min(abs(change), 1.0) * rng.choice((0.1, 0.9, 2.0)) + 1e-5
    counts = {"matches": 40, "balls": 9_000, "numerator": 700, "denominator": 9_000}
    log = math.log1p(max(change, -0.99))
    relative = Span(value=change, low=math.expm1(log - half), high=math.expm1(log + half))
    own = about(difference, abs(difference) * 0.3 + 1e-5)
    return GroupChange(difference=own, change=relative, largest=0.05, refused=None, **counts)


def any_part(rng: Random) -> Case:
    """What a mix, or the rates, did alone."""
    name, kind = rng.choice(A_BALL), rng.choice((Mix, Rates))
    made, word = numbers(rng, MEASURES[name]), "mix" if kind is Mix else "rates"
    finding = kind(**common(name, word, {}, cell=word), **made.sides)
    return Case(finding, asked("mix", name, {}), MEASURES[name])


def any_turn(rng: Random) -> Case:
    """A break, found or not, at the event or elsewhere."""
    name = rng.choice(A_BALL)
    made = numbers(rng, MEASURES[name], ("changed", "lost", "open"))
    inside = rng.random() < 0.5
    last = 2016 if inside else 2012
    low, high = last - rng.randint(0, 2), last + rng.randint(0, 2)
    turn = TurningDate(
        **{"last": f"{last}", "next": f"{last + 1}", "low": f"{low}", "high": f"{high}"},
        **{"points": 14, "dates": 9, "sup_f": 31.4, "every": "season", "fit": []},
        event=rng.choice((None, EventPlace(inside=inside, rank=1 if inside else 6))),
        second=rng.choice((None, SecondBreak(last="2018", next="2019", p=0.01))),
    )
    given = common(name, "turn", {}, sides=("earlier", "later"))
    return Case(
        Turn(**given, **made.sides, turn=turn), asked("turning_point", name, {}), MEASURES[name]
    )


def any_player(rng: Random) -> Case:
    """A player's change as it came out, and drawn in towards the others'."""
    name = rng.choice(ANY)
    made = numbers(rng, MEASURES[name])
    raw = _relative(made.relative)
    mean = rng.uniform(-0.2, 0.2)
    log = mean + rng.uniform(0.05, 0.95) * (math.log1p(raw) - mean)
    half = rng.uniform(0.01, 0.3)
    value, low, high = (math.expm1(each) for each in (log, log - half, log + half))
    shrunk = Shrunk(
        **{"change": value, "low": low, "high": high, "mean": math.expm1(mean)},
        **{"apart": abs(log - mean) > half, "group": "spin", "of": 9},
    )
    shrunk.moved = made.told["verdict"] == "changed" and (low > 0 or high < 0)
    values = {"bowler": "A Quibble"}
    finding = Player(**common(name, "player", values), **made.sides, shrunk=shrunk)
    return Case(finding, asked("players", name, {}), MEASURES[name])


ANY_KIND: tuple[Callable[[Random], Case], ...] = (
    any_change,
    any_groups,
    any_gap,
    any_part,
    any_turn,
    any_player,
)


def any_case(rng: Random, chance: float = 0.1) -> Case:
    """A finding of any kind, now and then a refused one."""
    case = rng.choice(ANY_KIND)(rng)
    if rng.random() < chance:
        return refused(rng, case)
    return usual(rng, case)


def usual(rng: Random, case: Case) -> Case:
    """Some of those that are open, as they are where clusters have the wider error."""
    finding = case.finding
    if isinstance(finding, Player | Turn) or rng.random() < 0.3:
        return case
    of = rng.choice(MADE_OF if isinstance(finding, Groups) else get_args(Unit))
    cluster = clusters(of, a=rng.randint(2, 9), b=rng.randint(2, 9))
    effect = msgspec.structs.replace(finding.told, cluster=cluster)
    because: Any = finding.because
    if because == "interval_too_wide":
        groups = isinstance(finding, Groups)
        because = "usual_between_clusters" if groups else "usual_between_periods"
    made = msgspec.structs.replace(finding, effect=effect, because=because)
    return case._replace(finding=made)


def refused(rng: Random, case: Case) -> Case:
    """The same with no difference to tell, and why."""
    finding = case.finding
    why = rng.choice(WHY_OF.get(type(finding), WHY))
    counts: dict[Any, dict[str, Any]] = {
        "no_balls": {"matches": 0, "balls": 0, "numerator": 0, "denominator": 0},
        "few_matches": {"matches": rng.randint(1, 5)},
        "none_counted": {"numerator": 0},
        "one_match_holds_all": {"largest": 1.0},
    }
    sides = {name: _of_refused(getattr(finding, name)) for name in ("a", "b")}
    bad = rng.choice(("a", "b"))
    sides[bad] = msgspec.structs.replace(sides[bad], refused=why, **counts.get(why, {}))
    if why in ("no_balls", "none_counted") and not isinstance(finding, Gap):
        sides[bad] = msgspec.structs.replace(sides[bad], value=None if why == "no_balls" else 0.0)
    lost: dict[str, Any] = {"effect": None, "refused": why, "because": "refused"}
    lost |= {name: None for name in ("felt", "control", "turn", "shrunk") if hasattr(finding, name)}
    made = msgspec.structs.replace(finding, **sides, **lost, verdict="can't tell", p_adjusted=None)
    return case._replace(finding=made)


def _of_refused(one: Any) -> Any:
    """A side without its interval; of a gap without its change."""
    if isinstance(one, GroupChange):
        return msgspec.structs.replace(one, change=None, difference=None)
    return side(one.value, low=None, high=None)
