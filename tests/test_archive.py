"""Archive: an edition holds all that it should, is never half made, and repeats to the byte."""

from __future__ import annotations

import csv
import errno
import hashlib
import json
import os
import re
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import bagit
import jsonschema
import pytest
from rocrate.rocrate import ROCrate

from pipeline.archive import bag, contents
from pipeline.archive.inputs import _place
from pipeline.config.views import BriefView
from pipeline.contracts.editions import Around
from pipeline.editions.alike import alike
from pipeline.editions.store import STAGING
from pipeline.errors import UserError, run_stage
from pipeline.topic_files import BRIEF, NUMBERS
from pipeline.verify.command import verify
from tests.editions import archive, change, project_of, record
from tests.tools import needed

pytestmark = pytest.mark.slow
View = dict[str, Any]
TOPIC = "long-grass"
SPINNERS = "kinds.economy.spin-middle.change"


def command(folder: Path, *before: str, **environment: str) -> subprocess.Popen:
    """The stage as the workflow runs it, begun in a project's folder; `before` stand before it."""
    words = ["-m", "pipeline.archive", "--topic", TOPIC, "--out", f"output/{TOPIC}"]
    return subprocess.Popen(
        [*before, sys.executable, *words],
        cwd=folder,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, **environment},
    )


@pytest.fixture(scope="module")
def home(built: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A project whose topic was archived by two processes at the same time."""
    folder = project_of(built, tmp_path_factory.mktemp("archived"), TOPIC)
    around = {"TZ": "Pacific/Kiritimati", "LANG": "C", "PYTHONHASHSEED": "1"}
    started = [command(folder, **around) for _ in range(2)]
    ended = [(*process.communicate(timeout=300), process.returncode) for process in started]
    (folder / "said.json").write_text(json.dumps(ended), "utf-8")
    return folder


@pytest.fixture(scope="module")
def edition(home: Path) -> Path:
    """The first edition of the demo's topic."""
    return home / "output" / "archive" / TOPIC / "1"


@pytest.fixture()
def project(built: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A built project to change and archive in this process; pages are copied, not made anew."""

    def quick(view: BriefView, folder: Path, edition: int, archive: Path) -> Around:
        for name in BRIEF:
            shutil.copy(f"output/{TOPIC}/{name}", folder / name)
        return Around(see_also=[], since=None)

    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    monkeypatch.setattr(contents, "write_brief", quick)
    monkeypatch.chdir(project_of(built, tmp_path, TOPIC))
    return tmp_path


def read(path: Path) -> Any:
    return json.loads(path.read_text("utf-8"))


def state(folder: Path) -> dict[str, bytes]:
    found = (path for path in sorted(folder.rglob("*")) if path.is_file())
    return {str(path.relative_to(folder)): path.read_bytes() for path in found}


def left(project: Path) -> list[str]:
    return sorted(path.name for path in (project / "output" / "archive" / TOPIC).glob("*"))


# What an edition is


def test_the_format_s_own_library_and_program_find_it_whole(edition: Path, capsys):
    assert bagit.Bag(str(edition)).validate()
    program = [sys.executable, bagit.__file__, "--validate", str(edition)]
    assert subprocess.run(program, capture_output=True, check=False).returncode == 0
    verify([str(edition)])
    count = len(state(edition))
    assert capsys.readouterr().out == f"{edition}: whole: {count} files, edition 1 of {TOPIC}\n"


def test_it_keeps_the_rules_of_bagit_1_0(edition: Path):
    """RFC 8493, sections 2.1.1 to 2.2.2."""
    declared = "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"
    assert (edition / "bagit.txt").read_text("utf-8") == declared
    payload = {name for name in state(edition) if name.startswith("data/")}
    tags = {"bagit.txt", "bag-info.txt", "manifest-sha256.txt", "manifest-sha512.txt"}
    for algorithm in ("sha256", "sha512"):
        for kind, names in (("manifest", payload), ("tagmanifest", tags)):
            listed = {}
            for line in (edition / f"{kind}-{algorithm}.txt").read_text("utf-8").splitlines():
                digest, name = line.split("  ")
                listed[name] = digest
            assert set(listed) == names
            for name, digest in listed.items():
                assert hashlib.new(algorithm, (edition / name).read_bytes()).hexdigest() == digest
    info = bagit.Bag(str(edition)).info
    assert info["External-Identifier"] == f"{TOPIC}/1"
    assert info["Source-Organization"] == "Good Length demo"
    assert info["Bagging-Date"] == "2026-11-25"


def test_nothing_in_it_can_be_written(edition: Path):
    modes = [path.stat().st_mode for path in (edition, *edition.rglob("*"))]
    assert not any(mode & 0o222 for mode in modes)


def test_what_it_holds(edition: Path):
    names = {name.removeprefix("data/") for name in state(edition)}
    assert {
        *BRIEF,
        *NUMBERS,
        "README.md",
        *("corrections.json", "quality.json", "inputs.json", "edition.json"),
        *("datapackage.json", "ro-crate-metadata.json", "charts/charts.json"),
        *("charts/contact-sheet.png", "charts/kinds.economy.png", "charts/kinds.economy.csv"),
        *(f"config/{name}.yaml" for name in ("project", "sources", "measures", "formats", "theme")),
        *("config/merged.json", f"config/topics/{TOPIC}.yaml"),
        *(f"config/sheets/{name}.csv" for name in ("players", "grounds", "people", "corrections")),
    } <= names
    assert not any(name.startswith("inputs/") for name in names)  # only when asked for


def test_what_it_holds_is_what_was_there(home: Path, edition: Path):
    """The numbers, charts, settings and sheets byte for byte; the pages with their number."""
    data, here = edition / "data", home
    for name in ("findings.json", "tallies.parquet", "facts.json", "charts/kinds.economy.svg"):
        assert (data / name).read_bytes() == (here / "output" / TOPIC / name).read_bytes()
    for name in ("project.yaml", f"topics/{TOPIC}.yaml"):
        assert (data / "config" / name).read_bytes() == (here / "config" / name).read_bytes()
    sheet = "demo_data/players.csv"
    assert (data / "config/sheets/players.csv").read_bytes() == (here / sheet).read_bytes()
    corrections = read(data / "corrections.json")["corrections"]
    assert corrections == read(data / "findings.json")["corrections"] != []
    assert "Edition 1" in (data / "brief.html").read_text("utf-8")
    merged = read(data / "config/merged.json")
    assert merged["brief"]["topic"] == TOPIC and list(merged["ingest"]) == ["tidewater"]


def test_every_input_is_named_with_its_checksums(home: Path, edition: Path):
    listed = read(edition / "data" / "inputs.json")
    assert listed["match_files_included"] is False
    paths = [item["path"] for item in listed["files"]]
    assert {"demo_data/tidewater-shield.zip", "config/corrections.csv"} <= set(paths)
    for item in listed["files"]:
        content = (home / item["path"]).read_bytes()
        assert item["bytes"] == len(content)
        assert item["sha256"] == hashlib.sha256(content).hexdigest()
        assert item["sha512"] == hashlib.sha512(content).hexdigest()
        assert (item["stored"] is None) == (item["kind"] in ("match file", "font"))


def test_what_it_says_of_itself(edition: Path):
    about = read(edition / "data" / "edition.json")
    assert (about["topic"], about["edition"], about["date"]) == (TOPIC, 1, "2026-11-25")
    assert about["fingerprint"] == read(edition / "data/findings.json")["fingerprint"]
    assert all(re.fullmatch(r"[0-9a-f]{64}", about[key]) for key in ("content", "code"))
    assert about["commit"] is None  # the copy is in no repository
    assert about["rebuild"] == "python -m pipeline rebuild PATH"
    assert all(about["software"].values()) and "duckdb" in about["software"]
    assert [source["licence"] for source in about["sources"]] == ["CC0-1.0"]


def test_a_reader_with_nothing_but_the_folder(edition: Path):
    page = (edition / "data" / "README.md").read_text("utf-8")
    summary = read(edition / "data" / "summary.json")
    for line in (summary["title"], summary["question"], *summary["answer"]):
        assert line in page
    for words in (
        *("bagit.py --validate PATH", "python -m pipeline verify PATH", "rebuild PATH"),
        *("describe play, not intent", "not betting advice", "rights to any footage", "CC0-1.0"),
    ):
        assert words in page
    assert all(
        (edition / "data" / name).exists() for name in re.findall(r"^- `([^`]+)`", page, re.M)
    )


# Editions


def test_the_same_inputs_give_the_same_bytes(built: Path, home: Path, tmp_path: Path):
    """In another folder, time zone, language and order of sets, on a day more than a year later."""
    later = [needed("faketime", package="faketime"), "-f", "+400d"]
    other = project_of(built, tmp_path, TOPIC)
    around = {"TZ": "America/Adak", "LANG": "en_GB.UTF-8", "PYTHONHASHSEED": "2"}
    assert command(other, *later, **around).wait(timeout=300) == 0
    assert state(other / "output" / "archive") == state(home / "output" / "archive")


def test_two_at_once_make_one_edition(home: Path):
    """The second waits, and then sees that the first has said it all."""
    ended = read(home / "said.json")
    assert [code for *_, code in ended] == [0, 0] and not any(errors for _, errors, _ in ended)
    said = sorted(out for out, *_ in ended)
    assert said[0].startswith(f"{TOPIC}: edition 1 (2026-11-25), ")
    assert said[1] == f"{TOPIC}: nothing has changed since edition 1 (2026-11-25)\n"
    assert left(home) == ["1"]


def test_editions_are_numbered_and_never_overwritten(project: Path, monkeypatch):
    assert archive(TOPIC).startswith(f"{TOPIC}: edition 1 (2026-11-25), ")
    place = project / "output" / "archive" / TOPIC
    first = state(place / "1")
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1800000000")  # the date alone is no change
    unchanged = f"{TOPIC}: nothing has changed since edition 1 (2026-11-25)"
    assert archive(TOPIC) == unchanged and left(project) == ["1"]
    change(f"topics/{TOPIC}.yaml", "Begin at the bottom", "Begin at the top")
    assert archive(TOPIC).startswith(f"{TOPIC}: edition 2 (2027-01-15), ")
    assert left(project) == ["1", "2"] and state(place / "1") == first
    assert read(place / "2/data/edition.json")["date"] == "2027-01-15"
    change(f"topics/{TOPIC}.yaml", "Begin at the top", "Begin at the bottom")
    assert "edition 3" in archive(TOPIC)  # back to what edition 1 said is a change too
    verify([str(place)])


def test_an_edition_can_cite_an_earlier_one(home: Path, tmp_path: Path, monkeypatch):
    """The page is made for good: the cited fact is found, the number is printed."""

    def paper(*_: Any) -> bytes:
        os.environ["SOURCE_DATE_EPOCH"] = "0"  # as making the PDF does
        return b"%PDF-"

    shutil.copytree(home, tmp_path / "here")
    monkeypatch.chdir(tmp_path / "here")
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    monkeypatch.setattr("pipeline.brief.stage.pdf", paper)
    cited = f"see_also:\n  - {{fact: '{TOPIC}/1:{SPINNERS}', say: As we said}}\nsponsor:"
    change(f"topics/{TOPIC}.yaml", "sponsor:", cited)
    assert "edition 2" in archive(TOPIC)
    place = tmp_path / "here" / "output" / "archive" / TOPIC / "2"
    page = (place / "data/brief.html").read_text("utf-8")
    assert "Edition 2" in page and f"{TOPIC}, edition 1, 2026-11-25" in page
    assert "SOURCE_DATE_EPOCH" not in os.environ
    verify([str(place)])


def test_a_newest_edition_that_can_t_be_read(project: Path):
    (project / "output" / "archive" / TOPIC / "4").mkdir(parents=True)
    with pytest.raises(UserError, match=r"4/data/edition.json: can't be read.*verify"):
        archive(TOPIC)
    assert left(project) == ["4"]


# What is not archived


def test_a_topic_that_is_not_built(project: Path):
    (project / f"output/{TOPIC}/facts.json").unlink()
    (project / "output/data/quality.json").unlink()
    with pytest.raises(UserError) as found:
        archive(TOPIC)
    assert "quality.json: is gone (clean); run make brief" in str(found.value)
    shutil.rmtree(project / f"output/{TOPIC}")
    with pytest.raises(UserError, match=rf"^output/{TOPIC}: no built topic here; run make brief$"):
        archive(TOPIC)
    assert not (project / "output/archive").exists()


@pytest.mark.parametrize(
    ("file", "old", "new", "named"),
    [
        (f"topics/{TOPIC}.yaml", "before: 5 seasons", "before: 4 seasons", "findings.json"),
        ("project.yaml", "alpha: 0.05", "alpha: 0.01", "findings.json"),
        (f"topics/{TOPIC}.yaml", "title: Where the runs went", "title: No more", None),
        ("measures.yaml", "label: economy", "label: runs an over", "charts.json"),
        ("measures.yaml", "defined: runs charged to the bowler (off", "defined: X (off", "facts"),
    ],
)
def test_outputs_older_than_the_configuration(project: Path, file, old, new, named):
    change(file, old, new)
    if named is None:  # a heading of the pages, which are made anew
        assert "edition 1" in archive(TOPIC)
        return
    with pytest.raises(UserError, match=rf"{named}.*: not what the .* make now; run make brief"):
        archive(TOPIC)
    assert not (project / "output/archive").exists()


@pytest.mark.parametrize(("factor", "accepted"), [(1 + 1e-14, True), (1 + 1e-7, False)])
def test_numbers_that_were_changed_by_hand(project: Path, factor: float, accepted: bool):
    """The last digits may be another processor's; no other digit may differ."""
    path = project / f"output/{TOPIC}/findings.json"
    findings = read(path)
    findings["findings"][0]["effect"]["p"] *= factor
    path.write_text(json.dumps(findings), "utf-8")
    record(TOPIC)
    if accepted:
        assert "edition 1" in archive(TOPIC)
        return
    with pytest.raises(UserError, match=r"findings.json: not what"):
        archive(TOPIC)


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ({"a": [1.0, "x", None]}, {"a": [1.0 + 1e-15, "x", None]}, True),
        ({"a": 1.0}, {"a": 1.0, "b": 1.0}, False),
        ([1.0], [1.0, 1.0], False),
        ([1.0], [1.0001], False),
        ([1], [2], False),
        (["held"], ["changed"], False),
        (0.0, 1e-17, True),
        (None, 0.0, False),
    ],
)
def test_what_is_alike(one: Any, other: Any, same: bool):
    assert alike(one, other) is alike(other, one) is same


def test_a_date_that_is_none(project: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "yesterday")
    with pytest.raises(UserError, match=r"SOURCE_DATE_EPOCH: 'yesterday' is no count of seconds"):
        archive(TOPIC)


# What goes wrong on the way


def full(*_: Any, **__: Any) -> None:
    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


@pytest.mark.parametrize(
    ("module", "name"),
    [
        (contents, "write_brief"),
        (contents, "crate"),
        (bagit, "make_manifests"),
        (bag, "write_atomically"),
    ],
)
def test_a_full_disk_leaves_nothing_half_made(
    project: Path, monkeypatch, capsys, caplog, module, name
):
    with monkeypatch.context() as patch:
        patch.setattr(module, name, full)
        with pytest.raises(SystemExit) as ended:
            run_stage(lambda: print(archive(TOPIC)))
    assert ended.value.code == 1 and left(project) == []
    said = f"output/archive/{TOPIC}: No space left on device: check the path and the free space\n"
    assert capsys.readouterr() == ("", said) and not caplog.records
    archive(TOPIC)
    assert left(project) == ["1"]
    verify([f"output/archive/{TOPIC}"])


@pytest.mark.parametrize("how", [signal.SIGTERM, signal.SIGKILL])
def test_a_killed_run_leaves_nothing_with_a_number(project: Path, how: signal.Signals):
    running = command(project)
    place = project / "output" / "archive" / TOPIC
    while not list(place.glob(f"{STAGING}*/*")) and running.poll() is None:
        time.sleep(0.01)
    running.send_signal(how)
    running.communicate(timeout=60)
    assert running.returncode != 0
    if how == signal.SIGTERM:
        assert left(project) == []
    else:
        assert [name.startswith(STAGING) for name in left(project)] == [True]
    archive(TOPIC)
    assert left(project) == ["1"]


def test_what_a_killed_run_left_is_cleared_even_if_protected(project: Path, tmp_path: Path):
    place = project / "output" / "archive" / TOPIC
    (place / f"{STAGING}1" / "data").mkdir(parents=True)
    (place / f"{STAGING}1" / "data" / "x").write_text("")
    (place / f"{STAGING}1" / "data").chmod(0o555)
    (place / f"{STAGING}2").symlink_to(tmp_path / "config")
    archive(TOPIC)
    assert left(project) == ["1"] and (tmp_path / "config" / "project.yaml").exists()


# The match files themselves


@pytest.mark.parametrize(
    ("path", "stored"),
    [
        ("demo_data/tidewater-shield.zip", "inputs/demo_data/tidewater-shield.zip"),
        ("../outside/tidewater-shield.zip", "inputs/tidewater/tidewater-shield.zip"),
    ],
)
def test_match_files_are_kept_where_that_is_allowed(built: Path, project: Path, path, stored):
    archive(TOPIC)
    outside = project / path
    outside.parent.mkdir(exist_ok=True)
    if not outside.exists():
        shutil.copy(built / "demo_data/tidewater-shield.zip", outside)
    change("sources.yaml", "demo_data/tidewater-shield.zip", path)
    with Path("config/project.yaml").open("a", encoding="utf-8") as file:
        file.write("archive: {include_data: true}\n")
    assert "edition 2" in archive(TOPIC)
    data = project / "output" / "archive" / TOPIC / "2" / "data"
    item = read(data / "inputs.json")["files"][0]
    assert (item["path"], item["stored"]) == (path, stored)
    assert (item["note"] is not None) == (".." in path)
    assert (data / stored).read_bytes() == outside.read_bytes()
    assert broken_rules(read(data / "ro-crate-metadata.json"), data) == []
    verify([str(data.parent)])


def test_where_each_match_file_is_kept():
    taken: set[str] = set()
    paths = ["a/m.json", "/a/m.json", "../m.json", "a/../m.json", "a/%0A.json", "a/m\n.json"]
    places = [_place(path, "cup", taken)[0] for path in paths]
    assert places == [
        *("inputs/a/m.json", "inputs/cup/m.json", "inputs/cup/2-m.json", "inputs/cup/3-m.json"),
        *("inputs/cup/_0A.json", "inputs/cup/m_.json"),
    ]


# RO-Crate 1.2: what its specification says an attached crate MUST have


def broken_rules(crate: View, root: Path) -> list[str]:
    """The rules that a crate breaks, each with the section of the specification it is from."""
    graph = crate.get("@graph", [])
    by_id = {entity.get("@id"): entity for entity in graph}
    itself = by_id.get("ro-crate-metadata.json", {})
    top = by_id.get(itself.get("about", {}).get("@id"), {})
    files = [entity for entity in graph if "File" in kinds(entity)]
    here = [entity for entity in files if not entity["@id"].startswith("#")]
    parts = {part["@id"] for part in top.get("hasPart", [])}
    references = [value for entity in graph for value in nested(entity)]
    date = str(top.get("datePublished"))
    named = {"#publisher", "#making", "#licence", "#good-length"}
    held = {
        "RO-Crate Structure: the context is that of the specification, by reference": crate.get(
            "@context"
        )
        == "https://w3id.org/ro/crate/1.2/context",
        "Metadata Descriptor: there is one, a CreativeWork, about the root": kinds(itself)
        == ["CreativeWork"]
        and itself.get("conformsTo") == {"@id": "https://w3id.org/ro/crate/1.2"},
        "Root Data Entity: it is './', a Dataset": top.get("@id") == "./"
        and "Dataset" in kinds(top),
        "Root Data Entity: name, description, datePublished and license are there": all(
            top.get(key) for key in ("name", "description", "datePublished", "license")
        ),
        "Root Data Entity: datePublished is one ISO 8601 date": bool(
            re.fullmatch(r"\d{4}-\d\d-\d\d", date)
        ),
        "Root Data Entity: the license is an entity with name and description": {
            "name",
            "description",
        }
        <= set(by_id.get((top.get("license") or {}).get("@id"), {})),
        "Common principles: every entity has an @id and a @type": all(
            entity.get("@id") and entity.get("@type") for entity in graph
        ),
        "Common principles: no @id stands twice": len(by_id) == len(graph),
        "Common principles: other entities are referred to by {'@id': ...} alone": all(
            list(value) == ["@id"] for value in references
        ),
        "RO-Crate JSON-LD: what is referred to is described": all(
            value["@id"] in by_id or value["@id"].startswith("https://w3id.org/ro/")
            for value in references
        ),
        "Data Entities: every file is linked from the root by hasPart": {f["@id"] for f in here}
        <= parts,
        "File Data Entity: a file with a relative @id is in the crate": all(
            (root / entity["@id"]).is_file() and ".." not in entity["@id"] for entity in here
        ),
        "File Data Entity (SHOULD): name, encodingFormat and contentSize": all(
            {"name", "encodingFormat", "contentSize"} <= set(entity) for entity in files
        )
        and all(
            entity["contentSize"] == str((root / entity["@id"]).stat().st_size)
            for entity in here
            if (root / entity["@id"]).exists()
        ),
        "Provenance: an Action's endTime is an ISO 8601 date, its software has a version": all(
            re.fullmatch(r"\d{4}-\d\d-\d\d", entity.get("endTime", ""))
            for entity in graph
            if kinds(entity) == ["CreateAction"]
        )
        and all(e.get("version") for e in graph if kinds(e) == ["SoftwareApplication"]),
        "this project: the named entities are there": named <= set(by_id),
    }
    return [rule for rule, kept in held.items() if not kept]


def kinds(entity: View) -> list[str]:
    found = entity.get("@type", [])
    return found if isinstance(found, list) else [found]


def nested(entity: View) -> list[View]:
    """Values of an entity that are objects."""
    values = [
        v for value in entity.values() for v in (value if isinstance(value, list) else [value])
    ]
    return [value for value in values if isinstance(value, dict)]


def test_the_crate_keeps_the_rules_of_its_specification(edition: Path):
    crate = read(edition / "data" / "ro-crate-metadata.json")
    assert broken_rules(crate, edition / "data") == []
    every = {name.removeprefix("data/") for name in state(edition) if name.startswith("data/")}
    (top,) = [entity for entity in crate["@graph"] if entity["@id"] == "./"]
    assert {part["@id"] for part in top["hasPart"]} == every - {"ro-crate-metadata.json"}


@pytest.mark.parametrize(
    ("entity", "key", "value", "rule"),
    [
        ("ro-crate-metadata.json", "about", {"@id": "#"}, "Root Data Entity: it is"),
        ("./", "license", None, "Root Data Entity: name"),
        ("./", "datePublished", "25/11/2026", "one ISO 8601 date"),
        ("./", "hasPart", [], "linked from the root"),
        ("brief.pdf", "@id", "brief.ps", "is in the crate"),
        ("brief.pdf", "contentSize", "1", "contentSize"),
        ("#making", "instrument", {"@id": "#x"}, "is described"),
        ("#making", "instrument", {"@id": "#good-length", "name": "x"}, "alone"),
        ("#good-length", "version", None, "Provenance"),
        ("facts.csv", "@type", None, "@id and a @type"),
    ],
)
def test_the_rules_can_be_broken(edition: Path, entity, key, value, rule):
    crate = read(edition / "data" / "ro-crate-metadata.json")
    (found,) = [each for each in crate["@graph"] if each["@id"] == entity]
    found[key] = value
    assert any(rule in broken for broken in broken_rules(crate, edition / "data"))


def test_the_crate_says_how_the_brief_came_about(edition: Path):
    """Read by the library of the specification's authors."""
    crate = ROCrate(str(edition / "data"))
    assert crate.metadata.version == "1.2"
    assert crate.description == read(edition / "data" / "summary.json")["question"]
    (action,) = crate.get_by_type("CreateAction")
    assert {file.id for file in action["result"]} >= {"brief.pdf", "facts.csv"}
    assert action["instrument"]["name"] == "Good Length"
    wanted = {library["name"] for library in action["instrument"]["softwareRequirements"]}
    assert {"python", "duckdb", "scipy", "weasyprint"} <= wanted
    used = {each["name"]: each.get("sha256") for each in action["object"]}
    raw = (edition.parents[3] / "demo_data/tidewater-shield.zip").read_bytes()
    assert used["demo_data/tidewater-shield.zip"] == hashlib.sha256(raw).hexdigest()


# Data Package 2.0: the constraints of its published profiles that bear on CSV tables

PATH = r"^((?=[^./~])(?!file:)((?!\/\.\.\/)(?!\\)(?!:\/\/).)*|(http|ftp)s?:\/\/.*)$"
LICENCES = {
    "type": "array",
    "minItems": 1,
    "items": {
        "type": "object",
        "anyOf": [{"required": ["name"]}, {"required": ["path"]}],
        "properties": {
            "name": {"type": "string", "pattern": "^([-a-zA-Z0-9._])+$"},
            "path": {"type": "string", "pattern": PATH},
            "title": {"type": "string"},
        },
    },
}
FIELD = {
    "type": "object",
    "required": ["name"],
    "properties": {
        "name": {"type": "string"},
        "type": {"enum": ["string", "number", "integer", "boolean", "date", "any"]},
        "description": {"type": "string"},
    },
}
RESOURCE = {
    "type": "object",
    "required": ["name", "path"],
    "properties": {
        "name": {"type": "string"},
        "path": {"type": "string", "pattern": PATH},
        "type": {"enum": ["table"]},
        "format": {"type": "string"},
        "mediatype": {"type": "string", "pattern": "^(.+)/(.+)$"},
        "encoding": {"type": "string"},
        "bytes": {"type": "integer"},
        "hash": {
            "type": "string",
            "pattern": "^([^:]+:[a-fA-F0-9]+|[a-fA-F0-9]{32}|)$",
        },
        "schema": {
            "type": "object",
            "required": ["fields"],
            "properties": {"fields": {"type": "array", "minItems": 1, "items": FIELD}},
        },
    },
}
PROFILE = {
    "type": "object",
    "required": ["resources"],
    "properties": {
        "$schema": {"const": "https://datapackage.org/profiles/2.0/datapackage.json"},
        "name": {"type": "string"},
        "id": {"type": "string"},
        "title": {"type": "string"},
        "description": {"type": "string"},
        "version": {"type": "string"},
        "licenses": LICENCES,
        "sources": {"type": "array", "items": {"type": "object", "minProperties": 1}},
        "resources": {"type": "array", "minItems": 1, "items": RESOURCE},
    },
}
CELLS = {
    "number": r"-?\d+(\.\d+)?([eE][+-]?\d+)?",
    "integer": r"-?\d+",
    "boolean": "True|False",
    "date": r"\d{4}-\d\d-\d\d",
}


def test_the_tables_are_what_their_data_package_says(edition: Path):
    package = read(edition / "data" / "datapackage.json")
    jsonschema.Draft7Validator(PROFILE).validate(package)
    tables = {resource["path"] for resource in package["resources"]}
    assert tables == {
        name.removeprefix("data/")
        for name in state(edition)
        if re.fullmatch(r"data/(facts|charts/.*)\.csv", name)
    }
    assert len({resource["name"] for resource in package["resources"]}) == len(tables)
    for resource in package["resources"]:
        check_table(edition / "data" / resource["path"], resource)


def check_table(path: Path, resource: View) -> None:
    """Size, checksum, columns, and that every cell is of its column's type."""
    content = path.read_bytes()
    assert resource["bytes"] == len(content)
    assert resource["hash"] == f"sha256:{hashlib.sha256(content).hexdigest()}"
    header, *rows = csv.reader(content.decode("utf-8").splitlines())
    fields = resource["schema"]["fields"]
    assert [field["name"] for field in fields] == header
    assert not [f["name"] for f in fields if f["description"].endswith("as drawn")]
    for at, field in enumerate(fields):
        if field["type"] in CELLS:
            cells = [row[at] for row in rows if row[at]]
            assert cells and all(re.fullmatch(CELLS[field["type"]], cell) for cell in cells)


def test_columns_that_look_like_numbers_and_are_names(edition: Path):
    package = read(edition / "data" / "datapackage.json")
    (trend,) = [r for r in package["resources"] if r["path"] == "charts/rate.run_rate.csv"]
    types = {field["name"]: field["type"] for field in trend["schema"]["fields"]}
    assert types["period"] == "string" and types["value"] == "number"
    assert types["matches"] == types["balls"] == "integer"
    assert types["first"] == types["last"] == "date" and types["part"] == "boolean"
