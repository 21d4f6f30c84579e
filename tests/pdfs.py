"""What a PDF holds: its structure tree, its fonts, its attachments."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from pypdf import PdfReader
from pypdf.generic import ContentStream


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
