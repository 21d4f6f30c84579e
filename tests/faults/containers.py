"""Zips and folders by chance, of good and bad files under good and bad names."""

from __future__ import annotations

import os
import stat
import warnings
import zipfile
from pathlib import Path
from random import Random

from tests.builders import match, write_zip
from tests.faults.damage import damaged, json_text
from tests.faults.made import BALLS, csv_bytes, match_json, rows


def good_zip(folder: Path) -> Path:
    return write_zip(folder / "good.zip", {"m1.json": match(BALLS), "m2.json": match(BALLS)})


NAMES = (
    *(
        "m1.json",
        "a/m1.json",
        "../m2.json",
        "/m3.json",
        "C:/m4.json",
        "m\n5.json",
        "é.json",
        ".json",
    ),
    *("a\\..\\m6.json", "m7.JSON", "m1.csv", "m1_info.csv", "_info.csv", "..json", "\x1b.json"),
)


def container(rng: Random, folder: Path) -> Path:
    """A zip or a folder of good and bad files under good and bad names."""
    members = [(rng.choice(NAMES), _content(rng)) for _ in range(rng.randrange(4))]
    return _folder(members, rng, folder) if rng.random() < 0.3 else _archive(members, rng, folder)


def _content(rng: Random) -> bytes:
    return match_json(rng) if rng.random() < 0.7 else csv_bytes(rows(rng), rng)


def _archive(members: list[tuple[str, bytes]], rng: Random, folder: Path) -> Path:
    path = folder / "m.zip"
    with warnings.catch_warnings(), zipfile.ZipFile(path, "w") as opened:
        warnings.simplefilter("ignore")  # of a name that stands twice
        for name, content in [("good.json", good_json()), *members]:
            item = zipfile.ZipInfo(name)
            item.compress_type = rng.choice(
                (0, zipfile.ZIP_DEFLATED, zipfile.ZIP_BZIP2, zipfile.ZIP_LZMA)
            )
            item.external_attr = rng.choice((0, 0, 0, 0, stat.S_IFLNK | 0o777)) << 16
            opened.writestr(item, content)
    if rng.random() < 0.4:
        path.write_bytes(damaged(path.read_bytes(), rng))
    return path


def good_json() -> bytes:
    return json_text(match(BALLS), Random(0))


def _folder(members: list[tuple[str, bytes]], rng: Random, folder: Path) -> Path:
    path = folder / "files"
    (path / "a").mkdir(parents=True)
    (path / "good.json").write_bytes(good_json())
    for name, content in members:
        (path / Path(name).name).write_bytes(content)
    odd = path / "a" / rng.choice(("x.json", "x.csv"))
    way = rng.randrange(5)
    if way == 0:
        os.mkfifo(odd)
    elif way < 4:
        odd.symlink_to(("/dev/zero", "nowhere", "..")[way - 1])
    else:
        (path / os.fsdecode(b"\xff\xfe.json")).write_bytes(good_json())
    return path
