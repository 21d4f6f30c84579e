"""Findings of every kind, drawn at random, each with the beat and the measure that it is of."""

from __future__ import annotations

import math
from random import Random
from typing import Any, NamedTuple, get_args

from pipeline.config.kinds import AnyBeat
from pipeline.config.measure import Measure
from pipeline.config.yaml_files import read_yaml
from pipeline.contracts.codes import Unit
from pipeline.contracts.comparison import Comparison
from pipeline.contracts.finding import Change, Finding
from pipeline.contracts.notes import FewMatches
from pipeline.contracts.over_time import Yardstick
from pipeline.contracts.parts import Felt, Side, Span
from tests.any_numbers import (
    FARTHEST,
    OUTCOMES,
    VERDICTS,
    Ends,
    about,
    control,
    decimals,
    drift,
    effect,
    ends,
    log_margin,
    margin_of,
)
from tests.conftest import ROOT
from tests.word_makers import SHARE_BEAT, STREAKS, beat

MEASURES: dict[str, Measure] = {
    name: Measure.model_validate(tree)
    for name, tree in read_yaml(ROOT / "config" / "measures.yaml").tree["measures"].items()
}
MEASURES |= SHARE_BEAT.makes | STREAKS.makes
A_BALL = ("economy", "wickets_per_hundred", "batting_strike_rate", "boundary_share", "dot_share")
ANY = (*A_BALL, "bowling_average", "bowling_strike_rate", "sixes_per_innings", "innings_total")
OF_MATCHES = (*ANY, "win_share")
CELLS: tuple[dict[str, str], ...] = (
    {},
    {"bowler_kind": "spin", "phase": "middle"},
    {"bowler_kind": "pace"},
    {"phase": "death"},
)
ON_THE_FIELD = {
    "spell": (10, 1, "overs"),
    "innings": (300, 100, "balls"),
    "season": (83, 1, "innings"),
}


class Case(NamedTuple):
    """A finding with what it takes to speak of it."""

    finding: Finding
    beat: AnyBeat
    measure: Measure


class Numbers(NamedTuple):
    """Both values of a comparison, its difference on both scales, and the verdict on it."""

    a: float
    b: float
    relative: Span | None
    difference: Span
    told: dict[str, Any]

    @property
    def sides(self) -> dict[str, Any]:
        return {"a": side(self.a), "b": side(self.b), **self.told}


def numbers(rng: Random, measure: Measure, outcomes: tuple[Any, ...] = OUTCOMES) -> Numbers:
    """Two values, their difference, its verdict and the reason of that."""
    by_match = "decided" in measure.denominator
    margin, outcome = margin_of(measure.kind, by_match), rng.choice(outcomes)
    if measure.kind == "share":
        found = ends(rng, outcome, margin.size, 10.0, 90.0)
        a, b, relative, difference = _of_share(rng, found, by_match)
    else:
        found = ends(rng, outcome, log_margin(margin))
        a, b, relative, difference = _of_rate(rng, found)
    verdict, because = VERDICTS[outcome]
    told = {
        **{"effect": effect(outcome, found, relative, difference), "refused": None},
        **{"margin": margin, "kind": measure.kind, "verdict": verdict, "because": because},
        **{
            "p_adjusted": rng.choice((0.003, 0.02, 0.4)),
            "asked_at": 1 - found.level,
            "family_size": rng.randint(2, 300),
        },
        "adjusted_by": rng.choice(("holm", "bh")),
        "notes": rng.choice(([], [FewMatches(matches=16)])),
    }
    return Numbers(a, b, relative, difference, told)


def _of_rate(rng: Random, found: Ends) -> tuple[float, float, Span, Span]:
    a, relative = decimals(rng, -2, 2), found.of_log
    b = a * (1 + relative.value)
    half = abs(b - a) * found.half / abs(found.value) if found.value else a * found.half
    return a, b, relative, about(b - a, half * rng.choice((1.0, 0.98, 1.02)))


def _of_share(rng: Random, found: Ends, by_match: bool) -> tuple[float, float, Span | None, Span]:
    """Two shares of a hundred, so far apart; of matches it may be none or all of them."""
    least = rng.choice((0.0, 0.5)) if by_match else 0.05
    lower = least + (100 - 2 * least - abs(found.value)) * rng.choice((0, 0.01, 0.3, 0.5, 1))
    a, b = lower - min(0, found.value), lower + max(0, found.value)
    difference = Span(value=b - a, low=max(found.low, -100), high=min(found.high, 100))
    if a <= 0 or b <= 0:
        return a, b, None, difference
    log = math.log(b / a)
    half = min(abs(log) * found.half / abs(found.value), FARTHEST) if found.value else 0.1
    return a, b, Ends(log - half, log, log + half, found.level).of_log, difference


def side(value: float | None, **more: Any) -> Side:
    """A side with an interval of three per cent."""
    plain = {"matches": 40, "balls": 9_000, "numerator": 700, "denominator": 9_000}
    near = {"low": value and value * 0.97, "high": value and value * 1.03}
    return Side(value=value, **{**plain, **near, "largest": 0.05, "refused": None, **more})


def common(name: str, asks: Any, values: dict[str, str], **more: Any) -> dict[str, Any]:
    cell = more.pop("cell", None) or "-".join(values.values()) or "all"
    question = Comparison(measure=name, asks=asks, balls=(), sides=(("2016",), ("2017",)))
    plain = {"beat": "b", "measure": name, "asks": question, "sides": ("before", "after")}
    identity = f"b.{name}" if cell == "all" else f"b.{name}.{cell}"
    return {**plain, "id": identity, "cell": cell, "values": values, **more}


def felt(rng: Random, difference: Span) -> Felt | None:
    """The difference on the field, where that is a number one can feel."""
    per = rng.choice((*ON_THE_FIELD, None))
    if per is None:
        return None
    times, divided, of = ON_THE_FIELD[per]
    ends_of = (difference.value, difference.low, difference.high)
    value, low, high = (each * times / divided for each in ends_of)
    if not 0.95 <= abs(value) <= 105:
        return None
    return Felt(value=value, low=low, high=high, times=times, divided=divided, of=of, per=per)


CHANGES: tuple[tuple[Any, tuple[str, ...], tuple[dict[str, str], ...]], ...] = (
    ("before_after", OF_MATCHES, CELLS),
    ("trend", ANY, ({},)),
    ("phases", A_BALL, ({}, {"band": "11-40"})),
    ("streaks", tuple(STREAKS.makes), ({},)),
    ("share", tuple(SHARE_BEAT.makes), ({},)),
    ("players", ANY, ({},)),
    ("mix", A_BALL, ({}, {"bowler_kind": "spin"})),
    ("gap", ANY, ({"bowler_kind": "spin"}, {"bowler_kind": "pace"})),
)
MADE = {"streaks": STREAKS, "share": SHARE_BEAT}
ASKED: dict[str, dict[str, Any]] = {
    "players": {"role": "bowler", "at_least": "300 balls"},
    "mix": {"by": ["bowler_kind"], "where": {"phase": ["middle"]}},
    "gap": {"between": {"bowler_kind": ["pace", "spin"]}},
    "groups": {"between": {"region": ["inland", "coast"]}},
}


def asked(kind: str, name: str, by: dict[str, str]) -> AnyBeat:
    """A beat of this kind and measure, divided by the cuts of a row."""
    cuts = [cut for cut in by if kind in ("before_after", "groups") or cut == "phase"]
    more = {**ASKED.get(kind, {}), **({"by": cuts} if cuts else {})}
    return MADE.get(kind) or beat(kind, measure=name, **more)


def any_change(rng: Random) -> Case:
    """A change between two windows, with the verdicts beside its drift and beside its control."""
    kind, names, cells = rng.choice(CHANGES)
    name, values = rng.choice(names), rng.choice(cells)
    measure = MEASURES[name]
    made = numbers(rng, measure)
    finding = Change(**common(name, "change", values), **made.sides)
    if kind != "players":
        finding.drift = drift(rng)
    if kind in ("before_after", "trend", "phases", "share", "streaks") and rng.random() < 0.5:
        finding.control = control(rng, measure.kind == "share")
    if kind == "mix" and values:
        finding.shares, finding.drift = (0.36, 0.44), None
    finding.felt = felt(rng, made.difference)
    if kind not in ("players", "mix", "gap") and rng.random() < 0.5:
        finding.yardstick = yardstick(rng)
    return Case(finding, asked(kind, name, values), measure)


def yardstick(rng: Random) -> Yardstick:
    """Two per cent, more or less, that may be told from none."""
    sd = decimals(rng, -2, -1) / 10
    low = rng.choice((0.0, sd * rng.uniform(0.1, 0.9)))
    unit = rng.choice(get_args(Unit))
    return Yardstick(sd=sd, low=low, high=sd * rng.uniform(1.1, 3), periods=14, unit=unit)
