"""Jinja templates into pages that need no file beside them."""

from __future__ import annotations

import base64
import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import jinja2
import markupsafe

from pipeline.digits import rounded
from pipeline.terminal import harmless
from pipeline.text import capitalised

TEMPLATES = Path(__file__).parents[1] / "templates"


def environment(
    autoescape: bool = True, each: Callable[[str], str] = harmless
) -> jinja2.Environment:
    """Templates that may use only what they are given: a missing value is an error.

    `each` is done to every text that is put in, before it is escaped.
    """

    def put(value: Any) -> Any:
        """What is markup stays markup."""
        if not isinstance(value, str):
            return value
        text = each(value)
        return markupsafe.Markup(text) if isinstance(value, markupsafe.Markup) else text

    made = jinja2.Environment(
        loader=jinja2.FileSystemLoader(TEMPLATES),
        undefined=jinja2.StrictUndefined,
        autoescape=autoescape,
        trim_blocks=True,
        lstrip_blocks=True,
        finalize=put,
    )
    made.filters["embedded"] = lambda value: markupsafe.Markup(embedded(value))
    made.filters["capitalised"] = capitalised
    made.filters["tied"] = lambda text: "\u00a0".join(text.rsplit(" ", 1))  # no word alone
    return made


def data_uri(path: Path, kind: str) -> str:
    return f"data:{kind};base64,{base64.b64encode(path.read_bytes()).decode()}"


def style(name: str, inside: bool = True) -> str:
    """A style sheet of templates/, with its fonts inside it unless they are read from beside it."""

    def put(found: re.Match[str]) -> str:
        return f"url({data_uri(TEMPLATES / found[1], 'font/woff2')})"

    css = (TEMPLATES / name).read_text("utf-8")
    return re.sub(r"url\((fonts/[^)]+)\)", put, css) if inside else css


def script(name: str) -> str:
    """A script of templates/, to stand inside a page."""
    return (TEMPLATES / name).read_text("utf-8")


def embedded(value: Any) -> str:
    """Plain data as JSON that can stand in a page's script element."""
    text = json.dumps(rounded(value), ensure_ascii=False, allow_nan=False)
    return text.replace("<", "\\u003c")
