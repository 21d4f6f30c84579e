"""Random valid topics over the whole grammar: `any_topic` writes one, `outcome` says what came."""

from __future__ import annotations

import json
from functools import cache
from random import Random
from typing import Any

from pipeline.config.kinds import KINDS
from pipeline.config.means import means_of
from pipeline.config.project import Format, FormatFile
from pipeline.config.row_ids import rows_known
from pipeline.config.yaml_files import read_yaml, validate
from pipeline.text import slug
from tests.any_beats import LISTS, Tree, any_beat, control, values_of
from tests.any_outcome import any_league, outcome
from tests.conftest import ROOT
from tests.untidy import SEASONS

__all__ = ["any_league", "any_topic", "outcome"]
UNITS = ["season", "year", "half-year", "quarter", "month"]
DAYS = ["2020-01-01"] * 4 + ["2017-01-01", "2018-06-05", "2019-06-06", "2021-01-01", "2022-06-03"]
BETWEEN = {
    "before": ["2015 to 2019", "2016 to 2018", "2015-01-01 to 2018-12-31", "2 years", "4 years"],
    "after": ["2021 to 2023", "2022 to 2022", "2020-01-01 to 2022-12-31", "1 year", "3 years"],
}


def any_topic(rng: Random) -> str:
    """The text of a topic's file: every section but what is of archived episodes."""
    timed = rng.random() < 0.85
    beats = [any_beat(rng, f"b{at}", timed) for at in range(rng.choice((1, 1, 2, 3)))]
    tree: Tree = {
        "title": "A question",
        "question": "What happened?",
        "data": _data(rng),
        "event": _event(rng) if timed else None,
        "also": _others(rng, beats) if timed else [],
        "headlines": [one for beat in beats[:5] for one in _named(rng, beat)][:5],
        "expected": [_expected(rng, beat) for beat in beats if rng.random() < 0.3],
        "lists": LISTS,
        "background": [{"say": "It was dry."}] if rng.random() < 0.1 else [],
        "sponsor": [{"after": "b0", "seconds": 30}] if rng.random() < 0.1 else [],
        "frames": rng.choice([None, "dark", ["light", "clear", "steps"]]),
    }
    lines = [f"{key}: {json.dumps(value)}" for key, value in tree.items() if value]
    listed = [f"  - {json.dumps(beat)}" for beat in beats]
    return "\n".join([*lines, "beats:", *listed, ""])


def _data(rng: Random) -> Tree:
    cups: Any = rng.choice([["Pebble Cup", "Sand Cup"]] * 4 + ["Pebble Cup", "Sand Cup", None])
    data: Tree = {"format": rng.choices(("one-day", "unlimited"), (19, 1))[0]}
    more = {"competition": cups, "gender": "female", "team_type": "club", "source": "tidewater"}
    return data | {
        key: value
        for key, value in more.items()
        if value and (key == "competition" or rng.random() < 0.1)
    }


def _event(rng: Random) -> Tree:
    event: Tree = {"name": "the hail", "date": rng.choice(DAYS)}
    for side in ("before", "after"):
        event[side] = _window(rng, event["date"], side)
    if rng.random() < 0.1:
        event["trend_from"] = rng.choice(["2015", "2016", "2015-06-01"])
    if rng.random() < 0.15:
        event["gap_after"] = rng.choice(["6 months", "2 weeks", "1 year", "10 days"])
    if rng.random() < 0.2:
        event["period"] = rng.choice(UNITS)
    if rng.random() < 0.25:
        event["control"], _ = control(rng, {})
    return event


def _others(rng: Random, beats: list[Tree]) -> list[Tree]:
    """Other events; now and then a beat is about one of them."""
    found: list[Tree] = []
    for at in range(rng.choice((0, 0, 1, 3))):
        other: Tree = {"name": f"the other thing {at}", "date": rng.choice(DAYS)}
        if rng.random() < 0.5:
            other["id"] = f"other-{at}"
            for side in ("before", "after"):
                if rng.random() < 0.5:
                    other[side] = _window(rng, other["date"], side)
            beat = rng.choice(beats)
            if beat["kind"] != "groups" and rng.random() < 0.6:
                beat["about"] = other["id"]
        found.append(other)
    return found


def _window(rng: Random, day: str, side: str) -> str:
    """So many seasons, mostly no more than there are; or from one to another."""
    if rng.random() < 0.3:
        return rng.choice(BETWEEN[side])
    there = sum((first < day) == (side == "before") for _, first, *_ in SEASONS)
    return f"{rng.randint(1, max(1, there - 1 + (rng.random() < 0.2)))} seasons"


def _named(rng: Random, beat: Tree) -> list[str]:
    """A finding of the beat, or none: its row known beforehand, or a value that may be there."""
    if rng.random() < 0.5:
        return []
    rows = _rows(beat)
    row = rng.choice(rows) if rows and rng.random() < 0.5 else "all"
    return [_id(rng, beat, row)]


def _expected(rng: Random, beat: Tree) -> Tree:
    row = rng.choice([*_rows(beat), "all", "all"])
    means = means_of(KINDS[beat["kind"]].model_validate(beat), row)
    return {"say": "They say so.", "finding": _id(rng, beat, row), "means": rng.choice(means)}


def _id(rng: Random, beat: Tree, row: str) -> str:
    measure = rng.choice(KINDS[beat["kind"]].measures_written(beat))
    return f"{beat['id']}.{measure}" + ("" if row == "all" else f".{row}")


def _rows(beat: Tree) -> list[str]:
    asked = KINDS[beat["kind"]].model_validate(beat)
    known = rows_known(asked, _form())
    if known is not None:
        return known
    return [slug(value) for cut in asked.cuts[:1] if cut in _OPEN for value in values_of(cut)]


_OPEN = ("batting_team", "bowling_team", "season", "ground", "region")


@cache
def _form() -> Format:
    formats, _ = validate(read_yaml(ROOT / "config" / "formats.yaml"), FormatFile)
    assert formats
    return formats.formats["one-day"]
