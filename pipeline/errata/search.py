"""Everything on a number that may be wrong: what is printed, and the JSON."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from pathlib import Path
from typing import NamedTuple

from pipeline.contracts.errata import (
    EditionUse,
    Errata,
    InCaptions,
    SaidIn,
    ThenAndNow,
    Wording,
    WrongEdition,
)
from pipeline.editions.difference import said
from pipeline.errata import captions, conclusion
from pipeline.errata.causes import causes
from pipeline.errata.draft import draft
from pipeline.errata.number import Number, OfFinding, number_of
from pipeline.errata.records import Archived, Record
from pipeline.errata.sentences import asked_alike, sentences
from pipeline.errata.uses import citations, drawn, printed, rows
from pipeline.errata.wordings import wordings
from pipeline.said.naming import part_of, subject_of

CHIEF = ("change", "difference", "date")  # of a finding's facts, the one a draft is about first


class Places(NamedTuple):
    """Where to look for what cites an edition: the configuration's folder, and the archive."""

    config: Path
    archive: Path


class Moved(NamedTuple):
    """A number that an edition has, and as it is now, where it still is."""

    old: Number
    new: Number | None


def errata(
    asked: str, names: list[str], now: Record, editions: Sequence[Archived], where: Places
) -> Errata:
    """The facts then and now; of each wrong edition what used them and why they moved; drafts."""
    moved = {record.number: moved_in(record, names, now) for record in editions}
    wrong = [record for record in editions if moved[record.number]]
    uses = [_uses(record, moved[record.number], now, where) for record in wrong]
    return Errata(
        topic=now.view.topic,
        asked=asked,
        facts=[_then_and_now(name, now, editions) for name in names],
        also=_also(names, now),
        wrong=[WrongEdition(edition=record.number, date=record.date) for record in wrong],
        editions=uses,
        drafts=_drafts(wrong, moved, now, uses),
    )


def in_captions(
    path: Path, names: list[str], now: Record, editions: Sequence[Archived]
) -> InCaptions:
    """Where a file of captions says what a wrong edition said, and what was looked for."""
    every = [moved for record in editions if (moved := moved_in(record, names, now))]
    subject = subject_of(every[-1][0].old) if every else ""
    looked_for = _wordings([pair for moved in every for pair in moved])
    return captions.in_captions(path, looked_for, subject)


def moved_in(record: Record, names: list[str], now: Record) -> list[Moved]:
    """The facts that the edition has, and that are shown or judged otherwise now, or are gone."""
    pairs = ((number_of(record, name), number_of(now, name)) for name in names)
    return [Moved(old, new) for old, new in pairs if old and _differs(old, new)]


def _differs(old: Number, new: Number | None) -> bool:
    """Shown otherwise, or of a finding whose conclusion is another; an interval alone is not."""
    if new is None:
        return True
    return old.fact.display != new.fact.display or conclusion.moved(old, new)


def _then_and_now(name: str, now: Record, editions: Sequence[Archived]) -> ThenAndNow:
    then = [
        SaidIn(
            edition=record.number,
            date=record.date,
            said=said(record.fact(name)),
            wrong=bool(moved_in(record, [name], now)),
        )
        for record in editions
    ]
    return ThenAndNow(id=name, now=said(now.fact(name)), editions=then)


def _also(names: list[str], now: Record) -> list[str]:
    """Ids of the other findings that answer the same question, as it is built now."""
    found: list[str] = []
    for number in (number_of(now, name) for name in names):
        if isinstance(number, OfFinding):
            alike = [finding.id for finding in asked_alike(now, number)]
            found += [each for each in alike if each not in (number.finding.id, *found)]
    return found


def _wordings(moved: Sequence[Moved]) -> list[Wording]:
    """Each once, though several facts or editions say it so."""
    found: list[Wording] = []
    for pair in moved:
        found += [one for one in wordings(pair.old, pair.new) if one not in found]
    return found


def _uses(record: Archived, moved: list[Moved], now: Record, where: Places) -> EditionUse:
    """All that used the facts in one edition, and why they moved since."""
    old, new = moved[0]
    looked_for, names = _wordings(moved), [pair.old.fact.id for pair in moved]
    return EditionUse(
        edition=record.number,
        date=record.date,
        folder=record.folder.as_posix(),
        moved=names,
        sentences=sentences(record, now, old, looked_for, conclusion.moved(old, new)),
        charts=drawn(record, old, looked_for),
        printed=printed(record, old),
        rows=rows(record, names),
        cited=citations(where.config, where.archive, record, names),
        why=causes(record, now, (new or old).fact),
    )


def _drafts(
    wrong: Sequence[Archived],
    moved: dict[int, list[Moved]],
    now: Record,
    uses: Sequence[EditionUse],
) -> list[str]:
    """One for each run of editions that said the same, the newest first."""
    chief = {record.number: _chief(moved[record.number]) for record in wrong}

    def told(item: tuple[Archived, EditionUse]) -> tuple[str, ...]:
        old, new = chief[item[0].number]
        return old.fact.id, old.fact.display, old.fact.spoken, *conclusion.stands(old, new)

    made = []
    for _, group in groupby(zip(wrong, uses, strict=True), key=told):
        alike = list(group)
        newest, use = alike[-1]
        old, new = chief[newest.number]
        made.append(draft([record for record, _ in alike], old, new, now, use.why))
    return made[::-1]


def _chief(moved: Sequence[Moved]) -> Moved:
    """The one to write about: the change itself if it moved, else the first that did."""
    parts = {part_of(pair.old): pair for pair in moved}
    return next((parts[part] for part in CHIEF if part in parts), moved[0])
