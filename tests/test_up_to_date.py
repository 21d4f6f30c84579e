"""Outputs know by themselves what is up to date, whatever becomes of the workflow's memory."""

from __future__ import annotations

import fcntl
import os
import re
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from pipeline.commands import run
from pipeline.config.load import load
from pipeline.errors import UserError
from pipeline.records.state import stale
from pipeline.records.steps import Steps
from tests.conftest import jobs, snakemake
from tests.editions import archive, project_of
from tests.small_project import command, edit

pytestmark = pytest.mark.slow
TOPIC = "sea-air"
BELOW = {"significance": 1, f"charts_{TOPIC}": 1, "brief": 1}


@pytest.fixture(scope="module")
def kept(built: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A project with one topic built, whose workflow remembers nothing."""
    folder = tmp_path_factory.mktemp("kept") / "project"
    folder.mkdir()
    project_of(built, folder, TOPIC)
    for part in ("Snakefile", "profiles"):
        copy = shutil.copytree if (built / part).is_dir() else shutil.copy
        copy(built / part, folder / part)
    for topic in (folder / "config" / "topics").iterdir():
        if topic.stem != TOPIC:
            topic.unlink()
    assert snakemake(folder, "--quiet", "all").returncode == 0  # the shelf of one topic
    shutil.rmtree(folder / ".snakemake")
    return folder


@pytest.fixture()
def project(kept: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(kept, tmp_path / "project"))


def test_a_project_without_the_workflows_memory_makes_nothing_again(project: Path):
    assert not (project / ".snakemake").exists()
    assert jobs(project, left_out=()) == {}


@pytest.mark.parametrize(
    ("file", "old", "new", "made"),
    [
        ("config/measures.yaml", "margin: 0.6 points", "margin: 0.7 points", BELOW),
        ("pipeline/brief/method.py", '"""', '"""Also: ', {"brief": 1}),
        ("templates/brief.css", "{", " {", {"brief": 1}),
    ],
)
def test_nor_is_an_edit_missed(project: Path, file: str, old: str, new: str, made: dict):
    edit(project / file, old, new)
    assert jobs(project) == made


def to_make() -> list[str]:
    """The rules of the steps that the workflow would forget, in the working directory."""
    found = stale(Steps(load("config"), "output").all(), "output")
    charts = f"charts_{TOPIC}"
    return [charts if x.step.stage == "charts" else x.step.stage for x in found]


def cut(path: Path) -> None:
    path.write_bytes(path.read_bytes()[:-20])


def one_byte(path: Path) -> None:
    path.write_bytes(b"?")


def reworded(path: Path) -> None:
    path.write_bytes(path.read_bytes().replace(b"a", b"e", 1))


HANDS: list[tuple[str, Callable[[Path], None], str]] = [
    ("data/deliveries.parquet", cut, "clean"),
    ("data/tidewater/people.parquet", one_byte, "ingest"),
    ("sea-air/tallies.parquet", Path.unlink, "metrics"),
    ("sea-air/selection.json", reworded, "metrics"),
    ("sea-air/findings.json", Path.unlink, "significance"),
    ("sea-air/charts/charts.json", reworded, "charts_sea-air"),
    ("sea-air/charts/contact-sheet.png", one_byte, "charts_sea-air"),
    ("sea-air/facts.csv", reworded, "brief"),
]


@pytest.mark.parametrize(("name", "change", "stage"), HANDS, ids=[name for name, *_ in HANDS])
def test_a_hands_edit_is_named_refused_and_made_again(
    project: Path,
    name: str,
    change: Callable[[Path], None],
    stage: str,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
):
    monkeypatch.chdir(project)
    change(Path("output") / name)
    with pytest.raises(SystemExit):
        run("doctor", [])
    (line,) = [x for x in capsys.readouterr().out.splitlines() if x.startswith("MEND")]
    assert name in line and "run make brief" in line
    refusal = rf"{re.escape(name)}.*; run make brief"
    with pytest.raises(UserError, match=refusal):
        run("explain", ["coast.economy.pace"])
    with pytest.raises(UserError, match=refusal):
        archive(TOPIC)
    assert not list(Path("output").glob("archive/*/[0-9]*"))
    assert stage in to_make()


def test_what_a_hand_changed_is_as_it_was_after_the_next_build(project: Path):
    changed = [project / "output" / TOPIC / name for name in ("findings.json", "facts.csv")]
    before = [path.read_bytes() for path in changed]
    changed[0].unlink()
    reworded(changed[1])
    done = snakemake(project, "--quiet", "all")
    assert done.returncode == 0, done.stderr
    assert [path.read_bytes() for path in changed] == before
    assert jobs(project, left_out=()) == {}


def test_a_stage_that_failed_fails_again_until_it_is_mended(project: Path):
    """Its earlier outputs stay, and nobody is told that they are the new ones."""
    topic = project / "config" / "topics" / f"{TOPIC}.yaml"
    page = project / "output" / TOPIC / "brief.html"
    good, before = topic.read_text("utf-8"), page.read_bytes()
    topic.write_text(
        f'{good}see_also: [{{fact: "{TOPIC}/7:coast.economy.pace.change"}}]\n', "utf-8"
    )
    for _ in range(2):
        done = command(project, "build")
        assert done.returncode == 1 and f"{TOPIC}/7" in done.stderr
        assert f"not up to date: {TOPIC} (brief of {TOPIC}: it failed: config/" in done.stderr
        assert page.read_bytes() == before
        shelf = (project / "output" / "index.html").read_text("utf-8")
        assert "Not up to date." in shelf and f"{TOPIC}/7" in shelf
    topic.write_text(good.replace("title: Is it really", "title: Is it not"), "utf-8")
    done = command(project, "build")
    assert done.returncode == 0, done.stderr
    assert "Is it not" in page.read_text("utf-8")
    assert "Not up to date." not in (project / "output" / "index.html").read_text("utf-8")
    assert jobs(project, left_out=()) == {}


def test_a_stage_that_is_killed_is_told_with_what_to_do(project: Path):
    """The engine is quiet; what the system did to a stage is said all the same."""
    main = project / "pipeline" / "brief" / "__main__.py"
    edit(
        main,
        "def main() -> None:",
        "def main() -> None:\n    __import__('os').kill(0 + __import__('os').getpid(), 9)",
    )
    edit(project / "config/topics/sea-air.yaml", "title: Is it really", "title: Is it not")
    done = command(project, "build")
    assert done.returncode == 1
    (line,) = [x for x in done.stderr.splitlines() if "was ended from outside (SIGKILL)" in x]
    assert line.startswith("brief (output/sea-air/brief.") and "make brief CORES=1" in line
    assert f"not up to date: {TOPIC} (" in done.stderr and "Traceback" not in done.stderr


def test_a_lock_that_was_left_is_told_and_unlocked(project: Path):
    locks = project / ".snakemake" / "locks"
    locks.mkdir(parents=True)
    (locks / "0.output.lock").write_text("output/index.html\n", "utf-8")
    edit(project / "config/topics/sea-air.yaml", "title: Is it really", "title: Is it not")
    done = command(project, "build")
    assert done.returncode == 1
    (line,) = [x for x in done.stderr.splitlines() if "make unlock" in x]
    assert line.startswith("another build works in this folder, or one was ended")
    unlocked = command(project, "build", "--unlock")
    assert unlocked.returncode == 0 and "type make brief again" in unlocked.stdout
    assert not locks.exists() or not any(locks.iterdir())


def test_a_second_build_waits_for_the_first_and_unlocking_does_not_disturb_it(project: Path):
    (project / ".snakemake").mkdir()
    with (project / ".snakemake" / "building").open("w") as first:
        fcntl.flock(first, fcntl.LOCK_EX)
        refused = command(project, "build", "--unlock")
        assert refused.returncode == 1 and "a build is running here" in refused.stderr
        call = [sys.executable, "-m", "pipeline", "build"]
        second = subprocess.Popen(
            call, cwd=project, stderr=subprocess.PIPE, stdout=subprocess.DEVNULL, text=True
        )
        assert second.stderr is not None
        assert "waiting for it to end" in second.stderr.readline()
        assert second.poll() is None
    assert second.wait(120) == 0


def test_a_build_holds_the_project_until_its_last_process_ends(project: Path):
    """The first process alone is killed: what it began still works, and still holds."""
    edit(project / "config/topics/sea-air.yaml", "title: Is it really", "title: Is it not")
    call = [sys.executable, "-m", "pipeline", "build"]
    quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    first = subprocess.Popen(call, cwd=project, start_new_session=True, **quiet)
    try:
        while not (project / ".snakemake" / "log").exists():  # the engine has begun
            assert first.poll() is None
            time.sleep(0.02)
        first.kill()
        first.wait()
        refused = command(project, "build", "--unlock")
        assert refused.returncode == 1 and "a build is running here" in refused.stderr
    finally:
        os.killpg(first.pid, signal.SIGKILL)


@pytest.mark.parametrize("name", ["output", ".snakemake"])
def test_a_folder_that_can_not_be_written_is_named(project: Path, name: str):
    """A file stands in its place: the system refuses that to every user."""
    shutil.rmtree(project / name, ignore_errors=True)
    (project / name).write_text("", "utf-8")
    done = command(project, "build")
    assert done.returncode == 1 and "Traceback" not in done.stderr
    assert done.stderr.startswith(f"{name}: can't be written (") and done.stderr.count("\n") == 1
