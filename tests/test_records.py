"""Records beside the outputs: what is up to date is known from them alone, and why what is not."""

from __future__ import annotations

import shutil
from argparse import Namespace
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from pipeline.contracts.files import read_json
from pipeline.contracts.made import Record, Unmade
from pipeline.errors import Problem, UserError
from pipeline.hashes import file_hash, value_hash
from pipeline.records.places import record_of, unmade_of
from pipeline.records.recording import recording
from pipeline.records.state import damaged, forget, of_topic, stale
from pipeline.records.steps import Step
from tests.editions import recorded

UNKNOWN = "there is no record of its making, or it was ended from outside"


@pytest.fixture()
def steps(tmp_path: Path) -> list[Step]:
    """Two steps, the second of which reads what the first wrote; both made, both recorded."""
    out = tmp_path / "output"
    table, page = out / "data" / "matches.parquet", out / "sea" / "brief.html"
    for path, text in ((table, "rows"), (page, "words")):
        path.parent.mkdir(parents=True)
        path.write_text(text, "utf-8")
    made = [
        Step("clean", "", "c1", "", [], [str(table)], str(record_of("clean", out / "data"))),
        Step(
            "brief",
            "sea",
            "b1",
            "",
            [str(table)],
            [str(page)],
            str(record_of("brief", out / "sea")),
        ),
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
    assert (found.step, found.file) == (steps[1], str(page))
    assert found.because == f"brief of sea: {page} is not as it was written"
    page.unlink()
    assert because(steps) == [f"brief of sea: {page} is gone"]


def test_what_was_read_and_has_changed_since_is_told_of_both_steps(steps: list[Step]):
    table = Path(steps[0].writes[0])
    table.write_text("fewer", "utf-8")
    assert because(steps) == [
        f"clean: {table} is not as it was written",
        f"brief of sea: {table} has changed since",
    ]
    recorded(steps[0], out_of(steps))  # made again: only what read the old one is stale
    assert because(steps) == [f"brief of sea: {table} has changed since"]


def test_the_first_reason_of_a_topic_may_be_that_of_the_data(steps: list[Step]):
    Path(steps[0].writes[0]).write_text("fewer", "utf-8")
    found = stale(steps, out_of(steps))
    first = of_topic(found, "sea")
    assert first and first.step.stage == "clean"
    assert of_topic(stale(steps[1:], out_of(steps)), "land") is None


@pytest.mark.parametrize("text", ["", "{", "[1]", '{"format": 99}', '{"format": 2, "stage": 3}'])
def test_a_record_that_can_not_be_read_counts_for_none(steps: list[Step], text: str):
    Path(steps[1].record).write_text(text, "utf-8")
    assert because(steps) == [f"brief of sea: {UNKNOWN}"]
    Path(steps[1].writes[0]).unlink()
    assert because(steps) == ["brief of sea: not made yet"]


def test_what_no_longer_holds_is_forgotten_so_that_it_is_made_again(steps: list[Step]):
    changed = [steps[0], steps[1]._replace(seen="b2")]
    assert [each.step.stage for each in forget(changed, out_of(steps))] == ["brief"]
    assert Path(steps[0].record).is_file() and not Path(steps[1].record).exists()
    assert forget(steps[:1], out_of(steps)) == []


def options(step: Step, view: str = "") -> Namespace:
    out = Path(step.record).parents[2]
    return Namespace(record=Path(step.record), seen=step.seen, view=view, outputs=out)


@contextmanager
def at_work(step: Step) -> Iterator[None]:
    with recording(step.stage, options(step)) as made:
        made.begins(None, step.reads, step.writes, "")
        yield


def test_a_stage_that_fails_leaves_no_record_but_what_it_said(steps: list[Step]):
    brief = steps[1]
    problems = [Problem("sea.yaml", f"mistake {at}", at) for at in range(1, 9)]
    with pytest.raises(UserError), at_work(brief):
        raise UserError(problems)
    assert not Path(brief.record).exists()
    failure = read_json(unmade_of(Path(brief.record)), Unmade)
    assert failure.why[0] == "sea.yaml:1:1: mistake 1" and len(failure.why) == 5
    assert because(steps) == ["brief of sea: it failed: sea.yaml:1:1: mistake 1"]
    (found,) = damaged(steps, out_of(steps))
    assert found.failed and found.file is None


def test_what_a_stage_said_of_other_settings_is_no_reason_any_more(steps: list[Step]):
    brief = steps[1]
    with pytest.raises(UserError), at_work(brief):
        raise UserError(Problem("sea.yaml", "a mistake"))
    mended = [steps[0], brief._replace(seen="b2")]
    assert because(mended) == [f"brief of sea: {UNKNOWN}"]


def test_why_a_record_was_forgotten_is_told_until_the_step_is_made(steps: list[Step]):
    page = Path(steps[1].writes[0])
    page.write_text("other words", "utf-8")
    told = because(steps)
    forget(steps, out_of(steps))
    assert because(steps) == told == [f"brief of sea: {page} is not as it was written"]
    (found,) = damaged(steps, out_of(steps))
    assert not found.failed
    with at_work(steps[1]):
        pass
    assert because(steps) == []


def test_a_record_of_fewer_files_than_are_written_is_not_whole(steps: list[Step]):
    more = steps[1]._replace(writes=[*steps[1].writes, steps[0].writes[0]])
    assert because([more]) == ["brief of sea: it reads or writes other files now"]


def test_settings_that_are_saved_while_a_build_is_at_work_are_not_taken_for_the_old_ones(
    steps: list[Step],
):
    with (
        pytest.raises(UserError, match=r"sea\.yaml: was changed while the build was at work"),
        recording("brief", options(steps[1], view=value_hash({"title": "old"}))) as made,
    ):
        made.begins({"title": "new"}, [], [], "sea.yaml")
    assert not Path(steps[1].record).exists()


def test_of_settings_in_several_files_all_are_named(steps: list[Step]):
    said = (
        r"sea\.yaml: this file or air\.yaml or salt\.yaml was changed while the build was at work"
    )
    with (
        pytest.raises(UserError, match=said),
        recording("brief", options(steps[1], view=value_hash({"title": "old"}))) as made,
    ):
        made.begins({"title": "new"}, [], [], "sea.yaml", "air.yaml", "salt.yaml")
    assert not Path(steps[1].record).exists()


def test_mistakes_are_told_though_nothing_can_be_written(steps: list[Step], monkeypatch):
    def full(*_: object) -> None:
        raise OSError("no space")

    monkeypatch.setattr("pipeline.records.recording.write_atomically", full)
    with pytest.raises(UserError, match="a mistake"), at_work(steps[1]):
        raise UserError(Problem("sea.yaml", "a mistake"))


def test_what_a_failed_stage_said_is_gone_when_it_ends_well(steps: list[Step]):
    brief = steps[1]
    with pytest.raises(UserError), at_work(brief):
        raise UserError(Problem("sea.yaml", "a mistake"))
    with at_work(brief):
        pass
    assert because(steps) == [] and not unmade_of(Path(brief.record)).exists()


def test_an_input_that_is_replaced_while_a_stage_works_makes_it_stale(steps: list[Step]):
    with at_work(steps[1]):
        Path(steps[0].writes[0]).write_text("new rows", "utf-8")
    recorded(steps[0], out_of(steps))
    table = steps[0].writes[0]
    assert because(steps) == [f"brief of sea: {table} has changed since"]


def test_a_stage_run_by_hand_leaves_no_record(steps: list[Step]):
    Path(steps[1].record).unlink()
    by_hand = Namespace(**{**vars(options(steps[1])), "record": None})
    with recording("brief", by_hand):
        pass
    assert not Path(steps[1].record).exists()
