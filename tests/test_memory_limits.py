"""Two million deliveries are read and cleaned by a process that may hold no more than MOST.

So that the limit is known to bite, a bare read of each archive is held to it too: it ends for want
of memory, and of a hundred thousand deliveries it ends well. (Needed were under 450 MB to read and
under 500 to clean, imports and all.)
"""

from __future__ import annotations

import json
from itertools import islice
from pathlib import Path

import pytest

from tests.bench.rows import BARE as BARE_CSV
from tests.bench.rows import INGEST as INGEST_ROWS
from tests.bench.scale import CLEAN, INGEST
from tests.limited import limited, needs_a_limit, out_of_memory
from tests.many import DELIVERIES, MATCH_FILES, OWN, ROWS

pytestmark = pytest.mark.slow
MOST = 700_000_000  # bytes, with the 105 million that a process has when all is imported
FEW = 100_000  # deliveries
# Match files, and batches, as Python has them: of at most so many deliveries.
BARE_JSON = """
import json, pathlib, sys
held, count = [], 0
for path in pathlib.Path(sys.argv[1]).iterdir():
    held.append(json.loads(path.read_bytes()))
    overs = [over for innings in held[-1]["innings"] for over in innings["overs"]]
    count += sum(len(over["deliveries"]) for over in overs)
    if count > int(sys.argv[2]):
        break
"""
BARE_TABLES = """
import pathlib, sys
from pyarrow import parquet
held = []
for path in pathlib.Path(sys.argv[1]).glob("batches/*/deliveries.parquet"):
    held += parquet.read_table(path).to_pylist()
    if len(held) > int(sys.argv[2]):
        break
"""


@pytest.fixture(scope="module", autouse=True)
def _limit() -> None:
    needs_a_limit()


def within(program: str, *words: str) -> None:
    done = limited(MOST, program, *words)
    assert done.returncode == 0, done.stderr[-2000:]


def too_much(program: str, *words: str) -> None:
    done = limited(MOST, program, *words)
    assert out_of_memory(done), (done.returncode, done.stderr[-2000:])


def deliveries(out: Path) -> int:
    return json.loads((out / "report.json").read_text("utf-8"))["deliveries"]


@pytest.mark.parametrize(
    ("name", "layout", "rows"),
    [(ROWS, "delivery-csv", ROWS), (OWN, "ball-tables", f"{OWN}/deliveries.csv")],
)
def test_rows_are_read_within_the_limit(
    many: Path, tmp_path: Path, name: str, layout: str, rows: str
):
    within(INGEST_ROWS, str(many / name), str(tmp_path / "out"), layout)
    assert deliveries(tmp_path / "out") > DELIVERIES
    with (many / rows).open(encoding="utf-8") as file:
        (tmp_path / "few.csv").write_text("".join(islice(file, FEW)), "utf-8")
    within(BARE_CSV, str(tmp_path / "few.csv"))
    too_much(BARE_CSV, str(many / rows))


def test_match_files_are_read_and_cleaned_within_the_limit(many: Path, tmp_path: Path):
    words, out = (str(many / MATCH_FILES), str(tmp_path)), tmp_path / "bench"
    within(INGEST, *words)
    assert deliveries(out) > DELIVERIES
    within(CLEAN, *words)
    assert (tmp_path / "deliveries.parquet").is_file()
    for bare, archive in ((BARE_JSON, words[0]), (BARE_TABLES, str(out))):
        within(bare, archive, str(FEW))
        too_much(bare, archive, str(DELIVERIES))


def test_where_no_limit_is_kept_the_tests_are_skipped_with_the_reason(
    monkeypatch: pytest.MonkeyPatch,
):
    monkeypatch.setattr("tests.limited.LIMIT", "")
    with pytest.raises(pytest.skip.Exception, match="RLIMIT_DATA is not kept on"):
        needs_a_limit()
