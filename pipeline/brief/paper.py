"""The PDF: WeasyPrint lays out, copyfitting closes the gaps, the facts are attached."""

from __future__ import annotations

import os
import warnings
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, date, datetime
from typing import Any

from pipeline.brief.fit import tighter
from pipeline.brief.print_faces import check_embedded, check_faces
from pipeline.errors import Problem, UserError
from pipeline.surroundings import environment
from pipeline.templating import TEMPLATES

VARIANT = "pdf/ua-1"
MOST_PASSES = 5  # layouts tried; each costs as much as the first
SYSTEM_LIBRARIES = (
    "WeasyPrint can't load its system libraries; install them:\n"
    "  Debian or Ubuntu: apt-get install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0\n"
    "  Fedora: dnf install pango harfbuzz\n"
    "  macOS: brew install pango"
)


def pdf(
    html_of: Callable[[dict[str, str]], str], sections: list[str], facts: str, newest: date
) -> bytes:
    """A tagged PDF (PDF/UA-1) with facts.csv attached.

    `html_of` gives the page for classes of sections; `sections` are their ids in order. Dated by
    the newest input, not by the clock, so that bytes repeat.
    """
    check_faces()
    dated = datetime(newest.year, newest.month, newest.day, tzinfo=UTC)
    os.environ["SOURCE_DATE_EPOCH"] = str(int(dated.timestamp()))
    with _own_fonts():
        weasyprint = library()
        attached = weasyprint.Attachment(
            string=facts.encode(),
            name="facts.csv",
            description="Every number of this brief, with its interval, unit, definition and query",
            relationship="Data",
            created=dated,
            modified=dated,
        )
        document = _laid_out(weasyprint, html_of, sections)
        written: bytes = document.write_pdf(pdf_variant=VARIANT, attachments=[attached])
    check_embedded(font.family for font in document.fonts.values())
    return written


def library() -> Any:
    """WeasyPrint. Raises UserError when its system libraries don't load."""
    try:
        with _own_fonts():
            import weasyprint
    except OSError:
        raise UserError(Problem("brief", SYSTEM_LIBRARIES)) from None
    return weasyprint


@contextmanager
def _own_fonts() -> Iterator[None]:
    """Fonts as `templates/fonts.conf` has them, and no warning that ends the run."""
    own = {"FONTCONFIG_FILE": str(TEMPLATES / "fonts.conf"), "FONTCONFIG_SYSROOT": None}
    with environment(**own), warnings.catch_warnings():
        warnings.simplefilter("ignore")
        yield


def _laid_out(
    weasyprint: Any, html_of: Callable[[dict[str, str]], str], sections: list[str]
) -> Any:
    """The document, laid out again while a section leaves a page nearly empty."""
    fit: dict[str, str] = {}
    for _ in range(MOST_PASSES):
        html = weasyprint.HTML(string=html_of(fit), base_url=str(TEMPLATES))
        document = html.render(pdf_variant=VARIANT)
        better = tighter(_places(document), sections, fit)
        if better == fit:
            break
        fit = better
    return document


def _places(document: Any) -> dict[str, tuple[int, float]]:
    """Where every anchor begins: its page, and how far down the page (0 top, 1 foot).

    What goes on over several pages has its anchor on each; the first one counts.
    """
    return {
        name: (number, place[1] / page.height)
        for number, page in reversed(list(enumerate(document.pages)))
        for name, place in page.anchors.items()
    }
