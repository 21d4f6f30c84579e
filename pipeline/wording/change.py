"""Lines to say of a change between two windows, or of two groups: number, feel, sureness, drift."""

from __future__ import annotations

from typing import Any

from pipeline.text import capitalised
from pipeline.wording import cricket, numbers, phrases
from pipeline.wording.control import control_said
from pipeline.wording.second_verdict import drift_said
from pipeline.wording.subject import sides_said, subject
from pipeline.wording.vary import vary

View = dict[str, Any]

REFUSALS = {
    "no_balls": "there is not a ball of it",
    "few_matches": "there are too few matches",
    "none_counted": "it never happened on one side",
    "one_match_holds_all": "one match holds all of it",
    "few_effective": "a few long matches outweigh the rest",
    "no_spread": "its matches are all alike",
    "mix_alike": "the mix is the same in every match",
    "few_points": "there are too few seasons to look for a date",
}
PER = {
    "innings": "Over an innings",
    "those overs": "Over those {times} overs",
    "spell": "In a spell of {times} overs",
    "ten wickets": "For a side bowled out",
    "season": "Over a season",
}
AS_OVERS = 12  # balls: from here on they are said as overs too


def change_said(finding: View, beat: View, measure: View, form: View) -> list[str]:
    """The sentences of one change or group comparison, at most two numbers in each."""
    what = capitalised(subject(finding, beat, measure, form))
    if finding["refused"]:
        return [refused_said(what, finding)]
    said = [
        *_number(what, finding, beat, measure, form),
        times_over(finding),
        felt_said(finding, measure),
        *sureness(finding),
        drift_said(finding),
        control_said(finding),
    ]
    return [sentence for sentence in said if sentence]


def refused_said(what: str, finding: View) -> str:
    fewest = min(finding["a"]["matches"], finding["b"]["matches"])
    if finding["refused"] == "few_matches" and fewest:
        count = numbers.said(fewest, 0)
        noun = "match" if fewest == 1 else "matches"
        return f"{what}: only {count} {noun} on one side, so no number worth saying."
    return f"{what}: {REFUSALS[finding['refused']]}, so no number worth saying."


def unit_said(measure: View) -> str:
    """What follows the number: 'an over', 'per cent of balls'."""
    if measure["kind"] != "share" or measure["spoken"].startswith("per cent"):
        return measure["spoken"]
    return measure["unit"]


def values_said(finding: View, measure: View) -> tuple[str, str]:
    """Both values in words, with just enough decimals to tell them apart when they moved."""
    ends = [finding["a"], finding["b"]]
    widths = [(side["high"] - side["low"]) / 2 for side in ends if side["low"] is not None]
    most = measure["decimals"]
    decimals = max((numbers.bearable(width, most) for width in widths), default=most)
    moved_on = finding["verdict"] == "changed"
    while decimals < most and not _honest(*(side["value"] for side in ends), decimals, moved_on):
        decimals += 1
    return tuple(phrases.value_said(side["value"], decimals) for side in ends)


def _honest(a: float, b: float, decimals: int, changed: bool) -> bool:
    """Rounded so, the two neither meet when they changed nor part when they hardly differ."""
    apart = abs(float(numbers.rounded(a, decimals)) - float(numbers.rounded(b, decimals)))
    if not apart:
        return not changed
    return abs(b - a) > 0.7 * 10.0**-decimals


def _number(what: str, finding: View, beat: View, measure: View, form: View) -> list[str]:
    a, b = values_said(finding, measure)
    first = numbers.with_unit(a, unit_said(measure))
    before, after = sides_said(finding, beat, form)
    groups = finding["about"] == "groups"
    if finding["verdict"] == "held":
        return [_held(what, finding, a, b, first, (before, after) if groups else ("then", "now"))]
    if groups:
        return [f"{what} is {first} {before}, and {b} {after}."]
    if finding["verdict"] == "changed":
        went = vary(finding["id"], "went", moved(finding), "went")
        return [f"{what} {went} from {first} to {b}."]
    if a == b:
        return [f"{what} was {first} before, and the same after."]
    return [f"{what} was {first} before, and {b} after."]


def _held(what: str, finding: View, a: str, b: str, first: str, sides: tuple[str, str]) -> str:
    if a == b and finding["about"] == "groups":
        return f"{what} is the same in both: {first}."
    if a == b:
        return f"{what} is where it was: {first}."
    return f"{what} is nearly the same: {first} {sides[0]}, {b} {sides[1]}."


def moved(finding: View) -> str:
    return "rose" if finding["difference"] > 0 else "fell"


def times_over(finding: View) -> str | None:
    """'That is twice what it was', only where it is."""
    if finding["verdict"] != "changed" or finding["about"] == "groups" or not finding["change"]:
        return None
    times = phrases.times_said(1 + finding["change"])
    return f"That is {times} what it was." if times else None


def felt_said(finding: View, measure: View) -> str | None:
    """A changed number as runs or balls of an innings, a spell, a season."""
    felt = finding["felt"]
    if not felt or finding["verdict"] != "changed" or not felt["per"]:
        return None
    said = felt_amount(felt, measure)
    if said.startswith("less than"):
        return None
    more = "more" if felt["value"] > 0 else "fewer"
    opening = PER[felt["per"]].format(times=numbers.said(felt_overs(felt), 0))
    return f"{opening}, that is {said} {more}{_as_overs(felt, measure)}."


def felt_amount(felt: View, measure: View) -> str:
    """'about three runs', to what the interval can bear."""
    half = (felt["high"] - felt["low"]) / 2
    return phrases.size(felt["value"], half, 1, counted(measure))


def _as_overs(felt: View, measure: View) -> str:
    """Many balls as overs too: ': two and a half overs'."""
    balls = round(abs(felt["value"]))
    if counted(measure) != "balls" or felt["per"] != "innings" or balls < AS_OVERS:
        return ""
    rest = balls % 6
    return f": {cricket.overs_said(balls)}" if rest in (0, 3) else ""


def felt_overs(felt: View) -> float:
    """How many overs a count of balls is (counts of overs are that already)."""
    return felt["times"] / 6 if felt["of"] == "balls" else felt["times"]


def counted(measure: View) -> str:
    """What the numerator counts, in the plural: 'runs', 'dot balls'."""
    if measure.get("counted"):
        return measure["counted"]
    return "balls" if measure["kind"] == "share" else measure["unit"].split(" ")[0]


def sureness(finding: View) -> list[str]:
    """What the data can bear, with the interval in words."""
    groups = finding["about"] == "groups"
    if finding["verdict"] == "held":
        start = "If there is a gap" if groups else "If anything changed"
        return [f"{start}, it is under {margin_said(finding)}."]
    reach = range_said(finding)
    if finding["because"] == "lost_among_many":
        return [f"{among_many(finding)} Anything {reach} fits."]
    if finding["verdict"] == "can't tell":
        none = "no gap" if groups else "no change"
        return [f"{_few(finding)} can’t tell that from {none}: anything {reach} fits."]
    what = "gap" if groups else "change"
    return [
        vary(
            finding["id"],
            "sure",
            f"That is a real {what}: {reach}.",
            f"That is more than luck: {reach}.",
            f"Luck doesn’t do that: it is {reach}.",
        )
    ]


def among_many(finding: View) -> str:
    """Why a difference that would pass alone does not."""
    family = numbers.said(finding["family_size"], 0)
    return f"Alone that would pass; as one of {family} looks it doesn’t."


def _few(finding: View) -> str:
    """'The data', or how little there is of it."""
    count = next((n["matches"] for n in finding["notes"] if n["code"] == "few_matches"), None)
    return f"{capitalised(numbers.said(count, 0))} matches" if count else "The data"


def margin_said(finding: View) -> str:
    margin = finding["margin"]
    unit = "points" if margin["unit"] == "points" else "per cent"
    return phrases.amount(margin["size"], 1, unit)


def range_said(finding: View) -> str:
    """The interval in words: points of a share, else per cent."""
    if finding["kind"] == "share":
        return phrases.interval_said(
            finding["difference_low"], finding["difference_high"], "points"
        )
    return phrases.interval_said(
        finding["change_low"] * 100, finding["change_high"] * 100, "per cent"
    )


def size_said(finding: View) -> str:
    """The size of the change in words: per cent, or points of a share."""
    if finding["kind"] == "share":
        half = (finding["difference_high"] - finding["difference_low"]) / 2
        return phrases.size(finding["difference"], half, 1, "points")
    half = (finding["change_high"] - finding["change_low"]) / 2
    return phrases.size(finding["change"] * 100, half * 100, 1, "per cent")


def way(finding: View) -> str:
    return "up" if finding["difference"] > 0 else "down"
