"""python -m tests.golden: write the files anew from the built demo in this folder."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory

from tests.golden.kept import file_of, write
from tests.golden.made import TOPICS, made
from tests.golden.parts import parts


def main() -> None:
    for topic in TOPICS:
        with TemporaryDirectory() as folder:
            write(topic, parts(made(Path.cwd(), topic, Path(folder))))
        print(f"{file_of(topic).relative_to(Path.cwd())}: see git diff for what moved")


if __name__ == "__main__":
    main()
