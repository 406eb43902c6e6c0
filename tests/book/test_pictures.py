"""Pictures are opened within a budget of points, and a very large one is shrunk without being copied whole."""

import io
import threading

from PIL import Image, ImageChops, ImageStat

from buildbook.book.bind import bind
from buildbook.book.pictures import InFlight
from buildbook.job.photos.decode import points_held
from buildbook.render import photo
from buildbook.render.copies import copies_of
from buildbook.render.photo import encode
from tests.conftest import every_file


def test_pictures_in_flight_never_hold_more_than_the_budget_but_for_one_alone():
    in_flight = InFlight(100)
    held, most, lock = [0], [], threading.Lock()

    def work(points):
        for _ in range(200):
            with in_flight.hold(points):
                with lock:
                    held[0] += points
                    most.append((held[0], points))
                with lock:
                    held[0] -= points

    threads = [threading.Thread(target=work, args=(points,)) for points in (30, 60, 90, 250)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(most) == 800  # none waits for ever
    assert all(together <= 100 or together == own == 250 for together, own in most)


def test_a_picture_that_a_decoder_shrinks_holds_little_and_another_all_of_it(tmp_path):
    for suffix in ("jpg", "png"):
        Image.new("RGB", (4000, 3000)).save(tmp_path / f"a.{suffix}")
    assert points_held(tmp_path / "a.jpg", (500, 375)) < 4000 * 3000 // 10
    assert points_held(tmp_path / "a.png", (500, 375)) == 3 * 4000 * 3000
    (tmp_path / "b.png").write_bytes(b"nothing")
    assert points_held(tmp_path / "b.png", (500, 375)) == 0


def test_a_picture_shrunk_in_bands_is_the_picture(tmp_path, monkeypatch):
    """Transparent, turned by its EXIF, with an odd size: as it comes out when it is not very large."""
    wide, high = 3001, 2003
    picture = Image.merge(
        "RGBA", (*(Image.linear_gradient("L").rotate(90 * n).resize((wide, high)) for n in range(4)),)
    )
    exif = picture.getexif()
    exif[0x0112] = 6
    picture.save(tmp_path / "a.png", exif=exif)
    copies = copies_of("0" * 64, high, wide)[2:]
    plain = dict(encode(tmp_path / "a.png", copies))
    monkeypatch.setattr(photo, "LARGE_POINTS", 1000)
    banded = dict(encode(tmp_path / "a.png", copies))
    assert banded.keys() == plain.keys()
    assert banded != plain  # the bands were at work
    for name, content in banded.items():
        one, other = Image.open(io.BytesIO(content)), Image.open(io.BytesIO(plain[name]))
        assert one.size == other.size
        assert max(ImageStat.Stat(ImageChops.difference(one, other)).mean) < 1


def test_one_copy_of_several_that_is_lost_is_made_again(tmp_path):
    """Beside the others, which are still there."""
    job, book = tmp_path / "job", tmp_path / "book"
    (job / "photos").mkdir(parents=True)
    (job / "notes.md").write_text("## 2026-03-16 Day\n\nSanded.\n")
    Image.new("RGB", (1200, 800), (9, 90, 9)).save(job / "photos" / "a.jpg")
    assert bind(job, book).ok
    whole = every_file(book)
    copies = sorted((book / "jobs" / "job" / "photos").iterdir())
    assert len(copies) > 2
    for copy in copies:
        copy.unlink()
        assert bind(job, book).jobs[0].redone
        assert every_file(book) == whole
