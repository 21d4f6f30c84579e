"""Fonts and pictures: a file that is missing or none is named, and no other face stands in."""

from __future__ import annotations

import shutil
import struct
import zlib
from datetime import date
from pathlib import Path

import pytest

from pipeline.brief import print_faces
from pipeline.brief.fit import end_of
from pipeline.brief.paper import pdf
from pipeline.charts import frame
from pipeline.charts.faces import use_faces
from pipeline.config.face_files import font_fault, picture_fault
from pipeline.doctor.checks import faces
from pipeline.errors import UserError
from tests.conftest import ROOT

FONT = ROOT / "templates" / "fonts" / "Archivo-Medium.ttf"


def png(width: int, height: int) -> bytes:
    """A picture's header, with nothing behind it."""
    header = b"IHDR" + struct.pack(">IIBBBBB", width, height, 8, 6, 0, 0, 0)
    check = struct.pack(">I", zlib.crc32(header))
    return b"\x89PNG\r\n\x1a\n" + struct.pack(">I", 13) + header + check


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "not a TrueType or OpenType font"),
        (b"not a font at all", "not a TrueType or OpenType font"),
        (FONT.read_bytes()[:2000], "a font that is cut short"),
        (FONT.read_bytes()[:100], "a font that is cut short"),
        (b"\x00\x01\x00\x00" + b"\0" * 40, "not a font with letters of its own"),
    ],
)
def test_a_file_that_is_no_font(tmp_path: Path, content: bytes, said: str):
    (tmp_path / "a.ttf").write_bytes(content)
    assert font_fault(tmp_path / "a.ttf") == said
    assert font_fault(FONT) is None


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "not a PNG picture"),
        (b"GIF89a" + b"\0" * 40, "not a PNG picture"),
        (png(30_000, 30_000), "30,000 x 30,000 pixels; the most is 4,000 a side"),
        (png(0, 9), "0 x 9 pixels; the most is 4,000 a side"),
        (png(400, 90), None),
    ],
)
def test_a_file_that_is_no_logo(tmp_path: Path, content: bytes, said: str | None):
    (tmp_path / "a.png").write_bytes(content)
    assert picture_fault(tmp_path / "a.png") == said


def test_a_logo_that_is_damaged_behind_its_header(tmp_path: Path):
    (tmp_path / "a.png").write_bytes(png(400, 90) + b"\0\0\0\5IDATxxxxx")
    with pytest.raises(UserError, match=r"a\.png: can't be drawn as a logo"):
        frame._picture(str(tmp_path / "a.png"))


def test_a_font_that_is_damaged_behind_its_tables(tmp_path: Path):
    content = bytearray(FONT.read_bytes())
    glyphs = content.index(b"glyf")
    start, size = struct.unpack(">II", content[glyphs + 8 : glyphs + 16])
    content[start : start + size] = b"\xff" * size
    (tmp_path / "a.ttf").write_bytes(content)
    with pytest.raises(UserError, match=r"a\.ttf: a damaged font"):
        use_faces({"Medium": str(tmp_path / "a.ttf")})


@pytest.fixture()
def templates(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    shutil.copytree(ROOT / "templates", tmp_path / "templates")
    monkeypatch.setattr(print_faces, "TEMPLATES", tmp_path / "templates")
    return tmp_path / "templates"


@pytest.mark.parametrize("name", ["SourceSerif4-Regular.ttf", "SourceSerif4-Italic.ttf"])
@pytest.mark.parametrize("content", [None, b"none"])
def test_a_face_of_the_paper_that_is_missing_or_none(
    templates: Path, name: str, content: bytes | None
):
    """No other face stands in for it: there is no PDF, and the doctor says so."""
    (templates / "fonts" / name).unlink()
    if content:
        (templates / "fonts" / name).write_bytes(content)
    with pytest.raises(UserError, match=name):
        pdf(lambda fit: "<p>words</p>", [], "", date(2026, 11, 25))
    (found,) = faces(Path("config"), Path("output"))
    assert not found.well and name in found.what


def test_the_faces_that_a_pdf_must_hold():
    page = "<html lang='en'><p id='top'>words</p><p id='END'>more</p></html>".replace(
        "END", end_of("top")
    )
    assert print_faces.faulty_faces() == []
    print_faces.check_embedded(["Archivo", "Source Serif 4", "Noto Sans"])
    with pytest.raises(UserError, match="was not set in Source Serif 4;"):
        print_faces.check_embedded(["Archivo", "DejaVu Serif"])
    with pytest.raises(UserError, match="was not set in Archivo and Source Serif 4;"):
        pdf(lambda fit: page, ["top"], "", date(2026, 11, 25))
