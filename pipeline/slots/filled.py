"""A script with its numbers: each slot holds what its fact says in that form, and nothing else."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain, islice

from pipeline.contracts.facts import Fact
from pipeline.errors import OF_ONE_KIND, Problem, UserError, did_you_mean, nearest
from pipeline.slots.marked_up import Block, Kind, Mark, Slot
from pipeline.wording import script
from pipeline.wording.fact_forms import FORMS, forms_of, in_form

BARE = "Sponsor"  # what a slot is called that has no name


@dataclass(frozen=True)
class Run:
    """Words of one look: emphasised, or a number out of a slot."""

    text: str
    stressed: bool = False
    number: bool = False


@dataclass(frozen=True)
class Said:
    """A line to say, or a cue, in the order of the script; `time` of a sponsor's slot."""

    kind: Kind
    runs: tuple[Run, ...]
    time: str = ""

    @property
    def text(self) -> str:
        return "".join(run.text for run in self.runs)


@dataclass(frozen=True, kw_only=True)
class Part:
    """What stands under one heading, with its words, its time and the time so far."""

    title: str
    rows: list[Said]
    words: int
    time: str
    total: str

    @property
    def lines(self) -> list[Said]:
        return [row for row in self.rows if row.kind == "line"]


@dataclass(frozen=True, kw_only=True)
class Script:
    """A script as it is read; times as those of a run sheet."""

    title: str
    parts: list[Part]
    words: int
    total: str
    range: str
    rate: str
    rates: str


def filled(
    blocks: Sequence[Block], facts: Iterable[Fact], charts: Sequence[str], file: str
) -> Script:
    """The script. Raises UserError with each slot and chart that there is none of, by its line."""
    known = {fact.id: fact for fact in facts}
    _refuse(chain(_wrong_charts(blocks, charts, file), _wrong_slots(blocks, known, file)))
    title, clock, parts = "", script.Clock(), list[Part]()
    waiting: list[Block] = []
    heading: Block | None = None
    for block in blocks:
        if block.kind == "title":
            title = _said(block, known).text
        elif block.kind == "heading":
            parts += _part(heading, waiting, known, clock)
            heading, waiting = block, []
        else:
            waiting.append(block)
    parts += _part(heading, waiting, known, clock)
    return Script(
        title=title,
        parts=parts,
        words=sum(part.words for part in parts),
        total=clock.total,
        range=clock.range,
        rate=script.AT,
        rates=script.FROM_TO,
    )


def checked_slots(blocks: Sequence[Block], facts: Mapping[str, Fact], file: str) -> None:
    """Raises UserError with each slot that no fact fills, by its line."""
    _refuse(_wrong_slots(blocks, facts, file))


def _refuse(problems: Iterator[Problem]) -> None:
    if found := sorted(islice(problems, OF_ONE_KIND)):
        raise UserError(found)


def _part(
    heading: Block | None, blocks: Sequence[Block], facts: Mapping[str, Fact], clock: script.Clock
) -> Iterator[Part]:
    """One part; none where nothing stands before the first heading."""
    if heading is None and not blocks:
        return
    rows = [_said(block, facts) for block in blocks]
    words = sum(script.words(row.text) for row in rows if row.kind == "line")
    slots = sum(block.seconds for block in blocks)
    usual, fastest, slowest = (seconds + slots for seconds in script.timing(words))
    yield Part(
        title=_said(heading, facts).text if heading else "",
        rows=rows,
        words=words,
        time=script.clock(usual),
        total=clock.run(usual, fastest, slowest),
    )


def _said(block: Block, facts: Mapping[str, Fact]) -> Said:
    runs, depth = list[Run](), 0
    for piece in block.pieces:
        if isinstance(piece, Mark):
            depth += 1 if piece.opens else -1
        elif isinstance(piece, Slot):
            runs.append(Run(in_form(facts[piece.fact], piece.form) or "", depth > 0, number=True))
        else:
            runs.append(Run(piece, depth > 0))
    if block.kind == "sponsor":
        runs = runs or [Run(BARE)]
    return Said(block.kind, tuple(runs), script.clock(block.seconds) if block.seconds else "")


def _wrong_charts(blocks: Sequence[Block], charts: Sequence[str], file: str) -> Iterator[Problem]:
    for block in blocks:
        if block.kind == "chart" and not block.slots:
            name = "".join(piece for piece in block.pieces if isinstance(piece, str))
            if name not in charts:
                message = f"no chart '{name}'{did_you_mean(name, charts)}"
                yield Problem(file, f"{message}; call it otherwise than a chart", block.line, 1)


def _wrong_slots(
    blocks: Sequence[Block], facts: Mapping[str, Fact], file: str
) -> Iterator[Problem]:
    for block in blocks:
        for slot in block.slots:
            if wrong := wrong_with(slot, facts):
                yield Problem(file, wrong, slot.line, slot.column)


def wrong_with(slot: Slot, facts: Mapping[str, Fact]) -> str | None:
    """What is wrong with a slot, and what to write instead; None where it can be filled."""
    name = slot.form[:1].lower() + slot.form[1:]
    if slot.fact not in facts:
        near = nearest(slot.fact, facts)
        instead = f" (did you mean '{near}'?)" if near else ""
        return f"no fact '{slot.fact}'{instead}; facts.csv has every id"
    if name not in FORMS:
        return f"no form '{slot.form}'{did_you_mean(name, FORMS)}"
    if in_form(facts[slot.fact], slot.form) is None:
        own = ", ".join(forms_of(facts[slot.fact]))
        return f"'{slot.fact}' has no form '{slot.form}'; it has: {own}"
    return None
