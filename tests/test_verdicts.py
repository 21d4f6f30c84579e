"""The first verdict: at which level, in which family, and with what counted in it."""

from __future__ import annotations

import pytest

from pipeline.config.project import Statistics
from pipeline.contracts.codes import Refusal
from pipeline.contracts.finding import Change
from pipeline.errors import UserError
from pipeline.significance.verdicts import judge
from tests.finding_makers import asks, change, effect

STATISTICS = Statistics(alpha=0.05, table_rate=0.10)


def looked(
    name: str, p: float = 0.5, p_equal: float = 0.5, refused: Refusal | None = None, beat: str = "b"
) -> Change:
    """The finding 'b.economy.<name>', not yet judged; a name is a question, whichever the beat."""
    found = None if refused else effect(p=p, p_equal=p_equal)
    question = asks("economy", balls=(("phase", (name,)),))
    return change(f"{beat}.economy.{name}", effect=found, refused=refused, asks=question)


def judged(findings: list, *headlines: str) -> dict:
    """Verdict and reason by the name of the cell."""
    judge(findings, [f"b.economy.{name}" for name in headlines], STATISTICS, "topic.yaml")
    return {finding.cell: (finding.verdict, finding.because) for finding in findings}


@pytest.mark.parametrize(
    ("p", "p_equal", "verdict", "because"),
    [
        (0.30, 0.0249, "held", "inside_margin"),
        (0.30, 0.025, "can't tell", "interval_too_wide"),
        (0.30, 0.0499, "can't tell", "interval_too_wide"),
        (0.01, 0.0249, "held", "moved_within_margin"),
        (0.01, 0.025, "changed", "beyond_chance"),
        (0.05, 0.5, "can't tell", "interval_too_wide"),
    ],
)
def test_held_is_an_interval_of_95_per_cent_inside_the_margin(p, p_equal, verdict, because):
    """Both one-sided tests at half of alpha; of a headline and of a row alike."""
    for headlines in ((), ("x",)):
        found = looked("x", p, p_equal)
        assert judged([found], *headlines) == {"x": (verdict, because)}
        assert found.effect.level == pytest.approx(0.95)


@pytest.mark.parametrize(("p", "row", "headline"), [(0.02, True, True), (0.04, True, False)])
def test_two_headlines_share_alpha_and_two_rows_their_tables_rate(p, row, headline):
    """Half of five per cent, and half of ten; what would pass alone is told so."""
    for name, changed in (((), row), (("x", "y"), headline)):
        told = judged([looked("x", p), looked("y", 0.5)], *name)
        assert told["x"] == (
            ("changed", "beyond_chance") if changed else ("can't tell", "lost_among_many")
        )
        assert told["y"] == ("can't tell", "interval_too_wide")


def test_a_row_is_never_called_above_alpha():
    """Six of six at 0.06 are under a tables' rate of ten per cent, and none of them is called."""
    found = [looked(name, 0.06) for name in "uvwxyz"]
    assert set(judged(found).values()) == {("can't tell", "interval_too_wide")}
    assert [each.p_adjusted for each in found] == pytest.approx([0.06] * 6)


def test_an_interval_allows_for_the_looks_that_its_verdict_allows_for():
    """Two of four rows are picked: at ten per cent times two in four, so 95 %. One: 97.5 %."""
    for p, level in (((0.01, 0.03, 0.4, 0.5), 0.95), ((0.01, 0.2, 0.4, 0.5), 0.975)):
        found = [looked(name, each) for name, each in zip("abcd", p, strict=True)]
        judged(found)
        picked = [each.verdict == "changed" for each in found]
        assert picked == [each < 0.05 for each in p]
        told = [each.effect.level for each in found]
        assert told == pytest.approx([level if each else 0.95 for each in picked])


def test_what_is_lost_among_many_is_widened_until_it_says_so():
    """Alone it leaves none out; as one of three it is printed at a third of ten per cent."""
    found = [looked("x", 0.04), looked("y", 0.5), looked("z", 0.6)]
    assert judged(found)["x"] == ("can't tell", "lost_among_many")
    assert [each.effect.level for each in found] == pytest.approx([1 - 0.1 / 3, 0.95, 0.95])
    assert [each.asked_at for each in found] == pytest.approx([0.1 / 3] * 3)


def test_headlines_that_are_as_sure_as_each_other_have_the_same_level():
    """Either could have come first: both take the stricter of their two steps."""
    for names in ("ab", "ba"):
        found = [looked(name, 0.01) for name in names] + [looked("c", 0.6)]
        judged(found, "a", "b", "c")
        assert [each.effect.level for each in found] == pytest.approx(
            [1 - 0.05 / 3, 1 - 0.05 / 3, 0.95]
        )


def test_a_refused_look_counts_with_p_one():
    """Three looks, two refused: 0.04 three times is no longer under 0.10."""
    found = [looked("x", 0.04), looked("y", refused="few_matches"), looked("z", refused="no_balls")]
    assert judged(found[:1])["x"] == ("changed", "beyond_chance")
    assert judged(found)["x"] == ("can't tell", "lost_among_many")
    assert [each.p_adjusted for each in found] == [pytest.approx(0.12), None, None]
    assert {each.verdict for each in found[1:]} == {"can't tell"}
    assert {each.because for each in found[1:]} == {"refused"}


def test_headlines_by_holm_and_rows_by_benjamini_and_hochberg_apart():
    """Holm: the smallest by three, then by two and one; BH: by four over the rank."""
    heads = [looked(name, p) for name, p in (("a", 0.01), ("b", 0.02), ("c", 0.03))]
    tail = [looked(name, p) for name, p in (("d", 0.01), ("e", 0.02), ("f", 0.3), ("g", 0.8))]
    judged([*tail[:2], *heads, *tail[2:]], "a", "b", "c")
    assert [each.p_adjusted for each in heads] == pytest.approx([0.03, 0.04, 0.04])
    assert [each.p_adjusted for each in tail] == pytest.approx([0.04, 0.04, 0.4, 0.8])
    assert {(each.family_size, each.adjusted_by) for each in heads} == {(3, "holm")}
    assert {(each.family_size, each.adjusted_by) for each in tail} == {(4, "bh")}


def test_the_family_is_written_out_with_every_look():
    found = [looked("a", 0.001), looked("b", 0.5), looked("c", refused="few_matches")]
    found += [looked("d", 0.5, 0.01, beat="other")]
    family = judge(found, ["b.economy.a"], STATISTICS, "topic.yaml")
    assert (family.looked_at, family.headlines, family.tables, family.refused) == (4, 1, 3, 1)
    assert (family.changed, family.held, family.cant_tell) == (1, 1, 2)
    first, second = family.looks
    assert (first.beat, first.looks, first.headlines, first.cant_tell) == ("b", 3, 1, 2)
    assert (second.beat, second.looks, second.held) == ("other", 1, 1)


def test_what_two_beats_show_is_one_look_and_a_headline_if_one_of_them_is():
    """Three looks in five rows: by Holm over two headlines, and one row beside them."""
    found = [looked("a", 0.02), looked("b", 0.04), looked("c", 0.04)]
    more = [looked("a", 0.02, beat="other"), looked("b", 0.04, beat="other")]
    headlines = ["other.economy.a", "b.economy.b"]
    family = judge([*found, *more], headlines, STATISTICS, "topic.yaml")
    assert (family.looked_at, family.again, family.headlines, family.tables) == (3, 2, 2, 1)
    assert (family.changed, family.held, family.cant_tell) == (3, 0, 0)
    for one, other in zip(found, more, strict=False):
        assert (other.verdict, other.effect.level) == (one.verdict, one.effect.level)
        assert (one.adjusted_by, one.family_size) == (other.adjusted_by, other.family_size)
        assert (one.again, other.again) == (None, one.id)
        assert one.adjusted_by == "holm"
    assert found[2].again is None and found[2].adjusted_by == "bh"
    own, again = family.looks
    assert (own.looks, own.again, own.headlines, own.changed) == (3, 0, 2, 3)
    assert (again.looks, again.again, again.headlines, again.changed) == (0, 2, 0, 0)


def test_two_ids_of_one_headline_are_one_headline_in_every_count():
    found = [looked("a", 0.01), looked("a", 0.01, beat="other"), looked("b", 0.5)]
    family = judge(found, ["b.economy.a", "other.economy.a"], STATISTICS, "topic.yaml")
    assert (family.headlines, [look.headlines for look in family.looks]) == (1, [1, 0])


def test_one_that_held_says_that_it_moved_only_where_its_family_leaves_the_change():
    """Its interval leaves none out, inside the margin; its change is lost among two headlines."""
    for p, because in ((0.03, "inside_margin"), (0.004, "moved_within_margin")):
        found = looked("x", p, 0.01)
        assert judged([found, looked("y", 0.2, 0.001)], "x", "y")["x"] == ("held", because)
        assert found.effect.p < 1 - found.effect.level


def test_a_lost_change_is_no_wider_than_what_was_picked():
    """Well outside the margin, or inside it only at 95 %: the level is that of its own claim."""
    picked = [looked(name, 0.0001) for name in "abc"]
    for p_equal in (0.5, 0.02):
        found = looked("x", 0.04, p_equal)
        rest = [looked(f"r{at}", 0.9) for at in range(6)]
        assert judged([*picked, found, *rest])["x"][0] == "can't tell"
        assert found.effect.level == pytest.approx(0.97)


@pytest.mark.parametrize(
    ("p", "p_equal", "verdict", "because", "level"),
    [
        (0.04, 0.02, "can't tell", "held_lost_among_many", 1 - 0.05 / 3),
        (0.5, 0.02, "can't tell", "held_lost_among_many", 1 - 0.05 / 3),
        (0.03, 0.02, "changed", "beyond_chance", 1 - (0.03 * 0.04) ** 0.5),
        (0.004, 0.02, "changed", "beyond_chance", 1 - 0.05 / 3),
        (0.004, 0.006, "held", "moved_within_margin", 0.95),
    ],
)
def test_a_change_inside_the_margin_is_held_only_as_one_of_so_many(
    p, p_equal, verdict, because, level
):
    """The last of three headlines that may be called; to be held it is the first of three.

    One that may be called changed is widened only until its interval leaves the margin.
    """
    found = looked("x", p, p_equal)
    told = judged([looked("a", 1e-4), looked("b", 1e-5), found], "a", "b", "x")
    assert told["x"] == (verdict, because)
    assert found.effect.level == pytest.approx(level)


def test_a_headline_that_nobody_found_is_the_topics_mistake():
    with pytest.raises(UserError, match=r"no finding 'b\.economy\.ab' to be a headline"):
        judged([looked("a")], "ab")
