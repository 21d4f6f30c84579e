"""The faces of the paper: the files that its style sheet names, all there, and all in the PDF."""

from __future__ import annotations

import re
from collections.abc import Iterable
from pathlib import Path

from pipeline.config.face_files import font_fault
from pipeline.errors import Problem, UserError
from pipeline.templating import TEMPLATES

SHEET = "fonts-print.css"
MEND = "put back the program's own file (git checkout -- templates)"
_FACE = re.compile(r'font-family: "?([^";]+)"?;.*?url\(([^)]+)\)')


def faulty_faces() -> list[Problem]:
    """A problem for each file of a face that is missing or none: another face would stand in."""
    faults = {path: font_fault(path) for path in dict.fromkeys(path for _, path in _declared())}
    return [Problem(str(path), f"{fault}; {MEND}") for path, fault in faults.items() if fault]


def check_faces() -> None:
    """Raise UserError naming each face that can't be set."""
    if problems := faulty_faces():
        raise UserError(problems)


def check_embedded(families: Iterable[str]) -> None:
    """Raise UserError unless the families that a PDF was set in are those of the style sheet."""
    lacking = sorted({family for family, _ in _declared()} - set(families))
    if lacking:
        message = f"was not set in {' and '.join(lacking)}; {MEND}, then make brief"
        raise UserError(Problem("brief.pdf", message))


def _declared() -> list[tuple[str, Path]]:
    """A family and a file, for each face of the style sheet."""
    css = (TEMPLATES / SHEET).read_text("utf-8")
    return [(family, TEMPLATES / name) for family, name in _FACE.findall(css)]
