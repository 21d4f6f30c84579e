"""The voice file: for each outcome its forms, checked when it is read."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from pipeline.config.yaml_files import read_yaml
from pipeline.errors import UserError
from pipeline.text import capitalised
from pipeline.voice.as_written import written
from pipeline.voice.form_checks import problems_of

FOLDER = Path(__file__).parents[2] / "templates" / "voice"
LANGUAGE = "en-GB"
_SLOT = re.compile(r"(^|[.?!] )?\{(\w+)\}")


@dataclass(frozen=True, eq=False)
class Forms:
    """Every outcome's forms; the same only as itself."""

    of: Mapping[str, tuple[str, ...]]

    def count(self, outcome: str) -> int:
        return len(self.of[outcome])

    def put(self, outcome: str, at: int, slots: Mapping[str, str]) -> str:
        """One form, filled, with the capitals that its sentences' first letters need."""

        def filled(found: re.Match[str]) -> str:
            start, value = found[1], slots[found[2]]
            return value if start is None else f"{start}{capitalised(value)}"

        return capitalised(_SLOT.sub(filled, self.of[outcome][at]))


def read_voice(path: Path) -> Forms:
    """The forms of a voice file; UserError with the line of each mistake."""
    here = Path.cwd()
    document = read_yaml(path.relative_to(here) if path.is_relative_to(here) else path)
    if wrong := problems_of(document):
        raise UserError(wrong)
    return Forms({name: tuple(map(written, forms)) for name, forms in document.tree.items()})


def voice_file() -> Path:
    """Where the forms stand."""
    return FOLDER / f"{LANGUAGE}.yaml"


@cache
def voice() -> Forms:
    """The forms that the sentences of this run are put in."""
    return read_voice(voice_file())
