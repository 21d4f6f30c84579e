"""Jinja templates into pages that need no file beside them."""

from __future__ import annotations

import base64
import re
from pathlib import Path

import jinja2

TEMPLATES = Path(__file__).parents[1] / "templates"


def environment(autoescape: bool = True) -> jinja2.Environment:
    """Templates that may use only what they are given: a missing value is an error."""
    return jinja2.Environment(
        loader=jinja2.FileSystemLoader(TEMPLATES),
        undefined=jinja2.StrictUndefined,
        autoescape=autoescape,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def data_uri(path: Path, kind: str) -> str:
    return f"data:{kind};base64,{base64.b64encode(path.read_bytes()).decode()}"


def style(name: str) -> str:
    """A style sheet of templates/ with its fonts inside it."""

    def inside(found: re.Match[str]) -> str:
        return f"url({data_uri(TEMPLATES / found[1], 'font/woff2')})"

    css = (TEMPLATES / name).read_text("utf-8")
    return re.sub(r"url\((fonts/[^)]+)\)", inside, css)
