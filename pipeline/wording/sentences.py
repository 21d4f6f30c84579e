"""Sentences made of findings: direction, units, size, sureness; never more than a finding carries.

Direction words come from signs, sizes are rounded to what the interval can bear, and a change is
never given a cause.
"""

from __future__ import annotations

from typing import Any

from pipeline.wording import numbers
from pipeline.wording.drift import drift_said, explained
from pipeline.wording.labels import capitalised, cell_phrase, listed, value_phrase, where_phrase

View = dict[str, Any]

REFUSALS = {
    "no_balls": "there is not a ball of it",
    "few_matches": "there are too few matches",
    "none_counted": "it never happened on one side",
    "one_match_holds_all": "one match holds all of it",
    "few_effective": "a few long matches outweigh the rest",
    "no_spread": "its matches are all alike",
}


def subject(finding: View, beat: View, measure: View, form: View) -> str:
    """What the number is of: 'economy for spin in overs 11 to 40'."""
    where = where_phrase(beat["where"], form)
    return f"{measure['label']}{cell_phrase(finding['values'], form)}{where}"


def sides_said(finding: View, beat: View, form: View) -> tuple[str, str]:
    """The two sides at the end of a clause: 'before', or 'at coast grounds'."""
    if beat["kind"] != "groups":
        return "before", "after"
    (cut,) = beat["between"]
    first, second = finding["sides"]
    return value_phrase(cut, first, form), value_phrase(cut, second, form)


def values_said(finding: View, measure: View) -> tuple[str, str]:
    """Both values in words, with just enough decimals to tell them apart when they moved."""
    ends = [finding["a"], finding["b"]]
    widths = [(side["high"] - side["low"]) / 2 for side in ends]
    decimals = max(numbers.bearable(width, measure["decimals"]) for width in widths)
    a, b = (numbers.said(side["value"], decimals) for side in ends)
    if a == b and finding["verdict"] == "changed":
        most = measure["decimals"]
        a, b = (numbers.said(side["value"], most) for side in ends)
    return a, b


def statement(finding: View, beat: View, measure: View, form: View) -> list[str]:
    """The number, the sureness, and where something changed its feel and the drift."""
    what = subject(finding, beat, measure, form)
    if finding["refused"]:
        return [f"{capitalised(what)}: {REFUSALS[finding['refused']]}, so no number worth saying."]
    a, b = values_said(finding, measure)
    unit = measure["unit"]
    if beat["kind"] == "groups":
        first, second = sides_said(finding, beat, form)
        number = f"{capitalised(what)} is {numbers.with_unit(a, unit)} {first}, and {b} {second}."
    elif finding["verdict"] == "changed":
        number = f"{capitalised(what)} {_moved(finding)} from {a} to {numbers.with_unit(b, unit)}."
    else:
        number = f"{capitalised(what)} was {numbers.with_unit(a, unit)} before, and {b} after."
    said = [number, sureness(finding, beat, form), _felt(finding), drift_said(finding)]
    return [sentence for sentence in said if sentence]


def _felt(finding: View) -> str | None:
    """A changed share as balls of a full innings: the same fact on the field."""
    balls = finding.get("balls_an_innings")
    if not balls or finding["verdict"] != "changed":
        return None
    decimals = numbers.bearable((balls["high"] - balls["low"]) / 2, 1)
    number = numbers.rounded(abs(balls["value"]), decimals)
    if number == 0:
        return None
    more = "more" if balls["value"] > 0 else "fewer"
    noun = "ball" if number == 1 else "balls"
    return f"That is about {numbers.said(float(number), decimals)} {noun} {more} an innings."


def _moved(finding: View) -> str:
    return "rose" if finding["change"] > 0 else "fell"


def sureness(finding: View, beat: View, form: View) -> str:
    """What the data can bear, with the interval in words."""
    if finding["verdict"] == "held":
        return _held(finding, beat)
    low, high = _ends(finding)
    if finding["because"] == "lost_among_many":
        family = numbers.said(finding["family_size"], 0)
        reach = _range(low, high)
        return f"Alone it would pass; as one of {family} looks it doesn’t: anything {reach} fits."
    if finding["verdict"] == "can't tell":
        return f"The data can’t tell that from no difference: anything {_range(low, high)} fits."
    word = "gap" if beat["kind"] == "groups" else "change"
    return f"That is a real {word}: {size(finding)} {_way(finding)}, anywhere {_range(low, high)}."


def _held(finding: View, beat: View) -> str:
    margin = finding["margin"]
    if margin["unit"] == "points":
        limit = f"{numbers.said(margin['size'], 1)} of a point"
    else:
        limit = f"{numbers.said(margin['size'], 1)} per cent"
    if beat["kind"] == "groups":
        return f"Nearly the same: if there is a gap, it is under {limit}."
    return f"It held: if anything changed, it is under {limit}."


def size(finding: View) -> str:
    """The size of the change in words: per cent, or points of a share."""
    if finding["kind"] == "share":
        half = (finding["difference_high"] - finding["difference_low"]) / 2
        return numbers.said_points(finding["difference"], half)
    half = (finding["change_high"] - finding["change_low"]) / 2
    return numbers.said_percent(finding["change"], half)


def _way(finding: View) -> str:
    return "up" if finding["change"] > 0 else "down"


def _ends(finding: View) -> tuple[tuple[float, str], tuple[float, str]]:
    """Both ends of the interval as (signed size, unit word)."""
    if finding["kind"] == "share":
        return (finding["difference_low"], "points"), (finding["difference_high"], "points")
    return (finding["change_low"] * 100, "per cent"), (finding["change_high"] * 100, "per cent")


def _range(low: tuple[float, str], high: tuple[float, str]) -> str:
    """'between eight and thirteen per cent', 'from two points down to one up'."""
    unit = low[1]
    decimals = numbers.bearable((high[0] - low[0]) / 2, 1)
    ends = [abs(end) for end, _ in (low, high)]
    said = [numbers.said(end, decimals) for end in ends]
    if low[0] < 0 < high[0]:
        return f"from {said[0]} {_singular(unit, said[0])} down to {said[1]} up"
    near, far = sorted(range(2), key=lambda i: ends[i])
    return f"between {said[near]} and {said[far]} {_singular(unit, said[far])}"


def _singular(unit: str, said: str) -> str:
    return "point" if unit == "points" and said == "one" else unit


def answer(headlines: list[tuple[View, View, View]], form: View) -> list[str]:
    """The answer in one breath, from (finding, beat, measure) of each headline."""
    sentences = []
    moved = [item for item in headlines if item[0]["verdict"] == "changed"]
    for finding, beat, measure in moved[:2]:
        sentences.append(_one_breath(finding, beat, measure, form))
    explanation = explained([finding for finding, _, _ in moved])
    sentences += [explanation] if explanation else []
    held = [subject(f, b, m, form) for f, b, m in headlines if f["verdict"] == "held"]
    if held:
        sentences.append(f"{capitalised(listed(held[:2]))} held.")
    if not moved and not held:
        sentences.append("None of the headline numbers can be told from no change at all.")
    open_ones = sum(f["verdict"] == "can't tell" for f, _, _ in headlines)
    if open_ones and (moved or held):
        said = numbers.said(open_ones, 0)
        noun = "headline number" if open_ones == 1 else "headline numbers"
        sentences.append(f"On {said} {noun} the data can’t say.")
    return sentences


def _one_breath(finding: View, beat: View, measure: View, form: View) -> str:
    what = capitalised(subject(finding, beat, measure, form))
    if beat["kind"] == "groups":
        _, second = sides_said(finding, beat, form)
        higher = "higher" if finding["change"] > 0 else "lower"
        return f"{what} is {size(finding)} {higher} {second}."
    return f"{what} {_moved(finding)} by {size(finding)}."


def expected_found(means: str, finding: View) -> tuple[str, str]:
    """(agrees / disagrees / can't say, what was found) for one thing people say."""
    if finding["verdict"] == "can't tell":
        return "Can’t say", "the data can’t tell it from no difference"
    if finding["verdict"] == "held":
        return ("Agrees" if means == "holds" else "Disagrees"), "it held"
    found = "rises" if finding["change"] > 0 else "falls"
    return ("Agrees" if means == found else "Disagrees"), f"{_way(finding)} {size(finding)}"


def caution(note: View) -> str:
    """A note's code in words: number first, reason second, consequence third."""
    match note["code"]:
        case "few_matches":
            count = numbers.matches(note["matches"])
            return f"Only {count} on the thinner side: the interval is wide and could yet move."
        case "few_counted":
            return f"Only {note['count']:,} in the count it is divided by: treat it as a sketch."
        case "one_match_dominates":
            share = numbers.percent(note["share"], 0, signed=False)
            return f"One match holds {share} of the count on its side: look at it first."
        case "scale_disagrees":
            return (
                "At the edge: one of the two intervals, in units and in per cent, includes no "
                "change and the other does not."
            )
        case "check_disagrees":
            shown = f"{numbers.p_shown(note['p'])} against {numbers.p_shown(note['p_permutation'])}"
            return f"Shuffling whole matches gives another answer ({shown}): don’t lean on it."
        case "unknown_left_out":
            share = numbers.percent(note["share"], 1, signed=False)
            return (
                f"{share} of the balls are of unknown kind or hand; rows by either leave them out."
            )
        case "transition_season":
            return (
                f"The change came during {note['season']}; that season is left out of both sides."
            )
    raise KeyError(note["code"])


def coverage(what: str, unknown: float) -> str:
    """Number first, then the reason, then what follows from it."""
    share = numbers.percent(unknown, 1, signed=False)
    return f"{share} of the balls are of unknown {what}; every row by it leaves them out."
