"""Lines to say of a turning point: when did it change, asked without being told?"""

from __future__ import annotations

from typing import Any

from pipeline.text import capitalised
from pipeline.wording.change import refused_said
from pipeline.wording.subject import subject

View = dict[str, Any]


def turn_said(
    finding: View, beat: View, measure: View, form: View, event: View | None
) -> list[str]:
    """Where the data put the break, how surely, and whether the event is there."""
    what = subject(finding, beat, measure, form)
    if finding["refused"]:
        return [refused_said(capitalised(what), finding)]
    turn = finding["turn"]
    if finding["verdict"] != "changed":
        return [
            f"Asked blind for a break in {what}, the data name no {turn['every']}: one this large "
            "turns up often enough by luck."
        ]
    where = f"between {turn['last']} and {turn['next']}"
    said = [f"{opening(turn, event)} put a break in {what} {where}.", _reach(turn)]
    said.append(_event(turn, event))
    if turn["second"]:
        second = turn["second"]
        said.append(f"There is a second break, between {second['last']} and {second['next']}.")
    return [sentence for sentence in said if sentence]


def opening(turn: View, event: View | None) -> str:
    if event is None or not turn["event"]:
        return "Asked blind, the data"
    return f"Don’t tell the data when {event['name']} came: asked blind, they"


def _reach(turn: View) -> str:
    """The interval of the date, as the seasons it may come after."""
    if turn["low"] == turn["high"]:
        return f"They are sure of it to the {turn['every']}."
    return f"It could be as early as after {turn['low']}, or as late as after {turn['high']}."


def _event(turn: View, event: View | None) -> str | None:
    if event is None or not turn["event"]:
        return None
    name = capitalised(event["name"])
    if turn["event"]["inside"] and turn["low"] == turn["high"]:
        return f"{name} came just then, which fits; it does not prove it."
    if turn["event"]["inside"]:
        return f"{name} falls inside that, which fits; it does not prove it."
    return f"{name} does not: it came in {event['date'][:4]}."
