"""The contact sheet in a browser, by keyboard alone, and what it wrote, read back."""

import hashlib
import io
import re
import shutil
import tomllib

import pytest
from PIL import Image

from buildbook.bench.chosen_file import Sent
from buildbook.bench.desk import NotTaken
from buildbook.bench.desks import desks
from buildbook.book.bind import bind
from buildbook.job import read_job
from tests.bench_server import ask, running, serving, wait_for
from tests.conftest import SAMPLE
from tests.films import film, quarter

JOB = "2026-014-record-cabinet"


@pytest.fixture
def job(tmp_path):
    folder = tmp_path / "shelf" / JOB
    folder.parent.mkdir()
    shutil.copytree(SAMPLE, folder)
    (folder / "photos.toml").unlink(missing_ok=True)
    return folder


@pytest.fixture
def sheet(job, tmp_path, chromium):
    """The sheet of the job as the bench shows it, and the job's folder."""
    with running(job, tmp_path / "book") as bench:
        page = chromium.new_page(viewport={"width": 1280, "height": 900})
        page.goto(f"{bench.address}jobs/{JOB}/")
        page.get_by_role("link", name="Contact sheet").click()
        page.wait_for_selector(".print")
        yield page, job
        page.close()


def saved(page):
    page.keyboard.press("s")
    page.wait_for_selector("#save:disabled")


def chosen(job):
    path = job / "photos.toml"
    return tomllib.loads(path.read_text("utf-8")) if path.exists() else {}


@pytest.mark.browser
def test_by_keyboard_alone_everything_is_chosen_and_read_back(sheet):
    page, job = sheet
    files = page.eval_on_selector_all(".print", "all => all.map((one) => one.dataset.file)")
    press = page.keyboard.press
    for _ in range(60):  # tabbed to, as a maker without a mouse would
        press("Tab")
        if page.evaluate("document.activeElement.className") == "pane":
            break
    assert page.evaluate("getComputedStyle(document.activeElement).outlineStyle") == "solid"
    press("l")
    press("ArrowRight")
    press("e")
    press("Control+a")
    page.keyboard.type("The carcase, dry")
    press("Escape")
    press("c")
    press("ArrowRight")
    press("t")
    press("ArrowRight")
    press("x")
    assert "4 pictures changed" in page.text_content("#said") or "5 pictures changed" in page.text_content(
        "#said"
    )
    saved(page)
    wait_for(lambda: (job / "photos.toml").exists())
    said = chosen(job)
    own = {one.pop("file"): one for one in said["photo"]}
    assert said["lead"] == files[0]
    assert own[files[1]]["caption"] == "The carcase, dry"
    assert own[files[2]] == {"turn": 90}
    assert own[files[3]]["aside"] is True
    read = read_job(job)
    assert read.lead == files[0]
    assert [photo.name for photo in read.aside] == [files[3]]
    assert [p for p in job.iterdir() if p.name.startswith(".")] == []
    page.wait_for_selector(f'.print[data-file="{files[3]}"][data-aside="true"]')


@pytest.mark.browser
@pytest.mark.parametrize("width", [390, 1280])
def test_a_picture_is_seen_whole_however_it_stands(tmp_path, chromium, make_job, width):
    job = make_job("box", **{"job.toml": 'title = "A box"\n', "notes.md": ""})
    (job / "photos").mkdir()
    for name, size in (("upright", (300, 500)), ("lying", (500, 300))):
        Image.new("RGB", size, "peru").save(job / f"photos/{name}.png")
    with running(job, tmp_path / "book") as bench:
        page = chromium.new_page(viewport={"width": width, "height": 900})
        page.goto(f"{bench.address}-/photos/box")
        for print_ in page.locator(".print").all():
            print_.scroll_into_view_if_needed()
            wait_for(
                lambda one=print_: one.locator("img").evaluate("one => one.complete && one.naturalWidth")
            )
            pane, image = print_.locator(".pane").bounding_box(), print_.locator("img").bounding_box()
            for side, start in (("width", "x"), ("height", "y")):
                assert image[start] >= pane[start] - 1
                assert image[start] + image[side] <= pane[start] + pane[side] + 1
        page.close()


@pytest.mark.browser
def test_what_an_editor_wrote_meanwhile_is_not_written_over(sheet):
    page, job = sheet
    page.route(
        "**/-/page**", lambda route: route.abort()
    )  # the page is not told that the job was bound again
    mine = '# by hand\n[[photo]]\nfile = "20260216_111540.jpg"\nturn = 180\n'
    page.locator(".pane").nth(0).click()
    page.keyboard.press("t")
    (job / "photos.toml").write_text(mine)
    page.keyboard.press("s")
    page.wait_for_selector("#said.wrong")
    assert "changed meanwhile" in page.text_content("#said")
    assert (job / "photos.toml").read_text() == mine
    assert page.locator(".print").nth(0).get_attribute("data-turn") == "90"
    page.get_by_role("button", name="Look at it anew").click()
    page.wait_for_selector(".print[data-turn='180']")
    page.wait_for_selector(".print[data-turn='90']")  # the choice is kept
    saved(page)
    wait_for(lambda: "turn = 90" in (job / "photos.toml").read_text())
    new = (job / "photos.toml").read_text()
    assert new.startswith(mine)


@pytest.mark.browser
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_it_fits_a_telephone(job, tmp_path, chromium, scheme):
    with running(job, tmp_path / "book") as bench:
        page = chromium.new_page(viewport={"width": 390, "height": 844}, color_scheme=scheme, has_touch=True)
        page.goto(f"{bench.address}-/photos/{JOB}/")
        page.wait_for_selector(".print")
        assert page.evaluate("document.documentElement.scrollWidth") <= 390
        small = page.eval_on_selector_all(
            "main button, main input",
            "all => all.filter((one) => !one.hidden && one.getBoundingClientRect().height < 44).length",
        )
        assert small == 0
        page.locator("[data-do=client]").first.tap()
        assert page.is_enabled("#save")
        page.close()


def test_pictures_are_shown_small_and_those_put_aside_too(job, tmp_path):
    (job / "photos.toml").write_text('[[photo]]\nfile = "20260216_111540.jpg"\naside = true\n')
    assert bind(job, tmp_path / "book").ok
    with serving(tmp_path / "book", desks(job, tmp_path / "book")) as running_:
        page = ask(running_.port, f"/-/photos/{JOB}/").body.decode()
        assert page.count('class="print"') == len(list((job / "photos").iterdir()))
        for address in re.findall(r'src="(/-/photos/[^"]+\.jpg)"', page):
            body = ask(running_.port, address).body
            (tmp_path / "x.jpg").write_bytes(body)
            with Image.open(tmp_path / "x.jpg") as small:
                assert max(small.size) <= 504
        assert ask(running_.port, f"/-/photos/{JOB}/small/{'0' * 64}.jpg").status == 404
        assert ask(running_.port, "/-/photos/another/").status == 404


def test_a_video_stands_on_its_day_and_nothing_can_be_chosen_of_it(job, tmp_path):
    film(job / "photos" / "IMG_7001.mov", "mov", made="2026-03-17T15:04:05Z", turn=90)
    (job / "photos" / "VID_20260317_100000.mp4").write_bytes(b"no video")
    with serving(tmp_path / "book", desks(job, tmp_path / "book")) as running_:
        page = ask(running_.port, f"/-/photos/{JOB}/").body.decode()
        day = page.partition('datetime="2026-03-17"')[2].partition("</section>")[0]
        assert re.search(r"Video IMG_7001\.mov, 15:04, 0:02 min, 0\.0\sMB<", day)
        assert re.search(r"Video VID_20260317_100000\.mp4, 10:00, 0\.0\sMB · day from its name<", day)
        assert "data-" not in day
        (address,) = re.findall(r'src="(/-/photos/[^"]+\.jpg)"', day)
        picture = Image.open(io.BytesIO(ask(running_.port, address).body))
    assert quarter(picture) == "right upper"
    takes = desks(job, tmp_path / "book")["photos"].take
    with pytest.raises(NotTaken):
        takes((JOB,), Sent(seen="", lead="photos/IMG_7001.mov"))


@pytest.mark.browser
def test_an_upright_picture_is_shown_whole(job, tmp_path, chromium):
    Image.new("RGB", (300, 900), (90, 60, 30)).save(job / "photos" / "20260216_120000.jpg")
    film(job / "photos" / "IMG_7001.mov", "mov", made="2026-03-17T15:04:05Z", turn=90)
    with running(job, tmp_path / "book") as bench:
        page = chromium.new_page(viewport={"width": 1280, "height": 900})
        page.goto(f"{bench.address}-/photos/{JOB}/")
        page.wait_for_selector(".print")
        for pane in page.locator(".pane").all():
            box, inside = pane.bounding_box(), pane.locator("img").bounding_box()
            assert inside["height"] <= box["height"] + 0.5
        page.close()


def test_what_is_not_taken_is_told_in_the_language_of_the_shop(job, tmp_path):
    (job / "shop.toml").write_text('name = "Werkstatt"\nlanguage = "de"\n', "utf-8")
    takes = desks(job, tmp_path / "book")["photos"].take
    mine = b'[[photo]]\nfile = "20260216_111540.jpg"\n'
    seen = hashlib.sha256(mine).hexdigest()
    for content, sent, said in (
        (mine, Sent(seen="another"), "Die photos.toml wurde inzwischen geändert"),
        (mine, Sent(seen=seen, lead="none.jpg"), "Das Bild none.jpg gibt es nicht mehr."),
        (
            b"[[photo",
            Sent(seen=hashlib.sha256(b"[[photo").hexdigest()),
            "So ist die photos.toml nicht zu lesen",
        ),
    ):
        (job / "photos.toml").write_bytes(content)
        with pytest.raises(NotTaken) as why:
            takes((JOB,), sent)
        assert said in str(why.value)
        assert (job / "photos.toml").read_bytes() == content
    with pytest.raises(NotTaken, match="Diesen Auftrag gibt es hier nicht mehr"):
        takes(("another",), Sent(seen=seen))


def test_nothing_of_the_sheet_is_in_the_book(job, tmp_path):
    assert bind(job, tmp_path / "book").ok
    assert not list((tmp_path / "book").rglob("*sheet*"))
    log = (tmp_path / "book" / "jobs" / JOB / "index.html").read_text()
    assert '<p class="onward" hidden data-bench>' in log
