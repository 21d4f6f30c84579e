"""The first verdict: at which level, in which family, and with what counted in it."""

from __future__ import annotations

import pytest

from pipeline.config.project import Statistics
from pipeline.contracts.codes import Refusal
from pipeline.contracts.finding import Change
from pipeline.errors import UserError
from pipeline.significance.verdicts import judge
from tests.finding_makers import change, effect

STATISTICS = Statistics(alpha=0.05, table_rate=0.10)


def looked(
    name: str, p: float = 0.5, p_equal: float = 0.5, refused: Refusal | None = None, beat: str = "b"
) -> Change:
    """The finding 'b.economy.<name>', not yet judged."""
    found = None if refused else effect(p=p, p_equal=p_equal)
    return change(f"{beat}.economy.{name}", effect=found, refused=refused)


def judged(findings: list, *headlines: str) -> dict:
    """Verdict and reason by the name of the cell."""
    judge(findings, [f"b.economy.{name}" for name in headlines], STATISTICS, "topic.yaml")
    return {finding.cell: (finding.verdict, finding.because) for finding in findings}


@pytest.mark.parametrize(
    ("p", "p_equal", "verdict", "because"),
    [
        (0.30, 0.0499, "held", "inside_margin"),
        (0.30, 0.05, "can't tell", "interval_too_wide"),
        (0.30, 0.0999, "can't tell", "interval_too_wide"),
        (0.01, 0.0499, "held", "moved_within_margin"),
        (0.01, 0.05, "changed", "beyond_chance"),
    ],
)
def test_held_is_inside_the_margin_at_five_per_cent(p, p_equal, verdict, because):
    """Of a headline and of a row alike, whatever the table's rate."""
    for headlines in ((), ("x",)):
        assert judged([looked("x", p, p_equal)], *headlines) == {"x": (verdict, because)}


@pytest.mark.parametrize(("p", "row", "headline"), [(0.049, True, True), (0.06, True, False)])
def test_a_headline_is_judged_at_alpha_and_a_row_at_the_tables_rate(p, row, headline):
    assert (judged([looked("x", p)])["x"][0] == "changed") is row
    assert (judged([looked("x", p)], "x")["x"][0] == "changed") is headline


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


def test_a_headline_that_nobody_found_is_the_topics_mistake():
    with pytest.raises(UserError, match=r"no finding 'b\.economy\.ab' to be a headline"):
        judged([looked("a")], "ab")
