"""What `correction` prints: then and now, what used it, why it moved, the draft, the captions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from msgspec import structs

from pipeline.contracts.editions import FixesMoved, Said
from pipeline.contracts.errata import (
    EditionUse,
    Errata,
    SaidIn,
    SentenceUse,
    ThenAndNow,
    Why,
)
from pipeline.contracts.selection import Fix
from pipeline.editions.difference_words import NOTHING, causes_said, fix_moved, interval_said
from pipeline.errata.captions_printed import captions_printed
from pipeline.errata.draft import day
from pipeline.terminal import WIDTH, headed, wrap
from pipeline.text import listed
from pipeline.wording import numbers


def printed(found: Errata) -> list[str]:
    """Lines to print."""
    head = f"{found.topic}: {found.asked}"
    if not found.wrong:
        return [head, *wrapped(f"nothing to correct: {_nothing(found)}")]
    lines = [head, "", "What it says", *facts_printed(found)]
    for use in found.editions:
        lines += ["", f"What used it in edition {use.edition} ({use.folder})"]
        lines += [*_sentences(use.sentences), *_places(use)]
        lines += ["", f"Why it moved since edition {use.edition}", *_why(use.why)]
    for text in found.drafts:
        lines += ["", "A draft, to be edited by a person", *wrapped(text)]
    return [*lines, *(captions_printed(found.captions) if found.captions else [])]


def _nothing(found: Errata) -> str:
    editions = {item.edition for fact in found.facts for item in fact.editions}
    if not editions:
        return "no edition of the topic is archived"
    count = numbers.counted(len(editions), "archived edition")
    says = "says" if len(editions) == 1 else "say"
    told = f"{count} {says} what the brief says now"
    other = sorted(
        {
            item.edition
            for fact in found.facts
            for item in fact.editions
            if _interval_moved(item, fact)
        }
    )
    if not other:
        return told
    which = f"edition{'s' if len(other) > 1 else ''} {listed([str(one) for one in other])}"
    return f"{told}, though {which} told it with another interval; the number is the same"


def _interval_moved(item: SaidIn, fact: ThenAndNow) -> bool:
    """Whether an edition had another interval, or one of another confidence."""
    then, now = item.said, fact.now
    return then is not None and now is not None and interval_said(then) != interval_said(now)


def wrapped(text: str) -> list[str]:
    return wrap(text, WIDTH, "  ", "  ")


def facts_printed(found: Errata) -> Iterator[str]:
    """Facts that moved, each then and now; of the others how many."""
    moved = [fact for fact in found.facts if any(item.wrong for item in fact.editions)]
    for fact in moved:
        if len(found.facts) > 1:
            yield f"  {fact.id}"
        ends = any(_interval_moved(item, fact) for item in fact.editions)
        for item in fact.editions:
            mark = ": to be corrected" if item.wrong else ""
            yield from headed(
                f"edition {item.edition}", f"{_value(item.said, ends)}, {day(item.date)}{mark}"
            )
        yield from headed("now", _value(fact.now, ends))
    others = len(found.facts) - len(moved)
    if others:
        yield f"  {numbers.counted(others, 'other fact')} of it: as before"
    for name in found.also:
        yield from wrapped(f"{name} is the same comparison; ask for its charts and rows by its id")
    first = found.wrong[0]
    yield f"  Wrong since edition {first.edition}, {day(first.date)}."


def _value(said: Said | None, ends: bool) -> str:
    """As shown and said, with its verdict, and its interval where that moved."""
    if said is None:
        return "not in it"
    verdict = f", {said.verdict}" if said.verdict else ""
    interval = f", {interval_said(said)}" if ends else ""
    return f"{said.display} ({said.spoken}){verdict}{interval}"


def _sentences(uses: Sequence[SentenceUse]) -> Iterator[str]:
    """Sentences by their part, each with what to say instead; those of its own lines first."""
    if not uses:
        yield "  No line to say has it."
    yield from _by_part([use for use in uses if use.own])
    alone = [use for use in uses if not use.own]
    if alone:
        yield "  The words alone, in a line that may be another number’s; read it before use:"
        yield from _by_part(alone)


def _by_part(uses: Sequence[SentenceUse]) -> Iterator[str]:
    for part, group in groupby(uses, key=lambda use: use.part):
        yield f"  {part}"
        for use in group:
            yield from wrap(f"“{use.sentence}”", WIDTH, "    ", "     ")
            yield from (f"      {line}" for line in _instead(use))


def _instead(use: SentenceUse) -> list[str]:
    said = [
        f"{one.old}: still right" if one.right else f"{one.old} -> {one.new or '–'}"
        for one in use.says
    ]
    return [*said, "no longer said so: a verdict moved"] if use.verdict else said


def _places(use: EditionUse) -> Iterator[str]:
    for chart in use.charts:
        title = f"; its title says it: “{chart.title}”" if chart.title_says else ""
        yield from headed("charts", f"in charts/: {', '.join(chart.files)}{title}")
    if use.printed:
        yield from headed("printed", "; ".join(use.printed))
    yield from headed("facts.csv", "; ".join(f"line {row.line} ({row.id})" for row in use.rows))
    cited = [f"{item.by} ({item.file}) cites {item.cites}" for item in use.cited]
    for words in cited or ["nothing"]:
        yield from headed("cited by", words)


def _why(why: Why) -> Iterator[str]:
    """What is on record: corrections by their reason, then as `compare` says it."""
    said = [*_fixes(why.corrections.new, "new"), *_fixes(why.corrections.withdrawn, "withdrawn")]
    if why.elsewhere:
        count = numbers.counted(why.elsewhere, "new correction")
        said.append(f"{count} in matches that are not behind it.")
    rest = structs.replace(why, corrections=FixesMoved(new=[], withdrawn=[]))
    said += [line for line in causes_said(rest) if line != NOTHING or not said]
    for sentence in said:
        yield from wrap(sentence, WIDTH, "  - ", "    ")


def _fixes(fixes: Sequence[Fix], word: str) -> Iterator[str]:
    """A line for each reason: how many, who and when, and the first of them."""
    for (reason, source, by, date), group in groupby(fixes, key=_recorded):
        alike = list(group)
        count = numbers.counted(len(alike), f"{word} correction")
        first = "the first: " if len(alike) > 1 else ""
        yield f"{count}: {reason} ({source}; {by}, {date}); {first}{fix_moved(alike[0])}."


def _recorded(fix: Fix) -> tuple[str, str, str, str]:
    return fix.reason, fix.source, fix.by, fix.date.isoformat()
