"""Two sides of a comparison: both values on the left, the change with its interval on the right."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pipeline.charts.alt_text import describe_nothing, describe_rows
from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas
from pipeline.charts.change_panel import draw_changes
from pipeline.charts.chart import Around, Chart
from pipeline.charts.marks import Columns
from pipeline.charts.rows import Comparison, Row, rows_of
from pipeline.charts.theme import PAGE
from pipeline.charts.value_panel import draw_values, values_need
from pipeline.contracts.finding import Finding
from pipeline.wording.confidence import heading_of, looks_note
from pipeline.wording.of_kinds import sides
from pipeline.wording.on_the_field import felt_drawn

if TYPE_CHECKING:
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format

NO_BALL = "There is no ball to compare."
HEAD, FOOT = 2.0, 1.9  # lines of body and small text above and below the rows
MOST_ROWS = 8  # more are left to the table, and the chart says so
NAMES = 0.30  # of the width, at most, for the names of the rows
LEAST_NAMES = 140  # pixels that they keep in any case
VALUES = 0.62  # of what the names and numbers leave, for the values; the rest for the changes


def rows(chart: Chart) -> list[Finding]:
    """As many of the findings as a frame has room for."""
    return chart.findings[:MOST_ROWS]


def left_out(chart: Chart) -> int:
    return len(chart.findings) - len(rows(chart))


def page_height(chart: Chart) -> int:
    return height_of(len(rows(chart)))


def draw(canvas: Canvas, chart: Chart, around: Around, box: Box, what: str = "change") -> None:
    """The findings as rows; `what` the difference of their sides is called."""
    told = rows(chart)
    if told:
        names = sides(told[0], chart.beat, around.form)
        draw_findings(canvas, chart, told, names, around.form, box, what)
    else:
        canvas.sentence(NO_BALL, box.left, box.top)


def described(chart: Chart, form: Format) -> str:
    told = rows(chart)
    if not told:
        return describe_nothing(chart.measure, NO_BALL)
    names = sides(told[0], chart.beat, form)
    return describe_rows(chart.measure, rows_of(told, chart.beat, chart.measure, form), names)


def height_of(count: int) -> int:
    """Pixels of so many rows in the brief."""
    return round(PAGE.body * HEAD + PAGE.row * max(count, 1) + PAGE.small * FOOT)


def draw_findings(
    canvas: Canvas,
    chart: Chart,
    findings: list[Finding],
    names: tuple[str, str],
    form: Format,
    box: Box,
    what: str = "change",
) -> None:
    """The findings as rows; under a single one the same fact on the field."""
    measure = chart.measure
    told = rows_of(findings, chart.beat, measure, form)
    share = measure.kind == "share"
    called = {"what": what, "interval": heading_of(findings), "looks": looks_note(findings)}
    draw_comparison(canvas, Comparison(told, names, share, measure.decimals, **called), box)
    if len(findings) == 1:
        _felt(canvas, findings[0], measure, form, box)


def _felt(canvas: Canvas, finding: Finding, measure: Measure, form: Format, box: Box) -> None:
    """The same fact on the field, such as balls an innings; on frames alone."""
    said = felt_drawn(finding, measure, form)
    if said and canvas.sizes.title:
        with canvas.step(4):
            y = box.top + box.height * 0.78
            words, size = canvas.fit(said, canvas.sizes.number, "SemiBold", box.width)
            canvas.text(box.left, y, words, size, "SemiBold")


def draw_comparison(canvas: Canvas, told: Comparison, box: Box) -> None:
    """Draw the rows into a rectangle of pixels."""
    sizes, count = canvas.sizes, len(told.rows)
    body_top = box.top + sizes.body * HEAD
    room = box.height - sizes.body * HEAD - sizes.small * FOOT
    step = min(room / count, 2 * sizes.row)
    height = step * count
    middle = [body_top + step * (i + 0.5) for i in range(count)]
    gap = sizes.body * 0.9
    noted = canvas.text_width(told.looks, sizes.small)
    number_width = max(noted, *(_number_width(canvas, row) for row in told.rows)) + gap * 0.4
    room = box.width - number_width - 3 * gap - values_need(canvas, told) / VALUES
    name_room = max(LEAST_NAMES, min(NAMES * box.width, room))
    said = [canvas.fit(row.name, sizes.body, "Medium", name_room) for row in told.rows]
    name_width = max(canvas.text_width(name, size) for name, size in said)
    rest = box.width - name_width - number_width - 3 * gap
    columns = Columns(box.left, name_width, rest * VALUES, rest * (1 - VALUES), number_width, gap)
    with canvas.step(1):
        for y, (name, size) in zip(middle, said, strict=True):
            canvas.text(box.left, y, name, size, vertical="center_baseline")
    edge = draw_values(canvas, told, columns, body_top, height, box.top)
    with canvas.step(4):
        draw_changes(canvas, told, columns, body_top, height, middle, box.top, edge)


def _number_width(canvas: Canvas, row: Row) -> float:
    change = canvas.text_width(row.change_shown + row.mark, canvas.sizes.number, "ExtraBold")
    return (change if row.change_shown else 0.0) + canvas.text_width(
        row.interval_marked, canvas.sizes.small
    )
