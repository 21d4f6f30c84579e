"""One decoded match into a chunk's columns, checked as it goes."""

from __future__ import annotations

from operator import add
from typing import Any

from pipeline.ingest.chunk import BadMatch, Chunk
from pipeline.ingest.laws import KINDS
from pipeline.ingest.match_json import Delivery, Innings, Match


def add_match(chunk: Chunk, match_id: str, match: Match, source: str) -> None:
    """Append a match, or raise BadMatch and leave the chunk as it was."""
    _check_teams(match)
    played = [innings for innings in match.innings if not innings.super_over]
    for number, innings in enumerate(played, start=1):
        _check_innings(innings, number)
    people = _identities(match)
    chunk.names.update({identity: name for name, identity in people.items()})
    codes = {name: chunk.people[identity] for name, identity in people.items()}
    for number, innings in enumerate(played, start=1):
        _add_innings(chunk, match_id, number, innings, match.info.teams, codes, people)
    chunk.matches.append(_match_row(match_id, match, source))


def _check_teams(match: Match) -> None:
    teams = match.info.teams
    if len(teams) != 2:
        raise BadMatch(f"info.teams: expected two teams, found {len(teams)}")
    if not match.info.dates:
        raise BadMatch("info.dates: expected at least one date")
    for number, innings in enumerate(match.innings, start=1):
        if innings.team not in teams:
            raise BadMatch(f"innings {number}: team '{innings.team}' is not one of {teams}")


def _check_innings(innings: Innings, number: int) -> None:
    """Runs must add up on every delivery, and every dismissal be of a kind the Laws know."""
    for over in innings.overs:
        runs = [delivery.runs for delivery in over.deliveries]
        batter = [run.batter for run in runs]
        extras = [run.extras for run in runs]
        if list(map(add, batter, extras)) != [run.total for run in runs]:
            _name_bad_total(over.deliveries, f"innings {number}, over {over.over + 1}")
        for position, delivery in enumerate(over.deliveries):
            if delivery.extras is not None or extras[position] or delivery.wickets is not None:
                place = f"innings {number}, over {over.over + 1}, delivery {position + 1}"
                _check_delivery(delivery, place)


def _name_bad_total(deliveries: list[Delivery], place: str) -> None:
    for position, delivery in enumerate(deliveries, start=1):
        run = delivery.runs
        if run.batter + run.extras != run.total:
            raise BadMatch(
                f"{place}, delivery {position}: batter {run.batter} + extras {run.extras} "
                f"is not total {run.total}"
            )


def _check_delivery(delivery: Delivery, place: str) -> None:
    extras = delivery.extras
    parts = (
        0
        if extras is None
        else extras.wides + extras.noballs + extras.byes + extras.legbyes + extras.penalty
    )
    if parts != delivery.runs.extras:
        raise BadMatch(
            f"{place}: the kinds of extras add up to {parts}, not {delivery.runs.extras}"
        )
    for wicket in delivery.wickets or ():
        if wicket.kind not in KINDS:
            raise BadMatch(f"{place}: unknown kind of dismissal '{wicket.kind}'")


def _identities(match: Match) -> dict[str, str]:
    """Name to id: the registry's where it has one, else name and gender (counted by the reader)."""
    known = match.info.registry.people
    names: set[str] = set()
    for innings in match.innings:
        if innings.super_over:
            continue
        for over in innings.overs:
            for delivery in over.deliveries:
                names.add(delivery.batter)
                names.add(delivery.bowler)
                names.add(delivery.non_striker)
                if delivery.wickets is not None:
                    names.update(wicket.player_out for wicket in delivery.wickets)
    return {name: known.get(name) or f"{name} ({match.info.gender})" for name in sorted(names)}


def _add_innings(
    chunk: Chunk,
    match_id: str,
    number: int,
    innings: Innings,
    teams: list[str],
    codes: dict[str, int],
    people: dict[str, str],
) -> None:
    first = chunk.rows
    deliveries = [delivery for over in innings.overs for delivery in over.deliveries]
    chunk.overs += [(over.over + 1, len(over.deliveries)) for over in innings.overs]
    chunk.batter += [codes[delivery.batter] for delivery in deliveries]
    chunk.non_striker += [codes[delivery.non_striker] for delivery in deliveries]
    chunk.bowler += [codes[delivery.bowler] for delivery in deliveries]
    chunk.runs_batter += [delivery.runs.batter for delivery in deliveries]
    for row, delivery in enumerate(deliveries, start=first):
        if (extras := delivery.extras) is not None:
            chunk.extras.append(
                (row, extras.wides, extras.noballs, extras.byes, extras.legbyes, extras.penalty)
            )
        if delivery.wickets is not None:
            chunk.wickets += [(row, w.kind, people[w.player_out]) for w in delivery.wickets]
        if delivery.runs.non_boundary:
            chunk.non_boundary.append(row)
    other = teams[1] if innings.team == teams[0] else teams[0]
    sides = (chunk.teams[innings.team], chunk.teams[other])
    chunk.lengths.append((chunk.ids[match_id], number, *sides, len(deliveries)))
    chunk.innings.append(_innings_row(match_id, number, innings))


def _innings_row(match_id: str, number: int, innings: Innings) -> dict[str, Any]:
    target, penalty = innings.target, innings.penalty_runs
    return {
        "match_id": match_id,
        "innings": number,
        "batting_team": innings.team,
        "target_runs": target.runs if target else None,
        "target_overs": str(target.overs) if target and target.overs is not None else None,
        "penalty_pre": penalty.pre if penalty else 0,
        "penalty_post": penalty.post if penalty else 0,
        "declared": innings.declared,
        "forfeited": innings.forfeited,
        "miscounted_overs": len(innings.miscounted_overs),
    }


def _match_row(match_id: str, match: Match, source: str) -> dict[str, Any]:
    info, outcome = match.info, match.info.outcome
    targets = [innings.target.runs for innings in match.innings if innings.target]
    return {
        "match_id": match_id,
        "date": min(info.dates),
        "season": str(info.season),
        "competition": info.event.name if info.event else None,
        "match_type": info.match_type,
        "gender": info.gender,
        "team_type": info.team_type,
        "venue": info.venue,
        "city": info.city,
        "team_1": info.teams[0],
        "team_2": info.teams[1],
        "toss_winner": info.toss.winner if info.toss else None,
        "toss_decision": info.toss.decision if info.toss else None,
        "winner": outcome.winner or outcome.eliminator or outcome.bowl_out,
        "margin": ", ".join(f"{size} {unit}" for unit, size in outcome.by.items()) or None,
        "method": outcome.method,
        "result": outcome.result or ("win" if outcome.winner else None),
        "overs_limit": info.overs,
        "balls_per_over": info.balls_per_over,
        "target": targets[-1] if targets else None,
        "source": source,
        "revision": match.meta.revision,
        "super_overs": sum(innings.super_over for innings in match.innings),
    }
