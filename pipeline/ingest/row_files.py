"""Files with a row a delivery, read as text under our own column names."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, NamedTuple

import pandas as pd

from pipeline.errors import Problem, UserError
from pipeline.ingest.databases import kind_of
from pipeline.ingest.info_csv import InfoFile, parse_info
from pipeline.ingest.members import check_there, file_of, list_members, read_members
from pipeline.ingest.row_checks import Bad
from pipeline.ingest.row_csv import read_csv
from pipeline.ingest.row_names import check_constants, picked
from pipeline.ingest.row_parquet import read_parquet
from pipeline.ingest.row_spool import spooled
from pipeline.ingest.row_table import formed

if TYPE_CHECKING:
    from pipeline.config.project import Source


class Rows(NamedTuple):
    """All rows as text with the file and line of each, the info files by match, what is bad."""

    frame: pd.DataFrame
    infos: dict[str, InfoFile]
    bad: Bad


def load_rows(source: Source) -> Rows:
    """Every file of the source; one that can't be read is a problem, and its match is left out."""
    check_there(Path(source.path))
    check_constants(source)
    with TemporaryDirectory(prefix="good-length-") as folder:
        path, refused = spooled(source, Path(folder))
        return _loaded(source, path, Bad(refused))


def _loaded(source: Source, path: Path, bad: Bad) -> Rows:
    """The same of where the rows are to be read; they are named by the source's own files."""
    own = Path(source.path)
    if path.suffix == ".parquet" or kind_of(path) == "parquet":
        pick = partial(picked, source=source, file=str(own))
        frame = read_parquet(path, pick, str(own))
        return Rows(formed(frame.assign(file=str(own)), source, bad), {}, bad)
    frames: list[pd.DataFrame] = []
    infos: dict[str, InfoFile] = {}
    names, refused = list_members(path, ".csv")
    bad.problems += refused
    for name, data in read_members(path, names):
        file = file_of(own, name)
        match = Path(name).stem.removesuffix("_info")
        try:
            if isinstance(data, str):
                raise UserError(Problem(file, data))
            if name.endswith("_info.csv"):
                infos[match] = parse_info(data, file)
            else:
                found = read_csv(data, file, partial(picked, source=source, file=file))
                frames.append(formed(found.assign(file=file), source, bad))
        except UserError as error:
            bad.matches.add(match)
            bad.problems += error.problems
    if not frames:
        empty = Problem(str(own), "no readable file with deliveries in it")
        raise UserError([*bad.problems, empty])
    return Rows(pd.concat(frames, ignore_index=True).fillna(""), infos, bad)
