"""Sums of batters, bowlers and sides: they add up to the tallies, and make the error by hand."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np
import pandas as pd
import pytest

from pipeline.config import views
from pipeline.config.level_of import LEVELS, OF_BALLS, adds_up
from pipeline.config.load import load
from pipeline.contracts.finding import Groups
from pipeline.in_memory import numbers_of
from pipeline.metrics.stage import clusters_of
from pipeline.tables import CLUSTERS
from tests.untidy import HEAD, untidy

RATE = {"measure": ["run_rate", "boundary_share"]}
GROUPS: dict[str, dict[str, list[str]]] = {
    "hands": {"batter_hand": ["left", "right"]},
    "kinds": {"bowler_kind": ["pace", "spin"]},
    "arms": {"bowler_arm": ["left", "right"]},
    "places": {"batting_order": ["top", "middle"]},
    "cups": {"competition": ["Pebble Cup", "Sand Cup"]},
    "coast": {"region": ["inland", "coast"]},
    "where": {"home": ["home", "away"]},
    "halves": {"innings": ["1", "2"]},
    "sides": {"batting_team": ["Northmoor", "Southfen"]},
    "parks": {"ground": ["Moor Top", "Fen Side"]},
}
OF = {
    **{"hands": "batter", "places": "batter", "kinds": "bowler", "arms": "bowler"},
    **{"cups": "side", "coast": "ground", "where": "ground"},
    **{"halves": None, "sides": None, "parks": None},
}


class Asked(NamedTuple):
    clusters: pd.DataFrame
    tallies: pd.DataFrame
    groups: list[Groups]


@pytest.fixture(scope="module")
def asked(tmp_path_factory: pytest.TempPathFactory) -> Asked:
    project = untidy(tmp_path_factory.mktemp("untidy") / "league")
    beats = [
        {"id": name, "kind": "groups", **RATE, "between": between, **_by(name)}
        for name, between in GROUPS.items()
    ]
    beats.append(
        {
            "id": "innings",
            "kind": "groups",
            "measure": ["innings_total"],
            "between": {"batter_hand": ["left", "right"]},
        }
    )
    listed = "".join(f"  - {json.dumps(beat)}\n" for beat in beats)
    text = f"{HEAD}headlines: []\nbeats:\n{listed}"
    (project / "config" / "topics" / "asked.yaml").write_text(text, "utf-8")
    config = load(project / "config", only="asked")
    data = Path(project) / "output" / "data"
    metrics = views.metrics(config, "asked")
    made = numbers_of(metrics, views.significance(config, "asked"), data)
    table = clusters_of(metrics, data)
    assert table.schema == CLUSTERS
    groups = [one for one in made.findings.findings if isinstance(one, Groups)]
    return Asked(table.to_pandas(), made.tallies, groups)


def _by(name: str) -> dict[str, Any]:
    return {"by": ["phase"]} if name in ("kinds", "hands") else {}


KEYS = ["beat", "measure", "cell", "window"]


def test_clusters_add_up_to_the_tallies(asked: Asked):
    """Of every cell and group, to the run and the ball."""
    ours = asked.clusters.groupby(KEYS)[["y", "x"]].sum()
    theirs = asked.tallies.groupby(KEYS)[["y", "x"]].sum()
    assert set(ours.index.get_level_values("beat")) == {
        name for name, of in OF.items() if of in OF_BALLS
    }
    both = ours.join(theirs.add_suffix("_match"), how="inner")
    assert len(both) == len(ours)
    assert (both["y"] == both["y_match"]).all() and (both["x"] == both["x_match"]).all()
    assert not asked.clusters.duplicated([*KEYS, "cluster"]).any()
    assert ((asked.clusters["y"] != 0) | (asked.clusters["x"] != 0)).all()


def _by_hand(rows: pd.DataFrame, sides: tuple[str, str]) -> tuple[float, int, int]:
    """(the error of the log of the second over the first, clusters of each), with plain loops."""
    variances, counts = [], []
    held = [rows[rows["window"] == side].groupby("cluster")[["y", "x"]].sum() for side in sides]
    shared = set(held[0].index) & set(held[1].index)
    if not shared:
        for side in held:
            y, x = side["y"].to_numpy(float), side["x"].to_numpy(float)
            without = np.log((y.sum() - y) / (x.sum() - x))
            variances.append((len(y) - 1) / len(y) * ((without - without.mean()) ** 2).sum())
            counts.append(len(y))
        return float(np.sqrt(sum(variances))), counts[0], counts[1]
    moved = dict.fromkeys({*held[0].index, *held[1].index}, 0.0)
    for sign, side in zip((-1, 1), held, strict=True):
        y, x = side["y"].to_numpy(float), side["x"].to_numpy(float)
        without = np.log((y.sum() - y) / (x.sum() - x))
        off = (without - without.mean()) * np.sqrt((len(y) - 1) / len(y))
        for name, each in zip(side.index, off, strict=True):
            moved[name] += sign * each
    return float(np.sqrt(sum(each**2 for each in moved.values()))), len(held[0]), len(held[1])


def _told(asked: Asked) -> Iterator[tuple[Groups, pd.DataFrame]]:
    """Findings whose clusters have the wider error, each with the rows of its clusters."""
    by_ground = asked.tallies.rename(columns={"ground": "cluster"})
    for finding in asked.groups:
        cluster = finding.effect.cluster if finding.effect else None
        if cluster and cluster.wider:
            table = by_ground if cluster.of == "ground" else asked.clusters
            mine = (table["beat"] == finding.beat) & (table["measure"] == finding.measure)
            yield finding, table[mine & (table["cell"] == finding.cell)]


def test_the_error_that_is_told_is_made_again_by_hand(asked: Asked):
    made = set()
    for finding, rows in _told(asked):
        error, a, b = _by_hand(rows, finding.sides)
        assert finding.told.se_log == pytest.approx(error), finding.id
        assert (finding.told.cluster.a, finding.told.cluster.b) == (a, b)
        made.add(finding.told.cluster.of)
    assert {"batter", "bowler"} <= made


def test_each_cut_is_held_against_what_its_groups_are_made_of(asked: Asked):
    for finding in asked.groups:
        wanted = OF.get(finding.beat)
        if finding.beat == "innings":
            wanted = None  # a batter's innings are not added up: theirs is no sum of his
        cluster = finding.effect.cluster if finding.effect else None
        assert (cluster.of if cluster else None) in (wanted, None)
        if wanted and finding.effect:
            assert cluster is not None, finding.id


def test_groups_of_too_few_are_refused(asked: Asked):
    """The league has two grounds on the coast, and one inland."""
    coast = [one for one in asked.groups if one.beat == "coast"]
    assert coast and {one.refused for one in coast} == {"few_clusters"}
    assert all(one.effect is None and one.because == "refused" for one in coast)


def test_what_clusters_have_in_common_does_not_add_up():
    assert adds_up("batter", "runs_batter", "faced")
    assert not adds_up("batter", "six", "innings") and adds_up("side", "six", "innings")
    assert not adds_up("side", "won", "decided") and adds_up("ground", "runs_total", "matches")


def test_every_level_is_made_of_something():
    assert set(LEVELS.values()) == {*OF_BALLS, "ground"}
