"""What `correction` prints: then and now, what used it, why it moved, the draft, the captions."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from operator import itemgetter
from typing import Any

import msgspec

from pipeline.contracts.editions import Causes
from pipeline.contracts.selection import Fix
from pipeline.editions.difference_words import NOTHING, causes_said, fix_moved
from pipeline.errata.captions import clock
from pipeline.errata.draft import day
from pipeline.terminal import WIDTH, headed, wrap
from pipeline.wording import numbers, script

View = dict[str, Any]
RECORDED = ("reason", "source", "by", "date")
NO_FIXES: View = {"new": [], "withdrawn": []}


def shown(found: View) -> list[str]:
    """Lines to print."""
    head = f"{found['topic']}: {found['asked']}"
    if not found["wrong"]:
        return [head, *_wrapped(f"nothing to correct: {_nothing(found)}")]
    lines = [head, "", "What it says", *_facts(found)]
    for edition in found["editions"]:
        lines += ["", f"What used it in edition {edition['edition']} ({edition['folder']})"]
        lines += [*_sentences(edition), *_places(edition)]
        lines += ["", f"Why it moved since edition {edition['edition']}", *_why(edition["why"])]
    for text in found["drafts"]:
        lines += ["", "A draft, to be edited by a person", *_wrapped(text)]
    return [*lines, *_captions(found["captions"])]


def _nothing(found: View) -> str:
    editions = {item["edition"] for fact in found["facts"] for item in fact["editions"]}
    if not editions:
        return "no edition of the topic is archived"
    count = numbers.counted(len(editions), "archived edition")
    says = "says" if len(editions) == 1 else "say"
    return f"{count} {says} what the brief says now"


def _wrapped(text: str) -> list[str]:
    return wrap(text, WIDTH, "  ", "  ")


def _facts(found: View) -> Iterator[str]:
    """Facts that moved, each then and now; of the others how many."""
    moved = [f for f in found["facts"] if any(item["wrong"] for item in f["editions"])]
    for fact in moved:
        if len(found["facts"]) > 1:
            yield f"  {fact['id']}"
        for item in fact["editions"]:
            mark = ": to be corrected" if item["wrong"] else ""
            named = f"{_value(item['said'])}, {day(item['date'])}{mark}"
            yield from headed(f"edition {item['edition']}", named)
        yield from headed("now", _value(fact["now"]))
    others = len(found["facts"]) - len(moved)
    if others:
        yield f"  {numbers.counted(others, 'other fact')} of it: as before"
    first = found["wrong"][0]
    yield f"  Wrong since edition {first['edition']}, {day(first['date'])}."


def _value(said: View | None) -> str:
    if said is None:
        return "not in it"
    verdict = f", {said['verdict']}" if said["verdict"] else ""
    return f"{said['display']} ({said['spoken']}){verdict}"


def _sentences(edition: View) -> Iterator[str]:
    """Sentences by their part, each with what to say instead."""
    if not edition["sentences"]:
        yield "  No line to say has it."
    for part, group in groupby(edition["sentences"], key=lambda item: item["part"]):
        yield f"  {part}"
        for item in group:
            yield from wrap(f"“{item['sentence']}”", WIDTH, "    ", "     ")
            yield from (f"      {line}" for line in _instead(item))


def _instead(item: View) -> list[str]:
    if item["verdict"]:
        return ["no longer said: the verdict moved"]
    return [
        f"{form['old']}: still right" if form["right"] else f"{form['old']} -> {form['new'] or '–'}"
        for form in item["says"]
    ]


def _places(edition: View) -> Iterator[str]:
    for chart in edition["charts"]:
        title = f"; its title says it: “{chart['title']}”" if chart["title_says"] else ""
        yield from headed("charts", f"in charts/: {', '.join(chart['files'])}{title}")
    if edition["printed"]:
        yield from headed("printed", "; ".join(edition["printed"]))
    lines = "; ".join(f"line {row['line']} ({row['id']})" for row in edition["rows"])
    yield from headed("facts.csv", lines)
    cited = [f"{item['by']} ({item['file']}) cites {item['cites']}" for item in edition["cited"]]
    for words in cited or ["nothing"]:
        yield from headed("cited by", words)


def _why(why: View) -> Iterator[str]:
    """What is on record: corrections by their reason, then as `compare` says it."""
    fixes = why["corrections"]
    said = [line for word in ("new", "withdrawn") for line in _fixes(fixes[word], word)]
    if why["elsewhere"]:
        count = numbers.counted(why["elsewhere"], "new correction")
        said.append(f"{count} in matches that are not behind it.")
    rest = {name: why[name] for name in ("data", "settings", "code")}
    others = causes_said(msgspec.convert({**rest, "corrections": NO_FIXES}, Causes))
    said += [line for line in others if line != NOTHING or not said]
    for sentence in said:
        yield from wrap(sentence, WIDTH, "  - ", "    ")


def _fixes(fixes: list[View], word: str) -> Iterator[str]:
    """A line for each reason: how many, who and when, and the first of them."""
    for (reason, source, by, date), group in groupby(fixes, key=itemgetter(*RECORDED)):
        alike = list(group)
        count = numbers.counted(len(alike), f"{word} correction")
        first = "the first: " if len(alike) > 1 else ""
        said = fix_moved(msgspec.convert(alike[0], Fix))
        yield f"{count}: {reason} ({source}; {by}, {date}); {first}{said}."


def _captions(found: View | None) -> Iterator[str]:
    """Lines for a video's description, those that name the number's subject first."""
    if found is None:
        return
    if found["estimated"]:
        yield from [
            "",
            f"In the script ({found['file']}), as if read at {script.RATE} words a minute",
        ]
    else:
        yield from ["", f"In the captions ({found['file']})"]
    wrong = [place for place in found["places"] if not place["right"]]
    right = len(found["places"]) - len(wrong)
    if not wrong:
        looked_for = "; ".join(found["looked_for"]) or "nothing: as it was said, it still holds"
        yield from _wrapped(f"Not found. Looked for: {looked_for}.")
    named = [place for place in wrong if place["named"]]
    alone = [place for place in wrong if not place["named"]]
    if named:
        yield f"  Said where ‘{found['subject']}’ is named:"
        yield from (line for place in named for line in _stamped(place))
    if alone:
        yield "  The words alone, maybe of another number; listen before using a line:"
        yield from (line for place in alone for line in _stamped(place))
    if right:
        yield f"  {numbers.counted(right, 'place')} may stay as said: the rounding is the same."


def _stamped(place: View) -> list[str]:
    new = f"it is {place['new']}" if place["new"] else "there is no such number"
    return [f"{clock(place['at'])} Correction: we say {place['old']}; {new}."]
