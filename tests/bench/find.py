"""Finding in a book of 2,000 jobs: size of the index, time until it can be asked, time of an answer, memory of the page.

Run as `python -m tests.bench.find [COUNT]`. The book is made by tests/make_shelf.py; the page is opened from a file in
chromium. An answer is timed from the key until the list stands laid out.
"""

import statistics
import sys
import tempfile
import time
import zlib
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright

from buildbook.book.search import find_in
from tests.conftest import CHROMIUM, FLAGS
from tests.make_shelf import made_jobs, material, write_book

JOBS = 2000
ASKED = 200
PAUSED, PAUSE_MS = 20, 800  # questions asked as a person does, with time for pictures
READY = """
addEventListener("DOMContentLoaded", () => { window.parsed = performance.now(); });
new MutationObserver(() => { if (document.documentElement?.dataset.ready) window.ready ??= performance.now(); })
  .observe(document, { attributes: true, subtree: true, attributeFilter: ["data-ready"] });
"""
ANSWER = """(text) => {
  const field = document.getElementById("find");
  field.value = text;
  const start = performance.now();
  field.dispatchEvent(new Event("input"));
  document.getElementById("found").getBoundingClientRect();
  return performance.now() - start;
}"""


def questions(count: int = ASKED) -> list[str]:
    """Questions of one to three words, whole, begun, and with a slip of spelling; sizes too."""
    say = material()["words"]
    words = [
        *material()["woods"],
        *material()["pieces"],
        *say["joinery"],
        *say["features"],
        *say["hardware"],
        *say["suppliers"],
    ]
    found = []
    for number in range(count):
        first, second = words[number * 7 % len(words)], words[number * 13 % len(words)]
        cut = max(2, len(second) - number % 5)
        slip = first[:3] + first[4:] if len(first) > 6 else first
        found.append(
            [first, f"{first} {second}", second[:cut], slip, f"{second} {600 + number * 10} mm"][number % 5]
        )
    return found


def renderer_mb(browser: Browser) -> float:
    """Proportional set size of the process that holds the page."""
    session = browser.new_browser_cdp_session()
    processes = session.send("SystemInfo.getProcessInfo")["processInfo"]
    sizes = [_pss_kb(process["id"]) for process in processes if process["type"] == "renderer"]
    return max(sizes) / 1024


def _pss_kb(process: int) -> int:
    lines = Path(f"/proc/{process}/smaps_rollup").read_text().splitlines()
    return next(int(line.split()[1]) for line in lines if line.startswith("Pss:"))


def ready_ms(page: Page, book: Path) -> float:
    page.goto((book / "index.html").as_uri())
    page.wait_for_function("window.ready")
    return float(page.evaluate("window.ready"))


def main(count: int) -> None:
    with tempfile.TemporaryDirectory() as place, sync_playwright() as play:
        book = Path(place) / "book"
        start = time.perf_counter()
        write_book(book, made_jobs(count))
        print(f"made {count} jobs in {time.perf_counter() - start:.1f} s")
        script = (book / "search.js").read_bytes()
        print(
            f"index         {len(script) / 1e6:.2f} MB, compressed {len(zlib.compress(script, 9)) / 1e6:.2f} MB"
        )
        print(f"index.html    {(book / 'index.html').stat().st_size / 1e6:.2f} MB")
        browser = play.chromium.launch(
            executable_path=CHROMIUM, args=[*FLAGS, "--enable-precise-memory-info"]
        )
        context = browser.new_context(viewport={"width": 1280, "height": 900})
        context.add_init_script(READY)
        page = context.new_page()
        times = [ready_ms(page, book) for _ in range(5)]
        print(f"ready         {statistics.median(times):.0f} ms (first {times[0]:.0f})")
        print(f"memory        {renderer_mb(browser):.0f} MB of the page's process when ready")
        answers = [page.evaluate(ANSWER, text) for text in questions()]
        print(
            f"answer        {statistics.median(answers):.1f} ms median, {max(answers):.1f} ms longest of {len(answers)}"
        )
        page.wait_for_timeout(1000)
        for text in questions(PAUSED):
            page.evaluate(ANSWER, text)
            page.wait_for_timeout(PAUSE_MS)
        heap = page.evaluate("performance.memory.usedJSHeapSize") / 1e6
        print(
            f"memory        {renderer_mb(browser):.0f} MB after {PAUSED} more with time for pictures, script {heap:.0f} MB"
        )
        phrase_ms = page.evaluate(PHRASE)
        print(f"phrase        {phrase_ms:.0f} ms until the words of all candidates were read")
        browser.close()
        start = time.perf_counter()
        find_in(book, "walnut glass", 20)
        print(f"terminal      {time.perf_counter() - start:.2f} s")


PHRASE = """async () => {
  const field = document.getElementById("find"), heading = document.querySelector("#found h2");
  field.value = '"sliding dovetail is clean"';
  const start = performance.now();
  field.dispatchEvent(new Event("input"));
  while (!/^\\d+ jobs?$|^one job$|^No/.test(heading.textContent)) await new Promise((wake) => setTimeout(wake, 5));
  return performance.now() - start;
}"""


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else JOBS)
