"""One decoded match into a chunk's columns, checked as it goes.

One loop goes over the deliveries of an innings, and what it gathers becomes arrays with the whole
chunk: arrays of single innings would cost as much again as the decoding.
"""

from __future__ import annotations

from itertools import chain, pairwise

from pipeline.errors import near_miss
from pipeline.ingest.chunk import BadMatch, Chunk, Played
from pipeline.ingest.columns import Person, without_id
from pipeline.ingest.json_facts import gender_of, innings_row, match_row
from pipeline.ingest.laws import KINDS
from pipeline.ingest.limits import (
    MOST_DELIVERIES,
    MOST_INNINGS,
    MOST_MARKED,
    MOST_PEOPLE,
    MOST_WICKETS,
)
from pipeline.ingest.match_json import Delivery, Innings, Match, Wicket


def add_match(chunk: Chunk, match_id: str, match: Match, source: str) -> None:
    """Append a match, or raise BadMatch and leave the chunk as it was."""
    _check_match(match)
    played = [innings for innings in match.innings if not innings.super_over]
    people = _People(match)
    read = [_read_innings(n, innings, match, people) for n, innings in enumerate(played, start=1)]
    chunk.add_innings(match_id, [person.id for person in people.found], read)
    chunk.people.update(people.found)
    chunk.matches.append(match_row(match_id, match, source, people.on_both_sides()))
    chunk.innings += [innings_row(match_id, n, i) for n, i in enumerate(played, start=1)]


class _People:
    """The people of one match: names of each side to codes, by the registry where it can."""

    def __init__(self, match: Match):
        self._registry = match.info.registry.people
        self._gender = gender_of(match)
        self.found: list[Person] = []
        self.codes: dict[str, dict[str, int]] = {team: {} for team in match.info.teams}

    def code(self, name: str, team: str) -> int:
        """A name's code; one that is met for the first time is added."""
        codes = self.codes[team]
        if name not in codes:
            if len(self.found) == MOST_PEOPLE:
                raise BadMatch(f"more than {MOST_PEOPLE} people in one match")
            identity = self._registry.get(name)
            made = identity or without_id(name, team)
            codes[name] = len(self.found)
            self.found.append(Person(made, name, self._gender, team, bool(identity)))
        return codes[name]

    def on_both_sides(self) -> str | None:
        """Names that one id bears on both sides: two people whom the file does not tell apart."""
        if len({person.id for person in self.found}) == len(self.found):
            return None
        sides: dict[str, set[str]] = {}
        for person in self.found:
            sides.setdefault(person.id, set()).add(person.team)
        shared = [person.name for person in self.found if len(sides[person.id]) > 1]
        return "; ".join(sorted(set(shared))) or None


def _check_match(match: Match) -> None:
    teams = match.info.teams
    if len(teams) != 2 or teams[0] == teams[1]:
        raise BadMatch(f"info.teams: expected two teams, found {teams}")
    if not all(team.strip() for team in teams):
        raise BadMatch(f"info.teams: a side without a name in {teams}")
    if not match.info.dates:
        raise BadMatch("info.dates: expected at least one date")
    if len(match.innings) > MOST_INNINGS:
        raise BadMatch(f"{len(match.innings)} innings; the most is {MOST_INNINGS}")
    for number, innings in enumerate(match.innings, start=1):
        if innings.team not in teams:
            raise BadMatch(f"innings {number}: team '{innings.team}' is not one of {teams}")
        _check_marked(innings, number)
        numbers = [over.over for over in innings.overs]
        if numbers != sorted(set(numbers)):
            raise BadMatch(f"innings {number}: {_out_of_order(numbers)}")
        longest = max(map(len, [over.deliveries for over in innings.overs]), default=0)
        if longest > MOST_DELIVERIES:
            raise BadMatch(f"innings {number}: more than {MOST_DELIVERIES} deliveries in one over")


def _out_of_order(numbers: list[int]) -> str:
    before, over = next(pair for pair in pairwise(numbers) if pair[1] <= pair[0])
    return f"over {over + 1} comes after over {before + 1}; each over stands once, in order"


def _check_marked(innings: Innings, number: int) -> None:
    """Marks of miscounted overs are of overs that there may be."""
    long = [over for over in innings.miscounted_overs if over.isdecimal() and len(over) > 3]
    if long or len(innings.miscounted_overs) > MOST_MARKED:
        what = f"'{long[0][:20]}' is no over" if long else f"more than {MOST_MARKED} overs"
        raise BadMatch(f"innings {number}, miscounted_overs: {what}")


def _read_innings(number: int, innings: Innings, match: Match, people: _People) -> Played:
    """An innings as codes of the match's people and runs; raises BadMatch where it can't be.

    This loop is most of what ingest costs beside decoding: a delivery in which nothing happened but
    runs off the bat is done with here, and any other is looked at again.
    """
    teams, batting = match.info.teams, innings.team
    bowling = teams[1] if batting == teams[0] else teams[0]
    bat, bowl = people.codes[batting], people.codes[bowling]
    cells, odd = list[int](), list[tuple[int, Delivery]]()
    for row, ball in enumerate(chain.from_iterable([over.deliveries for over in innings.overs])):
        off = ball.runs
        try:
            cells += bat[ball.batter], bat[ball.non_striker], bowl[ball.bowler], off.batter
        except KeyError:
            names = {"batter": ball.batter, "non_striker": ball.non_striker, "bowler": ball.bowler}
            _check_named(names, innings, number, row)
            ends = people.code(ball.batter, batting), people.code(ball.non_striker, batting)
            cells += *ends, people.code(ball.bowler, bowling), off.batter
        if ball.extras or ball.wickets or off.extras or off.batter != off.total or off.non_boundary:
            odd.append((row, ball))
    played = Played(
        number=number,
        batting=batting,
        bowling=bowling,
        overs=[over.over + 1 for over in innings.overs],
        over_lengths=[len(over.deliveries) for over in innings.overs],
        cells=bytes(cells),  # the layout's types bound runs, and the limits people, far below 256
    )
    _add_odd(played, odd, innings, people)
    return played


def _add_odd(
    played: Played, odd: list[tuple[int, Delivery]], innings: Innings, people: _People
) -> None:
    """What deliveries have beside runs off the bat; raises BadMatch where that does not add up."""
    for row, ball in odd:
        runs, extras, total = ball.runs, ball.extras, 0
        if runs.batter + runs.extras != runs.total:
            sums = f"batter {runs.batter} + extras {runs.extras} is not total {runs.total}"
            raise BadMatch(f"{_place(innings, played.number, row)}: {sums}")
        if extras:
            wides, noballs, byes, legbyes = (
                extras.wides,
                extras.noballs,
                extras.byes,
                extras.legbyes,
            )
            total = wides + noballs + byes + legbyes + extras.penalty
            played.extras += row, wides, noballs, byes, legbyes, extras.penalty
        if total != runs.extras:
            sums = f"the kinds of extras add up to {total}, not {runs.extras}"
            raise BadMatch(f"{_place(innings, played.number, row)}: {sums}")
        if ball.wickets:
            _add_wickets(played, row, ball.wickets, innings, people)
        if runs.non_boundary:
            played.non_boundary.append(row)


def _add_wickets(
    played: Played, row: int, wickets: list[Wicket], innings: Innings, people: _People
) -> None:
    if len(wickets) > MOST_WICKETS:
        place = _place(innings, played.number, row)
        raise BadMatch(f"{place}: more than {MOST_WICKETS} wickets")
    for wicket in wickets:
        if wicket.kind not in KINDS:
            place = _place(innings, played.number, row)
            near = near_miss(wicket.kind, sorted(KINDS))
            raise BadMatch(f"{place}: unknown kind of dismissal '{wicket.kind}'{near}")
        _check_named({"player_out": wicket.player_out}, innings, played.number, row)
        out = people.found[people.code(wicket.player_out, innings.team)]
        played.wickets.append((row, wicket.kind, out.id))


def _check_named(names: dict[str, str], innings: Innings, number: int, row: int) -> None:
    """Whoever plays has a name, by which and by whose side they are told where no id is."""
    for role, name in names.items():
        if not name.strip():
            raise BadMatch(f"{_place(innings, number, row)}: {role} is blank; expected a name")


def _place(innings: Innings, number: int, row: int) -> str:
    """A row of an innings as people say it."""
    for over in innings.overs:
        if row < len(over.deliveries):
            return f"innings {number}, over {over.over + 1}, delivery {row + 1}"
        row -= len(over.deliveries)
    return f"innings {number}"
