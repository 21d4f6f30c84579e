"""Jinja makes one self-contained HTML page; WeasyPrint makes the PDF from that same page."""

from __future__ import annotations

import os
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

from pipeline.errors import Problem, UserError
from pipeline.pages import TEMPLATES, data_uri, environment, style

SYSTEM_LIBRARIES = (
    "WeasyPrint can't load its system libraries; install them:\n"
    "  Debian or Ubuntu: apt-get install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0\n"
    "  Fedora: dnf install pango harfbuzz\n"
    "  macOS: brew install pango"
)


def page(context: dict[str, Any], charts: Path) -> str:
    """The brief as one HTML page, with its fonts and charts inside it."""
    templates = environment()
    templates.filters["chart"] = lambda name: data_uri(charts / f"{name}.svg", "image/svg+xml")
    return templates.get_template("brief.html.jinja").render(css=style("brief.css"), **context)


def talking_points(context: dict[str, Any]) -> str:
    """The lines to say, as Markdown."""
    templates = environment(autoescape=False)  # Markdown, not HTML
    return templates.get_template("talking-points.md.jinja").render(**context)


def pdf(html: str, newest: date) -> bytes:
    """The same page as a tagged PDF (PDF/UA-1); dated by its newest input, so bytes repeat."""
    try:
        import weasyprint
    except OSError:
        raise UserError(Problem("brief", SYSTEM_LIBRARIES)) from None
    midnight = datetime(newest.year, newest.month, newest.day, tzinfo=UTC)
    os.environ["SOURCE_DATE_EPOCH"] = str(int(midnight.timestamp()))
    return weasyprint.HTML(string=html, base_url=str(TEMPLATES)).write_pdf(pdf_variant="pdf/ua-1")
