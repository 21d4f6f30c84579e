"""One delivery mended by a line of the corrections, or why it can't be.

A delivery is a row of `played` with its dismissals in `outs`, and in `taken_out` the line that
takes it out. Each function gives None, or what to say.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from pipeline.clean.ball_cell import COUNTS, FLAGS, IDS, Ball, not_a_kind, read_ball, written
from pipeline.clean.corrections import AS_OLD, Correction, no_longer, shown, typed
from pipeline.ingest.laws import KINDS

Record = dict[str, Any]


@dataclass
class Out:
    """A dismissal; `named` is the player that lines name it by: who was out in the data."""

    kind: str | None
    player: str | None
    named: str | None


def mend(row: Record, correction: Correction) -> str | None:
    """Set a delivery's own field."""
    field, new = correction.field, correction.new
    if (says := shown(row[field])) != correction.old:
        return no_longer(correction, says)
    if field in IDS and not new:
        return f"{field} can't be blank"
    row[field] = typed(field, new)
    return None


def take_out(row: Record, correction: Correction) -> str | None:
    """Take the delivery out of its over, if it is still the one that the line tells."""
    fell = sorted((out.kind, out.player) for out in row["outs"])
    ball = Ball({name: row[name] for name in (*IDS, *COUNTS, *FLAGS)}, fell)
    if read_ball(correction.old)[0] != ball:
        told = "old is not the whole delivery as the data have it: this fix no longer applies"
        return f"{told}; {AS_OLD}{written(ball)}"
    row["taken_out"] = correction.line
    return None


def mend_out(row: Record, correction: Correction) -> str | None:
    """The dismissal that the line names by who was out; without a name the only one, or a new."""
    field, new, named = correction.field, correction.new, correction.place.get("player_out")
    outs: list[Out] = row["outs"]
    fell = [out for out in outs if out.kind or out.player]
    if named is None and len(fell) > 1:
        told = ", ".join(f"'{out.named}' {out.kind}" for out in fell)
        return f"several dismissals fell on it ({told}); say which in the column player_out"
    if field == "dismissal" and new and new not in KINDS:
        return not_a_kind(new)
    out = next((each for each in outs if named in (None, each.named)), None)
    if out is None:
        if named and field == "player_out_id":
            return f"no dismissal of '{named}' fell on it; name who was out in the data"
        out = Out(None, named, named)
        outs.append(out)
    says = (out.kind if field == "dismissal" else out.player) or ""
    if says != correction.old:
        return no_longer(correction, says)
    if field == "dismissal":
        out.kind = new or None
        if named and not new:
            outs.remove(out)
    elif named and not new:
        return "player_out_id can't be blank here; take its dismissal away"
    else:
        out.player = new or None
    return None
