"""Private stays in: a canary in every private field, file name and picture tag is nowhere in the handover."""

import base64
import dataclasses
import io
import json
import re
import zipfile
import zlib
from pathlib import Path

import pypdf
import pytest
from PIL import Image, PngImagePlugin

from buildbook.book.bind import bind
from buildbook.book.bind_job import pages_of
from buildbook.book.sealed.pack import pack
from buildbook.job import read_job
from tests.conftest import every_file

CANARY = "Zqwxcanary"
NUMBER = "987654"  # a price, a rate: digits that nothing else in the job holds

SHOP = f"""
name = "The Shop"
maker = "The Maker"
address = "1 Some Yard"
email = "shop@example.org"
currency = "EUR"
units = "mm"
pages_at = "https://shop.example/pieces/"
hour_rate = {NUMBER}.11
stages = ["joinery", "{CANARY}stage"]
"""

JOB = f"""
number = "2026-001"
title = "A chest"
piece = "chest"
client = "{CANARY}client"
begun = 2026-01-05
delivered = 2026-03-01
overall = {{ width = "900", depth = "400", height = "500" }}
tags = ["{CANARY}tag"]
price = {NUMBER}.22
stands = "wall"
[photos]
lead = "photos/{CANARY}lead.jpg"
client = ["photos/deep/{CANARY}second.png"]
[[finish]]
key = "{CANARY}key"
family = "hardwax-oil"
product = "clear oil"
coats = [2026-02-20]
sheen = "satin"
batch = "{CANARY}batch"
note = "{CANARY}finishnote"
[hanging]
method = "cleat"
fastener = {{ kind = "wood screw", diameter = "5 mm", length = "70 mm", in_wall = "45 mm", count = 4 }}
wall = {{ kind = "{CANARY}wall", sg = 0.42 }}
pull_height = "400 mm"
[[worked]]
kind = "fall"
title = "{CANARY}worked"
depth = "100 mm"
angle = "5 deg"
note = "{CANARY}workednote"
"""

PARTS = f"""part,qty,kind,material,length,width,thickness,stock,cut,fit,faces,finish,origin,country,supplier,price,per,client,note,{CANARY}column,edge,held
Top,1,wood,white oak,900,400,20,27 mm,flat,glued,all,{CANARY}key,a tree,GB,{CANARY}supplier,{NUMBER}.33,m3,,{CANARY}note,{CANARY}cell
{CANARY}hiddenpart,2,wood,black walnut,300,100,20,27 mm,flat,glued,all,{CANARY}key,{CANARY}origin,US,{CANARY}s,{NUMBER},m3,no,,
{CANARY}hiddenhinge,2,hardware,{CANARY}steel hinge,50,30,2,,,,,,,,,{NUMBER},each,no,,
{CANARY}hiddenglass,1,glass,float glass,300,300,4,,,,,,,,,{NUMBER},each,no,,,{CANARY}edge,{CANARY}held
{CANARY}hiddenstone,1,stone,marble,300,300,20,,,,,,{CANARY}quarry,,,{NUMBER},each,no,,
{CANARY}hiddenpanel,1,panel,birch plywood,300,300,6,,,,faces,{CANARY}key,{CANARY}mill,,,{NUMBER},sheet,no,,
{CANARY}glue,1,supply,{CANARY}epoxy,,,,,,,,,,,{CANARY}shop,{NUMBER},each,,{CANARY},
Knob,1,hardware,brass knob,20,20,20,,,,,,,,{CANARY}supplier,{NUMBER},each,,{CANARY}note,
"""

NOTES = f"""## 2026-01-10 {CANARY}title

Hours: joinery 3, {CANARY}stage 2

{CANARY}body with a [link]({CANARY}link.html).

![{CANARY}privatecaption](photos/{CANARY}private.jpg)

### For the client

What the client reads.
<!-- {CANARY}comment -->
Hours: joinery 1, {CANARY}stage 1

Told with a [link to a file](../{CANARY}folder/receipt.pdf) and a picture.

![What it shows](photos/{CANARY}told.jpg)

![gone](photos/{CANARY}missing.jpg)

### {CANARY}nextheading

> ### For the client
> {CANARY}quoted

```
### For the client
{CANARY}fenced
```

- ### For the client
  {CANARY}listed

### For the client and {CANARY}others

{CANARY}afternotquite
"""


ESTIMATE = f"""{{
 "schema": 1, "{CANARY}key": "{CANARY}value",
 "hours": {{"low_h": 1, "median_h": {NUMBER}, "high_h": {NUMBER}.5, "by_stage": [
  {{"stage": "{CANARY}estimatedstage", "driver": "{CANARY}driver", "low_h": 2, "median_h": 3, "high_h": {NUMBER}, "from_jobs": 9}}]}},
 "materials": {{"amount": {NUMBER}.11, "currency": "EUR"}},
 "price": {{"low": 10, "median": {NUMBER}.22, "high": {NUMBER}.33, "currency": "{CANARY}currency"}},
 "like": [{{"job": "{CANARY}otherjob"}}]
}}"""


def jpeg(colour, **tags) -> bytes:
    picture = Image.new("RGB", (120, 80), colour)
    exif = Image.Exif()
    exif[0x010F] = f"{CANARY}make"
    exif[0x013B] = f"{CANARY}artist"
    exif[0x9286] = f"{CANARY}usercomment".encode()
    exif.get_ifd(0x8825)[1] = "N"
    exif.get_ifd(0x8769)[0x9003] = "2026:01:10 12:00:00"
    out = io.BytesIO()
    picture.save(out, "JPEG", exif=exif, comment=f"{CANARY}comment", **tags)
    return out.getvalue()


def png(colour) -> bytes:
    info = PngImagePlugin.PngInfo()
    info.add_text("Author", f"{CANARY}author")
    info.add_itxt("Description", f"{CANARY}description")
    out = io.BytesIO()
    Image.new("RGBA", (90, 120), (*colour, 128)).save(out, "PNG", pnginfo=info)
    return out.getvalue()


@pytest.fixture
def canary_job(tmp_path) -> Path:
    folder = tmp_path / "shelf" / f"2026-001-{CANARY}folder"
    (folder / "photos" / "deep").mkdir(parents=True)
    (folder / "shop.toml").write_text(SHOP)
    (folder / "prices.csv").write_text(
        f"material,price,per,date,supplier\n{CANARY}stuff,{NUMBER},each,2026-01-01,{CANARY}p\n"
    )
    (folder / "job.toml").write_text(JOB)
    (folder / "parts.csv").write_text(PARTS)
    (folder / "notes.md").write_text(NOTES)
    (folder / "estimate.json").write_text(ESTIMATE)
    for number, name in enumerate(("lead", "private", "told")):
        (folder / "photos" / f"{CANARY}{name}.jpg").write_bytes(jpeg((number * 60, 90, 40)))
    (folder / "photos" / "deep" / f"{CANARY}second.png").write_bytes(png((10, 20, 200)))
    return folder


_PLACES = re.compile(rb"\d{10} \d{5} [nf]\s")  # where the objects of a PDF lie: digits that mean nothing


def opened(content: bytes, name: str = "") -> bytes:
    """The bytes of a file with what is packed inside them: PDF and PNG streams, the words of a PDF, its metadata."""
    out = [_PLACES.sub(b"", content)]
    for stream in re.finditer(rb"stream\r?\n(.*?)endstream", content, re.DOTALL):
        inflater = zlib.decompressobj()
        out.append(inflater.decompress(stream[1]) if stream[1][:1] == b"\x78" else b"")
    if name.endswith(
        ".pdf"
    ):  # letters of an embedded font are numbers in the file: read them as a reader would
        reader = pypdf.PdfReader(io.BytesIO(content))
        words = [page.extract_text() for page in reader.pages]
        out.append("".join("".join(words).split()).encode())
        out.append(str(reader.metadata).encode())
    if name.endswith(".ics"):
        out.append(content.replace(b"\r\n ", b""))  # folded lines
    for inside in re.finditer(rb"data:image/jpeg;base64,([A-Za-z0-9+/=]+)", content):
        out.append(base64.b64decode(inside[1]))
    return b"\n".join(out)


def leaks(folder: Path) -> list[str]:
    found = []
    for name, content in every_file(folder).items():
        inside = opened(content, name)
        for needle in (CANARY, NUMBER):
            coded = (
                needle.encode(),
                needle.encode("utf-16-le"),
                needle.encode("utf-16-be"),
                needle.lower().encode(),
                needle.upper().encode(),
            )
            if needle.lower() in name.lower() or any(form in inside for form in coded):
                found.append(f"{needle} in {name}")
    return found


def test_the_search_would_find_a_word_in_a_pdf(canary_job, tmp_path):
    bind(canary_job, tmp_path / "book")
    for name in ("care-card.pdf", "care-booklet.pdf"):
        content = (tmp_path / "book" / "handover" / canary_job.name / name).read_bytes()
        assert b"TheMaker" in opened(content, name)
        assert b"TheMaker" not in content


def test_nothing_private_is_in_what_is_packed(canary_job, tmp_path):
    packed = pack(canary_job, tmp_path / "out", lambda *_: None)
    assert packed.ok, packed.problems
    with zipfile.ZipFile(packed.archive) as archive:
        archive.extractall(tmp_path / "unpacked")
    assert b"What the client reads." in packed.single.read_bytes()
    assert leaks(tmp_path / "unpacked") == leaks(tmp_path / "out") == []
    assert b"https://shop.example/pieces/2026-001-a-chest/" in packed.single.read_bytes()


def test_nothing_private_is_in_any_byte_of_the_handover(canary_job, tmp_path):
    result = bind(canary_job, tmp_path / "book")
    assert [job.bound for job in result.jobs] == [True], [str(p) for j in result.jobs for p in j.problems] + [
        j.fault for j in result.jobs
    ]
    handover = tmp_path / "book" / "handover" / canary_job.name
    pictures = list(handover.glob("photos/*.jpg"))
    assert len(pictures) == 3  # lead, second and told; the private one stays in
    assert leaks(handover) == []


def test_the_canary_was_really_there(canary_job, tmp_path):
    """The private pages do hold it: the search would have found it."""
    bind(canary_job, tmp_path / "book")
    log = (tmp_path / "book" / "jobs" / canary_job.name / "index.html").read_text("utf-8")
    for planted in (
        "client",
        "tag",
        "body",
        "title",
        "supplier",
        "note",
        "hiddenpart",
        "stage",
        "worked",
        "privatecaption",
        "estimatedstage",
        "currency",
        "batch",
    ):
        assert CANARY + planted in log
    assert "What the client reads." in log


def test_pictures_that_leave_hold_pixels_only(canary_job, tmp_path):
    bind(canary_job, tmp_path / "book")
    for path in (tmp_path / "book" / "handover" / canary_job.name / "photos").iterdir():
        with Image.open(path) as picture:
            assert dict(picture.getexif()) == {}
            assert set(picture.info) <= {
                "jfif",
                "jfif_version",
                "jfif_unit",
                "jfif_density",
                "progressive",
                "progression",
            }


def test_the_client_piece_has_no_private_value(canary_job):
    """The model itself is clean, so no template can show what is private."""
    piece, _, _, _ = pages_of(read_job(canary_job))
    text = json.dumps(dataclasses.asdict(piece), default=str)
    shown = re.sub(
        r"photos/Zqwxcanary\w+\.jpg", "", text
    )  # how the passage calls its pictures; never rendered
    without_passages = json.dumps(dataclasses.asdict(dataclasses.replace(piece, story=())), default=str)
    assert CANARY not in without_passages
    assert NUMBER not in shown
    assert {"What the client reads" in told.markdown for told in piece.story} == {True}


def test_that_a_hidden_pane_may_break_is_told_and_not_the_pane(canary_job):
    piece, _, _, _ = pages_of(read_job(canary_job))
    told = [aid for happening in piece.happens for aid in happening.aid]
    of_glass = [aid for aid in told if "Glass" in aid.of]
    assert any("gloves" in aid.first for aid in of_glass)
    assert {aid.named for aid in of_glass} == {()}
    assert "Stone that acid marks" not in {of for aid in told for of in aid.of}
    assert CANARY not in json.dumps([dataclasses.asdict(happening) for happening in piece.happens])
