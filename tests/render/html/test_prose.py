"""The maker's Markdown becomes safe HTML."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.pages.shared import Picture
from buildbook.render.html.prose import prose

PICTURE = Picture("abc", 10, 10, "alt", "caption")


def shown(picture):
    return f"<figure>{picture.digest}</figure>"


@pytest.mark.parametrize(
    ("markdown", "html"),
    [
        ("plain", "<p>plain</p>\n"),
        ("<b>bold</b>", "<p>&lt;b&gt;bold&lt;/b&gt;</p>\n"),
        ("<script>alert(1)</script>", "<p>&lt;script&gt;alert(1)&lt;/script&gt;</p>\n"),
        ("[x](javascript:alert(1))", "<p>[x](javascript:alert(1))</p>\n"),
        (
            "[x](https://example.org)",
            '<p><a href="https://example.org" rel="noopener noreferrer">x</a></p>\n',
        ),
        ("[receipt](../papers/receipt.pdf)", "<p>receipt</p>\n"),
        ("# Large", "<h2>Large</h2>\n"),
        ("Setting: 30°", '<p class="mark setting"><b>Setting:</b> 30°</p>\n'),
        ("Mistake: too short", '<p class="mark mistake"><b>Mistake:</b> too short</p>\n'),
        ("next time: measure", '<p class="mark next-time"><b>next time:</b> measure</p>\n'),
        ("![a](photos/a.jpg)", "<figure>abc</figure>"),
        ("![a](photos/unknown.jpg)", ""),
        ("before ![a](photos/a.jpg) after", "<p>before  after</p>\n<figure>abc</figure>"),
        ("![a](https://example.org/a.jpg)", ""),
    ],
)
def test_a_passage_becomes(markdown, html):
    assert prose(markdown, {"photos/a.jpg": PICTURE}, shown) == html


def test_a_picture_is_found_however_its_name_is_written():
    assert "abc" in prose("![a](<photos/my a.jpg>)", {"photos/my a.jpg": PICTURE}, shown)
    assert "abc" in prose("![a](photos/my%20a.jpg)", {"photos/my a.jpg": PICTURE}, shown)


@given(st.text(max_size=300))
def test_no_text_makes_an_unsafe_page(text):
    html = prose(text, {}, shown).lower()
    for bad in ("<script", "<iframe", "<img", "javascript:", "onerror=", "<style", "<object"):
        assert bad not in html.replace("&lt;", "").replace("&quot;", "") or bad not in html
    assert "<script" not in html
    assert 'href="javascript' not in html
