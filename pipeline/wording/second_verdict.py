"""The second question in words: was it on its way there anyway? Never a cause."""

from __future__ import annotations

from collections.abc import Iterable

from pipeline.contracts.codes import DriftBecause, DriftVerdict
from pipeline.contracts.finding import Finding, drift_of
from pipeline.contracts.notes import DriftNotTestable
from pipeline.contracts.parts import Drift, StepTest
from pipeline.wording import numbers, phrases
from pipeline.wording.vary import vary

BEYOND: DriftVerdict = "beyond the drift"
IN_LINE: DriftVerdict = "in line with the drift"
TOO_FEW: dict[DriftBecause, str] = {
    "few_seasons_before": "{before} before it, and eight are needed",
    "few_seasons_after": "{after} after it, and three are needed",
    "empty_season": "a season has none of it",
}


def second(finding: Finding) -> DriftVerdict | None:
    """The second verdict, where the first is that something changed."""
    drift = asked(finding)
    return drift.verdict if drift else None


def asked(finding: Finding) -> Drift | None:
    """The second question's answer, which is told only where something changed."""
    return drift_of(finding) if finding.verdict == "changed" else None


def drift_said(finding: Finding, what: str = "It") -> str | None:
    """What the seasons say, after the lines on the change; none where it is not asked.

    `what` drifts: "It", or for a gap "Against pace, spin".
    """
    drift = asked(finding)
    if drift is None:
        return None
    if drift.test is None:
        return f"Whether it was heading there already can’t be tested: {reason(drift)}."
    test, share = drift.test, finding.kind == "share"
    heading = _heading(test, share, what)
    if drift.verdict == BEYOND:
        return f"{heading}. {_step_said(finding.id, test, share)}"
    if not _explains(finding, test):
        return f"{heading}, and a step on top of that can’t be told from none."
    if share:
        return f"{heading}, and that alone would have made most of it."
    way = "up" if test.expected > 0 else "down"
    size = phrases.amount(test.expected * 100, 0, "per cent")
    return vary(
        finding.id,
        "drift",
        f"{heading}: on its own that comes to about {size} {way}.",
        f"{heading}, which is about {size} {way} with nothing changed at all.",
    )


def _step_said(identity: str, test: StepTest, share: bool) -> str:
    """The step on top; of a share without its size, which would be per cent of a per cent."""
    step = test.step
    way = "up" if step.value > 0 else "down"
    size = phrases.size(step.value * 100, step.half * 100, 1, "per cent")
    if share or size.startswith("less than"):
        return f"This is a step {way} on top of that."
    return vary(
        identity,
        "step",
        f"This is a step on top of that: {size} {way}.",
        f"On top of that there is a step: {size} {way}.",
    )


def reason(told: Drift | DriftNotTestable) -> str:
    """Why the drift can't be tested."""
    before, after = (_there(count) for count in (told.seasons_before, told.seasons_after))
    return TOO_FEW[told.because].format(before=before, after=after)


def _there(seasons: int) -> str:
    """'there is one season', 'there are five seasons'."""
    counted = numbers.with_unit(numbers.said(seasons, 0), "seasons")
    return f"there is {counted}" if seasons == 1 else f"there are {counted}"


def _explains(finding: Finding, test: StepTest) -> bool:
    """The drift alone would have gone the same way, and at least half as far."""
    change = finding.told.relative
    if change is None:
        return False
    same_way = test.expected * change.value > 0
    return same_way and abs(test.expected) >= abs(change.value) / 2


def _heading(test: StepTest, share: bool, what: str) -> str:
    """'It was rising by about two per cent a season anyway'.

    Per cent of a percentage would be heard as points, so of a share no size is said.
    """
    per_season = abs(test.per_season) * 100
    if numbers.rounded(per_season, 0 if share else 1) == 0:
        return f"{what} was going nowhere from season to season"
    way = "rising" if test.per_season > 0 else "falling"
    if share:
        return f"{what} was {way} from season to season anyway"
    return f"{what} was {way} by about {phrases.amount(per_season, 1, 'per cent')} a season anyway"


def numbers_behind(finding: Finding) -> str | None:
    """The numbers behind the second verdict, in one line."""
    drift = asked(finding)
    if drift is None or drift.test is None:
        return None
    test = drift.test
    ends = numbers.between(test.step.low * 100, test.step.high * 100, 1)
    return (
        f"Drift {numbers.percent(test.per_season)} a season ({drift.seasons_before} before, "
        f"{drift.seasons_after} after); step on top {numbers.percent(test.step.value)}, 95% "
        f"interval {ends}, {placed(test)}."
    )


def placed(test: StepTest) -> str:
    """'the largest of 9 dates', 'number 4 of 9 dates' tried."""
    place = "the largest" if test.rank == 1 else f"number {test.rank}"
    return f"{place} of {numbers.counted(test.dates, 'date')}"


def explained(moved: Iterable[Finding]) -> str | None:
    """For the answer in one breath: whether what moved goes beyond the drift."""
    told = [verdict for finding in moved if (verdict := second(finding))]
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
