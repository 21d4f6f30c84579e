"""Findings of every kind, measure and cut, with all that is said of each: `python -m` prints it.

The league is the untidy one: sides that come and go, players of unknown kind, matches cut short,
cells without a ball. Read what is printed aloud after a change of words.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, NamedTuple

from pipeline.charts.words import subtitle
from pipeline.config import views
from pipeline.config.cuts import DIVIDING
from pipeline.config.load import load
from pipeline.contracts.finding import Finding
from pipeline.text import capitalised
from pipeline.wording import notes, of_kinds
from pipeline.wording.noted import Noted, about
from pipeline.wording.shown_numbers import both_shown
from tests.asking import ask
from tests.test_every_question import TWO
from tests.untidy import HEAD, untidy

SAID = """lists: {openers: [id-ida, id-joy, id-pia], changed: [id-uma]}
said: {openers: the openers, keeper: the keepers, id-ida: Ida Fen}
"""
MEASURES = [
    *("economy", "run_rate", "bowling_average", "bowling_strike_rate", "wickets_per_hundred"),
    *("batting_average", "batting_strike_rate", "dot_share", "boundary_share"),
    *("fours_per_innings", "sixes_per_innings", "innings_total"),
]
SOME = ["economy", "batting_strike_rate", "dot_share", "sixes_per_innings"]
FILTERS: list[dict[str, Any]] = [
    {"overs": "11-40"},
    {"overs": "1"},
    {"phase": ["powerplay", "death"]},
    {"phase": "middle", "bowler_kind": "spin"},
    {"bowler_kind": ["pace", "spin"], "innings": ["1", "2"]},
    {"bowler_kind": "spin", "bowler_arm": "left"},
    {"bowler_kind": "spin", "batter_hand": "left", "phase": "middle"},
    {"bowler_style": ["wrist spin", "fast"]},
    {"batting_team": "Southfen", "home": ["home", "away"]},
    {"bowling_team": ["Southfen", "Westfold"]},
    {"team": "Southfen", "result": "won"},
    {"batter_tag": "openers"},
    {"batter_tag": ["openers", "keeper"], "bowler_kind": "pace"},
    {"bowler_tag": "openers", "batter_hand": "right"},
    {"bowler": "id-ida"},
    {"batter": "Uma Fold", "bowler_kind": "unknown"},
    {"batter_tag": "changed"},
    {"season": "2018"},
    {"ground": ["Moor Top", "Fen Side"], "region": "inland"},
    {"home": "neutral"},
    {"batting_position": ["1", "2"]},
    {"batting_order": "top", "phase": "death"},
]


class Told(NamedTuple):
    """A finding with every phrase and sentence that is made of it."""

    finding: Finding
    label: str
    name: str
    subject: str
    change: str
    sides: tuple[str, str]
    columns: tuple[str, str]
    subtitle: str
    lines: list[str]
    title: str
    cautions: list[str]
    shown: tuple[str, str]

    def texts(self) -> Iterator[str]:
        """Everything that is printed or said."""
        yield from (self.label, self.name, self.subtitle, self.title)
        yield from (self.subject, self.change, *self.sides, *self.columns)
        yield from (*self.lines, *self.cautions)


# Sides that won and lost are not held against each other: winning is scoring more.
APART = [{cut: values} for cut, values in TWO.items() if cut != "result"]


def beats() -> list[dict[str, Any]]:
    """Every kind by every cut, and every filter."""
    every: list[dict[str, Any]] = [
        *({"kind": "before_after", "measure": MEASURES, "by": cut} for cut in DIVIDING),
        *({"kind": "before_after", "measure": SOME, "where": where} for where in FILTERS),
        *({"kind": "gap", "measure": MEASURES[:8:3], "between": two} for two in APART),
        *({"kind": "groups", "measure": MEASURES[::3], "between": two} for two in APART),
        *({"kind": "mix", "measure": "economy", "by": cut} for cut in DIVIDING),
        {"kind": "mix", "measure": "economy", "by": ["bowler_kind", "phase"]},
        {"kind": "mix", "measure": "run_rate", "by": "batter_hand", "where": {"phase": "middle"}},
        {"kind": "phases", "measure": ["run_rate", "dot_share"], "bands": ["1-6", "15-16", "45"]},
        {"kind": "share", "of": {"bowler_arm": "left"}, "by": "bowler_kind"},
        {"kind": "share", "of": {"batter_hand": "right"}, "by": "phase"},
        {"kind": "share", "of": {"bowler_kind": "spin"}, "where": {"batting_team": "Southfen"}},
        {"kind": "trend", "measure": MEASURES, "where": {"phase": "middle"}},
        {"kind": "turning_point", "measure": MEASURES},
        {"kind": "turning_point", "measure": "economy", "where": {"overs": "11-40"}},
        {"kind": "streaks", "of": "dots", "length": 2, "by": "innings"},
        {"kind": "streaks", "of": "sixes", "length": 2, "where": {"bowler_kind": "pace"}},
        {"kind": "players", "measure": ["economy"], "role": "bowler", "at_least": "10 balls"},
        {
            "kind": "players",
            "measure": ["batting_strike_rate"],
            "role": "batter",
            "at_least": "10 balls",
        },
        {"kind": "groups", "measure": "win_share", "between": {"home": ["away", "home"]}},
        {
            **{"kind": "groups", "measure": ["win_share", "run_rate", "economy"]},
            **{"between": {"home": ["away", "home"]}, "where": {"batting_team": "Southfen"}},
        },
        {
            **{"kind": "groups", "measure": ["win_share", "economy", "sixes_per_innings"]},
            **{"between": {"innings": ["1", "2"]}, "where": {"bowling_team": "Southfen"}},
        },
    ]
    return [{"id": f"b{at}", **one} for at, one in enumerate(every)]


def everything(folder: Path) -> list[Told]:
    """What is said of every finding of the beats."""
    project = untidy(folder / "league")
    text = "".join(f"  - {json.dumps(beat)}\n" for beat in beats())
    found = ask(project, folder / "asked", text, "[]", HEAD + SAID)
    view = views.charts(load(folder / "asked" / "config", only="asked"), "asked")
    of_beat = {beat.id: beat for beat in view.beats}
    return [_told(finding, of_beat[finding.beat], view, found.timing) for finding in found.findings]


def _told(finding: Finding, beat: Any, view: views.ChartsView, timing: Any) -> Told:
    measure, form, event = view.measures[finding.measure], view.format, view.event
    of = (finding, beat, measure, form)
    lines = list(of_kinds.said(*of, event))
    if finding.verdict == "changed":
        lines.append(of_kinds.in_short(*of, event))
    first, second = (of_kinds.side_named(finding, at, beat, measure, form, event) for at in (0, 1))
    return Told(
        finding,
        of_kinds.label(finding, beat, form),
        of_kinds.headline_name(*of),
        of_kinds.measured(*of),
        of_kinds.change_named(*of),
        (first, second),
        of_kinds.sides(finding, beat, form),
        subtitle(beat, measure, form, timing),
        [capitalised(line) for line in (*of_kinds.opening([finding], beat, form, None), *lines)],
        of_kinds.title([finding], beat, measure, [finding.id], form, event),
        [notes.caution(Noted(note, about(beat, measure, form))) for note in finding.notes],
        both_shown(finding, measure),
    )


if __name__ == "__main__":
    with TemporaryDirectory() as folder:
        for told in everything(Path(folder)):
            print(f"\n{told.finding.id} | {told.label} | {told.name}\n  {told.subtitle}")
            print(f"  {told.change} | {told.sides[0]} | {told.sides[1]}\n  {told.title}")
            print("  " + " ".join(told.lines), file=sys.stdout)
            print("  " + " / ".join(told.cautions))
