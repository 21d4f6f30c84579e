"""Why a number moved, as far as it is on record: corrections, settings, data, code."""

from __future__ import annotations

from typing import Any

import pandas as pd
from msgspec import to_builtins

from pipeline.asked_fact import touching
from pipeline.editions.difference import causes_of
from pipeline.editions.sides import Side
from pipeline.errata.versions import Record, Told

View = dict[str, Any]
STAGES = ("ingest", "clean", "metrics", "significance", "brief")
# Of a measure in the brief's own view: what changes how its number is shown or defined.
SHOWN = ("decimals", "unit", "defined")


def causes(old: Record, now: Record, told: Told) -> View:
    """As `compare` has them, of this number only: corrections that touch its matches, settings."""
    found = to_builtins(causes_of(_of_fact(old.side, told), _of_fact(now.side, told)))
    rows = pd.read_parquet(now.folder / "tallies.parquet")
    if told.fact["beat"] in set(rows["beat"]):
        rows = rows[rows["beat"] == told.fact["beat"]]
    touch = to_builtins(touching(told.fact["finding"], now.findings, rows))
    fixes = found["corrections"]
    return {
        **found,
        "corrections": {**fixes, "new": [fix for fix in fixes["new"] if fix in touch]},
        "elsewhere": sum(fix not in touch for fix in fixes["new"]),
    }


def _of_fact(side: Side, told: Told) -> Side:
    """The side with its settings only where they bear on the number; nothing else to compare."""
    settings = {
        stage: _settings(side.settings[stage], stage, told)
        for stage in STAGES
        if stage in side.settings
    }
    return side._replace(facts=[], lines={}, charts={}, settings=settings)


def _settings(view: View, stage: str, told: Told) -> View:
    """A stage's settings without those of other beats and other measures, or of words."""
    beat, measure = told.fact["beat"], told.fact["measure"]
    measures = {k: v for k, v in view.get("measures", {}).items() if measure in (None, k)}
    if stage == "brief":
        kept = {
            name: {key: each[key] for key in SHOWN if key in each}
            for name, each in measures.items()
        }
        return {"measures": kept}
    if "beats" not in view:
        return view
    beats = {each["id"]: each for each in view["beats"] if beat in (None, each["id"])}
    return {**view, "measures": measures, "beats": beats}
