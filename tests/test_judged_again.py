"""What is made again alone is judged as its topic judged it, with all that hangs on the verdict."""

from __future__ import annotations

import copy

from pipeline.contracts.finding import Mix
from pipeline.contracts.parts import OfWhole
from pipeline.explain.remade import _judge_as
from tests.brief_makers import findings_of
from tests.finding_makers import span
from tests.view_makers import scale
from tests.word_makers import MIX, PLAYERS, moved, part, player

SCALES = {"economy": scale("rate")}


def test_a_player_has_moved_where_the_topic_says_that_she_has():
    """Alone her list is another family, in which the verdict may be another."""
    for verdict, other in (("changed", "can't tell"), ("can't tell", "changed")):
        told = player(apart=False, verdict=verdict, id="b.economy.a-quibble")
        again = copy.deepcopy(told)
        again.verdict, again.shrunk.moved = other, other == "changed"
        _judge_as(findings_of(told), findings_of(again), SCALES, [PLAYERS])
        assert (again.verdict, again.shrunk.moved) == (verdict, verdict == "changed")


def test_a_part_is_told_the_whole_change_as_the_topic_judged_and_printed_it():
    whole = moved(-0.1, 0.03, "can't tell", values={}, id="b.economy")
    whole.told.level = 0.99
    of_whole = OfWhole(whole=span(-0.5, 0.15), share=span(0.5, 0.1), verdict="changed")
    mix = part(Mix, -0.05, 0.02, id="b.economy.mix", of_whole=of_whole)
    alone = findings_of(*copy.deepcopy([whole, mix]))
    alone.findings[0].verdict, alone.findings[0].told.level = "changed", 0.95
    _judge_as(findings_of(whole, mix), alone, SCALES, [MIX])
    now, it = alone.findings
    assert it.of_whole.verdict == "can't tell"
    assert it.of_whole.whole == now.told.difference
