"""Hostile and odd settings: one clear line with its place, at once."""

from __future__ import annotations

import os
import time
from pathlib import Path

import pytest

from pipeline.config.sums import parse_sum
from pipeline.config.yaml_files import read_yaml
from pipeline.errors import UserError, told

BOMB = """\
a: &a [x,x,x,x,x,x,x,x,x]
b: &b [*a,*a,*a,*a,*a,*a,*a,*a,*a]
c: &c [*b,*b,*b,*b,*b,*b,*b,*b,*b]
d: &d [*c,*c,*c,*c,*c,*c,*c,*c,*c]
e: &e [*d,*d,*d,*d,*d,*d,*d,*d,*d]
f: &f [*e,*e,*e,*e,*e,*e,*e,*e,*e]
g: &g [*f,*f,*f,*f,*f,*f,*f,*f,*f]
"""


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


@pytest.mark.parametrize(
    "text",
    ["(" * 190 + "four", "~" * 300 + "four", "four if six else dot", "'four'", "4or four", ""],
)
def test_sums_that_are_none(text: str):
    with pytest.raises(ValueError, match="no sum of columns"):
        parse_sum(text)


def test_a_sum_may_have_brackets():
    assert parse_sum("four - (six - 2*dot)") == [(1, "four"), (-1, "six"), (2, "dot")]
