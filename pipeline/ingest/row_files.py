"""Files with a row a delivery, read as text under our own column names."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

import pandas as pd

from pipeline.errors import Problem, UserError
from pipeline.ingest.databases import kind_of
from pipeline.ingest.info_csv import InfoFile, parse_info
from pipeline.ingest.members import check_there, file_of, list_members, read_members
from pipeline.ingest.plain_csv import plain_csv
from pipeline.ingest.row_checks import Bad
from pipeline.ingest.row_csv import read_csv
from pipeline.ingest.row_names import check_constants, picked
from pipeline.ingest.row_parquet import read_parquet
from pipeline.ingest.row_table import asks, formed, read_query

if TYPE_CHECKING:
    from pipeline.config.project import Source


class Rows(NamedTuple):
    """All rows as text with the file and line of each, the info files by match, what is bad."""

    frame: pd.DataFrame
    infos: dict[str, InfoFile]
    bad: Bad


def load_rows(source: Source) -> Rows:
    """Every file of the source; one that can't be read is a problem, and its match is left out."""
    path = Path(source.path)
    check_there(path)
    check_constants(source)
    bad = Bad()
    if asks(source) or path.suffix == ".parquet" or kind_of(path) == "parquet":
        pick = partial(picked, source=source, file=str(path))
        frame = read_query(source, pick) if asks(source) else read_parquet(path, pick)
        return Rows(formed(frame.assign(file=str(path)), source, bad), {}, bad)
    frames: list[pd.DataFrame] = []
    infos: dict[str, InfoFile] = {}
    names, refused = list_members(path, ".csv")
    bad.problems += refused
    for name, data in read_members(path, names):
        file = file_of(path, name)
        match = Path(name).stem.removesuffix("_info")
        try:
            if isinstance(data, str):
                raise UserError(Problem(file, data))
            if name.endswith("_info.csv"):
                infos[match] = parse_info(data, file)
            else:
                plain = plain_csv(data, source.written, file)
                found = read_csv(plain, file, partial(picked, source=source, file=file))
                frames.append(formed(found.assign(file=file), source, bad))
        except UserError as error:
            bad.matches.add(match)
            bad.problems += error.problems
    if not frames:
        empty = Problem(str(path), "no readable file with deliveries in it")
        raise UserError([*bad.problems, empty])
    return Rows(pd.concat(frames, ignore_index=True).fillna(""), infos, bad)
