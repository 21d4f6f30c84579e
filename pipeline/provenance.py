"""What an output was made from, as hashes of content: files, code, configuration.

Modification times lie (a restored backup is older than what it replaces), and imports are invisible
to a workflow's own rerun logic; so every rule carries these hashes among its parameters.
"""

from __future__ import annotations

import ast
import hashlib
from functools import cache
from pathlib import Path

from pipeline.hashes import content_hash, file_hash, value_hash

ROOT = Path(__file__).parents[1]
LOCK = ROOT / "requirements.lock"
TEMPLATES = ROOT / "templates"
STAGES = ("ingest", "clean", "metrics", "significance", "charts", "brief")
GIVEN_BEATS = ("metrics", "significance", "charts", "brief")
KINDS = "pipeline.config.kinds"


@cache
def stage_hash(stage: str) -> str:
    """sha256 of a stage's modules and the lock file."""
    return _modules_hash(stage_modules(stage))


@cache
def code_of(module: str) -> str:
    """sha256 of a module, of all that it imports from the pipeline, and of the lock file."""
    return _modules_hash(_reached(module))


@cache
def code_hash() -> str:
    """sha256 over all code that makes a brief, and over the templates.

    Here the command lines of the stages count too, and with them the reading of the configuration.
    """
    modules = [_reached(f"pipeline.{stage}.__main__") for stage in STAGES]
    return value_hash([_modules_hash(frozenset().union(*modules)), content_hash(TEMPLATES)])


def stage_modules(stage: str) -> frozenset[str]:
    """Names of the modules that decide what a stage makes of what it is given.

    Its command line is left out, and the reading of the configuration: they decide the stage's
    view, whose value is hashed beside its code. So are imports for types only: they change no
    result. But beats come with methods, which say what a kind compares and its cuts.
    """
    given = _reached(KINDS) if stage in GIVEN_BEATS else frozenset()
    return _reached(f"pipeline.{stage}.stage") | given


def _modules_hash(modules: frozenset[str]) -> str:
    digest = hashlib.sha256(content_hash(LOCK).encode())
    for module in sorted(modules):
        digest.update(f"{module} {file_hash(_module_file(module))}\n".encode())
    return digest.hexdigest()


@cache
def _reached(module: str) -> frozenset[str]:
    """A module and all that it imports from the pipeline, directly or not."""
    found: set[str] = set()
    waiting = [module]
    while waiting:
        module = waiting.pop()
        if module not in found:
            found.add(module)
            waiting += _imports(module)
    return frozenset(found)


@cache
def _imports(module: str) -> tuple[str, ...]:
    names: set[str] = set()
    waiting: list[ast.AST] = [ast.parse(_module_file(module).read_text("utf-8"))]
    while waiting:
        node = waiting.pop()
        waiting += _run(node)
        if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith("pipeline"):
            names.add(node.module)
            names |= {f"{node.module}.{alias.name}" for alias in node.names}
        elif isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names if alias.name.startswith("pipeline")}
    return tuple(sorted(found for name in names for found in _with_packages(name)))


def _with_packages(name: str) -> list[str]:
    """A module and the packages that it is in, whose code an import runs too."""
    parts = name.split(".")
    found = [".".join(parts[:length]) for length in range(1, len(parts) + 1)]
    return [module for module in found if _exists(module)]


def _run(node: ast.AST) -> list[ast.AST]:
    """The parts of a node that are run: not what stands under `if TYPE_CHECKING`."""
    if isinstance(node, ast.If) and ast.unparse(node.test).endswith("TYPE_CHECKING"):
        return list(node.orelse)
    return list(ast.iter_child_nodes(node))


def _module_file(module: str) -> Path:
    path = ROOT.joinpath(*module.split("."))
    return path / "__init__.py" if path.is_dir() else path.with_suffix(".py")


def _exists(module: str) -> bool:
    return _module_file(module).is_file()
