"""The voice file: for each outcome its forms, checked when it is read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from pipeline.config.yaml_files import read_yaml
from pipeline.errors import UserError
from pipeline.text import capitalised
from pipeline.voice.checks import problems_of

FOLDER = Path(__file__).parents[2] / "templates" / "voice"
LANGUAGE = "en-GB"


@dataclass(frozen=True)
class Forms:
    """Every outcome's forms."""

    of: Mapping[str, tuple[str, ...]]

    def count(self, outcome: str) -> int:
        return len(self.of[outcome])

    def put(self, outcome: str, at: int, slots: Mapping[str, str]) -> str:
        """One form, filled, with the capital that its first letter needs."""
        return capitalised(self.of[outcome][at].format_map(slots))


def read_voice(path: Path) -> Forms:
    """The forms of a voice file; UserError with the line of each mistake."""
    document = read_yaml(path)
    if wrong := problems_of(document):
        raise UserError(wrong)
    return Forms({name: tuple(forms) for name, forms in document.tree.items()})


@cache
def voice() -> Forms:
    """The forms that the sentences of this run are put in."""
    return read_voice(FOLDER / f"{LANGUAGE}.yaml")
