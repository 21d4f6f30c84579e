"""python -m pipeline.clean --data FOLDER: every source's tables into one clean set."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from pipeline.clean.merge import DELIVERIES, MATCHES, open_sources, quality
from pipeline.clean.sheets import read_grounds, read_players
from pipeline.config.load import DEFAULT, Config, load_project
from pipeline.errors import run_stage, write_atomically
from pipeline.tables import write_parquet


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m pipeline.clean", description=__doc__)
    parser.add_argument("--config", type=Path, default=DEFAULT)
    parser.add_argument("--data", type=Path, required=True, help="folder with a folder a source")
    options = parser.parse_args()
    clean(load_project(options.config), options.data)


def clean(config: Config, data: Path) -> None:
    """Write matches.parquet, deliveries.parquet and quality.json into the data folder."""
    players = read_players(config.project.players)
    grounds = read_grounds(config.project.grounds)
    folders = {name: data / name for name in config.sources}
    db = open_sources(folders, players, grounds)
    db.execute(f"CREATE TABLE matches AS {MATCHES}")
    db.execute(f"CREATE TABLE deliveries AS {DELIVERIES}")
    report = {
        "sources": [json.loads((f / "report.json").read_text("utf-8")) for f in folders.values()],
        "clean": quality(db),
    }
    write_parquet(db, "SELECT * FROM matches", data / "matches.parquet")
    write_parquet(db, "SELECT * FROM deliveries", data / "deliveries.parquet")
    text = json.dumps(report, indent=1, ensure_ascii=False) + "\n"
    write_atomically(data / "quality.json", text)


if __name__ == "__main__":
    run_stage(main)
