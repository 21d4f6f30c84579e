"""What a change of code makes again: the stages whose results it can change, and no others."""

from __future__ import annotations

import ast
import json
import shutil
import subprocess
import sys
from importlib import import_module
from pathlib import Path
from types import FunctionType

import pytest

from pipeline import provenance
from pipeline.provenance import STAGES, stage_modules
from tests.conftest import ROOT

RERUN = {
    "brief.paper": {"brief"},
    "charts.canvas": {"charts"},
    "config.glossary": set(),
    "config.in_words": set(),
    "config.kinds.gap": {"metrics", "significance", "charts", "script", "brief"},
    "config.theme": set(),
    "config.topic": set(),
    "editions.store": {"script", "brief"},
    "ingest.laws": {"ingest", "clean"},
    "metrics.windows": {"metrics"},
    "said.check": {"script"},
    "significance.methods.ratio": {"significance"},
    "transcripts.joined": {"script"},
    "wording.change": {"charts", "script", "brief"},
    "wording.labels": {"charts", "script", "brief"},
    "wording.numbers": {"clean", "charts", "script", "brief"},
}
# What else the models of a view can do; none of it decides a result.
ABLE = {"Source": {"credit_line"}}
HASHES = """
import json
from pipeline.provenance import STAGES, code_hash, stage_hash
print(json.dumps({stage: stage_hash(stage) for stage in STAGES} | {"all": code_hash()}))
"""


@pytest.mark.parametrize("module", RERUN)
def test_a_module_belongs_to_the_stages_that_it_can_change(module: str):
    assert (ROOT / "pipeline" / module.replace(".", "/")).with_suffix(".py").is_file()
    having = {stage for stage in STAGES if f"pipeline.{module}" in stage_modules(stage)}
    assert having == RERUN[module]


@pytest.mark.parametrize("name", ["event_views", "glossary", "project", "theme", "topic", "views"])
def test_models_that_are_no_part_of_a_stage_have_no_methods(name: str):
    """A stage takes them for their values, which are hashed with its view."""
    module = import_module(f"pipeline.config.{name}")
    models = [value for value in vars(module).values() if isinstance(value, type)]
    own = [model for model in models if model.__module__ == module.__name__]
    assert own
    for model in own:
        made = getattr(model, "__pydantic_decorators__", None)
        checks = {*made.model_validators, *made.field_validators} if made else set()
        able = {
            key
            for key, value in vars(model).items()
            if not key.startswith("_") and isinstance(value, (FunctionType, property))
        }
        assert able - checks == ABLE.get(model.__name__, set()), model


@pytest.fixture(scope="module")
def code(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The code alone, to be changed."""
    folder = tmp_path_factory.mktemp("code")
    for part in ("pipeline", "templates"):
        shutil.copytree(ROOT / part, folder / part, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "requirements.lock", folder)
    return folder


def moved_by(code: Path, file: str) -> set[str]:
    """The hashes that another line in the file changes; 'all' is that of editions."""
    before = hashes(code)
    with (code / file).open("a", encoding="utf-8") as opened:
        opened.write("\n")
    after = hashes(code)
    return {name for name, value in before.items() if after[name] != value}


def hashes(code: Path) -> dict[str, str]:
    command = [sys.executable, "-c", HASHES]
    done = subprocess.run(command, cwd=code, capture_output=True, text=True, check=True)
    return json.loads(done.stdout)


@pytest.mark.parametrize(
    ("file", "moved"),
    [
        ("pipeline/ingest/laws.py", {"ingest", "clean", "all"}),
        ("pipeline/significance/__main__.py", {"all"}),
        ("pipeline/config/load.py", {"all"}),
        ("pipeline/config/project.py", {"all"}),  # ingest takes a source's type from it, no more
        ("pipeline/config/theme.py", {"all"}),
        ("pipeline/config/views.py", {"all"}),
        ("pipeline/config/in_words.py", set()),
        ("templates/brief.html.jinja", {"all"}),
        ("requirements.lock", {*STAGES, "all"}),
    ],
)
def test_an_edition_is_of_all_code_that_makes_a_brief(code: Path, file: str, moved: set[str]):
    assert moved_by(code, file) == moved


def test_only_imports_for_types_are_passed_over(code: Path):
    """The same import moves a stage's modules when it is run."""
    module = code / "pipeline" / "ingest" / "overs.py"
    line = "from pipeline.config.in_words import coded\n"
    head = "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    "
    with (code / "pipeline" / "ingest" / "laws.py").open("a", encoding="utf-8") as laws:
        laws.write("from pipeline.ingest import overs\n")
    module.write_text(head + line, "utf-8")
    assert moved_by(code, "pipeline/config/in_words.py") == set()
    module.write_text(f"{head}pass\nelse:\n    {line}", "utf-8")
    assert moved_by(code, "pipeline/config/in_words.py") == {"ingest", "clean", "all"}
    module.write_text(line, "utf-8")
    assert moved_by(code, "pipeline/config/in_words.py") == {"ingest", "clean", "all"}


def parsed(path: Path) -> set[str]:
    """What a module imports from the pipeline when it is run, by Python's own parser."""
    names: set[str] = set()
    waiting: list[ast.AST] = [ast.parse(path.read_text("utf-8"))]
    while waiting:
        node = waiting.pop()
        for_types = isinstance(node, ast.If) and ast.unparse(node.test).endswith("TYPE_CHECKING")
        waiting += node.orelse if for_types else list(ast.iter_child_nodes(node))
        if isinstance(node, ast.ImportFrom) and node.module:
            names |= {node.module, *(f"{node.module}.{alias.name}" for alias in node.names)}
        elif isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
    return {name for name in names if name.split(".")[0] == "pipeline"}


def test_imports_are_those_that_the_parser_finds():
    """Modules are read by a pattern, which is quicker: of none it may find more or less."""
    modules = sorted((ROOT / "pipeline").rglob("*.py"))
    assert len(modules) > 300
    for path in modules:
        inner = path.relative_to(ROOT).with_suffix("")
        name = ".".join(inner.parts).removesuffix(".__init__")
        found = {each for one in parsed(path) for each in provenance._with_packages(one)}
        assert set(provenance._imports(name)) == found, path
