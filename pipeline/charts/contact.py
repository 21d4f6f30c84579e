"""The contact sheet: every frame of a topic on one page, for the editor."""

from __future__ import annotations

import io
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

from pipeline.charts.faces import FACES
from pipeline.charts.theme import Theme
from pipeline.errors import write_atomically

COLUMNS, WIDTH, HEIGHT, EDGE, LABEL = 4, 480, 270, 24, 34


def contact_sheet(names: list[str], theme: Theme, folder: Path, path: Path) -> None:
    """Write the sheet: each of the frames small, with its file's name, on a chequered ground."""
    rows = -(-len(names) // COLUMNS)
    size = (COLUMNS * (WIDTH + EDGE) + EDGE, rows * (HEIGHT + LABEL + EDGE) + EDGE)
    sheet = Image.new("RGB", size, theme.ground)
    pen = ImageDraw.Draw(sheet)
    face = ImageFont.truetype(FACES["Medium"], 20)
    for at, name in enumerate(names):
        left = EDGE + at % COLUMNS * (WIDTH + EDGE)
        top = EDGE + at // COLUMNS * (HEIGHT + LABEL + EDGE)
        small = (
            Image.open(folder / name)
            .convert("RGBA")
            .resize((WIDTH, HEIGHT), Image.Resampling.LANCZOS)
        )
        sheet.paste(_check(theme.hairline), (left, top))
        sheet.paste(small, (left, top), small)
        pen.rectangle((left, top, left + WIDTH - 1, top + HEIGHT - 1), outline=theme.hairline)
        pen.text((left, top + HEIGHT + 6), name, fill=theme.ink, font=face)
    out = io.BytesIO()
    sheet.save(out, "PNG")
    write_atomically(path, out.getvalue())


def _check(colour: str) -> Image.Image:
    """A chequered ground, seen where a frame is transparent."""
    ground = Image.new("RGB", (WIDTH, HEIGHT), "#FFFFFF")
    pen = ImageDraw.Draw(ground)
    for x in range(0, WIDTH, 30):
        for y in range(0, HEIGHT, 30):
            if (x + y) // 30 % 2:
                pen.rectangle((x, y, x + 29, y + 29), fill=colour)
    return ground
