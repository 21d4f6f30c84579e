"""The brief as a page in a real browser: alone, by keyboard, on a phone, without scripts."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page

from tests.browsing import DESKTOP, PHONE, Seen, browser, sized
from tests.fact_makers import facts_of

pytestmark = pytest.mark.slow
TOPIC = "sea-air"
CLIPBOARD = ["clipboard-read", "clipboard-write"]


@pytest.fixture(scope="module")
def chromium() -> Iterator[Browser]:
    with browser() as made:
        yield made


@pytest.fixture
def brief(built: Path, chromium: Browser) -> Iterator[Page]:
    context = sized(chromium, DESKTOP, permissions=CLIPBOARD, reduced_motion="reduce")
    page = context.new_page()
    page.goto(address(built))
    yield page
    context.close()


def address(built: Path, name: str = f"{TOPIC}/brief.html") -> str:
    return (built / "output" / name).as_uri()


@pytest.mark.parametrize("name", [f"{TOPIC}/brief.html", "index.html", "data/quality.html"])
def test_it_asks_for_nothing_and_complains_of_nothing(built: Path, chromium: Browser, name: str):
    context = sized(chromium, DESKTOP)
    page = context.new_page()
    seen = Seen(page)
    page.goto(address(built, name))
    page.wait_for_load_state("networkidle")
    page.mouse.wheel(0, 20_000)
    assert seen.complaints == []
    assert [url for url in seen.asked if not url.startswith("data:")] == [address(built, name)]
    context.close()


def test_it_reads_as_a_document_without_scripts(built: Path, chromium: Browser):
    context = sized(chromium, DESKTOP, java_script_enabled=False)
    page = context.new_page()
    page.goto(address(built))
    said = page.locator(".say p").all_inner_texts()
    assert said and holds(page.locator("#read p").all_inner_texts(), said)
    assert page.locator("button, input").count() == 0, "a control that needs scripts stands there"
    shown = {fact.id for fact in facts_of(built, TOPIC).values() if fact.finding or not fact.beat}
    assert {
        row.split("\t")[0] for row in page.locator("#fact-table tbody tr").all_inner_texts()
    } == (shown)
    page.locator(".card a.num").first.click()
    target = page.evaluate("document.querySelector(':target').id")
    assert target.removeprefix("fact-") in shown
    context.close()


def holds(read: list[str], said: list[str]) -> bool:
    """Whether the lines of the beats are read as they are said, between an opening and a close."""
    at = read.index(said[0])
    return 0 < at < len(read) - len(said) and read[at : at + len(said)] == said


def test_every_line_can_be_copied(brief: Page):
    said = brief.locator(".say p")
    assert brief.locator(".say button").count() == said.count() > 3
    for at in range(said.count()):
        brief.evaluate("document.getElementById('told').textContent = ''")
        brief.locator(".say button").nth(at).click()
        brief.wait_for_function("document.getElementById('told').textContent === 'Line copied'")
        assert brief.evaluate("navigator.clipboard.readText()") == said.nth(at).inner_text()


def test_a_number_shows_what_stands_behind_it(brief: Page, built: Path):
    known = facts_of(built, TOPIC)
    for link in brief.locator(".card a.num, table.numbers a.num").all()[:12]:
        fact = known[link.get_attribute("href").removeprefix("#fact-")]
        assert link.inner_text() == fact.display
        link.click()
        proof = brief.locator("#proof")
        text = proof.inner_text()
        for part in (fact.id, fact.spoken, fact.definition, fact.interval):
            assert part in text
        proof.get_by_text("The query").click()
        assert "SELECT" in proof.locator("pre").inner_text()
        brief.keyboard.press("Escape")
        assert not proof.is_visible()
        assert brief.evaluate("document.activeElement.className") == "num", "focus comes back"


def test_the_table_is_narrowed_and_sorted(brief: Page, built: Path):
    table = brief.locator("#fact-table tbody tr:visible")
    everything = table.count()
    brief.get_by_label("Find").fill("spin change")
    narrowed = table.all_inner_texts()
    assert 0 < len(narrowed) < everything
    assert all("spin" in row and "change" in row for row in narrowed)
    assert brief.locator(".find [role=status]").inner_text() == f"{len(narrowed)} of {everything}"
    brief.get_by_label("Find").fill("")
    brief.locator("#fact-table th button").first.click()
    identities = [row.split("\t")[0] for row in table.all_inner_texts()]
    assert len(identities) == everything
    known = facts_of(built, TOPIC)
    values = [known[identity].value for identity in identities]
    brief.locator("#fact-table th button").nth(1).click()
    by_value = [known[row.split("\t")[0]].value for row in table.all_inner_texts()]
    assert by_value == sorted(values)
    brief.locator("#fact-table th button").nth(1).click()
    assert brief.locator("#fact-table th[aria-sort=descending]").inner_text().startswith("Shown")


AT_ONCE = 5  # Chromium holds back the eleventh download in a row that a page starts


def test_frames_and_data_are_taken_from_the_page(built: Path, chromium: Browser):
    charts = built / "output" / TOPIC / "charts"
    names = taken_from(built, chromium, range(AT_ONCE), charts)
    for first in range(AT_ONCE, len(names), AT_ONCE):
        taken_from(built, chromium, range(first, min(first + AT_ONCE, len(names))), charts)
    assert {name.rpartition(".")[2] for name in names} == {"png", "svg", "csv"}


def taken_from(built: Path, chromium: Browser, places: range, charts: Path) -> list[str]:
    """Take the files of these links on a page of their own; the names of all that it offers."""
    context = sized(chromium, DESKTOP)
    page = context.new_page()
    page.goto(address(built))
    links = page.locator(".files a")
    names = [link.get_attribute("download") for link in links.all()]
    for at in places:
        with page.expect_download() as taken:
            links.nth(at).click()
        assert taken.value.suggested_filename == names[at]
        assert Path(taken.value.path()).read_bytes() == (charts / names[at]).read_bytes()
    context.close()
    return names


def test_the_read_through_moves_at_the_readers_speed(brief: Page, built: Path):
    brief.get_by_role("button", name="Read through").click()
    text, shown = brief.locator("#reader .text"), brief.locator("#reader output")
    said = brief.locator(".say p").all_inner_texts()
    assert holds(text.locator("p").all_inner_texts(), said)
    assert shown.inner_text() == "160 words a minute"
    brief.keyboard.press("ArrowUp")
    assert shown.inner_text() == "170 words a minute"
    for _ in range(20):
        brief.keyboard.press("ArrowDown")
    assert shown.inner_text() == "60 words a minute", "the slowest there is"
    before = text.evaluate("element => element.firstChild.offsetHeight")
    brief.keyboard.press("+")
    assert text.evaluate("element => element.firstChild.offsetHeight") > before
    brief.keyboard.press("m")
    assert text.evaluate("element => getComputedStyle(element).transform").startswith("matrix(-1")
    brief.keyboard.press("Space")
    brief.wait_for_function("document.querySelector('#reader .text').scrollTop > 5")
    brief.keyboard.press("Space")
    stopped = text.evaluate("element => element.scrollTop")
    brief.keyboard.press("Home")
    assert text.evaluate("element => element.scrollTop") == 0 < stopped
    brief.keyboard.press("Escape")
    assert not brief.locator("#reader").is_visible()


def test_light_and_dark(brief: Page):
    ground = "getComputedStyle(document.body).backgroundColor"
    light = brief.evaluate(ground)
    brief.get_by_role("button", name="Dark").click()
    dark = brief.evaluate(ground)
    assert (light, dark) == ("rgb(255, 255, 255)", "rgb(16, 23, 20)")
    brief.get_by_role("button", name="Light").click()
    assert brief.evaluate(ground) == light


def test_the_keyboard_reaches_everything(brief: Page):
    reachable = "a[href], button, input, summary, [tabindex='0']"
    brief.evaluate(
        f'document.querySelectorAll("{reachable}").forEach((e, at) => e.dataset.at = at)'
    )
    visible = brief.locator(f":is({reachable}):visible")
    wanted = {item.get_attribute("data-at") for item in visible.all()}
    seen: set[str | None] = set()
    for _ in range(len(wanted) + 5):
        brief.keyboard.press("Tab")
        seen.add(brief.evaluate("document.activeElement.dataset.at"))
    assert len(wanted) > 80 and wanted <= seen


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size", [DESKTOP, PHONE])
@pytest.mark.parametrize("name", [f"{TOPIC}/brief.html", "index.html", "data/quality.html"])
def test_no_serious_barrier(
    built: Path, chromium: Browser, name: str, size: tuple[int, int], scheme: str
):
    """axe-core's rules (Web Content Accessibility Guidelines 2.2, levels A and AA)."""
    context = sized(chromium, size, color_scheme=scheme, reduced_motion="reduce")
    page = context.new_page()
    page.goto(address(built, name))
    assert barriers(page) == []
    assert page.evaluate("document.documentElement.scrollWidth") <= size[0], "scrolls sideways"
    context.close()


def test_no_serious_barrier_in_what_opens(brief: Page):
    brief.locator(".card a.num").first.click()
    assert barriers(brief) == []
    brief.keyboard.press("Escape")
    brief.get_by_role("button", name="Read through").click()
    assert barriers(brief) == []


def barriers(page: Page) -> list[str]:
    """Serious and critical findings of axe-core, with the elements."""
    found = Axe().run(page).response["violations"]
    return [
        f"{rule['id']}: {node['html'][:120]}"
        for rule in found
        if rule["impact"] in ("serious", "critical")
        for node in rule["nodes"]
    ]
