"""Finding in a book of 2,000 jobs: size of the index, time until it can be asked, time of an answer, memory of the page.

Run as `python -m tests.bench.find [COUNT]`. The book is made by tests/make_shelf.py; the page is opened from a file in
chromium. An answer is timed from the key until the list stands laid out.

Memory is that of the process that holds the page, in a browser that was just started and has opened the page once. PSS:
its pages of memory, those shared with other processes by their share (it varies with what else runs). USS: its pages
alone. A blank page is measured the same way first; what is over that is the page's own. The browser collects what is no
longer used when it sees fit, so each figure holds garbage; the last is taken after it was made to collect.
"""

import statistics
import sys
import tempfile
import time
import zlib
from dataclasses import dataclass
from pathlib import Path

from playwright.sync_api import Browser, Page, Playwright, sync_playwright

from buildbook.book.past.index_files import book_files
from buildbook.book.past.records import RECORD, read_record
from buildbook.book.past.search import find_in
from buildbook.problems import Problems
from tests.conftest import CHROMIUM, FLAGS
from tests.make_shelf import made_jobs, material, shop, write_book

JOBS = 2000
ASKED = 200
PAUSED, PAUSE_MS = 20, 800  # questions asked as a person does, with time for pictures
SETTLE_MS = 2000
WHEEL_MS = 40
VIEWPORT = {"width": 1280, "height": 900}
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


@dataclass(frozen=True)
class Memory:
    """Of one process, in MB: `pss` with its share of what is shared, `uss` what is its alone."""

    pss: float
    uss: float


BUSY = "(ms) => { const end = performance.now() + ms; while (performance.now() < end); }"
BUSY_MS = 300


def page_process(browser: Browser, page: Page) -> int:
    """The process of a page: of all renderers the one that works while the page is kept busy."""
    session = browser.new_browser_cdp_session()

    def worked() -> dict[int, float]:
        every = session.send("SystemInfo.getProcessInfo")["processInfo"]
        return {one["id"]: one["cpuTime"] for one in every if one["type"] == "renderer"}

    before = worked()
    page.evaluate(BUSY, BUSY_MS)
    after = worked()
    session.detach()
    return max(after, key=lambda process: after[process] - before.get(process, 0.0))


def memory(browser: Browser, page: Page) -> Memory:
    rollup = Path(f"/proc/{page_process(browser, page)}/smaps_rollup").read_text().splitlines()[1:]
    sizes_kb = {line.split(":")[0]: int(line.split()[1]) for line in rollup}
    private = sizes_kb["Private_Clean"] + sizes_kb["Private_Dirty"]
    return Memory(sizes_kb["Pss"] / 1024, private / 1024)


def launch(play: Playwright) -> tuple[Browser, Page]:
    browser = play.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
    context = browser.new_context(viewport=VIEWPORT)
    context.add_init_script(READY)
    return browser, context.new_page()


def measure_memory(play: Playwright, book: Path) -> None:
    """The page as it is used, beside a blank page."""
    browser, page = launch(play)
    page.goto("about:blank")
    blank = memory(browser, page)
    browser.close()
    browser, page = launch(play)

    def tell(when: str) -> None:
        now = memory(browser, page)
        own = f"over blank {now.pss - blank.pss:4.0f}, {now.uss - blank.uss:4.0f}"
        print(f"memory        {now.pss:4.0f} MB PSS, {now.uss:4.0f} USS ({own})  {when}")

    print(f"memory        {blank.pss:4.0f} MB PSS, {blank.uss:4.0f} USS  a blank page")
    ready_ms(page, book)
    page.wait_for_timeout(SETTLE_MS)
    tell("the list ready")
    for text in questions():
        page.evaluate(ANSWER, text)
    page.wait_for_timeout(SETTLE_MS)
    tell(f"after {ASKED} answers")
    for text in questions(PAUSED):
        page.evaluate(ANSWER, text)
        page.wait_for_timeout(PAUSE_MS)
    tell(f"after {PAUSED} more with time for pictures and passages")
    page.evaluate(ANSWER, "")
    scroll(page)
    tell("after the whole list was scrolled through")
    session = page.context.new_cdp_session(page)
    session.send("HeapProfiler.collectGarbage")
    tell("the same, made to collect what is no longer used")
    nodes, heap = session.send("Memory.getDOMCounters")["nodes"], session.send("Runtime.getHeapUsage")
    print(f"              {nodes} nodes, script {heap['usedSize'] / 1e6:.1f} MB")
    browser.close()


def scroll(page: Page) -> None:
    """Down to the very end, a window at a time, as fast as a wheel."""
    page.mouse.move(VIEWPORT["width"] / 2, VIEWPORT["height"] / 2)
    while not page.evaluate("scrollY + innerHeight >= document.documentElement.scrollHeight - 1"):
        page.mouse.wheel(0, VIEWPORT["height"])
        page.wait_for_timeout(WHEEL_MS)


def growth(book: Path, count: int) -> None:
    """The index anew, as at each binding, for a quarter, half and all of the jobs: it must grow no faster than they."""
    for some in (count // 4, count // 2, count):
        start = time.process_time()
        folders = sorted(path.parent for path in book.glob(f"jobs/*/{RECORD}"))[:some]
        records = [record for record in map(read_record, folders) if record]
        read = time.process_time() - start
        size = sum(map(len, book_files(records, shop(), Problems()).values()))
        made = time.process_time() - start - read
        print(
            f"index anew    {some:5} jobs: {read:.2f} s to read records, {made:.2f} s to make, {size / 1e6:.2f} MB"
        )


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
        records_mb = sum(path.stat().st_size for path in book.glob(f"jobs/*/{RECORD}")) / 1e6
        print(f"record.json   {records_mb / count * 1000:.1f} kB a job")
        growth(book, count)
        browser, page = launch(play)
        times = [ready_ms(page, book) for _ in range(5)]
        print(f"ready         {statistics.median(times):.0f} ms (first {times[0]:.0f})")
        answers = [page.evaluate(ANSWER, text) for text in questions()]
        print(
            f"answer        {statistics.median(answers):.1f} ms median, {max(answers):.1f} ms longest of {len(answers)}"
        )
        phrase_ms = page.evaluate(PHRASE)
        print(f"phrase        {phrase_ms:.0f} ms until the words of all candidates were read")
        browser.close()
        measure_memory(play, book)
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
