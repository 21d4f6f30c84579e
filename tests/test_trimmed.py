"""Which parts of a line are said: the most that bears, with what qualifies it; what it is named."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest

from pipeline.contracts.finding import Finding
from pipeline.contracts.panel import Choice, Panel
from pipeline.episode.around_beats import close
from pipeline.episode.lines_of import lines_of, sentences_of
from pipeline.episode.trimmed import MOST, MOST_OF_HEADLINE, trimmed
from pipeline.voice.sentence import Told
from pipeline.wording import confidence
from pipeline.wording.second_verdict import BEYOND
from tests.brief_makers import brief_view, findings_of
from tests.outcomes import CANT_TELL
from tests.word_makers import EVENT, beat, drift, moved

WHAT = {"what": "economy", "first": "five an over", "second": "six"}
STEP = {"it": "it", "rising": "rising", "size": "about one per cent", "per": "season"}
NUMBER = Told("number.rose", **WHAT)
FELT = Told("felt.changed", over="every ten overs", felt="about ten runs more")
SURE = Told("sure.changed.rise", reach="anywhere from five to ten per cent")
STEPPED = Told("drift.beyond.against", way="up", before="before that", **STEP)
BENT = Told("drift.beyond.bent.turned")
BESIDE = Told("control.beyond", name="the early overs", way="up", reach="about four per cent")
WAYS = Told("panel.some", same="two", count="four", that="a rise")
ALL = [NUMBER, FELT, SURE, STEPPED, BENT, BESIDE, WAYS]


def panel(same: int, turned: int) -> Panel:
    each: dict[str, Any] = {"kind": "side", "value": 0.1, "low": 0.05, "high": 0.15}
    ways = [Choice(what=f"S{at}", verdict="changed", same=True, **each) for at in range(same)]
    ways += [Choice(what=f"T{at}", verdict=CANT_TELL, same=False, **each) for at in range(turned)]
    return Panel(stretch="season", choices=ways)


def kept(sentences: list[Told], finding: Finding, headline: bool) -> list[str]:
    headlines = [finding.id] if headline else []
    left = trimmed(sentences, finding, findings_of(finding, headlines=headlines))
    return [each.outcome for each in left if isinstance(each, Told)]


def test_a_line_has_three_parts_and_a_step_keeps_its_catch():
    row = moved(0.1, 0.03)
    assert kept([NUMBER, FELT, SURE, STEPPED, BENT], row, headline=False) == [
        each.outcome for each in (NUMBER, SURE, STEPPED, BENT)
    ]
    assert (MOST, MOST_OF_HEADLINE) == (3, 4)
    assert kept([NUMBER, FELT, SURE, STEPPED, BENT], row, headline=True) == [
        each.outcome for each in (NUMBER, FELT, SURE, STEPPED, BENT)
    ]


def test_a_control_that_was_asked_for_has_a_place_of_its_own():
    row = moved(0.1, 0.03)
    assert kept([NUMBER, FELT, SURE, STEPPED, BESIDE], row, headline=False) == [
        each.outcome for each in (NUMBER, SURE, STEPPED, BESIDE)
    ]


@pytest.mark.parametrize(
    ("turned", "told"), [(0, "felt.changed"), (1, "felt.changed"), (2, "panel.some")]
)
def test_a_headline_that_hangs_on_how_it_is_asked_says_so(turned: int, told: str):
    """Before what it feels like: where more than a quarter of the ways come out otherwise."""
    row = msgspec.structs.replace(moved(0.1, 0.03), panel=panel(4, turned))
    assert told in kept([NUMBER, FELT, SURE, STEPPED, WAYS], row, headline=True)
    assert len(kept([NUMBER, FELT, SURE, STEPPED, WAYS], row, headline=True)) == MOST_OF_HEADLINE


def test_of_what_cant_be_told_no_step_is_that_a_bend_would_undo():
    row = moved(0.1, 0.2, CANT_TELL)
    open_ = Told("open.plain")
    assert kept([NUMBER, open_, STEPPED, BENT], row, headline=False) == [
        "number.rose",
        "open.plain",
    ]
    assert kept([NUMBER, open_, STEPPED], row, headline=False) == [
        each.outcome for each in (NUMBER, open_, STEPPED)
    ]


def test_what_was_before_is_named_by_the_event_that_a_beat_is_about():
    row = moved(0.1, 0.03, drift=drift(BEYOND))
    (one,) = [beat("before_after", id=row.beat)]
    view = brief_view([one]).model_copy(update={"event": EVENT})
    said = " ".join(sentences_of(row, one, findings_of(row), view))
    assert f"before {EVENT.name}" in said.lower() and "before that" not in said


def test_headlines_are_tested_among_themselves():
    main = moved(0.06, 0.07, CANT_TELL, because="lost_among_many", adjusted_by="holm")
    row = moved(0.06, 0.07, CANT_TELL, because="lost_among_many", adjusted_by="bh")
    assert (confidence.tested_with(main), confidence.tested_with(row)) == (
        "forty main numbers",
        "forty numbers",
    )


def test_a_close_tells_no_step_that_a_bend_would_undo_and_what_is_far_as_far():
    one = beat("before_after", id="b")
    stepped = moved(-0.1, 0.03, drift=drift(BEYOND))
    lines = close(brief_view([one]), findings_of(stepped, headlines=[stepped.id]))
    assert [line.sentences[0].outcome for line in lines] == ["close.cause"]
    far = moved(0.01, 0.2, CANT_TELL)
    far.told.detectable_change = 0.3  # of forty matches a side: some 1,100 more
    lines = close(brief_view([one]), findings_of(far, headlines=[far.id]))
    assert [line.sentences[0].outcome for line in lines] == ["close.far"]
    assert "four hundred" in lines[0].text


def test_stretches_are_counted_of_one_measure():
    """Those that no line names, and of no other measure."""
    phases = beat("phases", id="b", measure=["economy", "bowling_average"])
    rows = [
        moved(
            0.0,
            0.2,
            CANT_TELL,
            id=f"b.{name}.{at}",
            measure=name,
            cell=f"{at}",
            values={"overs": f"{at}"},
        )
        for name in ("economy", "bowling_average")
        for at in ("1-5", "6-10", "11-15", "16-20", "21-25")
    ]
    told = lines_of(phases, brief_view([phases]), findings_of(*rows))
    said = " ".join(line.text for lines in told.values() for line in lines)
    assert "five stretches" in said or "four other stretches" in said, said
