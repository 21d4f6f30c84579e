"""Preview: only what a save changed is made again, and an open page hears of it."""

from __future__ import annotations

import shutil
import socket
import subprocess
import sys
import urllib.error
import urllib.request
from collections.abc import Iterator
from pathlib import Path

import pytest

from pipeline.config.load import load
from pipeline.errors import UserError
from pipeline.preview import remake as remakes
from pipeline.preview.command import preview
from pipeline.preview.remake import Remake
from pipeline.preview.serve import Site
from pipeline.voice import forms
from pipeline.voice.anew import read_anew

pytestmark = pytest.mark.slow
STAGES = ("metrics", "significance", "charts", "brief")  # of a topic without a script


@pytest.fixture(scope="module")
def config(built: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("preview")
    return Path(shutil.copytree(built / "config", folder / "config"))


@pytest.fixture(scope="module")
def remake(config: Path) -> Remake:
    """As the command makes it in the project's folder: the data's path stands in the queries."""
    out = config.parent / "output" / "preview" / "sea-air"
    return Remake("sea-air", out, Path("output/data"), Path("output/archive"))


@pytest.fixture
def edited(config: Path) -> Iterator[Path]:
    """The topic's file, put back after the test."""
    topic = config / "topics" / "sea-air.yaml"
    kept = topic.read_text("utf-8")
    yield topic
    topic.write_text(kept, "utf-8")


def save(topic: Path, old: str, new: str) -> None:
    text = topic.read_text("utf-8")
    assert old in text
    topic.write_text(text.replace(old, new, 1), "utf-8")


def test_the_page_is_that_of_the_brief_and_only_what_changed_runs(
    built: Path, config: Path, remake: Remake, edited: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.chdir(built)
    assert remake.update(load(config, only="sea-air")) == list(STAGES)
    page = (remake.out / "brief.html").read_text("utf-8")
    assert page == (built / "output" / "sea-air" / "brief.html").read_text("utf-8")
    assert remake.update(load(config, only="sea-air")) == []
    save(edited, "title: Is it really the sea air?", "title: Is it the air?")
    assert remake.update(load(config, only="sea-air")) == ["brief"]
    assert "Is it the air?" in (remake.out / "brief.html").read_text("utf-8")
    save(edited, "title: Coast against inland", "title: By the coast")
    assert remake.update(load(config, only="sea-air")) == ["charts", "brief"]
    save(edited, "headlines: [coast.economy.pace, ", "headlines: [")
    assert remake.update(load(config, only="sea-air")) == list(STAGES)  # its sums by innings, too


def test_an_edited_voice_is_heard_at_once(
    built: Path, config: Path, remake: Remake, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.chdir(built)
    own = tmp_path / "en-GB.yaml"
    own.write_bytes(forms.voice_file().read_bytes())
    for module in (forms, remakes):
        monkeypatch.setattr(module, "voice_file", lambda: own)
    try:
        assert remake.update(load(config, only="sea-air")) == list(STAGES)
        page = (remake.out / "brief.html").read_text("utf-8")
        assert "grounds just" not in page
        text = own.read_text("utf-8")
        own.write_text(text.replace("{periods}", "{periods} just"), "utf-8")
        assert remake.update(load(config, only="sea-air")) == ["brief"]
        assert "grounds just" in (remake.out / "brief.html").read_text("utf-8"), "its close"
        own.write_text(
            text.replace('"{what} rose from {first} to {second}."', '"It rose."'), "utf-8"
        )
        with pytest.raises(UserError, match="without"):
            remake.update(load(config, only="sea-air"))
    finally:
        monkeypatch.undo()
        read_anew()


def test_what_a_stage_that_fails_would_have_fed_is_made_again(
    config: Path, remake: Remake, edited: Path, built: Path, monkeypatch: pytest.MonkeyPatch
):
    """Metrics went well, significance did not: the next save must not show the old findings."""
    monkeypatch.chdir(built)
    remake.update(load(config, only="sea-air"))
    save(edited, "between: {region: [inland, coast]}", "between: {region: [inland, moon]}")
    with pytest.raises(UserError):
        remake.update(load(config, only="sea-air"))
    save(edited, "title: Is it really the sea air?", "title: Is it the air?")
    with pytest.raises(UserError):
        remake.update(load(config, only="sea-air"))
    save(edited, "[inland, moon]", "[inland, coast]")
    assert remake.update(load(config, only="sea-air")) == list(STAGES)


def test_tables_that_a_build_replaces_are_noticed(
    built: Path, config: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    shutil.copytree(built / "output" / "data", tmp_path / "data")
    for part in ("templates", "demo_data"):
        shutil.copytree(built / part, tmp_path / part)
    (tmp_path / "config").symlink_to(config)
    monkeypatch.chdir(tmp_path)
    mine = Remake("sea-air", tmp_path / "out", tmp_path / "data", tmp_path / "archive")
    mine.update(load(config, only="sea-air"))
    (tmp_path / "data" / "deliveries.parquet").touch()
    assert mine.update(load(config, only="sea-air")) == list(STAGES)
    edition = tmp_path / "archive" / "other" / "1" / "data" / "edition.json"
    edition.parent.mkdir(parents=True)
    edition.write_text("{}", "utf-8")
    assert mine.update(load(config, only="sea-air")) == ["brief"]


def test_a_waiting_page_hears_of_a_change(tmp_path: Path):
    page = tmp_path / "brief.html"
    site = Site(page, port=0)
    try:
        assert "No page yet" in read(site.address) and "location.reload" in read(site.address)
        page.write_text("<html><body>one</body></html>", "utf-8")
        assert "one" in read(site.address) and "location.reload" in read(site.address)
        site.changed()
        assert read(f"{site.address}changed?0") == "yes"
        with socket.create_connection(site.server.server_address) as closed:
            closed.sendall(b"GET /changed?1 HTTP/1.0\r\n\r\n")
        site.changed()  # whoever asked has gone: nothing is said of it
        assert "No page yet" in read(f"{site.address}script-check.html")
        page.with_name("script-check.html").write_text("<body>the check</body>", "utf-8")
        assert "the check" in read(f"{site.address}script-check.html")
        assert "one" in read(f"{site.address}brief.html")
        for wrong in ("changed?x", "../pyproject.toml", "facts.json"):
            with pytest.raises(urllib.error.HTTPError, match="404"):
                read(site.address + wrong)
    finally:
        site.close()


def read(address: str) -> str:
    with urllib.request.urlopen(address, timeout=10) as answer:
        return answer.read().decode()


def test_what_is_missing_is_said_with_what_to_do(tmp_path: Path, built: Path):
    with pytest.raises(UserError, match="run make brief once, then preview sea-air"):
        preview(["sea-air", "--output", str(tmp_path)])
    site = Site(tmp_path / "brief.html", port=0)
    try:
        port = site.server.server_address[1]
        words = ["sea-air", "--output", str(built / "output"), "--port", str(port)]
        with pytest.raises(UserError, match=f"port {port}: .*choose another with --port"):
            preview(words)
    finally:
        site.close()


def test_the_command_follows_saves_and_outlives_mistakes(built: Path, tmp_path: Path):
    folder = tmp_path / "project"
    shutil.copytree(built, folder)
    topic = folder / "config" / "topics" / "sea-air.yaml"
    command = [sys.executable, "-m", "pipeline", "preview", "sea-air", "--port", "0"]
    with subprocess.Popen(command, cwd=folder, stdout=subprocess.PIPE, text=True) as watching:
        try:
            address = watching.stdout.readline().split()[1]
            assert "sea-air: new page in" in watching.stdout.readline()
            assert "Is it really the sea air?" in read(address)
            save(topic, "title: Is it really", "titel: Is it really")
            said = [watching.stdout.readline() for _ in range(3)]
            assert any("unknown key (did you mean 'title'?)" in line for line in said)
            assert "the page is as it was" in said[-1]
            save(topic, "titel: Is it really", "title: Is it only")
            assert "(brief)" in watching.stdout.readline()
            assert "Is it only the sea air?" in read(address)
        finally:
            watching.terminate()
