"""What an output was made from, as hashes of content: files, code, configuration.

Modification times lie (a restored backup is older than what it replaces), and imports are invisible
to a workflow's own rerun logic; so every rule carries these hashes among its parameters.
"""

from __future__ import annotations

import hashlib
import re
from functools import cache
from pathlib import Path

from pipeline.hashes import content_hash, file_hash, value_hash

ROOT = Path(__file__).parents[1]
LOCK = ROOT / "requirements.lock"
TEMPLATES = ROOT / "templates"
STAGES = ("ingest", "clean", "metrics", "significance", "charts", "script", "brief")
GIVEN_BEATS = ("metrics", "significance", "charts", "script", "brief")
KINDS = "pipeline.config.kinds"
# To parse all modules would be half of what a build takes that has nothing to do.
IMPORT = re.compile(
    r"^(?P<indent> *)(?:from|import) (?P<module>pipeline[\w.]*)"
    r"(?: import (?P<names>\([^)]*\)|[^(\n]*))?",
    re.MULTILINE,
)


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
    text = _module_file(module).read_text("utf-8")
    for found in IMPORT.finditer(text):
        if not _for_types(text[: found.start()], len(found["indent"])):
            inside = [part.split()[0] for part in _listed(found["names"]) if part.strip()]
            names |= {found["module"], *(f"{found['module']}.{name}" for name in inside)}
    return tuple(sorted(found for name in names for found in _with_packages(name)))


def _listed(names: str | None) -> list[str]:
    """What stands behind `import`, in brackets or not, without remarks."""
    return re.sub(r"#.*", "", names or "").strip("() \n").split(",")


def _for_types(before: str, indent: int) -> bool:
    """Whether the block that a statement stands in is not run: `if TYPE_CHECKING`."""
    if not indent:
        return False
    opening = (line for line in reversed(before.splitlines()) if line.strip())
    above = next((line for line in opening if len(line) - len(line.lstrip()) < indent), "")
    return above.strip().endswith("TYPE_CHECKING:")


@cache
def _with_packages(name: str) -> tuple[str, ...]:
    """A module and the packages that it is in, whose code an import runs too."""
    parts = name.split(".")
    found = [".".join(parts[:length]) for length in range(1, len(parts) + 1)]
    return tuple(module for module in found if _exists(module))


def _module_file(module: str) -> Path:
    path = ROOT.joinpath(*module.split("."))
    return path / "__init__.py" if path.is_dir() else path.with_suffix(".py")


@cache
def _exists(module: str) -> bool:
    return _module_file(module).is_file()
