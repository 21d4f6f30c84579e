"""A user's mistake is a list of problems, each with its place; it is printed, never a traceback."""

from __future__ import annotations

import difflib
import os
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

MOST_SHOWN = 2_000  # characters of a line that is printed


def visible(text: str) -> str:
    """The text with what can't be seen written out ('\\x1b'), and no longer than can be read."""
    if len(text) > MOST_SHOWN:
        text = f"{text[:MOST_SHOWN]}…"
    if text.isprintable():
        return text
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode() for c in text)


def one_line(text: str) -> str:
    """The same of a message, whose lines are put one after another."""
    return visible(" ".join(line.strip() for line in text.strip().splitlines()))


def words_of(error: Exception) -> str:
    """What an error of a library says, on one line."""
    return " ".join(str(error).split())


@dataclass(frozen=True)
class Problem:
    """One mistake: where it is, what was expected, what to do.

    `line` and `column` are 1-based; None where a file has no lines worth naming (a zip member).
    """

    file: str
    message: str
    line: int | None = None
    column: int | None = None
    where: str = ""

    def __lt__(self, other: Problem) -> bool:
        return self._order() < other._order()

    def _order(self) -> tuple[str, int, int, str]:
        return (self.file, self.line or 0, self.column or 0, self.message)

    def __str__(self) -> str:
        place = [visible(self.file)]
        if self.line is not None:
            place += [str(self.line), str(self.column or 1)]
        said = [one_line(text) for text in (self.where, self.message) if text]
        return ": ".join([":".join(place), *said])


class UserError(Exception):
    """Raised with every problem found, so that one run lists them all."""

    def __init__(self, problems: Problem | Iterable[Problem]):
        self.problems = [problems] if isinstance(problems, Problem) else list(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))


def nearest(word: object, names: Iterable[str]) -> str | None:
    """The name most like the word, if any is like it."""
    near = difflib.get_close_matches(str(word), list(names), n=1, cutoff=0.6)
    return near[0] if near else None


def did_you_mean(word: object, valid: Iterable[object]) -> str:
    """' (did you mean X?)' for a near miss, else the list of what is valid."""
    names = [str(name) for name in valid]
    near = nearest(word, names)
    if near:
        return f" (did you mean '{near}'?)"
    return f" (valid: {', '.join(names)})" if names else ""


def did_you_mean_one_of(word: str, names: Mapping[str, str]) -> str:
    """The same of up to three names like the word; each is told as what it is mapped to."""
    near = difflib.get_close_matches(word, list(names), n=3, cutoff=0.6)
    if near:
        *others, last = [f"'{names[name]}'" for name in near]
        told = f"{', '.join(others)} or {last}" if others else last
        return f" (did you mean {told}?)"
    return f" (valid: {', '.join(names.values())})" if names else ""


def run_stage(main: Callable[[], None]) -> None:
    """Run a stage's command; a user's mistake ends in one line a problem and exit status 1."""
    try:
        main()
    except UserError as error:
        for problem in error.problems:
            print(problem, file=sys.stderr)
        raise SystemExit(1) from None
    except OSError as error:
        place = error.filename or "output"
        told = one_line(f"{place}: {error.strerror or error}: check the path and the free space")
        print(told, file=sys.stderr)
        raise SystemExit(1) from None


@contextmanager
def named(path: Path | str) -> Iterator[None]:
    """An error of the system that names no file (a full disk does not) names this one."""
    try:
        yield
    except OSError as error:
        error.filename = error.filename or str(path)
        raise


@contextmanager
def replacing(path: Path | str) -> Iterator[Path]:
    """A temporary name beside the target, renamed onto it when the block ends well.

    Readers see the old file or the new one, never half of one. What a killed run left is removed.
    """
    target = Path(path)
    target.parent.mkdir(parents=True, exist_ok=True)
    for left in target.parent.glob(f".{target.name}.*"):
        if not _alive(left.suffix[1:]):
            left.unlink(missing_ok=True)
    temporary = target.with_name(f".{target.name}.{os.getpid()}")
    try:
        with named(target):
            yield temporary
        os.replace(temporary, target)
    finally:
        temporary.unlink(missing_ok=True)


def _alive(process: str) -> bool:
    try:
        os.kill(int(process), 0)
    except (ValueError, ProcessLookupError):
        return False
    except PermissionError:
        pass
    return True


def write_atomically(path: Path | str, content: bytes | str) -> None:
    """Write text or bytes so that the target is replaced at once."""
    with replacing(path) as temporary:
        temporary.write_bytes(content.encode("utf-8") if isinstance(content, str) else content)
