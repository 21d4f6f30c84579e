"""Jinja makes one self-contained HTML page; WeasyPrint makes the PDF from that same page."""

from __future__ import annotations

import base64
import os
import re
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import jinja2

from pipeline.errors import Problem, UserError

TEMPLATES = Path(__file__).parents[2] / "templates"
SYSTEM_LIBRARIES = (
    "WeasyPrint can't load its system libraries; install them:\n"
    "  Debian or Ubuntu: apt-get install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0\n"
    "  Fedora: dnf install pango harfbuzz\n"
    "  macOS: brew install pango"
)


def page(context: dict[str, Any], charts: Path) -> str:
    """The brief as one HTML page, with its fonts and charts inside it."""
    environment = _environment(autoescape=True)
    environment.filters["chart"] = lambda name: _data_uri(charts / f"{name}.svg", "image/svg+xml")
    css = _with_fonts((TEMPLATES / "brief.css").read_text("utf-8"))
    return environment.get_template("brief.html.jinja").render(css=css, **context)


def talking_points(context: dict[str, Any]) -> str:
    """The lines to say, as Markdown."""
    environment = _environment(autoescape=False)  # Markdown, not HTML
    return environment.get_template("talking-points.md.jinja").render(**context)


def _environment(autoescape: bool) -> jinja2.Environment:
    """Templates that may use only what they are given: a missing value is an error."""
    return jinja2.Environment(
        loader=jinja2.FileSystemLoader(TEMPLATES),
        undefined=jinja2.StrictUndefined,
        autoescape=autoescape,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def pdf(html: str, newest: date) -> bytes:
    """The same page as a tagged PDF (PDF/UA-1); dated by its newest input, so bytes repeat."""
    try:
        import weasyprint
    except OSError:
        raise UserError(Problem("brief", SYSTEM_LIBRARIES)) from None
    midnight = datetime(newest.year, newest.month, newest.day, tzinfo=UTC)
    os.environ["SOURCE_DATE_EPOCH"] = str(int(midnight.timestamp()))
    return weasyprint.HTML(string=html, base_url=str(TEMPLATES)).write_pdf(pdf_variant="pdf/ua-1")


def _data_uri(path: Path, kind: str) -> str:
    return f"data:{kind};base64,{base64.b64encode(path.read_bytes()).decode()}"


def _with_fonts(css: str) -> str:
    """Bundled fonts put into the page itself, so that it needs nothing beside it."""

    def inside(found: re.Match[str]) -> str:
        return f"url({_data_uri(TEMPLATES / found[1], 'font/woff2')})"

    return re.sub(r"url\((fonts/[^)]+)\)", inside, css)
