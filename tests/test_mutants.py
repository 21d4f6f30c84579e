"""What the campaign of small faults found: all modules tried, and no survivor unexplained."""

from __future__ import annotations

import pytest

from tests.conftest import ROOT
from tests.mutants.results import Result, explained, read
from tests.mutants.rooms import files_of_tests, modules

MOST = 0.1  # of all mutants may survive
# Modules that are younger than the last campaign: the next `make mutants` tries them.
UNTRIED = {
    f"{room}/{name}.py"
    for room, names in {
        "metrics": "cluster_sums composition matches neither period_list window_sql",
        "significance": (
            "asked_again asking carried composition earlier held_still influence innings "
            "level moved_windows own_matches parallel rivals step_tests told_scale ways "
            "yardstick"
        ),
        "significance/methods": (
            "alike_periods autocorrelation bends clusters few_clusters like_for_like "
            "neighbours quasi_poisson weighted yardstick"
        ),
        "clean": (
            "assemble copies_by_ball gazetteer grounds_alike merge merges missing named opened "
            "people quality quality_page raw_tables regions sheets style_arms "
            "style_parts style_words to_fill unread"
        ),
        "ingest/ball_tables": "page",
        "ingest": (
            "batch chunk chunks columns csv_by_line databases duckdb_rows from_json "
            "from_rows info_csv json_facts large_csv limits match_blocks match_json "
            "member_sizes members mistakes number_cells order other_forms "
            "plain_csv progress read row_beside row_facts row_forms row_names row_order "
            "row_people row_repeats row_spool "
            "row_tables rows_aside select_only source_report sqlite_rows text_blocks "
            "text_checks text_csv text_dates text_parquet text_reader"
        ),
    }.items()
    for name in names.split()
}


@pytest.fixture(scope="module")
def results() -> list[Result]:
    return read()


def test_every_module_of_the_rooms_was_tried(results: list[Result]):
    """Those that are named as untried are, and are there; a pattern without one is an error."""
    tried, every = [one.module for one in results], modules(ROOT / "pipeline")
    assert tried == [module for module in every if module not in UNTRIED]
    assert set(every) >= UNTRIED
    assert files_of_tests(ROOT / "tests")


def test_nearly_every_mutant_is_seen_by_a_test(results: list[Result]):
    assert all(one.killed + len(one.survivors) == one.mutants for one in results)
    survivors = sum(len(one.survivors) for one in results)
    assert survivors <= MOST * sum(one.mutants for one in results)


def test_every_survivor_and_nothing_else_is_explained(results: list[Result]):
    why = explained()
    assert set(why) == {name for one in results for name in one.survivors}
    assert all(why.values())
