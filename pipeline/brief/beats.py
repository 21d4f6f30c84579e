"""A beat's page: chart, lines to say, table, and three columns of care."""

from __future__ import annotations

from typing import Any

from pipeline.brief.table_rows import EXTRA, heading, table_row
from pipeline.text import capitalised
from pipeline.wording import challenged, labels, notes, numbers
from pipeline.wording.dont_say import dont_say
from pipeline.wording.kinds.mix import share_said
from pipeline.wording.kinds.players import list_said
from pipeline.wording.statement import linked, statement

View = dict[str, Any]
MOST_WARNED = 3  # tempting sentences a page; the first are the worst
MOST_CAREFUL = 6  # cautions a page, the worst first
MOST_SAID = 3  # findings put into words on a beat's page; the table holds them all


def beat_page(position: int, beat: View, view: View, findings: View, charts: list[View]) -> View:
    """A beat: for each measure its chart, lines to say and table, then three columns of care."""
    mine = [finding for finding in findings["findings"] if finding["beat"] == beat["id"]]
    words = next(b for b in view["words"]["beats"] if b["id"] == beat["id"])
    title = beat["title"] or capitalised(view["measures"][beat["measures"][0]]["label"])
    return {
        "id": beat["id"],
        "position": position,
        "count": len(view["beats"]),
        "title": title,
        "note": words["note"],
        "parts": [_part(name, beat, mine, view, findings, charts) for name in beat["measures"]],
        "challenged": _challenged(beat, mine, view, findings),
        "careful": _careful(mine),
        "dont_say": dont_say(beat, mine, view["event"], view["format"])[:MOST_WARNED],
    }


def _part(
    name: str, beat: View, mine: list[View], view: View, findings: View, charts: list[View]
) -> View:
    measure = view["measures"][name]
    own = [finding for finding in mine if finding["measure"] == name]
    chart = next(c for c in charts if c["chart"] == f"{beat['id']}.{name}")
    sides = labels.side_labels(own[0], beat, view["format"]) if own else ("", "")
    left_out = chart["rows_left_out"]
    chart = {**chart, "hold": f"{numbers.shown(chart['hold_seconds'], 0)} s"}
    return {
        "measure": measure["label"],
        "unit": measure["unit"],
        "share": measure["kind"] == "share",
        "chart": chart,
        "left_out": f"{numbers.counted(left_out, 'more row')} in the table." if left_out else "",
        "sides": [capitalised(side) for side in sides],
        "extra": heading(beat),
        "wide": beat["kind"] in EXTRA,
        "lines": _opening(beat, own, findings, view) + _lines(own, beat, measure, findings, view),
        "rows": [table_row(finding, beat, measure, view["format"]) for finding in own],
    }


def _lines(own: list[View], beat: View, measure: View, findings: View, view: View) -> list[str]:
    """A line for each finding worth saying; one that goes the other way says so."""
    lines: list[str] = []
    before: View | None = None
    for finding in _worth_saying(own, findings["headlines"]):
        line = " ".join(statement(finding, beat, measure, view["format"], view["event"]))
        lines.append(f"{linked(before, finding)}{line}" if before else line)
        before = finding
    return [capitalised(line) for line in lines]


def _opening(beat: View, own: list[View], findings: View, view: View) -> list[str]:
    """What a list of players, or a mix of groups, says as a whole."""
    if beat["kind"] == "players" and own:
        told = [finding for finding in own if finding["about"] == "player"]
        found = findings["lists"][f"{beat['id']}.{own[0]['measure']}"]
        return [" ".join(list_said(found, told, beat))]
    if beat["kind"] == "mix":
        groups = [finding for finding in own if finding["shares"]]
        widest = max(groups, key=lambda f: abs(f["shares"][1] - f["shares"][0]))
        return [share_said(widest, beat, view["format"])]
    return []


def _worth_saying(own: list[View], headlines: list[str]) -> list[View]:
    """Headlines first, then what changed, surest first; told in the table's order.

    A mix is told by its whole and its two parts; of players only those told apart are named, since
    any other name would be a ranking.
    """

    def order(finding: View) -> tuple[bool, bool, bool, float]:
        p = 1.0 if finding["refused"] else finding["p"]
        first = finding["about"] in ("gap", "mix", "rates")
        return (finding["id"] not in headlines, not first, finding["verdict"] != "changed", p)

    own = [finding for finding in own if _may_be_said(finding, headlines)]
    chosen = sorted(own, key=order)[:MOST_SAID]
    return [finding for finding in own if finding in chosen]


def _may_be_said(finding: View, headlines: list[str]) -> bool:
    if finding["about"] != "player" or finding["id"] in headlines:
        return True
    return bool(finding["shrunk"] and finding["shrunk"]["apart"])


def _challenged(beat: View, mine: list[View], view: View, findings: View) -> list[str]:
    """Two lines a measure (sample and definition; interval and test), then the second verdicts."""
    form, lines = view["format"], []
    for name in beat["measures"]:
        measure, own = view["measures"][name], [f for f in mine if f["measure"] == name]
        lines.append(challenged.sample_line(measure, findings["samples"][f"{beat['id']}.{name}"]))
        said = _worth_saying(own, findings["headlines"])
        lines += [challenged.test_line(finding, beat, form) for finding in said[:1]]
        more = (challenged.drift_line, challenged.control_line)
        lines += [line(finding, beat, form) for finding in said for line in more]
    return [line for line in dict.fromkeys(lines) if line]


def _careful(mine: list[View]) -> list[str]:
    found = notes.ranked([note for finding in mine for note in finding["notes"]])
    wide = sum(finding["because"] == "interval_too_wide" for finding in mine)
    if wide:
        rows = "row is" if wide == 1 else "rows are"
        found.append(f"{numbers.counted(wide, rows, rows)} too uncertain to call either way.")
    return found[:MOST_CAREFUL] or ["Nothing beyond the interval itself."]
