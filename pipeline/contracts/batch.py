"""What ingest writes of a batch of matches beside its tables, and of all batches of a source."""

from __future__ import annotations

from pipeline.contracts.base import Contract
from pipeline.contracts.quality import OddPlay
from pipeline.errors import Problem


class Batch(Contract):
    """batch.json: all that a batch gives to its source's report.

    `tables` are the sha256 of its Parquet files by table, `strays` the stray keys by place, and
    `unread` says that a file could not be got at, so that the batch is to be read again. `seal` is
    the hash of the other fields.
    """

    tables: dict[str, str]
    figures: dict[str, int]
    problems: list[Problem]
    strays: dict[str, int]
    unread: bool
    odd: dict[str, OddPlay] = {}
    seal: str = ""


class Batches(Contract):
    """batches.json: the batches that a source's tables are, in order: sha256 of each batch.json."""

    batches: dict[str, str]
