"""What the template prints, ready to print: no number is made or rounded after this."""

from __future__ import annotations

from typing import Any

from pipeline.brief.background import background, caution
from pipeline.brief.beats import beat_page
from pipeline.brief.method import method_lines
from pipeline.brief.runsheet import run_sheet
from pipeline.brief.top_sheet import card, cautions, data_line, expected
from pipeline.text import capitalised
from pipeline.wording import labels, numbers
from pipeline.wording.answer import answer

View = dict[str, Any]
MOST_CAUTIONS = 3  # on the top sheet
USUAL_CAUTIONS = (
    "These numbers describe play, not intent. An allegation about a person, an official or "
    "equipment needs its own sources, and legal advice before it is broadcast.",
    "Figures about named players are of public performance only. This is not betting advice.",
    "Check the licence of the data, and the rights to any footage, before publishing.",
)


def context(
    view: View,
    findings: View,
    charts: list[View],
    facts: list[View],
    see_also: list[View],
    edition: int | None = None,
) -> View:
    """Everything the brief holds, in its order; `see_also` are the facts it cites."""
    words = view["words"]
    by_id = {finding["id"]: finding for finding in findings["findings"]}
    beats = {beat["id"]: beat for beat in view["beats"]}
    told = [
        (by_id[name], beats[by_id[name]["beat"]], view["measures"][by_id[name]["measure"]])
        for name in view["headlines"]
    ]
    pages = [
        beat_page(position, beat, view, findings, charts)
        for position, beat in enumerate(view["beats"], start=1)
    ]
    return {
        "topic": view["topic"],
        "title": words["title"],
        "question": words["question"],
        "publisher": view["project"]["title"],
        "language": view["project"]["language"],
        "paper": view["project"]["paper"],
        "edition": f"Edition {edition}" if edition else "Working copy",
        "notices": list(dict.fromkeys(s["notice"] for s in view["credits"] if s["notice"])),
        "answer": answer(told, view["format"], view["event"]),
        "cards": [card(*item, view) for item in told],
        "expected": expected(view, by_id),
        "cautions": (caution(words["background"]) + cautions(view, findings, told))[:MOST_CAUTIONS],
        "run_sheet": run_sheet(pages, words["sponsor"]),
        "background": background(words["background"]),
        "see_also": see_also,
        "usual_cautions": USUAL_CAUTIONS,
        "data_line": data_line(view, findings),
        "fingerprint": findings["fingerprint"],
        "beats": pages,
        "notes": words["notes"],
        "method": method_lines(view, findings),
        "looks": _looks(view, findings),
        "measures": _definitions(view),
        "sources": view["credits"],
        "corrections": [_fix(fix) for fix in findings["corrections"]],
        "facts": _index(facts, pages),
    }


def _index(facts: list[View], pages: list[View]) -> list[View]:
    """The facts that are said or shown in tables, by the page that has them."""
    places = [{"beat": None, "anchor": "top", "name": "Top sheet"}]
    places += [
        {"beat": page["id"], "anchor": f"beat-{page['id']}", "name": page["title"]}
        for page in pages
    ]
    for place in places:
        beat = place["beat"]
        kept = [fact for fact in facts if fact["beat"] == beat and (fact["finding"] or not beat)]
        place["facts"] = kept
    return [place for place in places if place["facts"]]


def _fix(fix: View) -> View:
    where = ", ".join(f"{name} {value}" for name, value in fix["place"].items())
    field = labels.field_label(fix["field"])
    return {
        **fix,
        "where": where,
        "field": field,
        "old": fix["old"] or "blank",
        "new": fix["new"] or "blank",
    }


def _looks(view: View, findings: View) -> list[View]:
    """The family written out: what was looked at, and how many times."""
    named = {beat["id"]: beat["title"] for beat in view["beats"]}
    return [
        {
            **look,
            "title": named[look["beat"]] or look["beat"],
            "name": capitalised(view["measures"][look["measure"]]["label"]),
        }
        for look in findings["family"]["looks"]
    ]


def _definitions(view: View) -> list[View]:
    return [
        {"name": capitalised(m["label"]), "defined": m["defined"], "margin": _margin(m)}
        for m in view["measures"].values()
    ]


def _margin(measure: View) -> str:
    size = numbers.shown(measure["margin"]["size"], 1).removesuffix(".0")
    return f"{size} points" if measure["margin"]["unit"] == "points" else f"{size} per cent"
