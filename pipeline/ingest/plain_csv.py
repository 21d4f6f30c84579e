"""A CSV of other letters or another delimiter as the plain one: UTF-8, commas, the same lines."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING

from pipeline.errors import Problem, UserError

if TYPE_CHECKING:
    from pipeline.config.written import Written

DELIMITERS = {"comma": ",", "semicolon": ";", "tab": "\t", "bar": "|"}
QUOTE = '"'


def plain_csv(data: bytes, written: Written, file: str) -> bytes:
    """The same cells, each row on its line. Raises UserError for what is not as `written` says."""
    if written.encoding == "utf-8" and written.delimiter == "comma":
        return data
    text = _decoded(data, written.encoding, file)
    delimiter = DELIMITERS[written.delimiter]
    if delimiter != ",":
        simple = QUOTE not in text and "," not in text
        text = text.replace(delimiter, ",") if simple else _with_commas(text, delimiter, file)
    return text.encode("utf-8")


def _decoded(data: bytes, encoding: str, file: str) -> str:
    try:
        return data.decode("utf-8-sig" if encoding == "utf-8" else encoding)
    except UnicodeError as error:
        at = f" (byte {error.start})" if isinstance(error, UnicodeDecodeError) else ""
        message = f"not {encoding} text{at}; mend 'encoding' in sources.yaml"
        raise UserError(Problem(file, message)) from None


def _with_commas(text: str, delimiter: str, file: str) -> str:
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    try:
        for row in reader:
            writer.writerow(row)
    except csv.Error as error:
        raise UserError(Problem(file, f"not a readable CSV: {error}", reader.line_num, 1)) from None
    return out.getvalue()
