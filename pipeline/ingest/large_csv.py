"""One large CSV file, looked through before it is read in pieces."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import pyarrow as pa

from pipeline.ingest.csv_by_line import PIECE
from pipeline.ingest.text_blocks import File, Text
from pipeline.ingest.text_csv import names_in, plain_header, plain_text, stream_large


@dataclass
class Large:
    """Where the rows of a large file begin, and whether it has quotation marks."""

    header: list[str]
    body: int
    quoted: bool

    def pieces(self, file: File, picked: dict[str, int]) -> Iterator[dict[str, Text]]:
        with pa.OSFile(str(file.path)) as data:
            data.seek(self.body)
            yield from stream_large(data, self.header, picked, self.quoted)

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
    with file.opened() as data:
        piece = data.read(PIECE) + data.readline()
        plain, quoted = plain_header(piece), False
        while piece:
            if not plain_text(piece):
                return None
            quoted = quoted or b'"' in piece
            piece = data.read(PIECE) + data.readline()
    return Large(names_in(plain.header), plain.body, quoted) if plain else None
