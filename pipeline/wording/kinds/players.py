"""Lines to say of players: who is told apart from the others, and that nobody else is."""

from __future__ import annotations

from typing import Any

from pipeline.text import capitalised, listed
from pipeline.wording import numbers, phrases
from pipeline.wording.change import refused_said, unit_said, values_said
from pipeline.wording.subject import subject

View = dict[str, Any]
FEW = 3  # of a list: few enough to say


def player_said(finding: View, beat: View, measure: View, form: View) -> list[str]:
    """One player told apart: the values, then the change with luck allowed for."""
    what = capitalised(subject(finding, beat, measure, form))
    if finding["refused"]:
        return [refused_said(what, finding)]
    a, b = values_said(finding, measure)
    shrunk = finding["shrunk"]
    first = numbers.with_unit(a, unit_said(measure))
    reach = phrases.interval_said(shrunk["low"] * 100, shrunk["high"] * 100, "per cent")
    apart = "told apart from" if shrunk["apart"] else "not told apart from"
    return [
        f"{what} went from {first} to {b}.",
        f"With luck allowed for, that is {reach}: {apart} {the_others(shrunk)}.",
    ]


def the_others(shrunk: View) -> str:
    """Who a player is held against."""
    names = {
        "pace": "the other quicks",
        "spin": "the other spinners",
        "batters": "the other batters",
    }
    return names.get(shrunk["group"], "the others")


def list_said(found: View, told: list[View], beat: View) -> list[str]:
    """How many are told apart, how many the threshold left out, who hardly features."""
    count = len(told)
    if not count:
        least = _least(found["at_least"])
        return [f"Nobody had {least} in both windows, so there are no names here."]
    apart = [finding for finding in told if finding["shrunk"] and finding["shrunk"]["apart"]]
    size = capitalised(numbers.said(count, 0))
    if not apart:
        said = [
            f"{size} names, {numbers.said(count, 0)} different numbers, and nothing here separates "
            "them."
            if count > 1
            else "One name, and nobody to hold it against."
        ]
    else:
        names = listed([next(iter(finding["values"].values())) for finding in apart[:FEW]])
        some = capitalised(numbers.said(len(apart), 0))
        said = [f"{some} of {numbers.said(count, 0)} moved by more than luck: {names}."]
        if len(apart) > FEW:
            said = [f"{some} of {numbers.said(count, 0)} moved by more than luck."]
    said.append(threshold_said(found))
    few = _rare(found, beat)
    return said + ([few] if few else [])


def threshold_said(found: View) -> str:
    least, out = _least(found["at_least"]), found["left_out"]
    left = numbers.said(out, 0) if out else "nobody"
    return f"To be here takes {least} in each window; that left out {left} of those in both."


def _least(at_least: View) -> str:
    return f"{numbers.said(at_least['count'], 0)} {at_least['of']}"


def _rare(found: View, beat: View) -> str | None:
    """The kind of bowler, or the hand, that hardly features in the list."""
    if beat["role"] == "bowler":
        counts, names = found["arms"], ARMS
    else:
        counts, names = found["hands"], HANDS
    named = {names[key]: counts.get(key, 0) for key in names}
    rare = min(named, key=lambda name: (named[name], name))
    if named[rare] > FEW or found["kept"] <= FEW:
        return None
    if not named[rare]:
        return f"There is no {rare[0]} in this list."
    if named[rare] == 1:
        return f"Only one of them is a {rare[0]}."
    return f"Only {numbers.said(named[rare], 0)} of them are {rare[1]}."


ARMS = {
    "left pace": ("left-arm quick", "left-arm quicks"),
    "right pace": ("right-arm quick", "right-arm quicks"),
    "left spin": ("left-arm spinner", "left-arm spinners"),
    "right spin": ("right-arm spinner", "right-arm spinners"),
}
HANDS = {"left": ("left-hander", "left-handers"), "right": ("right-hander", "right-handers")}
