"""Cautions as codes with their numbers; the words for them are the brief's."""

from __future__ import annotations

from typing import Any

FEW_COUNTED = 30  # under 30 in the denominator is a caution by convention
DOMINATES = 0.25  # of a side's numerator in one match: look at that match first
MUCH_UNKNOWN = 0.10  # of a beat's balls of unknown kind or hand: coverage is low
MANY_REDUCED = 0.10  # of the matches compared
MANY_NEW = 0.25  # of the matches after, of a side not met before
Note = dict[str, Any]


def notes_on(
    finding: dict[str, Any], measure: dict[str, Any], statistics: dict[str, Any]
) -> list[Note]:
    """What a finding's own numbers call for."""
    a, b = finding["a"], finding["b"]
    notes: list[Note] = []
    fewest = min(a["matches"], b["matches"])
    enough = fewest >= statistics["least_matches"]
    if enough and fewest < statistics["few_matches"]:
        notes.append({"code": "few_matches", "matches": fewest})
    counted = min(a["denominator"], b["denominator"])
    if counted < FEW_COUNTED:
        notes.append({"code": "few_counted", "count": counted, "wickets": measure["per_wicket"]})
    largest = max(a["largest"], b["largest"])
    if enough and largest >= DOMINATES:
        notes.append({"code": "one_match_dominates", "share": largest})
    scales = finding["p"] is not None and finding["change_low"] is not None
    if scales and _out(finding, "difference") != _out(finding, "change"):
        notes.append({"code": "scale_disagrees"})
    p, checked = finding["p"], finding["p_permutation"]
    if p is not None and (p < 0.05 < checked / 2 or checked < 0.05 < p / 2):
        notes.append({"code": "check_disagrees", "p": p, "p_permutation": checked})
    return notes


def _out(finding: dict[str, Any], scale: str) -> bool:
    """Whether the interval on this scale leaves no change out."""
    return not finding[f"{scale}_low"] <= 0 <= finding[f"{scale}_high"]


def unknown_left_out(share: float) -> list[Note]:
    """Balls of unknown kind or hand, which no row by them counts."""
    if not share:
        return []
    code = "coverage_low" if share >= MUCH_UNKNOWN else "unknown_left_out"
    return [{"code": code, "share": share}]


def reduced(matches: int, shortened: int, an_innings: bool) -> list[Note]:
    """Chases with fewer overs: they matter to what is counted an innings, and where many."""
    if shortened and (an_innings or shortened >= MANY_REDUCED * matches):
        return [{"code": "reduced_matches", "matches": shortened, "of": matches}]
    return []


def of_the_windows(selection: dict[str, Any], rivals: list[str]) -> list[Note]:
    """What holds for every comparison of the topic's two windows."""
    notes: list[Note] = []
    if rivals:
        notes.append({"code": "rival_event", "names": rivals})
    if selection["windows"]["transition"]:
        notes.append({"code": "transition_season", "season": selection["windows"]["transition"]})
    new = selection["newcomers"]
    if new["of_new_sides"] >= MANY_NEW * new["matches"]:
        notes.append({"code": "opposition_changed", "share": new["of_new_sides"] / new["matches"]})
    return notes


def on_the_drift(finding: dict[str, Any]) -> list[Note]:
    """A change whose drift can't be tested."""
    drift = finding["drift"]
    if finding["verdict"] != "changed" or not drift or drift["p"] is not None:
        return []
    kept = ("because", "seasons_before", "seasons_after")
    return [{"code": "drift_not_testable", **{key: drift[key] for key in kept}}]
