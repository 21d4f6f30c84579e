"""Two topics beside each other, in lines for a terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pipeline.contracts.two_topics import Answered, InBoth, InOne, Number, Question, TwoTopics
from pipeline.editions.difference_words import MOST, interval_said, short
from pipeline.terminal import WIDTH, wrap
from pipeline.wording import numbers

HEAD = "Two questions, each answered by itself: neither is the other one, moved."
NOT_TESTED = (
    "Whether the two answers differ was not tested, and nothing here says why they might. "
    "Intervals that overlap are no test of it, and nor are two verdicts: one that changed beside "
    "one that we can’t tell doesn’t show that the two differ."
)
LUCK = "luck-allowed-for"


def lines_of(found: TwoTopics) -> Iterator[str]:
    """What both answer, what only one does, what they ask otherwise, and what was not tested."""
    names = found.first.topic, found.second.topic
    yield from wrap(HEAD, WIDTH)
    for question in (found.first, found.second):
        yield from wrap(_asks(question), WIDTH, "  ", "    ")
    yield from _otherwise(found, names)
    for heading, headline in (("headlines that both answer:", True), ("both answer:", False)):
        rows = [row for row in found.both if row.headline is headline]
        yield from ["", heading] if rows else []
        for row in rows:
            yield from _row(row, names)
    if not found.both:
        yield from ["", "no finding is in both"]
    for name, only in zip(names, (found.only_first, found.only_second), strict=True):
        yield from _only(name, only)
    if found.not_alike:
        ids = ", ".join(found.not_alike)
        why = f"under one id they ask different things, so these are not side by side: {ids}"
        yield from ["", *wrap(why, WIDTH, "", "  ")]
    yield from ["", *wrap(NOT_TESTED, WIDTH)]


def _asks(question: Question) -> str:
    of = f"{question.matches}, {question.first} to {question.last}"
    return f"{question.topic}: {question.title} ({of})"


def _otherwise(found: TwoTopics, names: tuple[str, str]) -> Iterator[str]:
    """The settings that the two have otherwise; which of them matter nobody here can know."""
    if not found.asked_otherwise:
        yield from ["", "they ask the same of the same data"]
        return
    yield from ["", "what they ask otherwise:"]
    for asked in found.asked_otherwise[:MOST]:
        each = (
            f"{name} {short(value)}"
            for name, value in zip(names, (asked.first, asked.second), strict=True)
        )
        yield from wrap(f"{asked.where}: {'; '.join(each)}", WIDTH, "  ", "    ")
    more = len(found.asked_otherwise) - MOST
    if more > 0:
        yield f"  and {numbers.counted(more, 'more setting')}"


def _row(row: InBoth, names: tuple[str, str]) -> Iterator[str]:
    yield f"  {row.id}"
    wide = max(map(len, names))
    for name, answer in zip(names, (row.first, row.second), strict=True):
        yield from wrap(told(answer), WIDTH, f"    {name:{wide}}  ", " " * (wide + 6))


def _only(name: str, rows: Sequence[InOne]) -> Iterator[str]:
    if rows:
        yield from ["", f"only {name} answers:"]
    for row in rows:
        yield from wrap(f"{row.id}: {told(row.answer)}", WIDTH, "  ", "    ")


def told(answer: Answered) -> str:
    """'before 4.54, after 4.07 runs an over; −10.3%, 95% interval −14.9 to −4.8; changed; ...'."""
    sides = ", ".join(f"{name} {shown}" for name, shown in answer.sides.items())
    values = f"{sides} {answer.unit}" if answer.unit else sides
    numbers_told = [_number(number) for number in answer.numbers]
    if answer.refused:
        numbers_told = [f"no figure, since {answer.refused}"]
    verdicts = [answer.verdict, answer.drift, answer.control]
    return "; ".join(part for part in (values, *numbers_told, *verdicts) if part)


def _number(number: Number) -> str:
    said = number.said
    if number.part == "date":
        return f"{said.display} ({said.interval})"
    luck = "with luck allowed for " if number.part == LUCK else ""
    return f"{luck}{said.display}, {interval_said(said)}"
