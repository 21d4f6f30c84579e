"""Jinja makes the brief twice from one content: the whole page, and the source of the PDF."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from pipeline.brief.content import Content
from pipeline.brief.on_screen import Screen
from pipeline.markdown import literal
from pipeline.templating import data_uri, environment, script, style


def page(content: Content, charts: Path, screen: Screen) -> str:
    """The brief as one HTML page, with its fonts, charts, frames and data inside it."""
    css = [style(name) for name in ("fonts-screen.css", "brief.css", "screen.css")]
    return _rendered(content, charts, css=css, screen=screen, js=script("brief.js"), fit={})


def printed(content: Content, charts: Path, fit: dict[str, str]) -> str:
    """The same content for paper; `fit` has the classes of sections that are set tighter."""
    css = [style(name, inside=False) for name in ("fonts-print.css", "brief.css")]
    return _rendered(content, charts, css=css, screen=None, js=None, fit=fit)


def _rendered(content: Content, charts: Path, **more: Any) -> str:
    templates = environment()
    templates.filters["chart"] = lambda name: data_uri(charts / f"{name}.svg", "image/svg+xml")
    return templates.get_template("brief.html.jinja").render(**vars(content), **more)


def talking_points(content: Content) -> str:
    """The lines to say, as Markdown."""
    templates = environment(autoescape=False, each=literal)  # Markdown, not HTML
    return templates.get_template("talking-points.md.jinja").render(**vars(content))
