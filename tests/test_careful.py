"""Cautions of a brief: none is lost, none is said twice, and each is true where it stands."""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from pipeline.brief.careful import MOST_CAUTIONS, NOTHING, careful, noted
from pipeline.brief.render import talking_points
from pipeline.config.kinds import KINDS, AnyBeat
from pipeline.contracts import notes as codes
from pipeline.contracts.finding import Finding
from pipeline.contracts.notes import AnyNote
from pipeline.editions.sides import ANSWER, lines_of
from pipeline.wording import notes
from pipeline.wording.noted import Noted
from tests.any_topics import any_league
from tests.brief_makers import brief_view, family, findings_of
from tests.finding_makers import change
from tests.golden.made import TOPICS
from tests.told import Told, any_told, asked, demo_told, printed
from tests.untidy import HEAD

SEEDS = range(200, 240)


@pytest.fixture(scope="module")
def project(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return any_league(tmp_path_factory.mktemp("careful") / "league")


def coded(told: Noted) -> str:
    """A note as its code with its numbers and what its words hang on: no wording is in it."""
    return repr(told)


@pytest.fixture(scope="module")
def briefs(project: Path) -> list[Told]:
    """Random briefs in which every caution is its code, so that no test hangs on its words."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(notes, "caution", coded)
        return [told for seed in SEEDS if (told := any_told(project, seed))]


def no_worse(worse: AnyNote, note: AnyNote) -> bool:
    """Of one kind: the same, or comparable by the numbers alone and as bad."""
    if type(worse) is not type(note):
        return False
    match worse, note:
        case codes.FewMatches(), codes.FewMatches():
            return worse.matches <= note.matches
        case codes.FewCounted(), codes.FewCounted():
            return worse.wickets == note.wickets and worse.count <= note.count
        case codes.FewClusters(), codes.FewClusters():
            alike = (worse.few, worse.of) == (note.few, note.of)
            return alike and worse.a + worse.b <= note.a + note.b
        case codes.ReducedMatches(), codes.ReducedMatches():
            return worse.matches * note.of >= note.matches * worse.of
        case codes.SurvivorsOnly(), codes.SurvivorsOnly():
            return worse.kept * note.in_either <= note.kept * worse.in_either
        case codes.CheckDisagrees(), codes.CheckDisagrees():
            return abs(worse.p - worse.p_permutation) >= abs(note.p - note.p_permutation)
    share = getattr(note, "share", None)
    return worse == note or (share is not None and worse.share >= share)  # type: ignore[union-attr]


def reaches(told: Told, finding: Finding) -> set[str]:
    """The cautions that stand where the finding is read, or before."""
    at = next(at for at, page in enumerate(told.content.beats) if page.id == finding.beat)
    pages = told.content.beats[: at + 1]
    return {*told.content.cautions, *(line for page in pages for line in page.careful)}


def lost(told: Told, say: Callable[[Noted], str]) -> list[tuple[str, AnyNote]]:
    """Notes of which no caution as bad is printed where they are read, or before."""
    every = noted(told.view, told.findings.findings)
    found = []
    for finding in told.findings.findings:
        lines = reaches(told, finding)
        for note in finding.notes:
            worse = [each for each in every if no_worse(each.note, note)]
            if not any(say(each) in lines for each in worse):
                found.append((finding.id, note))
    return found


def test_no_note_of_any_finding_is_lost(briefs: list[Told]):
    assert len(briefs) > 15
    assert sum(len(each.notes) for told in briefs for each in told.findings.findings) > 300
    assert not [one for told in briefs for one in lost(told, coded)]


def test_no_caution_stands_twice_in_a_brief(briefs: list[Told]):
    for told in briefs:
        assert not [one for one, times in Counter(printed(told)).items() if times > 1]


def test_a_page_whose_own_findings_have_a_note_says_something(briefs: list[Told]):
    """Its own caution, or where it was said; 'nothing' only where there is nothing."""
    for told in briefs:
        for page in told.content.beats:
            mine = [each for each in told.findings.findings if each.beat == page.id]
            has = any(finding.notes for finding in mine)
            assert (page.care != [NOTHING]) or not has
            assert page.care and not (page.careful and page.again == NOTHING)


@pytest.mark.parametrize("topic", TOPICS)
def test_the_demo_loses_and_repeats_none(topic: str, built: Path):
    told = demo_told(built, topic)
    assert not lost(told, notes.caution) and any(
        finding.notes for finding in told.findings.findings
    )
    lines = printed(told)
    assert len(set(lines)) == len(lines)
    points = re.sub(r"\\", "", talking_points(told.content))
    assert all(points.count(line) == 1 for line in lines)


def test_cautions_of_the_talking_points_are_no_lines_of_the_answer(built: Path):
    told = demo_told(built, "who-paid")
    points = talking_points(told.content)
    assert told.content.cautions and lines_of(points)[ANSWER] == told.content.answer


def beats(*names: str, **more: Any) -> list[AnyBeat]:
    plain = {"kind": "before_after", "measure": "economy"}
    return [KINDS["before_after"].model_validate({"id": name, **plain, **more}) for name in names]


NAMES = ("one", "two", "three")
RIVAL = codes.RivalEvent(rivals=[codes.Rival(name="the roof")])


def care(*told: list[AnyNote], headlines: tuple[str, ...] = (), **more: Any):
    """The cautions of beats of one finding each, with these notes."""
    named = beats(*NAMES[: len(told)])
    rows = [
        change(f"{beat.id}.economy", notes=notes, **more)
        for beat, notes in zip(named, told, strict=True)
    ]
    found = findings_of(*rows, family=family(cant_tell=0))
    return careful(brief_view(named, headlines=list(headlines)), found)


def test_what_holds_of_the_topic_is_said_in_the_first_beat_it_bears_on():
    made = care([], [RIVAL], [RIVAL])
    assert made.top == [] and made.beats["one"] == ([], NOTHING)
    (line,) = made.beats["two"].said
    assert "the roof" in line and made.beats["two"].again == ""
    assert made.beats["three"] == ([], "Nothing beyond what is said in beat 2.")


def test_what_the_top_sheet_says_of_the_topic_is_not_said_again():
    made = care([RIVAL], [RIVAL, codes.FewMatches(matches=9)], headlines=("one.economy",))
    assert len(made.top) == 1 and "the roof" in made.top[0]
    assert made.beats["one"] == ([], "Nothing beyond what is said at the top.")
    assert [line[:14] for line in made.beats["two"].said] == ["Only 9 matches"]
    assert made.beats["two"].again == ""


def test_another_rival_is_another_caution():
    other = codes.RivalEvent(rivals=[codes.Rival(name="the rain")])
    made = care([RIVAL], [other], [RIVAL])
    assert "the rain" in made.beats["two"].said[0]
    assert made.beats["three"].again == "Nothing beyond what is said in beat 1."


def test_what_is_of_a_beat_s_own_findings_is_pointed_at_where_it_was_said():
    few, wide = codes.FewMatches(matches=9), codes.ScaleDisagrees()
    made = care([few], [few, wide], [few, wide], headlines=("one.economy",))
    assert made.beats["one"] == ([], "Here: few matches, as said at the top.")
    assert len(made.beats["two"].said) == 1
    assert made.beats["three"].again == (
        "Here: few matches, as said at the top; two intervals that disagree, as said in beat 2."
    )


def test_what_is_worse_here_is_said_here():
    made = care(
        *([codes.FewMatches(matches=many)] for many in (12, 9, 15)), headlines=("one.economy",)
    )
    assert [line[:15] for line in made.top] == ["Only 12 matches"]
    assert [made.beats[name].said[0][5:7] for name in ("two", "three")] == ["9 ", "15"]
    shares = care(*([codes.OppositionChanged(share=share)] for share in (0.3, 0.5, 0.4)))
    assert [len(shares.beats[name].said) for name in NAMES] == [1, 1, 0]


def test_what_the_top_sheet_has_no_room_for_is_on_the_page():
    many: list[AnyNote] = [
        *(codes.ChosenByResult(), RIVAL, codes.Simpson(), codes.ScaleDisagrees()),
        *(codes.FewMatches(matches=8), codes.FewCounted(count=12, wickets=True)),
        *(codes.OneMatchDominates(share=0.3), codes.TransitionSeason(seasons=["2017"])),
    ]
    made = care(many, headlines=("one.economy",))
    assert len(made.top) == MOST_CAUTIONS and len(made.beats["one"].said) == 5
    assert made.beats["one"].again.startswith("Here: ")


def test_rows_that_no_line_tells_are_named_where_they_can_t_be_called():
    (beat,) = beats("one", by="ground")
    wide: dict[str, Any] = {"verdict": "can't tell", "because": "interval_too_wide"}

    def said(rows: int) -> list[str]:
        named = [f"Ground {letter}" for letter in "ABCDEFGHJ"[:rows]]
        found = [
            change(f"one.economy.{at}", values={"ground": name}, **wide)
            for at, name in enumerate(named)
        ]
        told = careful(brief_view([beat]), findings_of(*found, family=family(cant_tell=0)))
        return told.beats["one"].said

    assert said(4) == []  # one has its line, three are told in one
    assert said(5) == ["Too uncertain to call either way: Ground E."]
    assert said(7)[0].endswith("Ground E; Ground F; Ground G.")
    assert said(8) == ["8 of 8 rows are too uncertain to call either way."]


SHORT: dict[str, tuple[dict[str, Any], str]] = {
    "an innings": ({"measure": "innings_total"}, "what is counted an innings is counted low"),
    "balls": ({"measure": "run_rate"}, "a side with fewer overs to bat may go harder"),
    "overs": ({"measure": "run_rate", "where": {"phase": "middle"}}, "an over goes by its number"),
    "bands": ({"measure": "run_rate", "kind": "phases"}, "an over goes by its number"),
    "matches": (
        {"measure": "win_share", "where": {"innings": "2"}},
        "its result counts like any other",
    ),
}


@pytest.mark.parametrize("case", SHORT)
def test_a_shortened_chase_is_told_by_what_the_number_is_counted_in(case: str, project: Path):
    """No number but one counted an innings is counted low there."""
    beat, words = SHORT[case]
    text = json.dumps({"id": "a", "kind": "before_after", **beat})
    found = asked(project, f"{HEAD}beats:\n  - {text}\n")
    assert found is not None
    finding = found.findings.findings[0]
    finding.notes = [codes.ReducedMatches(matches=3, of=20)]
    (told,) = noted(found.view, [finding])
    assert notes.caution(told).startswith("3 of 20 matches had a shortened chase: ")
    assert words in notes.caution(told)
