"""Everything on a number that may be wrong, as plain data: what is printed, and the JSON."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby
from pathlib import Path
from typing import Any, NamedTuple

from pipeline.errata import captions
from pipeline.errata.causes import causes
from pipeline.errata.draft import draft
from pipeline.errata.forms import Form, pairs
from pipeline.errata.naming import subject_of, which
from pipeline.errata.sentences import sentences, verdict_moved
from pipeline.errata.uses import citations, drawn, printed, rows
from pipeline.errata.versions import Record, Told, told

View = dict[str, Any]
KEPT = ("display", "spoken", "verdict")
CHIEF = ("change", "difference", "date")  # of a finding's facts, the one a draft is about first


class Places(NamedTuple):
    """Where to look for what cites an edition: the configuration's folder, and the archive."""

    config: Path
    archive: Path


def report(
    asked: str, names: list[str], now: Record, editions: list[Record], where: Places
) -> View:
    """The facts then and now; of each wrong edition what used them and why they moved; drafts."""
    wrong = [record for record in editions if _moved(names, record, now)]
    details = [_edition(_moved(names, record, now), record, now, where) for record in wrong]
    return {
        "topic": editions[-1].view["topic"] if editions else now.view["topic"],
        "asked": asked,
        "facts": [_fact(name, now, editions) for name in names],
        "wrong": [{"edition": record.number, "date": record.date} for record in wrong],
        "editions": details,
        "drafts": _drafts(names, wrong, now, details),
        "captions": None,
    }


def in_captions(path: Path, names: list[str], now: Record, editions: list[Record]) -> View:
    """Where a file of captions says what a wrong edition said, and what was looked for."""
    forms: list[Form] = []
    subject = ""
    for record in editions:
        moved = _moved(names, record, now)
        if moved:
            forms += [form for form in _forms(moved, record, now) if form not in forms]
            subject = subject_of(told(record, moved[0]))
    said = captions.found(path, forms, subject)
    looked_for = [form.old for form in forms if not form.right]
    about = {"file": str(path), "estimated": path.suffix.lower() in captions.SCRIPTS}
    return {**about, "subject": subject, "looked_for": looked_for, "places": said}


def _moved(names: Iterable[str], record: Record, now: Record) -> list[str]:
    """The facts that the edition has, and that are shown or judged otherwise now, or are gone."""
    return [
        name for name in names if (old := told(record, name)) and _differs(old, told(now, name))
    ]


def _differs(old: Told, new: Told | None) -> bool:
    return new is None or any(old.fact[key] != new.fact[key] for key in ("display", "verdict"))


def _fact(name: str, now: Record, editions: list[Record]) -> View:
    new = told(now, name)
    was = []
    for record in editions:
        old = told(record, name)
        about = {"edition": record.number, "date": record.date}
        wrong = old is not None and _differs(old, new)
        was.append({**about, "said": _kept(old), "wrong": wrong})
    return {"id": name, "now": _kept(new), "editions": was}


def _kept(one: Told | None) -> View | None:
    return {key: one.fact[key] for key in KEPT} if one else None


def _forms(moved: list[str], record: Record, now: Record) -> list[Form]:
    found: dict[Form, None] = {}
    for name in moved:
        found |= dict.fromkeys(pairs(told(record, name), told(now, name)))
    return list(found)


def _edition(moved: list[str], record: Record, now: Record, where: Places) -> View:
    """All that used the facts in one edition, and why they moved since."""
    old, new = told(record, moved[0]), told(now, moved[0])
    forms = _forms(moved, record, now)
    place = f"{record.view['topic']}/{record.number}"
    return {
        "edition": record.number,
        "date": record.date,
        "folder": record.folder.as_posix(),
        "moved": moved,
        "sentences": sentences(record, now, old, forms, verdict_moved(old, new)),
        "charts": drawn(record, old, forms),
        "printed": printed(record, old),
        "rows": rows(record, moved),
        "cited": citations(where.config, where.archive, [f"{place}:{name}" for name in moved]),
        "why": causes(record, now, new or old),
    }


def _drafts(names: list[str], wrong: list[Record], now: Record, details: list[View]) -> list[str]:
    """One for each run of editions that said the same, the newest first."""

    def said(item: tuple[Record, View]) -> tuple:
        record, detail = item
        old = told(record, _chief(detail["moved"], record))
        return old.fact["id"], *(old.fact[key] for key in KEPT)

    made = []
    for _, group in groupby(zip(wrong, details, strict=True), key=said):
        alike = list(group)
        record, detail = alike[-1]
        name = _chief(detail["moved"], record)
        pair = told(record, name), told(now, name)
        made.append(draft([each for each, _ in alike], *pair, now, detail["why"]))
    return made[::-1]


def _chief(moved: list[str], record: Record) -> str:
    """The fact to write about: the change itself if it moved, else the first that did."""
    parts = {which(told(record, name)): name for name in moved}
    return next((parts[part] for part in CHIEF if part in parts), moved[0])
