"""A script beside a topic: checked before the brief, told on it, kept in editions, by command."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path
from random import Random

import pytest

from pipeline.archive import contents
from pipeline.brief.stage import write_brief
from pipeline.build.leftovers import leftovers
from pipeline.config import views
from pipeline.config.load import load
from pipeline.config.topic_names import passed_over
from pipeline.contracts.editions import FromEditions
from pipeline.contracts.files import read_json
from pipeline.contracts.script_check import FileState, ScriptCheck, ScriptChecks, ScriptState
from pipeline.editions.reading import MAKE, read_around, read_facts
from pipeline.errors import UserError
from pipeline.kept_script import said_files
from pipeline.preview.remake import Remake
from pipeline.records.steps import Steps
from pipeline.script.check_command import script_check
from pipeline.script.earlier_facts import earlier_facts
from pipeline.script.file_checked import file_checked
from pipeline.script.held_against import by_facts
from pipeline.script.stage import write_check
from pipeline.shelf.stage import shelf
from pipeline.topic_files import CHECK
from tests.editions import TOPIC, archive, project_of, record
from tests.fact_makers import archive_facts, edition
from tests.fact_makers import fact as made_fact
from tests.faults.made import captions
from tests.test_errata_command import quick
from tests.test_fact_forms import MOVE, VALUE, fact

OUT = Path("output") / TOPIC
PLAIN = Path(f"config/topics/{TOPIC}.script.txt")
KEPT = Path(f"config/topics/{TOPIC}.script.md")
CAPTIONS = Path(f"config/topics/{TOPIC}.vtt")
CHANGE = "coast.economy.pace.change"
VTT = "WEBVTT\n\n00:05.000 --> 00:07.000\n{}\n"


def test_earlier_editions_are_asked_for_what_moved_alone(tmp_path: Path):
    """The newest first; what is said alike today is nothing that could be stale."""
    old = [fact(MOVE, display="−9.0%", spoken="nine per cent down"), fact(VALUE)]
    archive_facts(tmp_path, edition(topic="t", edition=1), *old, made_fact("gone", "3"))
    archive_facts(tmp_path, edition(topic="t", edition=2), fact(MOVE), fact(VALUE))
    archive_facts(tmp_path, edition(topic="t", edition=10), fact(MOVE, verdict="held"))
    found = earlier_facts("t", [fact(MOVE), fact(VALUE)], tmp_path)
    assert [(one.edition, [each.id for each in one.facts]) for one in found] == [
        ("t/10", ["b.economy.change"]),
        ("t/1", ["b.economy.change", "gone"]),
    ]
    assert earlier_facts("t", [], tmp_path / "none") == []


def test_names_beside_a_topic_are_read_and_others_passed_over(tmp_path: Path):
    (tmp_path / "t.yaml").touch()
    for name in ("t.script.md", "t.script.txt", "t.srt", "t.vtt", "t.script.json"):
        (tmp_path / name).touch()
    for name in ("u.vtt", "t.script.docx", "t.txt"):
        (tmp_path / name).touch()
    assert [path.name for path in said_files(tmp_path / "t.yaml")] == [
        *("t.script.md", "t.script.txt", "t.vtt", "t.srt")
    ]
    assert passed_over(tmp_path) == ["t.script.docx", "t.txt", "u.vtt"]


@pytest.fixture
def project(built: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The demo with one topic built, in a folder whose name is no plain word."""
    folder = tmp_path / "the sea, é"
    folder.mkdir()
    monkeypatch.chdir(project_of(built, folder))
    record()
    return folder


def made() -> None:
    """The check and the pages of today's configuration, without the PDF."""
    view = views.brief(load(Path("config"), only=TOPIC), TOPIC)
    write_check(view, OUT)
    write_brief(view, OUT, paper=False)
    record()


def steps() -> dict[str, tuple[str, list[str]]]:
    """What each stage of the topic is made from, and reads."""
    found = Steps(load(Path("config"), only=TOPIC), Path("output")).topic(TOPIC)
    return {step.stage: (step.seen, step.reads) for step in found}


def said(fact_id: str = CHANGE) -> str:
    return next(one.spoken for one in read_facts(OUT, MAKE) if one.id == fact_id)


def right() -> str:
    """A sentence that says a fact as it is."""
    return f"Off pace, runs an over by the coast are {said()} on inland."


@pytest.mark.slow
def test_without_a_script_there_is_no_stage_and_no_output(project: Path):
    assert "script" not in steps()
    made()
    assert not [name for name in CHECK if (OUT / name).exists()]
    assert "script-check" not in (OUT / "brief.html").read_text("utf-8")
    assert json.loads((OUT / "summary.json").read_text("utf-8"))["checked"] == []


@pytest.mark.slow
def test_a_script_is_checked_and_told_on_brief_script_and_shelf(project: Path):
    before = steps()
    PLAIN.write_text(f"{right()}\nRuns off pace rose twelve per cent.\n", "utf-8")
    CAPTIONS.write_text(VTT.format("we looked at it again"), "utf-8")
    after = steps()
    assert {stage for stage in before if before[stage] != after[stage]} == {"brief"}
    assert f"{OUT}/script-state.json" in after["brief"][1]
    made()
    state = read_json(OUT / "script-state.json", ScriptState).files
    assert [one.captions for one in state] == [False, True] and state[0].numbers >= 2
    assert state[1].numbers == 0
    page, brief = ((OUT / name).read_text("utf-8") for name in ("script-check.html", "brief.html"))
    mend = state[0].to_mend + state[0].claims
    told = f"Script checked: {state[0].numbers} numbers, {mend} to mend"
    assert f'<a href="script-check.html">{told}' in brief and told in page
    assert told in (OUT / "script.html").read_text("utf-8")
    assert f"{TOPIC}/script-check.html" in shelf(Path("output"), [TOPIC], "Us")
    found = read_json(OUT / "script-check.json", ScriptChecks).checks
    assert [Path(one.file).name for one in found] == [PLAIN.name, CAPTIONS.name]
    assert found[0].sentences[0].numbers[0].result == "supported"
    assert found[1].sentences[0].start == 5000


@pytest.mark.slow
def test_another_script_makes_its_check_anew_and_the_brief_only_if_that_moves(project: Path):
    PLAIN.write_text(right(), "utf-8")
    made()
    before, state = steps(), (OUT / "script-state.json").read_bytes()
    PLAIN.write_text(f"Well now. {right()}", "utf-8")
    after = steps()
    assert {stage for stage in before if before[stage] != after[stage]} == {"script"}
    made()
    assert (OUT / "script-state.json").read_bytes() == state


@pytest.mark.slow
def test_files_that_say_the_same_stay_and_their_times_with_them(project: Path):
    PLAIN.write_text(right(), "utf-8")
    made()
    before = {name: (OUT / name).stat().st_mtime_ns for name in CHECK}
    write_check(views.brief(load(Path("config"), only=TOPIC), TOPIC), OUT)
    assert {name: (OUT / name).stat().st_mtime_ns for name in CHECK} == before
    PLAIN.write_text(f"Well now. {right()}", "utf-8")
    write_check(views.brief(load(Path("config"), only=TOPIC), TOPIC), OUT)
    moved = {name for name in CHECK if (OUT / name).stat().st_mtime_ns != before[name]}
    assert moved == set(CHECK) - {"script-state.json"}


@pytest.mark.slow
def test_what_is_made_aside_prints_no_path(project: Path, capsys: pytest.CaptureFixture[str]):
    PLAIN.write_text(f"{right()} Off pace, they are seventy per cent higher.", "utf-8")
    made()
    assert "script-check.html" in capsys.readouterr().out
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(contents, "write_brief", quick)
        archive()
    assert ".new." not in capsys.readouterr().out


@pytest.mark.slow
def test_a_script_that_is_gone_leaves_a_check_that_nothing_reads(project: Path):
    PLAIN.write_text(right(), "utf-8")
    made()
    PLAIN.unlink()
    made()
    assert "script" not in steps()
    assert "script-check" not in (OUT / "brief.html").read_text("utf-8")
    left = [path.name for path in leftovers(Path("config"), Path("output"))]
    assert sorted(left) == sorted(CHECK)


@pytest.mark.slow
def test_a_mistake_in_a_script_is_told_and_earlier_outputs_stay(project: Path):
    PLAIN.write_text(right(), "utf-8")
    made()
    before = {name: (OUT / name).read_bytes() for name in CHECK}
    KEPT.write_text("# T\n\nIt was {{ coast.economy.pace.chang | said }}.\n", "utf-8")
    CAPTIONS.write_bytes(b"\xff\xfe")
    with pytest.raises(UserError) as caught:
        made()
    problems = [str(each) for each in caught.value.problems]
    assert len(problems) == 2 and problems[0].startswith(f"{KEPT}:3:8: no fact 'coast.economy.")
    assert problems[1].startswith(f"{CAPTIONS}:1:1: not UTF-8 text")
    assert {name: (OUT / name).read_bytes() for name in CHECK} == before


@pytest.mark.slow
def test_an_edition_keeps_script_and_check_and_what_it_was_held_to(
    project: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setattr(contents, "write_brief", quick)
    archive()
    facts = Path(f"output/archive/{TOPIC}/1/data/facts.json")
    facts.chmod(0o644)
    text = facts.read_text("utf-8")
    facts.write_text(text.replace(said(), "forty per cent down", 1), "utf-8")
    PLAIN.write_text(right(), "utf-8")
    CAPTIONS.write_text(VTT.format("we looked at it again"), "utf-8")
    made()
    archive()
    data = Path(f"output/archive/{TOPIC}/2/data")
    for path in (PLAIN, CAPTIONS):
        assert (data / path).read_bytes() == path.read_bytes()
    for name in CHECK:
        assert (data / name).read_bytes() == (OUT / name).read_bytes()
        assert f"`{name}`" in (data / "README.md").read_text("utf-8")
    crate = json.loads((data / "ro-crate-metadata.json").read_text("utf-8"))["@graph"]
    (making,) = [entity for entity in crate if entity["@id"] == "#making"]
    assert set(CHECK) <= {item["@id"] for item in making["result"]}
    (earlier,) = read_around(data, "").script.earlier
    assert earlier.edition == f"{TOPIC}/1" and CHANGE in {one.id for one in earlier.facts}
    PLAIN.write_text(f"{right()} Another line.", "utf-8")
    assert archive().endswith(f"is in output/archive/{TOPIC}/3"), (
        "another script is another edition"
    )


@pytest.mark.slow
def test_a_fact_that_is_cited_of_another_topic_is_known(
    project: Path, built: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setattr(contents, "write_brief", quick)
    shutil.copytree(built / "output" / "long-grass", "output/long-grass")
    record("long-grass")
    archive("long-grass")
    text = "Spin's economy in the middle overs fell by eight and a half per cent across the grass."
    PLAIN.write_text(text, "utf-8")
    made()
    assert state().to_check + state().to_mend == 1
    file = Path(f"config/topics/{TOPIC}.yaml")
    cited = "long-grass/1:kinds.economy.spin-middle.change"
    file.write_text(file.read_text("utf-8") + f"\nsee_also: [{{fact: '{cited}'}}]\n", "utf-8")
    made()
    ((number,),) = [one.numbers for one in checks()[0].sentences]
    assert (number.result, number.fact) == ("supported", "kinds.economy.spin-middle.change")
    assert number.said == "eight and a half per cent"
    page = (OUT / "script-check.html").read_text("utf-8")
    assert "brief.html#fact-kinds" not in page, "it is another brief's"
    archive()
    (kept,) = read_around(Path(f"output/archive/{TOPIC}/1/data"), "").script.cited
    assert kept.edition == "long-grass/1" and [fact.id for fact in kept.facts] == [number.fact]
    view = views.brief(load(Path("config"), only=TOPIC), TOPIC)
    before = (OUT / "script-check.json").read_bytes()
    write_check(view, OUT, Path("none"), FromEditions(cited=[kept]))
    assert (OUT / "script-check.json").read_bytes() == before, "made again without that edition"


def state() -> FileState:
    (found,) = read_json(OUT / "script-state.json", ScriptState).files
    return found


def checks() -> list[ScriptCheck]:
    return read_json(OUT / "script-check.json", ScriptChecks).checks


@pytest.mark.slow
def test_the_preview_makes_the_check_too(project: Path):
    config = load(Path("config"), only=TOPIC)
    mine = Remake(TOPIC, Path("preview"), Path("output/data"), Path("output/archive"))
    assert mine.update(config) == ["metrics", "significance", "charts", "brief"]
    PLAIN.write_text(right(), "utf-8")
    assert mine.update(config) == ["script", "brief"]
    assert "script-check.html" in Path("preview/brief.html").read_text("utf-8")
    assert right().split(" by")[0] in _text(Path("preview/script-check.html"))
    PLAIN.unlink()
    assert mine.update(config) == ["brief"]


def _text(page: Path) -> str:
    return re.sub(r"<[^>]+>", "", page.read_text("utf-8"))


@pytest.mark.slow
def test_whatever_is_in_a_file_is_judged_or_refused(project: Path, tmp_path: Path):
    known = by_facts(views.brief(load(Path("config"), only=TOPIC), TOPIC), OUT, tmp_path)
    judged = refused = 0
    for seed in range(400):
        path = captions(Random(seed), tmp_path)
        try:
            found = file_checked(path, TOPIC, known.facts, known.judge)
        except UserError as error:
            refused += 1
            assert all(str(path) in str(problem) for problem in error.problems)
            continue
        judged += 1
        for sentence, passage in zip(found.check.sentences, found.passages, strict=True):
            assert sentence.text == passage.text
            for one in (*sentence.numbers, *sentence.claims):
                assert 0 <= one.begins < one.ends <= len(passage.text)
                assert passage.text[one.begins : one.ends] == one.said
    assert judged > 300 and refused > 5


@pytest.mark.slow
def test_the_command_s_exit_status_says_whether_a_number_is_wrong(
    project: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
):
    good, bad, report = tmp_path / "good.txt", tmp_path / "bad.md", tmp_path / "report.json"
    good.write_text(f"{right()} The data can’t tell whether that is so.", "utf-8")
    bad.write_text(f"# T\n\n{right()} Off pace, they are seventy per cent higher.\n", "utf-8")
    script_check([TOPIC, str(good), "--json", str(report)])
    printed = capsys.readouterr().out
    assert printed.startswith(f"{good}\n  Script checked: 1 number, none to mend")
    assert read_json(report, ScriptChecks).checks[0].file == good.as_posix()
    with pytest.raises(SystemExit) as ended:
        script_check([TOPIC, str(good), str(bad)])
    assert ended.value.code == 1
    printed = capsys.readouterr().out
    assert "To mend" in printed and "line 3" in printed and "seventy per cent" in printed
    assert max(map(len, printed.splitlines())) <= max(100, len(str(bad)))


@pytest.mark.slow
def test_the_command_reads_what_stands_beside_the_topic(
    project: Path, capsys: pytest.CaptureFixture[str]
):
    with pytest.raises(UserError, match=r"no script and no captions; write one of .*script\.md"):
        script_check([TOPIC])
    CAPTIONS.write_text(VTT.format("off pace it is seventy per cent higher by the coast"), "utf-8")
    with pytest.raises(SystemExit):
        script_check([TOPIC])
    printed = capsys.readouterr().out
    assert "Captions checked: 1 number, 2 to mend, 1 of them a claim that goes" in printed
    assert "00:05 Correction: we say" in printed


@pytest.mark.slow
@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["nowhere"], "no topic 'nowhere'"),
        (["long-grass", "a.txt"], "make brief"),
        ([TOPIC, "none.vtt"], "none.vtt: can't be read: No such file"),
        ([TOPIC, "none.md"], "none.md: no such file"),
        ([TOPIC, "config"], "config: not a file of captions or a script"),
    ],
)
def test_what_can_t_be_checked_is_told_in_a_line(project: Path, words: list[str], told: str):
    Path("a.txt").write_text("Nine per cent.", "utf-8")
    with pytest.raises(UserError) as caught:
        script_check(words)
    assert told in str(caught.value) and "\n" not in str(caught.value)
