"""A project with an archived edition, to be changed, compared and made again."""

from __future__ import annotations

import shutil
from argparse import Namespace
from pathlib import Path

from pipeline.archive.contents import Asked
from pipeline.archive.stage import archived
from pipeline.config.load import load
from pipeline.rebuild.make import DATA, OUT
from pipeline.records.recording import recording
from pipeline.records.steps import Step, Steps
from pipeline.run import make_topic
from tests.conftest import ROOT

TOPIC = "sea-air"


def project_of(built: Path, folder: Path, *topics: str) -> Path:
    """A project of one's own with the demo's data and one topic, or these, built in it."""
    for part in ("config", "demo_data", "pipeline", "templates"):
        shutil.copytree(built / part, folder / part)
    for part in (*(topics or (TOPIC,)), "data"):
        shutil.copytree(built / "output" / part, folder / "output" / part)
    for name in ("requirements.lock", "pyproject.toml"):
        shutil.copy(ROOT / name, folder / name)
    return folder


def asked(topic: str = TOPIC) -> Asked:
    """A topic of the project in the working directory."""
    config = load(Path("config"), only=topic)
    return Asked(config, topic, OUT / topic, DATA, OUT / "archive")


def archive(topic: str = TOPIC) -> str:
    return archived(asked(topic))


def remake(*, paper: bool = True) -> None:
    """The stages of the topic again, in the working directory; the clean tables stay."""
    make_topic(load(Path("config"), only=TOPIC), TOPIC, OUT / TOPIC, DATA, paper=paper)
    record()


def record(topic: str = TOPIC) -> None:
    """Records of the data's and the topic's files as they are now, as their stages leave them."""
    steps = Steps(load(Path("config"), only=topic), OUT)
    for step in (*steps.data(), *steps.topic(topic)):
        recorded(step, OUT)


def recorded(step: Step, out: Path) -> None:
    """The record of a step whose work was done otherwise."""
    options = Namespace(record=Path(step.record), seen=step.seen, view="", outputs=out)
    with recording(step.stage, options) as made:
        made.begins(None, step.reads, step.writes, "")


def change(file: str, old: str, new: str) -> None:
    path = Path("config") / file
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new), "utf-8")
