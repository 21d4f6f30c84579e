"""What may be said to what people say: 'the data agree' only of both verdicts that go that way."""

from __future__ import annotations

from collections.abc import Iterator
from typing import get_args

from pipeline.contracts.codes import Means
from pipeline.contracts.finding import Finding, Groups, drift_of
from tests.claims import told

UP = ("rises", "higher", "steps up", "drifts up")
DOWN = ("falls", "lower", "steps down", "drifts down")
AGREE = "The data agree"
AGAINST = ("The data disagree", "The data say the other way")
OPEN = "can’t say"


def may_say() -> tuple[Means, ...]:
    """Everything that people may expect but that there is no step, which no data can show."""
    return tuple(means for means in get_args(Means) if means != "no step")


def shown(means: Means, finding: Finding) -> int:
    """1 where the finding shows what is meant, -1 where it shows that it is not so, else 0."""
    if finding.refused:
        return 0
    wanted = (means in UP) - (means in DOWN)
    if means in ("steps up", "steps down", "no step"):
        step = _step(finding)
        return 0 if not step else 1 if step == wanted else -1
    if means in ("drifts up", "drifts down"):
        drift = drift_of(finding)
        return wanted * drift.test.slope.way if drift and drift.test else 0
    still = {"changed": -1, "held": 1}.get(finding.verdict, 0)
    if means in ("matters", "makes no difference"):
        return -still if means == "matters" else still
    if not wanted:  # holds, alike: a step beside its drift says otherwise
        return 0 if still > 0 and _step(finding) else still
    moved = (told(finding).value > 0) - (told(finding).value < 0)
    if finding.verdict == "held":
        return 0 if _step(finding) == wanted else -1
    if finding.verdict != "changed":
        return 0
    if moved != wanted:
        return -1
    return 1 if drift_of(finding) is None or _step(finding) == wanted else 0


def _step(finding: Finding) -> int:
    """1 or -1 where a step beside the drift can be told, and which way it goes."""
    drift = drift_of(finding)
    if drift is None or drift.test is None or drift.verdict != "beyond the drift":
        return 0
    return 1 if drift.test.step.value > 0 else -1


def wrong_found(found: str, means: Means, finding: Finding) -> Iterator[str]:
    """What is said is no more than the finding shows, and no less."""
    what = shown(means, finding)
    if (what > 0) != (found == AGREE):
        yield f"agrees: {what}"
    if found in AGAINST and what >= 0:
        yield f"against it: {what}"
    untold = "step" not in means + found and "drift" not in means
    if finding.verdict == "can't tell" and untold and OPEN not in found:
        yield f"said of one that can't be told: {found}"
    if isinstance(finding, Groups) and ("moved" in found or "held" in found):
        yield f"of two groups: {found}"
