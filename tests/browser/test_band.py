"""An open page of the bench in a browser: the band of what is wrong, and what a reload keeps."""

import json

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Error

from tests.bench_server import LONGEST_S, running, wait_for

pytestmark = pytest.mark.browser

GOOD = "part,qty,kind,material,length,width,thickness\nTop,1,wood,European oak,1200,420,22\n"
BAD = GOOD.replace("420", "forty-two")
NOTES = "".join(
    f"## 2026-01-{day:02} Day {day}\n\nHours: joinery 2\n\nSo it went on.\n\n" for day in range(1, 29)
)
WAIT_MS = LONGEST_S * 1000


def comes(page, expression):
    """Waits until it holds, through reloads. The policy of the pages forbids what playwright itself would wait with."""

    def holds():
        try:
            return page.evaluate(expression)
        except Error:  # in the middle of a reload
            return False

    wait_for(holds)


@pytest.fixture
def job(make_job):
    return make_job(
        "box", **{"job.toml": 'title = "A box"\npiece = "box"\n', "notes.md": NOTES, "parts.csv": GOOD}
    )


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_band_is_read_by_everybody_and_goes_by_itself(job, tmp_path, chromium, width, scheme):
    with running(job, tmp_path / "book") as at:
        page = chromium.new_page(viewport={"width": width, "height": 800}, color_scheme=scheme)
        for address in ("jobs/box/", "handover/box/", ""):
            page.goto(f"{at.address}{address}")
            (job / "parts.csv").write_text(BAD)
            band = page.get_by_role("status").filter(has_text="parts.csv, row 2, width")
            band.wait_for(timeout=WAIT_MS)
            comes(page, "getComputedStyle(document.getElementById('bench-band')).position === 'sticky'")
            comes(page, "document.getElementById('bench-band').getBoundingClientRect().top >= 0")
            comes(page, "document.documentElement.scrollWidth <= innerWidth")
            found = Axe().run(page).response["violations"]
            assert [one["id"] for one in found] == [], address
            (job / "parts.csv").write_text(GOOD)
            page.locator("#bench-band").wait_for(state="hidden", timeout=WAIT_MS)
        page.close()


def test_a_reload_keeps_the_place_in_the_log(job, tmp_path, chromium):
    """What is added above must not push away what is read."""
    with running(job, tmp_path / "book") as at:
        page = chromium.new_page(viewport={"width": 900, "height": 700})
        page.goto(f"{at.address}jobs/box/")
        page.get_by_text("Day 20").first.scroll_into_view_if_needed()
        page.evaluate("document.getElementById('day-2026-01-20').scrollIntoView({block: 'start'})")
        place = "Math.round(document.getElementById('day-2026-01-20').getBoundingClientRect().top)"
        before = page.evaluate(place)
        more = "\n\n".join(f"A line more, {number}." for number in range(30))
        (job / "notes.md").write_text(NOTES.replace("So it went on.", more, 1))
        page.get_by_text("A line more, 7.").wait_for(timeout=WAIT_MS)
        comes(page, "history.scrollRestoration === 'auto' && scrollY > 0")
        assert abs(page.evaluate(place) - before) <= 2
        page.close()


def test_a_reload_keeps_folds_and_focus(job, tmp_path, chromium):
    with running(job, tmp_path / "book") as at:
        page = chromium.new_page(viewport={"width": 390, "height": 700})
        page.goto(f"{at.address}handover/box/")
        folds = page.locator("details")
        assert folds.count() > 1
        turned = "[...document.querySelectorAll('details')].map((one) => one.open)"
        folds.nth(1).locator("summary").first.click()
        before, focus = page.evaluate(turned), page.evaluate("document.activeElement.textContent.trim()")
        assert focus
        (job / "job.toml").write_text('title = "Another box"\npiece = "box"\n')
        page.get_by_text("Another box").first.wait_for(timeout=WAIT_MS)
        comes(page, f"JSON.stringify({turned}) === {json.dumps(json.dumps(before, separators=(',', ':')))}")
        comes(page, f"document.activeElement.textContent.trim() === {json.dumps(focus)}")
        page.close()


def test_a_reload_keeps_what_is_typed(job, tmp_path, chromium):
    with running(job, tmp_path / "book") as at:
        page = chromium.new_page()
        page.goto(at.address)
        page.locator("#find").press_sequentially("quirk")
        (job / "notes.md").write_text(NOTES + "Cut the quirk by hand.\n")
        found = page.locator("#found li.job")
        found.first.wait_for(timeout=WAIT_MS)
        comes(page, "document.activeElement.id === 'find' && document.activeElement.value === 'quirk'")
        page.close()


def test_a_page_may_keep_itself(job, tmp_path, chromium):
    """One that fetches anew what it needs, with something half done on it."""
    with running(job, tmp_path / "book") as at:
        page = chromium.new_page()
        page.goto(f"{at.address}jobs/box/")
        page.evaluate(
            "document.addEventListener('bound', (event) => { event.preventDefault(); window.told = true; })"
        )
        (job / "job.toml").write_text('title = "Another box"\n')
        comes(page, "window.told")
        assert page.get_by_text("Another box").count() == 0
        page.close()
