"""The draft of a script: filled, it gives back every line to the letter; nothing in it is lost."""

from __future__ import annotations

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from pipeline.config.topic import Sponsor
from pipeline.contracts.episode import Episode, SpokenBeat, SpokenLine
from pipeline.slots.drafted import DRAFT, draft_of, note
from pipeline.slots.filled import Script, filled
from pipeline.slots.marked_up import blocks_of
from pipeline.wording import script as timing
from pipeline.wording.fact_forms import forms_of
from tests.test_fact_forms import MOVE, VALUE, fact

FACTS = [
    fact(VALUE, finding="b.economy"),
    fact(VALUE, id="b.economy.after", finding="b.economy", value=4.09),
    fact(MOVE, finding="b.economy"),
    fact(MOVE, id="c.economy.change", finding="c.economy"),
]
FORMS = [form for each in FACTS for form in forms_of(each).values()]


def line(text: str, *findings: str, **more: Any) -> SpokenLine:
    return SpokenLine(text=text, findings=list(findings or ("b.economy",)), **more)


def beat(*lines: SpokenLine, **more: Any) -> SpokenBeat:
    plain: dict[str, Any] = {"id": "b", "title": "The beat", "role": None, "opening": ""}
    return SpokenBeat(**{**plain, "lines": list(lines), "charts": ["b.economy"], **more})


def episode(*beats: SpokenBeat, **more: Any) -> Episode:
    plain: dict[str, Any] = {"cold_open": [], "answer": [], "close": []}
    return Episode(topic="who", beats=list(beats), **{**plain, **more})


def said(text: str) -> Script:
    return filled(blocks_of(text, "script.md"), FACTS, ["b.economy"], "script.md")


def lines(script: Script) -> list[str]:
    return [row.text for part in script.parts for row in part.lines]


def test_everything_of_an_episode_is_in_it_in_its_order():
    told = episode(
        beat(line("It fell by about seven per cent."), opening="Take spin alone."),
        cold_open=[line("Who paid?")],
        answer=[line("Spin did.")],
        close=[line("Forty matches would settle it.")],
    )
    slots = [Sponsor(after="b", seconds=30, say="The {{ break }}"), Sponsor(after="x", seconds=9)]
    text = draft_of("Who *paid*? {{", told, FACTS, slots)
    assert text == "\n\n".join(
        [
            r"# Who \*paid\*? \{\{",
            note(DRAFT, "who"),
            "## Cold open (0:01, 0:01 so far)",
            "Who paid?",
            "## The answer (0:01, 0:02 so far)",
            "Spin did.",
            "## 1. The beat (0:34, 0:36 so far)",
            "> Chart: b.economy",
            "Take spin alone.",
            "It fell by {{ b.economy.change | size }}.",
            r"> Sponsor: The \{{ break \}\} (0:30)",
            "## Close (0:02, 0:38 so far)",
            "Forty matches would settle it.\n",
        ]
    )
    script = said(text)
    assert script.title == "Who *paid*? {{" and script.total == "0:38"
    assert [(part.time, part.total) for part in script.parts][2] == ("0:34", "0:36")
    assert [row.text for row in script.parts[2].rows][-1] == "The {{ break }}"


def test_a_line_has_no_facts_but_its_own_findings_and_those_they_answer():
    told = episode(beat(line("About seven per cent.", "d.economy")))
    assert "{{ c.economy" not in draft_of("T", told, FACTS, [])
    assert "{{ c.economy.change | Size }}." in draft_of(
        "T", told, FACTS, [], {"d.economy": "c.economy"}
    )
    named = line("About seven per cent.", "none", facts=["c.economy.change", "gone"])
    assert "{{ c.economy.change | Size }}." in draft_of("T", episode(beat(named)), FACTS, [])


WORDS = st.lists(
    st.sampled_from(
        [*FORMS, *(form.capitalize() for form in FORMS), ". ", ", ", " ", "-", "{", "}"]
    )
    | st.sampled_from(
        ["{{", "}}", "*", "_", "# ", "> ", "<!--", "-->", "1. ", "\\", "ten overs", "’s"]
    )
    | st.text(st.characters(exclude_categories=["C", "Z"]), max_size=4),
    min_size=1,
    max_size=12,
)


@given(st.lists(WORDS.map(" ".join).map(str.strip).filter(bool), min_size=1, max_size=4))
def test_filled_it_gives_back_any_line_to_the_letter(texts: list[str]):
    script = said(draft_of("T", episode(beat(*map(line, texts))), FACTS, []))
    assert lines(script) == texts
    assert script.words == sum(map(timing.words, texts))
