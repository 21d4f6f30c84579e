"""The layout `ball-tables`: its tables put together, some whole matches at a time."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
import pyarrow as pa

from pipeline.errors import Problem, UserError
from pipeline.ingest.ball_tables.checked_rows import Reading
from pipeline.ingest.ball_tables.contract import DELIVERIES
from pipeline.ingest.ball_tables.known import Innings, Matches, People, Rows, plain_innings
from pipeline.ingest.ball_tables.match_contract import TABLES
from pipeline.ingest.ball_tables.table_files import find_files
from pipeline.ingest.ball_tables.whole_matches import codes, whole_matches
from pipeline.ingest.ball_tables.wickets import Wickets
from pipeline.ingest.columns import Person, Tables, finish
from pipeline.ingest.mistakes import Mistakes
from pipeline.ingest.oddities import named
from pipeline.ingest.progress import Progress

if TYPE_CHECKING:
    from pipeline.config.project import Source

ROLES = {"batter_id": "batting_team", "non_striker_id": "batting_team", "bowler_id": "bowling_team"}
CODED = ("match_id", *ROLES, "batting_team", "bowling_team")
Fallen = list[tuple[int, str, str]]
MANY = 1_000  # matches; of fewer it is not told how far they are


def read_ball_tables(source: Source) -> Iterator[tuple[Tables, list[Problem]]]:
    """Tables of whole matches as they come, and at the end the mistakes of all files.

    A match with a mistake in any of its rows is left out and named. Raises UserError for a file
    that is no table, for a match whose rows do not stand together, and for a row of none.
    """
    files, refused = find_files(Path(source.path))
    mistakes = Mistakes()
    readings = {name: Reading(table, files[name], mistakes) for name, table in TABLES.items()}
    parts = _Parts(source.id, readings, mistakes)
    with Progress(f"ingest {source.id}", parts.count, "matches", fewest=MANY) as progress:
        for rows in whole_matches(readings["deliveries"]):
            before = parts.played
            yield parts.tables(rows), []
            progress.more(parts.played - before)
    rest, problems = parts.without_deliveries(), sorted([*refused, *mistakes.problems()])
    if any(reading.lost for reading in readings.values()):
        message = "some match lacks what a row without match_id holds, and which can't be told"
        raise UserError([*problems, Problem(source.path, message)])
    rest.odd["files_without_deliveries"] = named(readings["deliveries"].without_rows())
    yield rest, problems


class _Parts:
    """The small tables of a source, and what is made of the deliveries beside them."""

    def __init__(self, source: str, readings: dict[str, Reading], mistakes: Mistakes):
        self._mistakes, self._deliveries = mistakes, readings["deliveries"]
        self._matches = Matches(readings["matches"], source)
        self._innings = Innings(readings["innings"], self._matches)
        self._people = People(readings["people"])
        self._wickets = Wickets(readings["dismissals"], self._matches.at)
        self._played: set[int] = set()
        self._check_known(readings["dismissals"], self._wickets.rows, "player_out_id")

    @property
    def count(self) -> int:
        """How many matches there are."""
        return len(self._matches.names)

    @property
    def played(self) -> int:
        """Of how many of them deliveries were met."""
        return len(self._played)

    def tables(self, rows: pa.Table) -> Tables:
        """The tables of a block of whole matches, without those that have a mistake."""
        names = rows["match_id"].combine_chunks().dictionary.to_pylist()
        places = np.array([self._matches.at.get(name, -1) for name in names], np.int64)
        match = places[codes(rows, "match_id")]
        self._deliveries.tell(rows, match < 0, "match", "no match '{match_id}' in matches")
        starts = _innings_starts(rows)
        self._check_sides(rows, match, starts)
        for role in ROLES:
            self._check_known(self._deliveries, rows, role)
        fallen = self._wickets.of(match, rows)
        self._played |= set(np.unique(match).tolist())
        bad = [self._matches.at[n] for n in self._mistakes.matches if n in self._matches.at]
        kept = ~np.isin(match, [-1, *bad])
        if not kept.all():
            rows, match, fallen = rows.filter(pa.array(kept)), match[kept], _moved(fallen, kept)
            starts = _innings_starts(rows)
        return self._finished(rows, match, starts, fallen)

    def without_deliveries(self) -> Tables:
        """Matches that have none, with their innings; and people, each once."""
        self._wickets.check_all_seen()
        rest = [
            place
            for name, place in self._matches.at.items()
            if place not in self._played and name not in self._mistakes.matches
        ]
        innings = [row for place in rest for row in self._innings.rows(self._matches.names[place])]
        return finish(
            _raw(self._deliveries.none()), [], self._matches.rows(rest), innings, self._people.found
        )

    def _finished(
        self, rows: pa.Table, match: np.ndarray, starts: np.ndarray, fallen: Fallen
    ) -> Tables:
        places = list(dict.fromkeys(match.tolist()))
        innings = self._innings_of(rows, match, starts)
        people = set[Person]() if self._people.complete else self._seen(rows, match, fallen)
        return finish(_raw(rows), fallen, self._matches.rows(places), innings, people)

    def _innings_of(self, rows: pa.Table, match: np.ndarray, starts: np.ndarray) -> Rows:
        names = self._matches.names
        if self._innings.given:
            return [
                row
                for place in dict.fromkeys(match.tolist())
                for row in self._innings.rows(names[place])
            ]
        numbers, sides = rows["innings"].to_numpy(), rows["batting_team"]
        return [
            plain_innings(names[match[at]], int(numbers[at]), sides[int(at)].as_py())
            for at in starts
        ]

    def _seen(self, rows: pa.Table, match: np.ndarray, fallen: Fallen) -> set[Person]:
        """Who is in a block and in no table of people, by side and match."""
        found: set[tuple[str, str, int]] = set()
        for role, side in ROLES.items():
            trios = np.unique(np.stack([codes(rows, role), codes(rows, side), match]), axis=1).T
            ids, sides = (rows[n].combine_chunks().dictionary.to_pylist() for n in (role, side))
            found |= {(ids[one], sides[team], at) for one, team, at in trios.tolist()}
        found |= {(out, rows["batting_team"][n].as_py(), match[n]) for n, _, out in fallen}
        genders = self._matches.genders
        return self._people.of(
            (name, side, genders[at] or "unknown")
            for name, side, at in found
            if self._people.needs(name)
        )

    def _check_known(self, reading: Reading, rows: pa.Table, role: str) -> None:
        if not self._people.given or not rows.num_rows:
            return
        coded = rows[role].combine_chunks()
        known = np.array([name in self._people.ids for name in coded.dictionary.to_pylist()], bool)
        if not known.all():
            message = f"nobody in people has the id '{{{role}}}': {role}"
            reading.tell(rows, ~known[coded.indices.to_numpy()], role, message)

    def _check_sides(self, rows: pa.Table, match: np.ndarray, starts: np.ndarray) -> None:
        """Each innings is of one side against the other, as matches and innings say."""
        others, unlisted, another, never = (np.zeros(rows.num_rows, bool) for _ in range(4))
        numbers = rows["innings"].to_numpy()
        for at in starts.tolist():
            batting, bowling = (rows[n][at].as_py() for n in ("batting_team", "bowling_team"))
            if match[at] < 0:
                continue
            others[at] = {batting, bowling} != set(self._matches.sides[match[at]])
            if self._innings.given:
                which = self._matches.names[match[at]], int(numbers[at])
                listed = self._innings.batting(*which)
                unlisted[at] = listed is None
                another[at] = listed not in (None, batting)
                never[at] = self._innings.forfeited(*which)
        inside = np.ones(rows.num_rows, bool)
        inside[starts] = False
        for side in ("batting_team", "bowling_team"):
            code = codes(rows, side)
            others |= inside & (code != np.roll(code, 1))
        tell, of = self._deliveries.tell, "innings {innings} of match '{match_id}'"
        sides = "'{batting_team}' against '{bowling_team}' in " + of
        tell(rows, others, "sides", f"{sides}: not its two sides, or not those of the row before")
        tell(rows, unlisted, "innings", f"{of} is not in innings")
        tell(rows, another, "batting", f"{sides}: innings names the other side as batting")
        begun = "has deliveries, and is forfeited in innings; take the mark or these rows away"
        tell(rows, never, "forfeited", f"{of} {begun}")


def _innings_starts(rows: pa.Table) -> np.ndarray:
    """The first row of each innings."""
    match, innings = codes(rows, "match_id"), rows["innings"].to_numpy()
    new = (match[1:] != match[:-1]) | (innings[1:] != innings[:-1])
    return np.flatnonzero(np.concatenate([np.ones(min(1, len(match)), bool), new]))


def _moved(fallen: Fallen, kept: np.ndarray) -> Fallen:
    """Dismissals by the rows that are left."""
    row = np.cumsum(kept) - 1
    return [(int(row[at]), kind, player) for at, kind, player in fallen if kept[at]]


def _raw(rows: pa.Table) -> dict[str, Any]:
    """The columns as they are scored."""
    coded = {name: rows[name].combine_chunks() for name in CODED}
    plain = [name for name in DELIVERIES.names if name not in coded]
    arrays = {name: rows[name].to_numpy() for name in plain}
    return {**coded, **arrays}
