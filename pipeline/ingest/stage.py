"""One source into tables, a problem a mistake in its files."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import pyarrow as pa
import pyarrow.parquet as pq

from pipeline import tables
from pipeline.contracts.files import as_json
from pipeline.errors import (
    Problem,
    UserError,
    named,
    replacing,
    write_atomically,
)
from pipeline.ingest.columns import STREAMED, people_table
from pipeline.ingest.read import read_source
from pipeline.ingest.source_report import Report

if TYPE_CHECKING:
    from pipeline.config.project import Source


def ingest(source: Source, out: Path) -> None:
    """Write tables as chunks come in; a failing source leaves earlier outputs as they were."""
    report, problems = Report(), list[Problem]()
    strays: Counter[str] = Counter()
    with ExitStack() as files:
        writers = {name: files.enter_context(_writer(out, name)) for name in STREAMED}
        for found in read_source(source):
            for name, writer in writers.items():
                with named(out / f"{name}.parquet"):
                    writer.write_table(getattr(found.tables, name))
            report.add(found.tables)
            problems += found.problems
            strays += found.strays
        stop_if_asked(source, problems)
    tables.write_table(out / "people.parquet", people_table(report.people), tables.PEOPLE)
    written = report.as_written(source.id, [str(problem) for problem in problems], strays)
    write_atomically(out / "report.json", as_json(written))


@contextmanager
def _writer(out: Path, name: str) -> Iterator[pq.ParquetWriter]:
    """A Parquet writer whose file takes its name only when everything went well.

    These tables are read once, by the next stage: they are written for speed, not for size.
    """
    schema = getattr(tables, name.upper())
    coded = [field.name for field in schema if isinstance(field.type, pa.DictionaryType)]
    options = {"compression": "lz4", "use_dictionary": coded, "write_statistics": False}
    with (
        replacing(out / f"{name}.parquet") as temporary,
        pq.ParquetWriter(temporary, schema, **options) as writer,
    ):
        yield writer


def stop_if_asked(source: Source, problems: list[Problem]) -> None:
    """With on_error 'stop' every mistake is listed and nothing is written."""
    if problems and source.on_error == "stop":
        files = len({problem.file for problem in problems})
        last = Problem(
            source.path,
            f"{len(problems)} mistake(s) in {files} file(s), nothing written; mend them, "
            "or set on_error: quarantine in sources.yaml to go on without them",
        )
        raise UserError([*problems, last])
