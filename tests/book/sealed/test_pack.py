"""What is sent: an archive and a single page, each opened alone in an empty folder."""

import zipfile

import pytest

from buildbook.book.sealed.pack import MOST_MAILED, pack
from buildbook.book.sealed.verify import verify
from buildbook.cli import main
from tests.conftest import every_file

NAME = "2026-007-sideboard-with-a-slate-inset"


@pytest.fixture(scope="module")
def packed(tmp_path_factory):
    from tests.conftest import SAMPLE

    return pack(SAMPLE, tmp_path_factory.mktemp("packed"), lambda *_: None)


def test_both_are_made_and_small_enough_to_mail(packed):
    assert packed.ok
    assert packed.archive.name == f"{NAME}-handover.zip"
    assert packed.single.name == f"{NAME}.html"
    assert packed.single.stat().st_size < MOST_MAILED


def test_the_archive_opened_alone_is_the_handover(packed, bound_sample, tmp_path):
    with zipfile.ZipFile(packed.archive) as archive:
        assert archive.testzip() is None
        archive.extractall(tmp_path)
    assert every_file(tmp_path / NAME) == every_file(bound_sample / "handover" / "sample_job")
    assert verify(tmp_path / NAME).ok
    assert verify(packed.archive).ok


def test_the_same_bytes_twice(packed, sample, tmp_path):
    again = pack(sample, tmp_path, lambda *_: None)
    assert again.archive.read_bytes() == packed.archive.read_bytes()
    assert again.single.read_bytes() == packed.single.read_bytes()


@pytest.mark.browser
def test_the_single_page_asks_for_nothing_and_shows_all_its_pictures(packed, open_page, tmp_path):
    alone = tmp_path / "care.html"
    alone.write_bytes(packed.single.read_bytes())
    page = open_page(alone, width=390)
    page.evaluate("document.querySelectorAll('img').forEach(i => { i.loading = 'eager' })")
    page.wait_for_function("[...document.images].every(i => i.complete)")
    shown = page.evaluate("[...document.images].map(i => i.naturalWidth)")
    assert len(shown) >= 5
    assert all(shown)
    assert {url for url in page.asked if not url.startswith("data:")} == {alone.as_uri()}
    assert page.evaluate("[...document.querySelectorAll('a[href]')].map(a => a.getAttribute('href'))") != []
    assert not [
        h
        for h in page.evaluate("[...document.querySelectorAll('a[href]')].map(a => a.getAttribute('href'))")
        if h.endswith((".pdf", ".ics"))
    ]


def test_a_job_that_cannot_be_bound_is_not_packed(make_job, tmp_path, capsys):
    folder = make_job(**{"job.toml": "title = \n"})
    assert main(["handover", str(folder), "--to", str(tmp_path / "out")]) == 1
    assert "job.toml" in capsys.readouterr().err
    assert not list((tmp_path / "out").glob("*")) if (tmp_path / "out").exists() else True


def test_a_shelf_is_not_packed(make_job, tmp_path, capsys):
    make_job("a", **{"job.toml": 'title = "A"\n', "notes.md": "## 2026-01-01 x\n\ny\n"})
    shelf = make_job("b", **{"job.toml": 'title = "B"\n', "notes.md": "## 2026-01-01 x\n\ny\n"}).parent
    assert main(["handover", str(shelf), "--to", str(tmp_path)]) == 1
    assert "one client" in capsys.readouterr().err
