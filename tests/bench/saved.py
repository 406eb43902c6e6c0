"""From a save to the page: one note of a shelf of many jobs, with the bench at work, by phases.

Run as `python -m tests.bench.saved [JOBS [TIMES]]`; `--browser` has the page open in one. Each figure is the median of the
times, in milliseconds by the clock since the note was saved, with the worst behind it.

    begins   the bench begins to bind: what it waited for the save to be whole
    given    the server gives the job's new page
    shown    an open page in a browser shows it (with --browser)
    across   the pages across jobs are in place too
"""

import contextlib
import statistics
import sys
import tempfile
import time
import urllib.request
from pathlib import Path

from buildbook.bench import running as bench_running
from tests.bench_server import running, wait_for
from tests.make_shelf import made_jobs, write_shelf

JOBS, TIMES = 200, 12
GOAL_MS = 300
FIRST_S = 1_200
REST_S = 1.0  # between saves: a maker writes a line
LOOK_S = 0.002
PAINTED = """() => { const [one] = performance.getEntriesByName("first-contentful-paint");
    return one && performance.timeOrigin + one.startTime; }"""  # by the clock of the system, which is ours too


@contextlib.contextmanager
def open_page(address, wanted):
    """A page open in a browser, or None."""
    if not wanted:
        yield None
        return
    from playwright.sync_api import sync_playwright

    from tests.conftest import CHROMIUM, FLAGS

    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        page = browser.new_page()
        page.goto(address)
        yield page
        browser.close()


def given(address, words, end):
    """When the server first gives the words."""
    while time.perf_counter() < end:
        with urllib.request.urlopen(address) as answer:
            if words.encode() in answer.read():
                return time.perf_counter()
        time.sleep(LOOK_S)
    raise SystemExit(f"{words} never came")


def main(jobs, times, with_browser):
    begun = []

    def noted(bind):
        def timed(*given, **more):
            begun.append(time.perf_counter())
            return bind(*given, **more)

        return timed

    for name in ("bind_at_once", "bind"):
        setattr(bench_running, name, noted(getattr(bench_running, name)))
    phases = {"begins": [], "given": [], "shown": [], "across": []}
    with tempfile.TemporaryDirectory() as folder:
        shelf = Path(folder) / "shelf"
        write_shelf(shelf, made_jobs(jobs))
        note = sorted(shelf.glob("*/notes.md"))[jobs // 2]
        started = time.perf_counter()
        with running(shelf, Path(folder) / "book", longest_s=FIRST_S) as at:
            print(f"{jobs} jobs bound in {time.perf_counter() - started:.0f} s", flush=True)
            address = f"{at.address}jobs/{note.parent.name}/"
            with open_page(address, with_browser) as page:
                for number in range(times):
                    time.sleep(REST_S)
                    so_many, words = len(at.bound), f"Line number {number} of this trial"
                    text = f"{note.read_text('utf-8')}\n\n{words}.\n"
                    saved, clock = time.perf_counter(), time.time()
                    note.write_text(text, "utf-8")
                    if page:
                        page.get_by_text(words).wait_for(timeout=60_000)
                        wait_for(lambda: page.evaluate(PAINTED))
                        phases["shown"].append(page.evaluate(PAINTED) / 1000 - clock)
                    else:
                        phases["given"].append(given(address, words, saved + 60) - saved)
                    wait_for(lambda so_many=so_many: len(at.bound) > so_many)
                    phases["across"].append(time.perf_counter() - saved)
                    phases["begins"].append(next(one for one in begun if one > saved) - saved)
    for name, took in phases.items():
        if took:
            print(f"{name:8} {statistics.median(took) * 1000:6.0f} ms   worst {max(took) * 1000:6.0f}")
    seen = statistics.median(phases["shown"] or phases["given"]) * 1000
    print("within" if seen < GOAL_MS else "BEYOND", f"the goal of {GOAL_MS} ms")


if __name__ == "__main__":
    numbers = [int(one) for one in sys.argv[1:] if one.isdigit()]
    main(*(numbers + [JOBS, TIMES][len(numbers) :]), "--browser" in sys.argv)
