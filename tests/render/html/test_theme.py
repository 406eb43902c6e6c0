"""Themes are found, checked, and build on one another; a fault in one is said with its place."""

import os

import pytest
from jinja2 import Environment

from buildbook.book.bind import bind
from buildbook.render.html.theme import ThemeError, load_theme, theme_names

TOML = '[paper]\nday = "#ffffff"\nnight = "#101010"\n'


@pytest.fixture
def own(tmp_path):
    """A shop's own theme that changes one thing of another."""
    folder = tmp_path / "shelf" / "ours"
    folder.mkdir(parents=True)
    (folder / "theme.toml").write_text(f'name = "ours"\nafter = "oilstone"\n{TOML}')
    (tmp_path / "shelf" / "shop.toml").write_text('theme = "ours"\nname = "S"\n')
    return folder


def a_job(make_job):
    return make_job(
        "box",
        **{
            "job.toml": 'title = "A box"\n',
            "notes.md": "## 2026-01-05 x\n\ny\n",
        },
    )


def test_every_theme_of_the_project_is_whole():
    assert "oilstone" in theme_names()
    for name in theme_names():
        assert load_theme(name).file("client.html").is_file()


def test_a_shops_own_theme_takes_what_it_lacks_from_another(own, make_job, tmp_path):
    (own / "style.css").write_text("body { color: rebeccapurple }")
    result = bind(a_job(make_job), tmp_path / "book")
    assert result.jobs[0].bound, result
    page = (tmp_path / "book" / "handover" / "box" / "index.html").read_text("utf-8")
    assert "rebeccapurple" in page
    assert "A box" in page


@pytest.mark.parametrize(
    ("name", "text", "said"),
    [
        ("client.html", "{{ piece.price }}", "client.html"),
        ("client.html", "{% for %}", "client.html, line 1"),
        ("client.html", '{{ t("no.such.words") }}', "no.such.words"),
        ("theme.toml", "[paper]\nday = 'red'\n", "#rrggbb"),
        ("theme.toml", "[paper", "#rrggbb"),
        ("theme.toml", f'after = "ours"\n{TOML}', "circle"),
        ("theme.toml", f'after = "nowhere"\n{TOML}', "there is no theme “nowhere”"),
        ("theme.toml", TOML, "it lacks"),
    ],
)
def test_a_fault_in_a_theme_is_said_and_nothing_is_written(own, make_job, tmp_path, name, text, said):
    (own / name).write_text(text)
    result = bind(a_job(make_job), tmp_path / "book")
    told = [str(p) for p in (*result.jobs[0].problems, *result.problems) if p.severity == "error"]
    assert told
    assert all(line.startswith("shop.toml, theme: ") for line in told)
    assert any(said in line for line in told)
    assert not (tmp_path / "book" / "handover" / "box").exists()


def test_a_theme_that_is_not_there_is_said_with_those_that_are():
    with pytest.raises(ThemeError, match="oilstone"):
        load_theme("no-such-theme")


def test_a_fraction_without_a_sign_of_its_own_is_set_as_one(own, make_job, tmp_path):
    (own / "client.html").write_text('<p title="{{ piece.title }}">{{ piece.title }} {{ piece.number }}</p>')
    job = a_job(make_job)
    (job / "job.toml").write_text('title = "5⁄16 <in>"\nnumber = "¾"\n')
    bind(job, tmp_path / "book")
    page = (tmp_path / "book" / "handover" / "box" / "index.html").read_text("utf-8")
    shown = "<sup>5</sup>⁄<sub>16</sub> &lt;in&gt;"
    assert page == f'<p title="{shown}">{shown} ¾</p>'


def test_templates_that_are_as_they_were_are_compiled_once_and_others_anew(
    own, make_job, tmp_path, monkeypatch
):
    footer = own / "client" / "closing.html"
    footer.parent.mkdir()
    (own / "client.html").write_text(
        '{% extends "oilstone/client.html" %}{% block main %}{% include "client/closing.html" %}{% endblock %}'
    )
    footer.write_text("<p>first</p>")
    compiled = []
    real = Environment.compile
    monkeypatch.setattr(
        Environment,
        "compile",
        lambda self, source, name=None, *rest: (compiled.append(name), real(self, source, name, *rest))[1],
    )

    def page():
        compiled.clear()
        assert bind(job, tmp_path / "book", again=True).ok
        return (tmp_path / "book" / "handover" / "box" / "index.html").read_text("utf-8")

    job = a_job(make_job)
    assert "<p>first</p>" in page()
    assert "client/closing.html" in compiled
    page()
    assert compiled == []
    was = footer.stat()
    footer.write_text("<p>other</p>")
    os.utime(footer, ns=(was.st_atime_ns, was.st_mtime_ns))
    assert "<p>other</p>" in page()
    assert compiled == ["client/closing.html"]
