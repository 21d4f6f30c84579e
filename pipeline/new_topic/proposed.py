"""What a new topic asks: the competition, the event and the headlines that the data can bear."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from pipeline.config.project import Format
from pipeline.new_topic.played import Played

LEAST_BALLS = 400  # of a kind of bowler in each window: a usual bar for a before and after
MOST_SEASONS = 5
UNKNOWN = "unknown"


class Asked(NamedTuple):
    """What a topic may be of; '' where the matches need not be told apart by it."""

    competition: str
    format: str
    gender: str
    source: str


@dataclass(frozen=True)
class Proposal:
    """What a new topic asks about; `date` where there are seasons to compare, else ''.

    `kind` is the kind of bowler that is known of enough balls in both windows, `known` the share of
    balls of which any is; `matches` are those of the two windows, or of all. `others` are what else
    the data hold, the most matches first.
    """

    asked: Asked
    date: str
    before: int
    after: int
    matches: tuple[int, ...]
    phases: list[str]
    kind: str
    known: float
    innings: bool
    others: list[tuple[Asked, int]] = field(default_factory=list)


def proposed(
    rows: Sequence[Played], formats: Mapping[str, Format], taken: Collection[str] = ()
) -> Proposal | None:
    """Of the most matches among the competitions that no topic asks about (`taken` are the others).

    None where no format covers a match of the data.
    """
    sizes = _sizes(rows, formats)
    if not sizes:
        return None
    ranked = sorted(sizes.items(), key=lambda each: (each[0].competition in taken, -each[1]))
    asked = ranked[0][0]
    mine = [row for row in rows if asked in _asked(row, formats)]
    split = _split(mine)
    sides = split or ([], mine)
    both = [side for side in sides if side]
    balls = sum(row.balls for row in mine)
    return Proposal(
        asked=_told_apart(asked, sizes),
        date=min(row.first for row in sides[1]) if split else "",
        before=len({row.season for row in sides[0]}),
        after=len({row.season for row in sides[1]}),
        matches=tuple(sum(row.matches for row in side) for side in both),
        phases=list(formats[asked.format].phases),
        kind=_kind(both),
        known=sum(row.spin + row.pace for row in mine) / balls if balls else 0.0,
        innings=any(row.second for row in mine),
        others=[(_told_apart(other, sizes), count) for other, count in ranked[1:]],
    )


def _sizes(rows: Sequence[Played], formats: Mapping[str, Format]) -> Counter[Asked]:
    """Matches by all that they may be asked by."""
    sizes: Counter[Asked] = Counter()
    for row in rows:
        for asked in _asked(row, formats):
            sizes[asked] += row.matches
    return sizes


def _asked(row: Played, formats: Mapping[str, Format]) -> list[Asked]:
    covering = [key for key, form in formats.items() if row.match_type in form.match_types]
    source = row.source if row.competition == UNKNOWN else ""  # else nothing says what it is
    gender = "" if row.gender == UNKNOWN else row.gender
    return [Asked(row.competition, key, gender, source) for key in covering]


def _told_apart(asked: Asked, sizes: Mapping[Asked, int]) -> Asked:
    """Gender only where both are there, a source only where a competition has no name."""
    genders = {each.gender for each in sizes if each[:2] == asked[:2]}
    sources = {each.source for each in sizes}
    return asked._replace(
        competition="" if asked.competition == UNKNOWN else asked.competition,
        gender=asked.gender if len(genders) > 1 else "",
        source=asked.source if len(sources) > 1 else "",
    )


def _split(rows: Sequence[Played]) -> tuple[list[Played], list[Played]] | None:
    """Two windows around the first day of a season, as many seasons in each as there may be.

    A season that has begun before that day and goes on after it is in neither. None where no day
    has a whole season on each side.
    """
    labels = list(dict.fromkeys(row.season for row in rows))
    firsts = {label: min(row.first for row in rows if row.season == label) for label in labels}
    lasts = {label: max(row.last for row in rows if row.season == label) for label in labels}
    best: tuple[list[str], list[str]] = ([], [])
    for day in sorted(firsts.values()):
        before = [label for label in labels if lasts[label] < day]
        after = [label for label in labels if firsts[label] >= day]
        if min(len(before), len(after)) > min(map(len, best)):
            best = before, after
    if not best[0]:
        return None
    chosen = best[0][-MOST_SEASONS:], best[1][:MOST_SEASONS]
    earlier, later = ([row for row in rows if row.season in side] for side in chosen)
    return earlier, later


def _kind(sides: Sequence[Sequence[Played]]) -> str:
    """'spin' or 'pace', where each side has enough balls of it; else ''."""
    for kind in ("spin", "pace"):
        if all(sum(getattr(row, kind) for row in side) >= LEAST_BALLS for side in sides):
            return kind
    return ""
