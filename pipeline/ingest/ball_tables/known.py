"""What the small tables of a source say: matches, their innings, and who is in them."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import numpy as np
import pyarrow as pa

from pipeline.ingest.ball_tables.checked_rows import BESIDE, SAID, Reading
from pipeline.ingest.ball_tables.contract import INNINGS
from pipeline.ingest.ball_tables.match_contract import NO_RULE
from pipeline.ingest.columns import Person

Rows = list[dict[str, Any]]


class Matches:
    """The matches of a source by id, and each one's place in the table."""

    def __init__(self, reading: Reading, source: str):
        self._rows, self._source = reading.whole(), source
        names = self._rows["match_id"].to_pylist()
        self.at = {name: place for place, name in enumerate(names)}
        self.names = names
        self.sides = list(
            zip(self._rows["team_1"].to_pylist(), self._rows["team_2"].to_pylist(), strict=True)
        )
        self.genders: list[str | None] = self._rows["gender"].to_pylist()
        alone = np.array([one == other for one, other in self.sides], bool)
        reading.tell(self._rows, alone, "sides", "'{team_1}' against itself; expected two sides")
        days = zip(self._rows["date"].to_pylist(), self._rows["last_day"].to_pylist(), strict=True)
        before = np.array([bool(day and last and last < day) for day, last in days], bool)
        reading.tell(self._rows, before, "days", "last_day {last_day} is before date {date}")
        for role in ("toss_winner", "winner"):
            self._check_side(reading, role)
        rules = [(rule or "").strip().lower() for rule in self._rows["method"].to_pylist()]
        no_rule = np.array([rule in NO_RULE for rule in rules], bool)
        message = "method: '{method}' names no rule; leave it blank where the balls decided"
        reading.tell(self._rows, no_rule, "method", message)

    def _check_side(self, reading: Reading, role: str) -> None:
        """Who won, the match or the toss, is one of its sides: any other is taken for nobody."""
        named = zip(self._rows[role].to_pylist(), self.sides, strict=True)
        others = np.array([side is not None and side not in sides for side, sides in named], bool)
        message = f"{role}: '{{{role}}}' is no side of it; expected '{{team_1}}' or '{{team_2}}'"
        reading.tell(self._rows, others, role, f"{message}, or leave it blank")

    def rows(self, places: Iterable[int]) -> Rows:
        """Some of them as rows of `pipeline.tables`."""
        found = self._rows.take(pa.array(list(places), pa.int64())).drop_columns(list(BESIDE))
        return [
            {**row, "last_day": row["last_day"] or row["date"], "source": self._source}
            for row in found.to_pylist()
        ]


class Innings:
    """The innings of a source by match, where it has a table of them."""

    def __init__(self, reading: Reading, matches: Matches):
        rows = reading.whole()
        self.given = bool(reading.files)
        self._of_match: dict[str, dict[int, dict[str, Any]]] = {}
        found = rows.drop_columns(list(BESIDE)).to_pylist()
        of_none, of_others = (np.zeros(len(found), bool) for _ in range(2))
        for at, row in enumerate(found):
            name = row["match_id"]
            of_none[at] = name not in matches.at
            of_others[at] = not of_none[at] and (
                row["batting_team"] not in matches.sides[matches.at[name]]
            )
            self._of_match.setdefault(name, {})[row["innings"]] = row
        reading.tell(rows, of_none, "match", "no match '{match_id}' in matches")
        message = "'{batting_team}' is no side of match '{match_id}', in matches"
        reading.tell(rows, of_others, "side", message)

    def rows(self, match: str) -> Rows:
        """Those of a match, in their order."""
        found = self._of_match.get(match, {})
        return [found[number] for number in sorted(found)]

    def batting(self, match: str, number: int) -> str | None:
        """Whose innings it is; None for one that is not in the table."""
        row = self._of_match.get(match, {}).get(number)
        return None if row is None else row["batting_team"]

    def forfeited(self, match: str, number: int) -> bool:
        """Whether it was never begun."""
        row = self._of_match.get(match, {}).get(number)
        return row is not None and bool(row["forfeited"])


def plain_innings(match: str, number: int, batting: str) -> dict[str, Any]:
    """An innings of which only its deliveries are known, with what blanks mean."""
    blanks = {column.name: column.default for column in INNINGS.columns}
    return {**blanks, "match_id": match, "innings": number, "batting_team": batting}


class People:
    """Who is in a source, by id.

    A line in which a cell is wrong is set aside (and has been named): who has no other one is
    called by their id, as everybody is without the table.
    """

    def __init__(self, reading: Reading):
        rows = reading.whole()
        self.given = bool(reading.files)
        self.ids = set(rows["id"].to_pylist())
        wrong = rows[SAID].to_pylist()
        told = rows.drop_columns(list(BESIDE)).to_pylist()
        lines = [Person(**row) for row in told]
        self.found = {line for line, bad in zip(lines, wrong, strict=True) if not bad}
        named = {line.id for line in self.found}
        self._registered = {line.id: line.registered for line in lines if line.id not in named}

    def needs(self, name: str) -> bool:
        """Whether nothing but play tells of somebody."""
        return not self.given or name in self._registered

    @property
    def complete(self) -> bool:
        """Whether everybody has a line."""
        return self.given and not self._registered

    def of(self, seen: Iterable[tuple[str, str, str]]) -> set[Person]:
        """Those of a block, from (id, side, gender): an id is a name."""
        known = self._registered
        return {
            Person(name, name, gender, side, known.get(name, True)) for name, side, gender in seen
        }
