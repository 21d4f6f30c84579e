"""The names of the layout `delivery-csv`: its columns, and the keys of the info file of a match.

Columns of fielders have numbers behind their names.
"""

from __future__ import annotations

# Ours -> the layout's, where they differ.
# `ball` is text: read as a number, "0.10" would collide with "0.1".
COLUMNS = {
    "date": "start_date",
    "batter": "striker",
    "runs_batter": "runs_off_bat",
    "dismissal": "wicket_type",
    "player_out": "player_dismissed",
    "other_dismissal": "other_wicket_type",
    "other_player_out": "other_player_dismissed",
}
FIELDERS = "fielder"
# The info file's keys -> our columns of a match.
INFO = {
    "gender": "gender",
    "venue": "venue",
    "city": "city",
    "event": "competition",
    "match_type": "match_type",
    "team_type": "team_type",
    "winner": "winner",
    "outcome": "result",
    "balls_per_over": "balls_per_over",
    "overs": "overs_limit",
    "revision": "revision",
    "toss_winner": "toss_winner",
    "toss_decision": "toss_decision",
    "method": "method",
    "eliminator": "winner",
    "bowl_out": "winner",
    "winner_runs": "winner_runs",
    "winner_wickets": "winner_wickets",
    "winner_innings": "winner_innings",
}
DATE, DATE_FORMS = "date", ("YYYY-MM-DD", "YYYY/MM/DD")  # of the info file: a line a day
# What else the layout has, of which nothing is made; anything else that is met is counted.
COLUMNS_UNUSED = ("actual_delivery",)
INFO_UNUSED = (
    *("team", "season", "match_number", "event_group", "event_stage", "toss_uncontested"),
    *("player", "player_of_match", "registry", "umpire", "reserve_umpire", "tv_umpire"),
    "match_referee",
)
