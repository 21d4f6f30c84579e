"""What the template prints, ready to print: no number is made or rounded after this."""

from __future__ import annotations

from typing import Any

from pipeline.brief.method import method_lines
from pipeline.wording import labels, numbers, sentences

View = dict[str, Any]
MOST_SAID = 3  # findings put into words on a beat's page; the table holds them all
USUAL_CAUTIONS = (
    "These numbers describe play, not intent. An allegation about a person, an official or "
    "equipment needs its own sources, and legal advice before it is broadcast.",
    "Figures about named players are of public performance only. This is not betting advice.",
    "Check the licence of the data, and the rights to any footage, before publishing.",
)


def context(view: View, findings: View, charts: list[View], facts: list[View]) -> View:
    """Everything the brief holds, in its order."""
    by_id = {finding["id"]: finding for finding in findings["findings"]}
    beats = {beat["id"]: beat for beat in view["beats"]}
    told = [
        (by_id[name], beats[by_id[name]["beat"]], view["measures"][by_id[name]["measure"]])
        for name in view["headlines"]
    ]
    pages = [
        _beat_page(position, beat, view, findings, charts)
        for position, beat in enumerate(view["beats"], start=1)
    ]
    return {
        "topic": view["topic"],
        "title": view["words"]["title"],
        "question": view["words"]["question"],
        "publisher": view["project"]["title"],
        "language": view["project"]["language"],
        "notices": list(dict.fromkeys(s["notice"] for s in view["credits"] if s["notice"])),
        "answer": sentences.answer(told, view["format"]),
        "cards": [_card(*item, view) for item in told],
        "expected": _expected(view, by_id),
        "cautions": _cautions(view, findings, told),
        "usual_cautions": USUAL_CAUTIONS,
        "data_line": _data_line(view, findings),
        "fingerprint": findings["data"]["fingerprint"],
        "beats": pages,
        "notes": view["words"]["notes"],
        "method": method_lines(view, findings),
        "measures": _definitions(view),
        "sources": view["credits"],
        "facts": [fact for fact in facts if fact["finding"] or fact["beat"] is None],
    }


def _card(finding: View, beat: View, measure: View, view: View) -> View:
    """One headline number with its two values, units, interval and verdict."""
    form = view["format"]
    name = [labels.capitalised(measure["label"])]
    cell = labels.cell_label(finding["values"], form)
    name += [cell[:1].lower() + cell[1:]] if finding["values"] else []
    name += [labels.where_label(beat["where"], form)] if beat["where"] else []
    card = {"id": finding["id"], "name": ", ".join(part for part in name if part)}
    card["beat"] = beat["id"]
    if finding["refused"]:
        reason = sentences.REFUSALS[finding["refused"]]
        return {**card, "number": "no number", "detail": reason, "verdict": finding["verdict"]}
    row = _row(finding, beat, measure, form)
    first, second = labels.side_labels(finding, beat, form)
    number = row["difference"] if finding["kind"] == "share" else row["change"]
    values = f"{first} {row['a']}, {second} {row['b']} {measure['unit']}"
    extra = "" if finding["kind"] == "share" else f"{row['difference']} {measure['unit']}; "
    detail = f"{extra}95% interval {row['interval']}"
    return {
        **card,
        "number": number,
        "sides": values,
        "detail": f"{detail}{' points' if finding['kind'] == 'share' else ' per cent'}",
        "verdict": finding["verdict"],
    }


def _row(finding: View, beat: View, measure: View, form: View) -> View:
    """A finding as a row of a table: shown numbers only."""
    decimals = measure["decimals"]
    a, b = finding["a"], finding["b"]
    row = {
        "id": finding["id"],
        "name": labels.cell_label(finding["values"], form),
        **{
            key: numbers.shown(side["value"], decimals) if side["value"] is not None else "–"
            for key, side in (("a", a), ("b", b))
        },
        "matches": f"{a['matches']:,} / {b['matches']:,}",
        "balls": f"{a['balls']:,} / {b['balls']:,}",
        "verdict": finding["verdict"],
        "refused": sentences.REFUSALS[finding["refused"]] if finding["refused"] else None,
    }
    if finding["refused"]:
        return {**row, "difference": "–", "change": "–", "interval": "–", "seen": "–"}
    share = finding["kind"] == "share"
    if share:
        low, high = finding["difference_low"], finding["difference_high"]
        difference = numbers.points(finding["difference"])
        seen = f"{numbers.shown(finding['detectable_difference'], 1)} pts"
    else:
        low, high = finding["change_low"] * 100, finding["change_high"] * 100
        difference = numbers.shown(finding["difference"], decimals, signed=True)
        seen = numbers.percent(finding["detectable_change"], 1, signed=False)
    return {
        **row,
        "difference": difference,
        "change": "" if share else numbers.percent(finding["change"]),
        "interval": numbers.between(low, high, 1),
        "seen": seen,
    }


def _beat_page(position: int, beat: View, view: View, findings: View, charts: list[View]) -> View:
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
        "challenged": _challenged(beat, view, findings),
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
    left_out = chart["rows_left_out"]
    return {
        "measure": measure["label"],
        "unit": measure["unit"],
        "share": measure["kind"] == "share",
        "chart": chart,
        "left_out": f"{left_out} more rows in the table." if left_out else "",
        "sides": [labels.capitalised(side) for side in sides],
        "lines": [
            " ".join(sentences.statement(finding, beat, measure, view["format"]))
            for finding in _worth_saying(own, findings["headlines"])
        ],
        "rows": [_row(finding, beat, measure, view["format"]) for finding in own],
    }


def _worth_saying(own: list[View], headlines: list[str]) -> list[View]:
    """Headlines first, then what changed, surest first; told in the table's order."""

    def order(finding: View) -> tuple[bool, bool, float]:
        p = 1.0 if finding["refused"] else finding["p"]
        return (finding["id"] not in headlines, finding["verdict"] != "changed", p)

    chosen = sorted(own, key=order)[:MOST_SAID]
    return [finding for finding in own if finding in chosen]


def _challenged(beat: View, view: View, findings: View) -> list[str]:
    """Sample, interval and test, definition: what to answer."""
    lines = []
    for name in beat["measures"]:
        sample = findings["samples"][f"{beat['id']}.{name}"]
        measure = view["measures"][name]
        counts = f"{numbers.counted(sample['balls'], 'ball')} in "
        counts += numbers.matches(sample["matches"])
        lines.append(f"{labels.capitalised(measure['label'])} is {measure['defined']}: {counts}.")
    lines.append(
        "Matches are the unit, not balls: each interval comes from leaving out one match at a time."
    )
    return list(dict.fromkeys(lines))


def _careful(mine: list[View]) -> list[str]:
    notes = [note for finding in mine for note in finding["notes"]]
    found = list(dict.fromkeys(sentences.caution(note) for note in notes))
    wide = sum(finding["because"] == "interval_too_wide" for finding in mine)
    if wide:
        rows = "row is" if wide == 1 else "rows are"
        found.append(f"{numbers.counted(wide, rows, rows)} too uncertain to call either way.")
    return found or ["Nothing beyond the interval itself."]


def _dont_say(beat: View, mine: list[View], view: View) -> list[str]:
    """The tempting sentence that the data do not carry."""
    found = []
    verdicts = {finding["verdict"] for finding in mine}
    if "can't tell" in verdicts:
        found.append("“No difference.” The data can’t tell, which is not the same.")
    if "held" in verdicts:
        found.append("“Exactly the same.” It held within a margin set in advance.")
    if view["event"] and beat["kind"] != "groups" and "changed" in verdicts:
        name = view["event"]["name"]
        found.append(f"“Because of {name}.” This compares two windows; it does not say why.")
    if beat["kind"] == "groups" and "changed" in verdicts:
        found.append("“Because they are different.” Other things differ between the groups too.")
    if len(verdicts - {"held"}) > 1 and len(mine) > 1:
        found.append("“Only these rows changed.” Rows are judged one by one, not against another.")
    return found


def _expected(view: View, by_id: dict[str, View]) -> list[View]:
    rows = []
    for item in view["expected"]:
        finding = by_id[item["finding"]]
        word, found = sentences.expected_found(item["means"], finding)
        rows.append({"say": item["say"], "word": word, "found": labels.capitalised(found)})
    return rows


def _cautions(view: View, findings: View, told: list[tuple[View, View, View]]) -> list[str]:
    """The two or three that matter most: drift not tested, then those of the headlines."""
    found = [sentences.NO_DRIFT_TEST] if view["event"] else []
    family = findings["family"]
    if family["cant_tell"]:
        count = numbers.counted(family["cant_tell"], "comparison")
        found.append(f"{count} of {family['looked_at']} can’t be called either way.")
    notes = [note for finding, _, _ in told for note in finding["notes"]]
    found += dict.fromkeys(sentences.caution(note) for note in notes)
    return found[:3]


def _data_line(view: View, findings: View) -> str:
    data, family = findings["data"], findings["family"]
    parts = [
        numbers.matches(data["matches"]),
        numbers.counted(data["balls"], "ball"),
        f"{data['first']} to {data['last']}",
    ]
    if findings["windows"]:
        sides = (labels.span(findings["windows"][side]) for side in ("before", "after"))
        parts.append(" against ".join(sides))
    parts.append(f"{family['looked_at']} comparisons, {family['headlines']} of them headlines")
    parts.append("; ".join(source["credit"] for source in view["credits"]))
    return " · ".join(parts)


def _definitions(view: View) -> list[View]:
    return [
        {"name": labels.capitalised(m["label"]), "defined": m["defined"], "margin": _margin(m)}
        for m in view["measures"].values()
    ]


def _margin(measure: View) -> str:
    size = numbers.shown(measure["margin"]["size"], 1).removesuffix(".0")
    return f"{size} points" if measure["margin"]["unit"] == "points" else f"{size} per cent"
