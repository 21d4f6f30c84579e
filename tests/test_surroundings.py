"""What somebody has set on a machine for other work changes no picture and no page."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.conftest import ROOT

pytestmark = pytest.mark.slow
DRAW = """
import sys
from datetime import date
from pathlib import Path
from pipeline.brief.fit import end_of
from pipeline.brief.paper import pdf
from pipeline.charts.canvas import save
from pipeline.config.kinds.before_after import BeforeAfter
from pipeline.templating import style
from tests.chart_makers import chart, drawn, row
out = Path(sys.argv[1])
made = drawn(chart(BeforeAfter, [row("Kelpgate", 4.6, 5.0), row("Sandbar", 5.1, 4.9)]))
save(made, out / "frame.png")
save(made, out / "chart.svg")
css = style("fonts-print.css", inside=False) + "p {font-family: 'Source Serif 4', serif}"
page = f"<p id='top'>1</p><p id='{end_of('top')}'>2</p>"
page += "<h1 style='font-family: Archivo, sans-serif; font-weight: 800'>Did it?</h1><p>It did.</p>"
head = f"<head><title>T</title><style>{css}</style></head>"
html = f"<html lang='en'>{head}<body>{page}</body></html>"
(out / "page.pdf").write_bytes(pdf(lambda fit: html, ["top"], "a,b", date(2026, 11, 25)))
"""
RC = "savefig.bbox: tight\nlines.linewidth: 9\nfont.size: 30\nsavefig.dpi: 30\nbackend: nonsense\n"
FONTS = """<?xml version="1.0"?><fontconfig>
<dir>/usr/share/fonts</dir>
<match target="pattern"><test name="family" qual="any"><string>Archivo</string></test>
<edit name="family" mode="assign" binding="strong"><string>DejaVu Serif</string></edit></match>
<match target="font"><edit name="embolden" mode="assign"><bool>true</bool></edit></match>
</fontconfig>"""
MADE = ("frame.png", "chart.svg", "page.pdf")


def drawn_under(folder: Path, **environment: str | None) -> dict[str, bytes]:
    """A frame, a chart and a page, made by another process that works in the folder."""
    made = folder / "made"
    made.mkdir(parents=True)
    around = {**os.environ, "PYTHONPATH": str(ROOT), **environment}
    done = subprocess.run(
        [sys.executable, "-c", DRAW, str(made)],
        cwd=folder,
        env={name: value for name, value in around.items() if value is not None},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr[-2000:]
    return {name: (made / name).read_bytes() for name in MADE}


@pytest.fixture(scope="module")
def usual(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    return drawn_under(tmp_path_factory.mktemp("usual"))


def test_settings_of_the_libraries_in_every_place_where_they_look(
    usual: dict[str, bytes], tmp_path: Path
):
    home = tmp_path / "home"
    for place in (tmp_path, home / ".config" / "matplotlib", home / "rc"):
        place.mkdir(parents=True, exist_ok=True)
        (place / "matplotlibrc").write_text(RC, "utf-8")
    (home / "fonts.conf").write_text(FONTS, "utf-8")
    made = drawn_under(
        tmp_path,
        HOME=str(home),
        XDG_CONFIG_HOME=str(home / ".config"),
        MATPLOTLIBRC=str(home / "rc"),
        MPLCONFIGDIR=str(home / "rc"),
        MPLBACKEND="module://nonsense",
        FONTCONFIG_FILE=str(home / "fonts.conf"),
    )
    assert [name for name in MADE if made[name] != usual[name]] == []


def test_a_place_a_time_and_a_tongue(usual: dict[str, bytes], tmp_path: Path):
    (tmp_path / "matplotlibrc").write_bytes(b"\xff\xfe not text")
    made = drawn_under(
        tmp_path,
        LC_ALL="C",
        LANG="C",
        LANGUAGE="de",
        TZ="Pacific/Auckland",
        PYTHONHASHSEED="7",
        SOURCE_DATE_EPOCH="1",
        PYTHONWARNINGS="error",
    )
    assert [name for name in MADE if made[name] != usual[name]] == []


def test_a_user_without_a_home(usual: dict[str, bytes], tmp_path: Path):
    """As a service runs: no folder of its own, none that can be made."""
    made = drawn_under(
        tmp_path,
        HOME=None,
        MPLCONFIGDIR="/proc/none",
        XDG_CACHE_HOME="/proc/none",
        XDG_CONFIG_HOME="/proc/none",
        FONTCONFIG_FILE="/proc/none",
    )
    assert [name for name in MADE if made[name] != usual[name]] == []
