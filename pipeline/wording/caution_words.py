"""The words of those cautions that take more than a line: what is unknown, short, few or moved."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pipeline.contracts import notes
from pipeline.text import capitalised, listed
from pipeline.wording import numbers
from pipeline.wording.noted import OVERS, About

if TYPE_CHECKING:
    from pipeline.wording.noted import Counted

# Whose what is unknown, what rows are by then, and the sheet that says it where one does.
UNKNOWN = {
    "bowler_kind": ("from bowlers whose kind", "kind of bowler", "players’"),
    "bowler_arm": ("from bowlers whose arm", "bowling arm", "players’"),
    "bowler_style": ("from bowlers whose style", "bowling style", "players’"),
    "batter_hand": ("to batters whose hand", "batting hand", "players’"),
    "region": ("at grounds whose region", "region", "grounds’"),
    "country": ("at grounds whose country", "country", "grounds’"),
    "ground": ("at grounds whose name", "ground", ""),
    "home": ("at grounds whose home side", "home side", "grounds’"),
    "batting_position": ("to batters whose place in the order", "batting place", ""),
    "batting_order": ("to batters whose place in the order", "batting place", ""),
}
# More than one of what a number is divided by.
BELOW = {"innings": "innings", "decided match": "decided matches"}
# What follows from a shortened chase, by what a number is counted in.
SHORTENED: dict[Counted, str] = {
    "innings": "what is counted an innings is counted low there.",
    "matches": "its result counts like any other.",
    "overs": "an over goes by its number there, not by how many are left.",
    "balls": "a side with fewer overs to bat may go harder at them.",
}


def share_said(share: float, decimals: int = 0) -> str:
    """A share in per cent; one that would be shown as none is under the last digit."""
    if share and not numbers.rounded(share * 100, decimals):
        return f"under {numbers.percent(10.0 ** -(decimals + 2), decimals, signed=False)}"
    return numbers.percent(share, decimals, signed=False)


def unknown_said(note: notes.UnknownLeftOut, about: About) -> str:
    """Number first, then the reason, then what follows from it."""
    rows = _rows(about)
    if OVERS & set(about.unknown) or not rows:
        return f"{_balls(note.share, about)}: no row has them."
    if len(rows) == 1:
        return f"{_balls(note.share, about)}; every row by {rows[0]} leaves them out."
    return f"{_balls(note.share, about)}; rows by either leave them out."


def coverage_said(note: notes.CoverageLow, about: About) -> str:
    """The same of so many balls that a row could move, and which sheet would mend it."""
    if OVERS & set(about.unknown):
        return f"{_balls(note.share, about)}: no row has them."
    sheets = dict.fromkeys(UNKNOWN[cut][2] for cut in about.unknown)
    mend = [f"{sheet} sheet" for sheet in sheets if sheet]
    then = f"fill in the {listed(mend)} before leaning on it" if mend else "don’t lean on it"
    return f"{_balls(note.share, about)}, enough to move a row: {then}."


def shortened_said(note: notes.ReducedMatches, about: About) -> str:
    """How many chases were shortened, and what follows for such a number."""
    chases = f"{note.matches:,} of {numbers.matches(note.of)} had a shortened chase"
    return f"{chases}: {SHORTENED[about.counted]}"


def _balls(share: float, about: About) -> str:
    """Whose balls they are that no row has."""
    whose = list(dict.fromkeys(UNKNOWN[cut][0] for cut in about.unknown if cut in UNKNOWN))
    they = [f"are {', or '.join(whose)} we don’t know"] if whose else []
    they += ["were bowled in other overs than these"] if OVERS & set(about.unknown) else []
    they = they or ["have something that we don’t know"]
    return f"{capitalised(share_said(share, 1))} of the balls {' or '.join(they)}"


def _rows(about: About) -> list[str]:
    return list(dict.fromkeys(UNKNOWN[cut][1] for cut in about.unknown if cut in UNKNOWN))


def few_counted_said(note: notes.FewCounted, about: About) -> str:
    """So few of what it is divided by, wickets or others."""
    below = "wicket" if note.wickets else about.below
    if not note.count and not note.wickets:
        return "On one side there is nothing to divide by: there is no number of it there."
    if below == "match":
        few = f"there are only {note.count:,} to divide by"
        return f"A match counts as one, so {few}: treat it as a sketch."
    count = "Not a wicket" if not note.count else f"Only {_of_them(note.count, below)}"
    return f"{count} on the thinner side: treat it as a sketch."


def _of_them(count: int, below: str) -> str:
    if not below:
        return f"{count:,} in the count it is divided by"
    return numbers.counted(count, below, BELOW.get(below))


def check_disagrees_said(note: notes.CheckDisagrees) -> str:
    """Both probabilities."""
    shown = f"{numbers.p_shown(note.p)} against {numbers.p_shown(note.p_permutation)}"
    return f"Shuffling whole matches gives another answer ({shown}): don’t lean on it."


def mix_moved_said(note: notes.MixMoved, about: About) -> str:
    """What the mix is worth, beside the whole change; of which measure where there are several."""
    mix, change = (numbers.shown(units, 2, signed=True) for units in (note.mix, note.change))
    if note.low is not None and note.high is not None:
        mix += f" ({numbers.between(note.low, note.high, 2)})"
    who = f"{capitalised(about.measure)}: who" if about.measure else "Who"
    return (
        f"{who} did what, not how well, is worth {mix} by itself, beside a change of {change} in "
        "all: say the same-mix number beside it, or each group’s own."
    )


def survivors_said(note: notes.SurvivorsOnly) -> str:
    """How many players fell short."""
    out = note.in_either - note.kept
    least = f"{note.at_least.count:,} {note.at_least.of}"
    return (
        f"{numbers.counted(out, 'player')} of {note.in_either:,} fell short of {least} in each "
        "window: those who lasted are not all who played."
    )
