"""The ledger through real builds: what adds a line and what does not, and what a brief says."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from pipeline.brief.stage import write_brief
from pipeline.build.command import build
from pipeline.config import views
from pipeline.config.load import load
from pipeline.contracts.files import read_json
from pipeline.contracts.findings import Findings
from pipeline.errors import UserError
from pipeline.ledger.book import ledger_of, read_ledger
from pipeline.records.state import stale
from pipeline.records.steps import Steps
from pipeline.run import make_stage
from tests.editions import archive
from tests.small_project import TOPIC, TOPIC_FILE, command, edit, outputs, typed

pytestmark = pytest.mark.slow
SAID = "the second version of this question; one other pair of windows was tried"
HEAD = "before: 3 seasons, after: 3 seasons"
OTHER = "before: 2 seasons, after: 3 seasons"


@pytest.fixture()
def folder(small_built: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A built project of one's own, as the working directory."""
    folder = Path(shutil.copytree(small_built, tmp_path / "the writer's folder, ö"))
    monkeypatch.chdir(folder)
    return folder


def found(folder: Path) -> Findings:
    return read_json(folder / "output" / TOPIC / "findings.json", Findings)


def built(folder: Path, *targets: str) -> Findings:
    """The topic's findings after a build that went well."""
    done = command(folder, "build", *targets)
    assert done.returncode == 0, done.stderr
    return found(folder)


def windows(folder: Path) -> list[str]:
    """Of each line of the ledger, the seasons before."""
    lines = read_ledger(ledger_of(folder / "config", TOPIC))
    assert {line.role for line in lines} <= {"headline"}
    return ["+".join(line.asks.sides[0]) for line in lines if line.asks.sides]


def test_builds_keep_their_looks_and_later_ones_count_them(folder: Path, capsys):
    ledger, topic = ledger_of(folder / "config", TOPIC), folder / TOPIC_FILE
    first = found(folder)
    assert len(windows(folder)) == 1 and not first.earlier and first.family.earlier == 0
    kept, made = ledger.read_bytes(), outputs(folder)
    assert stale(Steps(load("config"), "output").all(), "output") == []  # its own line is no other
    archive(TOPIC)
    edit(topic, "Spin paid for it", "It was the spinners")
    built(folder, TOPIC)  # its brief names the edition, too
    assert ledger.read_bytes() == kept  # other words ask nothing new
    assert outputs(folder)[f"{TOPIC}/findings.json"] == made[f"{TOPIC}/findings.json"]

    edit(topic, HEAD, OTHER)
    second = built(folder, f"archive_{TOPIC}")
    assert len(windows(folder)) == 2 and ledger.read_bytes().startswith(kept)
    assert second.family.earlier == 1 == len(second.earlier)
    head = next(one for one in second.findings if one.id in second.headlines)
    assert head.family_size == 2 and second.versions[head.id].number == 2
    assert SAID in (folder / "output" / TOPIC / "talking-points.md").read_text("utf-8")
    _editions(folder, capsys)

    text = ledger.read_text("utf-8")
    ledger.write_text(text.replace("change of", "chance of", 1), "utf-8")
    with pytest.raises(UserError, match=rf"^{ledger.relative_to(folder)}:2:1: not as"):
        build([TOPIC])
    ledger.unlink()
    anew = built(folder, TOPIC)
    assert anew.earlier == [] and anew.family.earlier == 0 and len(windows(folder)) == 1


def _editions(folder: Path, capsys) -> None:
    """Both are whole; the second is made again with the ledger that it keeps; they are compared."""
    said = typed(capsys, "verify", f"output/archive/{TOPIC}")
    assert [f"edition {number} of {TOPIC}" in said for number in (1, 2, 3)] == [True, True, False]
    kept = folder / "output" / "archive" / TOPIC / "2" / "data" / "config"
    assert len(read_ledger(ledger_of(kept, TOPIC))) == 1
    assert "made again" in typed(capsys, "rebuild", f"{TOPIC}/2")
    moved = typed(capsys, "compare", f"{TOPIC}/1", f"{TOPIC}/2")
    assert "more looks of earlier builds (1 now, none then)" in " ".join(moved.split())


def test_what_a_build_that_was_killed_has_looked_at_is_added_by_the_next(folder: Path):
    """The brief was there, its line was not: it is added before the topic asks anything else."""
    ledger_of(folder / "config", TOPIC).unlink()
    assert windows(folder) == []
    edit(folder / TOPIC_FILE, HEAD, OTHER)
    counted = built(folder, TOPIC)
    assert len(windows(folder)) == len(set(windows(folder))) == 2
    assert counted.family.earlier == 1
    uncounted = "statistics:\n  count_earlier_looks: false"
    edit(folder / "config" / "project.yaml", "statistics:", uncounted)
    config, out = load("config", only=TOPIC), Path("output") / TOPIC
    make_stage(views.significance(config, TOPIC), out, Path("output/data"))
    write_brief(views.brief(config, TOPIC), out, paper=False)
    left = found(folder)
    assert left.family.earlier == 0 and left.versions == counted.versions
    page = (folder / "output" / TOPIC / "brief.html").read_text("utf-8")
    assert "none of them is counted" in page
