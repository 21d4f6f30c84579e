"""The second question in words: was it on its way there anyway? Never a cause.

It is told whatever the first verdict is: standing still against a rise is a step down. That a
number drifted is said only where the drift's own interval leaves none out.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from msgspec import structs

from pipeline.contracts.codes import DriftBecause, DriftVerdict, Shape, Unit
from pipeline.contracts.finding import Change, Finding, Gap, drift_of
from pipeline.contracts.notes import DriftNotTestable
from pipeline.contracts.over_time import Drift, Slope, StepTest
from pipeline.voice.sentence import Told
from pipeline.wording import numbers, phrases
from pipeline.wording.confidence import interval_heading
from pipeline.wording.scales import sign_of

BEYOND: DriftVerdict = "beyond the drift"
IN_LINE: DriftVerdict = "in line with the drift"
# As it stands in a narrow column under "Drift".
SHORT: dict[DriftVerdict, str] = {BEYOND: "beyond", IN_LINE: "in line", "not testable": "untested"}
BEFORE = "before that"  # of a drift, where nobody names the event
AGAINST = {"changed": "against", "held": "still", "can't tell": "but"}  # a step against a drift
LITTLE = 1.05  # of a variance: a wider error is not worth a word
OTHER: dict[Shape, str] = {"slope change": "if the slope changes", "quadratic": "if it curves"}
BENDING: dict[Shape, str] = {
    "slope change": "turned",
    "quadratic": "curving",
}
TOO_FEW: dict[DriftBecause, str] = {
    "few_periods_before": "we have {before} from before, and the test needs eight",
    "few_periods_after": "we have {after} from after, and the test needs three",
    "empty_period": "one {unit} has none of it",
}


class Whose(NamedTuple):
    """Whose drift it is, in the places of a sentence; of a change that is plain."""

    it: str = "it"
    within: str = ""  # ' in the gap between them', after 'drift'
    of_step: str = ""  # ' in spin’s economy, compared with pace', after 'a step down'


OWN = Whose()


def second(finding: Finding) -> DriftVerdict | None:
    """The second verdict, whatever the first one is; none of what was refused or never asked."""
    drift = asked(finding)
    return drift.verdict if drift else None


def asked(finding: Finding) -> Drift | None:
    """The second question's answer, where there is a first one."""
    return None if finding.refused else drift_of(finding)


def with_drift_of(finding: Finding, first: Finding | None) -> Finding:
    """The finding with the drift of the `first` that answers its question, where it has none.

    The groups of a mix and the whole of a list of players are asked for no drift.
    """
    if first is None or drift_of(finding) or not isinstance(finding, Change | Gap):
        return finding
    return structs.replace(finding, drift=drift_of(first))


def drift_said(finding: Finding, whose: Whose = OWN) -> list[str]:
    """What the seasons, or years, say, after the lines on the change; none where it is not asked.

    What drifts is "it", or for a gap `whose` number is set against another.
    """
    drift = asked(finding)
    if drift is None:
        return []
    if drift.test is None:
        return [Told("drift.untested", reason=reason(drift))]
    share = finding.kind == "share"
    was = _was(drift, drift.test.slope, share, whose.it)
    if drift.verdict == BEYOND:
        return _beyond(finding, drift.test, was, whose)
    return _in_line(finding, drift, drift.test, share, was, whose)


def _beyond(finding: Finding, test: StepTest, was: dict[str, str], whose: Whose) -> list[str]:
    """The step without its interval, which is the table's: a line has one as it is.

    A drift that is told names whose it is; where there is none to tell, the step does.
    """
    way = "up" if test.step.value > 0 else "down"
    if was:
        of_share = ".share" if finding.kind == "share" else ""
        said = [Told(f"{_beside(finding, test)}{of_share}", way=way, **was)]
    else:
        turns = ".but" if finding.verdict == "can't tell" else ""
        slots = {"way": f"{way}{whose.of_step}", "before": BEFORE, "within": whose.within}
        said = [Told(f"drift.beyond{turns}.flat", **slots)]
    if finding.verdict == "changed" and test.step.value * sign_of(finding) < 0:
        said.append(Told("drift.beyond.turned"))
    return [*said, *lost_said(test)]


def _beside(finding: Finding, test: StepTest) -> str:
    """The outcome of a step and of the drift before it: the same way, or against it."""
    if test.slope.way * test.step.value > 0:
        return "drift.beyond.with"
    return f"drift.beyond.{AGAINST[finding.verdict or 'changed']}"


def lost_said(test: StepTest) -> list[str]:
    """That a step is there beside a straight trend only; none where it is told beside others too.

    It is not disproved there: a trend that may bend leaves so few periods little to tell it by.
    """
    lost = test.lost_beside
    if not lost:
        return []
    return [Told(f"drift.beyond.bent.{BENDING[lost[0]] if len(lost) == 1 else 'both'}")]


def _in_line(
    finding: Finding,
    drift: Drift,
    test: StepTest,
    share: bool,
    was: dict[str, str],
    whose: Whose,
) -> list[str]:
    if not was:
        return [_no_step(drift, "drift.none", "drift.none", before=BEFORE, within=whose.within)]
    still = _no_step(drift, "drift.in_line", "drift.in_line.step")
    sign = sign_of(finding) if finding.verdict == "changed" else 0
    if test.slope.way * sign < 0:
        against = "drift.in_line.against.share" if share else "drift.in_line.against"
        return [Told(against, higher="higher" if sign > 0 else "lower", **was), still]
    if sign and not share:
        return [Told("drift.in_line.carried", expected=_carried_on(test), **was), still]
    return [Told("drift.in_line.was.share" if share else "drift.in_line.was", **was), still]


def _carried_on(test: StepTest) -> str:
    """What the drift alone comes to between the windows' centres: 'about five per cent up'."""
    expected = phrases.size(test.expected.value * 100, _half(test.expected), 1, "per cent")
    return f"{expected} {'up' if test.expected.value > 0 else 'down'}"


def was_on_its_way(finding: Finding) -> bool:
    """Whether it changed the way that its drift, which can be told, was going."""
    drift = asked(finding)
    if finding.verdict != "changed" or drift is None or drift.test is None:
        return False
    if drift.verdict == BEYOND:
        return False
    return drift.test.slope.way * sign_of(finding) > 0


def _no_step(drift: Drift, start: str, plain: str, **slots: str) -> str:
    """That a step can't be shown, nor ruled out."""
    if drift.because == "step_lost_among_many":
        return Told(
            f"{start}.many", tested=f"{numbers.said(drift.family_size, 0)} numbers", **slots
        )
    return Told(plain, **slots)


def reason(told: Drift | DriftNotTestable) -> str:
    """Why the drift can't be tested."""
    counts = (told.periods_before, told.periods_after)
    before, after = (_there(count, told.unit) for count in counts)
    return TOO_FEW[told.because].format(before=before, after=after, unit=told.unit)


def _there(count: int, unit: Unit) -> str:
    """'no season', 'one season', 'five years'."""
    return numbers.with_unit(numbers.said(count, 0), f"{unit}s") if count else f"no {unit}"


def _was(drift: Drift, slope: Slope, share: bool, it: str) -> dict[str, str]:
    """What fills 'it had been rising by about two per cent a season'; none of a drift not told.

    Per cent of a percentage would be heard as points, so of a share no size is said.
    """
    if not slope.way:
        return {}
    if share:
        return {"it": it, "up": "up" if slope.way > 0 else "down", "before": BEFORE}
    size = phrases.size(slope.value * 100, _half(slope), 1, "per cent")
    rising = "rising" if slope.way > 0 else "falling"
    return {"it": it, "rising": rising, "size": size, "per": drift.per, "before": BEFORE}


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
    years = "" if drift.unit == drift.per else f" {drift.unit}s"
    return (
        f"Drift {numbers.percent(test.slope.value)} a {drift.per}{_slope_ends(test.slope)} "
        f"({drift.periods_before}{years} before, {drift.periods_after} after); step beside it "
        f"{numbers.percent(test.step.value)}, {interval_heading(test.level)} {ends}, "
        f"{placed(test)}{_alike(drift, test)}{_bending(test)}."
    )


def _alike(drift: Drift, test: StepTest) -> str:
    """That the error is wider since neighbouring periods are alike, where it is by much."""
    if test.factor <= LITTLE:
        return ""
    times = numbers.shown(math.sqrt(test.factor), 2)
    return (
        f"; one {drift.unit} is like the next (correlation {numbers.shown(test.rho, 2)}), "
        f"so its error is {times} times as wide"
    )


def _bending(test: StepTest) -> str:
    """Beside which other trends it is told, and how far the trend must bend for it to be none."""
    if not test.bends:
        return ""
    each = [f"{OTHER[bend.shape]} {numbers.p_shown(bend.p)}" for bend in test.bends]
    said = f"; {', '.join(each)}"
    if test.breakdown is None:
        return said
    bend = numbers.percent(test.breakdown, 2, signed=False)
    return f"{said}; none if the slope itself changed by {bend} a year, every year"


def _slope_ends(slope: Slope) -> str:
    if slope.low is None or slope.high is None:
        return ""
    return f", {numbers.between(slope.low * 100, slope.high * 100, 1)}"


def placed(test: StepTest) -> str:
    """'the largest of 9 dates', 'number 4 of 9 dates' tried."""
    place = "the largest" if test.rank == 1 else f"number {test.rank}"
    return f"{place} of {numbers.counted(test.dates, 'date')}"


def in_short(finding: Finding) -> str:
    """The second verdict as the end of a clause; nothing where it is not asked.

    Of a number that did not change only a step is told: the card has the others.
    """
    drift = asked(finding)
    if drift is None or (finding.verdict != "changed" and drift.verdict != BEYOND):
        return ""
    if drift.test is None:
        return ", though we can’t test whether it was already drifting"
    if drift.verdict == IN_LINE:
        return ", and a step beside its drift is neither shown nor ruled out"
    way = "up" if drift.test.step.value > 0 else "down"
    straight = ", if that ran straight" if drift.test.lost_beside else ""
    if finding.verdict == "changed" and drift.test.step.value * sign_of(finding) > 0:
        return f", and that is a step beyond its drift{straight}"
    return f", and beside its drift there is a step {way}{straight}"
