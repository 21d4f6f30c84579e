"""What to do about a column that is needed and missing: a constant, or one made of others."""

from __future__ import annotations

from pipeline.look.mapped import Guess

MADE = "a column made of others: query: SELECT *, {made} FROM data ORDER BY ..."
ADVICE = {
    "match_id": MADE.format(made="match_date || ' ' || home_side AS match"),
    "date": "the first day of the match; where another table has it, join that by a query",
    "season": 'constants: {season: "2019"} if all is of one; or written: {season: year}',
    "innings": 'constants: {innings: "1"} if all is of one; else number them in a query',
    "batting_team": "the side that bats; where another table has it, join that by a query",
    "bowling_team": MADE.format(made="CASE WHEN batting = home THEN away ELSE home END AS bowling"),
    "batter": "the name of who faces; an id will do, if no table has the names",
    "non_striker": "constants: {non_striker: not recorded}, if no column says who it was",
    "bowler": "the name of who bowls; an id will do, if no table has the names",
    "player_out": "who was out; without it leave dismissal out, and no wicket counts",
    "runs_batter": "runs off the bat, without extras",
    "over": "number of the over, or over and ball in one column as 'ball' (12.4)",
}


def advice(name: str, total: Guess | None) -> str:
    """What to do where nothing looks like `name`; `total` is a column of all runs of a ball."""
    if name == "runs_batter" and total:
        made = f'"{total.column.name}" - extras AS off_the_bat'
        return f"'{total.column.name}' counts extras too; {MADE.format(made=made)}"
    return ADVICE.get(name, "map it, or give it under constants")
