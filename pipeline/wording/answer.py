"""The answer in one breath, and what people expected against what was found."""

from __future__ import annotations

from typing import Any

from pipeline.wording import numbers
from pipeline.wording.changes import moved, size_said, way
from pipeline.wording.drift import explained
from pipeline.wording.labels import capitalised, listed, side_labels
from pipeline.wording.subject import sides_said, subject

View = dict[str, Any]
Told = tuple[View, View, View]  # a headline's finding, beat and measure


def answer(headlines: list[Told], form: View) -> list[str]:
    """What moved, whether it goes beyond the drift, what held, what can't be said."""
    sentences = []
    found = [item for item in headlines if item[0]["verdict"] == "changed"]
    sentences += [one_breath(*item, form) for item in found[:2]]
    explanation = explained([finding for finding, _, _ in found[:2]])
    sentences += [explanation] if explanation else []
    held = [
        subject(finding, beat, measure, form)
        for finding, beat, measure in headlines
        if finding["verdict"] == "held"
    ]
    if held:
        sentences.append(f"{capitalised(listed(held[:2]))} held.")
    if not found and not held:
        sentences.append("None of the headline numbers can be told from no change at all.")
    open_ones = sum(finding["verdict"] == "can't tell" for finding, _, _ in headlines)
    if open_ones and (found or held):
        said = numbers.said(open_ones, 0)
        noun = "headline number" if open_ones == 1 else "headline numbers"
        sentences.append(f"On {said} {noun} the data can’t say.")
    return sentences


def one_breath(finding: View, beat: View, measure: View, form: View) -> str:
    """A changed headline in one sentence."""
    what = subject(finding, beat, measure, form)
    match finding["about"]:
        case "groups":
            _, second = sides_said(finding, beat, form)
            higher = "higher" if finding["difference"] > 0 else "lower"
            return f"{capitalised(what)} is {size_said(finding)} {higher} {second}."
        case "gap":
            first, second = side_labels(finding, beat, form)
            return f"Against {first}, {second} went {way(finding)} {size_said(finding)}: {what}."
        case "turn":
            turn = finding["turn"]
            where = f"between {turn['last']} and {turn['next']}"
            return f"Asked blind, the data put a break in {what} {where}."
        case "mix":
            return f"Who did what took {what} {way(finding)} by {size_said(finding)}."
        case "rates":
            return f"With the same mix, {what} {moved(finding)} by {size_said(finding)}."
    return f"{capitalised(what)} {moved(finding)} by {size_said(finding)}."


def expected_found(means: str, finding: View) -> tuple[str, str]:
    """(the data agree / disagree / can't say, what was found) for one thing people say."""
    if finding["verdict"] == "can't tell":
        return "Can’t say", "the data can’t tell it from no difference"
    if finding["verdict"] == "held":
        return ("Agrees" if means == "holds" else "Disagrees"), "it held"
    found = "rises" if finding["difference"] > 0 else "falls"
    return ("Agrees" if means == found else "Disagrees"), f"{way(finding)} {size_said(finding)}"
