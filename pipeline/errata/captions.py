"""Where captions or a script say a number: what was looked for, and each place with its time."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import NamedTuple

from msgspec import structs

from pipeline.contracts.errata import CaptionPlace, InCaptions, Wording
from pipeline.contracts.facts import Fact
from pipeline.errata.hearing import Word, heard, places
from pipeline.script.judged import LONG_AGO
from pipeline.transcripts.passage import Passage
from pipeline.transcripts.read_in import has_times, passages_of
from pipeline.wording import script

BEFORE, AFTER = 30, 12  # words around a number in which its subject may be named
END = (".", "!", "?")
# Words that say nothing of what a number is of.
SMALL = {"the", "a", "an", "in", "of", "on", "at", "for", "and", "to", "against", "by", "from"}


class Said(NamedTuple):
    """A place in a sentence, by the sentence's place among all."""

    sentence: int
    place: CaptionPlace


class Segment(NamedTuple):
    """Words of one sentence out of one caption, or a script's sentence; when they are said."""

    sentence: int
    at: int
    text: str


Judged = Callable[[Sequence[Passage]], Sequence[Said]]


def in_captions(
    path: Path,
    wordings: Sequence[Wording],
    subject: str,
    judged: Judged | None = None,
    facts: Sequence[Fact] = (),
) -> InCaptions:
    """Where any of the wordings is said, and what else is `judged` to say the number.

    `facts` fill the slots of a script. Raises UserError when the file can't be read.
    """
    passages = passages_of(path, facts)
    timed = list(_segments(passages))
    alone = list(_said(timed, wordings, subject)) if wordings else []
    found = _joined(alone, [_timed(one, timed) for one in judged(passages)] if judged else [])
    return InCaptions(
        file=str(path),
        estimated=not has_times(path),
        subject=subject,
        looked_for=[wording.old for wording in wordings if not wording.right],
        places=[one.place for one in sorted(found, key=lambda one: (one.place.at, one.sentence))],
    )


def _segments(passages: Sequence[Passage]) -> Iterator[Segment]:
    """A script's sentences each when it would begin if all is read at the usual rate."""
    before = 0
    for at, passage in enumerate(passages):
        if passage.start is None:
            yield Segment(at, round(script.seconds(before) * 1000), passage.text)
            before += script.words(passage.text)
            continue
        ends = [*(begins for begins, _ in passage.turns[1:]), len(passage.text)]
        for (begins, time), end in zip(passage.turns, ends, strict=True):
            yield Segment(at, time, passage.text[begins:end])


def _timed(one: Said, timed: Sequence[Segment]) -> Said:
    """A script's place with the time that its sentence would begin at."""
    if one.place.at >= 0:
        return one
    at = next(segment.at for segment in timed if segment.sentence == one.sentence)
    return one._replace(place=structs.replace(one.place, at=at))


def _joined(alone: Sequence[Said], judged: Sequence[Said]) -> list[Said]:
    """Every place once: one that both have as it was worded, and as one that names its subject.

    A number may not stay as said in a sentence that stands on a verdict that turned.
    """
    fallen = {one.sentence for one in judged if one.place.verdict}
    alone, found = (
        [one for one in some if not (one.place.right and one.sentence in fallen)]
        for some in (alone, judged)
    )
    taken = list[Said]()
    for one in alone:
        same = [other for other in found if _is_same(one, other)]
        found = [other for other in found if other not in same]
        named = one.place.named or bool(same)
        taken.append(one._replace(place=structs.replace(one.place, named=named)))
    return [*taken, *found]


def _is_same(one: Said, other: Said) -> bool:
    """Whether two places of a sentence say one number: the words of one are in the other's."""
    if one.sentence != other.sentence or other.place.verdict:
        return False
    mine, others = (f" {_words(said.place.old)} " for said in (one, other))
    return mine in others or others in mine


def _words(text: str) -> str:
    return " ".join(word.text for word in heard(text))


def _said(timed: Sequence[Segment], wordings: Sequence[Wording], subject: str) -> Iterator[Said]:
    """Each place where one of the wordings is said.

    `named` is whether the words around it name the subject: captions can't know more. A number
    without its unit counts only then.
    """
    words = [word for at, each in enumerate(timed) for word in heard(each.text, at)]
    about = {word.text for word in heard(subject)} - SMALL
    for first, at in places(words, [(wording.old, wording.bare) for wording in wordings]):
        segment = timed[words[first].piece]
        near = [w for w in words[max(0, first - BEFORE) : first] if _recent(timed, w, segment.at)]
        named = about <= {word.text for word in [*near, *_rest(words, first)]}
        if named or not wordings[at].bare:
            place = CaptionPlace(**structs.asdict(wordings[at]), at=segment.at, named=named)
            yield Said(segment.sentence, place)


def _recent(timed: Sequence[Segment], word: Word, start: int) -> bool:
    return start - timed[word.piece].at <= LONG_AGO


def _rest(words: Sequence[Word], first: int) -> Iterator[Word]:
    """The words from a place on, to the end of its sentence."""
    for word in words[first : first + AFTER]:
        yield word
        if word.stop in END:
            return
