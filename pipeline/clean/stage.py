"""Every source's tables into one clean set."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import duckdb

from pipeline.clean.assemble import assemble
from pipeline.clean.merge import DELIVERIES, DISMISSALS, INNINGS, PLAYERS
from pipeline.clean.opened import as_written, database
from pipeline.clean.quality import quality
from pipeline.clean.quality_page import page
from pipeline.clean.raw_tables import check_there, reading
from pipeline.clean.to_fill import grounds_to_fill, players_to_fill
from pipeline.contracts.files import as_json, read_json
from pipeline.contracts.quality import Quality, SourceReport
from pipeline.contracts.selection import Fixes
from pipeline.errors import replacing, write_atomically
from pipeline.sql import quoted
from pipeline.tables import copy, write_parquet

View = dict[str, Any]


def clean(view: View, data: Path, threads: int | None = None) -> Quality:
    """Write the clean tables, the sheets to fill and the quality report; give the report.

    Everything is made before anything is replaced. Memory is bounded: deliveries go from the
    sources' tables to the clean one, and are then asked there.
    """
    folders = {name: data / name for name in view["sources"]}
    check_there(folders)
    with (
        reading(folders, data),
        database(data / "clean", threads) as db,
        replacing(data / "deliveries.parquet") as deliveries,
    ):
        return _clean(db, view, data, folders, deliveries)


def _clean(
    db: duckdb.DuckDBPyConnection,
    view: View,
    data: Path,
    folders: dict[str, Path],
    deliveries: Path,
) -> Quality:
    corrections = assemble(db, view, folders)
    with as_written(db):
        copy(db, DELIVERIES, deliveries)
    db.execute(f"CREATE VIEW deliveries AS SELECT * FROM read_parquet({quoted(deliveries)})")
    db.execute(INNINGS)
    sources = [read_json(folder / "report.json", SourceReport) for folder in folders.values()]
    fixes = [correction.record() for correction in corrections]
    report = quality(db, set(view["match_types"]), sources, fixes)
    texts = {
        "players-to-fill.csv": players_to_fill(db),
        "grounds-to-fill.csv": grounds_to_fill(db),
        "corrections.json": as_json(Fixes(corrections=fixes)),
        "quality.json": as_json(report),
        "quality.html": page(report, view["publisher"]),
    }
    for name in ("matches", "innings"):
        write_parquet(db, f"SELECT * FROM {name}", data / f"{name}.parquet")
    write_parquet(db, DISMISSALS, data / "dismissals.parquet")
    write_parquet(db, PLAYERS, data / "players.parquet")
    for name, text in texts.items():
        write_atomically(data / name, text)
    return report
