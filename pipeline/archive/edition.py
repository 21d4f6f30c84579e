"""What an edition says of itself: number, date, what it was made of and with, how to make it again.

Nothing here comes from the clock, so that the same inputs give the same bytes.
"""

from __future__ import annotations

import os
import platform
import subprocess
import tomllib
from datetime import UTC, date, datetime
from importlib.metadata import PackageNotFoundError, version

from pipeline.archive.beneath import beneath
from pipeline.archive.contents import Asked, files_of_charts, said_by
from pipeline.config.project import Source
from pipeline.contracts.editions import Commit, Credit, Edition
from pipeline.contracts.files import read_json
from pipeline.contracts.findings import Findings
from pipeline.contracts.selection import Fix
from pipeline.editions.reading import MAKE, read_charts
from pipeline.errors import Problem, UserError
from pipeline.hashes import file_hash, value_hash
from pipeline.kept_script import kept_files
from pipeline.provenance import ROOT, code_hash
from pipeline.wording.credits import credited

LIBRARIES = (
    *("snakemake", "pandas", "numpy", "scipy", "duckdb", "matplotlib", "weasyprint", "jinja2"),
    *("pyarrow", "bagit"),
)
CODE = ("pipeline", "templates", "Snakefile", "requirements.lock")
REBUILD = "python -m pipeline rebuild PATH"


def edition_of(asked: Asked, number: int, content: str) -> Edition:
    """edition.json; `content` is `content_of` the topic."""
    topic = asked.config.topics[asked.topic]
    findings = read_json(asked.built / "findings.json", Findings, MAKE)
    return Edition(
        topic=asked.topic,
        title=topic.title,
        question=topic.question,
        publisher=asked.config.project.title,
        edition=number,
        date=dated(_credited(asked, findings), findings.corrections),
        fingerprint=findings.fingerprint,
        content=content,
        code=code_hash(),
        commit=commit(),
        software=software(),
        rebuild=REBUILD,
        sources=[_credit(source) for source in _credited(asked, findings)],
    )


def _credit(source: Source) -> Credit:
    return Credit(
        id=source.id,
        title=source.title,
        publisher=source.publisher,
        licence=source.licence,
        url=source.url,
        retrieved=source.retrieved,
        credit=source.credit_line,
        notice=source.notice,
    )


def content_of(asked: Asked) -> str:
    """sha256 over what an edition would say: numbers, charts, configuration, kept script, code.

    The date, the versions of libraries and the number of the edition are not in it; whether the
    match files are to be kept is, so that asking for them makes a new edition.
    """
    made = files_of_charts(read_charts(asked.built, MAKE))
    drawn = {name: file_hash(asked.built / "charts" / name) for name in made}
    names = ("findings.json", "facts.json", "tallies.parquet")
    numbers = {name: file_hash(asked.built / name) for name in names}
    keep = asked.config.project.archive.include_data
    kept = kept_files(asked.config.topic_file(asked.topic))
    scripts = [file_hash(path) for path in kept]
    return value_hash([numbers, drawn, said_by(asked), code_hash(), keep, *scripts])


def _credited(asked: Asked, findings: Findings) -> list[Source]:
    """The sources whose balls the brief stands on."""
    return credited([asked.config.sources[name] for name in asked.sources], findings.data)


def dated(sources: list[Source], fixes: list[Fix]) -> date:
    """SOURCE_DATE_EPOCH where it is set, else the newest date of the sources and corrections."""
    given = os.environ.get("SOURCE_DATE_EPOCH")
    if given is None:
        retrieved = [source.retrieved for source in sources]
        return max([*retrieved, *(fix.date for fix in fixes)])
    try:
        return datetime.fromtimestamp(int(given), UTC).date()
    except (ValueError, OverflowError, OSError):
        message = f"'{given}' is no count of seconds since 1970; set it right, or unset it"
        raise UserError(Problem("SOURCE_DATE_EPOCH", message)) from None


def commit() -> Commit | None:
    """The commit the code is at, and whether code was changed since; None outside a repository."""
    if not _git("ls-files", CODE[0]):  # not this project's repository
        return None
    changed = _git("status", "--porcelain", "--", *CODE)
    head = _git("rev-parse", "HEAD")
    return Commit(id=head, with_changes_that_are_not_committed=changed != "") if head else None


def _git(*words: str) -> str | None:
    """What git says; None when it says nothing, isn't there, or fails."""
    command = ["git", "-C", str(ROOT), *words]
    try:
        done = subprocess.run(command, capture_output=True, text=True, check=True, timeout=60)
    except (OSError, subprocess.SubprocessError):
        return None
    return done.stdout.strip()


def software() -> dict[str, str | None]:
    """Versions of Good Length, of Python and of the libraries that numbers and pages rest on."""
    return {
        "good-length": own_version(),
        "python": platform.python_version(),
        **{name: _version(name) for name in LIBRARIES},
        **beneath(),
    }


def own_version() -> str | None:
    try:
        project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
        return str(project["version"])
    except (OSError, ValueError, KeyError):
        return None


def _version(name: str) -> str | None:
    try:
        return version(name)
    except PackageNotFoundError:
        return None
