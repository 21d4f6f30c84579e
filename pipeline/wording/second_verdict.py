"""The second question in words: was it on its way there anyway? Never a cause."""

from __future__ import annotations

from typing import Any

from pipeline.wording import numbers, phrases
from pipeline.wording.vary import vary

View = dict[str, Any]
BEYOND, IN_LINE = "beyond the drift", "in line with the drift"
NOT_TESTABLE = "not testable"
COUNTED = ("seasons_before", "seasons_after")
TOO_FEW = {
    "few_seasons_before": "there are {seasons_before} seasons before it, and eight are needed",
    "few_seasons_after": "there are {seasons_after} seasons after it, and three are needed",
    "empty_season": "a season has none of it",
}


def second(finding: View) -> str | None:
    """The second verdict, where the first is that something changed."""
    asked = finding["verdict"] == "changed" and finding["drift"]
    return finding["drift"]["verdict"] if asked else None


def drift_said(finding: View, what: str = "It") -> str | None:
    """What the seasons say, after the lines on the change; none where it is not asked.

    `what` drifts: "It", or for a gap "Against pace, spin".
    """
    verdict, drift = second(finding), finding["drift"]
    if verdict is None:
        return None
    if verdict == NOT_TESTABLE:
        return f"Whether it was heading there already can’t be tested: {reason(drift)}."
    share = finding["kind"] == "share"  # per cent of a percentage would be heard as points
    heading = _heading(drift, share, what)
    if verdict == BEYOND:
        return f"{heading}. {_step_said(finding, share)}"
    if not _explains(finding):
        return f"{heading}, and a step on top of that can’t be told from none."
    if share:
        return f"{heading}, and that alone would have made most of it."
    way = "up" if drift["expected"] > 0 else "down"
    size = phrases.amount(drift["expected"] * 100, 0, "per cent")
    return vary(
        finding["id"],
        "drift",
        f"{heading}: on its own that comes to about {size} {way}.",
        f"{heading}, which is about {size} {way} with nothing changed at all.",
    )


def _step_said(finding: View, share: bool) -> str:
    drift = finding["drift"]
    way = "up" if drift["step"] > 0 else "down"
    half = (drift["step_high"] - drift["step_low"]) / 2
    size = phrases.size(drift["step"] * 100, half * 100, 1, "per cent")
    if share or size.startswith("less than"):
        return f"This is a step {way} on top of that."
    return vary(
        finding["id"],
        "step",
        f"This is a step on top of that: {size} {way}.",
        f"On top of that there is a step: {size} {way}.",
    )


def reason(drift: View) -> str:
    """Why the drift can't be tested."""
    counts = {name: numbers.said(count, 0) for name, count in drift.items() if name in COUNTED}
    return TOO_FEW[drift["because"]].format(**counts)


def _explains(finding: View) -> bool:
    """The drift alone would have gone the same way, and at least half as far."""
    expected, change = finding["drift"]["expected"], finding["change"]
    return change is not None and expected * change > 0 and abs(expected) >= abs(change) / 2


def _heading(drift: View, share: bool, what: str) -> str:
    """'It was rising by about two per cent a season anyway'."""
    per_season = abs(drift["per_season"]) * 100
    if numbers.rounded(per_season, 0 if share else 1) == 0:
        return f"{what} was going nowhere from season to season"
    way = "rising" if drift["per_season"] > 0 else "falling"
    if share:
        return f"{what} was {way} from season to season anyway"
    return f"{what} was {way} by about {phrases.amount(per_season, 1, 'per cent')} a season anyway"


def challenged(finding: View) -> str | None:
    """The numbers behind the second verdict."""
    drift = finding["drift"]
    if second(finding) is None or drift["p"] is None:
        return None
    ends = numbers.between(drift["step_low"] * 100, drift["step_high"] * 100, 1)
    return (
        f"Drift {numbers.percent(drift['per_season'])} a season ({drift['seasons_before']} before, "
        f"{drift['seasons_after']} after); step on top {numbers.percent(drift['step'])}, 95% "
        f"interval {ends}, {placed(drift)}."
    )


def placed(drift: View) -> str:
    """'the largest of 9 dates', 'number 4 of 9 dates' tried."""
    place = "the largest" if drift["rank"] == 1 else f"number {drift['rank']}"
    return f"{place} of {numbers.counted(drift['dates'], 'date')}"


def explained(moved: list[View]) -> str | None:
    """For the answer in one breath: whether what moved goes beyond the drift."""
    verdicts = [second(finding) for finding in moved]
    told = [verdict for verdict in verdicts if verdict]
    if not told:
        return None
    many = {1: "That is", 2: "Both are"}.get(len(told), "All are")
    if set(told) == {BEYOND}:
        return f"{many} beyond the drift that was there anyway."
    if set(told) == {IN_LINE}:
        return f"{many} in line with the drift that was there anyway."
    beyond = told.count(BEYOND)
    if not beyond:
        return "Whether they were heading there already can’t all be tested."
    noun = "goes" if beyond == 1 else "go"
    share = f"{numbers.said(beyond, 0)} of {numbers.said(len(told), 0)}"
    return f"{share[0].upper()}{share[1:]} {noun} beyond the drift that was there anyway."
