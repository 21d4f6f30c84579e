"""Other words of the trade for what the configuration names: 'the quicks' are pace."""

from __future__ import annotations

# Statistics that a topic may have no measure of, by which a number is of something else.
LACKING = (
    "wides|wide", "no balls", "extras|byes|leg byes|sundries",
    "catches|dropped catches|catch|catching|catches dropped|dropped chances|chances dropped",
    "stumpings|stumping", "run outs|run out", "lbws|lbw", "maidens|maiden overs|maiden",
    "centuries|hundreds scored|fifties|half centuries|century|ducks|hat tricks|five wicket hauls",
    "crowds|crowd|attendance|attendances|spectators|ticket sales|tickets|ticket prices"
    "|gate receipts"
    "|viewers|viewing figures|audience|audiences|turnstiles|membership|through the gates",
    "toss|tosses", "reviews|review|reviewed|appeals|appeal|umpiring decisions|overturned",
    "total|totals|first innings score|first innings scores|average first innings score"
    "|average first innings total|average total|average score|first innings total"
    "|first innings totals|par score|highest score|lowest score|scores batting first",
    "opening stand|opening stands|partnerships|partnership",
    "temperature|temperatures|humidity|rainfall|wind speed|dew|sunshine|moisture",
    "over rate|over rates|misfields|overthrows|fielding errors|injuries|speed gun|average speed"
    "|bowling speed|pace of delivery|revolutions|turn off the pitch|bounce",
    "net run rate|required rate|required run rate|asking rate|asking run rate",
    "washed out|no results|tied matches|drawn matches|abandoned|washouts|follow ons|super overs",
    "wages|salaries|budget|prize money|sponsorship|water bill|water bills|mowing costs",
    "wickets in the powerplay|powerplay wickets|singles|twos and threes|free hits|slower balls"
    "|slower ball"
    "|yorker|bouncer|googly|full toss|sweep shots|yorkers|bouncers|googlies|full tosses",
)  # fmt: skip
# Measures by their names in measures.yaml; several where one word may be either.
MEASURES: dict[str, tuple[str, ...]] = {
    "economy rate|economy|economies|conceded|concede|conceding|bowlers went|bowlers go"
    "|bowlers went for|leaked|runs conceded": ("economy",),
    "goes for|go for|went for|going for|goes at|go at|costs you|cost you|gone for": (
        "economy",
        "run_rate",
    ),
    "run rate|run rates|scoring|scoring rate|rate of scoring|scoring rates|run scoring": (
        "run_rate",
    ),
    "bowling strike rate|bowled out|strikes every|strike every": ("bowling_strike_rate",),
    "batting strike rate|batting strike rates": ("batting_strike_rate",),
    "strike rate|strike rates": ("bowling_strike_rate", "batting_strike_rate"),
    "balls a wicket|balls per wicket|a wicket every|wicket every|balls for each wicket"
    "|balls for a wicket|wickets come every|wicket came every": ("bowling_strike_rate",),
    "wickets|wicket": ("bowling_strike_rate", "wickets_per_hundred", "~wickets"),
    "bowling average": ("bowling_average",),
    "batting average": ("batting_average",),
    "average|averages|averaged": ("bowling_average", "batting_average"),
    "dot ball share|dot share|dot rate|dot percentage|dot ball percentage|share of dots"
    "|dot balls|dot ball|dots|dot ball rate": ("dot_share",),
    "boundary share|boundary rate|share of boundaries|boundaries|boundary|fours and sixes"
    "|to the rope|to the fence|boundary balls|four or six|fours or sixes|hit for four or six"
    "|went for four or six|go for four or six|goes for four or six"
    "|share of balls hit for four or six|balls hit for four or six": ("boundary_share",),
    "fours an innings": ("fours_per_innings",),
    "sixes an innings|sixes": ("sixes_per_innings",),
    "share|slice|portion|share of the balls|share of the overs|share of overs|share of the bowling"
    "|share of the ball|share of the work|of the overs|share of deliveries"
    "|share of the deliveries": ("~share",),
    **{words: (f"~{words.partition('|')[0].replace(' ', '-')}",) for words in LACKING},
    "of matches|of games|of the matches": ("~matches",),
    "win share|win|wins|win rate|won": ("win_share",),
}
# Values of the cuts.
VALUES: dict[tuple[str, str], str] = {
    (
        "bowler_kind",
        "pace",
    ): "pace|paces|the quicks|quicks|quick bowlers|quick bowling|seamers|seam|seam "
    "bowling|seam bowlers|fast bowlers|fast bowling|pacers|pace bowlers|pace bowling|quick men|the "
    "quick bowler|the seamer|fast men|quick bowler|seamer|pacer|pace bowler|fast bowler"
    "|a quick takes"
    "|a quick bowls|a quick went|a quick goes|a quick gets|a quick needs|a quick concedes"
    "|a quick took|a quick now|pacemen|quickies|the fast ones",
    (
        "bowler_kind",
        "spin",
    ): "spin|spins|spinners|spinner|slow bowlers|slow bowling|spin bowling|spin "
    "bowlers|slow men|tweakers|twirlers|the slow bowler|slows|slow bowler",
    ("bowler_arm", "left"): "left arm bowling|left armers|left arm bowlers|left arm|left armer",
    ("bowler_arm", "right"): "right arm bowling|right armers|right arm bowlers|right arm",
    ("batter_hand", "left"): "left handers|left hander|left handed batters|left handed batting"
    "|lefties|left handed|left hand batters|lefthanders",
    ("batter_hand", "right"): "right handers|right hander|right handed batters|right handed batting"
    "|right handed|right hand batters|righties|righthanders",
    ("home", "home"): "home side batting|home sides|home side|home teams|home team|at home|hosts",
    ("home", "away"): "away side batting|away sides|away side|away teams|away team|away from home"
    "|visitors|visiting sides|visiting side|on the road",
    ("innings", "1"): "first innings|batting first",
    ("innings", "2"): "second innings|chasing|chases|chasing sides|batting second",
    ("batting_order", "top"): "openers|top order|opening batters|top three",
    ("batting_order", "middle"): "middle order",
    ("batting_order", "lower"): "tail|lower order|tailenders",
    ("bowler_style", "~wrist"): "leg spin|leg spinners|wrist spin|wrist spinners|leggies",
    ("bowler_style", "~off"): "off spinners|off spinner|finger spin|finger spinners|off breaks",
    ("~women", "women"): "women|women's game",
    ("~when", "~night"): "night games|night matches|night game|day nighters|under lights|day games"
    "|day matches|floodlit games|evening games|afternoon games|morning sessions",
    (
        "~when",
        "~finals",
    ): "play offs|playoffs|play off|semi finals|knockouts|group games|group stage"
    "|quarter finals|opening round",
    ("~where", "~elsewhere"): "other leagues|other competitions|other countries|test cricket|t20"
    "|test matches|twenty20|second division|under nineteens|juniors|club cricket|abroad"
    "|next door|neighbouring",
    ("~pitch", "~pitch"): "dry pitches|green pitches|used pitches|dusty pitches|wet pitches"
    "|turning pitches|flat pitches|fresh pitches|dry wickets|rain affected",
    ("~who", "~who"): "debutants|teenagers|overseas players|all rounders|wicketkeepers|keepers"
    "|aged|bowlers over thirty|batters over thirty|veterans"
    "|part timers|uncapped players|nightwatchmen|finishers|stand in captains",
}
PHASES = {
    "powerplay": "powerplay|powerplays|power play|opening overs|early overs|new ball|start of the "
    "innings|field restrictions",
    "middle": "middle overs|middle of the innings|middle phase|middle period|middle|middle part "
    "of the innings",
    "death": "death|death overs|end overs|closing overs|slog overs|end of the innings|end of an "
    "innings|back end|slog|last overs|final overs",
}
WHOLE_INNINGS = (
    "whole innings|full innings|entire innings|complete innings|over the innings|across the innings"
    "|innings as a whole|all fifty overs|all 50 overs|whole of the innings|all the overs"
    "|start to finish|first ball to last"
)
# Words of the grounds' regions are the values themselves, with these around them.
REGION_OF = {
    "coast": "coast|coastal|seaside|sea side|by the sea|beside the sea|near the sea|sea grounds",
    "inland": "inland|away from it|away from there|away from the coast|away from the sea"
    "|up country",
}
BEFORE = (
    "before|beforehand|previously|used to|had been|was once|old days|earlier|until then|up to 2016"
)
AFTER = "after|afterwards|since|now|nowadays|these days|today|since then|from then on"
PARTS = {
    "step": "step|steps|stepped|jump at the date",
    "drift": "drift|drifts|drifting|drifted|trend|on its way|already|creeping|a season|a year"
    "|each season|every season|each year|every year|year on year|per season|per year",
    "control": "beyond the control|control|measured against|set against|next to|compared with"
    "|against"
    "|compared to|relative to|beside|yardstick",
    "like": "like for like|same sides at the same grounds|same pairs",
    "held": "held still|held fixed|holding|same sides|kept still",
    "luck": "luck|luck allowed for|shrunk|drawn in",
    "settle": "more matches|more seasons|more periods|more grounds|settle|would show|to show",
    "spread": "spread|separates|separate|what separates",
    "yardstick": "left alone|by itself|usual swing|usually|season to season|year to year|normally"
    "|no event|swings|ordinary swing",
    "gap": "gap|apart|away from|next to|relative to|compared with|than|against|pulled away|beside",
    "mix": "who bowled|who was bowling|who was facing|change in who|who faced|who bowls|mix"
    "|choice of bowlers|captains chose|captains choose|captains gave|captains giving"
    "|more of the spin"
    "|who bowled it",
    "rates": "who bowled it the same|keep who|who was bowling the same|who was facing the same"
    "|who faced it the same|same mix|mix still|hold the mix"
    "|keep the mix|holding the mix|leave out the change|mix held|mix held still"
    "|who bowled it aside|without "
    "the change in who|rates themselves|the bowling itself|set aside who bowled|take out",
    "listed": "enough|both sides|both windows|moved|stand clear|stands clear|left out|too few|list"
    "|played in both|qualify|qualified|listed|made the cut|had balls",
    "could": "could be|could have been|anywhere|somewhere|anything|interval|range|as little as|as "
    "much as|at least|at most|no more than|no less than|true change|truth|might be|may be|may have "
    "been|might have been|likely|best guess",
    "share": "share|bowled|bowl|bowls|of the balls|of balls|of all balls|of the overs|of deliveries"
    "|of the bowling",
}
