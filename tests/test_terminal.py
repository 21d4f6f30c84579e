"""What reaches a terminal: one line each, nothing unseen, none too long, whoever reads it."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree

import pytest

from pipeline.charts.canvas import Canvas, save
from pipeline.charts.theme import FRAME, theme_of
from pipeline.csv_files import csv_text
from pipeline.errors import (
    Problem,
    UserError,
    did_you_mean,
    did_you_mean_one_of,
    run_stage,
    tell,
    told,
    write_atomically,
)
from pipeline.templating import environment
from pipeline.terminal import fitted, harmless, say, shown
from tests.chart_makers import THEME
from tests.conftest import ROOT


@pytest.mark.parametrize(
    ("text", "printed"),
    [
        ("\x1b[2Jall 43 matches read", "\\x1b[2Jall 43 matches read"),
        ("a\nb\r\tc", "a\\nb\\r\\tc"),
        ("a\x9b2Jb\x85", "a\\x9b2Jb\\x85"),
        ("abc\u202ecba\u2066", "abc\\u202ecba\\u2066"),
        ("a\u200bb\u200d\ufeff", "a\\u200bb\\u200d\\ufeff"),
        ("a\u2028b\u2029", "a\\u2028b\\u2029"),
        ("\ud800", "\\ud800"),
        ("\U000e0041", "\\U000e0041"),
        *(
            (same, same)
            for same in ("Zoë Ōta", "Анна", "עברית", "नमस्ते", "王", "5\u00a0%", "🏏", "")
        ),
    ],
)
def test_what_cannot_be_seen_is_shown(text: str, printed: str):
    assert shown(text) == printed


def test_a_line_keeps_both_ends():
    line = f"a.zip/{'x' * 9000}.json: '{'y' * 9000}' is no date; write 2017-03-01"
    cut = fitted(line)
    assert len(cut) == 300 and cut.startswith("a.zip/xxx") and cut.endswith("write 2017-03-01")
    named = fitted(f"a.yaml:3:1: '{'y' * 9000}' is no date{' and so on' * 20}; write 2017-03-01")
    assert named.startswith("a.yaml:3:1: 'yyy") and " is no date and so on" in named
    assert fitted("short") == "short"


def test_apostrophes_inside_words_begin_and_end_no_name():
    middle = "x" * 100
    line = f"a.yaml: can't {middle} isn't {'y' * 200} 'A's {'n' * 90}' z"
    assert fitted(line) == f"a.yaml: can't {middle} isn't {'y' * 200} 'A's {'n' * 90}' z"[:150] + (
        "…" + fitted(line)[-149:]
    )
    short = f"a.yaml: can't {middle} isn't 'D'Arc {'n' * 300}' z"
    assert fitted(short) == f"a.yaml: can't {middle} isn't 'D'Arc {'n' * 18}…{'n' * 23}' z"


def test_a_long_list_of_names_is_cut_by_whole_names_with_the_nearest_first():
    names = [f"name-of-a-beat-{at}" for at in range(40)] + ["zebra-crossing"]
    told = did_you_mean("zeb", names)
    assert told.startswith(" (valid: zebra-crossing, name-of-a-beat-")
    *whole, last = told.removeprefix(" (valid: ").removesuffix(")").split(", ")
    last, count = last.split(" and ")
    assert {*whole, last} <= set(names) and count == f"{41 - len(whole) - 1} more"
    assert len(told) < 160
    assert did_you_mean("x", ["b", "a"]) == " (valid: b, a)" and did_you_mean("x", []) == ""
    assert did_you_mean("x", ["b" * 200, "c"]).endswith(" and 1 more)")
    assert did_you_mean_one_of("zeb", {"a": "q", "b": "p"}) == " (valid: q, p)"


def test_a_mistake_is_one_line_whatever_its_names():
    problem = Problem("a\nb.zip/\x1b[2J.json", "no key '\u202e'", where="x\x07")
    assert str(problem) == "a\\nb.zip/\\x1b[2J.json: x\\x07: no key '\\u202e'"


def test_many_mistakes_of_one_kind_are_counted(capsys: pytest.CaptureFixture[str]):
    many = [Problem(f"m{at}.json", f"'name {at}' is no date, at {at}") for at in range(120)]
    tell(UserError([*many, Problem("other.json", "not UTF-8 text")]))
    lines = capsys.readouterr().err.splitlines()
    assert len(lines) == 52 and lines[49] == "m49.json: 'name 49' is no date, at 49"
    assert lines[50] == "other.json: not UTF-8 text"
    assert lines[51] == "and 70 more such as: 'name 0' is no date, at 0"


def test_every_line_is_of_a_length_that_can_be_read():
    error = UserError(Problem("f" * 5000, "m" * 5000, 1, 1, "w" * 5000) for _ in range(60))
    assert {len(line) for line in told(error)} == {300}


@pytest.mark.parametrize("path", ["", "/", "."])
def test_a_folder_is_no_file_to_write(path: str):
    with pytest.raises(IsADirectoryError):
        write_atomically(Path(path), "x")


def test_what_is_said_is_one_line_each(capsys: pytest.CaptureFixture[str]):
    say("a\nb", "\x1b[1mc")
    assert capsys.readouterr().out == "a\\nb\n\\x1b[1mc\n"


HEAD = "import sys\nfrom pipeline.errors import run_stage\nfrom pipeline.terminal import say\n"


def run(program: str, **settings: str) -> subprocess.Popen[bytes]:
    return subprocess.Popen(
        [sys.executable, "-c", HEAD + program],
        cwd=ROOT,
        env={"PATH": "", **settings},
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )


def test_an_output_that_lacks_the_letters_takes_escapes():
    process = run("run_stage(lambda: say('Zoë'))", PYTHONIOENCODING="ascii")
    out, err = process.communicate(timeout=60)
    assert (out, err, process.returncode) == (b"Zo\\xeb\n", b"", 0)


@pytest.mark.parametrize(
    ("program", "status"),
    [
        ("run_stage(lambda: [say('x' * 99) for _ in range(9999)])", 1),
        ("run_stage(lambda: print('x' * 99999))", 1),
        ("run_stage(lambda: print('x'))", 0),
        ("import time\ndef main():\n    print('x')\n    raise SystemExit(3)\nrun_stage(main)", 3),
    ],
)
def test_a_reader_that_leaves_is_no_mistake(program: str, status: int):
    process = run(f"sys.stdin.read()\n{program}")
    assert process.stdin and process.stdout and process.stderr
    process.stdout.close()
    process.stdin.close()
    assert process.wait(timeout=60) == status
    assert process.stderr.read() == b""
    process.stderr.close()


def test_a_disk_that_is_full_is_told(capsys: pytest.CaptureFixture[str]):
    def main() -> None:
        raise OSError(28, "No space left", "out\x1b.json")

    with pytest.raises(SystemExit):
        run_stage(main)
    said = "out\\x1b.json: No space left: check the path and the free space\n"
    assert capsys.readouterr().err == said


def test_nothing_else_prints():
    """Others' text reaches a terminal by `say`, or by `tell`."""
    printing = set()
    for path in (ROOT / "pipeline").rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Call) and ast.unparse(node.func) in PRINTS:
                printing.add(path.relative_to(ROOT / "pipeline").as_posix())
    assert printing == {"errors.py", "terminal.py", "ingest/progress.py"}


PRINTS = {"print", "sys.stdout.write", "sys.stderr.write", "warnings.warn"}


def test_pages_turn_no_direction_and_hold_no_control():
    page = environment().from_string("<p title='{{ a }}'>{{ a }}</p>{{ b | safe }}")
    made = page.render(a="<b>\u202e\x0b\u200d\n", b="<i>\u202e</i>")
    assert made == (
        "<p title='&lt;b&gt;\\u202e\\x0b\u200d\n'>&lt;b&gt;\\u202e\\x0b\u200d\n</p><i>\\u202e</i>"
    )
    assert harmless("a\tb\nc") == "a\tb\nc"


def test_pictures_hold_no_control_and_no_markup(tmp_path: Path):
    canvas = Canvas(400, 200, theme_of(THEME, "light"), FRAME)
    drawn = canvas.text(10, 50, "<b>\u202ea\x0b --> $x^2$", 30)
    assert drawn.get_text() == "<b>\\u202ea\\x0b --> $x^2$" and not drawn.get_parse_math()
    save(canvas, tmp_path / "x.svg")
    parsed = ElementTree.parse(tmp_path / "x.svg").getroot()
    assert {part.tag.rpartition("}")[2] for part in parsed.iter()} <= DRAWN


DRAWN = {"svg", "metadata", "RDF", "Work", "type", "format", "defs", "style", "g", "path", "use"}


def test_a_column_that_a_spreadsheet_would_run_is_none():
    name = '+HYPERLINK("x")_value'
    text = csv_text([{name: 1.5, "=b": "=1"}], [name, "=b"])
    assert text == '"\'+HYPERLINK(""x"")_value",\'=b\n1.5,\'=1\n'
