"""The mutator: which faults it puts in, under which names, and where it keeps away."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path
from textwrap import dedent

import pytest

from tests.conftest import ROOT
from tests.mutants.mutate import mutants, sample
from tests.mutants.rooms import NothingMatches, modules


def made(text: str) -> dict[str, str]:
    """Each mutant of a text: its name without the module, and its own text."""
    return {one.name.removeprefix("m.py:"): one.text for one in mutants("m.py", dedent(text))}


def body(text: str) -> str:
    """The text of the only statement's mutant that is not 'returned None'."""
    found = [new for name, new in made(text).items() if "returned None" not in name]
    assert len(found) == 1, found
    return found[0].strip()


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("a < b", "a <= b"),
        ("a >= b", "a > b"),
        ("a == b", "a != b"),
        ("a is b", "a is not b"),
        ("a not in b", "a in b"),
        ("a + b", "a - b"),
        ("a / b", "a * b"),
        ("a // b", "a * b"),
        ("a & b", "a | b"),
        ("a and b and c", "a or b or c"),
        ("not a", "a"),
        ("-a", "a"),
        ("a[0]", "a[-1]"),
        ("a[-1]", "a[0]"),
        ("a[2]", "a[3]"),
        ("f(7)", "f(8)"),
        ("f(x=True)", "f(x=False)"),
        ("min(a, b)", "max(a, b)"),
        ("a.any(b)", "a.all(b)"),
        ("a if b else c", "c if b else a"),
        ("f'{a - b}'", "f'{a + b}'"),
    ],
)
def test_each_fault(old: str, new: str):
    assert body(f"x = {old}") == f"x = {new}"


@pytest.mark.parametrize(
    ("old", "new"),
    [("x += y", "x -= y"), ("x.append(y)", "pass"), ("x = a < b < 3 if 0 else 0", None)],
)
def test_statements(old: str, new: str | None):
    assert (body(old) == new) if new else len(made(old)) == 6


def test_one_fault_a_mutant_and_a_name_that_finds_it():
    text = """\
    '''A module of 1 + 1.'''
    LEAST = 6


    def f(a, b=True):
        '''Not 2, and not a < b.'''
        if a < LEAST or not b:
            check(a)
        return a - 1
    """
    found = made(text)
    assert list(found) == [
        "2:9 6 to 7",
        "5:12 True to False",
        "7:9 < to <=",
        "7:17 or to and",
        "7:21 not dropped",
        "8:9 check() dropped",
        "9:5 returned None",
        "9:13 - to +",
        "9:16 1 to 2",
    ]
    own = ast.unparse(ast.parse(dedent(text))).splitlines()
    for name, new in found.items():
        changed = [pair for pair in zip(own, new.splitlines(), strict=True) if pair[0] != pair[1]]
        assert len(changed) == 1, name
        ast.parse(new)


@pytest.mark.parametrize(
    "text",
    [
        "'''Of 3 and 4.'''",
        "__all__ = ['a', 'b'][0:2]",
        "x: Annotated[int, 3]",
        "def f(a: Annotated[int, 3]) -> Literal[4]: ...",
        "Kind = Literal[1, 2]",
        "@dataclass(frozen=True)\nclass A: ...",
        "assert isinstance(x, int) and x > 3",
        "if __name__ == '__main__':\n    main(3)",
        "if TYPE_CHECKING:\n    f(3)",
        "print(x)",
        "log.info(x)",
        "x = zip(a, b, strict=True)",
        "x = f'{a:>{b}}, {a:.3f}'",
        "x = 'a' + b",
        "def f():\n    return None",
        "code = 'beyond_chance'",
    ],
)
def test_where_no_fault_is_put(text: str):
    assert made(text) == {}


def test_a_sample_is_the_same_at_every_run_and_spread_over_the_module():
    text = "\n".join(f"x{n} = {n} + y" for n in range(40))
    found = mutants("m.py", text)
    drawn = sample(found, 10)
    again = subprocess.run(  # another process hashes text otherwise
        [
            sys.executable,
            "-c",
            "from tests.mutants.mutate import mutants, sample; import sys\n"
            "print(*(one.name for one in sample(mutants('m.py', sys.argv[1]), 10)), sep='\\n')",
            text,
        ],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    ).stdout.splitlines()
    assert [one.name for one in drawn] == again and len(again) == 10
    assert [one for one in found if one in drawn] == drawn
    assert sample(found, 10, seed=1) != drawn and sample(found, 80) == found


def test_a_renamed_room_is_an_error_that_names_it(tmp_path: Path):
    for name in ("a/one.py", "a/two.py", "a/__init__.py", "b/__main__.py"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).touch()
    assert modules(tmp_path, ("a/*.py", "a/one.py")) == ["a/one.py", "a/two.py"]
    for pattern in ("c/*.py", "b/*.py"):
        with pytest.raises(NothingMatches, match=rf"pipeline/{pattern[0]}/\*\.py"):
            modules(tmp_path, ("a/*.py", pattern))
