"""Line and column of what a stage finds wrong with a topic, from the topic's file.

A stage knows the place by its name alone: were lines a part of what it is given, a comment added to
a topic would make everything anew. So the file is read again, and only when there is a problem.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from pipeline.config.topic_names import FOLDER
from pipeline.errors import Problem, UserError
from pipeline.topic_places import place_of


@contextmanager
def placed() -> Iterator[None]:
    """Problems raised inside that name a part of a YAML file are given its line and column."""
    try:
        yield
    except UserError as error:
        raise UserError(located(problem) for problem in error.problems) from None


def located(problem: Problem) -> Problem:
    """The same with line and column; as it is where its file says nothing of the place.

    What stands in the file of a topic that this one is like is told there.
    """
    # A mistake is rare, the readers are not small.
    from pipeline.config.like import asked_by, read_topic
    from pipeline.config.yaml_files import read_yaml

    path = Path(problem.file)
    if not problem.where or problem.line is not None or path.suffix != ".yaml":
        return problem
    try:
        of_topic = path.parent.name == FOLDER
        document = read_topic(path).document if of_topic else read_yaml(path)
    except UserError:  # changed meanwhile: its own mistakes are told at the next run
        return problem
    found = document.problem(document.standing(place_of(problem.where)), problem.message)
    return found if found.file == problem.file else asked_by(found, path.stem)
