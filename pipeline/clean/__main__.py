"""python -m pipeline.clean --data FOLDER: every source's tables into one clean set."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from pipeline.clean.assemble import assemble
from pipeline.clean.merge import DISMISSALS, PLAYERS
from pipeline.clean.quality import quality
from pipeline.clean.quality_page import page, table
from pipeline.clean.to_fill import grounds_to_fill, players_to_fill
from pipeline.config import views
from pipeline.config.load import DEFAULT, Config, load_project
from pipeline.errors import run_stage, write_atomically
from pipeline.tables import write_parquet


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m pipeline.clean", description=__doc__)
    parser.add_argument("--config", type=Path, default=DEFAULT)
    parser.add_argument("--data", type=Path, required=True, help="folder with a folder a source")
    options = parser.parse_args()
    print(table(clean(load_project(options.config), options.data)))


def clean(config: Config, data: Path) -> dict:
    """Write the clean tables, the sheets to fill and the quality report; give the report.

    Everything is made before anything is written.
    """
    view = views.clean(config)
    folders = {name: data / name for name in config.sources}
    db, corrections = assemble(config.project, folders)
    sources = [json.loads((f / "report.json").read_text("utf-8")) for f in folders.values()]
    report = {
        "sources": sources,
        **quality(db, set(view["match_types"])),
        "corrections": [correction.record() for correction in corrections],
    }
    texts = {
        "players-to-fill.csv": players_to_fill(db),
        "grounds-to-fill.csv": grounds_to_fill(db),
        "corrections.json": _json(report["corrections"]),
        "quality.json": _json(report),
        "quality.html": page(report, view["publisher"]),
    }
    for name in ("matches", "innings", "deliveries"):
        write_parquet(db, f"SELECT * FROM {name}", data / f"{name}.parquet")
    write_parquet(db, DISMISSALS, data / "dismissals.parquet")
    write_parquet(db, PLAYERS, data / "players.parquet")
    for name, text in texts.items():
        write_atomically(data / name, text)
    return report


def _json(value: object) -> str:
    return json.dumps(value, indent=1, ensure_ascii=False, allow_nan=False) + "\n"


if __name__ == "__main__":
    run_stage(main)
