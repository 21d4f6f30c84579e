"""What a PDF holds: its structure tree, its fonts, its attachments."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from pypdf import PdfReader
from pypdf.generic import ContentStream

FOOT = 50.0  # points: what is lower is the running foot


def reader(path: Path) -> PdfReader:
    return PdfReader(path)


def elements(found: Any) -> Iterator[Any]:
    """Every structure element, in reading order."""
    if hasattr(found, "get_object"):
        found = found.get_object()
    if isinstance(found, list):
        for inside in found:
            yield from elements(inside)
    elif isinstance(found, dict):
        if "/S" in found:
            yield found
        yield from elements(found.get("/K", []))


def fonts(pdf: PdfReader) -> Iterator[Any]:
    """Descriptors of every font of every page."""
    for page in pdf.pages:
        for font in page["/Resources"].get("/Font", {}).values():
            inner = font.get_object()
            if "/DescendantFonts" in inner:
                inner = inner["/DescendantFonts"][0].get_object()
            yield inner["/FontDescriptor"].get_object()


def filled(page: Any) -> float:
    """How far down its lowest text is, the running foot left out: 0 at the top, 1 at the foot."""
    heights: list[float] = []

    def seen(text: str, cm: list, tm: list, font: Any, size: float) -> None:
        height = tm[5] * cm[3] + cm[5]
        if text.strip() and height > FOOT:
            heights.append(height)

    page.extract_text(visitor_text=seen)
    return 1 - min(heights, default=page.mediabox.height) / float(page.mediabox.height)


def untagged(pdf: PdfReader) -> list[str]:
    """Text shown outside any marked content: it is neither tagged nor an artifact."""
    loose = []
    for number, page in enumerate(pdf.pages, start=1):
        depth = 0
        for operands, operator in ContentStream(page["/Contents"].get_object(), pdf).operations:
            if operator in (b"BDC", b"BMC"):
                depth += 1
            elif operator == b"EMC":
                depth -= 1
            elif operator in (b"Tj", b"TJ") and not depth:
                loose.append(f"page {number}: {operands}")
    return loose
