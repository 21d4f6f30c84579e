"""What an output was made from, as hashes of content: files, code, configuration.

Modification times lie (a restored backup is older than what it replaces), and imports are invisible
to a workflow's own rerun logic; so every rule carries these hashes among its parameters.
"""

from __future__ import annotations

import ast
import hashlib
import json
from functools import cache
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[1]
LOCK = ROOT / "requirements.lock"
TEMPLATES = ROOT / "templates"
STAGES = ("ingest", "clean", "metrics", "significance", "charts", "brief")


def file_hash(path: Path | str) -> str:
    """sha256 of a file."""
    with Path(path).open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def content_hash(path: Path | str | None) -> str:
    """sha256 of a file, or of a folder's names and contents; 'none' when nothing is there."""
    if path is None or not Path(path).exists():
        return "none"
    path = Path(path)
    if path.is_file():
        return file_hash(path)
    digest = hashlib.sha256()
    for inner in sorted(p for p in path.rglob("*") if p.is_file()):
        digest.update(f"{inner.relative_to(path)} {file_hash(inner)}\n".encode())
    return digest.hexdigest()


def value_hash(value: Any) -> str:
    """sha256 of plain data, whatever the order of its keys."""
    return hashlib.sha256(json.dumps(value, sort_keys=True, default=str).encode()).hexdigest()


@cache
def stage_hash(stage: str) -> str:
    """sha256 of a stage's own modules, all they import from the pipeline, and the lock file."""
    digest = hashlib.sha256(content_hash(LOCK).encode())
    for module in sorted(stage_modules(stage)):
        digest.update(f"{module} {file_hash(_module_file(module))}\n".encode())
    return digest.hexdigest()


@cache
def code_hash() -> str:
    """sha256 over the code of every stage that makes a brief, and over the templates."""
    return value_hash([{stage: stage_hash(stage) for stage in STAGES}, content_hash(TEMPLATES)])


@cache
def stage_modules(stage: str) -> frozenset[str]:
    """Names of the modules that `python -m pipeline.<stage>` can reach inside the pipeline."""
    found: set[str] = set()
    waiting = [f"pipeline.{stage}.__main__"]
    while waiting:
        module = waiting.pop()
        if module not in found:
            found.add(module)
            waiting += _imports(module)
    return frozenset(found)


@cache
def _imports(module: str) -> tuple[str, ...]:
    tree = ast.parse(_module_file(module).read_text("utf-8"))
    names: set[str] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith("pipeline"):
            names.add(node.module)
            names |= {f"{node.module}.{alias.name}" for alias in node.names}
        elif isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names if alias.name.startswith("pipeline")}
    return tuple(sorted(name for name in names if _exists(name)))


def _module_file(module: str) -> Path:
    path = ROOT.joinpath(*module.split("."))
    return path / "__init__.py" if path.is_dir() else path.with_suffix(".py")


def _exists(module: str) -> bool:
    return _module_file(module).is_file()
