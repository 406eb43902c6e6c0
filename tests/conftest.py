"""Fixtures shared by all tests. Sample folders are copied before anything is bound from them.

The browser is Debian's chromium, driven by playwright, with no network but the pages themselves.
"""

import io
import os
import random
import shutil
from pathlib import Path

import pytest
from hypothesis import settings
from PIL import Image
from playwright.sync_api import sync_playwright

from buildbook.book.bind import bind

# The same cases each time, so that a change is judged by itself; look for new ones with HYPOTHESIS_PROFILE=search.
settings.register_profile("steady", derandomize=True, deadline=None)
settings.register_profile("search", max_examples=1000, deadline=None)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "steady"))

ROOT = Path(__file__).resolve().parent.parent
SAMPLE = ROOT / "sample_job"
CHROMIUM = "/usr/bin/chromium"
FLAGS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
]  # fmt: skip


@pytest.fixture
def sample(tmp_path):
    """A copy of the sample job."""
    return Path(shutil.copytree(SAMPLE, tmp_path / "shelf" / "sample_job"))


@pytest.fixture(scope="session")
def bound_sample(tmp_path_factory):
    """The sample bound once for all tests that only look at the book."""
    place = tmp_path_factory.mktemp("sample")
    job = Path(shutil.copytree(SAMPLE, place / "sample_job"))
    book = place / "book"
    result = bind(job, book)
    assert result.ok, [str(p) for j in result.jobs for p in j.problems] + [j.fault for j in result.jobs]
    return book


@pytest.fixture
def make_job(tmp_path):
    """A function that writes a job folder: text by file name, bytes as they are."""

    def make(name="a-job", /, **files):
        folder = tmp_path / "shelf" / name
        folder.mkdir(parents=True, exist_ok=True)
        for file, content in files.items():
            path = folder / file.replace("__", "/").replace("_dot_", ".")
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(content if isinstance(content, bytes) else content.encode())
        return folder

    return make


def every_file(folder):
    """Path and bytes of every file below a folder, but for what a book remembers of times and identities of files."""
    files = (p for p in sorted(folder.rglob("*")) if p.is_file())
    found = {p.relative_to(folder).as_posix(): p for p in files}
    return {name: p.read_bytes() for name, p in found.items() if ".own/made/" not in name}


@pytest.fixture(scope="session")
def chromium():
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield browser
        browser.close()


@pytest.fixture
def open_page(chromium):
    """A function that opens a file in a fresh window and collects every address it asks for."""
    contexts = []

    def open_(path, *, width=1280, height=900, scheme="light", script=True):
        context = chromium.new_context(
            viewport={"width": width, "height": height}, color_scheme=scheme, java_script_enabled=script
        )
        contexts.append(context)
        page = context.new_page()
        page.asked = []
        page.on("request", lambda request: page.asked.append(request.url))
        page.goto(path.as_uri() if hasattr(path, "as_uri") else path)
        return page

    yield open_
    for context in contexts:
        context.close()


def noise(seed, size=(700, 500)):
    """A JPEG that no encoder can make small, the same for the same seed."""
    out = io.BytesIO()
    Image.frombytes("RGB", size, random.Random(seed).randbytes(size[0] * size[1] * 3)).save(out, "JPEG")
    return out.getvalue()
