"""A CSV of other letters or another delimiter as the plain one: UTF-8, commas, the same lines."""

from __future__ import annotations

import csv
import io
from typing import BinaryIO, TextIO

from pipeline.errors import Problem, UserError

DELIMITERS = {"comma": ",", "semicolon": ";", "tab": "\t", "bar": "|"}
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
    except UnicodeError as error:
        at = f" (byte {error.start})" if isinstance(error, UnicodeDecodeError) else ""
        message = f"not {encoding} text{at}; mend 'encoding' in sources.yaml"
        raise UserError(Problem(file, message)) from None
    except csv.Error as error:
        message = f"not a readable CSV: {error}"
        raise UserError(Problem(file, message, reader.line_num, 1)) from None
    finally:
        text.detach()
