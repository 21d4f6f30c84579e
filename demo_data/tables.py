"""What was played as the tables of the layout `ball-tables` (config/BALL-TABLES.md)."""

import csv
import io
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date

from demo_data import league
from demo_data.league import Fixture
from demo_data.play import Innings
from demo_data.sides import Side

Row = tuple[object, ...]
PLACE = ("match_id", "innings", "over", "delivery")
EXTRAS = ("wides", "noballs", "byes", "legbyes", "penalty")
HEADERS: dict[str, tuple[str, ...]] = {
    "matches": (
        *("match_id", "date", "last_day", "season", "competition", "match_type", "gender"),
        *("team_type", "venue", "city", "team_1", "team_2", "toss_winner", "toss_decision"),
        *("winner", "margin", "method", "result", "overs_limit", "balls_per_over", "target"),
        *("revision", "super_overs"),
    ),
    "deliveries": (
        *(*PLACE, "batter_id", "non_striker_id", "bowler_id", "batting_team", "bowling_team"),
        *("runs_batter", *EXTRAS, "non_boundary"),
    ),
    "dismissals": (*PLACE, "kind", "player_out_id"),
    "innings": (
        *("match_id", "innings", "batting_team", "target_runs", "target_overs"),
        *("penalty_pre", "penalty_post", "miscounted_overs", "miscounted"),
    ),
    "people": ("id", "name", "gender", "team"),
}


@dataclass
class Outcome:
    """How a match ended."""

    result: str
    winner: str | None = None
    margin: str | None = None
    method: str | None = None


@dataclass
class Played:
    """One match when it is over; `super_overs` were played after `innings`, and are counted."""

    fixture: Fixture
    sides: tuple[Side, Side]
    toss: tuple[str, str]
    outcome: Outcome
    innings: list[Innings]
    super_overs: int = 0
    venue: str = ""
    city: str | None = None
    revision: int = 1
    last_day: date = date.min
    penalties: dict[int, tuple[int, int]] = field(default_factory=dict)


def tables(matches: Iterable[Played]) -> dict[str, bytes]:
    """Return each table's CSV by its file's name."""
    rows: dict[str, list[Row]] = {name: [] for name in HEADERS}
    people: set[Row] = set()
    for played in matches:
        rows["matches"].append(_match(played))
        for number, innings in enumerate(played.innings, start=1):
            rows["innings"].append(_innings(played, number, innings))
            _add_deliveries(rows, played, number, innings)
            people |= _people(innings)
    rows["people"] = sorted(people)
    return {f"{name}.csv": csv_bytes([HEADERS[name], *found]) for name, found in rows.items()}


def csv_bytes(rows: Iterable[Row]) -> bytes:
    """Return rows as a CSV file."""
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerows(rows)
    return text.getvalue().encode()


def _match(played: Played) -> Row:
    fixture, outcome = played.fixture, played.outcome
    targets = [i.limits.target for i in played.innings if i.limits.target is not None]
    return (
        *(fixture.match_id, fixture.day, played.last_day, fixture.season),
        *(league.LEAGUE, league.MATCH_TYPE, league.GENDER, "club", played.venue, played.city),
        *(side.club for side in played.sides),
        *played.toss,
        *(outcome.winner, outcome.margin, outcome.method, outcome.result),
        *(league.OVERS, 6, targets[-1] if targets else None),
        *(played.revision, played.super_overs),
    )


def _innings(played: Played, number: int, innings: Innings) -> Row:
    limits = innings.limits
    return (
        *(played.fixture.match_id, number, innings.batting.club, limits.target),
        None if limits.target is None else limits.overs,
        *played.penalties.get(number, (0, 0)),
        *(len(innings.miscounted), ";".join(map(str, innings.miscounted))),
    )


def _add_deliveries(
    rows: dict[str, list[Row]], played: Played, number: int, innings: Innings
) -> None:
    sides = (innings.batting.club, innings.fielding.club)
    for over, deliveries in enumerate(innings.overs, start=1):
        for position, delivery in enumerate(deliveries, start=1):
            place = (played.fixture.match_id, number, over, position)
            ball = delivery.ball
            rows["deliveries"].append(
                (
                    *place,
                    *(p.player_id for p in (delivery.batter, delivery.non_striker)),
                    *(delivery.bowler.player_id, *sides, ball.bat),
                    *(ball.extras.get(kind, 0) for kind in EXTRAS),
                    int(ball.all_run_four),
                )
            )
            if delivery.out:
                kind, player = delivery.out
                rows["dismissals"].append((*place, kind, player.player_id))


def _people(innings: Innings) -> set[Row]:
    """Return everybody who batted or bowled, and the side they did it for."""
    found = set()
    for delivery in (ball for over in innings.overs for ball in over):
        at_the_ends = ((delivery.batter, innings.batting), (delivery.non_striker, innings.batting))
        for player, side in (*at_the_ends, (delivery.bowler, innings.fielding)):
            found.add((player.player_id, player.name, league.GENDER, side.club))
    return found
