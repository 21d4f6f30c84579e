"""CSV files as columns of text, quickly: many small files at once, or one large one in pieces.

Only what can be read in one way is read here: text without odd quotation marks, each row as long as
the header. The rest is for `csv_by_line.py`, which names what is wrong.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator
from typing import BinaryIO, NamedTuple

import numpy as np
import pyarrow as pa
from pyarrow import csv as arrow_csv

from pipeline.ingest.csv_by_line import PIECE
from pipeline.ingest.text_blocks import Block, File, Text, from_arrow

MARK = "\x1e"  # stands in a row of its own after each of the files that are read at once
MOST_HEADER = 1 << 20  # bytes of the first line
_QUOTE = ord('"')
_ENDS = np.frombuffer(b',\r\n"', np.uint8)  # what may stand beside a quotation mark


class Plain(NamedTuple):
    """The first line of a file's text, and where the rows begin in its bytes."""

    header: bytes
    body: int


def plain_header(data: bytes) -> Plain | None:
    """The first line of a file, where it is one row; None for the slow reader."""
    start = 3 if data.startswith(b"\xef\xbb\xbf") else 0
    while data[start : start + 1] in (b"\r", b"\n"):
        start += 1
    end = data.find(b"\n", start, start + MOST_HEADER)
    if end < 0:
        return None
    header = data[start:end].removesuffix(b"\r")
    if not header or header.count(b'"') % 2 or b"\r" in header:
        return None
    return Plain(header, end + 1)


def names_in(header: bytes) -> list[str]:
    return next(csv.reader([header.decode("utf-8")]))


def plain_text(data: bytes) -> bool:
    """Whether some whole lines are text that can be read in one way."""
    if b"\0" in data or data.count(b"\r") != data.count(b"\r\n"):
        return False
    try:
        if not data.isascii():
            data.decode("utf-8")
    except UnicodeDecodeError:
        return False
    return b'"' not in data or _paired(data)


def _paired(data: bytes) -> bool:
    """Each quotation mark opens or closes a cell, or is doubled in one."""
    text = np.frombuffer(data, np.uint8)
    marks = np.flatnonzero(text == _QUOTE)
    if len(marks) % 2:
        return False
    before, after = marks[::2] - 1, marks[1::2] + 1
    beside = np.concatenate([text[before[before >= 0]], text[after[after < len(text)]]])
    return bool(np.isin(beside, _ENDS).all())


class Batch(NamedTuple):
    """Files of one header: each its place among the source's files, and its rows' bytes."""

    header: list[str]
    places: list[int]
    bodies: list[memoryview | bytes]


def read_batch(batch: Batch, picked: dict[str, int], files: list[File]) -> Block:
    """All rows of some small files. Raises pyarrow.ArrowInvalid where one of them is not plain."""
    key = min(picked.values())
    mark = b"," * key + MARK.encode() + b"," * (len(batch.header) - key - 1) + b"\n"
    pieces: list[memoryview | bytes] = []
    for body in batch.bodies:
        ended = not len(body) or bytes(body[-1:]) == b"\n"
        pieces += [body, mark] if ended else [body, b"\n", mark]
    whole = pa.py_buffer(b"".join(pieces))
    table = arrow_csv.read_csv(
        pa.BufferReader(whole), *_options(len(batch.header), picked, whole.size + 1)
    )
    columns = _columns(table, picked)
    marked = next(column for ours, column in columns.items() if picked[ours] == key)
    if MARK not in marked.values:
        raise pa.ArrowInvalid("files ran together")
    is_mark = marked.codes == marked.values.index(MARK)
    ends = np.flatnonzero(is_mark)
    if len(ends) != len(batch.places) or ends[-1] != len(is_mark) - 1:
        raise pa.ArrowInvalid("files ran together")
    counts = np.diff(ends, prepend=-1) - 1
    starts = np.cumsum(counts) - counts
    place = np.arange(counts.sum()) - np.repeat(starts, counts)
    file = np.repeat(np.array(batch.places, np.int32), counts)
    kept = {ours: column.take(~is_mark) for ours, column in columns.items()}
    return Block(kept, files, file, place)


def pieces_of(data: BinaryIO) -> Iterator[bytes]:
    """A large file's bytes from where `data` stands, cut where a row of plain text ends."""
    while piece := data.read(PIECE):
        lines = [piece, data.readline()]
        marks, beyond = sum(line.count(b'"') for line in lines), 0
        while marks % 2 and lines[-1] and beyond < PIECE:
            lines.append(data.readline())  # a cell of several lines
            marks, beyond = marks + lines[-1].count(b'"'), beyond + len(lines[-1])
        yield b"".join(lines)  # with a mark too many it is not plain, and the slow reader says so


def stream_large(
    data: BinaryIO, header: list[str], picked: dict[str, int]
) -> Iterator[dict[str, Text]]:
    """The rows of one large file in pieces, from where `data` stands.

    Not by the library's own streaming, which reads half a gigabyte ahead. Raises
    pyarrow.ArrowInvalid at the piece that is not plain.
    """
    for piece in pieces_of(data):
        if piece.strip(b"\r\n"):
            options = _options(len(header), picked, len(piece) + 1)
            yield _columns(arrow_csv.read_csv(pa.BufferReader(piece), *options), picked)


def _options(
    length: int, picked: dict[str, int], block: int
) -> tuple[arrow_csv.ReadOptions, arrow_csv.ParseOptions, arrow_csv.ConvertOptions]:
    wanted = [str(place) for place in sorted(set(picked.values()))]
    coded = pa.dictionary(pa.int32(), pa.string())
    return (
        arrow_csv.ReadOptions(
            block_size=block, column_names=[str(place) for place in range(length)]
        ),
        arrow_csv.ParseOptions(newlines_in_values=True),
        arrow_csv.ConvertOptions(
            check_utf8=False,  # seen to already, of all cells
            column_types=dict.fromkeys(wanted, coded),
            include_columns=wanted,
            null_values=[],
            strings_can_be_null=False,
        ),
    )


def _columns(table: pa.Table, picked: dict[str, int]) -> dict[str, Text]:
    """The picked columns, each converted once though it may be two of ours."""
    made = {place: from_arrow(table[str(place)]) for place in set(picked.values())}
    return {ours: made[place] for ours, place in picked.items()}
