"""The command line that the stages of a topic share."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Generic, NamedTuple, TypeVar

from pipeline.config.load import DEFAULT, Config, load
from pipeline.config.placed import placed
from pipeline.records.outputs import Files
from pipeline.records.recording import record_options, recording

View = TypeVar("View")


class Call(NamedTuple, Generic[View]):
    """What a stage is given: its view of the configuration, its topic's folder, the data folder."""

    view: View
    out: Path
    data: Path


@contextmanager
def topic_call(
    stage: str, about: str | None, view_of: Callable[[Config, str], View]
) -> Iterator[Call[View]]:
    """Read `--topic NAME --out FOLDER` (and --config, --data) and the stage's view.

    Problems that name a part of the topic get its line; when all went well a record is left.
    """
    parser = argparse.ArgumentParser(prog=f"python -m pipeline.{stage}", description=about)
    parser.add_argument("--config", type=Path, default=DEFAULT)
    parser.add_argument("--topic", required=True)
    parser.add_argument("--out", type=Path, required=True, help="the topic's folder")
    parser.add_argument("--data", type=Path, default=Path("output/data"), help="clean tables")
    record_options(parser)
    options = parser.parse_args()
    with recording(stage, options) as record, placed():
        config = load(options.config, only=options.topic)
        view = view_of(config, options.topic)
        files = Files(config, options.out.parent, options.data)
        settings = map(str, config.topic_files(options.topic))
        record.begins(view, *files.of(stage, options.topic), *settings)
        yield Call(view, options.out, options.data)
