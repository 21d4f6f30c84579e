"""The forms of a window as a picture in the README, drawn from the windows that are chosen.

A league of four summers, and an event in the middle of the third; a letter is half a month.
"""

from __future__ import annotations

from datetime import date
from typing import Any

from pipeline.contracts.timing import Windows
from pipeline.metrics.matches import Played, seasons_of
from pipeline.metrics.windows import choose_windows
from tests.seasons import event

YEARS, MONTHS, DAYS = range(2014, 2019), range(4, 10), (8, 22)
EVENT, WIDE = date(2016, 7, 15), 40
LETTERS = {"before": "b", "after": "a", "outside": "-"}
Form = tuple[str, dict[str, Any]]
SEASONS, YEAR, ALL = {"seasons": 2}, {"years": 1}, {"first": "2014", "last": "2015"}
FORMS: tuple[Form, ...] = (
    ("2 seasons, 2 seasons", {"before": SEASONS, "after": SEASONS}),
    ("2014 to 2015, 2017 to 2017", {"before": ALL, "after": {"first": "2017", "last": "2017"}}),
    ("2 years, 2 years", {"before": {"years": 2}, "after": {"years": 2}}),
    ("1 year, 1 year, gap_after: 2 months", {"before": YEAR, "after": YEAR, "gap": "2 months"}),
    (
        "2015-06-01 to 2016-07-14, 1 year",
        {"before": {"first": "2015-06-01", "last": "2016-07-14"}, "after": YEAR},
    ),
)


def picture() -> str:
    """A fenced block: the years, the matches with the event among them, and each form."""
    matches = [
        Played(str(year), day, day)
        for year in YEARS
        for day in (date(year, month, at) for month in MONTHS for at in DAYS)
    ]
    head = "  ".join(f"{year:<{len(MONTHS) * len(DAYS)}}" for year in YEARS)
    lines = [
        " " * WIDE + head.rstrip(),
        _line("event: 2016-07-15", [_mark(one) for one in matches]),
    ]
    for name, asked in FORMS:
        found = choose_windows(matches, seasons_of(matches), event(str(EVENT), **asked), "t")
        lines.append(_line(name, [_letter(one, found) for one in matches]))
    return "\n".join(["```text", *lines, "```"])


def _line(name: str, letters: list[str]) -> str:
    summer = len(MONTHS) * len(DAYS)
    parts = ["".join(letters[at : at + summer]) for at in range(0, len(letters), summer)]
    return f"{name:<{WIDE}}{'  '.join(parts)}"


def _mark(one: Played) -> str:
    """The first half month after the event is marked."""
    return "|" if one.first >= EVENT and (one.first - EVENT).days < 14 else "."


def _letter(one: Played, windows: Windows) -> str:
    return LETTERS[windows.side(one.season, one.first)]
