"""What `correction` prints of then and now, and its draft, where not the number alone moved."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from msgspec import structs

from pipeline.contracts.editions import FixesMoved, Said
from pipeline.contracts.errata import (
    EditionUse,
    Errata,
    SaidIn,
    SentenceUse,
    ThenAndNow,
    Why,
    Wording,
    WrongEdition,
)
from pipeline.errata.draft import draft
from pipeline.errata.number import OfFinding
from pipeline.errata.printed import printed
from pipeline.errata.records import Archived
from tests.records import finding_number, old_record

NO_CAUSE = Why(
    data=None, corrections=FixesMoved(new=[], withdrawn=[]), settings=[], code=True, elsewhere=0
)
DAY = date(2026, 11, 25)


def said(ends: str = "−10.0 to −5.0", level: float = 0.95, **more: Any) -> Said:
    told = {"display": "−7.4%", "spoken": "just over seven per cent down", "verdict": "changed"}
    return Said(value=-0.074, unit="per cent", interval=ends, level=level, **{**told, **more})


def errata(then: Said, now: Said, wrong: bool, sentences: list[SentenceUse], **more: Any) -> Errata:
    """One fact in one edition, and what it says now."""
    edition = SaidIn(edition=1, date=DAY, said=then, wrong=wrong)
    use = EditionUse(
        **{"edition": 1, "date": DAY, "folder": "archive/1/data", "moved": ["b.economy.change"]},
        **{"sentences": sentences, "charts": [], "printed": [], "rows": [], "cited": []},
        why=NO_CAUSE,
    )
    return Errata(
        topic="rope",
        asked="b.economy.change",
        facts=[ThenAndNow(id="b.economy.change", now=now, editions=[edition])],
        wrong=[WrongEdition(edition=1, date=DAY)] if wrong else [],
        editions=[use] if wrong else [],
        **{"also": [], "drafts": [], **more},
    )


def wording(old: str, new: str | None, right: bool = False) -> Wording:
    return Wording(old=old, new=new, right=right, bare=False, of="change")


def use(sentence: str, *says: Wording, own: bool = True, verdict: bool = False) -> SentenceUse:
    return SentenceUse(part="Economy", sentence=sentence, says=[*says], verdict=verdict, own=own)


def test_another_interval_is_nothing_to_correct_and_is_told():
    same = printed(errata(said(), said(), False, []))
    assert " ".join(same[1:]).endswith("1 archived edition says what the brief says now")
    wider = printed(errata(said(), said("−11.0 to −4.0", 0.99), False, []))
    assert " ".join(map(str.strip, wider[1:])) == (
        "nothing to correct: 1 archived edition says what the brief says now, though edition 1 "
        "told it with another interval; the number is the same"
    )


def test_then_and_now_have_their_intervals_where_these_moved():
    now = said("−4.0 to −1.0", 0.99, display="−2.5%", spoken="about two and a half per cent down")
    text = " ".join(map(str.strip, printed(errata(said(), now, True, []))))
    assert "changed, 95% interval −10.0 to −5.0, 25 November" in text
    assert "changed, 99% interval −4.0 to −1.0" in text
    alike = structs.replace(now, interval="−10.0 to −5.0", level=0.95)
    assert "interval" not in "\n".join(printed(errata(said(), alike, True, [])))


def test_lines_that_may_be_another_number_s_stand_apart():
    lines = printed(
        errata(
            said(),
            said(display="−2.5%"),
            True,
            [
                use("Pace fell by seven per cent.", wording("seven per cent", "two"), own=False),
                use("Economy fell by seven per cent.", wording("seven per cent", "two")),
            ],
        )
    )
    text = "\n".join(lines)
    head, tail = text.split("  The words alone, in a line that may be another number’s; read it")
    assert "“Economy fell" in head and "“Pace fell" in tail and "“Pace fell" not in head
    assert "seven per cent -> two" in head and "seven per cent -> two" in tail


def test_a_sentence_may_have_a_right_number_and_a_verdict_that_fell():
    right = wording("seven per cent", "seven per cent", right=True)
    lines = printed(errata(said(), said(), True, [use("It fell.", right, verdict=True)]))
    at = lines.index("    “It fell.”")
    assert lines[at + 1 : at + 3] == [
        "      seven per cent: still right",
        "      no longer said so: a verdict moved",
    ]


def test_the_same_comparison_of_another_beat_is_named():
    found = errata(said(), said(display="−2.5%"), True, [], also=["who.economy.spin"])
    text = " ".join(map(str.strip, printed(found)))
    assert "who.economy.spin is the same comparison; ask for its charts and rows by its id" in text


@pytest.fixture(scope="module")
def record(tmp_path_factory: pytest.TempPathFactory) -> Archived:
    found = old_record(tmp_path_factory.mktemp("archive"))
    assert isinstance(found, Archived)
    return found


@pytest.mark.parametrize(
    ("shown", "spoken", "says"),
    [
        (None, None, "The number is the same."),
        (
            None,
            "about seven per cent down",
            "The number is the same; its interval bears that it is said as about seven per cent "
            "down.",
        ),
        ("−7.2%", None, "It is −7.2%; as it was said, it holds."),
        ("−2.5%", "about two and a half per cent down", "It fell by just over seven per cent."),
    ],
)
def test_the_draft_tells_a_number_from_how_it_is_said(
    record: Archived, shown: str | None, spoken: str | None, says: str
):
    old = finding_number(record, "middle.economy.spin.change")
    fact = structs.replace(
        old.fact, display=shown or old.fact.display, spoken=spoken or old.fact.spoken
    )
    new = OfFinding(fact, old.beat, old.measure, old.form, old.finding, old.event)
    assert says in draft([record], old, new, record, NO_CAUSE)
