"""One large CSV file, looked through before it is read in pieces."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import pyarrow as pa

from pipeline.ingest.text_blocks import File, Text
from pipeline.ingest.text_csv import (
    Plain,
    names_in,
    pieces_of,
    plain_header,
    plain_text,
    stream_large,
)


@dataclass
class Large:
    """The columns of a large file, and where its rows begin."""

    header: list[str]
    body: int

    def pieces(self, file: File, picked: dict[str, int]) -> Iterator[dict[str, Text]]:
        with file.opened() as data:
            data.seek(self.body)
            yield from stream_large(data, self.header, picked)

    def is_plain(self, file: File, picked: dict[str, int]) -> bool:
        """Whether every row has the header's length, and none is without its first column."""
        first = next(iter(picked))
        try:
            pieces = self.pieces(file, {first: picked[first]})
            return not any("" in piece[first].values for piece in pieces)
        except pa.ArrowInvalid:
            return False


def large_csv(file: File) -> Large | None:
    """None where the bytes are for the slow reader."""
    plain: Plain | None = None
    with file.opened() as data:
        for place, piece in enumerate(pieces_of(data)):
            plain = plain_header(piece) if not place else plain
            if plain is None or not plain_text(piece):
                return None
    return Large(names_in(plain.header), plain.body) if plain else None
