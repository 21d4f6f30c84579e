"""One decoded match into a chunk's columns, checked as it goes.

Whole innings are handled at once: a list for each field, then arrays, since a loop over deliveries
would cost several times the decoding.
"""

from __future__ import annotations

from itertools import chain, pairwise

import numpy as np

from pipeline.ingest.chunk import BadMatch, Chunk, Played
from pipeline.ingest.columns import Codes, Person, without_id
from pipeline.ingest.json_facts import innings_row, match_row
from pipeline.ingest.laws import KINDS
from pipeline.ingest.limits import (
    MOST_DELIVERIES,
    MOST_INNINGS,
    MOST_MARKED,
    MOST_PEOPLE,
    MOST_WICKETS,
)
from pipeline.ingest.match_json import Extras, Innings, Match, Runs


def add_match(chunk: Chunk, match_id: str, match: Match, source: str) -> None:
    """Append a match, or raise BadMatch and leave the chunk as it was."""
    _check_match(match)
    played = [innings for innings in match.innings if not innings.super_over]
    people = _People(match)
    read = [_read_innings(n, innings, match, people) for n, innings in enumerate(played, start=1)]
    codes = people.codes(chunk.identities)
    for innings in read:
        for role in ("batter", "non_striker", "bowler"):
            setattr(innings, role, codes[getattr(innings, role)])
        chunk.add_innings(match_id, innings)
    chunk.people |= set(people.found)
    chunk.matches.append(match_row(match_id, match, source, people.on_both_sides()))
    chunk.innings += [innings_row(match_id, n, i) for n, i in enumerate(played, start=1)]


class _People:
    """The people of one match: names of each side to local codes, by the registry where it can."""

    def __init__(self, match: Match):
        self._registry = match.info.registry.people
        self._gender = match.info.gender
        self.found: list[Person] = []
        self.sides = {team: _Side(self, team) for team in match.info.teams}

    def add(self, name: str, team: str) -> int:
        if len(self.found) == MOST_PEOPLE:
            raise BadMatch(f"more than {MOST_PEOPLE} people in one match")
        identity = self._registry.get(name)
        made = identity or without_id(name, team)
        self.found.append(Person(made, name, self._gender, team, identity is not None))
        return len(self.found) - 1

    def on_both_sides(self) -> str | None:
        """Names that one id bears on both sides: two people whom the file does not tell apart."""
        sides: dict[str, set[str]] = {}
        for person in self.found:
            sides.setdefault(person.id, set()).add(person.team)
        shared = [person.name for person in self.found if len(sides[person.id]) > 1]
        return "; ".join(sorted(set(shared))) or None

    def codes(self, identities: Codes) -> np.ndarray:
        """Local codes to the chunk's."""
        return np.array([identities[person.id] for person in self.found], np.int32)


class _Side:
    """Names of one side to the match's local codes."""

    def __init__(self, people: _People, team: str):
        self._people, self._team = people, team
        self._known: dict[str, int] = {}

    def codes(self, names: list[str]) -> np.ndarray:
        """A code for each name; names met for the first time are added."""
        try:
            found = list(map(self._known.__getitem__, names))
        except KeyError:
            for name in dict.fromkeys(names):
                self.code(name)
            found = list(map(self._known.__getitem__, names))
        return np.frombuffer(bytes(found), np.uint8)

    def code(self, name: str) -> int:
        if name not in self._known:
            self._known[name] = self._people.add(name, self._team)
        return self._known[name]

    def id_of(self, name: str) -> str:
        return self._people.found[self.code(name)].id


def _check_match(match: Match) -> None:
    teams = match.info.teams
    if len(teams) != 2 or teams[0] == teams[1]:
        raise BadMatch(f"info.teams: expected two teams, found {teams}")
    if not match.info.dates:
        raise BadMatch("info.dates: expected at least one date")
    if len(match.innings) > MOST_INNINGS:
        raise BadMatch(f"{len(match.innings)} innings; the most is {MOST_INNINGS}")
    for number, innings in enumerate(match.innings, start=1):
        if innings.team not in teams:
            raise BadMatch(f"innings {number}: team '{innings.team}' is not one of {teams}")
        _check_marked(innings, number)
        numbers = [over.over for over in innings.overs]
        for before, over in pairwise(numbers):
            if over <= before:
                message = f"innings {number}: over {over + 1} comes after over {before + 1}"
                raise BadMatch(f"{message}; each over stands once, in order")
        longest = max((len(over.deliveries) for over in innings.overs), default=0)
        if longest > MOST_DELIVERIES:
            raise BadMatch(f"innings {number}: more than {MOST_DELIVERIES} deliveries in one over")


def _check_marked(innings: Innings, number: int) -> None:
    """Marks of miscounted overs are of overs that there may be."""
    long = [over for over in innings.miscounted_overs if over.isdecimal() and len(over) > 3]
    if long or len(innings.miscounted_overs) > MOST_MARKED:
        what = f"'{long[0][:20]}' is no over" if long else f"more than {MOST_MARKED} overs"
        raise BadMatch(f"innings {number}, miscounted_overs: {what}")


def _read_innings(number: int, innings: Innings, match: Match, people: _People) -> Played:
    """An innings as arrays of local codes; raises BadMatch where runs do not add up."""
    teams = match.info.teams
    bowling = teams[1] if innings.team == teams[0] else teams[0]
    bat, bowl = people.sides[innings.team], people.sides[bowling]
    balls = list(chain.from_iterable([over.deliveries for over in innings.overs]))
    runs = [ball.runs for ball in balls]
    batter = _counts([run.batter for run in runs])
    marked = [(row, ball) for row, ball in enumerate(balls) if ball.extras or ball.wickets]
    extras = [(row, ball.extras) for row, ball in marked if ball.extras]
    for row, ball in marked:
        if len(ball.wickets or ()) > MOST_WICKETS:
            raise BadMatch(f"{_place(innings, number, row)}: more than {MOST_WICKETS} wickets")
    _check_runs(batter, runs, extras, innings, number)
    return Played(
        number=number,
        batting=innings.team,
        bowling=bowling,
        overs=[over.over + 1 for over in innings.overs],
        over_lengths=[len(over.deliveries) for over in innings.overs],
        batter=bat.codes([ball.batter for ball in balls]),
        non_striker=bat.codes([ball.non_striker for ball in balls]),
        bowler=bowl.codes([ball.bowler for ball in balls]),
        runs_batter=batter,
        extras=[(r, e.wides, e.noballs, e.byes, e.legbyes, e.penalty) for r, e in extras],
        wickets=[
            (row, _known(wicket.kind, innings, number, row), bat.id_of(wicket.player_out))
            for row, ball in marked
            for wicket in ball.wickets or ()
        ],
        non_boundary=[row for row, run in enumerate(runs) if run.non_boundary],
    )


def _counts(values: list[int]) -> np.ndarray:
    """Runs off single deliveries (the layout's types bound them far below 256)."""
    return np.frombuffer(bytes(values), np.uint8)


def _check_runs(
    batter: np.ndarray, runs: list[Runs], extras: list[tuple[int, Extras]], innings: Innings, n: int
) -> None:
    """Off the bat and extras make the total of each delivery; the kinds of extras their sum."""
    recorded = _counts([run.extras for run in runs])
    wrong = np.flatnonzero(batter + recorded != _counts([run.total for run in runs]))
    if len(wrong):
        run = runs[wrong[0]]
        sums = f"batter {run.batter} + extras {run.extras} is not total {run.total}"
        raise BadMatch(f"{_place(innings, n, int(wrong[0]))}: {sums}")
    parts = np.zeros(len(runs), np.int16)
    for row, given in extras:
        parts[row] = given.wides + given.noballs + given.byes + given.legbyes + given.penalty
    wrong = np.flatnonzero(parts != recorded)
    if len(wrong):
        sums = f"the kinds of extras add up to {parts[wrong[0]]}, not {recorded[wrong[0]]}"
        raise BadMatch(f"{_place(innings, n, int(wrong[0]))}: {sums}")


def _known(kind: str, innings: Innings, number: int, row: int) -> str:
    if kind not in KINDS:
        raise BadMatch(f"{_place(innings, number, row)}: unknown kind of dismissal '{kind}'")
    return kind


def _place(innings: Innings, number: int, row: int) -> str:
    """A row of an innings as people say it."""
    for over in innings.overs:
        if row < len(over.deliveries):
            return f"innings {number}, over {over.over + 1}, delivery {row + 1}"
        row -= len(over.deliveries)
    return f"innings {number}"
