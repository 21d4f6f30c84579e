"""Settings that YAML can hold and no project can: one clear line with its place, at once."""

from __future__ import annotations

import random
import shutil
import time
from pathlib import Path

import pytest

from pipeline.config.load import load
from pipeline.errors import UserError, told
from tests.conftest import ROOT
from tests.faults.configuration import try_one


@pytest.fixture()
def project(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    shutil.copytree(ROOT / "config", tmp_path / "config")
    for name in ("demo_data", "templates"):
        (tmp_path / name).symlink_to(ROOT / name)
    monkeypatch.chdir(tmp_path)
    return tmp_path / "config"


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
        (
            THEME,
            "lines: 1.0",
            "lines: 1.0\nlogo: config/theme.yaml",
            "logo: 'config/theme.yaml': not a PNG picture",
        ),
        (
            THEME,
            "templates/fonts/Archivo-Medium.ttf",
            "config/theme.yaml",
            "not a TrueType or OpenType font",
        ),
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
