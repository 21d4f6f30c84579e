"""Every stage of one topic in this process, from match files to pages, as in the workflow."""

from __future__ import annotations

from contextlib import chdir
from pathlib import Path

from pipeline.config.load import load
from pipeline.contracts.editions import Around, Edition
from pipeline.rebuild.inside import check_inside
from pipeline.run import make_data, make_topic
from pipeline.surroundings import environment

OUT = Path("output")
DATA = OUT / "data"


def made(work: Path, edition: Edition, around: Around) -> Path:
    """The topic's folder of outputs in the project folder `work`.

    `around` is what the edition took from earlier ones, which are not there. Paths are relative,
    as in the workflow, since those of the tables stand in the queries.
    """
    topic, archive = edition.topic, OUT / "archive"
    # No process that is started meanwhile imports what an edition has laid into the folder.
    with chdir(work), environment(PYTHONSAFEPATH="1"):
        check_inside(Path("config"))
        config = load(Path("config"), only=topic)
        make_data(config, DATA)
        make_topic(
            *(config, topic, OUT / topic, DATA),
            edition=edition.edition,
            archive=archive,
            around=around,
        )
    return work / OUT / topic
