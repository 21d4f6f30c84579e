"""config/README.md: every key of every configuration file, as tables made from the models.

The models are the only place where a key, its type, its default and its meaning are written down;
what people read is made from them, so that the two can't disagree.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from pipeline.config.corrections_page import CORRECTIONS
from pipeline.config.cuts import CUTS, DIVIDING
from pipeline.config.glossary import Glossary, Term
from pipeline.config.in_words import coded, default, holds
from pipeline.config.kinds import MODELS
from pipeline.config.kinds.base import AnyKind, Beat, Control, kind_of
from pipeline.config.kinds.share import SHARED_OUT
from pipeline.config.like import TITLE
from pipeline.config.measure import Measure
from pipeline.config.project import (
    Archive,
    Format,
    FormatFile,
    MeasureFile,
    Phase,
    Project,
    Source,
    Sources,
    Statistics,
)
from pipeline.config.script_page import SCRIPT
from pipeline.config.selection import Selection
from pipeline.config.sums import DECLARABLE
from pipeline.config.sums import LARGEST as LARGEST_MULTIPLE
from pipeline.config.sums import LONGEST as LONGEST_SUM
from pipeline.config.theme import Fonts, Palette, Plate, Theme
from pipeline.config.topic import (
    Background,
    Cited,
    Data,
    Event,
    Expectation,
    OtherEvent,
    Sponsor,
    Topic,
)
from pipeline.config.written import Written
from pipeline.config.yaml_nodes import DEEPEST, MOST
from pipeline.config.yaml_text import LARGEST
from pipeline.config.yaml_tree import LONGEST, LONGEST_NUMBER

Model = type[BaseModel]
# Keys that stand in the table of all beats; a kind's own table has the others.
COMMON = {**AnyKind.model_fields, **Beat.model_fields}

HEAD = f"""# Settings

Every key of every file in this folder. Made from the models in `pipeline/config/` by `make schema`:
change a key's meaning there, not here. A **name** has small letters, digits, `-` and `_`, and
begins with a letter; **text** is one line. A key that is no key of its section is an error, with
its line.

What a file may be, and what is refused with its line:

- a file of UTF-8 text of at most {LARGEST:,} bytes, with no characters that can't be seen;
- at most {MOST:,} values, with all that aliases (`*name`, `<<: *name`) unfold to;
- at most {DEEPEST} levels;
- a text of at most {LONGEST:,} characters, a number of at most {LONGEST_NUMBER};
- a sum of columns of at most {LONGEST_SUM} characters, its multiples 1 to {LARGEST_MULTIPLE:,};
- one document, with no tags (`!!int`) and no directives (`%YAML`): no setting needs them.

`ledger/<topic>.csv` is no setting: `make brief` adds a line for each comparison that is new as a
headline or an expectation of the topic, and headlines count with those of earlier builds. Keep it
with the settings; delete it to begin anew, but never edit it: that is an error, with its line.
"""


TOPICS = f"""One file an episode: a question and the beats to answer it.

A topic that asks again what another asked has `like: NAME` and only what differs; the rest is the
other's.

- `data`, `event`, `lists`, `said` and `called` are laid over key by key: `event: {{name: the
  rain}}` keeps the other's date and windows. What such a key holds is replaced as a whole (a
  control, a list).
- Everything else (`beats`, `headlines`, `expected`, `also`, ...) replaces the other's as a whole.
- A key set to `null` takes the other's away; one that takes nothing away is an error.
- `{TITLE}` must be given anew. Ids of beats, and so of findings, stay the same.
- The other may itself be like a third one, and the third like none; a circle is an error.

A mistake has the file and line where it stands, in whichever file that is."""


WRITTEN = """How a foreign table writes its cells, where it is not as ours are written.

`python -m pipeline look FILE` proposes all of it. Two of our names are for what other tables do
otherwise, in `columns`:

- `extra_kind` with `extras`: runs of one kind a row, in place of `wides`, `noballs`, `byes`,
  `legbyes` and `penalty`, which are also its words;
- `delivery`: number of the ball, in its over or in all. A ball that a join tells once for each
  dismissal on it is one ball then; any other that stands twice, or out of order, is an error."""


@dataclass(frozen=True)
class Section:
    """A heading and the model under it; the model's own first line is the sentence unless given."""

    level: int
    heading: str
    model: Model
    sentence: str = ""

    @property
    def link(self) -> str:
        """The heading's anchor, as it is made by what shows Markdown on the web."""
        kept = re.sub(r"[^\w\- ]", "", self.heading.lower())
        return f"[{self.heading}](#{kept.replace(' ', '-')})"

    @property
    def says(self) -> str:
        return self.sentence or (self.model.__doc__ or "").strip().splitlines()[0]


SECTIONS = (
    Section(2, "project.yaml", Project),
    Section(3, "statistics", Statistics),
    Section(3, "archive", Archive),
    Section(
        2,
        "sources.yaml",
        Sources,
        "Where the match files are, and whose. The layout of our own is in "
        "[BALL-TABLES.md](BALL-TABLES.md).",
    ),
    Section(3, "sources", Source),
    Section(3, "written", Written, WRITTEN),
    Section(2, "measures.yaml", MeasureFile, "What can be asked of the balls."),
    Section(
        3,
        "measures",
        Measure,
        f"A ratio of two sums over balls. Columns that can be summed: {coded(DECLARABLE)}.",
    ),
    Section(2, "formats.yaml", FormatFile, "Forms of the game, and their phases."),
    Section(3, "formats", Format),
    Section(3, "phases", Phase, "A part of the innings, by overs."),
    Section(2, "theme.yaml", Theme, "Colours, fonts and lines of every chart."),
    Section(3, "light, dark", Palette, "Six colours each; text needs 4.5 to 1 on its ground."),
    Section(3, "plate", Plate),
    Section(3, "fonts", Fonts),
    Section(
        2,
        "glossary.yaml",
        Glossary,
        "Words of the trade in a viewer’s language; a brief prints those that it says. The file "
        "need not be there.",
    ),
    Section(3, "terms", Term),
    Section(2, "topics/*.yaml", Topic, TOPICS),
    Section(3, "data", Data, "Which matches; every key narrows them."),
    Section(3, "event", Event),
    Section(3, "control", Control),
    Section(3, "also", OtherEvent, "Something else that happened."),
    Section(3, "expected", Expectation),
    Section(3, "background", Background),
    Section(3, "see_also", Cited),
    Section(3, "sponsor", Sponsor),
    Section(3, "where", Selection),
    Section(3, "beats", AnyKind, "What every beat has; each kind adds keys of its own, below."),
    *(Section(4, f"kind: {kind_of(model)}", model) for model in MODELS),
)
LINKS = {section.model.__name__: section.link for section in SECTIONS}
CUTS_SENTENCE = (
    f"`by` and `between` divide by one of {coded(DIVIDING)}; `of` by one of {coded(SHARED_OUT)}."
)


def page() -> str:
    """The whole of config/README.md."""
    parts = [HEAD, *(_section(section) for section in SECTIONS), SCRIPT, CORRECTIONS]
    return "\n".join(parts).rstrip() + "\n"


def _section(section: Section) -> str:
    """A heading, its sentence, its table."""
    lines = [f"{'#' * section.level} {section.heading}", "", section.says]
    if section.model is AnyKind:
        lines[-1] += f" {CUTS_SENTENCE}"
    rows = list(_rows(section.model))
    if rows:
        lines += ["", "| key | holds | default | meaning |", "| --- | --- | --- | --- |", *rows]
    return "\n".join([*lines, ""])


def _rows(model: Model) -> Iterator[str]:
    if model is AnyKind:
        yield from _common_rows()
        return
    for name, field in model.model_fields.items():
        if model not in MODELS or name not in {*COMMON, "kind"}:
            yield _row(
                f"`{name}`", _held(model, name, field), default(field), field.description or ""
            )


def _common_rows() -> Iterator[str]:
    """Keys of all beats; one that a kind lacks says so."""
    kinds = {kind_of(model): model for model in MODELS}
    yield _row("`kind`", f"one of {coded(kinds)}", "needed", "what the beat asks")
    for name, field in COMMON.items():
        lacking = [kind for kind, model in kinds.items() if name not in model.model_fields]
        but = f" (not in {coded(lacking)})" if lacking else ""
        meaning = (field.description or "") + but
        yield _row(f"`{name}`", holds(field, LINKS), default(field), meaning)


def _held(model: Model, name: str, field: FieldInfo) -> str:
    """What a key holds; a filter's closed set of values is the cut's."""
    values = CUTS[name].values if model is Selection and name in CUTS else ()
    return f"one or more of {coded(values)}" if values else holds(field, LINKS)


def _row(*cells: Any) -> str:
    """A line of a Markdown table; a bar inside a cell would end it."""
    return "| " + " | ".join(str(cell).replace("|", "\\|") for cell in cells) + " |"
