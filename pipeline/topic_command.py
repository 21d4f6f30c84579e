"""The command line that the stages of a topic share."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from pathlib import Path
from typing import Generic, NamedTuple, TypeVar

from pipeline.config.load import DEFAULT, Config, load

View = TypeVar("View")


class Call(NamedTuple, Generic[View]):
    """What a stage is given: its view of the configuration, its topic's folder, the data folder."""

    view: View
    out: Path
    data: Path


def topic_call(stage: str, about: str | None, view_of: Callable[[Config, str], View]) -> Call[View]:
    """Read `--topic NAME --out FOLDER` (and --config, --data) and the stage's view."""
    parser = argparse.ArgumentParser(prog=f"python -m pipeline.{stage}", description=about)
    parser.add_argument("--config", type=Path, default=DEFAULT)
    parser.add_argument("--topic", required=True)
    parser.add_argument("--out", type=Path, required=True, help="the topic's folder")
    parser.add_argument("--data", type=Path, default=Path("output/data"), help="clean tables")
    options = parser.parse_args()
    config = load(options.config, only=options.topic)
    return Call(view_of(config, options.topic), options.out, options.data)
