"""A file as sentences, whatever it is: a kept script, plain text, captions."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from pipeline.contracts.facts import Fact
from pipeline.slots.marked_up import not_too_long, read_script
from pipeline.transcripts import joined, script_text
from pipeline.transcripts.caption_files import captions, text_of
from pipeline.transcripts.passage import Passage
from pipeline.transcripts.rolling import spoken

MARKDOWN, TEXT = ".md", ".txt"


def passages_of(path: Path, facts: Sequence[Fact]) -> list[Passage]:
    """The sentences that are said in a file, in their order; `facts` fill the slots of a script.

    What is no script by its name is taken for captions. Raises UserError when it can't be read, or
    has a slot that no fact fills.
    """
    if has_times(path):
        return joined.passages(spoken(captions(path)))
    if path.suffix.lower() == TEXT:
        return script_text.of_text(not_too_long(text_of(path), str(path)))
    return script_text.of_blocks(read_script(path), facts, str(path))


def has_times(path: Path) -> bool:
    """Whether it is captions, whose sentences have times and no lines."""
    return path.suffix.lower() not in (TEXT, MARKDOWN)
