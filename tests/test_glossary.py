"""The box of words: a file that a person edits, and only what a brief says."""

from __future__ import annotations

from contextlib import chdir
from dataclasses import replace
from pathlib import Path

import pytest

from pipeline.brief.plain_words import terms_said
from pipeline.brief.render import page
from pipeline.config.glossary import Glossary, Term
from pipeline.config.load import load
from pipeline.config.yaml_files import read_yaml, validate
from pipeline.errors import UserError
from tests.conftest import ROOT, copy_project
from tests.league import brief, league, scored

FILE = ROOT / "config" / "glossary.yaml"


def terms(*words: str | tuple[str, ...]) -> list[Term]:
    made = [(each,) if isinstance(each, str) else each for each in words]
    return [Term(term=first, also=list(more), means="what it is") for first, *more in made]


def found(glossary: list[Term], *texts: str) -> list[str]:
    return [term.term for term in terms_said(glossary, texts)]


def test_only_what_is_said_is_explained_in_the_file_s_order():
    glossary = terms("wicket", "drift", "spin")
    assert found(glossary, "Spin went up.", "It took wickets.") == ["wicket", "spin"]
    assert found(glossary, "Adrift, spinning.") == [] == found([], "spin")


def test_other_words_plurals_and_either_apostrophe_are_found():
    glossary = terms(("can’t tell", "can’t say"), ("pace", "quick"), "left-arm")
    assert found(glossary, "We can't say.", "The quicks’ economy.") == ["can’t tell", "pace"]
    assert found(glossary, "Left-arm spin.") == ["left-arm"]
    assert found(terms("arm"), "left-arm") == [], "a part of another word"


def test_a_term_inside_a_longer_one_is_not_said_there():
    glossary = terms("boundary", "boundary share")
    assert found(glossary, "The boundary share fell.") == ["boundary share"]
    assert found(glossary, "The boundary share fell: a boundary an over.") == [
        "boundary",
        "boundary share",
    ]


def test_the_demo_s_glossary_is_read_and_every_line_is_one_line():
    glossary, problems = validate(read_yaml(FILE), Glossary)
    assert problems == [] and glossary and len(glossary.terms) > 20
    assert all(len(term.means) <= 90 for term in glossary.terms)


def told(tmp_path: Path, text: str) -> list[str]:
    folder = copy_project(tmp_path / "project")
    (folder / "config" / "glossary.yaml").write_text(text, "utf-8")
    with chdir(folder), pytest.raises(UserError) as caught:
        load(Path("config"))
    return [str(problem) for problem in caught.value.problems]


def test_what_is_wrong_with_it_is_told_at_its_line(tmp_path: Path):
    (long,) = told(tmp_path / "a", f"terms:\n  - {{term: spin, means: {'slow ' * 30}}}\n")
    assert long.startswith("config/glossary.yaml:2:") and "90" in long
    (twice,) = told(
        tmp_path / "b",
        "terms:\n  - {term: pace, also: [quick], means: fast}\n  - {term: Quick, means: fast}\n",
    )
    assert "'quick' stands twice" in twice
    (key,) = told(tmp_path / "c", "terms:\n  - {term: spin, mean: slow}\n  - {x: 1}\n")[:1]
    assert key.startswith("config/glossary.yaml:2:") and "mean" in key


BEAT = "  - {id: a, kind: before_after, measure: run_rate, by: phase}"


def test_a_brief_prints_the_words_that_it_says_and_none_without_the_file(tmp_path: Path):
    matches = [scored(2019, 60 + day % 3, 60, day) for day in range(1, 8)]
    matches += [scored(2020, 80 + day % 3, 60, day) for day in range(1, 8)]
    project = league(tmp_path / "league", matches)
    made = brief(project, BEAT, headlines="[a]")
    said = [term.term for term in made.content.glossary]
    assert "run rate" in said and "spin" not in said and "like for like" not in said
    html = page(made.content, made.folder, made.screen)
    assert "In plain words" in html and "extras and all" in html
    without = page(replace(made.content, glossary=[]), made.folder, made.screen)
    assert "In plain words" not in without
    (project / "config" / "glossary.yaml").unlink()
    assert load(project / "config", only="asked").glossary == []
