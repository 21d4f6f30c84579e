"""Long briefs on paper: nothing torn, nothing alone, no two columns that touch."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any

import pytest
import weasyprint

from pipeline.brief import paper
from pipeline.brief.render import printed
from pipeline.brief.stage import sections
from tests.any_topics import any_league
from tests.golden.made import Made, made
from tests.long_topics import many_beats, wide_tables
from tests.paged import boxes, faults, has_class, texts

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
    check_top(document.pages[0]._page_box)


def check_top(page: Any) -> None:
    """What can't be told stands back by size, weight and rule, not by colour alone."""
    cards = [box for box in boxes(page) if has_class(box, "card") and box.border_top_width]
    quiet = [_loudness(card) for card in cards if has_class(card, "cant-tell")]
    loud = [_loudness(card) for card in cards if not has_class(card, "cant-tell")]
    assert len(cards) >= 3 and loud
    least = [min(sizes) for sizes in zip(*loud, strict=True)]
    for one in quiet:
        assert all(mine < 0.75 * low for mine, low in zip(one, least, strict=True)), (one, least)
    headings = [box for box in boxes(page) if box.element_tag == "h2"]
    said = {" ".join(text.text for text in texts(box)) for box in headings}
    assert "In this brief" in said and not any("beat" in each.lower() for each in said)


def _loudness(card: Any) -> tuple[float, float, float]:
    """Size and weight of what it leads with, and the width of its rule."""
    (number,) = [box for box in card.descendants() if has_class(box, "number")][:1]
    style = number.style
    return style["font_size"], style["font_weight"], card.border_top_width
