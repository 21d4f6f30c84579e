"""What is said that is not in the data: where it stands, who checked it, what is cited."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from pipeline.brief.background import background, caution, citations
from pipeline.config.topic import Background, Cited
from pipeline.contracts.facts import Fact
from pipeline.errors import UserError
from tests.fact_makers import archive_facts, edition, fact

ITEMS = [
    Background(say="One"),
    Background(say="Two", source="Minutes, p. 4"),
    Background(say="Three", source="Minutes", checked=date(2026, 11, 20), by="A Reader"),
    Background(say="Four", source="Minutes", checked=date(2026, 11, 21)),
]


def test_background_without_a_source_is_marked_and_counted():
    marked = background(ITEMS)
    assert [item.mark for item in marked] == ["needs a source", "not yet checked", None, None]
    assert marked[2].checked == "checked 2026-11-20 by A Reader"
    assert [item.checked for item in marked[:2]] == ["", ""]
    assert marked[3].checked == "checked 2026-11-21"
    assert caution(ITEMS) == ["1 background statement needs a source before it is said on air."]
    assert caution([*ITEMS, ITEMS[0]]) == [
        "2 background statements need a source before it is said on air."
    ]
    assert caution(ITEMS[1:]) == []


def archived(archive: Path, number: int, *facts: Fact) -> Path:
    return archive_facts(archive, edition(edition=number, date=date(2026, number, 1)), *facts)


def test_facts_of_earlier_episodes_are_cited_with_edition_and_date(tmp_path: Path):
    archived(tmp_path, 1, fact("sixes.rate", "4.1"), fact("sixes.change", "+3.0%"))
    asked = [Cited(fact="rope/1:sixes.rate", say="Sixes then")]
    (found,) = citations(asked, tmp_path, "t.yaml")
    assert (found.say, found.fact) == ("Sixes then", "rope/1:sixes.rate")
    assert (found.display, found.spoken) == ("4.1", "about 4.1")
    assert (found.edition, found.later) == ("rope, edition 1, 2026-01-01", None)


def test_what_the_newest_edition_says_of_it_is_added(tmp_path: Path):
    """Not what one between says; an edition that cites itself as the newest adds nothing."""
    asked = [Cited(fact=f"rope/{number}:sixes.rate") for number in (1, 2)]
    archived(tmp_path, 1, fact("sixes.rate", "4.1"))
    archived(tmp_path, 2, fact("sixes.rate", "4.3"))
    later = [each.later for each in citations(asked, tmp_path, "t.yaml")]
    assert later == ["edition 2 (2026-02-01) says 4.3", None]
    archived(tmp_path, 3, fact("sixes.rate", "4.1"))
    later = [each.later for each in citations(asked, tmp_path, "t.yaml")]
    assert later == [None, "edition 3 (2026-03-01) says 4.1"]
    archived(tmp_path, 4)
    later = [each.later for each in citations(asked, tmp_path, "t.yaml")]
    assert later == ["edition 4 (2026-04-01) no longer has it"] * 2


def test_every_citation_of_nothing_is_told(tmp_path: Path):
    archived(tmp_path, 1, fact("sixes.rate", "4.1"))
    archived(tmp_path, 2, fact("sixes.rate", "4.1"))
    named = ("rope/9:sixes.rate", "rope/1:sixes.rat", "rope/1:sixes.rate", "net/1:sixes.rate")
    with pytest.raises(UserError) as caught:
        citations([Cited(fact=name) for name in named], tmp_path, "t.yaml")
    assert [str(problem) for problem in caught.value.problems] == [
        "t.yaml: see_also[1].fact: no archived edition 'rope/9' (there: rope/1, rope/2)",
        "t.yaml: see_also[2].fact: edition rope/1 has no fact 'sixes.rat' "
        "(did you mean 'sixes.rate'?)",
        "t.yaml: see_also[4].fact: no archived edition 'net/1' (there: none)",
    ]


def test_an_edition_s_facts_that_can_t_be_read_are_named(tmp_path: Path):
    path = archived(tmp_path, 1, fact("sixes.rate", "4.1")) / "data" / "facts.json"
    for text in ("{", '[{"id": "sixes.rate"}]'):
        path.write_text(text, "utf-8")
        with pytest.raises(UserError, match=r"facts\.json: not .* verify on the edition"):
            citations([Cited(fact="rope/1:sixes.rate")], tmp_path, "t.yaml")
