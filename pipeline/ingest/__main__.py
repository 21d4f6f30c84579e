"""python -m pipeline.ingest --source ID --out FOLDER: one source into tables."""

from __future__ import annotations

import argparse
from pathlib import Path

from pipeline.config import views
from pipeline.config.load import DEFAULT, load_sources
from pipeline.errors import Problem, UserError, did_you_mean, run_stage
from pipeline.ingest.stage import ingest
from pipeline.records.outputs import RAW
from pipeline.records.recording import record_options, recording


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m pipeline.ingest", description=__doc__)
    parser.add_argument("--config", type=Path, default=DEFAULT)
    parser.add_argument("--source", required=True)
    parser.add_argument("--out", type=Path, required=True)
    parser.add_argument("--threads", type=int, help="the most processes to read with")
    record_options(parser)
    options = parser.parse_args()
    with recording("ingest", options) as record:
        sources = load_sources(options.config)
        if options.source not in sources:
            hint = did_you_mean(options.source, sources)
            file = str(options.config / "sources.yaml")
            raise UserError(Problem(file, f"no source '{options.source}'{hint}"))
        view = views.ingest_source(sources[options.source])
        writes = [str(options.out / name) for name in RAW]
        record.begins(view, [], writes, str(options.config / "sources.yaml"))
        ingest(sources[options.source], options.out, options.threads)


if __name__ == "__main__":
    run_stage(main)
