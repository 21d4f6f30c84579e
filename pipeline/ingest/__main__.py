"""python -m pipeline.ingest --source ID --out FOLDER: one source into tables."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from pipeline import tables
from pipeline.config.load import DEFAULT, load_project
from pipeline.errors import Problem, UserError, did_you_mean, run_stage, write_atomically
from pipeline.ingest.read import read_source, stop_if_asked
from pipeline.ingest.report import counts


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m pipeline.ingest", description=__doc__)
    parser.add_argument("--config", type=Path, default=DEFAULT)
    parser.add_argument("--source", required=True)
    parser.add_argument("--out", type=Path, required=True)
    options = parser.parse_args()
    sources = load_project(options.config).sources
    if options.source not in sources:
        hint = did_you_mean(options.source, sources)
        file = str(options.config / "sources.yaml")
        raise UserError(Problem(file, f"no source '{options.source}'{hint}"))
    ingest(sources[options.source], options.out)


def ingest(source, out: Path) -> None:
    """Read everything first, then write: a failing source leaves earlier outputs as they were."""
    found, problems = read_source(source)
    stop_if_asked(source, problems)
    for name in ("deliveries", "dismissals", "matches", "innings", "people"):
        schema = getattr(tables, name.upper())
        tables.write_table(out / f"{name}.parquet", getattr(found, name), schema)
    report = counts(found, [str(problem) for problem in problems])
    text = json.dumps({"source": source.id, **report}, indent=1, ensure_ascii=False) + "\n"
    write_atomically(out / "report.json", text)


if __name__ == "__main__":
    run_stage(main)
