"""python -m tests.modules: write the map of modules into DEVELOPERS.md, from their docstrings."""

from __future__ import annotations

import ast
from pathlib import Path

from pipeline.errors import run_stage, write_atomically
from tests.picture import PAGE, ROOT, between

BEGIN, END = "<!-- map: make map -->", "<!-- /map -->"
CODE = ROOT / "pipeline"
PASSED_OVER = {"__init__.py", "__main__.py"}  # a room's own line; command lines


def sentence(module: Path) -> str:
    """The first line of a module's docstring, which says what is in it."""
    said = ast.get_docstring(ast.parse(module.read_text("utf-8"))) or ""
    return said.split("\n")[0]


def rooms(code: Path = CODE) -> dict[str, list[Path]]:
    """Modules by the folder they are in; those outside any folder come first, under ''."""
    found: dict[str, list[Path]] = {}
    for module in sorted(code.rglob("*.py")):
        if module.name not in PASSED_OVER:
            found.setdefault(module.parent.relative_to(code).as_posix(), []).append(module)
    return dict(sorted(found.items(), key=lambda room: room[0].replace(".", "")))


def map_of(found: dict[str, list[Path]]) -> str:
    """A list a room: its sentence, then a line a module."""
    parts = []
    for room, modules in found.items():
        package = modules[0].parent / "__init__.py"
        head = f"**`{CODE.name}/`**" if room == "." else f"**`{room}/`**: {sentence(package)}"
        lines = [f"- `{module.stem}`: {sentence(module)}" for module in modules]
        parts.append("\n".join([head, "", *lines]))
    return "\n\n".join(parts)


def page(text: str) -> str:
    """The developers' page with the map as it is now."""
    return between(text, BEGIN, END, f"\n{map_of(rooms())}\n")


def main() -> None:
    write_atomically(PAGE, page(PAGE.read_text("utf-8")))


if __name__ == "__main__":
    run_stage(main)
