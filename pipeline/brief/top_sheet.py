"""The top sheet: headline cards, expected against found, cautions, the data line."""

from __future__ import annotations

from typing import Any

from pipeline.brief import coverage
from pipeline.brief.table_rows import table_row
from pipeline.errors import Problem, UserError, did_you_mean
from pipeline.text import capitalised, span
from pipeline.wording import labels, notes, numbers, second_verdict
from pipeline.wording.answer import expected_found
from pipeline.wording.change import REFUSALS

View = dict[str, Any]
# Cautions that stand before coverage and the count of what can't be called.
WORST = ("drift_not_testable", "rival_event", "simpson", "mix_moved", "opposition_changed")
Told = tuple[View, View, View]  # a headline's finding, beat and measure


def card(finding: View, beat: View, measure: View, view: View) -> View:
    """One headline number with its two values, units, interval and verdict."""
    form = view["format"]
    name = [capitalised(measure["label"])]
    cell = labels.finding_label(finding, beat, form)
    told = finding["values"] or finding["about"] in ("gap", *labels.PARTS)
    player = finding["about"] == "player"
    name += [cell if player else cell[:1].lower() + cell[1:]] if told else []
    name += [labels.where_label(beat["where"], form)] if beat["where"] else []
    card = {"id": finding["id"], "name": ", ".join(part for part in name if part)}
    card["beat"] = beat["id"]
    if finding["refused"]:
        reason = REFUSALS[finding["refused"]]
        return {
            **card,
            "number": "no number",
            "fact": None,
            "detail": reason,
            "verdict": finding["verdict"],
            "second": None,
        }
    row = table_row(finding, beat, measure, form)
    if finding["about"] == "turn":
        return _turn_card(card, finding)
    first, second = labels.side_labels(finding, beat, form)
    number = row["difference"] if finding["kind"] == "share" else row["change"]
    unit = "" if finding["about"] == "gap" else f" {measure['unit']}"
    values = f"{first} {row['a']}, {second} {row['b']}{unit}"
    extra = "" if finding["kind"] == "share" else f"{row['difference']} {measure['unit']}; "
    detail = f"{extra}95% interval {row['interval']}"
    return {
        **card,
        "number": number,
        "fact": row["facts"]["difference" if finding["kind"] == "share" else "change"],
        "sides": values,
        "detail": f"{detail}{' points' if finding['kind'] == 'share' else ' per cent'}",
        "verdict": finding["verdict"],
        "second": second_verdict.second(finding),
    }


def _turn_card(card: View, finding: View) -> View:
    """A turning point's number is its date."""
    turn = finding["turn"]
    inside = turn["event"] and turn["event"]["inside"]
    place = "the event is inside" if inside else "the event is outside"
    return {
        **card,
        "number": f"{turn['last']} to {turn['next']}",
        "fact": f"{finding['id']}.date",
        "sides": "where the data put the break, asked blind",
        "detail": f"after {turn['low']} to after {turn['high']}"
        + (f"; {place}" if turn["event"] else ""),
        "verdict": finding["verdict"],
        "second": None,
    }


def expected(view: View, by_id: dict[str, View]) -> list[View]:
    """What people say beside what was found; a finding that isn't there is the topic's mistake."""
    wrong = [item["finding"] for item in view["expected"] if item["finding"] not in by_id]
    if wrong:
        raise UserError(
            Problem(view["file"], f"expected: no finding '{name}'{did_you_mean(name, by_id)}")
            for name in wrong
        )
    rows = []
    for item in view["expected"]:
        finding = by_id[item["finding"]]
        word, found = expected_found(item["means"], finding)
        rows.append({"say": item["say"], "word": word, "found": capitalised(found)})
    return rows


def cautions(view: View, findings: View, told: list[Told]) -> list[str]:
    """The two or three that matter most: on the drift, on what is unknown, then the headlines'."""
    own = [note for finding, _, _ in told for note in finding["notes"]]
    worst = [note for note in own if note["code"] in WORST]
    found = notes.ranked(worst) + coverage.thin(findings)
    family = findings["family"]
    if family["cant_tell"]:
        count = numbers.counted(family["cant_tell"], "comparison")
        found.append(f"{count} of {family['looked_at']} can’t be called either way.")
    found += notes.ranked([note for note in own if note not in worst])
    return found


def data_line(view: View, findings: View) -> str:
    data, family = findings["data"], findings["family"]
    parts = [
        numbers.matches(data["matches"]),
        numbers.counted(data["balls"], "ball"),
        f"{data['first']} to {data['last']}",
    ]
    if findings["windows"]:
        sides = (span(findings["windows"][side]) for side in ("before", "after"))
        parts.append(" against ".join(sides))
    known = coverage.known_line(findings)
    parts += [known] if known else []
    if findings["corrections"]:
        parts.append(numbers.counted(len(findings["corrections"]), "correction"))
    looked_at = numbers.counted(family["looked_at"], "comparison")
    parts.append(f"{looked_at}, {numbers.counted(family['headlines'], 'headline')} among them")
    parts.append("; ".join(source["credit"] for source in view["credits"]))
    return " · ".join(parts)
