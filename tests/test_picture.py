"""The picture of the workflow in DEVELOPERS.md, and the workflow's own report."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from pipeline.errors import UserError
from tests import windows_drawn
from tests.conftest import copy_project, jobs, snakemake
from tests.picture import BEGIN, END, PAGE, README, drawn, edges, picture, rulegraph, with_windows


def test_the_picture_is_current(tmp_path: Path):
    page = PAGE.read_text("utf-8")
    made = picture(edges(rulegraph(copy_project(tmp_path / "project"))))
    assert drawn(page, made) == page, "make picture draws it anew"
    assert page.index("## Shape") < page.index(BEGIN) < page.index("\n## ", page.index(BEGIN))


def test_charts_of_all_topics_are_one_stage_and_targets_none():
    graph = (
        "flowchart TB\n\tid0[all]\n\tid1[brief]\n\tid2[charts_a]\n\tid3[charts_b]\n\tid4[clean]\n"
        "\tstyle id0 fill:#D95757\n\tid1 --> id0\n\tid2 --> id1\n\tid3 --> id1\n\tid4 --> id2\n"
    )
    assert edges(graph) == {("charts", "brief"), ("clean", "charts")}
    assert picture(edges(graph)).splitlines() == [
        *("```mermaid", "flowchart LR", "    clean --> charts", "    charts --> brief", "```")
    ]


@pytest.mark.parametrize("page", ["no marks", f"{END}{BEGIN}", BEGIN, f"{BEGIN}{BEGIN}{END}"])
def test_a_page_without_its_marks_is_refused(page: str):
    with pytest.raises(UserError, match="no place for what is made"):
        drawn(page, "x")


@pytest.mark.slow
def test_the_report_holds_briefs_and_captions_and_needs_no_network(built: Path, tmp_path: Path):
    nowhere = dict.fromkeys(("http_proxy", "https_proxy", "all_proxy"), "http://127.0.0.1:9")
    made = tmp_path / "report.html"
    done = snakemake(built, "--report", str(made), **nowhere)
    assert done.returncode == 0, done.stderr[-2000:]
    text = made.read_text("utf-8")
    told = ("what the presenter talks from", "All frames of", "what disagrees with the balls")
    # Three topics, each with two forms of a brief and a script.
    assert [text.count(words) for words in told] == [9, 3, 1]
    assert "<script src=" not in text and '<link href="http' not in text


@pytest.mark.slow
def test_a_caption_makes_no_brief_again(built: Path, tmp_path: Path):
    """Captions stand outside what a stage is made from."""
    folder = tmp_path / "project"
    shutil.copytree(built, folder, symlinks=True)
    (folder / "pipeline" / "captions" / "brief.rst").write_text("Other words.\n", "utf-8")
    assert jobs(folder, left_out=()) == {}
    (folder / "templates" / "brief.css").write_text("", "utf-8")
    assert jobs(folder)["brief"] == 3, "what is in templates/ does"


def test_the_picture_of_windows_is_what_is_chosen():
    page = README.read_text("utf-8")
    assert with_windows(page) == page, "make picture draws it anew"
    lines = windows_drawn.picture().splitlines()
    assert len(lines) == len(windows_drawn.FORMS) + 4 and all(len(line) <= 120 for line in lines)
