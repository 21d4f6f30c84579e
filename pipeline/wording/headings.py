"""What beats are headed: the topic's own titles, else what each asks, no two of them alike."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import count, islice
from typing import TYPE_CHECKING

from pipeline.text import capitalised
from pipeline.wording import of_kinds
from pipeline.wording.another_event import marked

if TYPE_CHECKING:
    from pipeline.config.event_views import NamedEvent
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format
    from pipeline.config.views import ChartsView

LONGEST = 59  # characters of a heading that is made


def headings_of(view: ChartsView) -> dict[str, str]:
    """The heading of each beat of a topic, by its id."""
    return headings(view.beats, view.measures, view.format, view.others)


def headings(
    beats: Sequence[AnyBeat],
    measures: Mapping[str, Measure],
    form: Format,
    others: Mapping[str, NamedEvent],
) -> dict[str, str]:
    """By id; of beats that ask alike, a later one's says the difference, or is numbered.

    One that is about another event (`others`) says so.
    """
    taken = {beat.title.casefold() for beat in beats if beat.title}
    made: dict[str, str] = {}
    for beat in beats:
        made[beat.id] = beat.title or next(
            each
            for each in _may_be(beat, measures, form, others.get(beat.about or ""))
            if each.casefold() not in taken
        )
        taken.add(made[beat.id].casefold())
    return made


def _may_be(
    beat: AnyBeat, measures: Mapping[str, Measure], form: Format, event: NamedEvent | None
) -> Iterator[str]:
    """All that it asks, ever less of it, each with what may tell it from another; then numbers."""
    asked = [
        [marked(each, beat, event) for each in forms]
        for forms in of_kinds.headings(beat, measures, form)
    ]
    details = of_kinds.heading_details(beat, form)
    fitting = [found for forms in asked if (found := next(filter(_fits, forms), None))]
    for forms in asked:
        yield from map(_heading, islice(filter(_fits, forms), 1))
        for detail in details:
            longer = (f"{each}, {detail}" for each in forms if not each.endswith(("?", ")")))
            yield from map(_heading, islice(filter(_fits, longer), 1))
    least = fitting[0] if fitting else min((each for forms in asked for each in forms), key=len)
    for number in count(1):
        mark = f" ({number})" if number > 1 else ""
        yield _heading(f"{_cut(least, LONGEST - len(mark))}{mark}")


def _fits(text: str) -> bool:
    return len(text) <= LONGEST


def _cut(text: str, most: int) -> str:
    """As many whole words as fit, with a mark that there were more; a long word is cut."""
    if len(text) <= most:
        return text
    kept = text[: most - 1]
    whole = kept if text[most - 1] == " " else kept.rpartition(" ")[0]
    return f"{(whole or kept).rstrip(' ,:;')}…"


def _heading(text: str) -> str:
    """With a capital, and no mark of a code in it."""
    return capitalised(text.replace("_", " "))
