"""Trials of mutants: which tests are asked, and what a process that tries them says."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from tests.conftest import ROOT
from tests.mutants.choose import Recorded, importers_of
from tests.mutants.mutate import Mutant
from tests.mutants.results import (
    Result,
    code_of,
    explained,
    outlived,
    read,
    to_try,
    unexplained,
    write,
)


def mutant(function: int | None) -> Mutant:
    return Mutant("a/m.py", 9, 1, "< to <=", function, "")


def recorded(**tests: tuple[float, str]) -> Recorded:
    """Tests by name: their own seconds, and what they call; two share a fixture of two seconds."""
    return Recorded(
        {name: seconds for name, (seconds, _) in tests.items()},
        {name: {"made": 2.0} if name in ("slow", "slower") else {} for name in tests},
        {name: frozenset(calls.split()) for name, (_, calls) in tests.items()},
        {name: frozenset({"a/m.py:30"}) for name in ("quick", "slow")},
        {"a/m.py": ["b/user.py"]},
        wide=("golden",),
    )


def test_a_mutant_is_tried_by_what_calls_its_function_quickest_first():
    tests = recorded(
        slow=(0.1, "a/m.py:8"),
        slower=(0.2, "a/m.py:8"),
        quick=(0.1, "a/m.py:8 a/m.py:20"),
        other=(0.1, "a/m.py:20"),
        golden=(0.0, "a/m.py:8"),
        long=(4.0, "a/m.py:8"),
        huge=(90.0, "a/m.py:8 a/m.py:40"),
        user=(1.0, "b/user.py:3"),
    )
    chosen = ["quick", "slow", "slower", "golden", "long"]
    assert tests.of(mutant(8)) == chosen, "the fixture once, and long ones after the wide"
    assert tests.of(mutant(8), most=2.3) == ["quick", "slow", "golden"]
    assert tests.of(mutant(8), most=0.0) == ["quick", "golden"]
    assert tests.of(mutant(40)) == ["huge"], "the only one there is, whatever it takes"
    assert tests.of(mutant(30)) == ["quick", "slow"], "called when their file is imported"
    assert tests.of(mutant(None)) == ["other", *chosen[:3], "golden", "long", "user"]
    assert tests.of(mutant(None), most=7.0)[-1] == "long", "a module's own tests first"


def test_who_imports_a_module(tmp_path: Path):
    (tmp_path / "a").mkdir()
    (tmp_path / "a" / "m.py").write_text("import ast\n")
    (tmp_path / "one.py").write_text("from pipeline.a.m import f\n")
    (tmp_path / "two.py").write_text("from pipeline.a import m\n")
    assert importers_of(tmp_path)["a/m.py"] == ["one.py", "two.py"]


ROOM = "def by_test(): return 1\ndef by_fixture(): pass\ndef at_import(): pass\n"
TESTS = """
import pytest
from pipeline.room import at_import, by_fixture, by_test
at_import()

@pytest.fixture(scope="module")
def shared():
    by_fixture()

def test_first(shared): pass
def test_second(shared): assert by_test() < 2
def test_third(): pass
@pytest.mark.slow
def test_slow(): by_test()
"""
NAMES = {"room.py:1": "by_test", "room.py:2": "by_fixture", "room.py:3": "at_import"}


@pytest.fixture(scope="module")
def project(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One module and its tests."""
    folder = tmp_path_factory.mktemp("project")
    (folder / "pipeline").mkdir()
    (folder / "pipeline" / "__init__.py").touch()
    (folder / "pipeline" / "room.py").write_text(ROOM)
    (folder / "test_it.py").write_text(TESTS)
    (folder / "pytest.ini").write_text("[pytest]\nmarkers = slow\npythonpath = .\n")
    return folder


def answers(project: Path, *requests: dict) -> list[dict]:
    done = subprocess.run(
        [sys.executable, "-m", "tests.mutants.worker"],
        cwd=project,
        input="".join(json.dumps(request) + "\n" for request in requests),
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        check=True,
    )
    return [json.loads(line) for line in done.stdout.splitlines()]


def test_what_each_test_calls_is_recorded(project: Path):
    """A shared fixture counts for all that ask for it, and not for the first alone."""
    asked = {"record": "test_it.py", "limit": 60}
    whole, quick = answers(
        project, {**asked, "wanted": ["test_it.py::test_s"]}, {**asked, "wanted": []}
    )
    assert whole["code"] == quick["code"] == 0
    names = [name.removeprefix("test_it.py::test_") for name in whole["tests"]]
    assert names == ["first", "second", "third", "slow"]
    assert [*quick["tests"]] == [*whole["tests"]][:3]
    told = whole["tests"].values()
    assert [[NAMES[call] for call in one["calls"]] for one in told] == [
        ["by_fixture"],
        ["by_test", "by_fixture"],
        [],
        ["by_test"],
    ]
    assert [[*one["shared"]] for one in told][:3] == [["test_it.py::shared::0"]] * 2 + [[]]
    assert {NAMES[call] for one in told for call in one["on_import"]} == {"at_import"}


def test_a_mutant_is_killed_survives_or_runs_out_of_time(project: Path):
    """Also where two texts of one length are written within one second; the module is put back."""
    texts = ["return 1", "return 9", "return 0", "raise ValueError", "sum(iter(int, 1))"]
    found = answers(
        project,
        *(
            {
                "module": "room.py",
                "text": ROOM.replace("return 1", text),
                "tests": ["test_it.py::test_third", "test_it.py::test_second"],
                "limit": 2 if "iter" in text else 60,
            }
            for text in texts
        ),
    )
    *ended, late = [one["code"] for one in found]
    assert ended == [0, 1, 0, 1]
    assert -late in (signal.SIGPROF, signal.SIGALRM)  # the second where others have the processor
    assert "assert 9 < 2" in found[1]["told"] and found[4]["seconds"] < 30
    assert (project / "pipeline" / "room.py").read_text() == ROOM


def test_results_are_read_as_they_were_written(tmp_path: Path):
    told = [
        Result("b.py", 3, 3, (), code_of("b")),
        Result("a.py", 3, 1, ("a.py:1:2 < to <=", "a.py:3:4 min to max"), code_of("a")),
    ]
    write(told, tmp_path / "results.csv")
    assert read(tmp_path / "results.csv") == told[::-1]
    assert read(tmp_path / "none.csv") == [] and len(code_of("a")) == 12 != code_of("b")
    (tmp_path / "explained.csv").write_text('mutant,why\n"a.py:1:2 < to <=","never, equal"\n')
    assert explained(tmp_path / "explained.csv") == {"a.py:1:2 < to <=": "never, equal"}


TRIED = [
    Result("a.py", 9, 9, (), "aa"),
    Result("b.py", 9, 7, ("b.py:1:2 < to <=", "b.py:3:4 min to max"), "bb"),
    Result("c.py", 9, 8, ("c.py:1:2 0 to 1",), "cc"),
]
CODES = {"a.py": "aa", "b.py": "bb", "c.py": "cc"}
WHY = {"b.py:1:2 < to <=": "never equal", "c.py:1:2 0 to 1": "a pixel"}


def test_modules_are_tried_anew_until_nothing_is_left_to_explain():
    """What has another code, what is new, and what has a survivor that a new test may kill."""
    assert to_try(CODES, TRIED, WHY) == ["b.py"]
    assert to_try(CODES, TRIED, {**WHY, "b.py:3:4 min to max": ""}) == ["b.py"]
    why = {**WHY, "b.py:3:4 min to max": "one value"}
    assert to_try(CODES, TRIED, why) == []
    assert to_try({**CODES, "a.py": "a2", "d.py": "dd"}, TRIED, why) == ["a.py", "d.py"]


def test_what_is_explained_and_what_survives_are_held_against_each_other():
    assert unexplained(TRIED, WHY) == ["b.py:3:4 min to max"] and outlived(TRIED, WHY) == []
    assert outlived(TRIED[:2], WHY) == ["c.py:1:2 0 to 1"], "its module is gone"
    killed = [TRIED[0], Result("b.py", 9, 9, (), "bb"), TRIED[2]]
    assert outlived(killed, WHY) == ["b.py:1:2 < to <="] and unexplained(killed, WHY) == []
