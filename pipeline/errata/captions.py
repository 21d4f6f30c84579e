"""Where captions or a script say a number: what was looked for, and each place with its time."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from msgspec import structs

from pipeline.contracts.errata import CaptionPlace, InCaptions, Wording
from pipeline.errata.caption_files import Caption, captions, is_script, spoken
from pipeline.errata.hearing import Word, heard, places

BEFORE, AFTER = 30, 12  # words around a number in which its subject may be named
LONG_AGO = 60_000  # milliseconds: what was named so long before is not what a number is of
END = (".", "!", "?")
# Words that say nothing of what a number is of.
SMALL = {"the", "a", "an", "in", "of", "on", "at", "for", "and", "to", "against", "by", "from"}


def in_captions(path: Path, wordings: Sequence[Wording], subject: str) -> InCaptions:
    """Raises UserError when the file has no captions that can be read."""
    return InCaptions(
        file=str(path),
        estimated=is_script(path),
        subject=subject,
        looked_for=[wording.old for wording in wordings if not wording.right],
        places=_said(captions(path), wordings, subject),
    )


def _said(events: list[Caption], wordings: Sequence[Wording], subject: str) -> list[CaptionPlace]:
    """Each place where one of the wordings is said.

    `named` is whether the words around it name the subject: captions can't know more. A number
    without its unit counts only then.
    """
    words = spoken(events)
    about = {word.text for word in heard(subject)} - SMALL
    found = []
    for first, at in places(words, [(wording.old, wording.bare) for wording in wordings]):
        start = events[words[first].piece].start
        near = [w for w in words[max(0, first - BEFORE) : first] if _recent(events, w, start)]
        named = about <= {word.text for word in [*near, *_rest(words, first)]}
        if named or not wordings[at].bare:
            found.append(CaptionPlace(**structs.asdict(wordings[at]), at=start, named=named))
    return found


def _recent(events: list[Caption], word: Word, start: int) -> bool:
    return start - events[word.piece].start <= LONG_AGO


def _rest(words: list[Word], first: int) -> Iterator[Word]:
    """The words from a place on, to the end of its sentence."""
    for word in words[first : first + AFTER]:
        yield word
        if word.stop in END:
            return


def clock(milliseconds: int) -> str:
    """'03:12', or '1:03:12' from an hour on, as a video's description needs it."""
    minutes, seconds = divmod(milliseconds // 1000, 60)
    hours, rest = divmod(minutes, 60)
    return f"{hours}:{rest:02d}:{seconds:02d}" if hours else f"{minutes:02d}:{seconds:02d}"
