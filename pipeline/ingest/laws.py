"""What the Laws of Cricket make of a recorded delivery: valid, faced, charged, credited.

MCC Laws of Cricket, 2017 Code: 17.3 (valid balls), 21.16 and 22.6 (charged to the bowler), 32 to 39
(who gets the wicket), 25.4 (retired).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

# The bowler's wickets (Laws 32, 33, 35, 36, 39).
CREDITED = frozenset(
    {"bowled", "caught", "caught and bowled", "hit wicket", "lbw", "stumped"},
)
# Out, but nobody's wicket (Laws 25.4, 34, 37, 38, 40; "handled the ball" was a Law until 2017).
UNCREDITED = frozenset(
    {
        "run out",
        "obstructing the field",
        "hit the ball twice",
        "timed out",
        "retired out",
        "handled the ball",
    }
)
# Left the field and may come back: no wicket (Law 25.4).
NOT_OUT = frozenset({"retired hurt", "retired ill", "retired not out"})
KINDS = CREDITED | UNCREDITED | NOT_OUT


@dataclass(frozen=True)
class Scored:
    """The columns that follow from the recorded runs; arrays of one length, a row a delivery."""

    legal: np.ndarray
    faced: np.ndarray
    runs_total: np.ndarray
    runs_bowler: np.ndarray
    four: np.ndarray
    six: np.ndarray


def score(
    runs_batter: np.ndarray,
    wides: np.ndarray,
    noballs: np.ndarray,
    byes: np.ndarray,
    legbyes: np.ndarray,
    penalty: np.ndarray,
    non_boundary: np.ndarray,
    delivered: np.ndarray,
) -> Scored:
    """Apply the Laws to whole columns of runs (integers) and flags (booleans).

    A ball must be delivered to count (17.3.1). Wides and no-balls are not valid balls; no-balls are
    faced, wides are not. The bowler is charged with all but byes, leg byes and penalties.
    """
    legal = delivered & (wides == 0) & (noballs == 0)
    charged = runs_batter + wides + noballs
    return Scored(
        legal=legal,
        faced=delivered & (wides == 0),
        runs_total=charged + byes + legbyes + penalty,
        runs_bowler=charged,
        four=(runs_batter == 4) & ~non_boundary,
        six=(runs_batter == 6) & ~non_boundary,
    )
