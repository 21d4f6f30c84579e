"""What an edition holds: the brief made anew under its number, and all that it was made of."""

from __future__ import annotations

import json
import os
import shutil
from pathlib import Path
from typing import Any, NamedTuple

from msgspec import structs

from pipeline.archive.crate import crate
from pipeline.archive.data_package import data_package
from pipeline.archive.inputs import keep_inputs
from pipeline.archive.readme import readme
from pipeline.brief.stage import write_brief
from pipeline.config import views
from pipeline.config.frame_files import SHEET
from pipeline.config.load import GLOSSARY, Config
from pipeline.config.topic_names import FOLDER
from pipeline.contracts.editions import Around, Edition, Merged, Settings
from pipeline.contracts.facts import ChartMade
from pipeline.contracts.files import read_json, write_contract
from pipeline.contracts.findings import Findings
from pipeline.contracts.selection import Fixes
from pipeline.editions.reading import MAKE, read_charts, read_summary
from pipeline.errors import write_atomically
from pipeline.kept_script import kept_files
from pipeline.ledger.book import ledger_of
from pipeline.script.stage import write_check
from pipeline.topic_files import NUMBERS

SETTINGS = ("project.yaml", "sources.yaml", "measures.yaml", "formats.yaml", "theme.yaml")


class Asked(NamedTuple):
    """A topic to archive: its folder of outputs, the clean tables, where editions go."""

    config: Config
    topic: str
    built: Path
    data: Path
    archive: Path

    @property
    def sources(self) -> list[str]:
        """Ids of the sources that the topic uses."""
        return self.config.topics[self.topic].data.source or list(self.config.sources)


def fill(asked: Asked, edition: Edition, payload: Path) -> None:
    """Put everything into the empty payload folder; what describes the rest comes last."""
    _copy_numbers(asked, payload)
    write_contract(payload / "around.json", _said(asked, payload, edition.edition))
    _copy_settings(asked, payload / "config")
    findings = read_json(payload / "findings.json", Findings, MAKE)
    write_contract(payload / "corrections.json", Fixes(corrections=findings.corrections))
    shutil.copyfile(asked.data / "quality.json", payload / "quality.json")
    inputs = keep_inputs(asked.config, payload)
    write_contract(payload / "inputs.json", inputs)
    write_contract(payload / "edition.json", edition)
    summary = read_summary(payload, MAKE)
    write_atomically(payload / "README.md", readme(edition, summary, inputs))
    _write_description(payload / "datapackage.json", data_package(payload, edition, summary))
    described = crate(payload, edition, summary, inputs)
    _write_description(payload / "ro-crate-metadata.json", described)


def _copy_numbers(asked: Asked, payload: Path) -> None:
    (payload / "charts").mkdir()
    for name in NUMBERS:
        shutil.copyfile(asked.built / name, payload / name)
    for name in files_of_charts(read_charts(asked.built, MAKE)):
        shutil.copyfile(asked.built / "charts" / name, payload / "charts" / name)


def files_of_charts(made: list[ChartMade]) -> list[str]:
    """Files of charts/ that belong to the charts there are; older topics may have left others."""
    own = [[f"{chart.chart}.svg", f"{chart.chart}.csv", *chart.frames] for chart in made]
    return ["charts.json", SHEET, *(name for files in own for name in files)]


def _said(asked: Asked, payload: Path, number: int) -> Around:
    """Make the check of the script and the brief; what both took from earlier editions.

    Making the PDF sets SOURCE_DATE_EPOCH for its process: put back, since it is a setting.
    """
    before = os.environ.get("SOURCE_DATE_EPOCH")
    try:
        view = views.brief(asked.config, asked.topic)
        others = write_check(view, payload, asked.archive, tells=False)  # its folder is moved
        around = write_brief(view, payload, number, asked.archive)
        return structs.replace(around, script=others)
    finally:
        os.environ.pop("SOURCE_DATE_EPOCH", None)
        if before is not None:
            os.environ["SOURCE_DATE_EPOCH"] = before


def _copy_settings(asked: Asked, folder: Path) -> None:
    """The configuration, the kept script and the ledger as they were, and what the stages saw."""
    topics = folder / FOLDER
    topics.mkdir(parents=True)
    glossary = [GLOSSARY] if (asked.config.folder / GLOSSARY).exists() else []
    for name in (*SETTINGS, *glossary):
        shutil.copyfile(asked.config.folder / name, folder / name)
    for topic in asked.config.topic_files(asked.topic):
        shutil.copyfile(topic, topics / topic.name)
    for kept in kept_files(asked.config.topic_file(asked.topic)):
        shutil.copyfile(kept, topics / kept.name)
    ledger = ledger_of(asked.config.folder, asked.topic)
    if ledger.exists():
        (folder / ledger.parent.name).mkdir()
        shutil.copyfile(ledger, folder / ledger.parent.name / ledger.name)
    write_contract(folder / "merged.json", merged(asked))


def merged(asked: Asked) -> Merged:
    """All that the topic's stages saw of the configuration."""
    return Merged(
        ingest={source: views.ingest(asked.config, source) for source in asked.sources},
        clean=views.clean(asked.config),
        **said_by(asked),
    )


def said_by(asked: Asked) -> Settings:
    """The part of it that decides what the edition says, given the clean tables."""
    config, topic = asked.config, asked.topic
    return {
        "metrics": views.plain(views.metrics(config, topic)),
        "significance": views.plain(views.significance(config, topic)),
        "charts": views.plain(views.charts(config, topic)),
        "brief": views.plain(views.brief(config, topic)),
    }


def _write_description(path: Path, described: dict[str, Any]) -> None:
    """A file in a published format, whose keys are none of ours."""
    text = json.dumps(described, indent=1, ensure_ascii=False, allow_nan=False)
    write_atomically(path, text + "\n")
