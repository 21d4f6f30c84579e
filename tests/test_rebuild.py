"""Rebuild: an edition made again from its bag alone, and what is said when it can't be."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from pipeline.editions.reading import read_inputs
from pipeline.errors import UserError
from pipeline.rebuild import command
from pipeline.rebuild.command import rebuild
from pipeline.rebuild.lay_out import lay_out
from pipeline.topic_files import CHECK
from tests.editions import TOPIC, archive, change, project_of, remake

pytestmark = pytest.mark.slow
CITED = "coast.economy.pace.change"
KEPT = f"config/topics/{TOPIC}.script.md"
MATCHES = "demo_data/tidewater-shield.zip"


@pytest.fixture(scope="module")
def home(built: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A project with two editions: without its match files, and with them and other words."""
    folder = project_of(built, tmp_path_factory.mktemp("rebuild"))
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        archive()
        change("project.yaml", "title: Good Length demo", "title: A second title")
        with Path("config/project.yaml").open("a", encoding="utf-8") as settings:
            settings.write("archive: {include_data: true}\n")
        cited = f'see_also: [{{fact: "{TOPIC}/1:{CITED}", say: On pace}}]'
        change(f"topics/{TOPIC}.yaml", "title: Is it really", f"{cited}\ntitle: Is it only")
        Path(KEPT).write_text(f"# Mine\n\nOn pace, {{{{ {CITED} | size }}}}.\n", "utf-8")
        remake()
        archive()
    return folder


@pytest.fixture()
def alone(home: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with copies of the editions and the fonts, and no project around them."""
    shutil.copytree(home / "output" / "archive" / TOPIC, tmp_path / "kept")
    shutil.copytree(home / "templates" / "fonts", tmp_path / "templates" / "fonts")
    monkeypatch.chdir(tmp_path)
    return tmp_path / "kept"


def test_an_edition_with_its_data_is_made_again_to_the_byte(alone: Path, capsys):
    rebuild([str(alone / "2")])
    said = capsys.readouterr().out
    found = re.search(r"sea-air, edition 2: made again, (\d+) files byte-identical", said)
    assert found and int(found[1]) > 15


def test_an_edition_has_the_script_that_was_kept_and_one_without_has_the_draft_s(alone: Path):
    """The first test of these makes it again, from what the edition keeps."""
    first, second = alone / "1" / "data", alone / "2" / "data"
    assert not (first / KEPT).exists() and (second / KEPT).read_text("utf-8").startswith("# Mine")
    assert all((second / name).is_file() and not (first / name).exists() for name in CHECK)
    for page in ("script.html", "brief.html"):
        assert "On pace, " in (second / page).read_text("utf-8")
        assert "On pace, " not in (first / page).read_text("utf-8")
    for folder in (first, second):
        assert "script sea-air --keep" in (folder / "script.md").read_text("utf-8")


def test_it_cites_the_earlier_edition_and_is_made_again_without_it(alone: Path, capsys):
    points = (alone / "2" / "data" / "talking-points.md").read_text("utf-8")
    assert re.search(r"- On pace: [\w ]+ lower \(sea-air, edition 1, ", points)
    shutil.move(alone / "2", alone.parent / "only")
    rebuild([str(alone.parent / "only")])
    assert "byte-identical" in capsys.readouterr().out


def test_match_files_that_it_does_not_hold_are_found_by_their_checksum(
    alone: Path, home: Path, capsys
):
    with pytest.raises(UserError, match=rf"{MATCHES}: not in the edition, nor here; needed: match"):
        rebuild([str(alone / "1")])
    shutil.copytree(home / "demo_data", "demo_data")
    with Path(MATCHES).open("ab") as file:
        file.write(b"x")
    with pytest.raises(UserError, match="another file than the edition's; needed: match file of"):
        rebuild([str(alone / "1")])
    shutil.copy(home / MATCHES, MATCHES)
    rebuild([str(alone / "1")])
    assert "edition 1: made again" in capsys.readouterr().out


def test_what_differs_is_named_with_what_is_on_record(alone: Path, monkeypatch, capsys):
    monkeypatch.setattr(command, "code_hash", lambda: "other")
    now = {**command.software(), "numpy": "9.9"}
    monkeypatch.setattr(command, "software", lambda: now)
    monkeypatch.setattr("pipeline.wording.numbers.percent", lambda *_, **__: "?")
    with pytest.raises(UserError) as error:
        rebuild([str(alone / "2")])
    said = str(error.value)
    assert "brief.pdf: has other bytes" in said and "facts.json: has other bytes" in said
    assert "findings.json" not in said, "the numbers are the same"
    assert "why: the program's code" in said and "9.9 now" in said


def test_what_is_laid_out_can_be_written_though_the_edition_cannot(alone: Path, tmp_path: Path):
    """A rebuild by somebody who is not root; the bits say it, whoever runs the test."""
    payload = alone / "2" / "data"
    assert not payload.stat().st_mode & 0o222
    inputs = read_inputs(payload, "")
    work = tmp_path / "work"
    lay_out(payload, inputs, alone.parent, work)
    laid = [path for path in work.rglob("*") if not path.is_symlink()]
    assert len(laid) > 10 and all(path.stat().st_mode & 0o200 for path in laid)


def test_a_damaged_edition_is_not_made_again(alone: Path):
    facts = alone / "2" / "data" / "facts.json"
    facts.chmod(0o644)
    facts.write_bytes(facts.read_bytes() + b" ")
    with pytest.raises(UserError, match=r"data/facts.json: damaged .*; put back a whole copy"):
        rebuild([str(alone / "2")])
