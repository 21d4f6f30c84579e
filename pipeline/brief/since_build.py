"""What a rebuild moved: headline numbers from what to what, and verdicts and wordings with them."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from pipeline.contracts.editions import FactMoved
from pipeline.contracts.facts import Fact
from pipeline.editions.difference import facts_moved
from pipeline.editions.difference_words import interval_said, intervals_said, same_number
from pipeline.editions.reading import MAKE, read_facts
from pipeline.errors import UserError

TOLD = {"display", "spoken", "verdict", "interval"}  # what a number that is new or gone has not


def facts_before(folder: Path) -> list[Fact]:
    """The facts of the last build; none when there was none, or when it can't be read."""
    try:
        return read_facts(folder, MAKE)
    except UserError:
        return []


def moved_lines(topic: str, before: list[Fact], after: list[Fact]) -> list[str]:
    """Lines to print; none when nothing was there before, or nothing changed.

    A number whose interval alone is another has not moved, and is counted apart.
    """
    moved = list(facts_moved(before, after))
    differ = [fact for fact in moved if set(fact.what) & TOLD and not same_number(fact)]
    lines = []
    if differ:
        headlines = [fact for fact in differ if fact.headline]
        others = len(differ) - len(headlines)
        lines.append(
            f"{topic}: moved since the last build: {len(headlines)} headline figures, "
            f"{others} others"
        )
        lines += [line for fact in headlines for line in _lines(fact)]
    return [*lines, *(f"{topic}: {sentence}" for sentence in intervals_said(moved))]


def _lines(fact: FactMoved) -> Iterator[str]:
    """A number that is in both, from what to what, and what else of it moved."""
    if fact.old and fact.new:
        yield f"  {fact.id}: {_change(fact.old.display, fact.new.display)}"
        if "spoken" in fact.what:
            yield f"    said: {_change(fact.old.spoken, fact.new.spoken)}"
        if "verdict" in fact.what:
            yield f"    verdict: {_change(fact.old.verdict, fact.new.verdict)}"
        if "interval" in fact.what:
            yield f"    {_change(interval_said(fact.old), interval_said(fact.new))}"


def _change(was: str | None, now: str | None) -> str:
    was, now = was or "none", now or "none"
    return f"{was} -> {now}" if was != now else now
