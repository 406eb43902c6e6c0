"""Pages in a real browser, and what they share."""

from axe_playwright_python.sync_playwright import Axe

RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
SEEN = {"type": "rule", "values": ["color-contrast", "link-in-text-block", "target-size"]}
"""What hangs on colour and width together; everything else is asked once a width, the schemes taking turns."""


def axe_faults(page, widths=(360, 1280)):
    """What axe finds wrong with a page, opened once, in each width by day and by night."""
    found = []
    for turn, width in enumerate(widths):
        page.set_viewport_size({"width": width, "height": 900})
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme=scheme)
            every = scheme == ("light", "dark")[turn % 2]
            result = Axe().run(page, options={"runOnly": RULES if every else SEEN})
            found += [
                f"{width}, {scheme}: {fault['id']}: {[node['html'][:200] for node in fault['nodes']][:3]}"
                for fault in result.response["violations"]
            ]
    return found
