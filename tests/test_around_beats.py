"""The cold open: it says nothing of the data that the answer takes back."""

from __future__ import annotations

import pytest

from pipeline.contracts.finding import Finding
from pipeline.episode.around_beats import cold_open
from pipeline.voice.sentence import Told
from tests.brief_makers import brief_view, findings_of
from tests.outcomes import CANT_TELL
from tests.word_makers import (
    BEAT,
    EVENT,
    GAP,
    GROUPS,
    TURN,
    beat,
    gap_between,
    groups_apart,
    moved,
    turn,
)

HELD = moved(0.0, 0.01, "held")


def opened(of, *found: Finding, asked: bool = True, **more) -> list[str]:
    view = brief_view([of], **more)
    headlines = [each.id for each in found] if asked else []
    return [line.sentences[0] for line in cold_open(view, findings_of(*found, headlines=headlines))]


@pytest.mark.parametrize(
    ("of", "finding", "outcome"),
    [
        (BEAT, moved(0.1, 0.03), "number.rose"),
        (BEAT, HELD, "cold.held"),
        (BEAT, moved(0.1, 0.3, CANT_TELL), "cold.open"),
        (GROUPS, groups_apart(0.0, 0.01, "held"), "groups.held.same"),
        (GAP, gap_between(0.03, 0.03, 0.0, 0.01, "held"), "gap.changes"),
        (TURN, turn(), "turn.put"),
    ],
)
def test_only_where_nothing_can_be_told_nobody_can_say(of, finding: Finding, outcome: str):
    _, number = opened(of, finding)
    assert isinstance(number, Told) and number.outcome.startswith(outcome)


def test_without_headlines_the_question_stands_alone():
    assert opened(BEAT, HELD, asked=False) == ["What happened?"]


def test_a_number_of_another_event_names_it():
    of = beat("before_after", about="break")
    _, number = opened(of, moved(0.1, 0.03), others={"break": EVENT})
    assert number.startswith("Now the long rope. Spin’s economy")
