"""Finding the match files of a source: a zip, a folder, or a single file.

Nothing is ever unpacked to disk. Members that an honest archive does not hold (names that climb out
of it, links, one name twice, gigabytes from kilobytes) are refused and named.
"""

from __future__ import annotations

import hashlib
import lzma
import os
import stat
import struct
import zipfile
import zlib
from collections.abc import Iterable, Iterator
from functools import lru_cache
from pathlib import Path, PurePosixPath

from pipeline.errors import Problem, UserError

LARGEST_MEMBER = 64 * 1024 * 1024  # bytes; a match of five days is under one megabyte
# An archive of match files unpacks to some thirty times its size, never to hundreds.
MOST_TIMES, SUSPECT = 200, 1024**3

Member = tuple[str, bytes | str]  # a name with its bytes, or with a sentence on why there are none

# What the library raises for an archive whose bytes are not as they were written.
DAMAGED = (
    *(zipfile.BadZipFile, zlib.error, lzma.LZMAError, struct.error),
    *(EOFError, OSError, ValueError, KeyError, NotImplementedError),
)


def list_members(
    path: Path, suffix: str | tuple[str, ...], largest: int | None = LARGEST_MEMBER
) -> tuple[list[str], list[Problem]]:
    """Names of the files ending in `suffix`, sorted, and a problem for each that is refused.

    Capitals make no difference: some systems write .CSV.

    `largest`: the most bytes that a member may unpack to; None for members that are never whole in
    memory.
    """
    check_there(path)
    problems: list[Problem] = []
    endings = (suffix,) if isinstance(suffix, str) else suffix  # in small letters
    if path.is_dir():
        names = _members_of_folder(path, endings, problems)
    elif path.suffix.lower() in endings:
        names = [path.name]
    else:
        names = _members_of_zip(path, endings, largest, problems)
    if not names and not problems:
        told = f"no {' or '.join(endings)} file in it; check sources.yaml's path"
        raise UserError(Problem(str(path), told))
    return sorted(names), problems


def is_parquet(name: str) -> bool:
    """Whether a file is a Parquet table, by its name."""
    return name.lower().endswith(".parquet")


def check_there(path: Path) -> None:
    """A source is a file or a folder: to read a pipe or a device might never end."""
    try:
        readable = path.is_file() or path.is_dir()
        what = "not a file or a folder" if path.exists() else "no such file or folder"
    except OSError as error:  # of the folder that it is in
        raise _unread(path, error) from None
    if not readable:
        raise UserError(Problem(str(path), f"{what}; check sources.yaml's path"))


def _unread(path: Path, error: OSError) -> UserError:
    return UserError(Problem(str(path), f"can't be read: {error.strerror}"))


def _members_of_folder(path: Path, endings: tuple[str, ...], problems: list[Problem]) -> list[str]:
    """No link is followed, nothing is opened."""
    names: list[str] = []

    def unread(error: OSError) -> None:
        problems.append(Problem(str(error.filename), f"can't be read: {error.strerror}"))

    for top, folders, files in os.walk(path, onerror=unread):
        found = [name for name in files if name.lower().endswith(endings)]
        found += [name for name in folders if Path(top, name).is_symlink()]
        for whole in [Path(top, name) for name in found]:
            if reason := _not_a_file(whole):
                problems.append(Problem(str(whole), reason))
            else:
                names.append(str(whole.relative_to(path)))
    return names


def _not_a_file(path: Path) -> str | None:
    """Why what a folder holds is not read, if it is not."""
    if not _is_text(str(path)):
        return "its name is not UTF-8 text; give it another"
    if path.is_symlink():
        return "a link, not a file; put the file or folder itself there"
    return None if path.is_file() else "a pipe or a device, not a file; put a file there"


def _is_text(name: str) -> bool:
    """Whether a name's bytes were text: what is none stands in it as half a character."""
    try:
        name.encode()
    except UnicodeEncodeError:
        return False
    return True


def _members_of_zip(
    path: Path, endings: tuple[str, ...], largest: int | None, problems: list[Problem]
) -> list[str]:
    names: list[str] = []
    seen: set[str] = set()
    with open_zip(path) as archive:
        _check_sizes(path, archive.infolist())
        for item in archive.infolist():
            if item.is_dir() or not item.filename.lower().endswith(endings):
                continue
            reason = _refusal(item, seen, largest)
            seen.add(item.filename)
            if reason:
                problems.append(Problem(f"{path}/{item.filename}", reason))
            else:
                names.append(item.filename)
    twice = {p.file.removeprefix(f"{path}/") for p in problems}
    return [name for name in names if name not in twice]


def _check_sizes(path: Path, items: list[zipfile.ZipInfo]) -> None:
    """Members that share their bytes would unpack for days, each no larger than it may be."""
    unpacked, packed = sum(item.file_size for item in items), path.stat().st_size
    if unpacked > max(SUSPECT, MOST_TIMES * packed):
        message = f"{unpacked:,} bytes when unpacked, from {packed:,}; no archive of match files"
        raise UserError(Problem(str(path), message))


def _refusal(item: zipfile.ZipInfo, seen: set[str], largest: int | None) -> str | None:
    """Why a member is not read, if it is not."""
    name = PurePosixPath(item.filename.replace("\\", "/"))
    if item.filename in seen:
        return "stands twice in the archive; make the archive again with one of them"
    if name.is_absolute() or ".." in name.parts or ":" in name.parts[0]:
        return "its name leads out of the archive; make the archive again with plain names"
    if stat.S_ISLNK(item.external_attr >> 16):
        return "a link, not a file; make the archive again with the file itself"
    if largest is not None and item.file_size > largest:
        return _too_large(item.file_size)
    return None


def _too_large(size: int) -> str:
    return f"{size:,} bytes when unpacked; the most a match file may have is {LARGEST_MEMBER:,}"


def file_of(path: Path, name: str) -> str:
    """A member as it is named to people; a source that is one file is its own only member."""
    return str(path) if path.name == name and not path.is_dir() else f"{path}/{name}"


def open_zip(path: Path) -> zipfile.ZipFile:
    """Open an archive, or say what is wrong with it."""
    try:
        return zipfile.ZipFile(path)
    except PermissionError as error:
        raise _unread(path, error) from None
    except DAMAGED as error:
        message = f"not a readable zip archive ({error}); fetch it again"
        raise UserError(Problem(str(path), message)) from None


@lru_cache(maxsize=1)
def _opened(path: Path, process: int, state: tuple[int, ...]) -> zipfile.ZipFile:
    """One open archive a process: reading its list anew for every chunk would cost too much.

    `process` keeps a child from using its parent's open file, `state` anyone from a replaced one.
    """
    return open_zip(path)


def read_members(path: Path, names: list[str]) -> Iterator[Member]:
    """Each name with its bytes, or with a sentence on why it can't be read."""
    if path.is_dir():
        for name in names:
            yield name, _read_file(path / name)
    elif names == [path.name] and not zipfile.is_zipfile(path):
        yield names[0], _read_file(path, limited=False)
    elif not zipfile.is_zipfile(path):
        yield from (
            (name, "its archive is gone, or none any more; fetch it again") for name in names
        )
    else:
        archive = _archive(path)
        for name in names:
            yield name, _read_member(archive, name)


def marks_told(path: Path, names: list[str]) -> list[str] | None:
    """A mark for each name that is another where its bytes are others, if the source itself has it.

    An archive tells CRC-32 and size of its members, so that nothing is read for them; not of those
    that went from it since it was listed.
    """
    if not tells_marks(path):
        return None
    try:
        items = [_archive(path).getinfo(name) for name in names]
    except KeyError:
        return None
    return [_mark(item.CRC, item.file_size) for item in items]


def tells_marks(path: Path) -> bool:
    """Whether the source is an archive, which has marks of its members itself."""
    return not path.is_dir() and zipfile.is_zipfile(path)


def marked(members: Iterable[Member], marks: list[str], crc: bool = False) -> Iterator[Member]:
    """The same members; as each is read its mark is added: a hash, since the times of files lie.

    `crc`: as an archive tells it, but of the bytes that were read: an archive that is replaced
    meanwhile tells of others.
    """
    for name, data in members:
        if isinstance(data, str):
            marks.append(data)
        elif crc:
            marks.append(_mark(zlib.crc32(data), len(data)))
        else:
            marks.append(hashlib.sha256(data).hexdigest())
        yield name, data


def _mark(crc: int, size: int) -> str:
    return f"{crc:08x} {size}"


def _archive(path: Path) -> zipfile.ZipFile:
    found = path.stat()
    return _opened(path, os.getpid(), (found.st_mtime_ns, found.st_ino, found.st_size))


def _read_file(path: Path, limited: bool = True) -> bytes | str:
    try:
        size = path.stat().st_size
        return _too_large(size) if limited and size > LARGEST_MEMBER else path.read_bytes()
    except OSError as error:
        return f"can't be read: {error.strerror}"


def _read_member(archive: zipfile.ZipFile, name: str) -> bytes | str:
    """At most `LARGEST_MEMBER` bytes, whatever the archive's own list says of the size."""
    try:
        with archive.open(name) as member:
            data = member.read(LARGEST_MEMBER + 1)
    except DAMAGED as error:
        return f"damaged in the archive ({error}); fetch it again"
    except RuntimeError as error:
        return f"can't be unpacked ({error})"
    return data if len(data) <= LARGEST_MEMBER else _too_large(len(data))
