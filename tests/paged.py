"""What stands where on the pages of a brief, from the boxes that were laid out."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from itertools import pairwise
from typing import Any

import weasyprint

MM = 96 / 25.4  # lengths of boxes are in pixels
LEAST_GAP = 1.0  # millimetres between two columns
THIRD = 1 / 3
HEADINGS = ("h1", "h2", "h3")


def faults(document: weasyprint.Document) -> list[str]:
    """Everything on its pages that a reader would call badly broken, with its page."""
    pages = [page._page_box for page in document.pages]
    found = [
        f"page {number}: {fault}"
        for number, page in enumerate(pages, start=1)
        for fault in (*_alone(page), *_touching(page))
    ]
    return [*found, *_rows_alone(pages), *_torn(pages), *_nearly_empty(pages)]


def flow(page: Any) -> Any:
    """What flows over the pages: neither their margins nor the running foot."""
    return next(child for child in page.children if child.element_tag == "html")


def boxes(page: Any) -> Iterator[Any]:
    """Every box of the flow of a page, in the order of the document."""
    return iter(flow(page).descendants())


def has_class(box: Any, name: str) -> bool:
    return box.element is not None and name in (box.element.get("class") or "").split()


def texts(box: Any) -> list[Any]:
    """Boxes of text, and pictures."""
    inside = (each for each in box.descendants() if type(each).__name__ == "TextBox")
    return [each for each in inside if each.text.strip()] + [
        each for each in box.descendants() if each.element_tag == "img"
    ]


def _alone(page: Any) -> Iterator[str]:
    """Headings and rules with nothing under them on the page, heads of tables without a row."""
    every = list(boxes(page))
    for box in every:
        if type(box).__name__ == "TableBox" and not _body_rows(box):
            yield f"the head of a table without a row: {_said(box)}"
        if type(box).__name__ == "TableRowGroupBox":
            rows = [row for row in box.children if texts(row)]
            if rows and _is_name(rows[-1]):
                yield f"the name of a group without a row: {_said(rows[-1])}"
        if _is_heading(box) and not _anything_under(box, every):
            yield f"a heading alone: {_said(box)}"
        if _is_ruled(box) and not texts(box):
            yield f"a rule alone: {box.element_tag}.{box.element.get('class')}"


def _is_heading(box: Any) -> bool:
    is_block = type(box).__name__ == "BlockBox"
    return is_block and (box.element_tag in HEADINGS or has_class(box, "eyebrow"))


def _is_ruled(box: Any) -> bool:
    block = type(box).__name__ in ("BlockBox", "TableCellBox", "FlexBox")
    return block and box.border_top_width > 0 and box.element_tag in ("section", "div", "p")


def _anything_under(heading: Any, every: list[Any]) -> bool:
    """Whether text that is no heading stands under it, in its column."""
    left, right = heading.position_x, heading.position_x + heading.margin_width()
    foot = heading.position_y + heading.height
    mine = set(map(id, heading.descendants()))
    for box in every:
        if type(box).__name__ != "TextBox" and box.element_tag != "img":
            continue
        inside = left - 1 <= box.position_x < right
        if id(box) not in mine and inside and box.position_y >= foot - 1:
            return True
    return False


def _body_rows(table: Any) -> list[Any]:
    """The rows of a table on this page that have values."""
    rows = (each for each in table.descendants() if type(each).__name__ == "TableRowBox")
    return [row for row in rows if not _in_head(row) and not _is_name(row)]


def _is_name(row: Any) -> bool:
    """Whether a row holds only what those below it are of."""
    return has_class(row, "group") or has_class(row, "place")


def _in_head(row: Any) -> bool:
    cells = [cell for cell in row.children if cell.element is not None]
    return all(cell.element.get("scope") == "col" for cell in cells)


def _rows_alone(pages: list[Any]) -> Iterator[str]:
    """A row of a table of numbers that is alone on a page, while others are on the next."""
    parts: dict[int, list[tuple[int, list[Any]]]] = defaultdict(list)
    for number, page in enumerate(pages, start=1):
        for box in boxes(page):
            if type(box).__name__ == "TableBox" and has_class(box, "numbers"):
                parts[id(box.element)].append((number, _body_rows(box)))
    for fragments in parts.values():
        for number, rows in fragments:
            if len(fragments) > 1 and len(rows) < 2:
                yield f"page {number}: a row alone: {_said(rows[0]) if rows else ''}"


def _torn(pages: list[Any]) -> Iterator[str]:
    """What to be careful of, and not to say, on two pages."""
    where: dict[int, set[int]] = defaultdict(set)
    for number, page in enumerate(pages, start=1):
        for box in boxes(page):
            if has_class(box, "care"):
                where[id(box.element)].add(number)
    yield from (f"pages {sorted(on)}: torn" for on in where.values() if len(on) > 1)


def _nearly_empty(pages: list[Any]) -> Iterator[str]:
    """A page under a third full, though what is on it goes on on the next."""
    for number, (page, following) in enumerate(pairwise(pages), start=1):
        sections = [id(box.element) for box in boxes(page) if box.element_tag == "section"]
        goes_on = any(
            id(box.element) == sections[-1] for box in boxes(following) if sections and box.element
        )
        if goes_on and fill(page) < THIRD:
            yield f"page {number}: only {fill(page):.0%} full, and its section goes on"


def fill(page: Any) -> float:
    """How much of the page's height, its margins left out, is used."""
    there = texts(flow(page))
    foot = max((box.position_y + box.height for box in there), default=0.0)
    top = flow(page).position_y
    return float((foot - top) / page.height) if there else 0.0


def _touching(page: Any) -> Iterator[str]:
    """Cells of a row whose texts stand nearer than a reader can tell apart."""
    for row in (box for box in boxes(page) if type(box).__name__ == "TableRowBox"):
        spans = [_span(cell) for cell in row.children if texts(cell)]
        for (_, end, said), (start, _, next_said) in pairwise(sorted(spans)):
            if start - end < LEAST_GAP * MM:
                yield f"'{said}' touches '{next_said}'"


def _span(cell: Any) -> tuple[float, float, str]:
    there = texts(cell)
    return (
        min(box.position_x for box in there),
        max(box.position_x + box.width for box in there),
        _said(cell),
    )


def _said(box: Any) -> str:
    return " ".join(each.text for each in texts(box) if hasattr(each, "text"))[:60]
