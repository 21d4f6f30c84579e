"""What people say against what was found: both verdicts are asked, and why where nobody can say."""

from __future__ import annotations

from pipeline.contracts.codes import Means
from pipeline.contracts.finding import Finding, Groups
from pipeline.wording.clusters import usual_said
from pipeline.wording.composition import is_unlike, like_way, unlike_said
from pipeline.wording.confidence import lost, tested_with
from pipeline.wording.refusals import refusal_said
from pipeline.wording.scales import sign_of
from pipeline.wording.second_verdict import BEYOND, IN_LINE, asked, second

AGREE, DISAGREE = "The data agree", "The data disagree"
OTHER_WAY = "The data say the other way"
NO_STEP = "It moved that way, and a step beside its drift can’t be told from none"
UNTESTED = "It moved that way, and whether it was drifting can’t be tested"
AGAINST_STEP = "It moved that way, and beside its drift there is a step the other way"
INSIDE = "It moved that way, inside the margin"
APART_INSIDE = "They are apart that way, inside the margin"
STOOD = "It held, and beside its drift that is a step that way"
STOOD_STEP = "It held, and beside its drift that is a step"
CANT_SAY = "The data can’t say"
UNLIKE = "It moved that way, and {} we can’t show that it did"
UNLIKE_AT_ALL = "It moved, and {} we can’t show that it did"
TURNED = "It moved that way, and {} the other way"
STEPPED = "The plain figures can’t say; against where it was heading there is a step that way"
WANTED = {
    **dict.fromkeys(("rises", "higher", "steps up", "drifts up"), 1),
    **dict.fromkeys(("falls", "lower", "steps down", "drifts down"), -1),
}


def found_of(means: Means, finding: Finding) -> str:
    """What the data say to it, without the number."""
    if finding.refused:
        return f"{CANT_SAY}: {refusal_said(finding)}"
    if means in ("steps up", "steps down", "no step"):
        return _of_the_step(means, finding)
    if means in ("drifts up", "drifts down"):
        return _of_the_drift(WANTED[means], finding)
    if means in ("holds", "alike", "makes no difference"):
        return _standing_still(finding)
    if means == "matters":
        return {"changed": AGREE, "held": DISAGREE}.get(finding.verdict) or _cant_say(finding)
    return _moving(WANTED[means], finding)


def contradicts(means: Means, finding: Finding) -> bool:
    """Whether the data say otherwise than people do."""
    return not finding.refused and found_of(means, finding) in (DISAGREE, OTHER_WAY, AGAINST_STEP)


def _moving(wanted: int, finding: Finding) -> str:
    """It was to go up (1) or down (-1)."""
    same_way = sign_of(finding) * wanted > 0
    stepped = _step_way(finding) * wanted
    if finding.verdict == "changed":
        if not same_way:
            return OTHER_WAY
        if is_unlike(finding) and like_way(finding) != wanted:
            return (TURNED if like_way(finding) else UNLIKE).format(unlike_said(finding))
        if stepped < 0:
            return AGAINST_STEP
        verdict = second(finding)
        if verdict == IN_LINE:
            return NO_STEP
        return UNTESTED if verdict == "not testable" else AGREE
    if stepped > 0:
        return STOOD if finding.verdict == "held" else STEPPED
    if finding.verdict == "held":
        inside = finding.because == "moved_within_margin" and same_way
        if inside:
            return APART_INSIDE if isinstance(finding, Groups) else INSIDE
        return DISAGREE
    return _cant_say(finding, same_way)


def _standing_still(finding: Finding) -> str:
    if finding.verdict == "changed":
        if is_unlike(finding) and not like_way(finding):
            return UNLIKE_AT_ALL.format(unlike_said(finding))
        return DISAGREE
    if finding.verdict == "held":
        return STOOD_STEP if _step_way(finding) else AGREE
    return _cant_say(finding)


def _of_the_step(means: Means, finding: Finding) -> str:
    """A step that can't be told from none is not shown to be none."""
    verdict, way = second(finding), _step_way(finding)
    if verdict != BEYOND:
        why = "a step can’t be told from none" if verdict == IN_LINE else "a step can’t be tested"
        return f"{CANT_SAY}: {why}"
    if means == "no step":
        return DISAGREE
    return AGREE if way == WANTED[means] else OTHER_WAY


def _of_the_drift(wanted: int, finding: Finding) -> str:
    drift = asked(finding)
    if drift is None or drift.test is None:
        return f"{CANT_SAY}: its drift can’t be tested"
    way = drift.test.slope.way
    if not way:
        return f"{CANT_SAY}: its drift can’t be told from none"
    return AGREE if way == wanted else OTHER_WAY


def _step_way(finding: Finding) -> int:
    """1 for a step up that is told, -1 for one down, 0 for none."""
    drift = asked(finding)
    if drift is None or drift.test is None or drift.verdict != BEYOND:
        return 0
    return 1 if drift.test.step.value > 0 else -1


def _cant_say(finding: Finding, looks: bool = False) -> str:
    """Why nobody can say; `looks` where it seems to be as people say."""
    if lost(finding):
        bar = f"we tested {tested_with(finding)}, which raises the bar"
        if looks and finding.because == "lost_among_many":
            return f"{CANT_SAY}: it looks that way, but {bar}, and it doesn’t clear that"
        return f"{CANT_SAY}: {bar}, and this is too close to call"
    usual = usual_said(finding)
    seems = "it looks that way, but " if looks else ""
    return f"{CANT_SAY}: {seems}{usual}" if usual else CANT_SAY
