"""Characters that a terminal obeys, or that are not seen. Loaded where a line may hold some."""

import re

SHOWN_INSTEAD = "\N{REPLACEMENT CHARACTER}"

BLANK = re.compile(r"[\t\n\r]+")
UNSAFE = re.compile(
    "["
    "\x00-\x1f\x7f-\x9f"  # controls, escape among them
    "\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069"  # what turns the direction of text
    "\u2028\u2029"  # line and paragraph separators
    "\u180e\u200b\u2060-\u2065\u206a-\u206f\ufeff\ufff9-\ufffb\U0001bca0-\U0001bca3\U0001d173-\U0001d17a"  # not seen
    "\U000e0000-\U000e007f"  # tags: a text that is not seen
    "\ud800-\udfff"  # halves, which stand for bytes that are no character
    "]"
)
