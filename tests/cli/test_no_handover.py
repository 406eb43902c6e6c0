"""`verify` of a thing that is no handover says in words what it is and what to give; it vouches for none of them."""

import shutil
import zipfile

import pytest
from PIL import Image

from buildbook.cli import main
from buildbook.cli.no_handover import instead_of_handover
from tests.conftest import SAMPLE


@pytest.fixture(scope="module")
def things(tmp_path_factory, bound_sample):
    top = tmp_path_factory.mktemp("things")
    handover = bound_sample / "handover" / "sample_job"
    for suffix in ("jpg", "png", "tiff", "webp"):
        Image.new("RGB", (4, 4)).save(top / f"photo.{suffix}")
    with zipfile.ZipFile(top / "random.zip", "w") as archive:
        archive.writestr("holiday/list.txt", "x")
    with zipfile.ZipFile(top / "empty.zip", "w"):
        pass
    shutil.copy(top / "random.zip", top / "parts.xlsx")
    for name, text in (("index.html", "<p>"), ("nothing.txt", ""), ("list.csv", "a,b"), ("x.bin", "\1\2")):
        (top / name).write_text(text, "utf-8")
    for name in ("bare", "phone"):
        (top / name).mkdir()
    shutil.copy(top / "photo.jpg", top / "phone")
    shutil.copy(handover / "care-card.pdf", top / "care-card.pdf")
    shutil.copytree(bound_sample / "handover", top / "unpacked")
    return {
        "job": SAMPLE, "photos of a job": SAMPLE / "photos", "shelf": SAMPLE.parent / "tests" / "shelf",
        "book": bound_sample, "log": bound_sample / "jobs" / "sample_job", "unpacked": top / "unpacked",
        "one file": handover / "index.html", "whole": handover,
    } | {path.name: path for path in top.iterdir() if path.name != "unpacked"}  # fmt: skip


@pytest.mark.parametrize(
    ("name", "said", "give"),
    [
        ("job", "is a job folder, no handover", "buildbook handover"),
        ("photos of a job", "is a folder of a job, no handover", "buildbook handover"),
        ("shelf", "is a shelf of jobs, no handover", "buildbook handover"),
        ("book", "is a book, no handover", "handover/sample_job"),
        ("unpacked", "is a folder that handovers lie in, no handover", "unpacked/sample_job"),
        ("log", "is a folder of pages for the maker, no handover", "buildbook handover"),
        ("bare", "is an empty folder, no handover", "buildbook handover"),
        ("phone", "is a folder of photos or notes, no handover", "buildbook handover"),
        ("one file", "is one file of a handover", "Give the folder that it lies in"),
        ("photo.jpg", "is a photo, no handover", "buildbook handover"),
        ("photo.png", "is a picture, no handover", "buildbook handover"),
        ("photo.tiff", "is a photo, no handover", "buildbook handover"),
        ("photo.webp", "is a photo, no handover", "buildbook handover"),
        ("care-card.pdf", "is a PDF, no handover", "--fingerprint"),
        ("random.zip", "is a zip archive, no handover: there is no seal.json in it", "buildbook handover"),
        ("empty.zip", "is a zip archive, no handover: there is no seal.json in it", "buildbook handover"),
        ("parts.xlsx", "is a spreadsheet, no handover", "buildbook handover"),
        ("index.html", "is a page, no handover", "buildbook handover"),
        ("list.csv", "is a table, no handover", "buildbook handover"),
        ("nothing.txt", "is an empty file, no handover", "buildbook handover"),
        ("x.bin", "is a file of another kind, no handover", "buildbook handover"),
    ],
)
def test_it_is_told_what_it_is_and_what_to_give(name, said, give, things, capsys):
    assert main(["verify", str(things[name])]) == 1
    out, err = capsys.readouterr()
    assert out == ""
    (line,) = err.splitlines()
    assert line.startswith(f"error: {things[name]}: {said}")
    assert give in line.removeprefix(f"error: {things[name]}: {said}")


def test_what_is_not_there_gets_the_nearest_name(things, capsys):
    place = things["random.zip"].parent
    assert main(["verify", str(place / "ramdom.zip")]) == 1
    assert f"is not there. Perhaps {place / 'random.zip'} is meant." in capsys.readouterr().err
    assert main(["verify", str(place / "nowhere" / "x.zip")]) == 1
    assert "is not there, nor is the folder" in capsys.readouterr().err


def test_of_what_may_be_a_handover_nothing_else_is_said(things, tmp_path, capsys):
    """A handover that was tampered with or damaged is told by what is wrong with it."""
    assert instead_of_handover(things["whole"]) is None
    broken = shutil.copytree(things["whole"], tmp_path / "broken")
    (broken / "seal.json").write_text("{}", "utf-8")
    assert instead_of_handover(broken) is None
    main(["verify", str(broken)])
    assert "seal.json that" in capsys.readouterr().err
    archive = tmp_path / "cut.zip"
    shutil.make_archive(str(archive.with_suffix("")), "zip", things["whole"])
    assert instead_of_handover(archive) is None
    archive.write_bytes(archive.read_bytes()[:-40])
    assert instead_of_handover(archive) is None
    assert main(["verify", str(archive)]) == 1
