"""The kept script: taken once, never written over, read by the brief, held against what moved."""

from __future__ import annotations

import io
import json
import shutil
from pathlib import Path

import pytest
from msgspec import structs

from pipeline.archive.edition import content_of
from pipeline.brief.stage import write_brief
from pipeline.config import views
from pipeline.config.load import load
from pipeline.config.topic_names import passed_over
from pipeline.contracts.facts import Fact, Facts
from pipeline.contracts.files import as_json, read_json
from pipeline.editions.reading import MAKE, read_facts
from pipeline.errors import UserError
from pipeline.kept_script import kept_of, written_with
from pipeline.records.steps import Steps
from pipeline.script.command import _write_new, script
from pipeline.script.moved import script_moved, slots_of
from pipeline.script.moved_words import lines_of
from pipeline.script.stage import write_check
from pipeline.slots.marked_up import blocks_of
from pipeline.wording import script as timing
from tests.editions import asked, project_of, record
from tests.test_fact_forms import MOVE, VALUE, fact

TOPIC = "sea-air"
KEPT = Path(f"config/topics/{TOPIC}.script.md")
BESIDE = Path(f"config/topics/{TOPIC}.script.json")
OUT = Path("output") / TOPIC
TEXT = "# T\n\nIt was {{ b.economy.before | number }}, and fell {{ b.economy.change | size }}.\n"


def moved(then: list[Fact], now: list[Fact], text: str = TEXT) -> list[str]:
    """What is printed of a script with these facts when it was written, and now."""
    found = script_moved("t", "kept.md", slots_of(blocks_of(text, "kept.md")), then, now)
    return list(lines_of(found, text.split("\n")))


def test_nothing_is_told_of_what_did_not_move():
    facts = [fact(MOVE), fact(VALUE)]
    assert moved(facts, facts) == ["kept.md: 2 numbers, none moved since it was written"]


@pytest.mark.parametrize(
    ("more", "told"),
    [
        (
            {"value": -0.09, "spoken": "about nine per cent down", "display": "−9.0%"},
            "“about seven per cent” is now “about nine per cent” (−7.4%, now −9.0%)",
        ),
        ({"value": -0.0743, "display": "−7.5%"}, "still “about seven per cent” (−7.4%, now −7.5%)"),
        (
            {"value": -0.07361},
            "still “about seven per cent”, and shown alike: later digits, or its interval, moved",
        ),
        (
            {"verdict": "can't tell"},
            "verdict was none, is can't tell: read the words around it",
        ),
        (
            {"second": "in line with the drift; beyond the control"},
            "second verdict was none, is in line with the drift; beyond the control: "
            "read the words around it",
        ),
        (
            {"value": 0.0736, "spoken": "about seven per cent up", "display": "+7.4%"},
            "still “about seven per cent” (−7.4%, now +7.4%); "
            "it goes the other way now: read the words around it",
        ),
    ],
)
def test_each_way_to_move_is_told_at_its_line(more: dict[str, object], told: str):
    before, now = [fact(MOVE), fact(VALUE)], [fact(MOVE, **more), fact(VALUE)]
    line = " ".join(TEXT.split("\n")[2].split())
    assert moved(before, now) == [
        f"kept.md:3: {line}",
        f"  b.economy.change | size: {told}",
        "kept.md: 2 numbers, of which 1 to look at",
    ]


def test_what_is_gone_and_what_is_new_are_told_apart():
    told = moved([fact(VALUE)], [fact(MOVE)])
    assert told[1] == (
        "  b.economy.before | number: no fact 'b.economy.before' (did you mean "
        "'b.economy.change'?); facts.csv has every id; it was “four and a half”"
    )
    assert told[2] == (
        "  b.economy.change | size: “about seven per cent” today; written since, so there is no "
        "earlier value"
    )
    near = moved([], [fact(MOVE, id="b.economy.chang")], "{{ b.economy.change }} {{ b | x }}")
    assert "(did you mean 'b.economy.chang'?)" in near[1]
    assert "no form 'sizes'" in moved([], [fact(MOVE)], "{{ b.economy.change | sizes }}")[1]


@pytest.fixture
def project(built: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The demo with one topic built, in a folder whose name is no plain word."""
    folder = tmp_path / "the grass, é"
    folder.mkdir()
    monkeypatch.chdir(project_of(built, folder))
    brief()
    return folder


def brief() -> None:
    """With the check of the script, where there is one."""
    write_check(views.brief(load(Path("config"), only=TOPIC), TOPIC), OUT)
    write_brief(views.brief(load(Path("config"), only=TOPIC), TOPIC), OUT, paper=False)
    record(TOPIC)


def seen(topic: str = TOPIC) -> str:
    return Steps(load(Path("config")), Path("output")).brief(topic).seen


def before() -> list[Fact]:
    return read_json(BESIDE, Facts).facts


@pytest.mark.slow
def test_a_script_from_the_draft_to_what_moved(project: Path, capsys: pytest.CaptureFixture[str]):
    draft, page = (OUT / "script.md").read_text("utf-8"), (OUT / "brief.html").read_text("utf-8")
    script([TOPIC])
    assert f"script {TOPIC} --keep" in capsys.readouterr().out
    was, other, content = seen(), seen("long-grass"), content_of(asked())

    script([TOPIC, "--keep"])
    kept = KEPT.read_text("utf-8")
    assert kept.split("-->")[1] == draft.split("-->")[1] and "Yours: nothing else" in kept
    with pytest.raises(UserError, match="it is there already, and yours"):
        script([TOPIC, "--keep"])
    assert KEPT.read_text("utf-8") == kept
    assert {KEPT.name, BESIDE.name}.isdisjoint(passed_over(KEPT.parent))
    assert seen() != was and seen("long-grass") == other and content_of(asked()) != content

    identity = before()[0].id
    KEPT.write_text(f"# Mine\n\nAll mine *now*: {{{{ {identity} | shown }}}}.\n", "utf-8")
    brief()
    assert (OUT / "script.md").read_text("utf-8") == draft, "the draft is made all the same"
    shown = before()[0].display
    for name in ("brief.html", "script.html"):
        assert f"All mine <em>now</em>: {shown}." in (OUT / name).read_text("utf-8")
    read = (OUT / "brief.html").read_text("utf-8")
    words = timing.words(f"All mine now: {shown}.")
    assert f'id="script" data-words="{words}"' in read and f'data-words="{words}"' not in page

    capsys.readouterr()
    script([TOPIC])
    assert "1 number, none moved" in capsys.readouterr().out
    _then(identity, value=99.0, display="99.00", spoken="ninety-nine")
    script([TOPIC, "--json", "moved.json"])
    assert f"“99.00” is now “{shown}”" in capsys.readouterr().out
    (told,) = json.loads(Path("moved.json").read_text("utf-8"))["moved"]
    assert (told["line"], told["fact"], told["moves"]) == (3, identity, ["said"])
    script([TOPIC, "--checked"])
    script([TOPIC])
    assert "1 number, none moved" in capsys.readouterr().out
    BESIDE.unlink()
    script([TOPIC])
    assert "written since, so there is no earlier value" in capsys.readouterr().out


def _then(identity: str, **more: object) -> None:
    """As if this fact had been another one when the script was written."""
    facts = [structs.replace(f, **more) if f.id == identity else f for f in before()]
    BESIDE.write_text(as_json(Facts(facts=facts)), "utf-8")


@pytest.mark.slow
def test_a_script_that_can_not_be_filled_leaves_the_brief_as_it_was(project: Path, capsys):
    script([TOPIC, "--keep"])
    identity = before()[0].id
    KEPT.write_text(f"Line\n\n{{{{ {identity}x }}}}", "utf-8")
    pages = {path: path.read_bytes() for path in OUT.iterdir() if path.is_file()}
    with pytest.raises(UserError) as caught:
        write_brief(views.brief(load(Path("config"), only=TOPIC), TOPIC), OUT, paper=False)
    assert str(caught.value).startswith(f"{KEPT}:3:1: no fact '{identity}x' (did you mean ")
    assert pages == {path: path.read_bytes() for path in OUT.iterdir() if path.is_file()}
    capsys.readouterr()
    script([TOPIC])
    assert f"no fact '{identity}x' (did you mean" in capsys.readouterr().out
    for nonsense in ("{{", "<!--", "{{ | }}", "> Chart: nothing"):
        KEPT.write_text(nonsense, "utf-8")
        with pytest.raises(UserError, match=r"sea-air\.script\.md:1:"):
            write_brief(views.brief(load(Path("config"), only=TOPIC), TOPIC), OUT, paper=False)
    KEPT.unlink()
    KEPT.symlink_to("nowhere")
    with pytest.raises(UserError, match="no such file"):
        write_brief(views.brief(load(Path("config"), only=TOPIC), TOPIC), OUT, paper=False)
    BESIDE.write_text("{", "utf-8")
    KEPT.unlink()
    KEPT.write_text("x", "utf-8")
    with pytest.raises(UserError, match="delete it: all its numbers will count as written since"):
        script([TOPIC])


def test_a_script_is_found_by_its_topic_s_name_wherever_that_is(tmp_path: Path):
    for folder in (tmp_path / "a b", tmp_path / "é.yaml"):
        topic = folder / "x-1.yaml"
        assert kept_of(topic) == folder / "x-1.script.md"
        assert written_with(str(topic)) == folder / "x-1.script.json"


def test_scripts_of_no_topic_are_passed_over_and_told(tmp_path: Path):
    shutil.copy("config/topics/sea-air.yaml", tmp_path / "sea-air.yaml")
    for name in ("sea-air.script.md", "sea-air.script.json", "gone.script.md"):
        (tmp_path / name).write_text("", "utf-8")
    assert passed_over(tmp_path) == ["gone.script.md"]


@pytest.mark.slow
def test_a_draft_of_the_demo_says_facts_by_their_ids(built: Path):
    out = built / "output" / "who-paid"
    if not (out / "script.md").is_file():
        pytest.skip("built by an earlier version")
    blocks = blocks_of((out / "script.md").read_text("utf-8"), "script.md")
    known = {each.id for each in read_facts(out, MAKE)}
    slots = slots_of(blocks)
    assert len(slots) > 20 and {slot.fact for slot in slots} <= known


@pytest.mark.parametrize("step", ["write", "flush"])
def test_a_script_that_can_not_be_written_whole_is_not_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str
):
    path, really = tmp_path / "x.script.md", Path.open

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    class Full(io.TextIOWrapper):
        """A file on a disk that is full."""

    setattr(Full, step, full)

    def opened(self: Path, mode: str, **_: object) -> Full:
        return Full(really(self, f"{mode}b"))

    with monkeypatch.context() as patched:
        patched.setattr(Path, "open", opened)
        with pytest.raises(OSError, match="No space left"):
            _write_new(path, "half")
    assert not path.exists()
    _write_new(path, "all of it")
    assert path.read_text("utf-8") == "all of it"
    with pytest.raises(FileExistsError):
        _write_new(path, "another")
    assert path.read_text("utf-8") == "all of it"
