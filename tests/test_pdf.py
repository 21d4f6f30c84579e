"""The brief as a PDF: what PDF/UA-1 asks of it, and that nothing leaves its page or its cell.

The rules are those of ISO 14289-1:2014 and of the Matterhorn Protocol's checkpoints for it (numbers
from memory), as far as a machine can test them without a validator of its own.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pytest
import weasyprint

from pipeline.brief import paper
from tests.long_topics import LONG
from tests.making import brief_made
from tests.paged import faults
from tests.pdfs import elements, filled, fonts, reader, untagged

pytestmark = pytest.mark.slow
NEARLY_EMPTY = 0.25  # of a page that is not the last
TOPICS = ["long-grass", "sea-air", "who-paid"]
HEAD = """title: {title}
question: What became of the run rate when the long grass came in?
data: {{competition: Tidewater Shield, format: one-day}}
event: {{name: the long grass, date: 2017-03-01, before: {window}, after: {window}}}
headlines: {headlines}
beats:
"""
ONE = "  - {id: a, kind: before_after, measure: economy}\n"
EMPTY = "  - {id: b, kind: players, role: bowler, measure: economy, at_least: 300000 balls}\n"
CUT = "  - {id: a, kind: before_after, measure: bowling_strike_rate, by: [bowler_kind, phase]}\n"
NAMED = (
    "  - {id: p, kind: players, role: batter, measure: batting_strike_rate, at_least: 300 balls}\n"
)


# Name: (title, window, headlines, beats, paper)
EXTREMES = {
    "one-beat": ("A question", "5 seasons", "[a]", ONE, "Letter"),
    "no-headline": ("A question", "5 seasons", "[]", ONE, "A4"),
    "all-cant-tell": ("A question", "1 seasons", "[a]", CUT, "Letter"),
    "nobody-listed": ("A question", "5 seasons", "[a]", ONE + EMPTY, "A4"),
    "long-names": (LONG * 2, "5 seasons", "[p]", NAMED, "Letter"),
}


@pytest.fixture(scope="module")
def laid_out() -> Iterator[dict[str, weasyprint.Document]]:
    """The last layout of every PDF made while this module runs, by its title's page count."""
    kept: dict[str, weasyprint.Document] = {}
    original = paper._laid_out

    def keep(*given):
        kept["last"] = original(*given)
        return kept["last"]

    paper._laid_out = keep
    yield kept
    paper._laid_out = original


@pytest.fixture(scope="module")
def extreme(built: Path, tmp_path_factory: pytest.TempPathFactory, laid_out):
    """Make one of the extremes; long names are given to every player of the data."""
    folder = tmp_path_factory.mktemp("extremes")

    def make(name: str) -> Path:
        title, window, headlines, lines, size = EXTREMES[name]
        text = HEAD.format(title=title, window=window, headlines=headlines) + lines
        here = long_named(built, folder / "named") if name == "long-names" else built
        return brief_made(here, folder, name, text, paper=size)

    return make


def long_named(built: Path, folder: Path) -> Path:
    """The clean tables with every player's label as long as a name may be."""
    import pyarrow as pa
    import pyarrow.parquet as pq

    data = folder / "output" / "data"
    shutil.copytree(built / "output" / "data", data, dirs_exist_ok=True)
    shutil.copytree(built / "config", folder / "config", dirs_exist_ok=True)
    table = pq.read_table(data / "players.parquet")
    labels = [f"{label} {LONG}"[:60] for label in table["label"].to_pylist()]
    at = table.schema.get_field_index("label")
    pq.write_table(table.set_column(at, "label", pa.array(labels)), data / "players.parquet")
    return folder


@pytest.mark.parametrize("topic", TOPICS)
def test_it_is_what_it_says(built: Path, topic: str):
    check(built / "output" / topic)


@pytest.mark.parametrize("name", EXTREMES)
def test_extremes_hold_too(extreme, laid_out, name: str):
    out = extreme(name)
    check(out)
    sizes = {"A4": (595, 842), "Letter": (612, 792)}
    box = reader(out / "brief.pdf").pages[0].mediabox
    assert (round(box.width), round(box.height)) == sizes[EXTREMES[name][4]]
    inside(laid_out["last"])
    assert faults(laid_out["last"]) == []
    texts = [page.extract_text() for page in reader(out / "brief.pdf").pages]
    assert "Run sheet" in texts[1] or "Run sheet, " in texts[0], "the top sheet is one page"
    if name == "nobody-listed":
        assert "Nobody had three hundred thousand balls" in " ".join(texts)
    if name == "no-headline":
        assert "No headline was chosen" in texts[0]
    if name == "all-cant-tell":
        assert "held" not in texts[0] and "changed\n" not in texts[0]


def check(out: Path) -> None:
    """Declared, titled, tagged, in reading order, with its fonts inside and its facts attached."""
    pdf = reader(out / "brief.pdf")
    root = pdf.trailer["/Root"]
    assert b'pdfuaid:part="1"' in root["/Metadata"].get_data()
    assert pdf.metadata.title and root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert root["/Lang"] == "en-GB" and root["/MarkInfo"]["/Marked"]
    assert untagged(pdf) == []
    tree = list(elements(root["/StructTreeRoot"]))
    kinds = [element["/S"] for element in tree]
    levels = [int(kind[2:]) for kind in kinds if kind[:2] == "/H" and kind[2:].isdigit()]
    assert levels[0] == 1 and levels.count(1) == 1
    assert all(later - earlier <= 1 for earlier, later in pairwise(levels))
    figures = [element for element in tree if element["/S"] == "/Figure"]
    assert figures and all(str(figure.get("/Alt", "")).strip() for figure in figures)
    assert "/TH" in kinds and "/Table" in kinds and "/Link" in kinds
    for page in pdf.pages:
        for note in page.get("/Annots", []):
            link = note.get_object()
            assert page["/Tabs"] == "/S" and "/StructParent" in link and link["/Contents"]
    assert all({"/FontFile2", "/FontFile3"} & descriptor.keys() for descriptor in fonts(pdf))
    assert titles(pdf.outline)[:1] == [pdf.metadata.title]
    assert {"Run sheet", "How it was done", "Every number, by its id"} <= set(titles(pdf.outline))
    assert pdf.attachments["facts.csv"] == [(out / "facts.csv").read_bytes()]
    *down, last = [round(filled(page), 2) for page in pdf.pages]
    assert min(down) > NEARLY_EMPTY and last > 0.15, f"a page is nearly empty: {[*down, last]}"


def titles(outline: list) -> list[str]:
    found = []
    for item in outline:
        found += titles(item) if isinstance(item, list) else [item.title]
    return found


def inside(document: weasyprint.Document) -> None:
    """No text outside the page box, and none wider than the cell of the table it stands in."""
    cells = words = 0
    for page in document.pages:
        box = page._page_box
        wide, high = box.margin_width(), box.margin_height()
        for text in texts_of(box):
            words += 1
            assert text.position_x >= 0 and text.position_x + text.width <= wide, text.text
            assert text.position_y >= 0 and text.position_y + text.height <= high, text.text
        for cell in (each for each in box.descendants() if type(each).__name__ == "TableCellBox"):
            cells += 1
            right = cell.position_x + cell.border_width() + 0.5
            for text in texts_of(cell):
                assert text.position_x + text.width <= right, f"'{text.text}' leaves its cell"
    assert cells > 20 and words > 100


def texts_of(box) -> Iterator:
    return (each for each in box.descendants() if type(each).__name__ == "TextBox")
