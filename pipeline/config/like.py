"""A topic that is like another: its file laid over the other's, each part with its own place.

Sections that are mappings (data, event, said, called, lists) are laid over key by key; everything
else that stands in the file replaces the other's as a whole. A null takes the other's away.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any, NamedTuple

from pipeline.config.topic_names import SUFFIX, topic_names, wrong_name
from pipeline.config.yaml_files import Document, read_yaml
from pipeline.config.yaml_tree import Map
from pipeline.errors import Problem, UserError, did_you_mean

LIKE, TITLE = "like", "title"
MOST = 2  # topics that one can be like, one through the other


class TopicRead(NamedTuple):
    """A topic's settings, as if all of them stood in one file.

    `like` are the names of the topics that it is like, the nearest first; `wrong` what of its own
    file does not go with theirs.
    """

    document: Document
    like: tuple[str, ...]
    wrong: list[Problem]


def read_topic(path: Path) -> TopicRead:
    """A topic's file and those that it is like. Raises UserError where one of them can't be read,
    or no topic has the name, or they make a circle or more than `MOST`.
    """
    chain = _chain(path)
    wrong = list(_wrong_title(chain))
    *nearer, document = chain
    for own in reversed(nearer):
        tree = _laid_over(own, document, wrong)
        document = Document(own.file, tree)
    return TopicRead(document, tuple(Path(other.file).stem for other in chain[1:]), wrong)


def asked_by(problem: Problem, topic: str) -> Problem:
    """A problem in a file that may be right by itself: it says which topic made it one."""
    return replace(problem, message=f"{problem.message} (read for '{topic}', which is like it)")


def each_once(wrong: dict[str, list[Problem]], files: dict[str, str]) -> Iterator[Problem]:
    """What is wrong with topics, by topic, given their files: a mistake that is others' too is one.

    What is none in the file where it stands says which topic made it one.
    """
    own = {
        problem for name, found in wrong.items() for problem in found if files[name] == problem.file
    }
    for name, found in wrong.items():
        for problem in found:
            if problem.file == files[name]:
                yield problem
            elif problem not in own:
                yield asked_by(problem, name)


def _chain(path: Path) -> list[Document]:
    """The topic's file, then the one that it is like, and so on."""
    chain, names = [read_yaml(path)], [path.stem]
    while (name := _named(chain[-1], path.parent)) is not None:
        told = f"'{names[-1]}' is like '{name}'"
        if name in names:
            message = f"a circle, since {told}; leave out one 'like'"
            raise UserError(chain[0].problem((LIKE,), message))
        if len(names) > MOST:
            message = f"too long a row, since {told}; a topic can be like one that is like a third"
            raise UserError(chain[0].problem((LIKE,), f"{message}, and no more"))
        names.append(name)
        chain.append(read_yaml(path.with_name(f"{name}{SUFFIX}")))
    return chain


def _named(document: Document, folder: Path) -> str | None:
    """The topic that a file is like, if any."""
    name = document.tree.get(LIKE)
    if name is None:
        return None
    if not isinstance(name, str):
        message = "expected the name of another topic's file, without its ending"
        raise UserError(document.problem((LIKE,), message))
    if wrong := wrong_name(name):
        raise UserError(document.problem((LIKE,), f"'{name}' is no topic: {wrong}"))
    there = [other for other in topic_names(folder) if other != Path(document.file).stem]
    if name not in there and name != Path(document.file).stem:
        raise UserError(document.problem((LIKE,), f"no topic '{name}'{did_you_mean(name, there)}"))
    return name


def _wrong_title(chain: list[Document]) -> Iterator[Problem]:
    """Two briefs of one title could not be told apart."""
    own, *others = chain
    title = own.tree.get(TITLE)
    if others and title is None:
        message = "a topic that is like another needs a title of its own; add 'title'"
        yield own.problem((TITLE,) if TITLE in own.tree else (LIKE,), message)
    for other in others:
        if title is not None and heard(title) == heard(other.tree.get(TITLE)):
            message = f"'{Path(other.file).stem}' has this title too; give this topic another"
            yield own.problem((TITLE,), message)
            return


def heard(title: Any) -> str:
    """A title as it is told apart from others."""
    return " ".join(str(title).split()).casefold()


def _laid_over(own: Document, other: Document, wrong: list[Problem]) -> Map:
    """The other's tree with this one's over it; what takes nothing away is told as wrong.

    A title that is missing is told already, so the other's stands in for it.
    """
    upper, lower = _without(own.tree, *_untitled(own.tree)), _without(other.tree, LIKE)
    made = _over(_Layers(own, (), upper, lower, other.file), wrong)
    for key, section in upper.items():
        there = lower.get(key)
        if isinstance(section, Map) and isinstance(there, Map):
            file = lower.elsewhere.get(key, other.file)
            made[key] = _over(_Layers(own, (key,), section, there, file), wrong)
    return made


def _untitled(tree: Map) -> list[str]:
    return [TITLE] if tree.get(TITLE) is None else []


class _Layers(NamedTuple):
    """A section of a file, at `place`, and the one below it, which stands in `file`."""

    own: Document
    place: tuple[str, ...]
    upper: Map
    lower: Map
    file: str


def _over(layers: _Layers, wrong: list[Problem]) -> Map:
    """Both sections' keys in the order of the lower one; where both have one, the upper one's."""
    made = Map()
    upper, lower = layers.upper, layers.lower
    for key in dict.fromkeys([*lower, *upper]):
        if key not in upper:
            _put(made, key, lower)
            made.elsewhere.setdefault(key, layers.file)
        elif upper[key] is not None:
            _put(made, key, upper)
        elif key not in lower:
            message = f"takes nothing away, since '{Path(layers.file).stem}' has none; leave it out"
            wrong.append(layers.own.problem((*layers.place, key), message, key=True))
    return made


def _without(section: Map, *left_out: str) -> Map:
    made = Map()
    for key in section:
        if key not in left_out:
            _put(made, key, section)
    return made


def _put(made: Map, key: str, source: Map) -> None:
    """A key with its value and its places."""
    made[key] = source[key]
    made.keys_at[key], made.values_at[key] = source.keys_at[key], source.values_at[key]
    if key in source.elsewhere:
        made.elsewhere[key] = source.elsewhere[key]
