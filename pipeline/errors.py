"""A user's mistake is a list of problems, each with its place; it is printed, never a traceback."""

from __future__ import annotations

import difflib
import errno
import itertools
import os
import re
import sys
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from pipeline.terminal import fitted, one_line, shown, to_any_reader

OF_ONE_KIND = 50  # lines told of mistakes that differ in names and numbers only
LONGEST_NAME = 100  # characters of a name that is compared with others
LONGEST_LIST = 120  # characters of a list of names; the others are counted


def words_of(error: Exception) -> str:
    """What an error of a library says, on one line."""
    return " ".join(str(error).split())


@dataclass(frozen=True)
class Problem:
    """One mistake: where it is, what was expected, what to do.

    `line` and `column` are 1-based; None where a file has no lines worth naming (a zip member).
    `cure` is what to do, where that may be long: it stands last, and no cut takes any of it.
    """

    file: str
    message: str
    line: int | None = None
    column: int | None = None
    where: str = ""
    cure: str = ""

    def __lt__(self, other: Problem) -> bool:
        return self._order() < other._order()

    def _order(self) -> tuple[str, int, int, str]:
        return (self.file, self.line or 0, self.column or 0, self.message)

    def __str__(self) -> str:
        place = [self.file]
        if self.line is not None:
            place += [str(self.line), str(self.column or 1)]
        message = f"{self.message}; {self.cure}" if self.cure else self.message
        said = [one_line(text) for text in (self.where, message) if text]
        return shown(": ".join([":".join(place), *said]))

    @property
    def kind(self) -> str:
        """The message without the names and numbers in it."""
        return re.sub(r"'[^']*'|`[^`]*`|\"[^\"]*\"|\d+", "", self.message)


def not_utf_8(file: Path, error: UnicodeDecodeError) -> Problem:
    """What is said of a text that is in other letters, with the line that has the first of them."""
    before = error.object[: error.start]
    line, column = before.count(b"\n") + 1, error.start - before.rfind(b"\n")
    return Problem(
        str(file), f"not UTF-8 text (byte {error.start}); save it as UTF-8", line, column
    )


class UserError(Exception):
    """Raised with every problem found, so that one run lists them all."""

    def __init__(self, problems: Problem | Iterable[Problem]):
        self.problems = [problems] if isinstance(problems, Problem) else list(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))

    def __reduce__(self) -> tuple[type[UserError], tuple[list[Problem]]]:
        """As it comes out of another process: with its problems, not with their text."""
        return UserError, (self.problems,)


def nearest(word: object, names: Iterable[str]) -> str | None:
    """The name most like the word, if any is like it."""
    if len(told := str(word)) > LONGEST_NAME:  # like none, and slow to compare
        return None
    near = difflib.get_close_matches(told, list(names), n=1, cutoff=0.6)
    return near[0] if near else None


def did_you_mean(word: object, valid: Iterable[object]) -> str:
    """' (did you mean X?)' for a near miss, else the list of what is valid."""
    names = [str(name) for name in valid]
    return near_miss(word, names) or _valid(str(word), names)


def near_miss(word: object, names: Iterable[str]) -> str:
    """' (did you mean X?)', or nothing where none is like the word."""
    near = nearest(word, names)
    return f" (did you mean '{near}'?)" if near else ""


def did_you_mean_one_of(word: str, names: Mapping[str, str]) -> str:
    """The same of up to three names like the word; each is told as what it is mapped to."""
    short = word if len(word) <= LONGEST_NAME else ""  # a longer one is like none
    near = difflib.get_close_matches(short, list(names), n=3, cutoff=0.6)
    if near:
        *others, last = [f"'{names[name]}'" for name in near]
        told = f"{', '.join(others)} or {last}" if others else last
        return f" (did you mean {told}?)"
    return _valid(word, list(names.values()))


def _valid(word: str, names: list[str]) -> str:
    """The list of what is valid; of a long one the names most like the word, and how many more."""
    told = ", ".join(names)
    if len(told) > LONGEST_LIST:
        nearest_first = sorted(names, key=lambda name: -_likeness(word, name))
        room = itertools.accumulate(len(name) + 2 for name in nearest_first)
        count = max(1, sum(length <= LONGEST_LIST for length in room))
        more = f" and {len(names) - count:,} more" if count < len(names) else ""
        told = ", ".join(nearest_first[:count]) + more
    return f" (valid: {told})" if names else ""


def _likeness(word: str, name: str) -> float:
    """How like they are; too long a name is like none."""
    if max(len(word), len(name)) > LONGEST_NAME:
        return 0.0
    return difflib.SequenceMatcher(None, name, word).ratio()


def run_stage(main: Callable[[], None]) -> None:
    """Run a stage's command; a user's mistake ends in one line a problem and exit status 1."""
    with to_any_reader():
        try:
            main()
        except UserError as error:
            tell(error)
            raise SystemExit(1) from None
        except BrokenPipeError:
            raise
        except OSError as error:
            message = f"{error.strerror or error}: check the path and the free space"
            tell(UserError(Problem(str(error.filename or "output"), message)))
            raise SystemExit(1) from None


def tell(error: UserError) -> None:
    """Print each problem on a line of its own; of many of one kind the first, and how many more."""
    for line in told(error):
        print(line, file=sys.stderr)


def told(error: UserError) -> Iterator[str]:
    """The lines to print of a mistake, each of a length that can be read."""
    kinds = Counter(problem.kind for problem in error.problems)
    seen: Counter[str] = Counter()
    for problem in error.problems:
        seen[problem.kind] += 1
        if seen[problem.kind] <= OF_ONE_KIND:
            yield fitted(str(problem), kept=shown(one_line(problem.cure)))
    for kind, count in kinds.items():
        if count > OF_ONE_KIND:
            first = next(p for p in error.problems if p.kind == kind)
            yield fitted(f"and {count - OF_ONE_KIND:,} more such as: {shown(first.message)}")


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
    if not target.name or target.is_dir():
        raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), str(target))
    target.parent.mkdir(parents=True, exist_ok=True)
    for left in target.parent.glob(f".{target.name}.*"):
        if not alive(left.suffix[1:]):
            left.unlink(missing_ok=True)
    temporary = target.with_name(f".{target.name}.{os.getpid()}")
    try:
        with named(target):
            yield temporary
        os.replace(temporary, target)
    finally:
        temporary.unlink(missing_ok=True)


def alive(process: str) -> bool:
    """Whether there is a process of this number."""
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
