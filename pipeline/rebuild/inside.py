"""Every path that an edition's configuration names stays inside it, or is refused unread."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from pydantic import BaseModel

from pipeline.archive.inputs import SHEETS
from pipeline.config.project import Project, Sources
from pipeline.config.theme import Theme
from pipeline.config.yaml_files import Document, read_yaml, validate
from pipeline.errors import Problem, UserError
from pipeline.verify.manifests import climbs

Named = Iterator[tuple[tuple[str | int, ...], str | None]]  # a setting, and the path it names


def check_inside(config: Path) -> None:
    """Raise UserError with every setting whose path leads out of the project.

    An edition may be anybody's: what a sheet holds is printed when it is none, so it must not be
    another file of this machine. Mistakes of other kinds are told when the configuration is read.
    """
    problems = [
        *_outside(config / "project.yaml", Project),
        *_outside(config / "sources.yaml", Sources),
        *_outside(config / "theme.yaml", Theme),
    ]
    if problems:
        raise UserError(problems)


def _outside(path: Path, model: type[BaseModel]) -> list[Problem]:
    document = read_yaml(path)
    settings, _ = validate(document, model)
    return [
        _problem(document, where, named)
        for where, named in _paths(settings)
        if named is not None and climbs(named)
    ]


def _problem(document: Document, where: tuple[str | int, ...], named: str) -> Problem:
    message = f"'{named}' leads out of the edition; not read"
    return document.problem(document.standing(where), message)


def _paths(settings: BaseModel | None) -> Named:
    match settings:
        case Project():
            yield from (((sheet,), getattr(settings, sheet)) for sheet in SHEETS)
        case Sources():
            yield from (
                (("sources", at, "path"), source.path) for at, source in enumerate(settings.sources)
            )
        case Theme():
            yield from (
                (("fonts", weight), path) for weight, path in settings.fonts.model_dump().items()
            )
            yield ("logo",), settings.logo
