"""The whole workflow on the demo: what is built, what is rerun, what stays when something fails."""

from __future__ import annotations

import os
import re
import shutil
import zipfile
from pathlib import Path

import pytest
from pypdf import PdfReader

from pipeline.contracts.files import read_json
from pipeline.contracts.selection import Selection
from tests.conftest import jobs, snakemake
from tests.fact_makers import facts_of
from tests.small_project import edit, outputs

pytestmark = pytest.mark.slow
TOPICS = ("long-grass", "sea-air")
OLD = 978307200  # 1 January 2001: older than anything built


@pytest.fixture()
def project(built: Path, tmp_path: Path) -> Path:
    """A built project of one's own, with the times of its files kept; two topics are enough."""
    folder = tmp_path / "project"
    shutil.copytree(built, folder, symlinks=True)
    (folder / "config" / "topics" / "who-paid.yaml").unlink()
    shutil.rmtree(folder / "output" / "who-paid")
    return folder


def pdf_text(folder: Path, topic: str) -> list[str]:
    pages = PdfReader(folder / "output" / topic / "brief.pdf").pages
    return [re.sub(r"\s+", " ", page.extract_text()) for page in pages]


@pytest.mark.parametrize("topic", TOPICS)
def test_brief_holds_question_headlines_and_sources(built: Path, topic: str):
    text = " ".join(pdf_text(built, topic))
    facts = facts_of(built, topic).values()
    assert "?" in text and "Tidewater Shield scorers’ file" in text and "CC0-1.0" in text
    assert "Invented data: no real league" in text
    headlines = [fact for fact in facts if fact.headline]
    assert len(headlines) >= 12
    for fact in headlines:
        assert fact.display in text, fact.id


@pytest.mark.parametrize("topic", TOPICS)
def test_no_empty_page_and_no_broken_number(built: Path, topic: str):
    pages = pdf_text(built, topic)
    assert all(len(page) > 200 for page in pages)
    broken = re.compile(r"\b([Nn]a[Nn]|inf|null|undefined)\b|\bobject at\b|\bNone\b(?! of | can)")
    texts = {"pdf": " ".join(pages)}
    for name in ("facts.csv", "talking-points.md"):
        texts[name] = (built / "output" / topic / name).read_text("utf-8")
    for name, text in texts.items():
        assert not broken.search(text), (name, broken.search(text))


@pytest.mark.parametrize("topic", TOPICS)
def test_pdf_is_tagged_titled_and_in_english(built: Path, topic: str):
    reader = PdfReader(built / "output" / topic / "brief.pdf")
    root = reader.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"] and root["/Lang"] == "en-GB"
    assert reader.metadata.title and reader.outline


def test_a_second_run_does_nothing(built: Path):
    assert jobs(built, left_out=()) == {}


def test_an_edited_note_reruns_the_brief_alone(project: Path):
    edit(project / "config/topics/long-grass.yaml", "note: Begin", "note: Start")
    assert jobs(project) == {"brief": 1}


def test_a_script_beside_a_topic_is_checked_before_its_brief(project: Path):
    """And no other topic's; without it there is no such job."""
    script = project / "config/topics/sea-air.script.txt"
    script.write_text("Off pace it was four and a half an over.\n", "utf-8")
    assert jobs(project) == {"script": 1, "brief": 1}
    script.unlink()
    assert "script" not in jobs(project)


def test_a_slot_of_no_fact_stops_with_its_line_and_earlier_outputs_stay(project: Path):
    script = project / "config/topics/sea-air.script.md"
    script.write_text("# T\n\nIt was {{ coast.economy.pac.change }}.\n", "utf-8")
    before = outputs(project)
    done = snakemake(project, "sea-air")
    assert done.returncode == 1 and "Traceback" not in done.stderr
    told = "sea-air.script.md:3:8: no fact 'coast.economy.pac.change' (did you mean 'coast."
    assert told in done.stderr
    assert outputs(project) == before


def test_an_edited_margin_reruns_significance_and_below(project: Path):
    """The first margin in points is the dot-ball share's, which one topic uses."""
    edit(project / "config/measures.yaml", "margin: 0.6 points", "margin: 0.7 points")
    assert jobs(project) == {"significance": 1, "charts_sea-air": 1, "brief": 1}


@pytest.mark.parametrize(
    ("module", "first"),
    [("pipeline/clean/styles.py", "clean"), ("pipeline/charts/series.py", "charts_long-grass")],
)
def test_an_edited_module_reruns_the_stages_that_use_it(project: Path, module: str, first: str):
    """Which module belongs to which stages is told by tests/test_provenance.py."""
    order = ["ingest", "clean", "metrics", "significance", "charts_long-grass", "brief"]
    (project / module).write_text((project / module).read_text("utf-8") + "\n", "utf-8")
    planned = jobs(project)
    assert first in planned
    assert not set(order[: order.index(first)]) & set(planned)


def test_swapped_input_with_an_older_date_is_noticed(project: Path):
    archive = project / "demo_data" / "tidewater-shield.zip"
    with zipfile.ZipFile(archive, "a") as opened:
        opened.writestr("note.txt", "other content")
    os.utime(archive, (OLD, OLD))
    assert jobs(project)["ingest"] == 1


def test_unchanged_tallies_stop_the_rerun(project: Path):
    """A data fix that touches no topic's balls ends at metrics when run in two steps."""
    before = outputs(project)
    edit(project / "demo_data/players.csv", "id,name,", "id,name,")
    with (project / "demo_data/players.csv").open("a", encoding="utf-8") as sheet:
        sheet.write("ffffffff,N Obody,left,Legbreak,\n")
    assert snakemake(project, "--until", "metrics").returncode == 0
    assert jobs(project) == {}
    after = outputs(project)  # only the report says that the line is of nobody
    moved = {name for name in before if before[name] != after[name]}
    assert after.keys() == before.keys() and moved == {"data/quality.html", "data/quality.json"}


def test_data_fixes_rebuild_what_they_reach_and_say_what_moved(project: Path):
    """A batting hand is filled in: one topic cuts by hand, the other does not. Then the corrections
    are withdrawn, of a match that both count."""
    before = outputs(project)
    edit(project / "demo_data/players.csv", "44112753,K Mirnulisk,,", "44112753,K Mirnulisk,left,")
    first = snakemake(project, "--quiet", "all", "--until", "metrics")
    assert "known batting hand           98.9%" in first.stdout
    assert "corrections applied          2" in first.stdout
    assert jobs(project) == {"significance": 1, "charts_sea-air": 1, "brief": 1}
    done = snakemake(project, "--quiet", "all")
    assert done.returncode == 0
    lines = done.stdout.splitlines()
    assert any(re.match(r"sea-air: moved since the last build: \d headline", x) for x in lines)
    assert any(re.match(r"  hands\.batting_strike_rate\.left: [\d.]+ -> ", line) for line in lines)
    assert "long-grass" not in done.stdout
    after = outputs(project)
    changed = {name.split("/")[0] for name in before if before[name] != after[name]}
    assert changed == {"data", "sea-air"}
    page = " ".join(pdf_text(project, "long-grass"))
    assert "Scorebook of match 5 of 2018, page 3" in page and "2 corrections" in page
    fixes = project / "config/corrections.csv"
    fixes.write_text(fixes.read_text("utf-8").split("\n")[0] + "\n", "utf-8")
    done = snakemake(project, "--until", "metrics", "--quiet", "all")
    assert done.returncode == 0 and "corrections applied          0" in done.stdout
    charts = {"charts_long-grass": 1, "charts_sea-air": 1}
    assert jobs(project) == {"significance": 2, **charts, "brief": 2}
    selection = read_json(project / "output" / "long-grass" / "selection.json", Selection)
    assert selection.corrections == []  # of which alone a brief tells


def test_a_fix_that_no_longer_applies_stops_with_its_line(project: Path):
    before = outputs(project)
    edit(project / "config/corrections.csv", "runs_batter,2,0", "runs_batter,3,0")
    done = snakemake(project)
    assert done.returncode == 1 and "Traceback" not in done.stderr
    assert "config/corrections.csv:2:1: match ts-2018-05, innings 1" in done.stderr
    assert outputs(project) == before


def test_five_mistakes_five_lines_and_earlier_outputs_stay(project: Path):
    topic = project / "config/topics/long-grass.yaml"
    edit(topic, "format: one-day", "format: oneday")
    edit(topic, "before: 5 seasons", "before: five")
    edit(topic, "measure: run_rate", "measure: run_rat")
    edit(topic, "by: [bowler_kind, phase]", "by: [bowler_knd, phase]")
    edit(topic, "title: Where the runs went", "titel: Where the runs went")
    before = outputs(project)
    done = snakemake(project)
    lines = [line for line in done.stderr.splitlines() if "long-grass.yaml" in line]
    assert done.returncode == 1 and len(lines) == 5
    assert "Traceback" not in done.stderr
    assert all(re.match(r"config/topics/long-grass\.yaml:\d+:\d+: ", line) for line in lines)
    assert outputs(project) == before


def test_mistakes_in_the_zip_are_named_with_their_lines_and_outputs_stay(project: Path):
    archive = project / "demo_data" / "tidewater-shield.zip"
    members = {}
    with zipfile.ZipFile(archive) as opened:
        members = {name: opened.read(name) for name in opened.namelist()}
    for name in ("dismissals.csv", "people.csv"):
        header, first, *others = members[name].splitlines()
        members[name] = b"\n".join([header, first.rsplit(b",", 1)[0] + b",", *others])
    with zipfile.ZipFile(archive, "w") as opened:
        for name, data in members.items():
            opened.writestr(name, data)
    before = outputs(project)
    done = snakemake(project)
    assert done.returncode == 1 and "Traceback" not in done.stderr
    assert "tidewater-shield.zip/dismissals.csv:2:1: player_out_id is blank" in done.stderr
    assert "tidewater-shield.zip/people.csv:2:1: team is blank" in done.stderr
    assert before.items() <= outputs(project).items()  # what was read is kept beside them


def test_a_topic_that_leaves_no_matches_says_what_there_is(project: Path):
    topic = project / "config/topics/sea-air.yaml"
    edit(topic, "competition: Tidewater Shield", "competition: Tidewater Shild")
    done = snakemake(project)
    assert done.returncode == 1 and "Traceback" not in done.stderr
    message = "competition 'Tidewater Shild' isn't in the data; it has: Tidewater Shield"
    assert message in done.stderr


def test_an_expectation_of_no_finding_is_one_line(project: Path):
    edit(
        project / "config/topics/sea-air.yaml",
        "coast.economy.spin, means",
        "coast.economy.spn, means",
    )
    done = snakemake(project, "sea-air")
    assert done.returncode == 1 and "Traceback" not in done.stderr
    assert (
        "].finding: no finding 'coast.economy.spn' (did you mean 'coast.economy.spin'?)"
        in done.stderr
    )
