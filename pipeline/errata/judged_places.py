"""Where sentences say what an edition said and the brief says no more, as the check hears them.

The check is put to the edition's own facts: what they support was said of them, however it was
worded. Of a verdict that turned it is asked what would be said too surely, were it open.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from msgspec import structs

from pipeline.contracts.errata import CaptionPlace
from pipeline.contracts.script_check import NumberChecked, SentenceChecked
from pipeline.errata import conclusion
from pipeline.errata.captions import Said
from pipeline.errata.moved_facts import Moved
from pipeline.errata.number import OfFinding
from pipeline.errata.records import Record
from pipeline.errata.wordings import instead_of
from pipeline.said.cautious import is_cautious
from pipeline.said.naming import part_of
from pipeline.script.file_checked import with_slots
from pipeline.script.judged import judge_of
from pipeline.transcripts.passage import Passage

OPEN = "can't tell"
MOVES = ("change", "difference", "felt")  # numbers that say that something moved
STANDS_ON = ("no caution", "don't say")  # claims that a verdict would have to carry
ESTIMATED = -1  # the time of a script's sentence, which is estimated


def judged_places(
    passages: Sequence[Passage], then: Record, now: Record, moved: Sequence[Moved]
) -> Iterator[Said]:
    """Each number of the moved facts, then each sentence that stands on a verdict that turned."""
    was = with_slots(_judged(passages, then), passages, then.side.facts)
    today = _judged(passages, now)
    pairs = {pair.old.fact.id: pair for pair in moved}
    told = set[tuple[int, str | None]]()
    for at, sentence in enumerate(was):
        for number in sentence.numbers:
            pair = pairs.get(number.fact or "")
            if number.result == "supported" and pair:
                right = _still_right(number, today[at])
                fallen = right and _states_fallen(pair, passages[at].text)
                if fallen:
                    time = _time(passages[at], number.begins)
                    yield Said(at, _on_verdict(number.said, time, _fallen(pair)))
                else:
                    yield Said(at, _of_number(number, pair, passages[at], right))
                if fallen or not right:
                    told.add((at, pair.old.fact.finding))
    for said, finding in _on_verdicts(passages, then, pairs, was):
        if (said.sentence, finding) not in told:
            yield said


def _judged(passages: Sequence[Passage], record: Record) -> list[SentenceChecked]:
    return judge_of(record.view, record.findings, record.side.facts, record.episode)(passages)


def _still_right(number: NumberChecked, today: SentenceChecked) -> bool:
    """Whether the same words are right of the fact as it is."""
    return any(
        one.begins < number.ends and number.begins < one.ends and one.fact == number.fact
        for one in today.numbers
        if one.result == "supported"
    )


def _of_number(number: NumberChecked, pair: Moved, passage: Passage, right: bool) -> CaptionPlace:
    return CaptionPlace(
        old=number.said,
        new=instead_of(pair.old, pair.new),
        right=right,
        bare=False,
        of=part_of(pair.old),
        at=_time(passage, number.begins),
        named=True,
    )


def _on_verdicts(
    passages: Sequence[Passage],
    then: Record,
    pairs: Mapping[str, Moved],
    was: Sequence[SentenceChecked],
) -> Iterator[tuple[Said, str | None]]:
    """Sentences that state what the verdict of then carried, with what became of it; of which."""
    fallen = {pair.old.fact.finding: _fallen(pair) for pair in pairs.values() if _turned(pair)}
    if not fallen:
        return
    findings = structs.replace(
        then.findings,
        findings=[
            structs.replace(one, verdict=OPEN) if one.id in fallen else one
            for one in then.findings.findings
        ],
    )
    facts = [
        structs.replace(fact, verdict=OPEN) if fact.finding in fallen else fact
        for fact in then.side.facts
    ]
    opened = judge_of(then.view, findings, facts, then.episode)(passages)
    for at, (sentence, before) in enumerate(zip(opened, was, strict=True)):
        known = [(claim.kind, claim.begins) for claim in before.claims]
        for claim in sentence.claims:
            new = claim.kind in STANDS_ON and (claim.kind, claim.begins) not in known
            if new and claim.finding in fallen:
                time = _time(passages[at], claim.begins)
                place = _on_verdict(claim.said, time, fallen[claim.finding])
                yield Said(at, place), claim.finding


def _states_fallen(pair: Moved, text: str) -> bool:
    """Whether the number is the change itself, told without caution, and its verdict turned."""
    is_move = isinstance(pair.old, OfFinding) and pair.old.part in MOVES
    return is_move and _turned(pair) and not is_cautious(text)


def _fallen(pair: Moved) -> str:
    """What became of the verdict."""
    told = conclusion.stands(pair.old, pair.new)
    return told[0] if told else "The brief no longer has that number."


def _on_verdict(said: str, time: int, verdict: str) -> CaptionPlace:
    return CaptionPlace(
        old=said,
        new=None,
        right=False,
        bare=False,
        of="",
        at=time,
        named=True,
        verdict=verdict,
    )


def _turned(pair: Moved) -> bool:
    """Whether the verdict itself is another, or gone; drift and control aside."""
    old, new = pair
    if not isinstance(old, OfFinding):
        return False
    return not isinstance(new, OfFinding) or old.finding.verdict != new.finding.verdict


def _time(passage: Passage, character: int) -> int:
    at = passage.at(character)
    return ESTIMATED if at is None else at
