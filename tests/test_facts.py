"""Facts: which numbers of a finding can be said, under which id, in which unit and words."""

from __future__ import annotations

import csv
import io
from typing import Any

from msgspec import structs

from pipeline.brief.facts import facts_of, to_csv
from pipeline.config.kinds import KINDS, AnyBeat
from pipeline.contracts.facts import Fact
from pipeline.contracts.finding import Finding, Groups, Mix, Player, Turn
from pipeline.contracts.findings import PlayersList, Point
from pipeline.contracts.notes import AtLeast
from pipeline.contracts.over_time import EventPlace, Slope, TurningDate
from pipeline.contracts.parts import Heterogeneity, OfWhole, Shrunk, Span
from tests.brief_makers import FOURS, brief_view, findings_of
from tests.chart_makers import ECONOMY
from tests.finding_makers import (
    answer,
    change,
    control,
    drift,
    effect,
    felt,
    gap,
    group_change,
    side,
    slope,
    span,
    step_test,
)
from tests.word_makers import players_list

BEAT: AnyBeat = KINDS["before_after"].model_validate(
    {"id": "b", "kind": "before_after", "measure": ["economy", "fours"]}
)


def facts(*findings: Finding, **more: Any) -> dict[str, Fact]:
    """Facts by id, without those of the topic as a whole."""
    made = facts_of(brief_view([BEAT]), findings_of(*findings, **more))
    assert len({fact.id for fact in made}) == len(made)
    return {fact.id: fact for fact in made if fact.beat}


def ends(told: Fact | Span) -> tuple[Any, Any, Any]:
    return told.low, told.value, told.high


def told(fact: Fact) -> tuple[str, str | None, str, str]:
    return fact.display, fact.interval, fact.spoken, fact.unit


def share(identity: str = "b.fours", **more: Any) -> Any:
    """A share that went from 8 to 9.1 per cent: relative changes are nobody's to tell."""
    sides = {"a": side(8.0), "b": side(9.1), "kind": "share"}
    return change(identity, **{**sides, "effect": effect(0.1375, 1.1), **more})


def test_what_the_topic_holds_is_counted():
    made = {fact.id: fact for fact in facts_of(brief_view([BEAT]), findings_of())}
    assert list(made) == ["data.matches", "data.balls", "family.looked_at", "family.cant_tell"]
    looked = made["family.looked_at"]
    assert told(looked) == (
        "1,234",
        None,
        "one thousand two hundred and thirty-four",
        "comparisons",
    )
    assert looked.definition == "comparisons all that were made" and looked.verdict is None


def test_a_change_is_told_in_units_and_in_per_cent():
    made = facts(change("b.economy.spin", effect=effect(0.1, 0.45)), headlines=["b.economy.spin"])
    assert list(made) == [
        f"b.economy.spin.{end}" for end in ("before", "after", "difference", "change")
    ]
    before, _, difference, changed = made.values()
    assert ends(before) == ends(span(4.5))
    assert told(before) == ("4.50", "4.49 to 4.51", "four point five an over", "runs an over")
    assert ends(difference) == ends(span(0.45))
    assert told(difference)[:2] == ("+0.45", "+0.44 to +0.46")
    assert ends(changed) == ends(span(0.1))
    assert told(changed) == ("+10.0%", "+9.0 to +11.0", "about ten per cent up", "per cent")
    for fact in made.values():
        assert (fact.finding, fact.beat, fact.query) == ("b.economy.spin", "b", "b")
        assert (fact.measure, fact.definition) == ("economy", ECONOMY.defined)
        assert fact.headline and fact.verdict == "changed"


def test_a_share_is_told_in_points_alone():
    made = facts(share())
    assert list(made) == ["b.fours.before", "b.fours.after", "b.fours.difference"]
    assert told(made["b.fours.difference"]) == (
        "+1.1 pts",
        "+1.1 to +1.1",
        "one point one percentage points up",
        "percentage points",
    )


def test_per_cents_are_said_to_what_the_interval_bears():
    half = effect(0.5, 2.25, relative=span(0.503, 0.004))
    fine = step_test(slope=slope(0.503, 0.004))
    made = facts(change(effect=half, drift=drift(test=fine)))
    assert told(made["b.economy.change"])[:3] == (
        "+50.3%",
        "+49.9 to +50.7",
        "about fifty point three per cent up",
    )
    assert made["b.economy.drift"].spoken == "about fifty point three per cent a season up"
    rough = step_test(slope=slope(0.503, 0.1))
    made = facts(change(drift=drift(test=rough)))
    assert made["b.economy.drift"].spoken == "just over fifty per cent a season up"


def test_points_have_a_decimal_though_the_measure_has_none():
    whole = FOURS.model_copy(update={"decimals": 0})
    view = brief_view([BEAT], measures={"fours": whole})
    made = {fact.id: fact for fact in facts_of(view, findings_of(share()))}
    assert told(made["b.fours.difference"])[:2] == ("+1.1 pts", "+1.1 to +1.1")
    fine = FOURS.model_copy(update={"decimals": 2})
    made = {
        fact.id: fact
        for fact in facts_of(brief_view([BEAT], measures={"fours": fine}), findings_of(share()))
    }
    assert told(made["b.fours.difference"])[:2] == ("+1.10 pts", "+1.09 to +1.11")


def test_a_difference_that_rounds_to_nothing_has_no_direction():
    made = facts(change(effect=effect(0.0001, 0.0004), verdict="held"))
    assert made["b.economy.difference"].spoken == "level, to that rounding"


def test_a_refused_finding_has_the_values_that_there_are():
    made = facts(change(refused="none_counted", a=side(0.0, low=None, high=None), b=side(None)))
    (before,) = made.values()
    assert (before.id, ends(before)) == ("b.economy.before", (None, 0.0, None))
    assert before.interval is None and before.verdict == "can't tell"


def test_of_a_gap_the_groups_own_changes_are_told():
    rates = facts(gap(sides=("left arm", "right arm"), a=group_change(-0.2), b=group_change(0.1)))
    assert [told(rates[f"b.economy.{name}"])[0] for name in ("left-arm", "right-arm")] == [
        "−20.0%",
        "+10.0%",
    ]
    shares = facts(gap("b.fours", sides=("pace", "spin"), kind="share", b=group_change(0.1, -2.0)))
    assert told(shares["b.fours.spin"])[:2] == ("−2.0 pts", "−2.0 to −2.0")
    none = structs.replace(group_change(), difference=None, change=None, refused="few_matches")
    refused = facts(gap(sides=("pace", "spin"), refused="few_matches", a=none))
    assert list(refused) == ["b.economy.spin"]


def test_the_second_question_is_told_whatever_the_first_answer_is():
    asked = {"drift": drift(), "control": control(change=-0.05)}
    for verdict in ("changed", "held", "can't tell"):
        made = facts(change(verdict=verdict, **asked))
        drifted, step, beyond = (
            made[f"b.economy.{name}"] for name in ("drift", "step", "beyond-control")
        )
        assert told(drifted) == (
            *("+2.0%", "+1.7 to +2.3", "about two per cent a season up"),
            "per cent a season",
        )
        assert ends(step) == ends(span(-0.05, 0.02)) and step.unit == "per cent"
        assert ends(beyond) == ends(span(-0.05))
        assert {fact.verdict for fact in (drifted, step, beyond)} == {verdict}
    asked_in_vain = {"drift": drift("not testable"), "control": None}
    for other in (change(**asked_in_vain), change(refused="few_matches", **asked)):
        assert not [name for name in facts(other) if name.endswith(("drift", "step", "control"))]


def test_a_drift_that_was_kept_without_its_interval_has_none():
    bare = step_test(slope=Slope(value=0.02, low=None, high=None))
    made = facts(change(drift=drift(test=bare)))["b.economy.drift"]
    assert (ends(made), made.level, made.interval) == ((None, 0.02, None), None, None)
    assert (made.display, made.spoken) == ("+2.0%", "about two per cent a season up")
    for value, spoken in ((0.0134, "just over one"), (0.00497, "about half a")):
        bare = step_test(slope=Slope(value=value, low=None, high=None))
        made = facts(change(drift=drift(test=bare)))["b.economy.drift"]
        assert made.spoken == f"{spoken} per cent a season up"


def test_every_fact_with_ends_has_the_confidence_that_they_were_printed_at():
    """Values of a side and the drift are never picked, and stay at 95 per cent."""
    wide = effect(0.1, 0.45, level=0.99)
    beyond = structs.replace(control(), effect=effect(-0.05, -0.2, level=0.98))
    found = change(
        **{"effect": wide, "felt": felt(), "control": beyond},
        drift=drift(test=step_test(level=0.975)),
    )
    of_share = facts(share(effect=effect(0.1375, 1.1, level=0.99), control=beyond))
    levels = {name.removeprefix("b.economy."): fact.level for name, fact in facts(found).items()}
    assert levels == {
        **{"before": 0.95, "after": 0.95, "drift": 0.95, "step": 0.975},
        **{"difference": 0.99, "change": 0.99, "felt": 0.99, "beyond-control": 0.98},
    }
    assert of_share["b.fours.difference"].level == 0.99
    assert of_share["b.fours.beyond-control"].level == 0.98
    none = facts(change(refused="none_counted", a=side(0.0, low=None, high=None), b=side(None)))
    assert none["b.economy.before"].level is None


def test_of_a_share_the_step_is_of_the_share_itself_and_the_rest_in_points():
    made = facts(share(drift=drift(), control=control(change=None)))
    assert made["b.fours.drift"].unit == "per cent of the share itself a season"
    assert made["b.fours.step"].spoken.endswith("per cent of the share itself down")
    assert told(made["b.fours.beyond-control"])[0] == "−0.2 pts"


def test_what_is_felt_comes_with_its_arithmetic():
    thick = felt(-4.5, 1.5, of="balls", times=60, divided=6)
    made = facts(change(felt=thick, effect=effect(-0.1, -0.45)))["b.economy.felt"]
    assert made.arithmetic == "−0.45 runs an over × 60 balls / 6"
    assert (made.display, made.interval) == ("−4.5", "−6.0 to −3.0")
    assert made.unit == "runs, every 10 overs" and made.spoken.endswith("runs fewer")
    whole = felt(4.5, 1.5, per="", divided=1)
    groups = facts(answer(Groups, felt=whole))["b.economy.felt"]
    assert groups.arithmetic == "+0.45 runs an over × 10 overs" and groups.unit == "runs"
    assert groups.display == "+4.5" and groups.spoken.endswith("runs more")
    points = facts(share(felt=felt(1.1, 0.5)))["b.fours.felt"]
    assert points.arithmetic == "+1.1 points × 10 overs"


def test_what_only_one_kind_of_answer_has():
    shares = facts(change("b.economy.spin", shares=(0.25, 0.503)))
    before, after = (shares[f"b.economy.spin.share-{side}"] for side in ("before", "after"))
    assert (before.value, after.value) == (25.0, 50.3)
    assert told(after) == ("50.3%", None, "fifty per cent", "per cent of balls")
    drawn = Shrunk(change=-0.1, low=-0.2, high=-0.01, apart=True, mean=0.0, group="spin", of=9)
    player = facts(answer(Player, "b.economy.id-q", shrunk=drawn))
    assert ends(player["b.economy.id-q.luck-allowed-for"]) == (-0.2, -0.1, -0.01)
    assert len(facts(answer(Player, "b.economy.id-q", shrunk=None))) == 4
    assert len(facts(answer(Mix, "b.economy.mix"))) == 4


def test_a_date_is_a_fact_without_a_number():
    turn = TurningDate(
        **{"last": "2016", "next": "2017", "low": "2015", "high": "2018", "points": 14},
        **{"dates": 9, "sup_f": 20.0, "second": None, "every": "season", "fit": []},
        event=EventPlace(inside=True, rank=1),
    )
    fact = facts(answer(Turn, turn=turn, effect=effect(difference=0.4)))["b.economy.date"]
    assert told(fact)[:3] == (
        "between 2016 and 2017",
        "95%: from after the 2015 season to after the 2018 season",
        "between 2016 and 2017",
    )
    assert "a straight line with one step, midway between 2016 and 2017" in fact.definition
    assert (ends(fact), fact.unit) == ((None, None, None), "season")


def test_series_and_lists_have_facts_under_their_own_ids():
    point = {name: getattr(side(), name) for name in side().__struct_fields__}
    at = {"first": None, "last": None}
    gone = {**point, "value": None, "low": None, "high": None}
    series = [Point(label="2009/10", **at, **point), Point(label="2010/11", **at, **gone)]
    players = PlayersList(
        **{"in_either": 60, "in_both": 30, "kept": 11, "left_out": 19},
        **{"kinds": {}, "arms": {}, "styles": {}, "hands": {}, "tags": {}},
        at_least=AtLeast(count=300, of="balls"),
    )
    made = facts(series={"b.economy": series}, lists={"b.economy": players})
    counts = ("kept", "in-both", "left-out", "moved", "apart")
    assert list(made) == [*(f"b.economy.players-{which}" for which in counts), "b.economy.2009-10"]
    assert [fact.value for fact in made.values()] == [11, 30, 19, 0, 0, 4.5]
    assert made["b.economy.players-left-out"].spoken == "nineteen"
    assert all(fact.finding is None and fact.verdict is None for fact in made.values())


def test_a_list_counts_who_moved_and_who_is_apart_and_what_is_kept():
    among = Heterogeneity(q=20.0, df=8, p=0.01, tau=0.1, kept=0.505)
    drawn = {"change": -0.1, "low": -0.2, "high": -0.01, "mean": 0.0, "group": "spin", "of": 9}
    claims = ((True, False), (True, True), (False, False))
    named = [
        answer(
            Player,
            f"b.economy.p{at}",
            shrunk=Shrunk(**drawn, moved=moved, apart=apart, among=among),
        )
        for at, (moved, apart) in enumerate(claims)
    ]
    drawn_apart = Shrunk(**drawn, moved=True, apart=True, among=among)
    others = [  # of another measure, and of another list of the same measure
        answer(Player, identity, shrunk=drawn_apart) for identity in ("b.fours.p1", "c.economy.p1")
    ]
    made = facts(*named, *others, lists={"b.economy": players_list(11)})
    assert [made[f"b.economy.players-{which}"].value for which in ("moved", "apart")] == [2, 1]
    kept = made["b.economy.kept-spin"]
    assert (kept.value, kept.display, kept.spoken) == (50.5, "51%", "just over half")
    assert kept.unit == "per cent of what separates them"


def test_a_part_of_a_mix_has_its_share_of_the_change_only_where_there_is_one():
    share = span(0.5, 0.1)
    for verdict, there in (("changed", True), ("held", True), ("can't tell", False)):
        whole = OfWhole(whole=span(-0.5, 0.1), share=share, verdict=verdict)
        made = facts(answer(Mix, "b.economy.mix", of_whole=whole))
        assert ("b.economy.mix.of-change" in made) is there
        if there:
            fact = made["b.economy.mix.of-change"]
            assert (fact.display, fact.interval, fact.level) == ("50%", "40 to 60", 0.95)
            assert fact.spoken == "fifty per cent of the change"


def test_the_table_has_a_line_a_fact_and_nothing_where_there_is_nothing():
    made = facts(change(effect=effect(-0.1, -0.45)))
    rows = list(csv.DictReader(io.StringIO(to_csv(list(made.values())))))
    assert [row["id"] for row in rows] == list(made)
    assert list(rows[0]) == list(Fact.__struct_fields__)
    assert rows[0]["arithmetic"] == "" and rows[0]["headline"] == "False"
    assert float(rows[2]["value"]) == -0.45 and rows[2]["display"] == "−0.45"


def test_a_fact_has_the_verdicts_on_what_its_finding_was_held_against():
    held = {"drift": drift("in line with the drift"), "control": control()}
    for more, second in (
        (held, "in line with the drift; beyond the control"),
        ({"drift": drift()}, "beyond the drift"),
        ({}, None),
    ):
        made = facts_of(brief_view([BEAT]), findings_of(change(**more)))
        assert {each.second for each in made if each.finding} == {second}
