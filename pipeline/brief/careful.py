"""Cautions, each once in a brief: on the top sheet, or on the page of the first beat it bears on.

What holds of the whole topic is not said again where it is no worse. What is of a beat's own
findings stands on its page; if an earlier place has the very sentence, the page points there.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, NamedTuple

from pipeline.brief import coverage
from pipeline.contracts.finding import Finding
from pipeline.contracts.findings import Findings
from pipeline.contracts.notes import AnyNote, OneCarries
from pipeline.episode.choice import of_beat
from pipeline.text import listed
from pipeline.wording import notes, numbers, of_kinds
from pipeline.wording.clusters import USUAL
from pipeline.wording.noted import Noted, about

if TYPE_CHECKING:
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format
    from pipeline.config.views import BriefView

MOST_CAUTIONS = 3  # on the top sheet
MOST_NAMED = 3  # rows that can't be called; of more it is told how many
AT_THE_TOP = "at the top"
NOTHING = "Nothing beyond the interval itself."
TOO_WIDE = "rows too uncertain to call"


class Line(NamedTuple):
    """A caution to be printed; of a note with the note, else with its name if it comes again."""

    said: str
    noted: Noted | None = None
    name: str = ""


class Care(NamedTuple):
    """A page's own cautions; and of those that were told before, where to find them."""

    said: list[str]
    again: str


class Careful(NamedTuple):
    """Cautions of a brief: the top sheet's, and each beat's by its id."""

    top: list[str]
    beats: dict[str, Care]


class _Told:
    """What has been printed so far, and where."""

    def __init__(self) -> None:
        self.where: dict[str, str] = {}  # by sentence
        self.noted: list[tuple[Noted, str]] = []

    def tell(self, line: Line, where: str) -> str:
        self.where[line.said] = where
        if line.noted:
            self.noted.append((line.noted, where))
        return line.said

    def covered(self, noted: Noted) -> str | None:
        """Where a note of the whole topic has been told that leaves nothing of this one to say."""
        return next((where for told, where in self.noted if notes.covers(told, noted)), None)


def careful(view: BriefView, findings: Findings, first: Sequence[str] = ()) -> Careful:
    """Every caution of a brief in the place where it is printed; `first` stand before all others.

    The top sheet has the first, and then the headlines', as many as it has room for; whatever it
    leaves out is on the pages.
    """
    told = _Told()
    top = [told.tell(line, AT_THE_TOP) for line in _top(view, findings, first)[:MOST_CAUTIONS]]
    beats = {
        beat.id: _page(beat, f"in beat {position}", view, findings, told)
        for position, beat in enumerate(view.beats, start=1)
    }
    return Careful(top, beats)


def _top(view: BriefView, findings: Findings, first: Sequence[str]) -> list[Line]:
    """On what could turn an answer over, on what is unknown, then the headlines' others."""
    by_id = {finding.id: finding for finding in findings.findings}
    own = noted(view, [by_id[name] for name in view.headlines])
    thin = coverage.thin(findings.data)
    blurring = [each for each in own if not notes.overturns(each.note)]

    def overturns(note: AnyNote) -> bool:
        return notes.overturns(note) and not notes.foremost(note)

    foremost = _lines(each for each in own if notes.foremost(each.note))
    lines = [*foremost[:1], *(Line(said) for said in first), *foremost[1:]]
    lines += _lines(each for each in own if overturns(each.note))
    lines += _lines(thin)
    family = findings.family
    if family.cant_tell:
        count = numbers.counted(family.cant_tell, "comparison")
        lines.append(Line(f"{count} of {family.looked_at} can’t be called either way."))
    left = [each for each in blurring if not any(notes.covers(told, each) for told in thin)]
    return lines + _lines(left)


def noted(view: BriefView, findings: Sequence[Finding]) -> list[Noted]:
    """The notes of these findings, each with what it is about."""
    beats = {beat.id: beat for beat in view.beats}
    told = []
    for finding in findings:
        asked = beats[finding.beat], view.measures[finding.measure], view.format
        of = about(*asked)
        for note in finding.notes:
            told.append(Noted(note, of._replace(subject=_subject(note, finding, *asked))))
    return told


def _subject(note: AnyNote, finding: Finding, beat: AnyBeat, measure: Measure, form: Format) -> str:
    """The finding's number, for notes that name it: as a phrase, or as a headline's label."""
    if notes.foremost(note):
        return of_kinds.measured(finding, beat, measure, form)
    if isinstance(note, OneCarries):
        return of_kinds.headline_name(finding, beat, measure, form)
    return ""


def _lines(told: Iterator[Noted] | Sequence[Noted]) -> list[Line]:
    return [Line(notes.caution(each), each, notes.again(each.note)) for each in notes.ranked(told)]


def _page(beat: AnyBeat, here: str, view: BriefView, findings: Findings, told: _Told) -> Care:
    """What is said here first; what was said before and holds here too, by its name and place."""
    mine = [finding for finding in findings.findings if finding.beat == beat.id]
    said: list[str] = []
    before: dict[str, str] = {}
    covered: list[str] = []
    for line in [*_lines(noted(view, mine)), *_too_wide(beat, mine, view, findings)]:
        if line.name and line.said in told.where:
            before[line.name] = told.where[line.said]
        elif line.noted and not line.name and (where := told.covered(line.noted)):
            covered.append(where)
        else:
            said.append(told.tell(line, here))
    return Care(said, _again(before) or ("" if said else _nothing(covered)))


def _again(before: dict[str, str]) -> str:
    """'Here: few matches and a small count, as said at the top.'"""
    told = "; ".join(
        f"{listed([name for name, there in before.items() if there == where])}, as said {where}"
        for where in dict.fromkeys(before.values())
    )
    return f"Here: {told}." if told else ""


def _nothing(covered: list[str]) -> str:
    """Of a page that has no caution of its own."""
    places = listed(list(dict.fromkeys(covered)))
    return f"Nothing beyond what is said {places}." if places else NOTHING


def _too_wide(
    beat: AnyBeat, mine: Sequence[Finding], view: BriefView, findings: Findings
) -> list[Line]:
    """Rows that can't be called, where no line of the page says so."""
    wide = [finding for finding in mine if finding.because in ("interval_too_wide", *USUAL)]
    spoken = {finding.id for finding in of_beat(beat, view, findings).told}
    left = [finding for finding in wide if finding.id not in spoken]
    if not left:
        return []
    if len(left) > MOST_NAMED:
        said = f"{len(wide)} of {len(mine)} rows are too uncertain to call either way."
        return [Line(said, name=TOO_WIDE)]
    names = "; ".join(_row(finding, beat, view) for finding in left)
    return [Line(f"Too uncertain to call either way: {names}.", name=TOO_WIDE)]


def _row(finding: Finding, beat: AnyBeat, view: BriefView) -> str:
    """Its row's name, after its measure's where the beat has several."""
    if len(beat.measures) < 2:
        return of_kinds.row_name(finding, beat, view.format)
    return of_kinds.headline_name(finding, beat, view.measures[finding.measure], view.format)
