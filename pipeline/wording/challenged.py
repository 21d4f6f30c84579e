"""If challenged: what was counted, over what, how sure, and by which test; two lines a measure."""

from __future__ import annotations

from typing import Any

from pipeline.text import capitalised
from pipeline.wording import labels, numbers, second_verdict

View = dict[str, Any]
METHODS = {"holm": "Holm", "bh": "Benjamini and Hochberg"}


def sample_line(measure: View, sample: View) -> str:
    """Definition and sample."""
    counts = f"{numbers.counted(sample['balls'], 'ball')} in {numbers.matches(sample['matches'])}"
    return f"{capitalised(measure['label'])} is {measure['defined']}: {counts}."


def test_line(finding: View, beat: View, form: View) -> str:
    """Interval and test of one finding that is said, and its place in the family."""
    name = labels.finding_label(finding, beat, form)
    if finding["refused"]:
        return f"{name}: no interval, no test."
    adjusted = numbers.p_shown(finding["p_adjusted"])
    family = f"{adjusted} among {finding['family_size']} ({METHODS[finding['adjusted_by']]})"
    if finding["about"] == "turn":
        turn = finding["turn"]
        return (
            f"{name}: largest of {numbers.counted(turn['dates'], 'date')} (F "
            f"{numbers.shown(turn['sup_f'], 1)}), by simulation {numbers.p_shown(finding['p'])}, "
            f"{family}."
        )
    interval = f"{_change(finding)}, 95% interval {_interval(finding)}"
    return f"{name}: {interval}, {numbers.p_shown(finding['p'])}, {family}{shuffled(finding)}."


def shuffled(finding: View) -> str:
    """The robustness check beside the test; parts of a mix have none, a turn's p is its own."""
    if finding["about"] in ("mix", "rates", "turn"):
        return ""
    return f"; whole matches shuffled {numbers.p_shown(finding['p_permutation'])}"


def drift_line(finding: View, beat: View, form: View) -> str | None:
    """The numbers behind the second verdict."""
    line = second_verdict.challenged(finding)
    return (
        f"{labels.finding_label(finding, beat, form)}: {line[:1].lower()}{line[1:]}"
        if line
        else None
    )


def control_line(finding: View, beat: View, form: View) -> str | None:
    """The numbers behind the verdict beside the control."""
    control = finding["control"]
    if not control or finding["verdict"] != "changed":
        return None
    name = labels.finding_label(finding, beat, form)
    if finding["kind"] == "share":
        size = numbers.points(control["difference"])
        ends = numbers.between(control["difference_low"], control["difference_high"], 1)
    else:
        size = numbers.percent(control["change"])
        ends = numbers.between(control["change_low"] * 100, control["change_high"] * 100, 1)
    return f"{name} beyond {control['name']}: {size}, 95% interval {ends}."


def _change(finding: View) -> str:
    if finding["kind"] == "share":
        return numbers.points(finding["difference"])
    return numbers.percent(finding["change"])


def _interval(finding: View) -> str:
    if finding["kind"] == "share":
        return numbers.between(finding["difference_low"], finding["difference_high"], 1)
    return numbers.between(finding["change_low"] * 100, finding["change_high"] * 100, 1)
