"""A brief at one time, an edition or as it is built now, with all that its numbers are made of."""

from __future__ import annotations

from collections.abc import Mapping, Set
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from pipeline.archive.contents import Asked, merged
from pipeline.config import views
from pipeline.config.views import BriefView
from pipeline.contracts.episode import Episode
from pipeline.contracts.facts import Fact
from pipeline.contracts.finding import Finding
from pipeline.contracts.findings import Findings
from pipeline.editions.archived_views import archived_side
from pipeline.editions.findings import read_findings
from pipeline.editions.reading import (
    MAKE,
    VERIFY,
    read_around_beats,
    read_episode,
    read_said,
    read_view,
)
from pipeline.editions.sides import Side, built_side
from pipeline.editions.store import editions, read_edition


@dataclass(frozen=True)
class Record:
    """What `compare` knows of a brief, its folder, its findings, its view of the configuration.

    `said` holds each line with the findings that it is of, `around` those before the answer and
    after the beats by their part; an edition of before has no such record.
    """

    side: Side
    folder: Path
    findings: Findings
    view: BriefView
    said: Mapping[str, Set[str]] = field(default_factory=dict)
    around: Mapping[str, list[str]] = field(default_factory=dict)
    episode: Episode | None = None

    def fact(self, name: str) -> Fact | None:
        return next((fact for fact in self.side.facts if fact.id == name), None)

    def finding(self, name: str | None) -> Finding | None:
        return next((each for each in self.findings.findings if each.id == name), None)


@dataclass(frozen=True)
class Archived(Record):
    """An edition, by its number and date."""

    number: int = 0
    date: date = date.min


def built_record(asked: Asked) -> Record:
    """The topic as it is built now."""
    side = built_side(asked.topic, asked.built, merged(asked))
    findings = read_findings(asked.built, MAKE)
    view, said = views.brief(asked.config, asked.topic), read_said(asked.built, MAKE)
    around = read_around_beats(asked.built, MAKE)
    episode = read_episode(asked.built, MAKE)
    return Record(side, asked.built, findings, view, said, around, episode)


def archived_records(archive: Path, topic: str) -> list[Archived]:
    """Every edition of the topic, the first one first."""
    return [archived_record(archive / topic / str(number)) for number in editions(archive / topic)]


def archived_record(folder: Path) -> Archived:
    """The edition in its folder."""
    data, edition = folder / "data", read_edition(folder)
    findings = read_findings(data, VERIFY)
    view = read_view(data, BriefView, "brief", VERIFY)
    side = archived_side(folder)
    said, around = read_said(data, VERIFY), read_around_beats(data, VERIFY)
    episode = read_episode(data, VERIFY)
    return Archived(
        *(side, data, findings, view, said, around, episode, edition.edition, edition.date)
    )
