"""Records in a book: read once a binding, told when they are missing, and never half believed."""

import json
import shutil
from collections import Counter
from pathlib import Path

import pytest

from buildbook.book.bind import bind
from buildbook.book.past import passages, records
from buildbook.book.past.records import RECORD, read_passages, read_record, read_records, stale_jobs
from buildbook.book.past.search import find_in
from buildbook.find.counting import edition
from buildbook.limits import RECORD_BYTES
from tests.make_shelf import made_jobs, write_shelf

AGAIN = "Bound before this list was made: bind it again"


@pytest.fixture(scope="module")
def bound(tmp_path_factory):
    place = tmp_path_factory.mktemp("records")
    write_shelf(place / "shelf", made_jobs(4, seed=9, words=(40, 80)))
    assert bind(place / "shelf", place / "book").ok
    return place


@pytest.fixture
def small(bound, tmp_path):
    """A shelf, its book, and the folders of the logs in it."""
    shutil.copytree(bound, tmp_path / "place")
    book = tmp_path / "place" / "book"
    return tmp_path / "place" / "shelf", book, sorted((book / "jobs").iterdir())


LISTS = ("wall.pdf", "cut-list.csv", "cut-list.xlsx", "shopping-list.csv", "shopping-list.xlsx")


def test_one_file_a_job_and_nothing_of_it_in_what_a_client_gets(small):
    _, book, logs = small
    names = {path.name for log in logs for path in log.iterdir()}
    assert names == {*LISTS, "contents.json", "index.html", "record.json", "summary.json", "words.js"}
    assert [
        path for path in (book / "handover").rglob("*") if path.name in (*LISTS, "record.json", "words.js")
    ] == []


def test_a_binding_reads_each_record_once_and_no_words(small, monkeypatch):
    shelf, book, logs = small
    opened = Counter()
    whole = records.read_plain

    def counted(path, most):
        opened[path] += 1
        return whole(path, most)

    monkeypatch.setattr(records, "read_plain", counted)
    assert bind(next(path.parent for path in sorted(shelf.glob("*/job.toml"))), book).ok
    assert {
        path: times
        for path, times in opened.items()
        if path.suffix == ".json" and book / "jobs" in path.parents
    } == {log / RECORD: 1 for log in logs}


@pytest.mark.parametrize(
    "damage",
    [
        lambda file: file.unlink(),
        lambda file: file.write_bytes(b""),
        lambda file: file.write_bytes(file.read_bytes()[:-20]),
        lambda file: file.write_bytes(file.read_bytes() + b" " * RECORD_BYTES),
        lambda file: file.write_text(json.dumps(json.loads(file.read_text("utf-8")), indent=1), "utf-8"),
        lambda file: (file.unlink(), file.mkdir()),
        lambda file: (file.unlink(), file.symlink_to(file)),
        lambda file: (
            file.unlink(),
            (file.parent / "entry.json").write_text("{}"),
            (file.parent / "used.json").write_text("{}"),
        ),
    ],
    ids=["gone", "empty", "cut", "huge", "written by another", "folder", "loop", "of an older book"],
)
def test_a_job_without_a_record_is_listed_as_one_to_bind_again_until_it_is(small, damage):
    shelf, book, logs = small
    whole = (book / "index.html").read_bytes()
    folders = sorted(path.parent for path in shelf.glob("*/job.toml"))
    damage(logs[0] / RECORD)
    assert read_record(logs[0]) is None
    assert bind(folders[1], book).ok
    assert read_records(book).without == (logs[0].name,)
    page = (book / "index.html").read_text("utf-8")
    assert page.count(AGAIN) == 1
    assert f'href="jobs/{logs[0].name}/index.html"' in page
    assert "One job of this book was bound before" in (book / "woods.html").read_text("utf-8")
    if (logs[0] / RECORD).is_dir():
        (logs[0] / RECORD).rmdir()
    elif (logs[0] / RECORD).is_symlink():
        (logs[0] / RECORD).unlink()
    assert bind(shelf, book).ok
    assert (book / "index.html").read_bytes() == whole


def test_the_record_of_another_job_is_not_taken_for_that_of_this_one(small):
    _, book, logs = small
    shutil.copy(logs[1] / RECORD, logs[0] / RECORD)
    assert read_record(logs[0]) is None
    assert len(read_records(book).records) == 3


def test_a_folder_that_is_being_written_is_no_job(small):
    _, book, logs = small
    shutil.copytree(logs[0], book / "jobs" / ".new")
    (book / "jobs" / "notes of mine").mkdir()
    found = read_records(book)
    assert [record.key for record in found.records] == [log.name for log in logs]
    assert found.without == ()


def parts_of(found):
    return [(record.key, record.entry, record.find, record.used) for record in found.records]


def test_counts_of_another_edition_are_made_anew_from_the_words_beside_them(small):
    _, book, logs = small
    before = parts_of(read_records(book))
    for log in logs:
        text = (log / RECORD).read_text("utf-8")
        (log / RECORD).write_text(text.replace(edition(), "0" * 12).replace('"oak":', '"oka":'), "utf-8")
    assert parts_of(read_records(book)) == before
    (logs[0] / "words.js").write_bytes(b"buildbookWords(")
    assert read_records(book).without == (logs[0].name,)


def test_the_terminal_reads_the_words_only_of_what_it_shows(small, monkeypatch):
    _, book, _ = small
    having = Counter(term for record in read_records(book).records for term in record.find.counts["note"])
    (word, jobs), *_ = having.most_common(1)
    opened = []
    whole = passages.read_plain
    monkeypatch.setattr(
        passages, "read_plain", lambda path, most: opened.append(path.name) or whole(path, most)
    )
    count, shown = find_in(book, word, 2)
    assert count == jobs > 2
    assert all(job.passages for job in shown)
    assert opened == ["words.js", "words.js"]


@pytest.mark.parametrize(
    "data", [b"", b"{}", b"buildbookWords();\n", b'buildbookWords("a", [["x"]]);\n', b"\xff"]
)
def test_what_are_no_words_are_none(tmp_path, data):
    (tmp_path / "words.js").write_bytes(data)
    assert read_passages(tmp_path) is None


@pytest.mark.parametrize("data", [b"", b"[]", b'{"stale": 3}', b'{"stale": {"a": 1}}', b"[" * 100_000])
def test_a_listing_that_cannot_be_read_names_no_job(tmp_path, data):
    (tmp_path / "contents.json").write_bytes(data)
    assert stale_jobs(tmp_path) == {}
    assert stale_jobs(Path("nowhere")) == {}
