"""Why a number moved, as far as it is on record: corrections, settings, data, code."""

from __future__ import annotations

from typing import Any

import pandas as pd

from pipeline.asked_fact import touching
from pipeline.contracts.editions import FixesMoved
from pipeline.contracts.errata import Why
from pipeline.contracts.facts import Fact
from pipeline.editions.difference import causes_of
from pipeline.editions.sides import Side
from pipeline.errata.records import Record

STAGES = ("ingest", "clean", "metrics", "significance", "brief")
# Of a measure in the brief's own view: what changes how its number is shown or defined.
SHOWN = ("decimals", "unit", "defined")


def causes(old: Record, now: Record, fact: Fact) -> Why:
    """As `compare` has them, of this number only: corrections that touch its matches, settings."""
    found = causes_of(_bearing_on(old.side, fact), _bearing_on(now.side, fact))
    rows = pd.read_parquet(now.folder / "tallies.parquet")
    if fact.beat in set(rows["beat"]):
        rows = rows[rows["beat"] == fact.beat]
    touch = touching(fact.finding, now.findings, rows)
    new = [fix for fix in found.corrections.new if fix in touch]
    return Why(
        data=found.data,
        corrections=FixesMoved(new=new, withdrawn=found.corrections.withdrawn),
        settings=found.settings,
        code=found.code,
        earlier=found.earlier,
        elsewhere=len(found.corrections.new) - len(new),
    )


def _bearing_on(side: Side, fact: Fact) -> Side:
    """The side with its settings only where they bear on the number."""
    settings = {stage: _settings(side.settings[stage], stage, fact) for stage in STAGES}
    return side._replace(settings=settings)


def _settings(view: dict[str, Any], stage: str, fact: Fact) -> dict[str, Any]:
    """A stage's settings without those of other beats and other measures, or of words."""
    if "beats" not in view:
        return view
    measures = {k: v for k, v in view["measures"].items() if fact.measure in (None, k)}
    if stage == "brief":
        kept = {name: {key: each[key] for key in SHOWN} for name, each in measures.items()}
        return {"measures": kept}
    beats = {each["id"]: each for each in view["beats"] if fact.beat in (None, each["id"])}
    return {**view, "measures": measures, "beats": beats}
