"""Every source's tables into one clean set."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from pipeline.clean.assemble import assemble
from pipeline.clean.merge import DISMISSALS, PLAYERS
from pipeline.clean.quality import quality
from pipeline.clean.quality_page import page
from pipeline.clean.raw_tables import check_there, reading
from pipeline.clean.to_fill import grounds_to_fill, players_to_fill
from pipeline.contracts.files import as_json, read_json
from pipeline.contracts.quality import Quality, SourceReport
from pipeline.contracts.selection import Fixes
from pipeline.errors import write_atomically
from pipeline.tables import write_parquet

View = dict[str, Any]


def clean(view: View, data: Path) -> Quality:
    """Write the clean tables, the sheets to fill and the quality report; give the report.

    Everything is made before anything is written.
    """
    folders = {name: data / name for name in view["sources"]}
    check_there(folders)
    with reading(folders, data):
        return _clean(view, data, folders)


def _clean(view: View, data: Path, folders: dict[str, Path]) -> Quality:
    db, corrections = assemble(view, folders)
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
    for name in ("matches", "innings", "deliveries"):
        write_parquet(db, f"SELECT * FROM {name}", data / f"{name}.parquet")
    write_parquet(db, DISMISSALS, data / "dismissals.parquet")
    write_parquet(db, PLAYERS, data / "players.parquet")
    for name, text in texts.items():
        write_atomically(data / name, text)
    return report
