"""Is a file the font or the picture that it is named as: asked of its first bytes, not by drawing.

A font's list of tables must fit the file, a picture's header is read for its size alone, so that
no file however large is unpacked to be refused.
"""

from __future__ import annotations

import struct
from pathlib import Path

FONTS = (b"\x00\x01\x00\x00", b"OTTO", b"true")  # TrueType, and OpenType with its two outlines
NEEDED = {b"cmap", b"head", b"hhea", b"hmtx", b"maxp"}
MOST_TABLES = 256
PNG = b"\x89PNG\r\n\x1a\n"
MOST_PIXELS = 4000  # a side of a logo, which is drawn 220 pixels wide


def font_fault(path: Path) -> str | None:
    """Why the file can't be used as a font, if it can't."""
    try:
        with path.open("rb") as file:
            start = file.read(12 + 16 * MOST_TABLES)
            size = file.seek(0, 2)
    except OSError as error:
        return f"can't be read ({error.strerror})"
    if start[:4] not in FONTS or len(start) < 12:
        return "not a TrueType or OpenType font"
    (count,) = struct.unpack(">H", start[4:6])
    tables = [start[at : at + 16] for at in range(12, 12 + 16 * min(count, MOST_TABLES), 16)]
    whole = [table for table in tables if len(table) == 16]
    ends = [sum(struct.unpack(">II", table[8:])) for table in whole]
    if len(whole) < count or any(end > size for end in ends):
        return "a font that is cut short"
    if NEEDED - {table[:4] for table in whole}:
        return "not a font with letters of its own"
    return None


def picture_fault(path: Path) -> str | None:
    """Why the file can't be used as a PNG picture, if it can't."""
    try:
        with path.open("rb") as file:
            start = file.read(24)
    except OSError as error:
        return f"can't be read ({error.strerror})"
    if len(start) < 24 or not start.startswith(PNG) or start[12:16] != b"IHDR":
        return "not a PNG picture"
    width, height = struct.unpack(">II", start[16:24])
    if not (0 < width <= MOST_PIXELS and 0 < height <= MOST_PIXELS):
        return f"{width:,} x {height:,} pixels; the most is {MOST_PIXELS:,} a side"
    return None
