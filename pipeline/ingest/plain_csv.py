"""A CSV of other letters or another delimiter as the plain one: UTF-8, commas, the same lines."""

from __future__ import annotations

import csv
import io
from typing import BinaryIO, TextIO

from pipeline.errors import Problem, UserError
from pipeline.ingest.other_forms import DELIMITERS, HEAD, first_undecoded, is_utf_16

PIECE = 1 << 22  # characters copied at once


def made_plain(data: BinaryIO, out: TextIO, delimiter: str, encoding: str, file: str) -> None:
    """Write the same cells, each row on its line. Raises UserError for what is not as it is said
    to be; `file` is its name.
    """
    letters = "utf-8-sig" if encoding == "utf-8" else encoding
    text = io.TextIOWrapper(data, letters, newline="")
    try:
        if delimiter == "comma":
            while piece := text.read(PIECE):
                out.write(piece)
            return
        writer = csv.writer(out, lineterminator="\n")
        reader = csv.reader(text, delimiter=DELIMITERS[delimiter], strict=True)
        for row in reader:
            writer.writerow(row)
    except UnicodeError:
        raise UserError(_undecoded(data, encoding, file)) from None
    except csv.Error as error:
        message = f"not a readable CSV: {error}"
        raise UserError(Problem(file, message, reader.line_num, 1)) from None
    finally:
        text.detach()


def _undecoded(data: BinaryIO, encoding: str, file: str) -> Problem:
    """The first byte that the encoding has not, by its place in the file, and its line."""
    data.seek(0)
    head = data.read(HEAD)
    data.seek(0)
    wrong = first_undecoded(data, encoding, nul=False)
    others = [name for name in ("utf-8", "utf-16", "windows-1252") if name != encoding]
    likely = "utf-16" if is_utf_16(head) else " or ".join(n for n in others if n != "utf-16")
    place = f" (byte {wrong.byte})" if wrong else ""
    message = f"not {encoding} text{place}; mend 'encoding' in sources.yaml: {likely}?"
    return Problem(file, message, wrong.line if wrong else None, 1 if wrong else None)
