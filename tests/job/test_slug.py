"""The name by which a piece leaves: what a web host, a mail and any disk take, and never the folder's."""

import re
import zipfile

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.book.bind import bind
from buildbook.book.bind_job import pages_of
from buildbook.book.sealed.pack import pack
from buildbook.book.sealed.verify import verify
from buildbook.cli import main
from buildbook.job import read_job
from buildbook.job.slug import LONGEST, slug

NOTES = "## 2026-03-02 A day\n\nSomething.\n"
SLUGS = {
    ("2026-014", "Record cabinet"): "2026-014-record-cabinet",
    ("2026/014", "Schreibtisch für Frau Größe"): "2026-014-schreibtisch-fuer-frau-groesse",
    ("", "Scho\u0308ner Stuhl"): "schoener-stuhl",
    ("7", "Ça & là, n° 2"): "7-ca-la-n-2",
    ("", "Łódź chair, Ærø table"): "lodz-chair-aeroe-table",
    ("12", "书柜"): "12",
    ("", "书柜"): "",
    ("", ""): "",
    ("", "CON"): "piece-con",
    ("", "LPT1"): "piece-lpt1",
    ("../..", "etc/passwd\x00\n.exe"): "etc-passwd-exe",
    ("", "½ size maker’s desk"): "1-2-size-makers-desk",
    ("1", "word " * 30): "1" + "-word" * 11,
    ("", "x" * 99): "x" * LONGEST,
}  # fmt: skip


@pytest.mark.parametrize("texts", SLUGS, ids=repr)
def test_slugs(texts):
    assert slug(*texts) == SLUGS[texts]


@given(st.text(max_size=120), st.text(max_size=120))
def test_a_slug_is_a_plain_name_whatever_it_is_made_of(number, title):
    made = slug(number, title)
    assert re.fullmatch(r"([a-z0-9]+(-[a-z0-9]+)*)?", made)
    assert len(made) <= LONGEST
    assert slug(made) == made


def shelf_of(make_job, shop="", **jobs):
    for name, toml in jobs.items():
        folder = make_job(name.replace("_", "-"), job_dot_toml=toml, notes_dot_md=NOTES)
    (folder.parent / "shop.toml").write_text(f'name = "Shop"\n{shop}')
    return folder.parent


PAGES = 'pages_at = "https://shop.example/pieces/"\n'
SAME = 'number = "2026-1"\ntitle = "A stool"\n'


def test_two_jobs_of_one_name_are_told_and_one_without_an_address_is_still_bound(make_job, tmp_path):
    shelf = shelf_of(make_job, first=SAME, second='number = "2026 1"\ntitle = "A  Stool"\ntags = ["["]\n')
    bound = bind(shelf, tmp_path / "book")
    assert bound.ok
    assert [str(p) for p in bound.problems if "same name" in str(p)] == [
        "second/job.toml, number: Number and title make the same name, “2026-1-a-stool”, as those of “first”."
        " Give each piece its own number."
    ]


def test_a_card_never_leads_to_the_page_of_another_job(make_job, tmp_path, capsys):
    shelf = shelf_of(
        make_job, PAGES, first=SAME, second=SAME, third=SAME + 'page = "https://shop.example/3/"\n'
    )
    bound = bind(shelf, tmp_path / "book")
    assert [job.bound for job in bound.jobs] == [True, False, True]
    alone = bind(shelf / "second", tmp_path / "other")
    assert not alone.ok
    assert not pack(shelf / "second", tmp_path / "out", lambda *_: None).ok
    assert pack(shelf / "first", tmp_path / "out", lambda *_: None).ok
    assert main(["proof", str(shelf)]) == 1
    assert "second/job.toml, number" in capsys.readouterr().err


def test_pieces_without_a_name_have_no_address_and_are_not_taken_for_one_another(make_job, tmp_path):
    shelf = shelf_of(make_job, PAGES, first='client = "Somebody"\n', second="")
    assert bind(shelf, tmp_path / "book").ok
    assert pages_of(read_job(shelf / "first"))[0].page_address == ""
    packed = pack(shelf / "first", tmp_path, lambda *_: None)
    assert (packed.archive.name, packed.single.name) == ("piece-draft.zip", "piece.html")


@pytest.mark.parametrize(("delivered", "kind"), [("delivered = 2026-04-01\n", "handover"), ("", "draft")])
def test_the_archive_bears_the_slug_inside_and_out(make_job, tmp_path, delivered, kind):
    folder = make_job("for-the-secret-client", job_dot_toml=SAME + delivered, notes_dot_md=NOTES)
    packed = pack(folder, tmp_path / "out", lambda *_: None)
    assert packed.archive.name == f"2026-1-a-stool-{kind}.zip"
    with zipfile.ZipFile(packed.archive) as archive:
        assert {name.split("/")[0] for name in archive.namelist()} == {"2026-1-a-stool"}
    assert verify(packed.archive, packed.sealed.whole).by == "whole"
    assert sorted(p.name for p in (tmp_path / "out").iterdir()) == [
        f"2026-1-a-stool-{kind}.zip",
        "2026-1-a-stool.html",
    ]
