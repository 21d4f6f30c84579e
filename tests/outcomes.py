"""Every outcome of every kind of beat, and what is said of it: `make outcomes` writes it anew."""

from __future__ import annotations

import textwrap
from pathlib import Path
from typing import NamedTuple

from pipeline.config.kinds import AnyBeat
from pipeline.config.measure import Measure
from pipeline.contracts.finding import Finding, Mix, Rates
from pipeline.contracts.notes import FewMatches
from pipeline.contracts.over_time import Drift, EventPlace, SecondBreak
from pipeline.contracts.parts import OfWhole
from tests.finding_makers import (
    asks,
    control,
    drift,
    felt,
    group_change,
    side,
    slope,
    span,
    step_test,
)
from tests.word_makers import (
    AGAINST_RATE,
    BEAT,
    ECONOMY,
    GAP,
    GROUPS,
    IN_A_ROW,
    MIX,
    PHASES,
    PLAYERS,
    SHARE,
    SHARE_BEAT,
    STREAKS,
    TREND,
    TURN,
    alone,
    beside,
    gap_between,
    groups_apart,
    moved,
    part,
    player,
    said,
    share_moved,
    turn,
    untested,
    usual,
)

FILE = Path(__file__).parent / "outcomes.txt"
HEAD = "What is said of every outcome of every kind of beat; `make outcomes` writes it anew."
WIDTH = 110


class Outcome(NamedTuple):
    """A finding with its name in the file, its beat and its measure."""

    name: str
    finding: Finding
    beat: AnyBeat = BEAT
    measure: Measure = ECONOMY

    def said(self) -> str:
        return said(self.finding, self.beat, self.measure)


CANT_TELL, HELD = "can't tell", "held"
LOST = {"verdict": CANT_TELL, "because": "lost_among_many"}
HELD_LOST = {"verdict": CANT_TELL, "because": "held_lost_among_many"}
TOO_FEW = {"refused": "few_matches", "a": side(5.0, matches=3)}
OF_REGIONS = asks(what="groups", divided=("region: inland, coast",))
EARLY_OVERS = "the early overs"
SPELL = felt(-5.0, 1.4, per="spell", times=10, of="overs")
HALF = OfWhole(whole=span(-0.1, 0.04), share=span(0.5, 0.1), verdict="held")
NO_CHANGE = OfWhole(whole=span(-0.05, 0.1), share=None, verdict="held")
QUARTERS = {
    **{"every": "quarter", "last": "2016 Q3", "next": "2017 Q2", "event": None},
    **{"low": "2016 Q2", "high": "2016 Q3"},
}
OUTCOMES = [
    Outcome("rise", moved(0.10, 0.03)),
    Outcome("fall", moved(-0.10, 0.03, felt=SPELL)),
    Outcome("fall, beyond the drift", moved(-0.10, 0.03, drift=beside("beyond the drift"))),
    Outcome(
        "rise, in line with the drift", moved(0.08, 0.03, drift=beside("in line with the drift"))
    ),
    Outcome(
        "fall, drift the other way and no step",
        moved(-0.08, 0.03, drift=beside("in line with the drift")),
    ),
    Outcome(
        "fall, going nowhere before",
        moved(-0.10, 0.03, drift=beside("beyond the drift", slope=slope(0.0001))),
    ),
    Outcome("rise, drift not testable", moved(0.10, 0.03, drift=untested())),
    Outcome(
        "rise, too few seasons after",
        moved(0.10, 0.03, drift=untested("few_periods_after", before=9, after=2)),
    ),
    Outcome("rise, a season without any", moved(0.10, 0.03, drift=untested("empty_period"))),
    Outcome(
        "fall, beyond the control",
        moved(-0.10, 0.03, control=control(EARLY_OVERS, relative=span(-0.10, 0.04))),
    ),
    Outcome(
        "fall, in line with the control",
        moved(
            -0.10,
            0.03,
            control=control(
                EARLY_OVERS, relative=span(-0.03, 0.05), verdict="in line with the control"
            ),
        ),
    ),
    Outcome("twice as much", moved(1.0, 0.2)),
    Outcome("held", moved(0.01, 0.02, HELD)),
    Outcome("held to the digit", moved(0.0004, 0.02, HELD)),
    Outcome("can't tell", moved(0.02, 0.10, CANT_TELL)),
    Outcome("can't tell, alike to the digit", moved(0.0004, 0.10, CANT_TELL)),
    Outcome(
        "can't tell, few matches", moved(0.02, 0.10, CANT_TELL, notes=[FewMatches(matches=16)])
    ),
    Outcome("lost among many", moved(0.06, 0.07, **LOST)),
    Outcome("held, but lost among many", moved(0.01, 0.05, **HELD_LOST)),
    Outcome("usual from season to season", usual(moved(0.05, 0.07, CANT_TELL))),
    Outcome("usual from year to year", usual(moved(-0.05, 0.07, CANT_TELL), "year")),
    Outcome("refused", moved(0.1, 0.1, CANT_TELL, refused="none_counted")),
    Outcome("refused, three matches", moved(0.1, 0.1, CANT_TELL, **TOO_FEW)),
    Outcome(
        "refused, one match",
        moved(0.1, 0.1, CANT_TELL, refused="few_matches", b=side(5.0, matches=1)),
    ),
    Outcome("a band that fell", moved(-0.10, 0.03, values={"band": "11-40"}), PHASES),
    Outcome("a series that rose", moved(0.10, 0.03, values={}), TREND),
    Outcome(
        "share up, beyond the drift",
        share_moved(
            4.0,
            0.9,
            felt=felt(12.0, 2.7, per="innings", times=300, of="balls"),
            drift=beside("beyond the drift", step=0.16),
        ),
        SHARE_BEAT,
        SHARE,
    ),
    Outcome(
        "share up, in line with the drift",
        share_moved(1.0, 0.5, drift=beside("in line with the drift")),
        SHARE_BEAT,
        SHARE,
    ),
    Outcome("share held", share_moved(0.1, 0.3, HELD), SHARE_BEAT, SHARE),
    Outcome("share, can't tell", share_moved(1.0, 1.4, CANT_TELL), SHARE_BEAT, SHARE),
    Outcome("groups apart", groups_apart(-0.06, 0.02, values={"bowler_kind": "pace"}), GROUPS),
    Outcome("groups alike", groups_apart(0.004, 0.02, HELD), GROUPS),
    Outcome("groups nearly alike", groups_apart(0.02, 0.02, HELD), GROUPS),
    Outcome("groups, can't tell", groups_apart(0.02, 0.1, CANT_TELL), GROUPS),
    Outcome("groups, lost among many", groups_apart(0.06, 0.07, **LOST), GROUPS),
    Outcome("groups level, but lost among many", groups_apart(0.01, 0.05, **HELD_LOST), GROUPS),
    Outcome(
        "groups as grounds are anyway", usual(groups_apart(0.05, 0.07, CANT_TELL), "ground"), GROUPS
    ),
    Outcome(
        "groups of too few grounds",
        groups_apart(0.1, 0.1, CANT_TELL, refused="few_clusters", asks=OF_REGIONS),
        GROUPS,
    ),
    Outcome(
        "groups, one ground holds all",
        groups_apart(0.1, 0.1, CANT_TELL, refused="one_cluster_holds_all", asks=OF_REGIONS),
        GROUPS,
    ),
    Outcome(
        "groups, one ground outweighs the others",
        groups_apart(0.1, 0.1, CANT_TELL, refused="uneven_clusters", asks=OF_REGIONS),
        GROUPS,
    ),
    Outcome("groups, refused", groups_apart(0.1, 0.1, CANT_TELL, refused="no_balls"), GROUPS),
    Outcome(
        "a gap, beyond the drift",
        gap_between(
            0.03, -0.07, -0.10, 0.03, drift=beside("beyond the drift", slope=slope(-0.004))
        ),
        GAP,
    ),
    Outcome("no gap", gap_between(0.03, 0.09, 0.06, 0.12, CANT_TELL), GAP),
    Outcome("no gap but the usual", usual(gap_between(0.03, 0.09, 0.06, 0.07, CANT_TELL)), GAP),
    Outcome("moved together", gap_between(0.05, 0.06, 0.01, 0.02, HELD), GAP),
    Outcome("a gap, lost among many", gap_between(0.03, 0.09, 0.06, 0.07, **LOST), GAP),
    Outcome("no gap, but lost among many", gap_between(0.03, 0.04, 0.01, 0.05, **HELD_LOST), GAP),
    Outcome(
        "a gap, refused",
        gap_between(
            *(0.03, 0.09, 0.06, 0.05, CANT_TELL),
            refused="few_matches",
            a=group_change(matches=4),
        ),
        GAP,
    ),
    Outcome("a mix that matters", part(Mix, -0.06, 0.01), MIX),
    Outcome("a mix that does not", part(Mix, -0.01, 0.01, HELD), MIX),
    Outcome("a mix that is half of it", part(Mix, -0.01, 0.004, HELD, of_whole=HALF), MIX),
    Outcome("a mix of no change", part(Mix, -0.01, 0.004, HELD, of_whole=NO_CHANGE), MIX),
    Outcome("a mix that can't be called", part(Mix, -0.03, 0.05, CANT_TELL), MIX),
    Outcome("a mix that moves so anyway", usual(part(Mix, -0.03, 0.05, CANT_TELL)), MIX),
    Outcome("a mix, lost among many", part(Mix, -0.06, 0.07, **LOST), MIX),
    Outcome("a mix that held, but lost among many", part(Mix, -0.01, 0.05, **HELD_LOST), MIX),
    Outcome("a mix, refused", part(Mix, 0.0, 0.0, CANT_TELL, refused="mix_alike"), MIX),
    Outcome("rates that moved", part(Rates, 0.10, 0.03), MIX),
    Outcome("rates that held", part(Rates, 0.01, 0.02, HELD), MIX),
    Outcome("rates that can't be called", part(Rates, 0.02, 0.1, CANT_TELL), MIX),
    Outcome("rates that move so anyway", usual(part(Rates, 0.05, 0.07, CANT_TELL)), MIX),
    Outcome("rates, lost among many", part(Rates, 0.06, 0.07, **LOST), MIX),
    Outcome("rates that held, but lost among many", part(Rates, 0.01, 0.05, **HELD_LOST), MIX),
    Outcome("rates, refused", part(Rates, 0.0, 0.0, CANT_TELL, **TOO_FEW), MIX),
    Outcome("a turn that fits", turn(), TURN),
    Outcome("a turn to the season", turn(low="2016", high="2016"), TURN),
    Outcome(
        "a turn elsewhere",
        turn(
            **{"last": "2012", "next": "2013", "low": "2011", "high": "2013"},
            event=EventPlace(inside=False, rank=6),
            second=SecondBreak(last="2018", next="2019", p=0.01),
        ),
        TURN,
    ),
    Outcome("a turn with no event", turn(event=None), TURN),
    Outcome("no turn", turn(CANT_TELL, 0.02, 0.1), TURN),
    Outcome("a turn, refused", turn(CANT_TELL, refused="few_points"), TURN),
    Outcome("a turn, lost among many", turn(**LOST), TURN),
    Outcome("a turn by quarter", turn(**QUARTERS), TURN),
    Outcome("a turn, a season without", turn(CANT_TELL, refused="nothing_to_divide_by"), TURN),
    Outcome("a turn, none at an end", turn(CANT_TELL, refused="none_at_an_end"), TURN),
    Outcome("a turn without scatter", turn(CANT_TELL, refused="no_scatter"), TURN),
    Outcome("a player who moved and is told apart", player(True), PLAYERS),
    Outcome("a player who moved", player(False), PLAYERS),
    Outcome("a player told apart", player(True, moved_too=False), PLAYERS),
    Outcome("a player not told apart", player(False, moved_too=False), PLAYERS),
    Outcome("a player alone in the kind who moved", alone(player(False)), PLAYERS),
    Outcome("a player alone in the kind", alone(player(False, moved_too=False)), PLAYERS),
    Outcome("a player, refused", player(False, verdict=CANT_TELL, refused="no_spread"), PLAYERS),
    Outcome("streaks that came more", moved(0.10, 0.03, values={}), STREAKS, IN_A_ROW),
    Outcome("streaks beyond their rate", moved(0.10, 0.03, values={}), STREAKS, AGAINST_RATE),
    Outcome("streaks, fewer for their rate", moved(-0.10, 0.03, values={}), STREAKS, AGAINST_RATE),
    Outcome(
        "streaks that gather as they did", moved(0.01, 0.02, HELD, values={}), STREAKS, AGAINST_RATE
    ),
    Outcome("streaks, can't tell", moved(0.02, 0.1, CANT_TELL, values={}), STREAKS, AGAINST_RATE),
    Outcome(
        "streaks, lost among many", moved(0.06, 0.07, values={}, **LOST), STREAKS, AGAINST_RATE
    ),
    Outcome(
        "streaks, refused",
        moved(0, 0, CANT_TELL, values={}, refused="none_counted"),
        STREAKS,
        AGAINST_RATE,
    ),
    Outcome("everyone", moved(-0.10, 0.03, values={}), PLAYERS),
]


WAYS = {"up": 0.10, "down": -0.10}
FIRST = {
    **{f"changed {way}": (change, 0.03, "changed") for way, change in WAYS.items()},
    "held": (0.01, 0.02, HELD),
    "can't tell": (0.02, 0.10, CANT_TELL),
}
DRIFTS = {"rising": slope(0.02), "falling": slope(-0.02), "no drift told": slope(0.002)}
CONTROLS = {
    "no control": None,
    "beyond the control": control(EARLY_OVERS, relative=span(-0.08, 0.04)),
    "in line with the control": control(
        EARLY_OVERS, relative=span(-0.03, 0.05), verdict="in line with the control"
    ),
}


def _seconds() -> dict[str, Drift]:
    """Every second verdict, beside every drift."""
    found = {}
    for drifting, drift_of in DRIFTS.items():
        expected = slope(drift_of.value * 5, 0.015)
        test = {"slope": drift_of, "expected": expected}
        for way, step in (("up", 0.13), ("down", -0.13)):
            found[f"{drifting}, beyond {way}"] = beside("beyond the drift", step=step, **test)
        found[f"{drifting}, in line"] = beside("in line with the drift", step=0.01, **test)
    lost = {"verdict": "in line with the drift", "because": "step_lost_among_many"}
    test = step_test(0.04, 0.05, slope=slope(0.02), expected=slope(0.1, 0.015))
    found["rising, in line as one of many"] = drift(**lost, test=test)
    found["not testable"] = untested()
    return found


def matrix() -> list[Outcome]:
    """Both verdicts: each first one with each second one, then each with each of the control's."""
    found = []
    for name, (change, half, verdict) in FIRST.items():
        for second, made in _seconds().items():
            found.append(Outcome(f"{name}; {second}", moved(change, half, verdict, drift=made)))
        for against, held in CONTROLS.items():
            one = moved(change, half, verdict, control=held)
            found.append(Outcome(f"{name}; {against}", one))
    return found


def text() -> str:
    """The file as it should stand."""
    blocks = [f"{outcome.name}\n{_wrapped(outcome.said())}" for outcome in [*OUTCOMES, *matrix()]]
    return "\n\n".join([HEAD, *blocks]) + "\n"


def _wrapped(line: str) -> str:
    return textwrap.fill(
        line, WIDTH, initial_indent="    ", subsequent_indent="    ", break_on_hyphens=False
    )


if __name__ == "__main__":
    FILE.write_text(text(), "utf-8")
    count = len(OUTCOMES) + len(matrix())
    print(f"{FILE.name}: {count} outcomes; git diff shows what is said otherwise")
