"""Hostile and odd settings: one clear line with its place, at once."""

from __future__ import annotations

import os
import random
import shutil
import time
from pathlib import Path

import pytest

from pipeline.config.load import load
from pipeline.config.sums import parse_sum
from pipeline.config.yaml_files import read_yaml
from pipeline.errors import UserError, told
from tests.conftest import ROOT
from tests.faults.configuration import try_one

BOMB = """\
a: &a [x,x,x,x,x,x,x,x,x]
b: &b [*a,*a,*a,*a,*a,*a,*a,*a,*a]
c: &c [*b,*b,*b,*b,*b,*b,*b,*b,*b]
d: &d [*c,*c,*c,*c,*c,*c,*c,*c,*c]
e: &e [*d,*d,*d,*d,*d,*d,*d,*d,*d]
f: &f [*e,*e,*e,*e,*e,*e,*e,*e,*e]
g: &g [*f,*f,*f,*f,*f,*f,*f,*f,*f]
"""


@pytest.fixture()
def project(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    shutil.copytree(ROOT / "config", tmp_path / "config")
    for name in ("demo_data", "templates"):
        (tmp_path / name).symlink_to(ROOT / name)
    monkeypatch.chdir(tmp_path)
    return tmp_path / "config"


def only_line(path: Path) -> str:
    """The one line that a file is refused with, told within seconds."""
    begun = time.process_time()
    with pytest.raises(UserError) as caught:
        read_yaml(path)
    assert time.process_time() - begun < 5
    (line,) = told(caught.value)
    assert line.isprintable() and len(line) <= 300
    return line


def refused(folder: Path, text: str | bytes) -> str:
    path = folder / "x.yaml"
    path.write_bytes(text if isinstance(text, bytes) else text.encode("utf-8", "surrogatepass"))
    return only_line(path).removeprefix(f"{path}:")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (BOMB, "5:8: over 10,000 values"),
        ("a: [" + "x," * 10_001 + "x]", "1:19999: over 10,000 values"),
        ("a: " + "[" * 600, "1:23: nested more than 20 levels"),
        ("a: &a [[[[[[[[[[x]]]]]]]]]]\nb: [[[[[[[[[[[*a]]]]]]]]]]]", "2:15: nested more than 20"),
        ("lists: &n {a: *n}", "1:15: an alias of what it stands in"),
        ("a: &a {<<: *a}", "1:8: an alias of what it stands in"),
        ("title: a\x0bb", "1:9: a character that can't be seen (\\x0b); delete it"),
        ("a: b\r\nc: \x85", "2:4: a character that can't be seen (\\x85)"),
        ("a: b\nc: \u202eabc", "2:4: a character that can't be seen (\\u202e)"),
        ('a: "\\e[2J"', "1:4: a character that can't be seen (\\x1b)"),
        ('a: "\\ud800"', "1:4: a character that can't be seen (\\ud800)"),
        ('"a\\0": b', "1:1: a character that can't be seen (\\x00)"),
        ('a: "\\U00110000"', "1:7: not valid YAML"),
        ("a: !!int x", "1:4: a tag (tag:yaml.org,2002:int); write the value alone"),
        ("a: !!bool maybe", "1:4: a tag"),
        ("a: !!float ''", "1:4: a tag"),
        ("a: !!python/object/apply:os.system [x]", "1:4: a tag"),
        ("a: !mine {b: c}", "1:4: a tag (!mine)"),
        ("a: 1\n!mine b: 2", "2:1: a tag"),
        ("a: .inf", "1:4: '.inf' is no number to count with"),
        ("a: .nan", "1:4: '.nan' is no number to count with"),
        ("a: 1e999", "1:4: '1e999' is no number to count with"),
        ("a: " + "9" * 5000, "1:4: a number of 5,000 characters; at most 30"),
        ("a: 0x" + "f" * 5000, "1:4: a number of 5,002 characters"),
        ("a: '" + "x" * 2001 + "'", "1:4: a text of 2,001 characters; at most 2,000"),
        ("a: 1\n---\nb: 2", "2:1: a second document begins here"),
        ("%YAML 1.1\n---\na: yes", "2:1: a line with % before this one"),
        ("a: 1\n? [b]\n: 2", "2:3: a key that is no plain word"),
        ("a: &x 1\n*x : 2", "2:1: a key that is no plain word"),
        ("a: 1\na: 2", "2:1: 'a' stands twice in the same section"),
        ("1: a\n'1': b", "2:1: '1' stands twice in the same section"),
        ("a: &x 1\nb: &x 2", "2:4: the name '&x' is given twice"),
        ("a: &x 1\nb: {<<: *x}", "2:5: '<<' takes a section by its alias"),
        ("a: &x {c: 1}\nb: {<<: *x, <<: *x}", "2:13: '<<' stands twice"),
        ("a: *nobody", "1:4: not valid YAML: found undefined alias"),
        ("a:\n\t- b", "2:1: not valid YAML: found character"),
        ("", "1:1: expected 'key: value' lines, found none"),
        ("# nothing", "1:1: expected 'key: value' lines, found none"),
        ("- a", "1:1: expected 'key: value' lines, found none"),
        ("ü: a\nb: é".encode("latin-1"), "1:1: not UTF-8 text (byte 0); save it as UTF-8"),
        ("a: b".encode("utf-16"), "1:1: not UTF-8 text (byte 0); save it as UTF-8"),
        ("a: b".encode("utf-16-le"), "1:2: a character that can't be seen (\\x00)"),
        (b"a: b\nc: \xff", "2:4: not UTF-8 text (byte 8)"),
        (b"a: b\n" * 10_000_000, "1:1: over 1,000,000 bytes"),
    ],
)
def test_what_is_no_setting_is_refused_where_it_stands(tmp_path: Path, text: str, said: str):
    assert refused(tmp_path, text).startswith(said)


@pytest.mark.parametrize("text", ["a: '" + "x" * 900_000, "# " + "y" * 900_000, "a: \n" * 200_000])
def test_a_large_file_is_refused_soon(tmp_path: Path, text: str):
    assert refused(tmp_path, text)


def test_what_is_no_file_is_refused(tmp_path: Path):
    (tmp_path / "folder.yaml").mkdir()
    os.mkfifo(tmp_path / "pipe.yaml")
    assert "expected a file, found a folder" in only_line(tmp_path / "folder.yaml")
    assert "expected a file, found something else" in only_line(tmp_path / "pipe.yaml")
    assert "no such file" in only_line(tmp_path / "none.yaml")
    assert "no such file" not in only_line(tmp_path / ("x" * 300 + ".yaml"))


def test_aliases_and_merges_are_understood(tmp_path: Path):
    path = tmp_path / "x.yaml"
    path.write_text("\ufeffa: &a {b: 1, c: 2}\nd: *a\ne: {<<: *a, c: 3}\nf: [*a]\n0123: x", "utf-8")
    found = read_yaml(path)
    assert found.tree == {
        **{"a": {"b": 1, "c": 2}, "d": {"b": 1, "c": 2}, "e": {"c": 3, "b": 1}},
        **{"f": [{"b": 1, "c": 2}], "0123": "x"},
    }
    assert str(found.problem(("e", "b"), "wrong")) == f"{path}:3:5: e.b: wrong"
    assert str(found.problem(("e", "c"), "wrong")) == f"{path}:3:16: e.c: wrong"


@pytest.mark.parametrize(
    ("text", "value"),
    [
        *(("007", 7), ("0x1F", 31), ("0o17", 15), ("-1_000", -1000), ("1.5", 1.5), ("1e3", 1000.0)),
        *(("true", True), ("False", False), ("yes", "yes"), ("12:30", "12:30"), ("~", None)),
        *(("", None), ("2017-13-45", "2017-13-45"), ("'1'", "1"), ("=", "="), ("1-10", "1-10")),
    ],
)
def test_values_are_what_yaml_1_2_says(tmp_path: Path, text: str, value: object):
    path = tmp_path / "x.yaml"
    path.write_text(f"a: {text}\n", "utf-8")
    found = read_yaml(path).tree["a"]
    assert (found, type(found)) == (value, type(value))


LONG, WHO, MEASURES = "topics/long-grass.yaml", "topics/who-paid.yaml", "measures.yaml"
FORMATS, PROJECT, THEME = "formats.yaml", "project.yaml", "theme.yaml"


@pytest.mark.parametrize(
    ("file", "old", "new", "said"),
    [
        (LONG, "format: one-day", "format: [one-day]", ":5:47: data.format: input should be"),
        (LONG, "id: kinds", "id: [kinds]", "beats[2].id: "),
        (LONG, "id: kinds", "id: {a: b}", "beats[2].id: "),
        (LONG, "measure: economy", "measure: [[economy]]", "beats[2].measure[1]: "),
        (LONG, "measure: economy", "measure:", "beats[2].measure: "),
        (LONG, "kind: trend", "kind: [trend]", "beats[1].kind: "),
        (LONG, "kind: trend", "kind: {trend: 1}", "beats[1].kind: "),
        (LONG, "by: bowler_kind", "by: {bowler_kind: 1}", "beats[3].by"),
        (LONG, "after: kinds", "after: [kinds]", "sponsor[1].after: "),
        (LONG, "seconds: 30", "seconds: true", "sponsor[1].seconds: "),
        (LONG, "before: 5 seasons", "before: {seasons: -5}", "event.before"),
        (LONG, "before: 5 seasons", "before: {first: a}", "event.before: a window is a number"),
        (LONG, "before: 5 seasons", "before: 0000-00-00 to 2001-01-01", "'0000-00-00' is no day"),
        (LONG, "after: 5 seasons", "after: 5 seasons\n  trend_from: [a]", "event.trend_from: "),
        (LONG, "date: 2017-03-01", "date: 0000-00-00", "event.date: "),
        (LONG, "where: {phase: middle}", "where: {overs: [40, 1]}", "a range runs upward"),
        (LONG, "where: {phase: middle}", "where: {overs: [1, 2, 3]}", "no range of overs"),
        (LONG, "where: {phase: middle}", "where: {innings: true}", "beats[3].where.innings"),
        (WHO, "kind: phases", "kind: phases\n    bands: 0", "'0' is no set of bands"),
        (WHO, "kind: phases", "kind: phases\n    bands: -5", "'-5' is no set of bands"),
        (WHO, "kind: phases", "kind: phases\n    bands: true", "'True' is no set of bands"),
        (WHO, "kind: phases", "kind: phases\n    bands: []", "'[]' is no set of bands"),
        (WHO, "at_least: 300 balls", "at_least: {count: -1, of: x}", "beats[6].at_least.count"),
        (LONG, "by: bowler_kind", "by: [phase, phase]", "beats[3].by: 'phase' stands twice"),
        (LONG, "measure: economy", "measure: [economy, economy]", "'economy' stands twice"),
        (LONG, "wickets, rate]", "rate, rate]", "headlines: 'rate' stands twice"),
        (WHO, "frames: [light, dark]", "frames: [dark, dark]", "frames: 'dark' stands twice"),
        (WHO, "{home: [away, home]}", "{home: [away, away]}", "holds 'away' against itself"),
        (FORMATS, "overs: 50", "overs: 100000000", "formats.one-day.overs: "),
        (FORMATS, "overs: 50", "overs: true", "formats.one-day.overs: "),
        (MEASURES, "per: 6", "per: .inf", ":9:10: '.inf' is no number"),
        (MEASURES, "per: 6", "per: 1e300", "measures.economy.per: "),
        (MEASURES, "decimals: 2", "decimals: true", "measures.economy.decimals: "),
        (MEASURES, "four + six", "False*four", "'False' is no multiple of a column"),
        (MEASURES, "four + six", "9" * 60 + "*four", "is no multiple of a column"),
        (MEASURES, "four + six", "four" + " + four" * 200, "a sum of 1,404 characters; at most"),
        (MEASURES, "four + six", "four" + " + four" * 20_000, "a text of 140,004 characters"),
        (MEASURES, "margin: 5 %", f"margin: {'9' * 500} %", "is no margin"),
        (MEASURES, "margin: 5 %", "margin: {size: -1, unit: percent}", "economy.margin.size"),
        (PROJECT, "least_matches: 6", "least_matches: " + "9" * 29, "statistics.least_matches: "),
        (PROJECT, "players: demo", f"players: {'x' * 300}/demo", ""),
        (THEME, "lines: 1.0", f"lines: 1.0\nlogo: {'x' * 300}.png", "logo: no file"),
    ],
)
def test_settings_out_of_range(project: Path, file: str, old: str, new: str, said: str):
    text = (project / file).read_text("utf-8")
    assert old in text
    (project / file).write_text(text.replace(old, new, 1), "utf-8")
    if not said:
        load("config")  # the sheet is read, and missed, by its stage
        return
    with pytest.raises(UserError) as caught:
        load("config")
    lines = list(told(caught.value))
    assert any(said in line and line.startswith(f"config/{file}:") for line in lines), lines
    assert all(line.isprintable() and len(line) <= 300 for line in lines)


@pytest.mark.parametrize(
    "text",
    ["(" * 190 + "four", "~" * 300 + "four", "four if six else dot", "'four'", "4or four", ""],
)
def test_sums_that_are_none(text: str):
    with pytest.raises(ValueError, match="no sum of columns"):
        parse_sum(text)


def test_a_sum_may_have_brackets():
    assert parse_sum("four - (six - 2*dot)") == [(1, "four"), (-1, "six"), (2, "dot")]


def test_thousands_of_mistakes_are_told_soon(project: Path):
    path = project / LONG
    said = "".join(f"  tag{at}: words\n" for at in range(3000))
    path.write_text(f"{path.read_text('utf-8')}said:\n{said}", "utf-8")
    begun = time.process_time()
    with pytest.raises(UserError) as caught:
        load("config")
    lines = list(told(caught.value))
    assert time.process_time() - begun < 10
    assert len(lines) == 51 and lines[-1].startswith("and 450 more such as: no beat's 'where' has")


def test_a_mistake_at_random_is_told_clearly(tmp_path: Path):
    found = {seed: try_one(random.Random(seed), tmp_path) for seed in range(15)}
    assert set(found.values()) == {"ok", "refused"}, found


def test_an_empty_topic_name_is_no_topic(project: Path):
    with pytest.raises(UserError, match="no topic ''"):
        load("config", only="")
