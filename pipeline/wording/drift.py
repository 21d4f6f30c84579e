"""The second question in words: was it on its way there anyway? Never a cause."""

from __future__ import annotations

from typing import Any

from pipeline.wording import numbers

View = dict[str, Any]
BEYOND, IN_LINE = "beyond the drift", "in line with the drift"
TOO_FEW = {
    "few_seasons_before": "there are {seasons_before} seasons before it, and eight are needed",
    "few_seasons_after": "there are {seasons_after} seasons after it, and three are needed",
    "empty_season": "a season has none of it",
}


def second(finding: View) -> str | None:
    """The second verdict, where the first is that something changed."""
    asked = finding["verdict"] == "changed" and finding["drift"]
    return finding["drift"]["verdict"] if asked else None


def drift_said(finding: View) -> str | None:
    """One sentence on the drift, after the two on the change; none where it is not asked."""
    verdict, drift = second(finding), finding["drift"]
    if verdict is None:
        return None
    share = finding["kind"] == "share"  # per cent of a percentage would be heard as points
    if verdict == BEYOND:
        size = None if share else _size(drift["step"], drift["step_high"] - drift["step_low"])
        way = "up" if drift["step"] > 0 else "down"
        step = f"a step of {size} {way}" if size else f"a step {way}"
        return f"{_heading(drift, share)}; this is {step} on top of that."
    if verdict == IN_LINE:
        if not _explains(finding):
            return f"{_heading(drift, share)}; beside that, a step can’t be told from no step."
        if share:
            return f"{_heading(drift, share)}, which alone would have made most of it."
        way = "up" if drift["expected"] > 0 else "down"
        size = numbers.said(abs(drift["expected"]) * 100, 0)
        return (
            f"{_heading(drift, share)}, which alone would have put it {way} about {size} per cent."
        )
    return f"Whether it was heading there already can’t be tested: {reason(drift)}."


def reason(drift: View) -> str:
    """Why the drift can't be tested."""
    return TOO_FEW[drift["because"]].format(**drift)


def _explains(finding: View) -> bool:
    """The drift alone would have gone the same way, and at least half as far."""
    expected, change = finding["drift"]["expected"], finding["change"]
    return expected * change > 0 and abs(expected) >= abs(change) / 2


def _heading(drift: View, share: bool) -> str:
    """'It was rising by about two per cent a season anyway'."""
    size = numbers.rounded(abs(drift["per_season"]) * 100, 0 if share else 1)
    if size == 0:
        return "It was going nowhere from season to season"
    way = "rising" if drift["per_season"] > 0 else "falling"
    if share:
        return f"It was {way} from season to season anyway"
    return f"It was {way} by about {numbers.said(float(size), 1)} per cent a season anyway"


def _size(fraction: float, width: float) -> str | None:
    """A size to what its interval (of this width) can bear; none when that is nothing."""
    said = numbers.said_percent(fraction, width / 2)
    return said if said.startswith("about") else None


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
