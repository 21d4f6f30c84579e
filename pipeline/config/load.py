"""The whole configuration, read once, checked at once."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from pipeline.config.check import check_topic, names_for
from pipeline.config.project import (
    Format,
    FormatFile,
    Measure,
    MeasureFile,
    Project,
    Source,
    Sources,
)
from pipeline.config.read import Document, Model, read_yaml, validate
from pipeline.config.topic import Topic
from pipeline.errors import Problem, UserError, did_you_mean

DEFAULT = Path("config")


@dataclass(frozen=True)
class Config:
    """Everything in config/, valid as a whole."""

    folder: Path
    project: Project
    sources: dict[str, Source]
    measures: dict[str, Measure]
    formats: dict[str, Format]
    topics: dict[str, Topic]

    def topic_file(self, name: str) -> Path:
        return self.folder / "topics" / f"{name}.yaml"

    def topic(self, name: str) -> Topic:
        """A topic by its file's name."""
        if name not in self.topics:
            hint = did_you_mean(name, self.topics)
            raise UserError(Problem(str(self.folder / "topics"), f"no topic '{name}'{hint}"))
        return self.topics[name]


def load(folder: Path | str = DEFAULT, only: str | None = None) -> Config:
    """Read and check config/ (or one topic of it); raises UserError with every problem at once."""
    folder = Path(folder)
    problems: list[Problem] = []

    def part(name: str, model: type[Model]) -> Model | None:
        document = _parsed(folder / name, problems)
        if document is None:
            return None
        value, wrong = validate(document, model)
        problems.extend(wrong)
        return value

    project = part("project.yaml", Project)
    sources = part("sources.yaml", Sources)
    measures = part("measures.yaml", MeasureFile)
    formats = part("formats.yaml", FormatFile)
    names = _topic_names(folder, project, only, problems)
    topics: dict[str, Topic] = {}
    for name in names:
        document = _parsed(folder / "topics" / f"{name}.yaml", problems)
        if document is None:
            continue
        if not (measures and formats and sources):
            continue
        ids = [source.id for source in sources.sources]
        context = names_for(document, measures.measures, formats.formats, ids)
        topic, wrong = validate(document, Topic, context)
        problems += sorted([*wrong, *check_topic(document)])
        if topic is not None:
            topics[name] = topic
    if sources:
        problems += _check_sources(folder, sources)
    if problems or not (project and sources and measures and formats):
        raise UserError(problems)
    by_id = {source.id: source for source in sources.sources}
    return Config(folder, project, by_id, measures.measures, formats.formats, topics)


def _parsed(path: Path, problems: list[Problem]) -> Document | None:
    try:
        return read_yaml(path)
    except UserError as error:
        problems.extend(error.problems)
        return None


def _topic_names(
    folder: Path, project: Project | None, only: str | None, problems: list[Problem]
) -> list[str]:
    there = sorted(path.stem for path in (folder / "topics").glob("*.yaml"))
    chosen = there if project is None or project.topics == "all" else project.topics
    chosen = [only] if only else list(chosen)
    for name in chosen:
        if name not in there:
            hint = did_you_mean(name, there)
            problems.append(Problem(str(folder / "topics"), f"no topic '{name}'{hint}"))
    if not there:
        problems.append(Problem(str(folder / "topics"), "no topic file (*.yaml) here; write one"))
    return [name for name in chosen if name in there]


def _check_sources(folder: Path, sources: Sources) -> list[Problem]:
    """Ids are unique and the paths exist."""
    found = []
    seen: set[str] = set()
    for source in sources.sources:
        file = str(folder / "sources.yaml")
        if source.id in seen:
            found.append(Problem(file, f"two sources have the id '{source.id}'"))
        seen.add(source.id)
        if not Path(source.path).exists():
            found.append(Problem(file, f"source '{source.id}': no file or folder '{source.path}'"))
    return found
