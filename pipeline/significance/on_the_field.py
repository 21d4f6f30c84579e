"""The same fact on the field: a difference as runs or balls of an innings, a spell or a season.

Exact underneath: the difference and both ends of its interval times one whole number, which the
fact shows. Made only where the product is a number one can feel, about 1 to 100.
"""

from __future__ import annotations

from typing import Any

View = dict[str, Any]
BY_BOWLER = {"bowler_kind", "bowler_arm", "bowler_style", "bowler", "bowler_tag"}
BY_BATTER = {"batter_hand", "batting_position", "batting_order", "batter", "batter_tag"}
LEAST, MOST = 0.95, 105.0
WICKETS = 10  # of a side
SPELL = 5  # a bowler may bowl at most a fifth of the overs (common practice in limited overs)


def felt(beat: View, values: View, result: View, measure: View, view: View) -> View | None:
    """The difference times a count of overs, balls, wickets or innings, or None.

    `times` is the count, `of` what is counted, `per` the phrase that goes with the number.
    """
    if result["refused"]:
        return None
    scaled = _scale(beat, values, measure, view, result)
    if scaled is None:
        return None
    times, divided, of, per = scaled
    ends = {"value": "difference", "low": "difference_low", "high": "difference_high"}
    found = {end: result[name] * times / divided for end, name in ends.items()}
    if not LEAST <= abs(found["value"]) <= MOST:
        return None
    return {**found, "times": times, "divided": divided, "of": of, "per": per}


def _scale(
    beat: View, values: View, measure: View, view: View, result: View
) -> tuple[int, int, str, str] | None:
    """(count, what the unit is counted by, the name of the count, the phrase)."""
    form, cuts = view["format"], {*values, *(k for k, v in beat["where"].items() if v)}
    if measure["an_innings"]:
        return _season(result, view)
    if measure["per_wicket"]:
        return WICKETS, 1, "wickets", "ten wickets" if measure["kind"] == "average" else ""
    overs = _overs_of(beat["where"], values, form)
    if overs is None or measure["by_match"]:
        return None
    share_of_all = beat["kind"] == "share"
    if cuts & BY_BATTER and not share_of_all:
        return None
    per = "innings" if overs == form["overs"] or share_of_all else "those overs"
    if cuts & BY_BOWLER and not share_of_all:
        overs, per = min(overs, -(-form["overs"] // SPELL)), "spell"
    balls = form["balls_per_over"]
    if measure["kind"] == "share":
        return overs * balls, 100, "balls", per
    if measure["per"] == balls:
        return overs, 1, "overs", per
    return None


def _season(result: View, view: View) -> tuple[int, int, str, str] | None:
    """The innings of an average season after the event."""
    seasons = view["seasons_after"]
    if not seasons or not result["b"]["denominator"]:
        return None
    return round(result["b"]["denominator"] / seasons), 1, "innings", "season"


def _overs_of(where: View, values: View, form: View) -> int | None:
    """Overs of a full innings that a beat's filters and a row's phase or band leave; else None."""
    phases = [values["phase"]] if "phase" in values else where.get("phase") or []
    if any(phase not in form["phases"] for phase in phases) or not form["overs"]:
        return None
    within = {over for phase in phases for over in _range(form["phases"][phase]["overs"])}
    overs = within or set(_range((1, form["overs"])))
    if where.get("overs"):
        overs &= set(_range(where["overs"]))
    if "band" in values:
        overs &= set(_range([int(end) for end in values["band"].split("-")]))
    return len(overs)


def _range(ends: Any) -> range:
    return range(ends[0], ends[1] + 1)
