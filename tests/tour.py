"""python -m tests.tour: the README's pictures, from the demo as it is built.

Needs chromium and pdftoppm (Debian: chromium, poppler-utils), and the demo's briefs (make brief).
"""

from __future__ import annotations

import subprocess
import tempfile
from pathlib import Path

from PIL import Image

from tests.browsing import browser, sized
from tests.conftest import ROOT

OUT = ROOT / "demo_data" / "tour"
WIDE = 880  # pixels, of each picture
COLOURS = 96  # enough for ink, paper and one accent; keeps a picture under 120 KB


def main() -> None:
    built = ROOT / "output" / "long-grass"
    OUT.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as temporary:
        folder = Path(temporary)
        pages = paper(built / "brief.pdf", folder, (1, 4))
        save(beside(pages), "brief.png")
        save(Image.open(built / "charts" / "kinds.economy.png"), "frame.png")
        save(screen(built / "brief.html", folder / "page.png"), "page.png")
    print(*sorted(str(path.relative_to(ROOT)) for path in OUT.glob("*.png")), sep="\n")


def paper(pdf: Path, folder: Path, numbers: tuple[int, ...]) -> list[Image.Image]:
    """Pages of a PDF as pictures."""
    made = []
    for number in numbers:
        at = ["-f", str(number), "-l", str(number), "-r", "72", "-png", "-singlefile"]
        subprocess.run(["pdftoppm", *at, pdf, folder / f"p{number}"], check=True)
        made.append(Image.open(folder / f"p{number}.png"))
    return made


def beside(pages: list[Image.Image], gap: int = 16) -> Image.Image:
    """Pages side by side on grey."""
    width = sum(page.width + gap for page in pages) + gap
    sheet = Image.new("RGB", (width, pages[0].height + 2 * gap), "#dde3df")
    left = gap
    for page in pages:
        sheet.paste(page, (left, gap))
        left += page.width + gap
    return sheet


def screen(page: Path, target: Path) -> Image.Image:
    """The page with what stands behind its first number."""
    with browser() as made:
        context = sized(made, (1280, 760))
        tab = context.new_page()
        tab.goto(page.as_uri())
        tab.locator(".card a.num").first.click()
        tab.screenshot(path=target)
        context.close()
    return Image.open(target)


def save(picture: Image.Image, name: str) -> None:
    """Scaled to one width, in few colours."""
    high = round(picture.height * WIDE / picture.width)
    small = picture.convert("RGB").resize((WIDE, high), Image.Resampling.LANCZOS)
    small.quantize(COLOURS, Image.Quantize.MAXCOVERAGE).save(OUT / name, optimize=True)


if __name__ == "__main__":
    main()
