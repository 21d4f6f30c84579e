"""The second question in words: was it on its way there anyway? Never a cause.

It is told whatever the first verdict is: standing still against a rise is a step down. That a
number drifted is said only where the drift's own interval leaves none out.
"""

from __future__ import annotations

from pipeline.contracts.codes import DriftBecause, DriftVerdict
from pipeline.contracts.finding import Finding, drift_of
from pipeline.contracts.notes import DriftNotTestable
from pipeline.contracts.parts import Drift, Slope, StepTest
from pipeline.wording import numbers, phrases
from pipeline.wording.confidence import interval_heading

BEYOND: DriftVerdict = "beyond the drift"
IN_LINE: DriftVerdict = "in line with the drift"
TOO_FEW: dict[DriftBecause, str] = {
    "few_seasons_before": "{before} before it, and eight are needed",
    "few_seasons_after": "{after} after it, and three are needed",
    "empty_season": "a season has none of it",
}
UNTESTED = {
    "changed": "Whether it was heading there already can’t be tested",
    "held": "Whether that is standing still against a drift can’t be tested",
    "can't tell": "Whether it was drifting can’t be tested either",
}


def second(finding: Finding) -> DriftVerdict | None:
    """The second verdict, whatever the first one is; none of what was refused or never asked."""
    drift = asked(finding)
    return drift.verdict if drift else None


def asked(finding: Finding) -> Drift | None:
    """The second question's answer, where there is a first one."""
    return None if finding.refused else drift_of(finding)


def drift_said(finding: Finding, what: str = "It") -> str | None:
    """What the seasons say, after the lines on the change; none where it is not asked.

    `what` drifts: "It", or for a gap "Against pace, spin".
    """
    drift = asked(finding)
    if drift is None:
        return None
    if drift.test is None:
        return f"{UNTESTED[finding.verdict]}: {reason(drift)}."
    share = finding.kind == "share"
    if drift.verdict == BEYOND:
        return _beyond(finding, drift.test, share, what)
    return _in_line(finding, drift, drift.test, share, what)


def _beyond(finding: Finding, test: StepTest, share: bool, what: str) -> str:
    heading, step = _heading(test.per_season, share, what), _step(test, share)
    with_it = test.per_season.way * test.step.value > 0
    if finding.verdict == "held" and heading and not with_it:
        return f"{heading}, so standing still is {step}."
    if heading is None:
        return f"No drift can be told before it, and then there is {step}."
    if finding.verdict != "changed":
        return f"{heading}. Set against that, there is {step}."
    return f"{heading}. {'On top of that there is' if with_it else 'Against that came'} {step}."


def _in_line(finding: Finding, drift: Drift, test: StepTest, share: bool, what: str) -> str:
    heading, still = _heading(test.per_season, share, what), _no_step(drift, test, share)
    if heading is None:
        return f"No drift can be told either, and {still}."
    if finding.verdict != "changed":
        return f"{heading}; {still}."
    if test.per_season.way * finding.told.difference.value < 0:
        return f"{heading}, and then it went the other way; but {still}."
    return f"{heading}{_carried_on(finding, test, share)}. And {still}."


def _carried_on(finding: Finding, test: StepTest, share: bool) -> str:
    """What the drift alone would have made of the change, where that is true of its interval."""
    if accounts_for_most(finding, test):
        return ", and that alone would account for most of it"
    if share:
        return ", so some of it was on its way there anyway"
    expected = phrases.size(test.expected.value * 100, _half(test.expected), 1, "per cent")
    way = "up" if test.expected.value > 0 else "down"
    return f", which comes to {expected} {way} by itself"


def was_on_its_way(finding: Finding) -> bool:
    """Whether it changed the way that its drift, which can be told, was going."""
    drift = asked(finding)
    if finding.verdict != "changed" or drift is None or drift.test is None:
        return False
    return drift.test.per_season.way * finding.told.difference.value > 0


def accounts_for_most(finding: Finding, test: StepTest) -> bool:
    """Both ends of what the drift alone makes go the change's way, and at least half as far."""
    change, slope = finding.told.relative, test.expected
    if change is None or slope.low is None or slope.high is None:
        return False
    return all(
        end * change.value > 0 and 2 * abs(end) >= abs(change.value)
        for end in (slope.low, slope.high)
    )


def _step(test: StepTest, share: bool) -> str:
    """'a step down: between six and fourteen per cent'; of a share without its size.

    That would be per cent of a per cent.
    """
    way = "up" if test.step.value > 0 else "down"
    if share:
        return f"a step {way}"
    reach = phrases.interval_said(test.step.low * 100, test.step.high * 100, "per cent")
    return f"a step: {reach}"


def _no_step(drift: Drift, test: StepTest, share: bool) -> str:
    """That a step can't be told from none, and which would fit all the same."""
    told = "a step beside that can’t be told from none"
    if drift.because == "step_lost_among_many":
        told = "a step beside that, which would pass alone, is not enough as one of many asked"
    if share:
        return told
    reach = phrases.interval_said(test.step.low * 100, test.step.high * 100, "per cent")
    return f"{told}: anything {reach} would fit"


def reason(told: Drift | DriftNotTestable) -> str:
    """Why the drift can't be tested."""
    before, after = (_there(count) for count in (told.seasons_before, told.seasons_after))
    return TOO_FEW[told.because].format(before=before, after=after)


def _there(seasons: int) -> str:
    """'there is one season', 'there are five seasons'."""
    counted = numbers.with_unit(numbers.said(seasons, 0), "seasons")
    return f"there is {counted}" if seasons == 1 else f"there are {counted}"


def _heading(slope: Slope, share: bool, what: str) -> str | None:
    """'It had been rising by about two per cent a season'; none where the drift is not told.

    Per cent of a percentage would be heard as points, so of a share no size is said.
    """
    if not slope.way:
        return None
    way = "rising" if slope.way > 0 else "falling"
    if share:
        return f"{what} had been {way} from season to season"
    size = phrases.size(slope.value * 100, _half(slope), 1, "per cent")
    return f"{what} had been {way} by {size} a season"


def _half(slope: Slope) -> float:
    """Half the width of its interval, in per cent: what a rounding may hide."""
    if slope.low is None or slope.high is None:
        return abs(slope.value) * 100
    return (slope.high - slope.low) * 50


def numbers_behind(finding: Finding) -> str | None:
    """The numbers behind the second verdict, in one line."""
    drift = asked(finding)
    if drift is None or drift.test is None:
        return None
    test = drift.test
    ends = numbers.between(test.step.low * 100, test.step.high * 100, 1)
    return (
        f"Drift {numbers.percent(test.per_season.value)} a season{_slope_ends(test.per_season)} "
        f"({drift.seasons_before} before, {drift.seasons_after} after); step beside it "
        f"{numbers.percent(test.step.value)}, {interval_heading(test.level)} {ends}, "
        f"{placed(test)}."
    )


def _slope_ends(slope: Slope) -> str:
    if slope.low is None or slope.high is None:
        return ""
    return f", {numbers.between(slope.low * 100, slope.high * 100, 1)}"


def placed(test: StepTest) -> str:
    """'the largest of 9 dates', 'number 4 of 9 dates' tried."""
    place = "the largest" if test.rank == 1 else f"number {test.rank}"
    return f"{place} of {numbers.counted(test.dates, 'date')}"


def in_short(finding: Finding) -> str:
    """The second verdict as the end of a clause; nothing where it is not asked."""
    drift = asked(finding)
    if drift is None:
        return ""
    if drift.test is None:
        return ", and whether it was drifting can’t be tested"
    if drift.verdict == IN_LINE:
        return ", and a step beside its drift can’t be told from none"
    way = "up" if drift.test.step.value > 0 else "down"
    if finding.verdict == "changed" and drift.test.step.value * finding.told.difference.value > 0:
        return ", and that is a step beyond its drift"
    return f", and beside its drift there is a step {way}"
