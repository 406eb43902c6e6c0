"""Videos are read in whatever container a camera wrote them; whatever else they are ends in words."""

import os
import random
import struct
import subprocess
import sys
from datetime import datetime

import pytest

from buildbook import limits
from buildbook.job.photo_model import VideoFacts
from buildbook.job.photos import films
from buildbook.job.photos.films import SAID, first_picture, read_videos
from buildbook.problems import Problems
from tests.films import CONTAINERS, GROUND, PRIVATE, box, film, quarter, turned

NIGHT = "2026-03-16T23:30:00.000000Z"


@pytest.fixture
def photos(tmp_path):
    (tmp_path / "photos").mkdir()
    return tmp_path / "photos"


def read(photos, country="DE"):
    problems = Problems()
    found = read_videos(photos.parent, problems, country=country)
    return found, [str(problem) for problem in problems]


# -- what cameras write ----------------------------------------------------------------------------


@pytest.mark.parametrize("ending", CONTAINERS)
def test_each_container_gives_length_and_a_picture(ending, photos):
    stated_roughly = (
        ending == "mpg"
    )  # it has no length of its own, and the library goes by its last whole group
    path = film(photos / f"one.{ending}", ending, pictures=250 if stated_roughly else 25)
    (video,), told = read(photos)
    assert told == []
    assert video.seconds == pytest.approx(*((10, 0.05) if stated_roughly else (2.5, 0.04)))
    picture = first_picture(path)
    assert picture.size == (video.frame.width, video.frame.height)
    assert quarter(picture) == "left upper"
    middle = picture.getpixel((picture.width // 2, picture.height // 2))
    assert all(abs(is_ - was) < 12 for is_, was in zip(middle, GROUND, strict=True)), middle


SAYS_WHEN = ("mp4", "mov", "hevc.mp4", "av1.mp4", "webm", "mkv", "3gp")


@pytest.mark.parametrize("ending", SAYS_WHEN)
def test_the_day_is_that_of_the_bench_and_nothing_else_is_known(ending, photos):
    film(photos / f"one.{ending}", ending, made=NIGHT, **PRIVATE)
    (video,), _ = read(photos)
    assert (video.taken, video.timed, video.day_from) == (datetime(2026, 3, 17, 0, 30), True, "camera")
    assert "Zqwx" not in repr(video)
    assert "48.1" not in repr(video)


def test_the_name_counts_before_the_data(photos):
    film(photos / "VID_20260314_101112.mp4", made=NIGHT)
    (video,), _ = read(photos)
    assert (video.taken, video.day_from) == (datetime(2026, 3, 14, 10, 11, 12), "name")


@pytest.mark.parametrize(
    ("turn", "corner"), [(0, "left upper"), (90, "right upper"), (180, "right lower"), (270, "left lower")]
)
@pytest.mark.parametrize("ending", ["mp4", "mov"])
def test_a_video_stands_upright(ending, turn, corner, photos):
    path = film(photos / f"one.{ending}", ending, turn=turn)
    (video,), _ = read(photos)
    picture = first_picture(path)
    assert quarter(picture) == corner
    assert picture.size == (video.frame.width, video.frame.height)
    assert (picture.width < picture.height) == (turn in (90, 270))


def test_points_that_are_not_square_are_made_so(photos):
    """H.263 of 352 × 288 has points of 12 : 11."""
    film(photos / "one.3gp", "3gp")
    (video,), _ = read(photos)
    assert (video.frame.width, video.frame.height) == (384, 288)


def test_a_large_one_is_kept_no_larger_than_a_photo(photos):
    film(photos / "one.mp4", size=(3840, 2160), pictures=2)
    (video,), _ = read(photos)
    assert (video.frame.width, video.frame.height) == (2016, 1134)


@pytest.mark.parametrize(("black", "shown"), [(0, GROUND), (12, GROUND), (25, (0, 0, 0))])
def test_a_black_beginning_is_passed_over_and_all_black_is_shown_as_it_is(black, shown, photos):
    path = film(photos / "one.mp4", black=black)
    picture = first_picture(path)
    middle = picture.getpixel((picture.width // 2, picture.height // 2))
    assert all(abs(is_ - was) < 12 for is_, was in zip(middle, shown, strict=True)), middle


def test_one_that_states_no_length_is_counted(photos):
    """As a page or a message records it: Matroska whose duration (ID 0x4489) was never filled in."""
    path = film(photos / "one.webm", "webm")
    data = path.read_bytes()
    at = data.index(b"\x44\x89\x88")
    path.write_bytes(data[:at] + b"\xec\x89" + data[at + 2 :])  # a void of the same size
    (video,), told = read(photos)
    assert told == []
    assert video.seconds == pytest.approx(2.5, abs=0.11)


# -- what anyone may have written ------------------------------------------------------------------


def spoilt(path, how):
    good = film(path).read_bytes()
    match how:
        case "nothing":
            return b""
        case "a text":
            return b"A text that somebody called a video.\n" * 50
        case "zeros":
            return bytes(200_000)
        case "no end":
            return good[: len(good) * 2 // 3]
        case "a head alone":
            return good[:40]
        case "only its frame":
            return good[good.index(b"moov") - 4 :]
        case "a list of addresses":
            return b"#EXTM3U\n#EXT-X-TARGETDURATION:9\n#EXTINF:9,\nhttp://127.0.0.1:9/secret.ts\n#EXT-X-ENDLIST\n"
        case "a list of files":
            return b"ffconcat version 1.0\nfile other.mp4\n"
        case "huge":
            return box(box(good, b"avc1", 24, b"\xff\xff\xff\xff"), b"avcC", 0, b"\xff" * 12)


HOWS = (
    "nothing",
    "a text",
    "zeros",
    "no end",
    "a head alone",
    "only its frame",
    "a list of addresses",
    "a list of files",
    "huge",
)


@pytest.mark.parametrize("how", HOWS)
def test_what_is_no_video_ends_in_words_and_is_listed(how, photos):
    path = photos / "VID_20260316_142233.mp4"
    path.write_bytes(spoilt(path, how))
    film(photos / "good.mkv", "mkv")
    (bad, good), told = read(photos)
    assert (bad.frame, bad.seconds, bad.taken) == (None, None, datetime(2026, 3, 16, 14, 22, 33))
    assert bad.size == path.stat().st_size
    assert good.frame
    assert len(told) == 1
    assert any(told[0] == f"photos/{path.name}: {why.message} {why.hint}" for why in SAID.values())


def test_a_length_that_no_video_has_is_left_out_and_told(photos):
    path = film(photos / "one.webm", "webm")
    data = path.read_bytes()
    at = data.index(b"\x44\x89\x88") + 3
    path.write_bytes(
        data[:at] + struct.pack(">d", 1e13) + data[at + 8 :]
    )  # thousandths of a second: three centuries
    (video,), told = read(photos)
    assert video.seconds is None
    assert video.frame
    assert told == [
        "photos/one.webm: It says of itself a length that no video has. Save it anew, or leave it as it is."
    ]


def test_bytes_harmed_anywhere_end_in_words(photos):
    """A few of many thousands; none may take a traceback, or leave more than one problem."""
    of = random.Random(7)
    for number, ending in enumerate(("mp4", "webm", "avi", "mts", "mov", "3gp")):
        data = bytearray(film(photos / f"{number}.{ending}", ending).read_bytes())
        for _ in range(40):
            data[of.randrange(len(data))] = of.randrange(256)
        (photos / f"{number}.{ending}").write_bytes(data)
    found, told = read(photos)
    assert len(found) == 6
    assert len(told) <= 6


def script(photos, monkeypatch, text):
    """The process that reads videos is another one."""
    path = photos.parent / "process.py"
    path.write_text(text)
    monkeypatch.setattr(films, "_command", lambda what: [sys.executable, str(path)])


HANGS = "import resource; resource.setrlimit(resource.RLIMIT_CPU, (1, 1))\nwhile True: pass"
GOOD = '{"fault": "", "width": 2, "height": 2, "turn": 0, "frame": "%s"' % ("a" * 64)


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("import os, signal; os.kill(os.getpid(), signal.SIGSEGV)", "fell over"),
        ("import os; os._exit(3)", "fell over"),
        ("raise SystemExit('a traceback')", "fell over"),
        (HANGS, "too much"),
        ("import time; time.sleep(60)", "too much"),
        ("print('nonsense')", "fell over"),
        ("print('{' * 100_000)", "fell over"),
        ('print(\'{"fault": "<b>"}\')', "fell over"),
        (f"print('{GOOD.replace('2, ', '9000, ', 1)}}}')", "fell over"),
        (f"print('{GOOD.replace('0', '45', 1)}}}')", "fell over"),
        (f"print('{GOOD.replace('aa', '/.', 1)}}}')", "fell over"),
    ],
)
def test_a_process_that_hangs_dies_or_lies_is_told_in_words(text, fault, photos, monkeypatch):
    film(photos / "one.mp4")
    script(photos, monkeypatch, text)
    monkeypatch.setattr(limits, "VIDEO_WALL_S", 4)
    (video,), told = read(photos)
    assert video.frame is None
    assert told == [f"photos/one.mp4: {SAID[fault].message} {SAID[fault].hint}"]


def test_what_took_too_long_by_the_clock_alone_is_tried_again(photos, monkeypatch):
    """A busy machine is nothing of the video's: it is not noted of it."""
    film(photos / "one.mp4")
    monkeypatch.setattr(limits, "VIDEO_WALL_S", 0.5)
    script(photos, monkeypatch, "import time; time.sleep(60)")
    assert read(photos)[0][0].facts is None


@pytest.mark.parametrize("known", [{}, {f"photos/0{n}.mp4": VideoFacts("too much") for n in (1, 3, 4)}])
def test_after_some_that_hang_no_other_is_opened(known, photos, monkeypatch):
    """All of a job that was made to hang cost no more than the first few; so do those that are known to."""
    for number in range(40):
        (photos / f"{number:02}.mp4").write_bytes(b"x" * (number + 1))
    asked = []
    real = films._process

    def process(what, path):
        asked.append(path.name)
        return real(what, path)

    monkeypatch.setattr(films, "_process", process)
    script(
        photos,
        monkeypatch,
        f"import sys\nif len(sys.stdin.buffer.read()) in (1, 3): print('{GOOD}}}'); sys.exit()\n{HANGS}",
    )
    problems = Problems()
    videos = read_videos(photos.parent, problems, known)
    assert [video.facts is None for video in videos] == [False] * 5 + [True] * 35
    assert [video.frame is None for video in videos] == [False, True, False, True, True] + [True] * 35
    assert "photos: 3 videos take too long to read; those after them are only listed. Take those out." in map(
        str, problems
    )
    assert len(asked) <= 5 + (os.cpu_count() or 1)


def test_of_very_many_videos_the_last_are_only_listed(photos, monkeypatch):
    monkeypatch.setattr(limits, "VIDEOS_OPENED", 2)
    for number in range(4):
        film(photos / f"{number}.mp4", pictures=2)
    videos, told = read(photos)
    assert [video.frame is None for video in videos] == [False, False, True, True]
    assert told == [
        "photos: There are more than 2 videos; those after photos/1.mp4 are only listed."
        " Keep those that show how the piece was made."
    ]


def test_memory_and_time_are_bounded(photos, monkeypatch):
    """A picture of 8K in a process that may have less than it takes."""
    film(photos / "one.mp4", size=(7680, 4320), pictures=1)
    assert read(photos)[1] == []
    films._command.cache_clear()
    monkeypatch.setattr(limits, "VIDEO_MEMORY", 200_000_000)
    try:
        (video,), told = read(photos)
    finally:
        films._command.cache_clear()
    assert video.frame is None
    assert len(told) == 1


def test_a_video_opens_no_other_file(photos):
    """Not even one that lies beside it: the process is given an open file and no name."""
    film(photos / "other.mp4")
    path = photos / "one.mkv"
    path.write_bytes(b"ffconcat version 1.0\nfile '%s'\n" % str(photos / "other.mp4").encode())
    videos, told = read(photos)
    assert [video.frame is None for video in videos] == [True, False]
    assert len(told) == 1


# -- without the library ---------------------------------------------------------------------------


def test_without_the_library_a_video_is_listed_and_nothing_is_said(photos, monkeypatch):
    film(photos / "VID_20260316_142233.mp4")
    (photos / "b.mov").write_bytes(b"")
    monkeypatch.setattr(films, "LIBRARY", "no_such_library")
    monkeypatch.setattr(subprocess, "run", None)
    videos, told = read(photos)
    assert told == []
    assert [(video.name, video.seconds, video.frame, video.facts) for video in videos] == [
        ("photos/VID_20260316_142233.mp4", None, None, None),
        ("photos/b.mov", None, None, None),
    ]
    assert videos[0].taken == datetime(2026, 3, 16, 14, 22, 33)


def test_turning_is_really_written(photos):
    """The side of the tests: the matrix of a turned video is another."""
    data = film(photos / "one.mp4").read_bytes()
    assert len({turned(data, degrees) for degrees in (90, 180, 270)} | {data}) == 4
