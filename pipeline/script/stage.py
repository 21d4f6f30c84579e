"""A topic's scripts and captions against its facts, before the brief, whose top sheet tells it."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from pipeline.contracts.editions import FromEditions
from pipeline.contracts.facts import Fact
from pipeline.contracts.files import as_json
from pipeline.contracts.script_check import ScriptChecks, ScriptState
from pipeline.errors import Problem, UserError, write_atomically
from pipeline.kept_script import said_files
from pipeline.script.check_page import check_page
from pipeline.script.file_checked import FileChecked, Judge, file_checked
from pipeline.script.held_against import by_facts
from pipeline.terminal import say
from pipeline.wording.script_checked import fails, state_of, state_said

if TYPE_CHECKING:
    from pipeline.config.views import BriefView


def write_check(
    view: BriefView,
    out: Path,
    archive: Path | None = None,
    others: FromEditions | None = None,
    tells: bool = True,
) -> FromEditions:
    """Check what stands beside the topic's file, from what is in `out`, and write it there.

    Nothing is made where there is no script and no captions. `archive` is where earlier editions
    are, beside the topic's folder unless it is given; `others` is what they said, where the check
    was made before. It is returned, so that it can be kept. Files that say the same stay as they
    are, with their times; `tells` is whether to print what is wrong and where. Raises UserError
    with the mistakes of every file.
    """
    files = said_files(view.file)
    if not files:
        return FromEditions()
    known = by_facts(view, out, archive or out.parent / "archive", others)
    checked = all_checked(files, view.topic, known.facts, known.judge)
    checks = [one.check for one in checked]
    state = ScriptState(topic=view.topic, files=[state_of(check) for check in checks])
    made = {
        "script-check.html": check_page(view, checked, known.facts),
        "script-check.json": as_json(ScriptChecks(topic=view.topic, checks=checks)),
        "script-state.json": as_json(state),
    }
    for name, text in made.items():
        _write_if_other(out / name, text)
    if tells and any(map(fails, checks)):
        page = out / "script-check.html"
        say(*(f"{view.topic}: {state_said(each)} ({page})" for each in state.files))
    return known.others


def _write_if_other(path: Path, text: str) -> None:
    content = text.encode("utf-8")
    if not path.is_file() or path.read_bytes() != content:
        write_atomically(path, content)


def all_checked(
    files: Sequence[Path], topic: str, facts: Sequence[Fact], judge: Judge
) -> list[FileChecked]:
    """The check of each file. Raises UserError with the mistakes of all that can't be read."""
    found: list[FileChecked] = []
    problems: list[Problem] = []
    for path in files:
        try:
            found.append(file_checked(path, topic, facts, judge))
        except UserError as error:
            problems += error.problems
    if problems:
        raise UserError(problems)
    return found
