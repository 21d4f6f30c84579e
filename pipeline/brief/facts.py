"""Every sayable number with a stable id: 'kinds.economy.spin-middle.change'."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pipeline.brief.fact import (
    COLUMNS,
    count_fact,
    difference_fact,
    felt_fact,
    percent_fact,
    share_fact,
    text_fact,
    value_fact,
)
from pipeline.csv_files import csv_text
from pipeline.text import slug
from pipeline.wording.second_verdict import second

View = dict[str, Any]


def facts_of(view: View, findings: View) -> list[View]:
    """All facts of a topic, in the order of its findings."""
    made = list(_of_data(findings))
    for finding in findings["findings"]:
        measure = view["measures"][finding["measure"]]
        made += _of_finding(finding, measure, finding["id"] in findings["headlines"])
    for key, found in findings["lists"].items():
        made += _of_list(key, found)
    for key, series in findings["series"].items():
        beat, name = key.split(".")
        made += _of_series(key, beat, view["measures"][name], name, series)
    return made


def _of_data(findings: View) -> Iterator[View]:
    for name, unit in (("matches", "matches"), ("balls", "valid balls")):
        value = findings["data"][name]
        yield count_fact(f"data.{name}", value, unit, definition=f"{unit} in the topic's data")
    for name, unit in (("looked_at", "comparisons"), ("cant_tell", "comparisons")):
        definition = {"looked_at": "all that were made", "cant_tell": "that can't be called"}[name]
        value = findings["family"][name]
        yield count_fact(f"family.{name}", value, unit, definition=f"{unit} {definition}")


def _of_finding(finding: View, measure: View, headline: bool) -> Iterator[View]:
    common = {
        "finding": finding["id"],
        "beat": finding["beat"],
        "measure": finding["measure"],
        "definition": measure["defined"],
        "query": finding["beat"],
        "headline": headline,
        "verdict": finding["verdict"],
    }
    yield from _sides(finding, measure, common)
    if finding["refused"]:
        return
    identity, share = finding["id"], finding["kind"] == "share"
    yield difference_fact(f"{identity}.difference", finding, share, measure, common)
    if not share:
        yield percent_fact(f"{identity}.change", finding["change"], _ends(finding), common)
    if finding["felt"]:
        yield felt_fact(f"{identity}.felt", finding, measure, common)
    yield from _second_question(finding, measure, common)
    yield from _of_its_kind(finding, common)


def _ends(part: View, name: str = "change") -> tuple[float, float]:
    return part[f"{name}_low"], part[f"{name}_high"]


def _sides(finding: View, measure: View, common: View) -> Iterator[View]:
    """Both values; of a gap, both groups' own changes."""
    for side, name in zip(("a", "b"), finding["sides"], strict=True):
        part, identity = finding[side], f"{finding['id']}.{slug(name)}"
        if part["value"] is None:
            continue
        if finding["about"] != "gap":
            yield value_fact(identity, part, measure, common)
        elif not part["refused"] and finding["kind"] == "share":
            ends = {"difference": part["value"]}
            ends |= {f"difference_{end}": part[end] for end in ("low", "high")}
            yield difference_fact(identity, ends, True, measure, common)
        elif not part["refused"]:
            yield percent_fact(identity, part["change"], _ends(part), common)


def _second_question(finding: View, measure: View, common: View) -> Iterator[View]:
    """The drift, the step and the change beyond the control: told only where something changed."""
    drift, control = finding["drift"], finding["control"]
    share = finding["kind"] == "share"
    of = " of the share itself" if share else ""
    identity = finding["id"]
    if second(finding) and drift["p"] is not None:
        yield percent_fact(f"{identity}.drift", drift["per_season"], None, common, of)
        ends = (drift["step_low"], drift["step_high"])
        yield percent_fact(f"{identity}.step", drift["step"], ends, common, of)
    if control and finding["verdict"] == "changed" and share:
        yield difference_fact(f"{identity}.beyond-control", control, True, measure, common)
    elif control and finding["verdict"] == "changed":
        ends = _ends(control)
        yield percent_fact(f"{identity}.beyond-control", control["change"], ends, common)


def _of_its_kind(finding: View, common: View) -> Iterator[View]:
    """What only a mix, a player or a turning point has."""
    identity = finding["id"]
    if finding["shares"]:
        for share, side in zip(finding["shares"], finding["sides"], strict=True):
            yield share_fact(f"{identity}.share-{slug(side)}", share, common)
    if finding["shrunk"]:
        shrunk = finding["shrunk"]
        ends = (shrunk["low"], shrunk["high"])
        yield percent_fact(f"{identity}.luck-allowed-for", shrunk["change"], ends, common)
    if finding["turn"]:
        turn = finding["turn"]
        words = f"between {turn['last']} and {turn['next']}"
        reach = f"after {turn['low']} to after {turn['high']}"
        yield text_fact(f"{identity}.date", words, turn["every"], {**common, "interval": reach})


def _of_list(key: str, found: View) -> Iterator[View]:
    """How many players a list has, and how many its threshold left out."""
    beat, name = key.split(".")
    common = {"beat": beat, "measure": name, "query": beat}
    about = {
        "kept": "with enough in both windows",
        "in_both": "who played in both windows",
        "left_out": "who played in both and had too little",
    }
    for which, definition in about.items():
        identity = f"{key}.players-{slug(which)}"
        yield count_fact(identity, found[which], "players", definition=definition, **common)


def _of_series(key: str, beat: str, measure: View, name: str, series: list[View]) -> Iterator[View]:
    common = {"beat": beat, "measure": name, "definition": measure["defined"], "query": beat}
    for point in series:
        if point["value"] is not None:
            yield value_fact(f"{key}.{slug(point['season'])}", point, measure, common)


def to_csv(facts: list[View]) -> str:
    """The facts as a table; empty where there is nothing to say."""
    return csv_text(facts, COLUMNS)
