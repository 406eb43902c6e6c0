"""The folder drawings: shown in the log, in no handover; what an SVG may not do; when a job is bound again for it."""

from __future__ import annotations

import io
import shutil
import zipfile
from pathlib import Path

import pytest
from PIL import Image

from buildbook.book.bind import bind
from buildbook.book.sealed.pack import pack
from buildbook.job import read_job
from buildbook.job.photos.drawings import caption_of, only_draws
from tests.conftest import every_file, noise

CANARY = "Zqwxd"
SVG = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><title>{CANARY}</title><path d="M0 0L9 9"/></svg>'
PDF = b"%PDF-1.4\n% " + CANARY.encode() + b"\n%%EOF\n"
NAMES = ("front-elevation", "IMG_2031")


def with_place(colour: tuple[int, int, int]) -> bytes:
    """A JPEG that says where and by whom it was taken."""
    exif = Image.Exif()
    exif[0x010E] = f"{CANARY}description"
    exif.get_ifd(0x8825).update({1: "N", 2: (51.0, 30.0, 0.0), 3: "W", 4: (0.0, 7.0, 0.0)})
    out = io.BytesIO()
    Image.new("RGB", (120, 90), colour).save(out, "JPEG", exif=exif)
    return out.getvalue()


@pytest.fixture
def job(tmp_path: Path) -> Path:
    folder = tmp_path / "shelf" / "a-chest"
    (folder / "photos").mkdir(parents=True)
    (folder / "drawings" / "deep").mkdir(parents=True)
    (folder / "job.toml").write_text('title = "Chest"\nnumber = "7"\nunits = "mm"\nbegun = 2026-01-01\n')
    (folder / "notes.md").write_text("## 2026-01-05 Begun\n\n### For the client\n\nIt is oak.\n")
    (folder / "photos" / "one.jpg").write_bytes(noise(3))
    files = {
        "front-elevation.jpg": with_place((200, 10, 10)),
        "IMG_2031.png": with_place((10, 200, 10)),
        "deep/rod.svg": SVG.encode(),
        f"layout {CANARY}.pdf": PDF,
        "model.skp": b"\x00" * 40,
        ".hidden.svg": SVG.encode(),
        "same as a photo.jpg": noise(3),
    }
    for name, content in files.items():
        (folder / "drawings" / name).write_bytes(content)
    (folder.parent / "shop.toml").write_text('name = "The Workshop"\n')
    return folder


def test_the_log_shows_them_and_nothing_of_them_leaves(job: Path, tmp_path: Path) -> None:
    book = tmp_path / "book"
    result = bind(job, book)
    assert result.ok, [str(p) for j in result.jobs for p in j.problems] + [j.fault for j in result.jobs]
    page = (book / "jobs/a-chest/index.html").read_text(encoding="utf-8")
    section = page[page.index('class="own-drawings"') :]
    section = section[: section.index("</section>")]
    assert "front elevation · front-elevation.jpg" in section
    assert ">IMG_2031.png<" in section.replace("\n", "")
    assert "<li>model.skp</li>" in section
    assert f">layout {CANARY}.pdf</a>" in section
    assert ".hidden" not in section
    assert "<path" not in section  # an SVG is a picture, never markup
    logged = every_file(book / "jobs/a-chest")
    assert [content for name, content in logged.items() if name.endswith(".svg")] == [SVG.encode()]
    assert [content for name, content in logged.items() if name.endswith(".pdf")] == [PDF]
    pictures = {name: content for name, content in logged.items() if name.startswith("photos/")}
    assert pictures
    assert not any(b"Exif" in content or CANARY.encode() in content for content in pictures.values())

    digests = {one.content[:16] for one in read_job(job).drawings if one.kind != "other"}
    photo = read_job(job).photos[0].digest[:16]
    pack(job, tmp_path / "packed", lambda *_: None)
    (archive,) = (tmp_path / "packed").glob("*.zip")
    with zipfile.ZipFile(archive) as opened:
        packed = {name: opened.read(name) for name in opened.namelist()}
    assert packed
    for name, content in (*every_file(book / "handover").items(), *packed.items()):
        said = name.encode() + content
        assert CANARY.encode() not in said, name
        assert not any(digest.encode() in said for digest in digests - {photo}), name
        assert not any(one.encode() in said for one in NAMES), name
        assert not name.endswith((".svg", ".skp"))


def test_a_drawing_is_an_input_and_its_copy_an_output(job: Path, tmp_path: Path) -> None:
    book = tmp_path / "book"
    bind(job, book)
    assert not bind(job, book).jobs[0].redone
    (job / "drawings" / f"layout {CANARY}.pdf").write_bytes(PDF + b"more")
    assert bind(job, book).jobs[0].redone
    copies = [name for name in every_file(book / "jobs/a-chest") if name.endswith(".pdf")]
    assert [(book / "jobs/a-chest" / name).read_bytes() for name in copies] == [PDF + b"more"]
    (book / "jobs/a-chest" / copies[0]).unlink()
    assert bind(job, book).jobs[0].redone
    shutil.rmtree(job / "drawings")
    assert bind(job, book).jobs[0].redone
    assert not [name for name in every_file(book / "jobs/a-chest") if name.startswith("drawings/")]
    assert "own-drawings" not in (book / "jobs/a-chest/index.html").read_text().partition("</style>")[2]
    bind(job, fresh := tmp_path / "fresh")
    assert every_file(book / "jobs/a-chest") == every_file(fresh / "jobs/a-chest")


def test_what_cannot_be_read_is_told_and_costs_nothing_else(job: Path, tmp_path: Path) -> None:
    (job / "drawings" / "broken.jpg").write_bytes(b"\xff\xd8\xff\xe0 no picture")
    (job / "drawings" / "sly.svg").write_text(SVG.replace("<title>", "<script>1</script><title>"))
    (job / "drawings" / "text.pdf").write_text("no PDF")
    (job / "drawings" / "out.svg").symlink_to("/etc/hostname")
    result = bind(job, tmp_path / "book")
    assert result.ok
    told = {problem.file for problem in result.jobs[0].problems}
    assert {f"drawings/{name}" for name in ("broken.jpg", "sly.svg", "text.pdf", "out.svg")} <= told
    page = (tmp_path / "book/jobs/a-chest/index.html").read_text(encoding="utf-8")
    assert "<li>sly.svg</li>" in page
    assert "<li>text.pdf</li>" in page


INSIDE = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink">{}</svg>'


@pytest.mark.parametrize(
    "sly",
    [
        INSIDE.format("<script>alert(1)</script>"),
        INSIDE.format('<rect onload="alert(1)"/>'),
        INSIDE.format('<rect ONCLICK="alert(1)"/>'),
        INSIDE.format('<a xlink:href="https://example.com"><rect/></a>'),
        INSIDE.format('<use xlink:href="other.svg#x"/>'),
        INSIDE.format('<use href="data:image/svg+xml,x#x"/>'),
        INSIDE.format('<image href="photo.jpg"/>'),
        INSIDE.format("<foreignObject><p>x</p></foreignObject>"),
        INSIDE.format('<g xmlns:h="http://www.w3.org/1999/xhtml"><h:script>1</h:script></g>'),
        INSIDE.format("<style>@import 'https://example.com/x.css';</style>"),
        INSIDE.format('<rect style="fill: url( https://example.com/x )"/>'),
        INSIDE.format('<set attributeName="href" to="javascript:1"/>'),
        '<?xml-stylesheet href="https://example.com/x.css"?>' + INSIDE.format(""),
        '<!DOCTYPE svg [<!ENTITY a "aaaa">]>' + INSIDE.format("<text>&a;</text>"),
        '<!DOCTYPE svg SYSTEM "file:///etc/passwd">' + INSIDE.format(""),
        "<html><svg/></html>",
        "no markup",
        "",
    ],
)
def test_an_svg_that_does_more_than_draw_is_not_shown(sly: str) -> None:
    assert not only_draws(sly.encode())


def test_an_svg_that_draws_is_shown() -> None:
    plain = '<defs><linearGradient id="g"/></defs><style>.a { fill: url(#g) }</style><use xlink:href="#g"/><text>212</text>'
    assert only_draws(INSIDE.format(plain).encode())
    assert only_draws(b'<?xml version="1.0" encoding="UTF-8"?>' + SVG.encode())


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("drawings/front-elevation_2.png", "front elevation 2"),
        ("drawings/deep/Höhenfries_Ansicht.pdf", "Höhenfries Ansicht"),
        ("drawings/model.skp", ""),
        ("drawings/IMG_1234.jpg", ""),
        ("drawings/20260102_121314.jpg", ""),
        ("drawings/scan 3.pdf", ""),
        ("drawings/a1.svg", ""),
    ],
)
def test_a_name_that_says_something_is_the_caption(name: str, said: str) -> None:
    assert caption_of(name) == said
