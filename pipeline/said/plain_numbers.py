"""Numbers that are no statistic: years, stretches of overs, counts of what is on the screen."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from pipeline.said import plain_labels, plain_small, plain_talk
from pipeline.said.no_statistic import MEASURED
from pipeline.said.number_around import Around
from pipeline.said.read_numbers import Said
from pipeline.said.tokens import Token, joined
from pipeline.said.units import Unit

PLAIN, STATISTIC = True, False
# The first rule that holds tells which; where none does it is a statistic.
_RULES: tuple[tuple[Callable[[Around], bool], bool], ...] = (
    (plain_labels.is_year_or_place, PLAIN),
    (plain_labels.is_in_a_name, PLAIN),
    (plain_labels.is_second_place, PLAIN),
    (plain_labels.is_last_of_a_row, PLAIN),
    (plain_labels.is_date, PLAIN),
    (plain_labels.is_name_of_its_own, PLAIN),
    (plain_talk.is_idiom, PLAIN),
    (plain_talk.is_of_an_interval, PLAIN),
    (plain_talk.is_one_of_each, PLAIN),
    (plain_talk.is_counted_often, STATISTIC),
    (plain_talk.is_nought, PLAIN),
    (plain_talk.is_hundred_balls, PLAIN),
    (plain_talk.is_over_how_many, PLAIN),
    (plain_talk.is_stroke, PLAIN),
    (plain_labels.is_listed_or_timed, PLAIN),
    (plain_talk.is_always_so, PLAIN),
    (plain_labels.is_in_the_order, PLAIN),
    (plain_talk.is_done_again, PLAIN),
    (plain_talk.is_times_of_it, STATISTIC),
    (plain_talk.is_other_times, PLAIN),
    (plain_talk.is_crowd, STATISTIC),
    (plain_talk.is_counted_here, PLAIN),
    (plain_labels.is_point_of_the_talk, PLAIN),
    (plain_talk.is_to_one, PLAIN),
    (plain_labels.is_to_ring, PLAIN),
    (plain_talk.is_of_a_side, PLAIN),
    (plain_talk.is_four_or_six, PLAIN),
    (plain_small.is_of_phases, PLAIN),
    (plain_small.is_when, PLAIN),
    (plain_small.is_of_an_over, PLAIN),
    (plain_small.is_as_long, PLAIN),
    (plain_small.is_measured, STATISTIC),
    (plain_small.is_told_as_one, STATISTIC),
    (plain_small.is_one_of_a_kind, PLAIN),
    (plain_small.is_all_there_are, PLAIN),
    (plain_small.is_of_many, STATISTIC),
    (plain_small.is_some_of_them, PLAIN),
)


def is_plain(
    tokens: Sequence[Token], said: Said, unit: Unit | None, named: Sequence[tuple[int, int]]
) -> bool:
    """Whether it is no statistic by its own words; `named` are what names of subjects take up."""
    number = Around(tokens, said, unit, named)
    return next((verdict for holds, verdict in _RULES if holds(number)), STATISTIC)


def is_few(tokens: Sequence[Token], said: Said) -> bool:
    """A few of what nobody counts: 'three takeaways'; lengths and money are measured."""
    words = joined(tokens[said.last : said.last + 2])
    return Around(tokens, said, None).is_small and not MEASURED.match(words)
