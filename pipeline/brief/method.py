"""How it was done, in plain words, with the numbers of this brief."""

from __future__ import annotations

from typing import Any

from pipeline.brief.coverage import known_line
from pipeline.text import capitalised, listed
from pipeline.wording import numbers

View = dict[str, Any]


def method_lines(view: View, findings: View) -> list[str]:
    """One paragraph a step."""
    statistics, family = view["project"]["statistics"], findings["family"]
    least = statistics["least_matches"]
    alpha = numbers.percent(family["alpha"], 0, signed=False)
    rate = numbers.percent(family["table_rate"], 0, signed=False)
    lines = [
        "Every number is one sum over balls divided by another, added up match by match. The match "
        "is the unit that varies: balls of one match share a pitch, a day and two sides, so they "
        "are not independent.",
        "Each 95% interval comes from leaving out one match at a time (the jackknife), on the log "
        "scale, so that changes are percentages; changes in units use the same method unlogged. "
        f"With fewer than {least} matches on a side there is no interval and no verdict.",
        "Groups that share matches, such as pace and spin, are left out together, so that what "
        "the match did to both cancels.",
        f"{numbers.counted(family['looked_at'], 'comparison')} were looked at. The "
        f"{family['headlines']} headline numbers are held to {alpha} between them (Holm), the "
        f"{family['tables']} others to a {rate} share of false calls (Benjamini and Hochberg).",
        "Changed: beyond chance after that. Held: the 90% interval, which is the one that two "
        "one-sided tests at 5% look at, lies inside a margin fixed in advance. Can’t tell: "
        "neither. In each table, “could see” is the smallest true change that such data "
        "would show four times in five.",
        f"Beside each test, whole matches were shuffled {statistics['permutations']:,} times; "
        "where that gives another answer, the row says so.",
    ]
    if findings["windows"] and view["event"]:
        lines.append(_windows_line(view, findings))
        drift = _drift_line(findings)
        lines += [drift] if drift else []
    return lines + _data_lines(findings)


def _windows_line(view: View, findings: View) -> str:
    windows, event = findings["windows"], view["event"]
    before, after = (listed(windows[side]) for side in ("before", "after"))
    line = f"Before {event['name']} ({event['date']}) are the seasons {before}; after it, {after}."
    if windows["transition"]:
        line += f" It came during {windows['transition']}, which is in neither."
    return line


def _drift_line(findings: View) -> str | None:
    """How the second question was asked, with this brief's seasons."""
    checks = [finding["drift"] for finding in findings["findings"] if finding["drift"]]
    if not checks:
        return None
    first = checks[0]
    return (
        f"Where something changed, the seasons {first['first']} to {first['last']} "
        f"({first['seasons_before']} before, {first['seasons_after']} after) are asked whether "
        "there is a step on top of the drift: a weighted line through the log rates of the "
        "seasons, with a step at the event, and t with seasons minus three degrees of freedom. "
        "Beyond the drift: the step is beyond chance after the same allowance for many looks. In "
        "line with it: a step can’t be told from no step. It needs eight seasons before and three "
        "after. The step is ranked among those at every date with three seasons on either side."
    )


def _data_lines(findings: View) -> list[str]:
    """What is known of the balls, and what the files cannot say."""
    line = known_line(findings)
    lines = [f"{capitalised(line)}. Rows that need what is unknown leave it out."] if line else []
    reduced = findings["data"]["targets_reduced"]
    if reduced:
        count = numbers.counted(reduced, "match has", "matches have")
        lines.append(
            f"{count} a reduced target. Whether a first innings was shortened is not in the files, "
            "so it is not known."
        )
    return lines
