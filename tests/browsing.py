"""A real browser on the pages: Debian's chromium, driven by Playwright."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

from tests.tools import needed

NAMES = ("chromium", "chromium-browser", "google-chrome")
# As root a sandbox can't start, and nothing may be asked of the network behind the page's back.
ARGUMENTS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-sync"]
DESKTOP, PHONE = (1440, 900), (390, 844)


@contextmanager
def browser() -> Iterator[Browser]:
    """Chromium, without a window."""
    program = needed(*NAMES, package="chromium")
    with sync_playwright() as playwright:
        made = playwright.chromium.launch(executable_path=program, args=ARGUMENTS)
        yield made
        made.close()


class Seen:
    """What a page asked for and complained of."""

    def __init__(self, page: Page) -> None:
        self.complaints: list[str] = []
        self.asked: list[str] = []
        page.on("console", lambda message: self.complaints.append(message.text))
        page.on("pageerror", lambda error: self.complaints.append(str(error)))
        page.on("request", lambda request: self.asked.append(request.url))


def sized(made: Browser, size: tuple[int, int], **more: object) -> BrowserContext:
    """A fresh context of this size."""
    return made.new_context(viewport={"width": size[0], "height": size[1]}, **more)
