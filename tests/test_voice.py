"""The voice file: what is wrong with it is told with its line, and no form says another thing."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pipeline.doctor import checks
from pipeline.errors import UserError
from pipeline.provenance import TEMPLATES
from pipeline.voice.choosing import Voice
from pipeline.voice.forms import Forms, read_voice, voice, voice_file
from pipeline.voice.heard import SENTENCE_END, heard_as
from pipeline.voice.line import Line
from pipeline.voice.sentence import Told
from pipeline.voice.tellings import FREQUENT, OUTCOMES
from pipeline.wording import of_kinds
from tests.any_findings import Case
from tests.any_kinds import any_case
from tests.any_topics import any_league
from tests.hearing import all_wrong
from tests.listening import heard
from tests.test_every_label import FAULTS
from tests.test_sentences_hold import said
from tests.told import Told as Brief
from tests.told import any_told, demo_told
from tests.verdict_words import OF_CONTROL, OF_DRIFT
from tests.voice_aloud import filled, three, unfilled
from tests.word_makers import EVENT, FORM

WRITTEN = voice_file().read_text("utf-8")


def faults(folder: Path, old: str, new: str) -> list[str]:
    """What is said to be wrong of the file with one part of it written otherwise."""
    assert old in WRITTEN
    path = folder / "en-GB.yaml"
    path.write_text(WRITTEN.replace(old, new, 1), "utf-8")
    with pytest.raises(UserError) as raised:
        read_voice(path)
    return [str(problem) for problem in raised.value.problems]


HELD = '"{what} held: {first} before, {second} after."'
ROSE = '"{what} rose from {first} to {second}."'
OPEN = '"We can’t call that a change, and we can’t say it held."'
RISE = '"Allow for luck, and the rise is {reach}."'
GROUPS = '"{what} came to {first} {here}, and {second} {there}."'
STEP = '"We can’t show a step beyond that, or rule one out."'


@pytest.mark.parametrize(
    ("old", "new", "wrong"),
    [
        ("number.rose:", "number.ros:", "no outcome 'number.ros' (did you mean 'number.rose'?)"),
        (ROSE, '"{what} rose from {frist} to {second}."', "(did you mean 'first'?)"),
        (ROSE, '"{what} rose to {second}."', "without '{first}': each form says it"),
        (ROSE, '"{what} rose from {first} to {second}, from {first}."', "'{first}' stands twice"),
        (ROSE, '"{what} rose from {first to {second}."', "a brace that is not closed"),
        (ROSE, '"{what} rose from {first} to {second}"', "no full stop at its end"),
        (ROSE, '"{what} rose from {first} to {second}!"', "say it plainly"),
        (ROSE, '"{what} fell from {first} to {second}."', "'fell' says more, or another thing"),
        (ROSE, '"{what} went from {first} to {second}."', "too weak: it has to say 'rose'"),
        (ROSE, '"{what} was up from {first} to {second}."', "use a verb that fits both"),
        (ROSE, '"The {what} rose from {first} to {second}."', "{what} has its own article"),
        (ROSE, '"{what} soared up from {first} to {second}."', "'soared' says more"),
        (ROSE, '"{what} rose from {first} to {second} because of it."', "'because' says more"),
        (ROSE, '"The significant rise of {what}, {first} to {second}."', "'significant' says more"),
        (ROSE, "[a, b]", "give a list of sentences"),
        (ROSE, "12", "give a list of sentences"),
        (ROSE, '"{what} went up, from {first} to {second}."', "too like"),
        (HELD, '"{what} held exactly: {first} before, {second} after."', "'exactly' says more"),
        (HELD, '"{what} held: {first} before, {second} after, no change."', "'no change' says"),
        (HELD, '"{what} rose, and held: {first} before, {second} after."', "'rose' says more"),
        (HELD, '"{what}: {first} before, {second} after."', "too weak: it has to say 'held'"),
        (OPEN, '"There is no difference, and we can’t call it."', "'no difference' says more"),
        (OPEN, '"We can’t call that: it held."', "'held' says more, or another thing"),
        (OPEN, '"It’s probably nothing, and we can’t call it."', "'probably' says more"),
        (OPEN, '"That is what it is."', "too weak: it has to say 'we can’t call it'"),
        (RISE, '"Allow for luck, and the rise could be {reach}."', "'could' says more"),
        (RISE, '"Allow for luck, and it is a rise of {reach}."', "put it after 'is', 'be'"),
        (GROUPS, '"{what} came to {first} {here}, and rose to {second} {there}."', "'rose'"),
        (GROUPS, '"{what} came to {first} {here} before {second} {there}."', "has a time in it"),
        (STEP, '"There’s no step, we can’t rule one out."', "no step' says"),
        (
            ROSE,
            '"If you look at all of the matches of all of the years that we have, then {what} '
            'rose from {first} to {second}."',
            "a sentence of about 32 words: split it, 25 are the most",
        ),
        (OPEN, '"On sixteen matches, we can’t call that a {way}."', "no slot '{way}'"),
    ],
)
def test_a_mistake_is_told_with_its_line(tmp_path: Path, old: str, new: str, wrong: str):
    told = faults(tmp_path, old, new)
    (own,) = [each for each in told if wrong in each][:1] or [f"not told: {told}"]
    line = WRITTEN[: WRITTEN.index(old)].count("\n") + 1
    near = (line, line + 1) if "too like" in wrong else (line, line - 1)  # of a list, its name
    assert any(f"en-GB.yaml:{each}:" in own for each in near), own


def test_what_is_missing_or_no_list_at_all_is_told(tmp_path: Path):
    path = tmp_path / "en-GB.yaml"
    for text in ("", "- a\n", "a: b\n", "number.rose: one\n", "number.rose:\n  - 1\n"):
        path.write_text(text, "utf-8")
        with pytest.raises(UserError) as raised:
            read_voice(path)
        assert len(raised.value.problems) >= 1
    few = WRITTEN.replace(ROSE, '"{what} rose from {first} to {second}."')
    kept = re.sub(r"(number\.rose:\n(?:  - .*\n){3})(?:  - .*\n)+", r"\1", few)
    path.write_text(kept, "utf-8")
    with pytest.raises(UserError, match="3 forms: give 8 or more"):
        read_voice(path)


def test_a_form_that_tells_two_things_is_true_of_one_at_most(tmp_path: Path):
    told = faults(
        tmp_path,
        '"Going by these matches, the change could be {reach}."',
        '"Did one move more? We can’t call it."',
    )
    assert any("it stands under 'reach.change' too" in each for each in told), told


def test_straight_apostrophes_are_printed_curved(tmp_path: Path):
    path = tmp_path / "en-GB.yaml"
    path.write_text(WRITTEN.replace("’", "'"), "utf-8")
    assert read_voice(path).of == voice().of


def test_the_doctor_names_the_line(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    (good,) = checks.voice(Path("config"), Path("output"))
    assert good.well and "forms of" in good.what
    path = tmp_path / "en-GB.yaml"
    path.write_text(WRITTEN.replace(ROSE, '"{what} went to {second} from {first}."', 1), "utf-8")
    monkeypatch.setattr(checks, "voice_file", lambda: path)
    (bad,) = checks.voice(Path("config"), Path("output"))
    assert not bad.well and f"{path}:" in bad.what and "too weak" in bad.what


def test_every_form_is_a_sentence_with_whatever_fills_it():
    slots = filled()
    for outcome, written in voice().of.items():
        for at in range(len(written)):
            for fill in three(slots.get(outcome, [])) or [unfilled(outcome)]:
                for sentence in SENTENCE_END.split(voice().put(outcome, at, fill)):
                    assert "  " not in sentence and "{" not in sentence, sentence
                    assert sentence[0].isupper() or sentence[0].isdigit(), sentence
                    found = [
                        name
                        for name, fault in FAULTS.items()
                        if re.search(fault, sentence.replace("None of", "none of"))
                    ]
                    assert not found, (found, sentence)


def test_the_second_verdict_is_told_in_sentences_of_its_own():
    """So what hears the first one knows which to leave out, by their words alone.

    What stands around the lines of findings is heard by itself.
    """
    around = ("answer.", "close.", "join.")
    for outcome, written in voice().of.items():
        if outcome.startswith(around):
            continue
        for form in written:
            for sentence in SENTENCE_END.split(form):
                second = bool(OF_DRIFT.search(sentence.replace("{rising}", "rising")))
                if outcome.startswith("drift."):
                    assert second, (outcome, sentence)
                elif outcome.startswith("control."):
                    named = "{name}" in sentence or bool(OF_CONTROL.search(sentence))
                    assert named or outcome == "control.few" or "jump" in sentence, sentence
                else:
                    assert not second, (outcome, sentence)


@pytest.mark.parametrize(
    ("of", "other"),
    [
        ("number.rose", "number.fell"),
        ("number.rose", "number.held"),
        ("number.held", "number.rose"),
        ("number.open", "number.held"),
        ("number.open", "number.rose"),
        ("sure.changed.rise", "reach.change"),
        ("sure.changed.rise", "sure.changed.fall"),
        ("reach.change", "sure.changed.rise"),
        ("reach.change", "sure.changed.fall"),
        ("drift.none", "drift.in_line.step"),
    ],
)
def test_a_form_in_another_s_place_is_heard_as_wrong(
    of: str, other: str, monkeypatch: pytest.MonkeyPatch
):
    """What hears the forms would notice each that says another verdict, or another way."""
    case = next(each for each in drawn() if tells(of, each))
    assert not all_wrong(said(case), case)
    for form in voice().of[other]:
        told = Forms({**voice().of, of: (form,)})
        monkeypatch.setattr("pipeline.voice.sentence.voice", lambda told=told: told)
        assert all_wrong(said(case), case), said(case)


def drawn() -> Iterator[Case]:
    rng = Random(3)
    return (any_case(rng) for _ in range(5000))


def tells(outcome: str, case: Case) -> bool:
    made = of_kinds.said(*case, FORM, EVENT)
    return any(isinstance(each, Told) and each.outcome == outcome for each in made)


# Which form stands where

OF = st.lists(
    st.tuples(st.sampled_from(["open.plain", "gap.open", "reach.change"]), st.integers(0, 40)),
    max_size=60,
)


@given(pages=st.lists(OF, max_size=8))
@settings(deadline=None, max_examples=60)
def test_no_form_stands_twice_on_a_page_nor_twice_running(pages: list[list[tuple[str, int]]]):
    """While the page has one left."""
    chosen, last = Voice(), {}
    for page in pages:
        chosen.turn_page()
        stood: dict[str, list[str]] = {}
        for outcome, of in page:
            told = Told(outcome, **dict.fromkeys(OUTCOMES[outcome].slots, "x"))
            form = chosen.put(told, f"beat.{of}")
            assert form in told.forms() and form != last.get(outcome)
            here = stood.setdefault(outcome, [])
            assert form not in here or len(here) >= len(told.forms())
            here.append(form)
            last[outcome] = form


def test_a_form_hangs_on_what_it_is_of_alone():
    """Another finding's change leaves a line as it was."""
    told = Told("open.plain")
    assert Voice().put(told, "a.economy") == Voice().put(told, "a.economy")
    assert len({Voice().put(told, f"beat.{of}") for of in range(200)}) == len(told.forms())


def test_a_line_is_known_in_every_form():
    number = Told("number.rose", what="economy", first="five an over", second="six")
    line = Line((number, Told("open.plain"), "And so on."))
    known = line.in_any_form()
    for at, form in enumerate(number.forms()):
        text = f"{form} {Told('open.plain').forms()[at]} And so on."
        assert known.search(f"Now the other way. {text}")
    assert not known.search("Economy rose from five an over to seven. And so on.")


def test_an_edited_voice_makes_the_brief_again(monkeypatch: pytest.MonkeyPatch):
    """It is among the templates, which the brief's step sees."""
    assert voice_file().is_relative_to(TEMPLATES)


def test_a_sentence_is_known_by_its_outcome_in_every_form():
    among = ("drift.", "control.", "panel.", "yardstick.")
    for outcome, fills in filled().items():
        if not outcome.startswith(among):
            continue
        for by in range(voice().count(outcome)):
            text = voice().put(outcome, by, fills[0])
            for sentence in SENTENCE_END.split(text):
                begins = outcome.partition(".")[0]
                assert heard_as(sentence, among).startswith(begins), sentence


def test_no_two_sentences_of_a_brief_are_alike_more_than_twice(tmp_path: Path):
    """But for names and numbers, over random topics of the untidy league."""
    project = any_league(tmp_path / "league")
    briefs = [brief for seed in range(24) if (brief := any_told(project, seed))]
    assert sum(len(sentences(brief)) for brief in briefs) > 40
    for brief in briefs:
        assert not too_often(brief), too_often(brief)


@pytest.mark.parametrize("seed", range(60))
def test_nor_are_those_of_pages_of_drawn_findings(seed: int):
    """Nine pages of three findings each, many of the same outcome."""
    rng, chosen, forms = Random(seed), Voice(), Counter[tuple[str, str]]()
    for _ in range(9):
        chosen.turn_page()
        here: Counter[tuple[str, str]] = Counter()
        for _ in range(3):
            case = any_case(rng)
            for one in of_kinds.said(*case, FORM, EVENT):
                if isinstance(one, Told) and OUTCOMES[one.outcome].forms >= FREQUENT:
                    at = one.forms().index(chosen.put(one, case.finding.id))
                    here[one.outcome, str(at)] += 1
        assert max(here.values(), default=0) <= 1, here
        forms += here
    assert max(forms.values()) <= MOST_ALIKE, forms.most_common(3)


@pytest.mark.parametrize("topic", ["long-grass", "sea-air", "who-paid"])
def test_nor_are_those_of_the_demo(built: Path, topic: str):
    brief = demo_told(built, topic)
    assert len(sentences(brief)) > 12 and not too_often(brief), too_often(brief)


MOST_ALIKE = 2


def too_often(brief: Brief) -> list[str]:
    """Sentences that stand more than twice in a brief, with '#' for numbers and '@' for names."""
    view = brief.view
    beats = {beat.id: beat for beat in view.beats}
    named = {
        of_kinds.measured(one, beats[one.beat], view.measures[one.measure], view.format)
        for one in brief.findings.findings
    }
    plain = Counter(_masked(sentence, named) for sentence in sentences(brief))
    return [sentence for sentence, times in plain.items() if times > MOST_ALIKE]


def _masked(sentence: str, named: set[str]) -> str:
    for name in sorted(named, key=len, reverse=True):
        sentence = re.sub(re.escape(name), "@", sentence, flags=re.IGNORECASE)
    return heard(sentence).text


def sentences(brief: Brief) -> list[str]:
    lines = [line for page in brief.content.beats for line in page.lines]
    return [one for line in lines for one in re.split(r"(?<=[.?]) (?=[A-Z])", line)]
