"""A brief at one time, an edition or as built now, and one fact of it with all it is made of."""

from __future__ import annotations

from pathlib import Path
from typing import Any, NamedTuple

from pipeline.archive.contents import Asked, merged
from pipeline.config import views
from pipeline.config.views import BriefView
from pipeline.contracts.findings import Findings
from pipeline.editions.archived_views import archived_side
from pipeline.editions.findings import read_findings
from pipeline.editions.reading import MAKE, VERIFY, read_view
from pipeline.editions.sides import Side, built_side
from pipeline.editions.store import editions, read_edition

View = dict[str, Any]
NOW = "now"


class Record(NamedTuple):
    """What `compare` knows of a brief, its folder, number, date, findings and settings.

    `number` and `date` (YYYY-MM-DD) are None of what is built now; `view` is what the brief's own
    stage saw of the configuration.
    """

    side: Side
    folder: Path
    number: int | None
    date: str | None
    findings: Findings
    view: BriefView

    @property
    def name(self) -> str:
        return f"edition {self.number}" if self.number else NOW


class Told(NamedTuple):
    """A fact, and the finding, beat and measure it is of, where it is of one."""

    fact: View
    finding: View | None
    beat: View | None
    measure: View | None
    form: View
    event: View | None


def built(asked: Asked) -> Record:
    """The topic as it is built now."""
    side = built_side(asked.topic, asked.built, merged(asked))
    findings = read_findings(asked.built, MAKE)
    return Record(side, asked.built, None, None, findings, views.brief(asked.config, asked.topic))


def archived(archive: Path, topic: str) -> list[Record]:
    """Every edition of the topic, the first one first."""
    return [_edition(archive / topic / str(number)) for number in editions(archive / topic)]


def _edition(folder: Path) -> Record:
    data, about = folder / "data", read_edition(folder)
    findings = read_findings(data, VERIFY)
    view = read_view(data, BriefView, "brief", VERIFY)
    side = archived_side(folder)
    return Record(side, data, about.edition, about.date.isoformat(), findings, view)


def told(record: Record, name: str) -> Told | None:
    """The fact of that id with its surroundings; None when the brief has no such fact."""
    fact = next((fact for fact in record.side.facts if fact["id"] == name), None)
    if fact is None:
        return None
    view = record.view
    finding = finding_of(record, fact["finding"])
    beat = next((beat for beat in view["beats"] if beat["id"] == fact["beat"]), None)
    measure = view["measures"].get(fact["measure"])
    return Told(fact, finding, beat, measure, view["format"], view["event"])


def finding_of(record: Record, name: str | None) -> View | None:
    return next((f for f in record.findings["findings"] if f["id"] == name), None)
