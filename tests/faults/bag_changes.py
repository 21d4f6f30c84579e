"""Ways to change an edition: by a byte, a name, a form, a shape; and to seal it again."""

from __future__ import annotations

import json
import os
import unicodedata
from copy import deepcopy
from pathlib import Path
from random import Random
from typing import Any

from pipeline.archive.bag import ALGORITHMS, digests, listing
from pipeline.verify.manifests import listed_tags

Text = bytes
ODD_NAMES = ("data/extra.txt", "extra", "data/caf\u00e9.csv", "data/new\nline", "fetch.txt", ".x")
ENCODINGS = ("utf-8", "UTF8", "zlib_codec", "hex", "rot13", "utf-16", "idna", "no-such", "", "\0")
PATHS = ("/etc/passwd", "../../outside.txt", "~/x", "C:\\x", "a\0b", "config", "", "x" * 5000)
VALUES: tuple[Any, ...] = (
    *(None, True, False, 0, -1, 7, 10**30, 1.5, 1e300, "", "x", "2026-13-45", "\ud800", "\0"),
    *([], {}, [[]], [1], [None], {"a": 1}, {"format": 2}, {"format": 1}, {"format": "2"}, *PATHS),
)
TEXTS = ("", "NaN", "[" * 10_000 + "]" * 10_000, "[1e999]", "1" * 6000, "{", "\ufeff{}", "null")


def files_of(folder: Path) -> list[Path]:
    return sorted(path for path in folder.rglob("*") if path.is_file() and not path.is_symlink())


def chosen(rng: Random, folder: Path) -> Path:
    """A file of it; the few beside the payload as often as the many inside."""
    inside = files_of(folder)
    tags = [path for path in inside if path.parent == folder]
    return rng.choice(tags if rng.random() < 0.4 else inside)


# By bytes


def change_bytes(rng: Random, folder: Path) -> None:
    path = chosen(rng, folder)
    content = bytearray(path.read_bytes())
    at = rng.randrange(len(content) + 1)
    match rng.randrange(5):
        case 0:
            content[at:at] = bytes(rng.randrange(256) for _ in range(rng.randint(1, 3)))
        case 1:
            del content[at : at + rng.randint(1, 40)]
        case 2:
            content[at : at + 1] = bytes([rng.randrange(256)])
        case 3:
            content = content.swapcase()
        case _:
            content[at:at] = rng.choice([b"\0", b"\r", b"\n", b" ", b"\t", b"\xff", b"#", b"*"])
    path.write_bytes(content)


def change_form(rng: Random, folder: Path) -> None:
    """A tag file that says the same in another form, or lists otherwise."""
    path = rng.choice([path for path in files_of(folder) if path.parent == folder])
    text = path.read_bytes()
    lines = text.splitlines(keepends=True)
    at = rng.randrange(len(lines))
    forms = (
        *(text.replace(b"\n", b"\r\n"), text.replace(b"\n", b"\r"), text.upper(), text.lower()),
        *(text.replace(b"  ", b" *"), text.replace(b"  ", b"\t"), text.replace(b"  ", b" ./")),
        *(text + b"\n", b"\n" + text, text.rstrip(b"\n"), b"\xef\xbb\xbf" + text),
        *(b"".join(lines[::-1]), b"".join([*lines, lines[at]])),
        b"".join(lines[:at] + lines[at + 1 :]),
    )
    path.write_bytes(rng.choice(forms))


# By names and kinds


def change_names(rng: Random, folder: Path) -> None:
    path = chosen(rng, folder)
    match rng.randrange(9):
        case 0:
            path.unlink()
        case 1:
            path.rename(path.with_name(rng.choice([path.name.upper() + "x", "x", ".y", "a b"])))
        case 2:
            _put(folder / rng.choice(ODD_NAMES), b"")
        case 3:
            other = chosen(rng, folder)
            one, two = path.read_bytes(), other.read_bytes()
            path.write_bytes(two)
            other.write_bytes(one)
        case 4:
            _linked(rng, path)
        case 5:
            path.unlink()
            os.mkfifo(path)
        case 6:
            path.unlink()
            path.mkdir()
        case 7:
            _put(folder / "data" / unicodedata.normalize("NFD", "caf\u00e9.txt"), b"one")
            _put(folder / "data" / "caf\u00e9.txt", b"two")
        case _:
            os.symlink("/dev/zero", folder / "data" / "zero")


def _put(path: Path, content: Text) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content)


def _linked(rng: Random, path: Path) -> None:
    """A link in its place: to itself, out of the folder, to nothing, to the same content."""
    aside = path.parents[len(path.parts) - 2] / "nowhere"
    content = path.read_bytes()
    path.unlink()
    beside = path.with_name(path.name + ".real")
    target = rng.choice([path, Path("/etc/passwd"), aside, beside, Path("/dev/zero")])
    if target == beside:
        beside.write_bytes(content)
    os.symlink(target, path)


# By shapes, then sealed again as a forger would


def change_shape(rng: Random, folder: Path) -> None:
    """A JSON file of another shape."""
    path = rng.choice(sorted((folder / "data").rglob("*.json")))
    if rng.random() < 0.1:
        path.write_text(rng.choice(TEXTS), "utf-8")
        return
    data = json.loads(path.read_text("utf-8"))
    for _ in range(rng.randint(1, 2)):
        data = reshaped(rng, data)
    path.write_text(json.dumps(data), "utf-8")


def reshaped(rng: Random, data: Any) -> Any:
    """The same with one part of it another thing, gone, there twice or under another name."""
    keys = list(data) if isinstance(data, dict) else range(len(data)) if _list(data) else []
    if not keys or rng.random() < 0.12:
        return deepcopy(rng.choice(VALUES))
    key = rng.choice(list(keys))
    if rng.random() < 0.6:
        data[key] = reshaped(rng, data[key])
    elif _list(data):
        data.insert(key, deepcopy(rng.choice([data[key], rng.choice(VALUES)])))
    else:
        value = data.pop(key)
        if rng.random() < 0.5:
            data[rng.choice([f"{key}s", "x", "format", ""])] = value
    return data


def _list(data: Any) -> bool:
    return isinstance(data, list)


def change_settings(rng: Random, folder: Path) -> None:
    """A path of the configuration that leads elsewhere."""
    path = rng.choice(sorted((folder / "data" / "config").glob("*.yaml")))
    lines = path.read_text("utf-8").splitlines()
    at = rng.randrange(len(lines))
    key, colon, _ = lines[at].partition(":")
    if colon:
        lines[at] = f"{key}: {json.dumps(rng.choice(PATHS))}"
    path.write_text("\n".join(lines), "utf-8")


def change_declared(rng: Random, folder: Path) -> None:
    version = rng.choice(["1.0", "0.97", "x", "9.9", ""])
    text = f"BagIt-Version: {version}\nTag-File-Character-Encoding: {rng.choice(ENCODINGS)}\n"
    (folder / "bagit.txt").write_text(text, "utf-8")


def change_info(rng: Random, folder: Path) -> None:
    path = folder / "bag-info.txt"
    more = (
        *("Payload-Oxum: x", "Payload-Oxum: 1.1.1", "Payload-Oxum: 9" + "9" * 5000 + ".1"),
        *(": ", "no colon", "External-Identifier: a/b/c", "\0: \0", " continued", "\ud83d"),
    )
    lines = path.read_text("utf-8").splitlines()
    lines.insert(rng.randrange(len(lines) + 1), rng.choice(more))
    path.write_bytes("\n".join(lines).encode("utf-8", "surrogatepass"))


def change_manifest(rng: Random, folder: Path) -> None:
    """A line of a manifest that names what is not to be read."""
    path = folder / f"manifest-{rng.choice(ALGORITHMS)}.txt"
    name = rng.choice((*PATHS, "data/../../x", "data//x", "./data/x", " " * 50_000 + "x"))
    with path.open("ab") as file:
        file.write(f"{'0' * rng.choice([64, 128, 1])} {name}\n".encode())


def seal_again(folder: Path, payload: bool) -> None:
    """Manifests that fit what is there now; of the payload too, where that is asked for."""
    if payload:
        inside = files_of(folder / "data")
        sums = {path.relative_to(folder).as_posix(): digests(path)[1] for path in inside}
        _write(folder, "manifest", sums)
        info = folder / "bag-info.txt"
        size = sum(path.stat().st_size for path in inside)
        kept = [line for line in info.read_text().splitlines() if "Oxum" not in line]
        info.write_text("\n".join([*kept, f"Payload-Oxum: {size}.{len(inside)}", ""]))
    _write(folder, "tagmanifest", {name: digests(folder / name)[1] for name in listed_tags()})


def _write(folder: Path, kind: str, sums: dict[str, dict[str, str]]) -> None:
    for algorithm in ALGORITHMS:
        told = {name: found[algorithm] for name, found in sums.items()}
        (folder / f"{kind}-{algorithm}.txt").write_text(listing(told), "utf-8")
