"""Every stage of one topic in this process, from match files to pages, as in the workflow."""

from __future__ import annotations

from contextlib import chdir
from pathlib import Path
from typing import Any

from pipeline.config.load import load
from pipeline.run import make_data, make_topic

View = dict[str, Any]
OUT = Path("output")
DATA = OUT / "data"


def made(work: Path, about: View, around: View) -> Path:
    """The topic's folder of outputs in the project folder `work`.

    `around` is what the edition took from earlier ones, which are not there. Paths are relative,
    as in the workflow, since those of the tables stand in the queries.
    """
    topic: str = about["topic"]
    with chdir(work):
        config = load(Path("config"), only=topic)
        make_data(config, DATA)
        edition, archive = about["edition"], OUT / "archive"
        make_topic(
            config, topic, OUT / topic, DATA, edition=edition, archive=archive, around=around
        )
    return work / OUT / topic
