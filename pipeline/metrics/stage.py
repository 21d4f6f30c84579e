"""A topic's tallies, from the clean tables."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pyarrow as pa

from pipeline.errors import write_atomically
from pipeline.metrics.tally import tally
from pipeline.tables import TALLIES, played, write_table

View = dict[str, Any]


def tallies_of(view: View, data: Path) -> tuple[pa.Table, View]:
    """The topic's tallies and what was selected, from the clean tables in `data`."""
    corrections = json.loads((data / "corrections.json").read_text("utf-8"))
    return tally(view, played(data), corrections)


def write_tallies(view: View, out: Path, data: Path) -> None:
    """Both as files of the topic's folder `out`."""
    tallies, selection = tallies_of(view, data)
    write_table(out / "tallies.parquet", tallies, TALLIES)
    text = json.dumps(selection, indent=1, ensure_ascii=False) + "\n"
    write_atomically(out / "selection.json", text)
