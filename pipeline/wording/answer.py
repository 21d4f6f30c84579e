"""The answer in one breath, and what people expected against what was found."""

from __future__ import annotations

import math
from typing import Any

from pipeline.text import capitalised, listed
from pipeline.wording import numbers, phrases
from pipeline.wording.change import moved, size_said, way
from pipeline.wording.kinds.gap import gap_subject
from pipeline.wording.kinds.mix import who_did
from pipeline.wording.kinds.turning_point import opening
from pipeline.wording.second_verdict import explained
from pipeline.wording.subject import sides_said, subject

View = dict[str, Any]
Told = tuple[View, View, View]  # a headline's finding, beat and measure
MOST_MATCHES = 400  # more than that settles nothing soon
AGREE, DISAGREE, CANT_SAY = "The data agree", "The data disagree", "The data can’t say"


def answer(headlines: list[Told], form: View, event: View | None = None) -> list[str]:
    """One or two sentences for what moved, one for whether the drift explains it, then the rest."""
    if not headlines:
        return ["No headline was chosen; each beat says what was found."]
    found = [item for item in headlines if item[0]["verdict"] == "changed"]
    told = sorted(found, key=lambda item: item[0]["about"] == "turn")[:2]
    sentences = [one_breath(*item, form, event) for item in told]
    explanation = explained([finding for finding, _, _ in told if finding["drift"]])
    sentences += [explanation] if explanation else []
    held = [
        subject(finding, beat, measure, form)
        for finding, beat, measure in headlines
        if finding["verdict"] == "held" and finding["about"] != "mix"
    ]
    if held:
        sentences.append(f"{capitalised(listed(list(dict.fromkeys(held))[:2]))} held.")
    if not found and not held:
        sentences.append("None of the headline numbers can be told from no change at all.")
        sentences += _what_would_settle(headlines)
        return sentences
    open_ones = sum(finding["verdict"] == "can't tell" for finding, _, _ in headlines)
    if open_ones:
        said = numbers.said(open_ones, 0)
        noun = "headline number" if open_ones == 1 else "headline numbers"
        sentences.append(f"On {said} {noun} the data can’t say.")
    return sentences


def _what_would_settle(headlines: list[Told]) -> list[str]:
    """How many more matches would show a change of the size seen, if it is one."""
    wanted = [needed for finding, _, _ in headlines if (needed := more_matches(finding))]
    if not wanted or min(wanted) > MOST_MATCHES:
        return []
    count = phrases.about_count(min(wanted))
    return [f"It would take {count} more matches on each side to settle the nearest of them."]


def more_matches(finding: View) -> int | None:
    """Matches to add on each side for the change seen to be one that such data show.

    The smallest change that can be seen shrinks with the root of the matches.
    """
    if finding["refused"] or finding["change"] is None or not finding["detectable_change"]:
        return None
    seen, size = math.log1p(finding["detectable_change"]), abs(math.log1p(finding["change"]))
    fewest = min(finding["a"]["matches"], finding["b"]["matches"])
    return max(1, round(fewest * ((seen / size) ** 2 - 1))) if 0 < size < seen else None


def one_breath(
    finding: View, beat: View, measure: View, form: View, event: View | None = None
) -> str:
    """A changed headline in one sentence."""
    what = subject(finding, beat, measure, form)
    match finding["about"]:
        case "groups":
            _, second = sides_said(finding, beat, form)
            higher = "higher" if finding["difference"] > 0 else "lower"
            return f"{capitalised(what)} is {size_said(finding)} {higher} {second}."
        case "gap":
            against, what = gap_subject(finding, beat, measure, form)
            return f"Set against {against}, {what} went {way(finding)} {size_said(finding)}."
        case "turn":
            turn = finding["turn"]
            start = opening(turn, event)
            return f"{start} put a break in {what} between {turn['last']} and {turn['next']}."
        case "mix":
            return (
                f"A change in {who_did(beat)} took {what} {way(finding)} by {size_said(finding)}."
            )
        case "rates":
            return f"With the same mix, {what} {moved(finding)} by {size_said(finding)}."
    return f"{capitalised(what)} {moved(finding)} by {size_said(finding)}."


def expected_found(means: str, finding: View) -> tuple[str, str]:
    """(the data agree, disagree or can't say; what was found) for one thing people say."""
    if finding["verdict"] == "can't tell":
        return CANT_SAY, "it can’t be told from no difference"
    if finding["verdict"] == "held":
        return (AGREE if means == "holds" else DISAGREE), "it held"
    found = "rises" if finding["difference"] > 0 else "falls"
    return (AGREE if means == found else DISAGREE), f"{way(finding)} {size_said(finding)}"
