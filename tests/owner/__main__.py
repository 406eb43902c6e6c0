"""Asks the client's pages of today the forty questions: `python -m tests.owner [--all] [--keep]`.

Prints a line a page beside what was kept; `--all` each answer too; `--keep` writes `before.json` anew.
"""

import sys

from playwright.sync_api import sync_playwright

from tests.conftest import CHROMIUM, FLAGS
from tests.owner.report import THEMES, answer_lines, keep, kept, measure, summary_lines


def main() -> None:
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        found = measure(browser)
        browser.close()
    before = None if "--keep" in sys.argv else kept()
    print(*summary_lines(found, before), sep="\n")
    if "--all" in sys.argv:
        print(*answer_lines(found, THEMES[0], before), sep="\n")
    if "--keep" in sys.argv:
        keep(found)


if __name__ == "__main__":
    main()
