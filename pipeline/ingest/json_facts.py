"""What one decoded match file says of the match and its innings, as rows of our tables."""

from __future__ import annotations

from typing import Any

from pipeline.ingest.match_json import Innings, Match
from pipeline.open_layouts.match_types import in_words


def gender_of(match: Match) -> str:
    """Whose match it is, in small letters; a blank is not known."""
    return match.info.gender.strip().lower() or "unknown"


def innings_row(match_id: str, number: int, innings: Innings) -> dict[str, Any]:
    target, penalty = innings.target, innings.penalty_runs
    marked = [over for over in innings.miscounted_overs if over.isdecimal()]
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
        "miscounted": ";".join(str(int(over) + 1) for over in marked) or None,
    }


def match_row(match_id: str, match: Match, source: str, shared: str | None) -> dict[str, Any]:
    info, outcome = match.info, match.info.outcome
    played = [innings for innings in match.innings if not innings.super_over]
    targets = [innings.target.runs for innings in played if innings.target]
    return {
        "match_id": match_id,
        "date": min(info.dates),
        "last_day": max(info.dates),
        "season": str(info.season),
        "competition": info.event.name if info.event else None,
        "match_type": in_words(info.match_type),
        "gender": gender_of(match),
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
        "names_on_both_sides": shared,
        "super_overs": sum(innings.super_over for innings in match.innings),
    }
