"""Briefs as `correction` knows them: of an older version, and the same in today's words."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from pathlib import Path

from msgspec import structs

from pipeline.contracts.finding import Finding
from pipeline.editions.sides import ANSWER
from pipeline.episode.lines_of import lines_of
from pipeline.errata.number import OfFinding, number_of
from pipeline.errata.records import Record, archived_records
from pipeline.event_of import event_of
from pipeline.voice.line import Line
from pipeline.wording.answer import answer_lines
from pipeline.wording.headings import headings_of
from tests.conftest import ROOT


def old_record(archive: Path) -> Record:
    """The edition that is kept in tests/, made by 0.8, alone in an archive."""
    (archive / "spinners").mkdir()
    (archive / "spinners" / "1").symlink_to(ROOT / "tests" / "old_edition")
    (found,) = archived_records(archive, "spinners")
    return found


def in_todays_words(record: Record) -> Record:
    """The same findings with the lines that today's brief makes of them, each in its first form.

    As a brief does, it keeps which line is of which findings.
    """
    view, findings = record.view, record.findings
    told: dict[str, list[Line]] = {ANSWER: _answer(record)}
    for beat in view.beats:
        made = lines_of(beat, view, findings)
        told.setdefault(headings_of(view)[beat.id], []).extend(
            line for name in beat.measures for line in made[name]
        )
    said: dict[str, set[str]] = {}
    for line in (each for lines in told.values() for each in lines):
        said.setdefault(line.text, set()).update(line.about)
    lines = {part: [line.text for line in made] for part, made in told.items()}
    return replace(record, side=record.side._replace(lines=lines), said=said)


def _answer(record: Record) -> list[Line]:
    view = record.view
    beats = {beat.id: beat for beat in view.beats}
    found = [finding for each in record.findings.headlines if (finding := record.finding(each))]
    headlines = [(one, beats[one.beat], view.measures[one.measure]) for one in found]
    return answer_lines(headlines, view.format, partial(event_of, view), view.expected)


def with_findings(record: Record, *changed: Finding) -> Record:
    """The record with some findings otherwise, and the lines that are made of them."""
    by_id = {finding.id: finding for finding in changed}
    now = [by_id.get(finding.id, finding) for finding in record.findings.findings]
    findings = structs.replace(record.findings, findings=now)
    return in_todays_words(replace(record, findings=findings))


def finding_number(record: Record, name: str) -> OfFinding:
    """A fact of a finding's, with all that it is of."""
    number = number_of(record, name)
    assert isinstance(number, OfFinding)
    return number
