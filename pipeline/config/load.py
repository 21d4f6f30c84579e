"""The whole configuration, read once, checked at once."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from pathlib import Path

from pipeline.config.face_files import font_fault, picture_fault
from pipeline.config.glossary import Glossary, Term
from pipeline.config.like import each_once, read_topic
from pipeline.config.measure import Measure
from pipeline.config.outcomes import check_outcomes
from pipeline.config.placed import located
from pipeline.config.project import Format, FormatFile, MeasureFile, Project, Source, Sources
from pipeline.config.theme import Theme
from pipeline.config.topic import Topic
from pipeline.config.topic_checks import check_measures, check_topic, names_for
from pipeline.config.topic_ids import check_means, check_rows
from pipeline.config.topic_names import FOLDER, SUFFIX, topic_names, wrong_files, wrong_name
from pipeline.config.yaml_files import Document, Model, read_yaml, validate
from pipeline.errors import Problem, UserError, did_you_mean
from pipeline.topic_places import dotted

DEFAULT = Path("config")
GLOSSARY = "glossary.yaml"  # need not be there


@dataclass(frozen=True)
class Config:
    """What config/ declares for every topic; `topics` holds those that were read.

    `like` are the topics that each of these is like, by name, the nearest first.
    """

    folder: Path
    project: Project
    sources: dict[str, Source]
    measures: dict[str, Measure]
    formats: dict[str, Format]
    theme: Theme | None = None
    glossary: list[Term] = field(default_factory=list)
    topics: dict[str, Topic] = field(default_factory=dict)
    like: dict[str, tuple[str, ...]] = field(default_factory=dict)

    def topic_file(self, name: str) -> Path:
        return self.folder / FOLDER / f"{name}{SUFFIX}"

    def topic_files(self, name: str) -> list[Path]:
        """The file of a topic that was read, then those of the topics that it is like."""
        return [self.topic_file(each) for each in (name, *self.like.get(name, ()))]


def load_sources(folder: Path | str = DEFAULT) -> dict[str, Source]:
    """The sources alone, by their ids; raises UserError with every problem of their file."""
    problems: list[Problem] = []
    sources = _read_sources(Path(folder), problems)
    if problems or sources is None:
        raise UserError(problems)
    return sources


def load_project(folder: Path | str = DEFAULT) -> Config:
    """Everything but the topics; raises UserError with every problem at once."""
    config, problems = _read_project(Path(folder))
    if problems or config is None:
        raise UserError(problems)
    return config


def load(folder: Path | str = DEFAULT, only: str | None = None) -> Config:
    """The project and its topics (or one of them); raises UserError with every problem at once."""
    config, problems = _read_project(Path(folder))
    if config is None:
        raise UserError(problems)
    topics: dict[str, Topic] = {}
    like: dict[str, tuple[str, ...]] = {}
    wrong: dict[str, list[Problem]] = {}
    for name in _topic_names(config, only, problems):
        topic, like[name], wrong[name] = _read_topic(config, name)
        if topic is not None:
            topics[name] = topic
    problems += each_once(wrong, {name: str(config.topic_file(name)) for name in wrong})
    if problems:
        raise UserError(problems)
    return replace(config, topics=topics, like=like)


def _read_project(folder: Path) -> tuple[Config | None, list[Problem]]:
    problems: list[Problem] = []
    project = _read_part(folder / "project.yaml", Project, problems)
    sources = _read_sources(folder, problems)
    measures = _read_part(folder / "measures.yaml", MeasureFile, problems)
    formats = _read_part(folder / "formats.yaml", FormatFile, problems)
    theme = _read_part(folder / "theme.yaml", Theme, problems)
    if theme:
        problems += _check_theme(folder, theme)
    if not (project and sources and measures and formats and theme):
        return None, problems
    terms = _read_glossary(folder / GLOSSARY, problems)
    parts = (project, sources, measures.measures, formats.formats, theme, terms)
    return Config(folder, *parts), problems


def _read_glossary(path: Path, problems: list[Problem]) -> list[Term]:
    """Its terms; a project of before has no such file."""
    if not path.exists():
        return []
    glossary = _read_part(path, Glossary, problems)
    return glossary.terms if glossary else []


def _read_sources(folder: Path, problems: list[Problem]) -> dict[str, Source] | None:
    sources = _read_part(folder / "sources.yaml", Sources, problems)
    if sources is None:
        return None
    problems += _check_sources(folder, sources)
    return {source.id: source for source in sources.sources}


def _read_part(path: Path, model: type[Model], problems: list[Problem]) -> Model | None:
    document = _parsed(path, problems)
    if document is None:
        return None
    value, wrong = validate(document, model)
    problems += wrong
    return value


def _read_topic(config: Config, name: str) -> tuple[Topic | None, tuple[str, ...], list[Problem]]:
    """(the topic, those that it is like, what is wrong with it)."""
    try:
        document, like, wrong_together = read_topic(config.topic_file(name))
    except UserError as error:
        return None, (), error.problems
    context = names_for(document, config.measures, config.formats, list(config.sources))
    topic, wrong = validate(document, Topic, context)
    found = [*wrong_together, *wrong]
    found += check_topic(document, config.measures, config.formats)
    if topic is not None:
        found += check_measures(document, topic, config.measures)
        found += check_outcomes(document, topic, config.measures)
    if topic is not None and not found:
        found += check_rows(document, topic, config.formats[topic.data.format])
        found += check_means(document, topic)
    return topic, like, sorted(found)


def _parsed(path: Path, problems: list[Problem]) -> Document | None:
    try:
        return read_yaml(path)
    except UserError as error:
        problems.extend(error.problems)
        return None


def _topic_names(config: Config, only: str | None, problems: list[Problem]) -> list[str]:
    folder = config.folder / FOLDER
    there = topic_names(folder)
    listed = there if config.project.topics == "all" else config.project.topics
    chosen = list(listed) if only is None else [only]
    for name in chosen:
        if name not in there:
            problems.append(Problem(str(folder), f"no topic '{name}'{did_you_mean(name, there)}"))
    problems += wrong_files(folder, None if only is None and listed == there else chosen)
    if not there:
        problems.append(Problem(str(folder), "no topic file (*.yaml) here; write one"))
    return [name for name in chosen if name in there and not wrong_name(name)]


def _check_theme(folder: Path, theme: Theme) -> list[Problem]:
    """Fonts and the logo are there, and are fonts and a picture."""
    named = {f"fonts.{weight}": path for weight, path in theme.fonts.model_dump().items()}
    found = {where: _fault(path, font_fault) for where, path in named.items()}
    found["logo"] = _fault(theme.logo, picture_fault) if theme.logo else None
    return [
        located(Problem(str(folder / "theme.yaml"), message, where=where))
        for where, message in found.items()
        if message
    ]


def _fault(path: str, fault_of: Callable[[Path], str | None]) -> str | None:
    """What is wrong with a file that is named, if anything is."""
    if not os.path.isfile(path):  # also of a name that no system takes
        return f"no file '{path}'"
    fault = fault_of(Path(path))
    return f"'{path}': {fault}" if fault else None


def _check_sources(folder: Path, sources: Sources) -> list[Problem]:
    """Ids are unique and the paths exist."""
    found = []
    seen: set[str] = set()
    file = str(folder / "sources.yaml")
    for at, source in enumerate(sources.sources):
        if source.id in seen:
            message = f"two sources have the id '{source.id}'"
            found.append(Problem(file, message, where=dotted(("sources", at, "id"))))
        seen.add(source.id)
        # A pipe or a device would never end; a name may be one that no system takes.
        if not (os.path.isfile(source.path) or os.path.isdir(source.path)):
            message = f"source '{source.id}': no file or folder '{source.path}'{_fetched(source)}"
            found.append(Problem(file, message, where=dotted(("sources", at, "path"))))
    return [located(problem) for problem in found]


def _fetched(source: Source) -> str:
    """How the rows of a server come to be there."""
    how = f"; python -m pipeline fetch {source.id} asks the server for it"
    return how if source.connection_from else ""
