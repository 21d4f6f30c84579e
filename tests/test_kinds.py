"""Every kind of beat from topic to finding, against what was planted in the demo."""

from __future__ import annotations

from pathlib import Path

import pytest

from demo_data import planted
from pipeline.contracts.files import read_json
from pipeline.contracts.finding import Player, control_of
from pipeline.contracts.findings import Findings
from pipeline.contracts.notes import SurvivorsOnly
from pipeline.contracts.over_time import EventPlace
from pipeline.errors import UserError
from tests.asking import HEAD, ask, by_id, rows
from tests.league import codes

pytestmark = pytest.mark.slow
MIDDLE = planted.MIDDLE
STEP = planted.STEP["spin", MIDDLE]
FIVE = (1 + planted.DRIFT_PER_SEASON[MIDDLE]) ** 5  # the drift between the windows' centres


@pytest.fixture(scope="module")
def paid(built: Path) -> Findings:
    return read_json(built / "output" / "who-paid" / "findings.json", Findings)


def test_the_planted_turn_is_put_right_without_being_told(paid: Findings):
    """Whether there is one stays open: seasons as alike as these are without a step could do so."""
    found = by_id(paid)["when.economy"]
    assert (found.turn.last, found.turn.next) == ("2016", "2017")
    assert found.turn.event == EventPlace(inside=True, rank=1)
    assert found.verdict == "can't tell" and found.told.p > 0.05 and found.turn.rho > 0.5
    assert found.told.change.low < STEP - 1 < found.told.change.high
    assert found.turn.second is None


def test_a_turn_where_nothing_was_planted_is_not_named(built: Path, tmp_path: Path):
    """The ends of innings only drift: no season stands out, by season or by quarter."""
    beats = (
        "  - {id: a, kind: turning_point, measure: run_rate, where: {phase: death}}\n"
        "  - {id: b, kind: turning_point, measure: run_rate, where: {phase: death}, every: quarter}"
    )
    found = ask(built, tmp_path, beats, "[a, b]")
    for name in ("a.run_rate", "b.run_rate"):
        assert by_id(found)[name].verdict == "can't tell"
    quarters = [point.label for point in found.series["b.run_rate"]]
    assert quarters[0] == "quarter from Mar 2009" and len(quarters) == 42
    assert by_id(found)["b.run_rate"].turn.points == 41  # the last is too short an end


def test_the_planted_gap_is_told_and_the_others_are_not(paid: Findings):
    found = by_id(paid)
    gap = found["apart.economy.middle"]
    assert gap.told.change.low < STEP - 1 < gap.told.change.high
    assert (gap.verdict, gap.drift.verdict) == ("can't tell", "beyond the drift")
    assert gap.because == "lost_among_many"  # alone it would be told
    assert gap.told.p_permutation <= 0.002
    for phase in ("powerplay", "death"):
        other = found[f"apart.economy.{phase}"]
        assert other.verdict != "changed"
        assert other.told.change.low < 0 < other.told.change.high
    groups = [found[f"apart.economy.{kind}-middle"] for kind in planted.KINDS]
    ratio = (1 + groups[1].told.change.value) / (1 + groups[0].told.change.value) - 1
    assert gap.told.change.value == pytest.approx(ratio)
    assert gap.a.change == groups[0].told.change


def test_a_control_takes_off_what_it_shares(built: Path, tmp_path: Path, paid: Findings):
    """Spin in overs 11-40 against spin in overs 1-10: the same drift, so the bare step is left."""
    beats = (
        "  - {id: a, kind: before_after, measure: economy, by: bowler_kind,\n"
        "     where: {phase: middle},\n"
        "     control: {name: the early overs, where: {phase: powerplay}}}"
    )
    found = by_id(ask(built, tmp_path, beats, "[a]"))
    spin, pace = (found[f"a.economy.{kind}"].control for kind in ("spin", "pace"))
    assert spin.effect.relative.low < STEP - 1 < spin.effect.relative.high
    assert pace.effect.relative.low < 0 < pace.effect.relative.high
    assert pace.verdict == "in line with the control"
    fours = by_id(paid)["fours.boundary_share.spin"].control
    assert fours.verdict == "beyond the control" and fours.name == "pace in the same overs"
    assert by_id(paid)["fours.boundary_share.pace"].control is None  # it is the control


def test_a_control_that_overlaps_every_row_is_refused(built: Path, tmp_path: Path):
    beats = (
        "  - {id: a, kind: before_after, measure: economy,\n"
        "     control: {name: the early overs, where: {phase: powerplay}}}"
    )
    with pytest.raises(UserError, match="its control, the early overs, overlaps every row"):
        ask(built, tmp_path, beats, "[a]")


def test_the_events_control_may_overlap_a_whole_beat(built: Path, tmp_path: Path):
    """Named once for the topic: rows that are apart from it are held against it, others are not."""
    control = "control: {name: the early overs, where: {phase: powerplay}}"
    head = HEAD.replace("after: 5 seasons}", f"after: 5 seasons, {control}}}")
    beats = (
        "  - {id: a, kind: before_after, measure: economy, by: phase}\n"
        "  - {id: b, kind: trend, measure: run_rate}"
    )
    found = by_id(ask(built, tmp_path, beats, "[a]", head))
    held = {name for name, finding in found.items() if control_of(finding)}
    assert held == {"a.economy.middle", "a.economy.death"}


def test_phases_go_along_the_innings_and_add_up(paid: Findings):
    found = by_id(paid)
    bands = [f for f in paid.findings if f.beat == "along" and f.cell != "all"]
    assert [f.values["band"] for f in bands[:2]] == ["1-5", "6-10"] and len(bands) == 10
    whole = found["along.run_rate"]
    for side in ("a", "b"):
        for count in ("numerator", "denominator"):
            counts = [getattr(getattr(f, side), count) for f in (whole, *bands)]
            assert sum(counts[1:]) == counts[0] > 0


def test_the_planted_mix_and_the_planted_rates(paid: Findings):
    """In the middle overs spin's share goes from 36 to 44 per cent and its rate down by the step.

    The whole is the sum of both parts; the shares are those planted, the mix part what they make
    at the mean of the planted economies (within its interval).
    """
    found = by_id(paid)
    whole, mix, rates = (found[f"captains.economy{part}"] for part in ("", ".mix", ".rates"))
    parts = [each.told.difference for each in (whole, mix, rates)]
    assert parts[1].value + parts[2].value == pytest.approx(parts[0].value, abs=1e-12)
    before, after = (planted.spin_share(season, MIDDLE) for season in (2016, 2017))
    spin = found["captains.economy.spin"]
    assert spin.shares == pytest.approx((before, after), abs=0.02)
    sides = [found[f"captains.economy.{kind}"] for kind in planted.KINDS]
    rate = [(each.a.value + each.b.value) / 2 for each in sides]
    wanted = (spin.shares[1] - spin.shares[0]) * (rate[1] - rate[0])
    assert parts[1].value == pytest.approx(wanted, abs=1e-9)
    truth = (after - before) * (4.4 * 0.945 - 4.8) * FIVE  # planted economies, mean of both windows
    assert parts[1].low < truth < parts[1].high < 0
    pace_wins = (1 - after + 1 - before) / 2 * (FIVE - 1) * 4.8
    spin_loses = (after + before) / 2 * (FIVE * STEP - 1) * 4.4
    assert parts[2].low < pace_wins + spin_loses < parts[2].high


def test_mix_of_what_is_not_per_ball_is_refused(built: Path, tmp_path: Path):
    beats = "  - {id: a, kind: mix, measure: bowling_average, by: bowler_kind}"
    with pytest.raises(UserError, match="'bowling_average' is not per ball"):
        ask(built, tmp_path, beats, "[a]")


def test_players_are_shrunk_to_their_kind_and_luck_is_not_told_apart(paid: Findings):
    """No player was given a change of her own: nobody is told apart from her kind."""
    players = [f for f in paid.findings if isinstance(f, Player)]
    assert len(players) == paid.lists["names.economy"].kept > 20
    assert not [f.id for f in players if f.shrunk and f.shrunk.apart]
    for finding in players:
        mean, raw, drawn = finding.shrunk.mean, finding.told.change.value, finding.shrunk.change
        assert min(mean, raw) - 1e-9 <= drawn <= max(mean, raw) + 1e-9
        assert finding.a.balls >= 300 and finding.b.balls >= 300
    means = {f.shrunk.group: f.shrunk.mean for f in players}
    assert means["spin"] < -0.04 < means["pace"]  # the step was planted in spin alone


def test_a_list_says_who_is_missing_from_it(paid: Findings, built: Path):
    found = paid.lists["names.economy"]
    query = """
        WITH each AS (
            SELECT bowler_id, count_if(legal AND season BETWEEN '2012' AND '2016') AS a,
                count_if(legal AND season BETWEEN '2017' AND '2021') AS b
            FROM read_parquet(?) JOIN read_parquet(?) USING (match_id)
            WHERE over BETWEEN 11 AND 40 GROUP BY bowler_id
        ) SELECT count_if(a > 0 AND b > 0), count_if(a >= 300 AND b >= 300) FROM each
    """
    data = built / "output" / "data"
    paths = [str(data / f"{name}.parquet") for name in ("deliveries", "matches")]
    assert rows(query, paths)[0] == (found.in_both, found.kept)
    assert sum(found.arms.values()) == sum(found.hands.values()) == found.kept
    notes = next(f for f in paid.findings if isinstance(f, Player)).notes
    assert [n.kept for n in notes if isinstance(n, SurvivorsOnly)] == [found.kept]


def test_wickets_by_batter_belong_to_whoever_was_out(built: Path, tmp_path: Path):
    """Run outs at the other end too: by hand, order and batter they add up to all wickets."""
    beats = (
        "  - {id: hand, kind: before_after, measure: batting_average, by: batter_hand}\n"
        "  - {id: order, kind: before_after, measure: batting_average, by: batting_order}\n"
        "  - {id: who, kind: players, role: batter, measure: batting_average, at_least: 1 ball}"
    )
    found = ask(built, tmp_path, beats, "[hand]")
    data = built / "output" / "data"
    paths = [str(data / f"{name}.parquet") for name in ("deliveries", "dismissals", "matches")]
    window = "season BETWEEN '2012' AND '2016'"
    wickets, by_left = rows(
        f"""SELECT (SELECT sum(wickets) FROM read_parquet($1) JOIN read_parquet($3) USING (match_id)
            WHERE {window}), count_if(hand = 'left') FROM read_parquet($2) o
            JOIN read_parquet($3) m USING (match_id) WHERE o.out AND {window}""",
        paths,
    )[0]
    named = by_id(found)
    assert named["hand.batting_average"].a.denominator == wickets
    assert named["hand.batting_average.left"].a.denominator == by_left
    orders = [f for f in found.findings if f.beat == "order" and f.cell != "all"]
    assert sum(f.a.denominator for f in orders) == wickets
    assert named["who.batting_average"].a.denominator == wickets


@pytest.mark.parametrize(
    ("between", "held"),
    [("{home: [away, home]}", True), ("{innings: ['1', '2']}", True)],
)
def test_nothing_planted_is_not_a_gap(built: Path, tmp_path: Path, between: str, held: bool):
    beats = f"  - {{id: a, kind: groups, measure: run_rate, between: {between}}}"
    finding = by_id(ask(built, tmp_path, beats, "[a]"))["a.run_rate"]
    assert (finding.verdict == "held") is held


def test_the_tail_scores_slower_as_planted(built: Path, tmp_path: Path):
    beats = (
        "  - {id: a, kind: groups, measure: batting_strike_rate, where: {phase: death},\n"
        "     between: {batting_order: [middle, lower]}}"
    )
    finding = by_id(ask(built, tmp_path, beats, "[a]"))["a.batting_strike_rate"]
    # Numbers 9-11 score three quarters; number 8, in the same group, scores in full.
    assert planted.SCORING_BY_POSITION[-1] - 1 < finding.told.change.value < -0.02


def test_a_share_of_matches_has_the_intervals_of_proportions(built: Path, tmp_path: Path):
    beats = "  - {id: a, kind: before_after, measure: win_share, where: {innings: 1}}"
    finding = by_id(ask(built, tmp_path, beats, "[a]"))["a.win_share"]
    query = """SELECT count_if(winner = batting_team), count(*) FROM (
        SELECT DISTINCT match_id, batting_team, winner FROM read_parquet($1) d
        JOIN read_parquet($2) m USING (match_id)
        WHERE innings = 1 AND winner IS NOT NULL AND season BETWEEN '2012' AND '2016')"""
    data = built / "output" / "data"
    paths = [str(data / f"{name}.parquet") for name in ("deliveries", "matches")]
    assert rows(query, paths)[0] == (
        finding.a.numerator,
        finding.a.denominator,
    )
    # Newcombe's interval is not symmetric about the difference; Wilson's is inside nought to one.
    difference = finding.told.difference
    assert difference.low < difference.value < difference.high
    assert 0 < finding.a.low < finding.a.value < finding.a.high < 100


def test_names_tags_and_lists_choose_players(built: Path, tmp_path: Path):
    people = rows(
        "SELECT id, label FROM read_parquet(?) "
        "WHERE list_contains(string_split(tags, ';'), 'keeper') ORDER BY id",
        [str(built / "output" / "data" / "players.parquet")],
    )
    ids, names = ([f"'{row[at]}'" for row in people] for at in (0, 1))
    beats = (
        "  - {id: tag, kind: trend, measure: batting_strike_rate, where: {batter_tag: keeper}}\n"
        "  - {id: list, kind: trend, measure: batting_strike_rate, where: {batter_tag: gloves}}\n"
        "  - {id: ids, kind: trend, measure: batting_strike_rate,\n"
        f"     where: {{batter: [{', '.join(ids)}]}}}}"
    )
    head = f"{HEAD}lists: {{gloves: [{', '.join(names)}]}}\n"
    found = by_id(ask(built, tmp_path, beats, "[tag, list, ids]", head))
    sides = [found[f"{name}.batting_strike_rate"].a for name in ("tag", "list", "ids")]
    assert sides[0] == sides[1] == sides[2] and sides[0].balls > 1_000


@pytest.mark.parametrize(
    ("where", "message"),
    [
        ("{bowler: Nobody Atall}", "no player 'Nobody Atall' in the data"),
        ("{bowler_tag: keepr}", "no tag or list 'keepr' (did you mean 'keeper'?)"),
        (
            "{team: Brakhaven}",
            "side of the match 'Brakhaven' isn't in the data (did you mean 'Brackhaven'?)",
        ),
        ("{home: awya}", "'awya' is no value of 'home' (did you mean 'away'?)"),
        ("{batting_position: 12}", "'12' is no value of 'batting_position'"),
    ],
)
def test_names_that_nobody_bears_are_placed(built: Path, tmp_path: Path, where: str, message: str):
    beats = f"  - {{id: a, kind: trend, measure: run_rate, where: {where}}}"
    with pytest.raises(UserError) as caught:
        ask(built, tmp_path, beats, "[a]")
    assert any(message in str(problem) for problem in caught.value.problems)


def test_namesakes_are_told_apart_or_refused(built: Path, tmp_path: Path):
    """Two players of the demo bear one name: it is no answer to 'who'."""
    query = "SELECT name, list(label) FROM read_parquet(?) GROUP BY name HAVING count(*) > 1"
    path = str(built / "output" / "data" / "players.parquet")
    ((name, labels),) = rows(query, [path])
    beats = "  - {{id: a, kind: trend, measure: run_rate, where: {{batter: '{}'}}}}"
    with pytest.raises(UserError, match=f"2 players are called '{name}'; write one of"):
        ask(built, tmp_path, beats.format(name), "[a]")
    event = HEAD.replace(HEAD.splitlines()[3] + "\n", "")
    text = (
        beats.format(labels[0])
        + "\n  - {id: b, kind: groups, measure: run_rate, between: {home: [away, home]}}"
    )
    assert ask(built, tmp_path, text, "[b]", event).samples["a.run_rate"].balls > 100


@pytest.mark.parametrize(
    ("old", "new", "reason"),
    [
        ("before: 5 seasons", "before: 1 seasons", "few_periods_before"),
        ("date: 2017-03-01", "date: 2011-03-01", "few_periods_before"),
    ],
)
def test_what_cannot_be_tested_says_why(
    built: Path, tmp_path: Path, old: str, new: str, reason: str
):
    head = HEAD.replace(old, new).replace("before: 5 seasons", "before: 2 seasons")
    head = head if "2011" in head else head.replace("after: 5", "trend_from: 2014, after: 5")
    beats = "  - {id: a, kind: before_after, measure: run_rate}"
    finding = by_id(ask(built, tmp_path, beats, "[a]", head))["a.run_rate"]
    assert (finding.drift.verdict, finding.drift.because) == ("not testable", reason)


def test_an_event_outside_the_data_is_refused(built: Path, tmp_path: Path):
    head = HEAD.replace("2017-03-01", "2031-03-01")
    with pytest.raises(UserError, match=r"event\.after: 5 seasons asked; the data hold 0"):
        ask(built, tmp_path, "  - {id: a, kind: before_after, measure: run_rate}", "[a]", head)


def test_every_note_of_the_topic_has_its_place(built: Path, tmp_path: Path):
    """A rival inside the windows, a season the event fell inside, new sides, shortened chases."""
    head = HEAD.replace("2017-03-01", "2017-06-01") + (
        "also: [{name: the new ball, date: 2018-05-01}, {name: the old ball, date: 2010-05-01}]\n"
    )
    beats = (
        "  - {id: a, kind: before_after, measure: innings_total}\n"
        "  - {id: b, kind: before_after, measure: economy, by: bowler_kind, where: {overs: 11-40}}"
    )
    found = by_id(ask(built, tmp_path, beats, "[a]", head))
    noted, by_kind = codes(found["a.innings_total"]), codes(found["b.economy"])
    assert [(one.name, one.days) for one in noted["rival_event"].rivals] == [("the new ball", 334)]
    assert noted["transition_season"].seasons == ["2017"]
    assert noted["reduced_matches"].matches >= 1
    assert "reduced_matches" not in by_kind
    assert "mix_moved" not in by_kind, "the mix is a fifth of what this sample's rates did"
