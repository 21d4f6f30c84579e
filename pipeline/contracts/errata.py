"""What `correction` finds of a number: then and now, what used it, why it moved, what to say."""

from __future__ import annotations

from datetime import date

from pipeline.contracts.base import Contract
from pipeline.contracts.editions import Causes, Said


class SaidIn(Contract, kw_only=True):
    """What an edition said of a number, none where it had it not; whether it is to be corrected."""

    edition: int
    date: date
    said: Said | None
    wrong: bool


class ThenAndNow(Contract, kw_only=True):
    """A fact as the brief says it now, and as each edition did."""

    id: str
    now: Said | None
    editions: list[SaidIn]


class Wording(Contract, kw_only=True):
    """What was said and what is right now, none when there is nothing to say instead.

    `right` when it may still be said so; `bare` is a number without its unit; `of` is what of its
    finding the fact is, '' of none.
    """

    old: str
    new: str | None
    right: bool
    bare: bool
    of: str


class SentenceUse(Contract, kw_only=True):
    """A sentence of the answer, or of a beat by its title, that says the number.

    `verdict` when it says nothing of it that is wrong and stands on a verdict that moved. `own`
    when its line was made of the finding, or names what it is of; else the words alone were found,
    and may be another number's.
    """

    part: str
    sentence: str
    says: list[Wording]
    verdict: bool
    own: bool


class ChartUse(Contract, kw_only=True):
    """A chart that draws it: files in charts/, its title, and whether the title says it."""

    chart: str
    files: list[str]
    title: str
    title_says: bool


class RowUse(Contract, kw_only=True):
    """A fact's line in facts.csv, as a spreadsheet counts them."""

    id: str
    line: int


class CitedBy(Contract, kw_only=True):
    """A topic or an edition whose see_also cites it."""

    by: str
    file: str
    cites: str


class Why(Causes, kw_only=True):
    """Of this number only; `elsewhere` counts new corrections that touch no match behind it."""

    elsewhere: int


class EditionUse(Contract, kw_only=True):
    """All that used the moved facts in one edition, and why they moved since."""

    edition: int
    date: date
    folder: str
    moved: list[str]
    sentences: list[SentenceUse]
    charts: list[ChartUse]
    printed: list[str]
    rows: list[RowUse]
    cited: list[CitedBy]
    why: Why


class WrongEdition(Contract, kw_only=True):
    edition: int
    date: date


class CaptionPlace(Wording, kw_only=True):
    """Where a wording is said, in milliseconds; whether the words around it name its subject.

    `verdict` says what became of a verdict that the words stand on; they may hold no number.
    """

    at: int
    named: bool
    verdict: str | None = None


class InCaptions(Contract, kw_only=True):
    """What was looked for in a file of captions and where it was found; times may be estimated."""

    file: str
    estimated: bool
    subject: str
    looked_for: list[str]
    places: list[CaptionPlace]


class Errata(Contract, kw_only=True):
    """All of it, of one asked number or of all numbers of a finding.

    `also` are other findings that answer the same question, by their ids.
    """

    topic: str
    asked: str
    facts: list[ThenAndNow]
    also: list[str]
    wrong: list[WrongEdition]
    editions: list[EditionUse]
    drafts: list[str]
    captions: InCaptions | None = None


class EditionErrata(Contract, kw_only=True):
    """All that moved since an edition, finding by finding; captions and scripts are heard once."""

    topic: str
    edition: int
    date: date
    moved: list[Errata]
    captions: list[InCaptions]
