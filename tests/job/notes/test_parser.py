"""What a note says is one thing: to who takes it apart, to the page, to the print and to who searches it."""

import re
from html.parser import HTMLParser

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from buildbook.job.notes.local_links import is_local, without_local_links
from buildbook.job.notes.markdown import parse
from buildbook.job.notes.places import blocks_of
from buildbook.pages.shared import Picture
from buildbook.render.html.prose import prose
from buildbook.render.print.passage import TooDeep, blocks

PIECES = [
    "# One", "## 2026-03-02 Glued up", "### For the client", "Two\n===", "words", "*some* **more** ~~less~~", "",
    "<div>", "</div>", "<b>bold</b>", "<pre>", "<br>", "<script>x</script>", "<?php", "<!--", "-->", "<!-- # gone -->",
    "words <!-- ![x](photos/gone.jpg) --> more", "```", "~~~ py", "    # four", "`a # b`", "``", "`", "> # said",
    "- # item", "- ", "1. one", "   more", "| a | b |", "|---|---|", "| ![c](photos/cell.jpg) | [d](https://d.example) |",
    "![a](photos/a.jpg)", "![b](<photos/b c.jpg>)", "![e](file:///home/e.jpg)", "![f](https://f.example/f.jpg)", "![r]",
    "[a](https://a.example)", "[in](photos/a.jpg)", "[no](javascript:x)", "[far](C:\\x)", "[a [b](ftp://b) c](https://c.example)",
    "[r]", "[r]: https://r.example", "[r]: photos/r.jpg", "[r]: ftp://r", "<https://auto.example>", "<ftp://auto>",
    "[bad](http://[)", "\\# no", "***", "---", "&lt;", "* * *", "[![i](photos/i.jpg)](https://i.example)",
]  # fmt: skip
TEXTS = st.lists(st.sampled_from(PIECES) | st.text(max_size=12), max_size=12).map("\n".join)
CASES = [
    "<div>\n# One\n![a](photos/a.jpg)\n</div>",
    "<pre>\n\n# One\n\n[a](https://a.example)\n</pre>",
    "<!--\n```\n-->\n# One",
    "| a | b |\n|---|---|\n| ![c](photos/cell.jpg) | `d` |",
    "[a [b](ftp://b) c](https://c.example)",
    "[bad](http://[)",
    "words <!-- ![x](photos/gone.jpg)\n\n# One",
]


class Shown(HTMLParser):
    """What a page says, in order: headings, places of links, code, pictures, and all its words."""

    def __init__(self, html):
        super().__init__()
        self.headings, self.links, self.code, self.pictures, self.words = [], [], [], [], ""
        self._open = []
        self.feed(html)
        self.close()

    def handle_starttag(self, tag, attrs):
        if tag in ("h1", "h2", "h3", "h4", "h5", "h6"):
            self.headings.append([int(tag[1]), ""])
        elif tag == "a":
            self.links.append(dict(attrs)["href"])
        elif tag == "code":
            self.code.append("")
        elif tag == "figure":
            self.pictures.append(dict(attrs)["id"])
        self._open.append(tag)

    def handle_endtag(self, tag):
        while self._open and self._open.pop() != tag:
            pass

    def handle_data(self, data):
        self.words += data
        if any(tag[0] == "h" and tag[1:].isdigit() for tag in self._open):
            self.headings[-1][1] += data
        if "code" in self._open:
            self.code[-1] += data


def page_of(text, references=()):
    pictures = {name: Picture(name, 1, 1, "", "") for name in references}
    return Shown(
        str(prose(text, pictures, lambda picture: f'<figure id="{picture.digest}"></figure>', shift=0))
    )


def print_of(text):
    """The same of a print: headings by their words, links, code, pictures."""
    pictures = []
    found = {"heading": [], "link": [], "code": []}

    def words(value):
        if isinstance(value, list):
            return "".join(map(words, value))
        return value.get("text", "") or words(value.get("runs", []))

    def walk(value):
        if isinstance(value, list):
            for inner in value:
                walk(inner)
        elif isinstance(value, dict):
            if value.get("kind") == "heading":
                found["heading"].append(words(value["runs"]))
            elif value.get("kind") == "link":
                found["link"].append(value["to"])
            elif value.get("kind") == "code":
                found["code"].append(value["text"])
            for inner in value.values():
                walk(inner)

    walk(blocks(text, lambda name: pictures.append(name)))
    return found, pictures


def unspaced(text):
    return "".join(text.split())


def every(test):
    for case in CASES:
        test = example(case)(test)
    return given(TEXTS)(test)


@every
def test_headings_are_the_same_for_all(text):
    note = parse(text)
    headings = sorted((*note.headings, *note.nested), key=lambda heading: heading.start)
    shown = page_of(text).headings
    assert [heading.level for heading in headings] == [level for level, _ in shown]
    searched = {unspaced(block.text) for block in blocks_of(text)}
    for heading in headings:
        if unspaced(heading.words) and not re.search(
            r"[\[<]", heading.text
        ):  # links are shown, not told here
            assert unspaced(heading.words) in searched
    try:
        printed, _ = print_of(text)
    except TooDeep:
        return
    assert [unspaced(words) for words in printed["heading"]] == [
        unspaced(words) for _, words in shown if unspaced(words)
    ]


@every
def test_links_and_code_are_the_same_on_page_and_print(text):
    page = page_of(text)
    try:
        printed, _ = print_of(text)
    except TooDeep:
        return
    assert some(page.code) == some(printed["code"])
    # a link without words is nothing to press on paper
    assert [link for link in page.links if link in printed["link"]] == printed["link"]


@every
def test_pictures_are_the_same_for_all(text):
    seen = [image.reference for image in parse(text).images]
    to_show = [name for name in seen if ":" not in name or name.startswith("https:")]
    assert page_of(text, seen).pictures == to_show
    try:
        _, pictures = print_of(text)
    except TooDeep:
        return
    assert sorted(map(unquoted, to_show)) == sorted(pictures)


def some(code):
    """What can be seen of it."""
    return [text.rstrip("\n") for text in code if text.strip()]


def unquoted(name):
    return name.replace("%20", " ")


@every
def test_a_place_on_one_computer_that_any_of_them_sees_is_found(text):
    left, _ = without_local_links(parse(text).text, "notes.md")
    page, note = page_of(left), parse(left)
    for place in (*page.links, *(image.reference for image in note.images)):
        assert not is_local(place, "notes.md")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("[the plan](ftp://a.example/plan.pdf)", "[the plan](ftp://a.example/plan.pdf)"),
        ('[the plan](C:\\plans\\1.pdf "first")', '[the plan](C:\\plans\\1.pdf "first")'),
        ("[the plan][p]\n\n[p]: file:///plan.pdf", "[the plan](file:///plan.pdf)"),
        ("![front](file:///a.jpg)", "![front](file:///a.jpg)"),
        ("<ftp://a.example>", "<ftp://a.example>"),
        ("a <!-- *kept* -- as typed --> b", "a <!-- *kept* -- as typed --> b"),
    ],
)
def test_a_page_shows_what_it_does_not_follow_as_it_was_typed(text, words):
    assert page_of(text).words.strip() == words
