"""python -m pipeline.shelf --out FOLDER: index.html over the topics built there and the archive."""

from __future__ import annotations

import argparse
from pathlib import Path

from pipeline.config import views
from pipeline.config.load import DEFAULT, Config, load
from pipeline.errors import run_stage
from pipeline.records.outputs import Files
from pipeline.records.recording import record_options, recording
from pipeline.records.state import of_topic, stale
from pipeline.records.steps import Steps
from pipeline.shelf.stage import write_shelf
from pipeline.terminal import say_aside


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m pipeline.shelf", description=__doc__)
    parser.add_argument("--config", type=Path, default=DEFAULT)
    parser.add_argument("--out", type=Path, required=True, help="the folder of all outputs")
    parser.add_argument(
        "--stale", action="store_true", help="after a failed build: say what is not up to date"
    )
    record_options(parser)
    options = parser.parse_args()
    with recording("shelf", options) as record:
        config = load(options.config)
        files = Files(config, options.out)
        record.begins(views.shelf(config), *files.of("shelf", ""), str(options.config))
        why = _why(config, options.out) if options.stale else {}
        write_shelf(options.out, list(config.topics), config.project.title, why)


def _why(config: Config, out: Path) -> dict[str, str]:
    """Why topics are not up to date, told on the terminal too; the shelf must be made again."""
    steps = Steps(config, out)
    Path(steps.shelf().record).unlink(missing_ok=True)
    found = stale(steps.all(), out)
    firsts = {topic: of_topic(found, topic) for topic in config.topics}
    why = {topic: first.because for topic, first in firsts.items() if first}
    for topic, reason in why.items():
        say_aside(f"not up to date: {topic} ({reason})")
    if current := [topic for topic in config.topics if topic not in why]:
        say_aside(f"up to date: {', '.join(current)}")
    return why


if __name__ == "__main__":
    run_stage(main)
