"""A beat's page: chart, lines to say, table, and three columns of care."""

from __future__ import annotations

from typing import Any

from pipeline.brief.rows import EXTRA, heading, table_row
from pipeline.wording import drift, labels, notes, numbers
from pipeline.wording.parts import share_said
from pipeline.wording.players import list_said
from pipeline.wording.statement import statement

View = dict[str, Any]
MOST_WARNED = 3  # tempting sentences a page; the first are the worst
MOST_CAREFUL = 6  # cautions a page, the worst first
MOST_SAID = 3  # findings put into words on a beat's page; the table holds them all


def beat_page(position: int, beat: View, view: View, findings: View, charts: list[View]) -> View:
    """A beat: for each measure its chart, lines to say and table, then three columns of care."""
    mine = [finding for finding in findings["findings"] if finding["beat"] == beat["id"]]
    words = next(b for b in view["words"]["beats"] if b["id"] == beat["id"])
    title = beat["title"] or labels.capitalised(view["measures"][beat["measures"][0]]["label"])
    return {
        "id": beat["id"],
        "position": position,
        "count": len(view["beats"]),
        "title": title,
        "note": words["note"],
        "parts": [_part(name, beat, mine, view, findings, charts) for name in beat["measures"]],
        "challenged": _challenged(beat, view, findings) + _on_drift(mine, view, findings),
        "careful": _careful(mine),
        "dont_say": _dont_say(beat, mine, view),
    }


def _part(
    name: str, beat: View, mine: list[View], view: View, findings: View, charts: list[View]
) -> View:
    measure = view["measures"][name]
    own = [finding for finding in mine if finding["measure"] == name]
    chart = next(c for c in charts if c["chart"] == f"{beat['id']}.{name}")
    sides = labels.side_labels(own[0], beat, view["format"]) if own else ("", "")
    event = view["event"]
    left_out = chart["rows_left_out"]
    return {
        "measure": measure["label"],
        "unit": measure["unit"],
        "share": measure["kind"] == "share",
        "chart": chart,
        "left_out": f"{numbers.counted(left_out, 'more row')} in the table." if left_out else "",
        "sides": [labels.capitalised(side) for side in sides],
        "extra": heading(beat),
        "wide": beat["kind"] in EXTRA,
        "lines": _opening(beat, own, findings, view)
        + [
            " ".join(statement(finding, beat, measure, view["format"], event))
            for finding in _worth_saying(own, findings["headlines"])
        ],
        "rows": [table_row(finding, beat, measure, view["format"]) for finding in own],
    }


def _opening(beat: View, own: list[View], findings: View, view: View) -> list[str]:
    """What a list of players, or a mix of groups, says as a whole."""
    if beat["kind"] == "players" and own:
        told = [finding for finding in own if finding["about"] == "player"]
        found = findings["lists"][f"{beat['id']}.{own[0]['measure']}"]
        return [" ".join(list_said(found, told, beat))]
    if beat["kind"] == "mix":
        groups = [finding for finding in own if finding["shares"]]
        widest = max(groups, key=lambda f: abs(f["shares"][1] - f["shares"][0]))
        name = labels.cell_label(widest["values"], view["format"])
        return [share_said(widest, beat, view["format"], name)]
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


def _challenged(beat: View, view: View, findings: View) -> list[str]:
    """Sample, interval and test, definition: what to answer."""
    lines = []
    for name in beat["measures"]:
        sample = findings["samples"][f"{beat['id']}.{name}"]
        measure = view["measures"][name]
        counts = f"{numbers.counted(sample['balls'], 'ball')} in "
        counts += numbers.matches(sample["matches"])
        lines.append(f"{labels.capitalised(measure['label'])} is {measure['defined']}: {counts}.")
    return list(dict.fromkeys(lines))


def _on_drift(mine: list[View], view: View, findings: View) -> list[str]:
    """The numbers behind the second verdict of the lines said on the page."""
    lines = []
    for finding in _worth_saying(mine, findings["headlines"]):
        line = drift.challenged(finding)
        if line:
            name = labels.cell_label(finding["values"], view["format"])
            lines.append(f"{name}: {line[:1].lower()}{line[1:]}")
    return lines


def _careful(mine: list[View]) -> list[str]:
    found = notes.ranked([note for finding in mine for note in finding["notes"]])
    wide = sum(finding["because"] == "interval_too_wide" for finding in mine)
    if wide:
        rows = "row is" if wide == 1 else "rows are"
        found.append(f"{numbers.counted(wide, rows, rows)} too uncertain to call either way.")
    return found[:MOST_CAREFUL] or ["Nothing beyond the interval itself."]


def _dont_say(beat: View, mine: list[View], view: View) -> list[str]:
    """The tempting sentence that the data do not carry."""
    found = []
    verdicts = {finding["verdict"] for finding in mine}
    if view["event"] and beat["kind"] != "groups" and "changed" in verdicts:
        seconds = {drift.second(finding) for finding in mine}
        reason = "This compares two windows; it does not say why."
        if drift.IN_LINE in seconds:
            reason = "Some of it was on its way there anyway, and a step is not a cause."
        found.append(f"“Because of {view['event']['name']}.” {reason}")
    if "can't tell" in verdicts:
        found.append("“No difference.” The data can’t tell, which is not the same.")
    if "held" in verdicts:
        found.append("“Exactly the same.” It held within a margin set in advance.")
    if beat["kind"] == "groups" and "changed" in verdicts:
        found.append("“Because they are different.” Other things differ between the groups too.")
    if len(verdicts - {"held"}) > 1 and len(mine) > 1:
        found.append("“Only these rows changed.” Rows are judged one by one, not against another.")
    return found[:MOST_WARNED]
