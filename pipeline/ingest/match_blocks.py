"""Rows as blocks of whole matches, whatever order the files and their rows stand in.

Files that are named after the one match in them are given as they are read. The others are looked
through first: where a match's rows stand together they are given as they come, and those of the
rest are put aside until the end (on the disk where they are many).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import chain
from pathlib import Path

import numpy as np

from pipeline.errors import Problem
from pipeline.ingest.limits import MOST_ROWS_OF_A_MATCH
from pipeline.ingest.member_sizes import sizes_of
from pipeline.ingest.members import is_parquet
from pipeline.ingest.mistakes import Mistakes
from pipeline.ingest.progress import Progress
from pipeline.ingest.rows_aside import KEY, Aside, grouped
from pipeline.ingest.text_blocks import Block, joined
from pipeline.ingest.text_reader import BATCH, Reader

MANY_ROWS = 400_000  # fewer are read at once
OF_ONE_MATCH = 2 << 20  # bytes; a file that is larger holds several matches


def match_blocks(
    reader: Reader, names: list[str], mistakes: Mistakes, what: str
) -> Iterator[Block]:
    """The rows of some files, those of a match all in one block and in the order of the file.

    `what` is told of while it goes on.
    """
    sizes = sizes_of(reader.path, names)
    stems = Counter(Path(name).stem for name in names)
    small = [
        name
        for name in names
        if sizes[name] <= OF_ONE_MATCH and stems[Path(name).stem] == 1 and _is_csv(name)
    ]
    given: set[str] = set()  # names of files
    taken: set[str] = set()  # matches
    with Progress(what, len(small), "files") as progress:
        for block in reader.blocks(small):
            block = _named_after_their_match(block)
            if not len(block):
                break  # this archive names its files otherwise
            files = {reader.files[place].name for place in np.unique(block.file)}
            given |= files
            taken |= matches_in(block)
            yield block
            progress.more(len(files))
    others = [name for name in names if name not in given]
    for block in _others(reader, others, sum(sizes[name] for name in others), what):
        known = block.columns[KEY].having(taken.__contains__)
        twice = "match {match_id} has a file of its own too; keep one of the two"
        if known.any():
            wrong = Mistakes(found=mistakes.found)  # the match itself is in order
            wrong.add(block, known, twice)
            block = block.take(~known)
        if len(block):
            yield block


def _is_csv(name: str) -> bool:
    return not is_parquet(name)


def matches_in(block: Block) -> set[str]:
    """The matches that some rows are of."""
    column = block.columns[KEY]
    return {column.values[code] for code in np.flatnonzero(np.bincount(column.codes)).tolist()}


def _named_after_their_match(block: Block) -> Block:
    """The rows of files whose every row is of the match that they are named after."""
    column = block.columns[KEY]
    codes = {text: code for code, text in enumerate(column.values)}
    wanted = np.full(len(block.files), -1)
    for place in np.unique(block.file).tolist():
        wanted[place] = codes.get(Path(block.files[place].name).stem, -1)
    other = np.unique(block.file[column.codes != wanted[block.file]])
    return block.take(~np.isin(block.file, other)) if len(other) else block


def _others(reader: Reader, names: list[str], size: int, what: str) -> Iterator[Block]:
    """The same of files that hold any matches."""
    if size <= BATCH and all(map(_is_csv, names)):
        if blocks := list(reader.blocks(names)):
            yield grouped(joined(blocks))
        return
    runs, rows = _counted(reader, names)
    too_long = {name for name, count in rows.items() if count > MOST_ROWS_OF_A_MATCH}
    for name in sorted(too_long):
        message = f"match {name} has {rows[name]:,} rows; the most is {MOST_ROWS_OF_A_MATCH:,}"
        reader.problems.append(
            Problem(str(reader.own or reader.path), f"{message}: is match_id the right column?")
        )
    apart = {name for name, count in runs.items() if count > 1} - too_long
    whole = sum(rows.values()) - sum(rows[name] for name in too_long)
    with (
        Progress(what, whole, "rows", fewest=MANY_ROWS) as progress,
        Aside(sum(rows[name] for name in apart)) as aside,
    ):
        together = _together(reader.blocks(names), apart, too_long, aside)
        for block in chain(together, aside.blocks(reader)):
            yield block
            progress.more(len(block))


def _counted(reader: Reader, names: list[str]) -> tuple[Counter[str], Counter[str]]:
    """How many runs of rows each match has, and how many rows."""
    runs, rows = Counter[str](), Counter[str]()
    last: tuple[str, int] | None = None
    for block in reader.blocks(names, only=(KEY,)):
        column = block.columns[KEY]
        starts = _starts(column.codes, block.file)
        counts = np.diff(starts, append=len(block))
        for start, count in zip(starts.tolist(), counts.tolist(), strict=True):
            at = (column.text(start), int(block.file[start]))
            runs[at[0]] += at != last
            rows[at[0]] += count
            last = at
    return runs, rows


def _starts(*columns: np.ndarray) -> np.ndarray:
    """The rows where one of the columns is not as in the row before."""
    changed = np.ones(len(columns[0]), bool)
    changed[1:] = False
    for column in columns:
        changed[1:] |= column[1:] != column[:-1]
    return np.flatnonzero(changed)


def _together(
    blocks: Iterator[Block], apart: set[str], left_out: set[str], aside: Aside
) -> Iterator[Block]:
    """Matches whose rows stand together, each once its last row is there."""
    waiting: Block | None = None
    for block in blocks:
        if left_out:
            block = block.take(~block.columns[KEY].having(left_out.__contains__))
        if apart:
            of_those = block.columns[KEY].having(apart.__contains__)
            aside.add(block.take(of_those))
            block = block.take(~of_those)
        whole = joined([waiting, block]) if waiting else block
        if not len(whole):
            continue
        last = int(_starts(whole.columns[KEY].codes)[-1])
        if last:
            yield whole.take(np.arange(last))
        waiting = whole.take(np.arange(last, len(whole))).compact()
    if waiting:
        yield waiting
