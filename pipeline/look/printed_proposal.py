"""What `look` prints: the columns it found, what is missing, what is odd, what to do next."""

from __future__ import annotations

from collections.abc import Iterator

from pipeline.look.mapped import of_a_ball
from pipeline.look.proposal import Proposal
from pipeline.look.sampled import samples
from pipeline.terminal import headed, wrap
from pipeline.text import listed

OURS, THEIRS = 18, 24
UNUSED = 12  # columns that are listed
FEW_OF_A_BALL = 2  # fewer columns of a ball: likely another kind of table


def printed(made: Proposal, title: str) -> Iterator[str]:
    """The lines, for people."""
    yield f"{title}: {made.head.rows:,} rows looked at, {len(made.head.columns)} columns"
    if len(of_a_ball(made.columns)) < FEW_OF_A_BALL:
        seen = listed(list(made.columns)) or "nothing"
        yield from wrap(
            f"this does not look like a table with a row a delivery (found of it: {seen}): "
            "is it the right file? If it is, its columns are yours to name",
            first="  ",
            rest="    ",
        )
    yield f"  {'ours':{OURS}}{'theirs':{THEIRS}}{'':8}such as"
    for ours, guess in made.columns.items():
        name = guess.column.name
        yield f"  {ours:{OURS}}{name:{THEIRS}}{guess.sure:8}{samples(guess.column)}"
    for name, what in made.missing.items():
        yield from wrap(f"missing: {name}: {what}", first="  ", rest="    ")
    for ours, words in made.values.items():
        told = ", ".join(f"{theirs} = {word or 'none'}" for theirs, word in words.items())
        yield from wrap(f"{ours} in words of its own: {told}", first="  ", rest="    ")
    for what in made.odd:
        yield from wrap(f"note: {what}", first="  ", rest="    ")
    if made.unused:
        more = f" and {len(made.unused) - UNUSED} more" if len(made.unused) > UNUSED else ""
        yield from headed("not used", f"{', '.join(made.unused[:UNUSED])}{more}")


def next_steps(file: str, first: int, last: int, todo: list[str]) -> Iterator[str]:
    """How the proposal becomes a source; `todo` are the keys that a person has to decide."""
    yield f"The map is in {file}, lines {first} to {last}, as a comment. Take the marks away with"
    yield f"  sed -i '{first},{last}s/^# //' {file}"
    what = f"write what stands at its {len(todo)} TODO ({', '.join(todo)}), " if todo else ""
    yield from wrap(f"then {what}read it over, and", first="", rest="  ")
    yield "  make brief"
