"""Every stage of one topic in this process, from match files to pages, as in the workflow."""

from __future__ import annotations

from contextlib import chdir
from pathlib import Path
from typing import Any

from pipeline.brief.__main__ import write_brief
from pipeline.charts.__main__ import write_charts
from pipeline.clean.__main__ import clean
from pipeline.config import views
from pipeline.config.load import load
from pipeline.ingest.__main__ import ingest
from pipeline.metrics.__main__ import write_tallies
from pipeline.significance.__main__ import write_findings

View = dict[str, Any]
OUT = Path("output")


def made(work: Path, about: View, around: View) -> Path:
    """The topic's folder of outputs in the project folder `work`.

    Paths are relative, as in the workflow: they stand in the queries. `around` is what the edition
    took from earlier ones, which are not here.
    """
    topic = about["topic"]
    out, data = OUT / topic, OUT / "data"
    with chdir(work):
        config = load(Path("config"), only=topic)
        for name, source in config.sources.items():
            ingest(source, data / name)
        clean(config, data)
        write_tallies(views.metrics(config, topic), out, data)
        write_findings(views.significance(config, topic), out)
        write_charts(views.charts(config, topic), out)
        view = views.brief(config, topic)
        write_brief(view, out, about["edition"], OUT / "archive", around)
    return work / out
