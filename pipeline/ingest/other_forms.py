"""Files that are not plain CSV in UTF-8: what they look like, and what to do about it."""

from __future__ import annotations

import codecs
from typing import IO, NamedTuple

DELIMITERS = {"comma": ",", "semicolon": ";", "tab": "\t", "bar": "|"}
PIECE = 1 << 22  # bytes looked at at once
SHEET = "in a spreadsheet 'CSV UTF-8'"
AS_TABLE = "read it as layout table with written:"
MARKS = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)
HEAD = 4_096  # bytes by which letters are told


class Undecoded(NamedTuple):
    """The first byte of a file that its encoding has not: its place from 0, and its line.

    `nul`: it is a NUL, which no text has; `cut`: the file ends inside a letter.
    """

    byte: int
    line: int
    nul: bool
    cut: bool


def first_undecoded(data: IO[bytes], encoding: str = "utf-8", nul: bool = True) -> Undecoded | None:
    """Where a file is no text of an encoding, from where `data` stands; None where it is.

    `nul`: whether a NUL byte is none either.
    """
    decoder = codecs.getincrementaldecoder("utf-8-sig" if encoding == "utf-8" else encoding)()
    before, line = 0, 1
    while True:
        piece = data.read(PIECE)
        if nul and (at := piece.find(b"\0")) >= 0:
            return Undecoded(before + at, line + piece.count(b"\n", 0, at), True, False)
        kept = decoder.getstate()[0]
        try:
            line += decoder.decode(piece, final=not piece).count("\n")
        except UnicodeDecodeError as error:
            good = error.object[: error.start].decode(error.encoding, "replace")
            place = before - len(kept) + error.start
            return Undecoded(place, line + good.count("\n"), False, not piece)
        except UnicodeError:  # UTF-16 without its mark
            return Undecoded(before, line, False, False)
        if not piece:
            return None
        before += len(piece)


def is_utf_16(head: bytes) -> bool:
    """Whether a file's beginning looks like UTF-16: its mark, or every other byte a NUL."""
    half = len(head) // 2
    nuls = max(head[::2].count(0), head[1::2].count(0))
    return head.startswith(MARKS) or (half > 0 and nuls > half * 0.7)


def mended_letters(head: bytes, wrong: Undecoded, csv: bool = True) -> str:
    """What to do with a file that is no UTF-8, by what its beginning looks like."""
    if is_utf_16(head):
        looks, encoding = "UTF-16", "utf-16"
    elif wrong.nul or wrong.cut:
        return "fetch it again"
    else:
        looks, encoding = "Windows-1252 or Latin-1", "windows-1252"
    told = f"it looks like {looks}: save it as UTF-8"
    return f"{told} ({SHEET}), or {AS_TABLE} encoding: {encoding}" if csv else told


def not_utf_8(head: bytes, wrong: Undecoded, csv: bool = True) -> str:
    """What is said of it; only what is `csv` can be read in other letters."""
    what = "not a text file (a NUL byte at" if wrong.nul else "not UTF-8 text (byte"
    return f"{what} {wrong.byte}); {mended_letters(head, wrong, csv)}"


def other_delimiter(header: list[str], said: str = "comma") -> str | None:
    """What stands between the cells of a first row that was read with the delimiter `said`.

    None where that seems to be it.
    """
    mark = DELIMITERS[said]
    line = mark.join(header)
    counts = {name: line.count(each) for name, each in DELIMITERS.items() if name != said}
    found = max(counts, key=lambda name: counts[name])
    return found if counts[found] > line.count(mark) else None


def not_apart(header: list[str], said: str = "comma", table: bool = False) -> str | None:
    """What to say of a header that is kept apart by something else; `table`: of that layout."""
    found = other_delimiter(header, said)
    if found is None:
        return None
    apart = f"its cells are kept apart by a {found}, not a {said}"
    if table:
        return f"{apart}: write delimiter: {found} under 'written' of this source in sources.yaml"
    return f"{apart}: save it with commas, or {AS_TABLE} delimiter: {found}"
