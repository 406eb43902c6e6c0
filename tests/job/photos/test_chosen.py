"""photos.toml: what is chosen of the pictures holds, where files disagree it is told, and what is kept in stays in."""

import re
import shutil
from pathlib import Path

import pytest
from PIL import Image

from buildbook.book.bind import bind
from buildbook.book.bind_job import pages_of
from buildbook.job import read_job, record_gaps
from buildbook.render.photo import encode
from tests.conftest import every_file
from tests.test_boundary import CANARY, jpeg, leaks, opened

FRAME = (120, 80)


def lay(
    folder: Path, chosen: str, *, job: str = "", notes: str = "## 2026-03-16 Day\n\nSanded.\n", **photos
) -> Path:
    """A job with three photos and what is chosen of them."""
    for number, name in enumerate(("a", "b", "c")):
        photos.setdefault(f"photos/{name}.jpg", jpeg((40 * number, 90, 200 - 60 * number)))
    folder.mkdir(parents=True, exist_ok=True)
    for name, content in photos.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(content)
    (folder / "shop.toml").write_text('name = "The Shop"\nunits = "mm"\n')
    (folder / "job.toml").write_text(f'title = "A chest"\nbegun = 2026-03-01\n{job}')
    (folder / "parts.csv").write_text(
        "part,qty,kind,material,length,width,thickness\nTop,1,wood,white oak,900,40,20\n"
    )
    (folder / "notes.md").write_text(notes)
    (folder / "photos.toml").write_text(chosen)
    return folder


def of_photos(job):
    return [str(p) for p in job.problems if p.file == "photos.toml"]


def test_every_key_does_what_it_says(tmp_path):
    job = read_job(
        lay(
            tmp_path / "job",
            'lead = "photos/b.jpg"\n[[photo]]\nfile = "photos/a.jpg"\nclient = true\ncaption = "The back"\nturn = 90\n'
            'day = 2026-02-03\n[[photo]]\nfile = "c.jpg"\naside = true\n',
        )
    )
    assert of_photos(job) == []
    a, b = job.photos
    assert (a.name, a.caption, a.turn, (a.width, a.height)) == ("photos/a.jpg", "The back", 90, FRAME[::-1])
    assert (str(a.taken), a.timed, a.day_from) == ("2026-02-03 00:00:00", False, "maker")
    assert b.taken
    assert b.day_from == "camera"
    assert (job.lead, job.client_photos) == ("photos/b.jpg", ("photos/a.jpg",))
    assert [photo.name for photo in job.aside] == ["photos/c.jpg"]


@pytest.mark.parametrize(("turn", "corner"), [(0, (0, 0)), (90, (1, 0)), (180, (1, 1)), (270, (0, 1))])
def test_a_turned_picture_stands_as_it_was_turned(tmp_path, turn, corner):
    """A red corner goes round with the picture, clockwise."""
    picture = Image.new("RGB", FRAME, (0, 0, 0))
    picture.paste((255, 0, 0), (0, 0, 40, 40))
    picture.save(tmp_path / "red.jpg", quality=95)
    folder = lay(tmp_path / "job", f'[[photo]]\nfile = "photos/red.jpg"\nturn = {turn}\n')
    shutil.copy(tmp_path / "red.jpg", folder / "photos" / "red.jpg")
    book = tmp_path / "book"
    assert bind(folder, book).ok
    photo = read_job(folder).photo("photos/red.jpg")
    from buildbook.render.copies import copies_of

    copy = copies_of(photo.digest, photo.width, photo.height)[0]
    with Image.open(book / "jobs" / "job" / "photos" / copy.name) as made:
        assert made.size == (photo.width, photo.height)
        at = (corner[0] * (made.width - 11) + 5, corner[1] * (made.height - 11) + 5)
        red, green, _ = made.getpixel(at)
    assert red > 200
    assert green < 60


@pytest.mark.parametrize(
    ("chosen", "problem"),
    [
        (
            '[[photo]]\nfile = "photos/a.jpg"\nlabel = "x"\n',
            "photos.toml, line 3, photo[1].label: “label” is not a key of [[photo]].",
        ),
        (
            '[[photo]]\nfile = "photos/a.jpg"\nturn = 45\n',
            "photos.toml, line 3, photo[1].turn: 45 is no quarter of a turn. Write turn = 0, 90, 180 or 270.",
        ),
        (
            '\n[[photo]]\nfile = "photos/gone.jpg"\n',
            "photos.toml, line 2, photo[1].file: “photos/gone.jpg” is not a photo of this job that can be read.",
        ),
        ("[[photo]]\nclient = true\n", "photos.toml, line 1, photo[1]: There is no “file”."),
        (
            'lead = "photos/gone.jpg"\n',
            "photos.toml, line 1, lead: “photos/gone.jpg” is not a photo of this job",
        ),
        (
            '[[photo]]\nfile = "photos/a.jpg"\n[[photo]]\nfile = "a.jpg"\n',
            "photos.toml, line 3, photo[2].file: “a.jpg” has two tables [[photo]]; the first counts. Join the two.",
        ),
        (
            '[[photo]]\nfile = "photos/a.jpg"\nclient = "perhaps"\n',
            "photos.toml, line 3, photo[1].client: “perhaps” is words, not true or false.",
        ),
        (
            '[[photo]]\nfile = "photos/a.jpg"\nday = 1826-01-01\n',
            "photos.toml, line 3, photo[1].day: 1826-01-01 is not",
        ),
        ('lead = "photos/a.jpg\n', "photos.toml, line 1: A quotation mark is not closed"),
    ],
)
def test_what_is_wrong_is_told_where_it_stands(tmp_path, chosen, problem):
    said = of_photos(read_job(lay(tmp_path / "job", chosen)))
    assert [one[: len(problem)] for one in said] == [problem]


LEAD = '[photos]\nlead = "photos/a.jpg"\n'


@pytest.mark.parametrize(
    ("over", "job", "counts"),
    [
        ("", LEAD, "photos/b.jpg"),
        ('instead_of = "photos/a.jpg"\n', LEAD, "photos/b.jpg"),
        ('instead_of = "photos/c.jpg"\n', LEAD, "photos/a.jpg"),
        ('instead_of = "photos/a.jpg"\n', "", "photos/b.jpg"),
    ],
)
def test_the_lead_that_was_written_last_counts(tmp_path, over, job, counts):
    found = read_job(lay(tmp_path / "job", f'lead = "photos/b.jpg"\n{over}', job=job))
    assert found.lead == counts
    disagree = [s for s in of_photos(found) if "counts" in s]
    assert len(disagree) == bool(job)
    assert all(f"“{counts}” counts" in s for s in disagree)


def test_other_words_and_other_marks_are_told_once(tmp_path):
    notes = "## 2026-03-16 Day\n\n### For the client\n\n![Tails](photos/a.jpg)\n\n![Pins](photos/b.jpg)\n"
    chosen = (
        '[[photo]]\nfile = "photos/a.jpg"\ncaption = "Cut tails"\n[[photo]]\nfile = "photos/b.jpg"\n'
        'caption = "Cut pins"\n[[photo]]\nfile = "photos/c.jpg"\nclient = false\n'
    )
    job = read_job(lay(tmp_path / "job", chosen, notes=notes, job='[photos]\nclient = ["photos/c.jpg"]\n'))
    assert of_photos(job) == [
        "photos.toml, line 1: “photos/a.jpg” and “photos/b.jpg” has other words in the notes; the caption here counts."
        " Keep one of the two.",
        "photos.toml, line 7: “photos/c.jpg” would be shown to the client, but client = false here counts."
        " Delete the one or the other.",
    ]
    piece = pages_of(job)[0]
    assert [picture.caption for picture in piece.pictures()] == ["Cut tails", "Cut pins"]


def test_a_folder_for_the_client_marks_what_lies_in_it(tmp_path):
    folder = lay(
        tmp_path / "job",
        "",
        **{"photos/client/d.jpg": jpeg((1, 2, 3)), "photos/Client/deep/e.jpg": jpeg((9, 2, 3))},
    )
    assert set(read_job(folder).client_photos) == {"photos/client/d.jpg", "photos/Client/deep/e.jpg"}


# -- what may leave ------------------------------------------------------------------------------


def handover(folder: Path, place: Path) -> Path:
    bound = bind(folder, place / "book")
    assert bound.ok, [str(p) for job in bound.jobs for p in job.problems]
    return place / "book" / "handover" / folder.name


SECRET = f"{CANARY}private"
PASSAGE = f"## 2026-03-16 Day\n\n### For the client\n\nRead this.\n\n![{SECRET}](photos/a.jpg)\n\n[the film](photos/film.mp4)\n"


@pytest.mark.parametrize("key", ["aside = true\nclient = true", "client = false"])
@pytest.mark.parametrize("marked", ["passage", "job.toml", "folder", "lead"])
def test_what_is_kept_in_never_leaves(tmp_path, key, marked):
    """Neither the picture nor its words, whatever else marks it for the client."""
    name = "photos/client/a.jpg" if marked == "folder" else "photos/a.jpg"
    own = {"job.toml": f'[photos]\nclient = ["{name}"]\n', "lead": f'[photos]\nlead = "{name}"\n'}
    chosen = f'[[photo]]\nfile = "{name}"\n{key}\ncaption = "{SECRET}words"\n[[photo]]\nfile = "photos/b.jpg"\nclient = true\n'
    folder = lay(
        tmp_path / "job",
        chosen,
        job=own.get(marked, ""),
        notes=PASSAGE if marked == "passage" else "## 2026-03-16 Day\n\nSanded.\n",
        **{name: jpeg((200, 20, 20))},
    )
    left = handover(folder, tmp_path)
    assert leaks(left) == []
    reds = []
    for path in left.glob("photos/*.jpg"):
        with Image.open(path) as picture:
            reds.append(picture.getpixel((5, 5))[0] > 150)
    assert reds == [False]  # b alone


def test_what_is_put_aside_is_in_no_page_of_the_book(tmp_path):
    folder = lay(
        tmp_path / "job",
        f'lead = "photos/{CANARY}.jpg"\n[[photo]]\nfile = "photos/{CANARY}.jpg"\naside = true\ncaption = "{SECRET}"\n',
        notes=f"## 2026-03-16 Day\n\n![](photos/{CANARY}.jpg)\n\nSanded.\n",
        **{f"photos/{CANARY}.jpg": jpeg((200, 20, 20))},
    )
    handover(folder, tmp_path)
    pages = [
        name
        for name, content in every_file(tmp_path / "book").items()
        if name.endswith(".html") and CANARY.encode() in re_shown(content)
    ]
    assert pages == []
    for path in (tmp_path / "book").rglob("*.jpg"):
        with Image.open(path) as picture:
            assert picture.getpixel((5, 5))[0] < 150


def re_shown(content: bytes) -> bytes:
    """A page without its problems, which name files."""
    before, _, rest = content.partition(b'id="problems"')
    return before + rest.partition(b"</section>")[2]


@pytest.mark.parametrize(
    ("job", "notes", "place"),
    [
        ('[photos]\nclient = ["photos/film.mp4"]\nlead = "photos/film.mp4"\n', "", "photos/film.mp4"),
        ("", PASSAGE, "photos/film.mp4"),
        ("", PASSAGE.replace("[the", "![the"), "photos/film.mp4"),
        ("", "", "photos/client/film.mp4"),
    ],
)
def test_a_video_never_leaves_and_is_told_on_its_day(tmp_path, job, notes, place):
    named = place.replace("film", f"{CANARY}_20260316_142233")
    folder = lay(
        tmp_path / "job",
        f'[[photo]]\nfile = "photos/a.jpg"\nclient = false\n[[photo]]\nfile = "{named}"\nclient = true\n',
        job=job.replace(place, named),
        notes=notes.replace("photos/film.mp4", named) or "## 2026-03-16 Day\n\nSanded.\n",
        **{named: f"{CANARY}".encode() * 200_000},
    )
    left = handover(folder, tmp_path)
    assert leaks(left) == []
    assert [name for name in every_file(left) if name.endswith(".mp4")] == []
    page = opened((tmp_path / "book" / "jobs" / "job" / "index.html").read_bytes()).decode()
    assert re.search(rf"Video {CANARY}_20260316_142233\.mp4, 14:22, 2(\.0)?\sMB", page)


# -- and the rest ----------------------------------------------------------------------------------


def test_a_change_of_it_alone_binds_again_and_the_same_twice_is_the_same(tmp_path):
    folder = lay(tmp_path / "job", "")
    book = tmp_path / "book"
    assert bind(folder, book).jobs[0].redone
    (folder / "photos.toml").write_text('[[photo]]\nfile = "photos/a.jpg"\nday = 2026-02-03\nturn = 90\n')
    again = bind(folder, book).jobs[0]
    assert again.redone
    assert any("photos.toml" in why for why in again.why)
    first = every_file(book / "jobs" / "job")
    assert not bind(folder, book).jobs[0].redone
    bind(folder, book, again=True)
    assert every_file(book / "jobs" / "job") == first
    (folder / "photos.toml").unlink()
    bind(folder, book)
    bind(folder, fresh := tmp_path / "fresh")
    assert every_file(book / "jobs" / "job") == every_file(fresh / "jobs" / "job")


def test_captions_are_asked_for_once_with_all_that_lack_one(tmp_path):
    chosen = 'lead = "photos/b.jpg"\n[[photo]]\nfile = "photos/a.jpg"\nclient = true\n[[photo]]\nfile = "photos/c.jpg"\nclient = true\ncaption = "Front"\n'
    job = read_job(lay(tmp_path / "job", chosen))
    asked = [str(gap) for gap in record_gaps(job).missing if gap.key == "caption"]
    assert len(asked) == 1
    assert "photos/b.jpg and photos/a.jpg" in asked[0]
    assert "c.jpg" not in asked[0]


@pytest.mark.parametrize(
    ("language", "expected"),
    [
        ("en", ["Picture 1 of 3: A chest, taken on 10 January 2026", "Picture 2 of 3: A chest, taken on 16 March 2026", "Picture 3 of 3: A chest"]),
        ("de", ["Bild 1 von 3: A chest, aufgenommen am 10. Januar 2026", "Bild 2 von 3: A chest, aufgenommen am 16. März 2026", "Bild 3 von 3: A chest"]),
    ],
)  # fmt: skip
def test_who_does_not_see_a_picture_hears_what_is_known(tmp_path, language, expected):
    plain = Image.new("RGB", FRAME, (9, 9, 9))
    folder = lay(
        tmp_path / "job",
        "",
        job='[photos]\nlead = "photos/a.jpg"\nclient = ["photos/IMG-20260316-WA0007.jpg", "photos/x.jpg"]\n',
    )
    plain.save(folder / "photos" / "IMG-20260316-WA0007.jpg")
    Image.new("RGB", FRAME, (99, 9, 9)).save(folder / "photos" / "x.jpg")
    (folder / "shop.toml").write_text(f'name = "The Shop"\nlanguage = "{language}"\nunits = "mm"\n')
    piece = pages_of(read_job(folder))[0]
    assert [picture.alt.replace("\xa0", " ") for picture in piece.pictures()] == expected


def test_a_day_from_a_name_is_marked_as_one_in_the_log(tmp_path):
    folder = lay(tmp_path / "job", "")
    Image.new("RGB", FRAME, (9, 9, 9)).save(folder / "photos" / "IMG-20260316-WA0007.jpg")
    log = pages_of(read_job(folder))[1]
    day = next(day for day in log.days if day.iso == "2026-03-16")
    assert [picture.caption for picture in day.strip] == ["IMG-20260316-WA0007.jpg · day from its name"]


def test_turned_pictures_are_made_of_the_picture_as_the_camera_held_it(tmp_path):
    exif = Image.Exif()
    exif[0x0112] = 6
    Image.new("RGB", FRAME).save(tmp_path / "x.jpg", exif=exif)
    from buildbook.render.copies import Copy

    ((_, data),) = encode(tmp_path / "x.jpg", (Copy("x.jpg", *FRAME),), 90)
    (tmp_path / "y.jpg").write_bytes(data)
    with Image.open(tmp_path / "y.jpg") as made:
        assert made.size == FRAME
