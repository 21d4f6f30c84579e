"""An edition of somebody else's: its files of any shape end in a line, and lead nowhere else."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path
from random import Random

import pytest

from pipeline.contracts.editions import Input, Inputs
from pipeline.editions.archived_views import archived_side
from pipeline.editions.reading import read_around, read_facts, read_inputs
from pipeline.editions.store import read_edition
from pipeline.errors import UserError
from pipeline.rebuild.command import other_versions
from pipeline.rebuild.inside import check_inside
from pipeline.rebuild.lay_out import lay_out
from tests.conftest import ROOT
from tests.faults.bags import try_one

OLD = ROOT / "tests" / "old_edition"
SHAPES = [
    *("1", "[1]", "null", '"x"', "{}", '{"format": 2}', '{"format": 1}', "[[]]", '{"since": 1}'),
    *("NaN", "[1e999]", "[" * 100_000, '{"a":' * 100_000, '["\\ud800"]', "1" * 6000),
    *('{"since": {"edition": 1, "x": 1}, "see_also": []}', '{"facts": 1, "format": 2}', "\0"),
]


@pytest.mark.parametrize("text", SHAPES)
@pytest.mark.parametrize(
    ("name", "read"),
    [
        ("edition.json", lambda data: read_edition(data.parent)),
        ("around.json", lambda data: read_around(data, "")),
        ("inputs.json", lambda data: read_inputs(data, "")),
        ("facts.json", lambda data: read_facts(data, "")),
        ("config/merged.json", lambda data: archived_side(data.parent)),
    ],
)
def test_json_of_another_shape(tmp_path: Path, text: str, name: str, read):
    shutil.copytree(OLD, tmp_path / "1")
    path = tmp_path / "1" / "data" / name
    path.write_text(text, "utf-8")
    with pytest.raises(UserError) as found:
        read(tmp_path / "1" / "data")
    for problem in found.value.problems:
        assert str(path) == problem.file
        assert len(str(problem).splitlines()) == 1
        str(problem).encode()


@pytest.fixture()
def config(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The configuration of an edition, laid out in the working directory."""
    shutil.copytree(ROOT / "config", tmp_path / "config")
    monkeypatch.chdir(tmp_path)
    return Path("config")


@pytest.mark.parametrize("path", ["/etc/passwd", "../../x.csv", "~/x.csv", "a/../../b", "C:\\x"])
@pytest.mark.parametrize(
    ("file", "setting", "named"),
    [
        ("project.yaml", "players", "players"),
        ("project.yaml", "grounds", "grounds"),
        ("project.yaml", "people", "people"),
        ("project.yaml", "corrections", "corrections"),
        ("sources.yaml", "path", "sources[1].path"),
        ("theme.yaml", "SemiBold", "fonts.SemiBold"),
        ("theme.yaml", "logo", "logo"),
    ],
)
def test_a_path_that_leads_out_of_an_edition(
    config: Path, path: str, file: str, setting: str, named: str
):
    text = (config / file).read_text("utf-8")
    there = re.compile(rf"^(?P<before>[^#\n]*\b{setting}: )[^,}}\s]+", re.MULTILINE)
    said = json.dumps(path)
    if there.search(text):
        text = there.sub(lambda found: found["before"] + said, text)
    else:
        text = f"{text}{setting}: {said}\n"
    (config / file).write_text(text, "utf-8")
    with pytest.raises(UserError) as found:
        check_inside(config)
    (problem, *_) = found.value.problems
    assert problem.file == f"config/{file}" and problem.line and problem.where == named
    assert "leads out of the edition; not read" in problem.message


def test_the_demo_stays_inside(config: Path):
    check_inside(config)


@pytest.mark.parametrize("stored", ["../../secret.csv", "/etc/passwd", "inputs/../../x", "a\0b"])
def test_a_file_that_an_edition_says_it_keeps_elsewhere(tmp_path: Path, stored: str):
    (tmp_path / "secret.csv").write_text("secret", "utf-8")
    item = Input(
        **{"kind": "sheet", "of": "players", "path": "players.csv", "stored": stored, "note": None},
        **{"bytes": 6, "sha256": "", "sha512": ""},
    )
    payload = tmp_path / "edition" / "data"
    (payload / "config").mkdir(parents=True)
    work = tmp_path / "work"
    with pytest.raises(UserError, match=r"inputs\.json: players\.csv: kept at .* not read"):
        lay_out(payload, Inputs(match_files_included=False, files=[item]), tmp_path, work)
    assert not work.exists()


def test_which_libraries_explain_other_bytes():
    then = {"numpy": "1", "pango": "1.50.0", "blas": "x 1, Haswell on x86_64"}
    assert other_versions(then, then) == []
    assert other_versions(then, {**then, "pango": "1.52.0", "blas": None}) == [
        "other versions: pango 1.50.0 then, 1.52.0 now; blas x 1, Haswell on x86_64 then, none now"
    ]
    (untold,) = other_versions({"numpy": "1"}, then)
    assert untold.startswith("that edition does not tell these of then: pango 1.50.0 now; blas")


def test_editions_changed_at_random(tmp_path: Path):
    """Every change of a byte is seen, and what a stranger has sealed ends in a line a problem."""
    found = {number: try_one(Random(number), tmp_path) for number in range(150)}
    assert {number: told for number, told in found.items() if told.startswith("other")} == {}
