"""The frame's title: what was found, in words, from the finding that leads its chart."""

from __future__ import annotations

from typing import Any

from pipeline.text import capitalised
from pipeline.wording import numbers
from pipeline.wording.answer import one_breath
from pipeline.wording.subject import subject

View = dict[str, Any]
BLIND = "What happened here?"


def lead(findings: list[View], headlines: list[str]) -> View | None:
    """The finding a chart is about: its headline, else what changed most surely, else the whole."""
    told = [finding for finding in findings if not finding["refused"]]
    if not told:
        return findings[0] if findings else None

    def order(finding: View) -> tuple:
        part = finding["about"] in ("mix", "rates", "player")
        return (
            finding["id"] not in headlines,
            part,
            finding["verdict"] != "changed",
            finding["cell"] != "all" if finding["verdict"] != "changed" else finding["p"],
        )

    return min(told, key=order)


def title(
    beat: View,
    measure: View,
    headlines: list[str],
    mine: list[View],
    form: View,
    event: View | None,
) -> str:
    """One sentence without its full stop; players are told as a list."""
    if beat["kind"] == "players":
        return _of_players(mine)
    finding = lead(mine, headlines)
    if finding is None:
        return beat["title"] or capitalised(measure["label"])
    what = capitalised(subject(finding, beat, measure, form))
    if finding["refused"]:
        return f"{what}: too little to say"
    if finding["verdict"] == "changed" and finding["about"] == "turn":
        turn = finding["turn"]
        return f"Asked blind, the data put the break between {turn['last']} and {turn['next']}"
    if finding["verdict"] == "changed":
        return one_breath(finding, beat, measure, form, event).rstrip(".")
    if finding["verdict"] == "held":
        same = "is much the same in both" if finding["about"] == "groups" else "held"
        return f"{what} {same}"
    return f"{what}: the data can’t tell"


def _of_players(mine: list[View]) -> str:
    told = [finding for finding in mine if finding["about"] == "player"]
    apart = [finding for finding in told if finding["shrunk"] and finding["shrunk"]["apart"]]
    if not told:
        return "Nobody has enough in both windows"
    if not apart:
        return f"{capitalised(numbers.said(len(told), 0))} names, and nothing here separates them"
    some = capitalised(numbers.said(len(apart), 0))
    return f"{some} of {numbers.said(len(told), 0)} moved by more than luck"
