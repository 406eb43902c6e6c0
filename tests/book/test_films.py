"""Videos in a book: a picture in the log that is made once, the same bytes each time, and nothing that leaves."""

import io
import re

import pytest
from PIL import Image

from buildbook.book import pictures
from buildbook.book.bind import bind
from buildbook.book.bind_job import silent
from buildbook.book.sealed.pack import pack
from buildbook.job.photos import films
from tests.conftest import every_file
from tests.films import PRIVATE, film, quarter
from tests.test_boundary import opened

NIGHT = "2026-03-16T22:30:00Z"
NOTES = "## 2026-03-16 Glued up\n\nSanded.\n\n### For the client\n\nIt stands.\n\n[the film](photos/Zqwxone.mp4)\n"


@pytest.fixture
def shelf(tmp_path):
    """Two jobs with videos of every kind of trouble, in a shop whose country has one zone."""
    shelf = tmp_path / "shelf"
    for job in ("first", "second"):
        photos = shelf / job / "photos" / "client"
        photos.mkdir(parents=True)
        (shelf / job / "notes.md").write_text(NOTES)
        (shelf / job / "job.toml").write_text(
            'title = "A chest"\n[photos]\nlead = "photos/Zqwxone.mp4"\nclient = ["photos/Zqwxone.mp4"]\n'
        )
        film(shelf / job / "photos" / "Zqwxone.mp4", made=NIGHT, turn=90, **PRIVATE)
        film(photos / "Zqwxtwo.mkv", "mkv", made=NIGHT, **PRIVATE)
        (photos / "Zqwxbroken.mov").write_bytes(b"no video")
        Image.new("RGB", (60, 40), (90, 60, 30)).save(photos / "seen.jpg")
    (shelf / "shop.toml").write_text('name = "The Shop"\ncountry = "DE"\n')
    return shelf


def log(book, job="first"):
    return (book / "jobs" / job / "index.html").read_text()


def shown(book, name, job="first"):
    """The picture that the log shows of a video."""
    found = re.search(rf'<img src="(photos/[^"]+)"[^>]*alt="[^"]*{name}"', log(book, job))
    return Image.open(io.BytesIO((book / "jobs" / job / found[1]).read_bytes()))


def test_the_log_shows_a_picture_upright_with_length_time_and_size(shelf, tmp_path):
    book = tmp_path / "book"
    assert bind(shelf / "first", book).ok
    assert re.search(r"Video Zqwxone\.mp4, 23:30, 0:02 min, 0\.0\sMB", log(book))
    assert "<li>Video Zqwxbroken.mov" in log(book)
    picture = shown(book, "Zqwxone.mp4")
    assert picture.width < picture.height
    assert quarter(picture) == "right upper"
    assert quarter(shown(book, "Zqwxtwo.mkv")) == "left upper"
    assert dict(picture.getexif()) == {}


def test_of_a_video_nothing_leaves_whatever_names_it(shelf, tmp_path):
    """Neither itself, nor its picture, nor a word of it: not in the handover, not in the archive and the page to mail."""
    book = tmp_path / "book"
    assert bind(shelf / "first", book).ok
    leaving = every_file(book / "handover" / "first")
    pack(shelf / "first", tmp_path / "packed", silent)
    packed = every_file(tmp_path / "packed")
    assert len(packed) == 2
    leaving |= packed
    for name, content in leaving.items():
        inside = opened(content, name)
        assert b"zqwx" not in inside.lower(), name
        assert b"48.135" not in inside, name
    blue = [
        name
        for name, content in leaving.items()
        if name.endswith(".jpg") and quarter(Image.open(io.BytesIO(content)))
    ]
    assert blue == []
    assert [name for name in leaving if name.endswith(".jpg")]


def test_what_a_camera_notes_beside_the_day_is_in_no_page_at_all(shelf, tmp_path):
    book = tmp_path / "book"
    assert bind(shelf, book).ok
    for name, content in every_file(book).items():
        for word in (*(value for key, value in PRIVATE.items() if key != "location"), "48.13", "11.582"):
            assert word.encode() not in opened(content, name), (word, name)


def test_serial_parallel_and_again_give_the_same_bytes(shelf, tmp_path):
    books = {}
    for name, how in (("serial", {"processes": 1}), ("parallel", {"processes": 2})):
        assert bind(shelf, tmp_path / name, **how).ok
        books[name] = every_file(tmp_path / name)
    assert books["serial"] == books["parallel"]
    bind(shelf, tmp_path / "serial", again=True)
    assert every_file(tmp_path / "serial") == books["serial"]


def asked(monkeypatch):
    """Which videos the process is asked for, and for what."""
    seen = []
    real = films._process

    def watched(what, path):
        seen.append((what, path.name))
        return real(what, path)

    monkeypatch.setattr(films, "_process", watched)
    return seen


def test_a_video_is_opened_once_and_not_again_while_it_is_as_it_was(shelf, tmp_path, monkeypatch):
    """Not for another note, and not to find anew that one is broken."""
    seen, job, book = asked(monkeypatch), shelf / "first", tmp_path / "book"
    assert bind(job, book).ok
    assert sorted(seen) == [
        ("facts", "Zqwxbroken.mov"), ("facts", "Zqwxone.mp4"), ("facts", "Zqwxtwo.mkv"), ("frame", "Zqwxone.mp4"), ("frame", "Zqwxtwo.mkv"),
    ]  # fmt: skip
    first = [str(problem) for problem in bind(job, book).jobs[0].problems]
    seen.clear()
    (job / "notes.md").write_text(NOTES.replace("Sanded", "Sanded twice"))
    again = bind(job, book).jobs[0]
    assert again.redone
    assert seen == []
    assert [str(problem) for problem in again.problems] == first
    assert any("Zqwxbroken" in problem for problem in first)
    monkeypatch.setattr(pictures, "first_picture", None)
    assert bind(job, book).ok


def test_a_video_that_changed_is_read_anew_and_its_picture_goes_with_it(shelf, tmp_path, monkeypatch):
    job, book = shelf / "first", tmp_path / "book"
    bind(job, book)
    before = {name for name in every_file(book / "jobs" / "first") if name.startswith("photos/")}
    film(job / "photos" / "Zqwxone.mp4", made=NIGHT, pictures=40)
    seen = asked(monkeypatch)
    again = bind(job, book).jobs[0]
    assert any("Zqwxone.mp4" in why for why in again.why)
    assert {name for _, name in seen} == {"Zqwxone.mp4"}
    assert "0:04 min" in log(book)
    after = {name for name in every_file(book / "jobs" / "first") if name.startswith("photos/")}
    assert len(before - after) == len(after - before) == 2
    for path in (job / "photos").rglob("*.m*"):
        path.unlink()
    bind(job, book)
    left = {name for name in every_file(book / "jobs" / "first") if name.startswith("photos/")}
    assert len(left) == len(after) - 4


def test_a_picture_that_is_gone_from_the_book_is_made_again(shelf, tmp_path):
    job, book = shelf / "first", tmp_path / "book"
    bind(job, book)
    whole = every_file(book)
    name = re.search(r'<img src="(photos/[^"]+)"[^>]*alt="[^"]*Zqwxone', log(book))[1]
    (book / "jobs" / "first" / name).unlink()
    assert bind(job, book).jobs[0].redone
    assert every_file(book) == whole


def test_without_the_library_the_log_lists_it_as_before_and_with_it_everything_is_made_again(
    shelf, tmp_path, monkeypatch
):
    from buildbook.book.redo import program

    job, book = shelf / "first", tmp_path / "book"
    version = program._version
    with monkeypatch.context() as without:
        without.setattr(films, "LIBRARY", "no_such_library")
        without.setattr(program, "_version", lambda name: "none" if name == "av" else version(name))
        program.program.cache_clear()
        program.imaging.cache_clear()
        bare = bind(job, book).jobs[0]
        assert [str(one) for one in bare.problems if "Zqwxone" in one.file or "Zqwxbroken" in one.file] == []
        assert re.search(r"<li>Video Zqwxone\.mp4, 0\.0\sMB</li>", log(book))
    program.program.cache_clear()
    program.imaging.cache_clear()
    assert bind(job, book).jobs[0].redone
    assert quarter(shown(book, "Zqwxone.mp4")) == "right upper"
