"""Everything on a number that may be wrong: what is printed, and the JSON."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from pathlib import Path
from typing import NamedTuple

from pipeline.contracts.errata import (
    EditionErrata,
    EditionUse,
    Errata,
    InCaptions,
    SaidIn,
    ThenAndNow,
    Wording,
    WrongEdition,
)
from pipeline.contracts.facts import Fact
from pipeline.editions.difference import said
from pipeline.errata import captions, conclusion
from pipeline.errata.captions import Said
from pipeline.errata.causes import causes
from pipeline.errata.draft import draft
from pipeline.errata.judged_places import judged_places
from pipeline.errata.moved_facts import Moved, moved_in, moved_since
from pipeline.errata.number import OfFinding, number_of
from pipeline.errata.records import Archived, Record
from pipeline.errata.sentences import asked_alike, sentences
from pipeline.errata.uses import citations, drawn, printed, rows
from pipeline.errata.wordings import wordings
from pipeline.said.naming import part_of, subject_of
from pipeline.transcripts.passage import Passage

CHIEF = ("change", "difference", "date")  # of a finding's facts, the one a draft is about first


class Places(NamedTuple):
    """Where to look for what cites an edition: the configuration's folder, and the archive."""

    config: Path
    archive: Path


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
    wrong = [(record, moved) for record in editions if (moved := moved_in(record, names, now))]
    subject = subject_of(wrong[-1][1][0].old) if wrong else ""
    looked_for = _wordings([pair for _, moved in wrong for pair in moved])
    return captions.in_captions(
        path,
        looked_for,
        subject,
        lambda passages: judged_of(passages, wrong, now),
        _filling(now, editions),
    )


def judged_of(
    passages: Sequence[Passage], wrong: Sequence[tuple[Record, list[Moved]]], now: Record
) -> list[Said]:
    """What the sentences say of the moved facts of each edition, each place once."""
    found: dict[tuple[int, int, str], Said] = {}
    for record, moved in wrong:
        for one in judged_places(passages, record, now, moved):
            found.setdefault((one.sentence, one.place.at, one.place.old), one)
    return list(found.values())


def _filling(now: Record, editions: Sequence[Record]) -> list[Fact]:
    """What stood in the slots of a script: the facts of the newest edition."""
    return editions[-1].side.facts if editions else now.side.facts


def of_edition(
    record: Archived, now: Record, files: Sequence[Path], where: Places
) -> EditionErrata:
    """All numbers that moved since the edition, and where the files say what it said."""
    moved = moved_since(record, now)
    every = moved_in(record, [name for names in moved.values() for name in names], now)
    return EditionErrata(
        topic=record.view.topic,
        edition=record.number,
        date=record.date,
        moved=[errata(asked, names, now, [record], where) for asked, names in moved.items()],
        captions=[
            captions.in_captions(
                path,
                [],
                "",
                lambda passages: judged_of(passages, [(record, every)], now),
                record.side.facts,
            )
            for path in files
        ],
    )


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
