"""Long briefs on paper: nothing torn, nothing alone, no two columns that touch."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from pathlib import Path

import pytest
import weasyprint

from pipeline.brief import paper
from pipeline.brief.render import printed
from pipeline.brief.stage import sections
from tests.any_topics import any_league
from tests.golden.made import Made, made
from tests.long_topics import many_beats, wide_tables
from tests.paged import faults

pytestmark = pytest.mark.slow
TOPICS = {"many": many_beats, "wide": wide_tables}
BEATS = {"many": 25, "wide": 9}


@pytest.fixture(scope="module")
def project(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return any_league(tmp_path_factory.mktemp("long") / "league")


def laid_out(found: Made) -> weasyprint.Document:
    """The pages as they are printed, before they are written."""
    content = replace(found.content, facts=[])  # the index: half of the pages, and all alike
    html_of = partial(printed, content, found.folder)
    with paper._own_fonts():
        return paper._laid_out(weasyprint, html_of, sections(found.content))


@pytest.mark.parametrize("name", TOPICS)
def test_a_long_brief_breaks_where_it_may(
    project: Path, name: str, monkeypatch: pytest.MonkeyPatch
):
    """It holds of every layout that is tried: the third has sections that follow."""
    monkeypatch.setattr(paper, "MOST_PASSES", 3)
    (project / "config" / "topics" / f"{name}.yaml").write_text(TOPICS[name](), "utf-8")
    found = made(project, name, project / "output" / name)
    document = laid_out(found)
    assert faults(document) == []
    assert len(found.content.beats) == BEATS[name] and len(document.pages) > BEATS[name]
    assert "top:end" in document.pages[0].anchors, "the top sheet is one page"
