"""JSON Schemas of the files that are written: what others may count on in them."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import msgspec

from pipeline.contracts.base import Contract
from pipeline.contracts.editions import Around, Difference, Edition, Inputs, Merged
from pipeline.contracts.episode import Episode
from pipeline.contracts.errata import EditionErrata, Errata
from pipeline.contracts.facts import Charts, Facts, Summary
from pipeline.contracts.files import FORMAT
from pipeline.contracts.findings import Findings
from pipeline.contracts.quality import Quality, SourceReport
from pipeline.contracts.script_check import ScriptChecks, ScriptState
from pipeline.contracts.selection import Fixes, Selection
from pipeline.contracts.slots_moved import ScriptMoved
from pipeline.contracts.two_topics import TwoTopics
from pipeline.errors import write_atomically

# By the files' names: a source's, the clean tables', a topic's, an edition's; what a command
# writes with --json by the command.
CONTRACTS: dict[str, type[Contract]] = {
    "report": SourceReport,
    "corrections": Fixes,
    "quality": Quality,
    "selection": Selection,
    "findings": Findings,
    "charts": Charts,
    "facts": Facts,
    "episode": Episode,
    "summary": Summary,
    "edition": Edition,
    "inputs": Inputs,
    "merged": Merged,
    "around": Around,
    "compare": Difference,
    "compare-topics": TwoTopics,
    "correction": Errata,
    "correction-edition": EditionErrata,
    "script": ScriptMoved,
    "script-check": ScriptChecks,
    "script-state": ScriptState,
}


def schema(name: str) -> str:
    """One file's JSON Schema (2020-12) as text: the format's number, then the contract's fields."""
    contract = CONTRACTS[name]
    _, parts = msgspec.json.schema_components([contract], ref_template="#/$defs/{name}")
    own: dict[str, Any] = parts.pop(contract.__name__)
    whole = {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **own,
        "properties": {"format": {"const": FORMAT}, **own["properties"]},
        "required": ["format", *own.get("required", [])],
        "$defs": parts,
    }
    return json.dumps(whole, indent=1, ensure_ascii=False) + "\n"


def write_schemas(folder: Path) -> None:
    """Every file's schema, into the folder."""
    for name in CONTRACTS:
        write_atomically(folder / f"{name}.json", schema(name))
