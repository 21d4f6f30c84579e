"""The answer in one breath as sentences, each in its first form."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from pipeline.config.project import Format
from pipeline.config.topic import Expectation
from pipeline.wording.answer import answer_lines, no_event


def answer(
    headlines: Sequence[Any],
    form: Format,
    event_of: Any = no_event,
    expected: Sequence[Expectation] = (),
) -> list[str]:
    return [line.text for line in answer_lines(headlines, form, event_of, expected)]
