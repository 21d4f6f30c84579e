"""Every finding's lines to say, by what it is about."""

from __future__ import annotations

from typing import Any

from pipeline.wording.change import change_said
from pipeline.wording.kinds.gap import gap_said
from pipeline.wording.kinds.mix import mix_said, rates_said
from pipeline.wording.kinds.players import player_said
from pipeline.wording.kinds.turning_point import turn_said

View = dict[str, Any]
SAID = {
    "change": change_said,
    "groups": change_said,
    "gap": gap_said,
    "mix": mix_said,
    "rates": rates_said,
    "player": player_said,
}


def linked(before: View, finding: View) -> str:
    """How a line follows the one before it, from their own signs: nothing is invented."""
    about = ("change", "groups", "gap")
    if before["about"] not in about or finding["about"] not in about:
        return ""
    if before["verdict"] != "changed" or finding["verdict"] != "changed":
        return ""
    opposite = before["difference"] * finding["difference"] < 0
    return "Now the other way. " if opposite else ""


def statement(
    finding: View, beat: View, measure: View, form: View, event: View | None = None
) -> list[str]:
    """The sentences of one finding; the same finding always has the same words."""
    if finding["about"] == "turn":
        return turn_said(finding, beat, measure, form, event)
    return SAID[finding["about"]](finding, beat, measure, form)
