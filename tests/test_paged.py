"""The checks of pages find what they are for: each fault is made once, in a small document."""

from __future__ import annotations

import pytest
import weasyprint

from tests.paged import faults, fill

STYLE = """<style>@page { size: 400px 300px; margin: 20px } * { margin: 0; padding: 0 }
body { font: 10px/1.2 sans-serif } .rest { height: 280px } .half { height: 120px }
div, section { display: block }</style>"""
TABLE = "<table class=numbers><thead><tr><th scope=col>A<th scope=col>B</thead>{}</table>"
ROW = "<tr><th scope=row>Row<td style='padding-left:20px'>1</tr>"


def laid_out(body: str) -> weasyprint.Document:
    return weasyprint.HTML(string=f"{STYLE}<main>{body}</main>").render()


def only(body: str) -> str:
    (fault,) = faults(laid_out(body))
    return fault


def high(pixels: int) -> str:
    """Lines of text of twelve pixels each."""
    return "<p>Text</p>" * (pixels // 12)


def test_sound_pages_have_no_fault():
    care = "<div class=care>x</div>"
    body = f"<section><h2>Head</h2>{high(36)}{TABLE.format(ROW * 3)}{care}</section>"
    assert faults(laid_out(body)) == []


def test_a_heading_alone_at_a_foot():
    assert "heading alone: Head" in only(
        f"{high(235)}<h2>Head</h2><p style='break-before: page'>Text</p>"
    )


def test_a_rule_alone():
    rule = "<div style='border-top: 2px solid'>{}</div>"
    assert "rule alone" in only(high(20) + rule.format(""))
    assert faults(laid_out(high(20) + rule.format("Text"))) == []


def test_the_head_of_a_table_or_group_without_a_row():
    (head, *_) = faults(laid_out(high(20) + TABLE.format("")))
    assert "head of a table without a row" in head
    group = "<tbody><tr class=group><th colspan=2 scope=rowgroup>Spin</tr></tbody>"
    assert "name of a group without a row: Spin" in only(
        high(20) + TABLE.format(f"<tbody>{ROW}{ROW}</tbody>{group}")
    )


def test_a_row_alone_on_its_page():
    second = ROW.replace("<tr>", "<tr style='break-before: page'>")
    rows = f"{ROW}{second}{ROW}"
    found = faults(laid_out(high(120) + TABLE.format(rows)))
    assert found == ["page 1: a row alone: Row 1"]


def test_what_is_torn():
    care = "<div class=care><p>One</p><p style='break-before: page'>Two</p></div>"
    assert only(high(120) + care) == "pages [1, 2]: torn"


@pytest.mark.parametrize(
    ("lines", "ends", "fault"), [(5, False, True), (5, True, False), (12, False, False)]
)
def test_a_page_is_nearly_empty_unless_its_section_ends(lines: int, ends: bool, fault: bool):
    between = "</section><section>" if ends else ""
    more = "<p style='break-before: page'>More</p>"
    document = laid_out(f"<section>{high(lines * 12)}{between}{more}</section>")
    assert bool(faults(document)) == fault
    assert abs(fill(document.pages[0]._page_box) - lines * 12 / 260) < 0.02


def test_columns_that_touch():
    cells = "<td style='padding: 0'>1.00</td><td style='padding: 0'>2.00</td>"
    assert "'1.00' touches '2.00'" in only(f"{high(24)}<table><tr>{cells}</tr></table>")
    apart = cells.replace("padding: 0", "padding: 0 5px")
    assert faults(laid_out(f"{high(24)}<table><tr>{apart}</tr></table>")) == []
