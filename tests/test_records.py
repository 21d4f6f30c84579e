"""Records beside the outputs: what is up to date is known from them alone, and why what is not."""

from __future__ import annotations

import shutil
from argparse import Namespace
from pathlib import Path

import pytest

from pipeline.contracts.files import read_json
from pipeline.contracts.made import Failure, Record
from pipeline.errors import Problem, UserError
from pipeline.hashes import file_hash
from pipeline.records.places import failure_of, record_of
from pipeline.records.recording import recording
from pipeline.records.state import damaged, forget, of_topic, stale
from pipeline.records.steps import Step
from tests.editions import recorded


@pytest.fixture()
def steps(tmp_path: Path) -> list[Step]:
    """Two steps, the second of which reads what the first wrote; both made, both recorded."""
    out = tmp_path / "output"
    table, page = out / "data" / "matches.parquet", out / "sea" / "brief.html"
    for path, text in ((table, "rows"), (page, "words")):
        path.parent.mkdir(parents=True)
        path.write_text(text, "utf-8")
    made = [
        Step("clean", "", "c1", [], [str(table)], str(record_of("clean", out / "data"))),
        Step("brief", "sea", "b1", [str(table)], [str(page)], str(record_of("brief", out / "sea"))),
    ]
    for step in made:
        recorded(step, out)
    return made


def out_of(steps: list[Step]) -> Path:
    return Path(steps[0].record).parents[2]


def because(steps: list[Step]) -> list[str]:
    return [each.because for each in stale(steps, out_of(steps))]


def test_what_was_recorded_is_up_to_date_wherever_it_lies(steps: list[Step], tmp_path: Path):
    assert because(steps) == []
    moved = tmp_path / "elsewhere"
    shutil.copytree(out_of(steps), moved / "output")
    there = [
        step._replace(
            reads=[path.replace(str(tmp_path), str(moved)) for path in step.reads],
            writes=[path.replace(str(tmp_path), str(moved)) for path in step.writes],
            record=step.record.replace(str(tmp_path), str(moved)),
        )
        for step in steps
    ]
    assert because(there) == []


def test_a_record_holds_the_hashes_of_what_was_read_and_written(steps: list[Step]):
    record = read_json(Path(steps[1].record), Record)
    table, page = steps[0].writes[0], steps[1].writes[0]
    assert (record.stage, record.seen) == ("brief", "b1")
    assert record.read == {"data/matches.parquet": file_hash(table)}
    assert record.wrote == {"sea/brief.html": file_hash(page)}


def test_other_settings_make_stale_but_nothing_is_damaged(steps: list[Step]):
    changed = [steps[0], steps[1]._replace(seen="b2")]
    assert because(changed) == [
        "brief of sea: its settings, its code or its input files have changed"
    ]
    assert damaged(changed, out_of(steps)) == []


def test_a_file_that_was_edited_cut_or_removed_is_named_with_the_step_that_made_it(
    steps: list[Step],
):
    page = Path(steps[1].writes[0])
    page.write_text("other words", "utf-8")
    (found,) = damaged(steps, out_of(steps))
    assert (found.step, found.file) == (steps[1], "sea/brief.html")
    assert found.because == "brief of sea: sea/brief.html is not as it was written"
    page.unlink()
    assert because(steps) == [f"brief of sea: {page} is gone"]


def test_what_was_read_and_has_changed_since_is_told_of_both_steps(steps: list[Step]):
    Path(steps[0].writes[0]).write_text("fewer", "utf-8")
    assert because(steps) == [
        "clean: data/matches.parquet is not as it was written",
        "brief of sea: data/matches.parquet has changed since",
    ]
    recorded(steps[0], out_of(steps))  # made again: only what read the old one is stale
    assert because(steps) == ["brief of sea: data/matches.parquet has changed since"]


def test_the_first_reason_of_a_topic_may_be_that_of_the_data(steps: list[Step]):
    Path(steps[0].writes[0]).write_text("fewer", "utf-8")
    found = stale(steps, out_of(steps))
    first = of_topic(found, "sea")
    assert first and first.step.stage == "clean"
    assert of_topic(stale(steps[1:], out_of(steps)), "land") is None


@pytest.mark.parametrize("text", ["", "{", "[1]", '{"format": 99}', '{"format": 2, "stage": 3}'])
def test_a_record_that_can_not_be_read_counts_for_none(steps: list[Step], text: str):
    Path(steps[1].record).write_text(text, "utf-8")
    assert because(steps) == ["brief of sea: it has not run to its end since something changed"]
    Path(steps[1].writes[0]).unlink()
    assert because(steps) == ["brief of sea: not made yet"]


def test_what_no_longer_holds_is_forgotten_so_that_it_is_made_again(steps: list[Step]):
    changed = [steps[0], steps[1]._replace(seen="b2")]
    assert [each.step.stage for each in forget(changed, out_of(steps))] == ["brief"]
    assert Path(steps[0].record).is_file() and not Path(steps[1].record).exists()
    assert forget(steps[:1], out_of(steps)) == []


def options(step: Step) -> Namespace:
    paths = {"reads": [Path(p) for p in step.reads], "writes": [Path(p) for p in step.writes]}
    out = Path(step.record).parents[2]
    return Namespace(record=Path(step.record), seen=step.seen, outputs=out, **paths)


def test_a_stage_that_fails_leaves_no_record_but_what_it_said(steps: list[Step]):
    brief = steps[1]
    problems = [Problem("sea.yaml", f"mistake {at}", at) for at in range(1, 9)]
    with pytest.raises(UserError), recording("brief", options(brief)):
        raise UserError(problems)
    assert not Path(brief.record).exists()
    failure = read_json(failure_of(Path(brief.record)), Failure)
    assert failure.problems[0] == "sea.yaml:1:1: mistake 1" and len(failure.problems) == 5
    assert because(steps) == ["brief of sea: it failed: sea.yaml:1:1: mistake 1"]
    (found,) = damaged(steps, out_of(steps))
    assert found.failed and found.file is None


def test_what_a_stage_said_of_other_settings_is_no_reason_any_more(steps: list[Step]):
    brief = steps[1]
    with pytest.raises(UserError), recording("brief", options(brief)):
        raise UserError(Problem("sea.yaml", "a mistake"))
    mended = [steps[0], brief._replace(seen="b2")]
    assert because(mended) == ["brief of sea: it has not run to its end since something changed"]


def test_what_a_failed_stage_said_is_gone_when_it_ends_well(steps: list[Step]):
    brief = steps[1]
    with pytest.raises(UserError), recording("brief", options(brief)):
        raise UserError(Problem("sea.yaml", "a mistake"))
    with recording("brief", options(brief)):
        pass
    assert because(steps) == [] and not failure_of(Path(brief.record)).exists()


def test_an_input_that_is_replaced_while_a_stage_works_makes_it_stale(steps: list[Step]):
    with recording("brief", options(steps[1])):
        Path(steps[0].writes[0]).write_text("new rows", "utf-8")
    recorded(steps[0], out_of(steps))
    assert because(steps) == ["brief of sea: data/matches.parquet has changed since"]


def test_a_stage_run_by_hand_leaves_no_record(steps: list[Step]):
    Path(steps[1].record).unlink()
    by_hand = Namespace(**{**vars(options(steps[1])), "record": None})
    with recording("brief", by_hand):
        pass
    assert not Path(steps[1].record).exists()
