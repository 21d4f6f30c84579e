"""Files of an edition, or of a topic that is built, as today's types whichever version wrote them.

`folder` is the edition's data/, or the topic's folder of outputs; `mend` what to do about a file
that can't be read.
"""

from __future__ import annotations

from pathlib import Path
from typing import TypeVar

from pydantic import BaseModel, ValidationError

from pipeline.contracts.base import Contract
from pipeline.contracts.editions import Around, Inputs, Merged
from pipeline.contracts.episode import Episode
from pipeline.contracts.facts import (
    ChartMade,
    Charts,
    Fact,
    Facts,
    Summary,
)
from pipeline.contracts.files import read_json
from pipeline.contracts.selection import Fix, Fixes
from pipeline.contracts.upgrades.editions import (
    around_of_format_0,
    fixes_of_format_0,
    inputs_of_format_0,
    merged_of_format_0,
)
from pipeline.contracts.upgrades.facts import (
    charts_of_format_0,
    facts_of_format_0,
    summary_of_format_0,
)
from pipeline.errors import Problem, UserError
from pipeline.slots.drafted import CLOSE, COLD_OPEN

Kind = TypeVar("Kind", bound=BaseModel)
VERIFY = "run python -m pipeline verify on the edition"
MAKE = "run make brief"


def read_facts(folder: Path, mend: str) -> list[Fact]:
    return read_json(folder / "facts.json", Facts, mend, facts_of_format_0).facts


def read_charts(folder: Path, mend: str) -> list[ChartMade]:
    return read_json(folder / "charts" / "charts.json", Charts, mend, charts_of_format_0).charts


def read_summary(folder: Path, mend: str) -> Summary:
    return read_json(folder / "summary.json", Summary, mend, summary_of_format_0)


def read_said(folder: Path, mend: str) -> dict[str, set[str]]:
    """Each line that is said, with the findings that it is of; none of an edition without one."""
    episode = read_episode(folder, mend)
    if episode is None:
        return {}
    beats = (line for beat in episode.beats for line in beat.lines)
    said: dict[str, set[str]] = {}
    for line in (*episode.cold_open, *episode.answer, *beats, *episode.close):
        said.setdefault(line.text, set()).update(line.findings)
    return said


def read_around_beats(folder: Path, mend: str) -> dict[str, list[str]]:
    """What is said before the answer and after the beats, by its heading in the script."""
    episode = read_episode(folder, mend)
    if episode is None:
        return {}
    around = {COLD_OPEN: episode.cold_open, CLOSE: episode.close}
    return {part: [line.text for line in lines] for part, lines in around.items()}


def read_episode(folder: Path, mend: str) -> Episode | None:
    """None of an edition of before there was one."""
    path = folder / "episode.json"
    return read_json(path, Episode, mend) if path.is_file() else None


def read_fixes(folder: Path, mend: str) -> list[Fix]:
    return read_json(folder / "corrections.json", Fixes, mend, fixes_of_format_0).corrections


def read_settings(folder: Path, mend: str) -> Merged:
    """With what was taken for granted before it could be set."""
    made = read_json(folder / "config" / "merged.json", Merged, mend, merged_of_format_0)
    for view in (made.significance, made.brief.get("project", {})):
        view.get("statistics", {}).setdefault("count_earlier_looks", True)
    return made


def read_view(folder: Path, kind: type[Kind], stage: str, mend: str) -> Kind:
    """What one stage saw of the configuration, as the view that it has today."""
    seen = getattr(read_settings(folder, mend), stage)
    try:
        return kind.model_validate(seen)
    except ValidationError as error:
        path = str(folder / "config" / "merged.json")
        raise UserError(
            Problem(
                path,
                f"{found['msg'].removeprefix('Value error, ')}; {mend}",
                where=".".join(map(str, (stage, *found["loc"]))),
            )
            for found in error.errors()
        ) from None


class _Family(Contract, forbid_unknown_fields=False):
    earlier: int = 0


class _Counted(Contract, forbid_unknown_fields=False):
    """Of findings.json what says how many earlier looks are counted."""

    family: _Family


def read_earlier(folder: Path, mend: str) -> int:
    """Looks of earlier builds that its headlines are counted with; before there was a ledger, 0.

    Of its findings that alone: to read all of them takes what asks the questions.
    """
    return read_json(folder / "findings.json", _Counted, mend, dict).family.earlier


def read_inputs(folder: Path, mend: str) -> Inputs:
    return read_json(folder / "inputs.json", Inputs, mend, inputs_of_format_0)


def read_around(folder: Path, mend: str) -> Around:
    return read_json(folder / "around.json", Around, mend, around_of_format_0)


def read_text(path: Path, mend: str) -> str:
    try:
        return path.read_text("utf-8")
    except OSError as error:
        raise UserError(Problem(str(path), f"can't be read ({error.strerror}); {mend}")) from None
    except UnicodeDecodeError as error:
        message = f"not UTF-8 text (byte {error.start}); {mend}"
        raise UserError(Problem(str(path), message)) from None
