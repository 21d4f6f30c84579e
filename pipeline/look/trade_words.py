"""The trade's own words: for what a column holds, for dismissals, extras and sides of the game."""

from __future__ import annotations

# A word in a column's name -> the one word that stands for it here; '' says nothing.
_SAME = {
    "": "of the a at in on to from for off by scored name full no nr num number start",
    "batter": "batter batsman batswoman batters striker strike facing",
    "nonstriker": "nonstriker nonstrike partner runner",
    "bowler": "bowler bwlr",
    "batting": "batting",
    "bowling": "bowling fielding bowl",
    "bat": "bat",
    "team": "team teams side sides club clubs xi",
    "opposition": "opposition opponent opponents against",
    "runs": "runs run",
    "score": "score",
    "total": "total tot",
    "extras": "extras extra sundries sundry",
    "wides": "wides wide wd wds w",
    "noballs": "noballs noball nb nbs",
    "byes": "byes bye b",
    "legbyes": "legbyes legbye lb lbs",
    "penalty": "penalty penalties pen",
    "kind": "kind type mode how manner",
    "wicket": "wicket wickets wkt wkts dismissal dismissals",
    "out": "out dismissed",
    "player": "player players person persons people who",
    "match": "match matches game games fixture fixtures",
    "id": "id ids key code ref uid",
    "date": "date dates day played",
    "season": "season seasons",
    "year": "year",
    "innings": "innings inning inns inn",
    "over": "over overs ov ovs o",
    "ball": "ball balls bl delivery deliveries",
    "venue": "venue venues ground grounds stadium",
    "city": "city town",
    "competition": "competition competitions comp tournament league series event trophy",
    "format": "format",
    "gender": "gender sex",
    "winner": "winner won winning victor",
    "toss": "toss",
    "decision": "decision elected chose choice",
    "limit": "limit max maximum scheduled quota allotted",
    "method": "method",
    "result": "result outcome",
    "other": "other second 2",
    "first": "first 1",
    "super": "super",
    "boundary": "boundary",
    "non": "non",
    "revision": "revision version",
    "leg": "leg",
    "end": "end",
}
WORDS = {word: same for same, words in _SAME.items() for word in words.split()}
PAIRS = {
    ("non", "batter"): "nonstriker",
    ("other", "end"): "nonstriker",
    ("leg", "byes"): "legbyes",
}

# Ours -> what a column of it may be called, in the words above, each way with blanks between.
NAMES = {
    "match_id": "match|match id",
    "date": "date|date match",
    "season": "season|year|season year",
    "innings": "innings|innings id",
    "over": "over|over innings",
    "ball": "ball|over ball|over",
    "delivery": "ball|over ball|ball id",
    "batting_team": "batting team|batting|bat team|batter team",
    "bowling_team": "bowling team|bowling|bowler team|opposition|opposition team",
    "batter": "batter|batter player|batting player|batting batter",
    "non_striker": "nonstriker|nonstriker batter|other batter|nonstriker player",
    "bowler": "bowler|bowler player|bowling player|bowled",
    "runs_batter": "runs bat|runs batter|runs|bat|score batter",
    "wides": "wides|wides runs|wides extras",
    "noballs": "noballs|noballs runs|noballs extras",
    "byes": "byes|byes runs|byes extras",
    "legbyes": "legbyes|legbyes runs|legbyes extras",
    "penalty": "penalty|penalty runs|penalty extras",
    "extras": "extras|extras runs|extras total|extras runs total",
    "extra_kind": "extras kind|extras runs kind",
    "runs_total": "total|total runs|total ball|total ball runs|team runs",
    "dismissal": "wicket kind|wicket|out kind|out|wicket method",
    "player_out": "player out|batter out|out|out wicket|player wicket|batter wicket",
    "other_dismissal": "other wicket kind|other wicket|other out kind",
    "other_player_out": "other player out|other batter out|other out|other player wicket",
    "competition": "competition",
    "match_type": "match kind|format|match format|format kind",
    "gender": "gender",
    "team_type": "team kind",
    "venue": "venue",
    "city": "city|venue city",
    "winner": "winner|winner team",
    "toss_winner": "toss winner|toss winner team|toss team",
    "toss_decision": "toss decision",
    "overs_limit": "over limit",
    "super_over": "super over",
    "non_boundary": "non boundary",
    "revision": "revision",
    "batter_id": "batter id|batter player id",
    "non_striker_id": "nonstriker id|nonstriker batter id|other batter id",
    "bowler_id": "bowler id|bowler player id",
    "player_out_id": "player out id|batter out id|out id|player wicket id",
}

# A name with one of these is of something else, whatever else is in it.
OTHERWISE = frozenset(
    (
        *("style", "hand", "arm", "age", "position", "order", "average", "rate", "rating", "speed"),
        *("fielder", "umpire", "referee", "cumulative", "cum", "progressive", "required", "target"),
        *("remaining", "country", "region", "email", "url", "status", "captain", "keeper"),
    )
)

# Words in cells -> ours. Case, points and blanks make no odds.
DISMISSALS = {
    "bowled": "bowled b",
    "caught": "caught c ct catch",
    "caught and bowled": "caughtandbowled caught&bowled c&b candb cb",
    "lbw": "lbw legbeforewicket",
    "run out": "runout ro",
    "stumped": "stumped st",
    "hit wicket": "hitwicket hw hitwkt",
    "obstructing the field": "obstructingthefield obstructingfield obstruct obstructed of",
    "hit the ball twice": "hittheballtwice hitballtwice",
    "handled the ball": "handledtheball handledball",
    "timed out": "timedout to",
    "retired hurt": "retiredhurt rtdhurt rethurt",
    "retired ill": "retiredill rtdill",
    "retired not out": "retirednotout rtdnotout",
    "retired out": "retiredout rtdout retout",
    "": "notout none nowicket 0",
}
EXTRAS = {
    "wides": "wides wide wd w",
    "noballs": "noballs noball nb n",
    "byes": "byes bye b",
    "legbyes": "legbyes legbye lb l",
    "penalty": "penalty penalties pen p",
    "": "none 0",
}
GENDERS = {"female": "female f women woman w womens", "male": "male m men man mens"}
INNINGS = {"1": "1 1st first one", "2": "2 2nd second two", "3": "3 3rd third", "4": "4 4th fourth"}
BLANK = frozenset({"NA", "N/A", "n/a", "NULL", "null", "None", "none", "NaN", "nan", "-", "--"})


def turned_round(words: dict[str, str]) -> dict[str, str]:
    """As it is heard in a cell -> ours."""
    return {heard: ours for ours, heards in words.items() for heard in heards.split()}


def heard(cell: str) -> str:
    """A cell's word without case, points, hyphens, apostrophes and blanks."""
    return "".join(c for c in cell.lower() if c.isalnum() or c == "&")


CODES = {
    "dismissal": turned_round(DISMISSALS),
    "other_dismissal": turned_round(DISMISSALS),
    "extra_kind": turned_round(EXTRAS),
    "gender": turned_round(GENDERS),
    "innings": turned_round(INNINGS),
}
