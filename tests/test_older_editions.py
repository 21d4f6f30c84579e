"""Editions that version 0.8 made are read as today's: compared, corrected, cited and verified.

`old_edition/` is one that it made of the demo, a beat of nearly every kind; its pages, pictures and
tallies left out, its drawings emptied, its manifests made anew for what is left.
"""

from __future__ import annotations

import json
import shutil
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from msgspec import to_builtins

from pipeline.archive.contents import Asked, merged
from pipeline.archive.stage import archived
from pipeline.brief.background import citations
from pipeline.compare.command import compare
from pipeline.config.load import load
from pipeline.config.topic import Cited
from pipeline.config.views import BriefView, ChartsView, MetricsView, SignificanceView
from pipeline.contracts.files import FORMAT
from pipeline.contracts.upgrades.editions import around_of_format_0, merged_of_format_0
from pipeline.editions.archived_views import settings_today
from pipeline.editions.difference import settings_moved
from pipeline.editions.findings import read_findings
from pipeline.editions.reading import VERIFY, read_fixes, read_inputs, read_view
from pipeline.editions.sides import by_stage
from pipeline.editions.store import read_edition
from pipeline.errata.command import correction
from pipeline.errata.printed import printed
from pipeline.errata.records import archived_records, built_record
from pipeline.errata.search import Places, errata
from pipeline.errors import UserError
from pipeline.rebuild.command import LAST_DIGITS, MOVED, OTHER_FORMAT, rebuild
from pipeline.run import make_topic
from pipeline.shelf.stage import shelf
from pipeline.verify.command import verify
from tests.conftest import ROOT, snakemake
from tests.editions import change, project_of, record
from tests.test_output_schemas import check

OLD = ROOT / "tests" / "old_edition"
MATCHES = ROOT / "tests" / "older" / "tidewater-shield-0.8.zip"  # the demo's, when it was made
TOPIC = "spinners"
SPIN = "middle.economy.spin"
OUT, DATA = Path("output"), Path("output/data")
View = dict[str, Any]


def written(name: str) -> Any:
    """A file of the edition, as it was written."""
    return json.loads((OLD / "data" / name).read_text("utf-8"))


def leaves(value: Any) -> Iterator[Any]:
    """Every number, and every word that is a value."""
    if isinstance(value, dict | list | tuple):
        for part in value.values() if isinstance(value, dict) else value:
            yield from leaves(part)
    elif value is not None:
        yield value


# What is read


def test_it_is_whole(capsys: pytest.CaptureFixture[str]):
    verify([str(OLD)])
    assert capsys.readouterr().out == f"{OLD}: whole: 48 files, edition 1 of {TOPIC}\n"


def test_no_number_of_a_finding_is_lost_or_changed():
    found = read_findings(OLD / "data", VERIFY)
    flat = {one["id"]: one for one in written("findings.json")["findings"]}
    assert [one.id for one in found.findings] == list(flat)
    for one in found.findings:
        then, now = dict(flat[one.id]), to_builtins(one)
        assert now.pop("asks")["measure"] == one.measure
        if then["control"]:
            then["control"] = {k: v for k, v in then["control"].items() if k != "own"}
        assert Counter(leaves(as_then(now))) == Counter(leaves(then)), one.id


# What 0.8 did not write: errors, levels, looks; of a control's change no more than its interval.
OF_EFFECTS = ("se", "df_units", "level", "interval")
OF_CONTROLS = ("p_equal", "p_permutation", "detectable_change", "detectable_difference")


def as_then(now: dict[str, Any]) -> dict[str, Any]:
    """Without what has come since, each of which must be there."""
    del now["asked_at"], now["again"]
    for name in OF_EFFECTS if now["effect"] else ():
        del now["effect"][name]
    if drift := now.get("drift"):
        for name in ("family_size", "unit", "per", "left_out"):
            del drift[name]
        drift["because"] = drift["because"].replace("period", "season")
        for name in ("se", "level", "rho", "factor") if drift["test"] else ():
            del drift["test"][name]
    if turn := now.get("turn"):
        del turn["parts"], turn["rho"]
    if control := now.get("control"):
        del control["because"]
        for name in (*OF_EFFECTS, *OF_CONTROLS):
            del control["effect"][name]
    return now


def test_every_kind_of_answer_and_every_gap_in_it_is_there():
    flat = written("findings.json")["findings"]
    kinds = {"change", "gap", "groups", "mix", "rates", "turn", "player"}
    assert {one["about"] for one in flat} == kinds
    assert {one["refused"] for one in flat} == {None, "few_matches"}
    assert {one["drift"]["verdict"] for one in flat if one["drift"]} == {
        *("beyond the drift", "in line with the drift", "not testable"),
    }
    assert any(one["control"] for one in flat) and any(one["shares"] for one in flat)


def test_the_rest_of_the_findings_is_today_s():
    then, found = written("findings.json"), read_findings(OLD / "data", VERIFY)
    assert found.fingerprint == then["data"]["fingerprint"]
    assert [season.label for season in found.seasons] == then["seasons"]
    assert found.family.cant_tell == then["family"]["cant_tell"]
    assert sum(look.cant_tell for look in found.family.looks) == found.family.cant_tell
    assert found.lists["names.economy"].kept == then["lists"]["names.economy"]["kept"]
    assert list(found.series["when.economy"][0].label) == list("2009")


@pytest.mark.parametrize(
    ("kind", "stage"),
    [
        (MetricsView, "metrics"),
        (SignificanceView, "significance"),
        (ChartsView, "charts"),
        (BriefView, "brief"),
    ],
)
def test_its_settings_are_views_of_today(kind: Any, stage: str):
    view = read_view(OLD / "data", kind, stage, VERIFY)
    then = {beat["id"]: beat["measures"] for beat in written("config/merged.json")[stage]["beats"]}
    assert {beat.id: beat.measures for beat in view.beats} == then


def test_a_control_of_the_event_is_one_of_the_beat():
    then = written("config/merged.json")["significance"]["beats"][0]["control"]
    (beat, *_) = read_view(OLD / "data", BriefView, "brief", VERIFY).beats
    assert then["inherited"] and beat.held_against and beat.held_against.name == then["name"]


def test_settings_that_are_none_are_told_with_their_place(tmp_path: Path):
    settings = written("config/merged.json")
    settings["brief"]["beats"][0]["kind"] = "nothing"
    (tmp_path / "config").mkdir()
    (tmp_path / "config" / "merged.json").write_text(json.dumps(settings), "utf-8")
    with pytest.raises(UserError, match=r"merged\.json: brief\.beats\.0: .*; run .* verify"):
        read_view(tmp_path, BriefView, "brief", VERIFY)


def test_its_corrections_inputs_and_what_was_around_it():
    assert to_builtins(read_fixes(OLD / "data", VERIFY)) == written("corrections.json") != []
    assert to_builtins(read_edition(OLD)) == written("edition.json")
    inputs = read_inputs(OLD / "data", VERIFY)
    assert to_builtins(inputs) == written("inputs.json")
    assert around_of_format_0(written("around.json")) == {"see_also": [], "since": None}
    since = {"old": "a", "facts": [], "edition": 3}
    assert around_of_format_0({"see_also": [], "since": since})["since"] == {
        **{"edition": 3, "difference": {"old": "a", "facts": []}},
    }


def test_settings_of_the_same_files_do_not_differ(tmp_path: Path, monkeypatch):
    """As they are read today, against as they were read then."""
    shutil.copytree(OLD / "data" / "config", tmp_path / "config")
    for name in ("demo_data", "templates"):  # what the configuration names
        (tmp_path / name).symlink_to(ROOT / name)
    for name in ("people", "corrections"):
        shutil.copy(OLD / "data" / "config" / "sheets" / f"{name}.csv", tmp_path / "config")
    monkeypatch.chdir(tmp_path)
    asked = Asked(load(Path("config"), only=TOPIC), TOPIC, OUT / TOPIC, DATA, OUT / "archive")
    now, then = by_stage(merged(asked)), settings_today(OLD / "data")
    assert list(settings_moved(then, now)) == []
    flat = written("config/merged.json")
    assert len(list(settings_moved(flat, now))) > 10, "that is the upgrade's doing"
    change(f"topics/{TOPIC}.yaml", "  before: 5 seasons", "  before: 4 seasons")
    asked = asked._replace(config=load(Path("config"), only=TOPIC))
    (moved,) = settings_moved(then, by_stage(merged(asked)))
    assert (moved.where, moved.was, moved.now) == ("event.before.seasons", 5, 4)


def test_an_edition_of_neither_version_is_told():
    flat = written("config/merged.json")
    with pytest.raises(KeyError):
        merged_of_format_0({key: flat[key] for key in flat if key != "brief"})


# What is done with it


@pytest.fixture(scope="module")
def home(built: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A project with the old edition in its archive, its topic built with one window changed."""
    folder = project_of(built, tmp_path_factory.mktemp("older"))
    for path in (OLD / "data" / "config").glob("*.yaml"):
        shutil.copy(path, folder / "config" / path.name)
    shutil.copy(OLD / "data" / "config" / "topics" / f"{TOPIC}.yaml", folder / "config" / "topics")
    _of_its_data(folder)
    shutil.copytree(OLD, folder / "output" / "archive" / TOPIC / "1")
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        patch.delenv("SOURCE_DATE_EPOCH", raising=False)
        change(f"topics/{TOPIC}.yaml", "  before: 5 seasons", "  before: 4 seasons")
        make_topic(load(Path("config"), only=TOPIC), TOPIC, OUT / TOPIC, DATA, paper=False)
        (OUT / TOPIC / "brief.pdf").write_bytes(b"%PDF-")
        record(TOPIC)
    return folder


def _of_its_data(folder: Path) -> None:
    """The demo has other matches since: those of then, with the corrections of then, cleaned."""
    shutil.copy(MATCHES, folder / "demo_data" / "tidewater-shield.zip")
    for name in ("people", "corrections"):
        shutil.copy(OLD / "data" / "config" / "sheets" / f"{name}.csv", folder / "config")
    shutil.rmtree(folder / "output" / "data")
    shutil.copy(ROOT / "Snakefile", folder)
    shutil.copytree(ROOT / "profiles", folder / "profiles")
    done = snakemake(folder, "output/data/deliveries.parquet")
    assert done.returncode == 0, done.stderr[-2000:]


@pytest.fixture()
def there(home: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The project as the working directory; read only."""
    monkeypatch.chdir(home)
    return home


@pytest.mark.slow
def test_its_findings_answer_the_questions_of_today(there: Path):
    """The same ones, but for the window that was changed."""
    then = {one.id: one.asks for one in read_findings(OLD / "data", VERIFY).findings}
    now = {one.id: one.asks for one in read_findings(OUT / TOPIC, VERIFY).findings}
    assert then.keys() == now.keys()
    for name, asks in then.items():
        changed = asks.sides is not None and len(asks.sides[0]) == 5
        assert (asks.identity == now[name].identity) is not changed, name


@pytest.mark.slow
def test_it_is_compared_with_what_is_built(there: Path, tmp_path: Path, capsys):
    compare([f"{TOPIC}/1", TOPIC, "--json", str(tmp_path / "compared.json")])
    said = capsys.readouterr().out
    found = json.loads((tmp_path / "compared.json").read_text("utf-8"))
    check("compare", found)
    assert not found["same"]
    moved = {fact["id"]: fact["what"] for fact in found["facts"]}
    assert "display" in moved[f"{SPIN}.before"]
    groups = [what for name, what in moved.items() if name.startswith("home.")]
    assert groups and not any({"value", "display", "verdict"} & set(what) for what in groups)
    assert "numbers are as they were, each with a wider interval" in said, "they have no window"
    settings = {each["where"]: each for each in found["causes"]["settings"]}
    assert set(settings) == {"event.before.seasons", "glossary"}  # there was no glossary then
    assert settings["event.before.seasons"] == {"where": "event.before.seasons", "was": 5, "is": 4}
    assert "Setting event.before.seasons: was 5, is 4." in said
    compare([f"{TOPIC}/1", f"output/archive/{TOPIC}/1"])
    assert "they say the same, and draw the same" in capsys.readouterr().out


@pytest.mark.slow
def test_a_number_of_it_is_corrected(there: Path, tmp_path: Path, capsys):
    correction([f"{SPIN}.before", "--json", str(tmp_path / "report.json")])
    said = capsys.readouterr().out
    report = json.loads((tmp_path / "report.json").read_text("utf-8"))
    check("correction", report)
    (edition,) = report["editions"]
    points = (OLD / "data" / "talking-points.md").read_text("utf-8")
    sentences = [item["sentence"] for item in edition["sentences"]]
    assert sentences and all(sentence in points for sentence in sentences)
    assert all(item["own"] for item in edition["sentences"]), "the line names what it is of"
    assert [chart["chart"] for chart in edition["charts"]] == ["middle.economy"]
    assert [row["id"] for row in edition["rows"]] == [f"{SPIN}.before"]
    assert "How it is asked or counted has been changed since." in report["drafts"][0]
    assert "Setting event.before.seasons: was 5, is 4." in said


@pytest.mark.slow
def test_every_number_of_it_can_be_asked_for(there: Path):
    """Lines, forms and names are made of each kind of finding, refused ones too."""
    asked = Asked(load(Path("config"), only=TOPIC), TOPIC, OUT / TOPIC, DATA, OUT / "archive")
    now, editions = built_record(asked), archived_records(OUT / "archive", TOPIC)
    facts = [fact.id for fact in editions[0].side.facts]
    for finding in editions[0].findings.findings:
        names = [name for name in facts if name.startswith(f"{finding.id}.")]
        found = errata(finding.id, names, now, editions, Places(Path("config"), OUT / "archive"))
        assert printed(found)[0] == f"{TOPIC}: {finding.id}"


@pytest.mark.slow
def test_it_is_cited_and_stands_on_the_shelf(there: Path):
    facts = {fact["id"]: fact for fact in written("facts.json")}
    item = Cited(fact=f"{TOPIC}/1:{SPIN}.change", say="As we said")
    (citation,) = citations([item], OUT / "archive", "file")
    assert citation.display == facts[f"{SPIN}.change"]["display"] and citation.later is None
    assert citation.edition == f"{TOPIC}, edition 1, 2026-11-25"
    page = shelf(OUT, [TOPIC], "Publisher")
    assert "edition 1, 2026-11-25" in page and "archive/spinners/1/data/brief.html" in page


@pytest.mark.slow
def test_the_next_edition_says_what_changed_since(there: Path, tmp_path: Path, monkeypatch):
    monkeypatch.setattr("pipeline.brief.stage.pdf", lambda *_: b"%PDF-")
    shutil.copytree(OUT / "archive", tmp_path / "archive")
    asked = Asked(load(Path("config"), only=TOPIC), TOPIC, OUT / TOPIC, DATA, tmp_path / "archive")
    assert archived(asked).startswith(f"{TOPIC}: edition 2 (2026-11-25), ")
    made = tmp_path / "archive" / TOPIC / "2"
    assert "What changed since edition 1" in (made / "data/brief.html").read_text("utf-8")
    around = json.loads((made / "data/around.json").read_text("utf-8"))
    assert around["format"] == FORMAT and around["since"]["edition"] == 1
    verify([str(tmp_path / "archive")])


@pytest.mark.slow
def test_made_again_it_is_of_other_code(there: Path):
    with pytest.raises(UserError) as caught:
        rebuild([f"{TOPIC}/1"])
    said = {str(problem) for problem in caught.value.problems}
    assert {"findings.json: has other bytes", "brief.pdf: not in the edition"} <= said
    code = "why: the program's code or its libraries' pins are not those of then; it was made at"
    assert any(line.startswith(code) for line in said)
    assert {f"why: {reason}" for reason in (OTHER_FORMAT, LAST_DIGITS, MOVED)} & said
