"""Which modules get mutants, and which tests are there to see them."""

from __future__ import annotations

from pathlib import Path

# Below pipeline/; where a number or a sentence can go wrong and a brief would still be made.
ROOMS = (
    "metrics/*.py",
    "significance/*.py",
    "significance/methods/*.py",
    "significance/kinds/*.py",
    "brief/beats.py",
    "brief/fact.py",
    "brief/facts.py",
    "brief/table_rows.py",
    "brief/top_sheet.py",
    "charts/change_panel.py",
    "charts/comparison.py",
    "charts/data.py",
    "charts/events.py",
    "charts/rows.py",
    "charts/series.py",
    "charts/value_panel.py",
    "charts/words.py",
    "charts/kinds/*.py",
    "wording/kinds/base.py",
    "wording/numbers.py",
    "wording/phrases.py",
    "wording/shown_numbers.py",
    "wording/values.py",
    "ingest/*.py",
    "ingest/ball_tables/*.py",
    "clean/*.py",
)
ALSO = ("tests/test_kinds.py", "tests/test_shares.py")  # slow only where the demo is not built yet
WIDE = ("tests/test_golden.py::test_nothing_moved",)  # all that is said of the demo, in seconds
# They are about this, and call nothing of the pipeline.
NEVER = ("tests/test_mutants.py", "tests/test_mutator.py", "tests/test_mutant_trials.py")
ENDS = ("__init__.py", "__main__.py", "stage.py")  # where a stage meets its files: no numbers


class NothingMatches(ValueError):
    """A pattern that stands for no module: the room was renamed, and is no longer looked at."""


def modules(pipeline: Path, patterns: tuple[str, ...] = ROOMS) -> list[str]:
    """Modules of the patterns as names below pipeline/, sorted; the ends of stages are not."""
    found: set[str] = set()
    for pattern in patterns:
        paths = (path for path in pipeline.glob(pattern) if path.name not in ENDS)
        here = {path.relative_to(pipeline).as_posix() for path in paths}
        if not here:
            raise NothingMatches(f"no module is called pipeline/{pattern} (tests/mutants/rooms.py)")
        found |= here
    return sorted(found)


def files_of_tests(tests: Path) -> list[str]:
    """Every file of tests that may be asked, as pytest names it."""
    names = sorted(f"tests/{path.name}" for path in tests.glob("test_*.py"))
    named = (*ALSO, *(wide.split("::")[0] for wide in WIDE))
    missing = [name for name in named if name not in names]
    if missing:
        raise NothingMatches(f"no tests are called {', '.join(missing)} (tests/mutants/rooms.py)")
    return [name for name in names if name not in NEVER]
