"""Whatever the match: no run, ball or wicket is lost, and nothing that does not add up is taken."""

from __future__ import annotations

import copy
from pathlib import Path
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from pipeline.ingest.laws import CREDITED, KINDS, NOT_OUT
from tests.builders import (
    PEOPLE,
    cleaned,
    match,
    quality_of,
    read_all,
    rows,
    rows_of,
    source,
    write_csv,
    write_zip,
)

EXTRAS = ("wides", "noballs", "byes", "legbyes", "penalty")
runs = st.integers(0, 7)
kinds = st.sampled_from(sorted(KINDS))
names = st.sampled_from(sorted(PEOPLE))
quick = settings(max_examples=45, deadline=None, suppress_health_check=list(HealthCheck))


@st.composite
def deliveries(draw: st.DrawFn, most_wickets: int = 3) -> dict[str, Any]:
    """Any delivery that adds up, in the layout's own words."""
    bat = draw(runs)
    extras = draw(st.dictionaries(st.sampled_from(EXTRAS), st.integers(1, 5), max_size=3))
    made: dict[str, Any] = {
        "batter": draw(names),
        "non_striker": draw(names),
        "bowler": draw(names),
        "runs": {
            "batter": bat,
            "extras": sum(extras.values()),
            "total": bat + sum(extras.values()),
        },
    }
    if extras:
        made["extras"] = extras
    if bat in (4, 6) and draw(st.booleans()):
        made["runs"]["non_boundary"] = True
    outs = draw(st.lists(st.tuples(kinds, names), max_size=most_wickets))
    if outs:
        made["wickets"] = [{"kind": kind, "player_out": name} for kind, name in outs]
    return made


def innings(most_wickets: int = 3) -> st.SearchStrategy[list[list[dict]]]:
    """Overs of any length, some of them empty."""
    return st.lists(st.lists(deliveries(most_wickets), max_size=9), min_size=1, max_size=4)


def of_overs(overs: list[list[dict]]) -> dict[str, Any]:
    found = match([])
    found["innings"][0]["overs"] = [{"over": n, "deliveries": d} for n, d in enumerate(overs)]
    return found


def counted(overs: list[list[dict]]) -> dict[str, int]:
    """What the match holds, added up from the file's own words."""
    balls = [ball for over in overs for ball in over]
    extras = [ball.get("extras", {}) for ball in balls]
    outs = [wicket["kind"] for ball in balls for wicket in ball.get("wickets", [])]
    return {
        "deliveries": len(balls),
        "legal": sum(not {"wides", "noballs"} & set(extra) for extra in extras),
        "faced": sum("wides" not in extra for extra in extras),
        "runs_total": sum(ball["runs"]["total"] for ball in balls),
        "runs_batter": sum(ball["runs"]["batter"] for ball in balls),
        "wickets": sum(kind not in NOT_OUT for kind in outs),
        "bowler_wickets": sum(kind in CREDITED for kind in outs),
        "dismissals": len(outs),
    }


def sums(table: list[dict[str, Any]], dismissals: int) -> dict[str, int]:
    names = ("legal", "faced", "runs_total", "runs_batter", "wickets", "bowler_wickets")
    added = {name: sum(int(row[name]) for row in table) for name in names}
    return {"deliveries": len(table), **added, "dismissals": dismissals}


@given(overs=innings())
@quick
def test_ingest_and_clean_lose_nothing(tmp_path: Path, overs: list[list[dict]]):
    data = cleaned(tmp_path, only={"m1.json": of_overs(overs)})
    wanted = counted(overs)
    assert sums(rows(data, "deliveries"), len(rows(data, "dismissals"))) == wanted
    (total,) = rows(data, "innings")
    assert (total["runs"], total["wickets"]) == (wanted["runs_total"], wanted["wickets"])
    counts = quality_of(data)["counts"]
    assert (counts["deliveries"], counts["runs"]) == (wanted["deliveries"], wanted["runs_total"])


@given(overs=innings(most_wickets=1))
@quick
def test_both_layouts_give_the_same_deliveries(tmp_path: Path, overs: list[list[dict]]):
    found = of_overs([over for over in overs if over] or [[]])
    csv = rows_of(found)
    if not csv:
        return
    for row, ball in zip(csv, [ball for over in overs for ball in over], strict=True):
        row["non_boundary"] = int(ball["runs"].get("non_boundary", False))
    path = write_csv(tmp_path / "m.csv", csv)
    from_rows, problems = read_all(source(path, "delivery-csv"))
    from_json, others = read_all(source(write_zip(tmp_path / "m.zip", {"m1.json": found})))
    assert problems == others == []
    told = [name for name in from_json.deliveries.column_names if not name.endswith("_id")]
    assert from_rows.deliveries.select(told).to_pylist() == (
        from_json.deliveries.select(told).to_pylist()
    )


@given(overs=innings(), data=st.data())
@quick
def test_what_does_not_add_up_is_never_taken(tmp_path: Path, overs: list[list[dict]], data):
    """One recorded number is changed; the match is refused, and its neighbour read whole."""
    places = [(n, m) for n, over in enumerate(overs) for m in range(len(over))]
    if not places:
        return
    broken = copy.deepcopy(overs)
    over, ball = data.draw(st.sampled_from(places))
    wrong = broken[over][ball]
    key = data.draw(st.sampled_from(["batter", "extras", "total", *wrong.get("extras", {})]))
    section = wrong["extras"] if key in EXTRAS else wrong["runs"]
    section[key] += data.draw(st.sampled_from([-1, 1, 50]))
    members = {"m1.json": of_overs(broken), "m2.json": of_overs(overs)}
    tables, (problem,) = read_all(source(write_zip(tmp_path / "m.zip", members)))
    assert "m.zip/m1.json: " in str(problem)
    assert tables.matches["match_id"].to_pylist() == ["m2"]
    assert sums(tables.deliveries.to_pylist(), tables.dismissals.num_rows) == counted(overs)
