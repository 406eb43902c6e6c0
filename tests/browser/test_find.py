"""Finding past work on the page: by keyboard, with the back button, from a bookmark, read out, without script."""

import re

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from buildbook.render.copies import SMALL_EDGE
from tests.browser import RULES
from tests.make_shelf import made_jobs, write_book

pytestmark = pytest.mark.browser
JOBS = 60
LISTED = (
    "[...document.querySelectorAll('#years .job')].map(i => [i.dataset.job, i.querySelector('h3').innerHTML])"
)


@pytest.fixture(scope="module")
def made():
    return list(made_jobs(JOBS, seed=11))


@pytest.fixture(scope="module")
def book(made, tmp_path_factory):
    place = tmp_path_factory.mktemp("find") / "book"
    write_book(place, iter(made))
    return place


@pytest.fixture
def shelf(book, open_page):
    """A function that opens the list at an address."""
    return lambda fragment="", **more: open_page((book / "index.html").as_uri() + fragment, **more)


def found(page):
    return page.locator("#found li.job")


def heading(page):
    return page.locator("#found h2")


def type_and_settle(page, text):
    page.locator("#find").fill(text)
    page.wait_for_function(
        "text => new URLSearchParams(location.hash.slice(1)).get('find') === text", arg=text
    )


def test_an_answer_stands_as_it_is_typed_and_says_why(shelf):
    page = shelf()
    page.locator("#find").press_sequentially("walnut")
    expect(page.locator("#years")).to_be_hidden()
    assert 0 < found(page).count() <= 20
    first = found(page).first
    expect(first.locator("mark").first).to_have_text(re.compile("walnut", re.IGNORECASE))
    for item in found(page).all():
        item.scroll_into_view_if_needed()  # words and pictures are asked for as a job comes near the window
        expect(item.locator("mark").first).to_be_attached()
        expect(item.locator(".view img")).to_be_attached()


def test_a_passage_is_shown_with_where_it_is_from(shelf, made):
    story = next(job for job in made if "bullet" in job.facts["stories"])
    page = shelf("#find=musket")
    item = page.locator(f'#found li[data-job="{story.key}"]')
    expect(item.locator(".why-found mark")).to_have_text("musket")
    expect(item.locator(".why-found .from")).to_have_text(re.compile(r"Note \(\d{4}-\d\d-\d\d\)"))


def test_it_is_used_by_keyboard_alone(shelf):
    page = shelf()
    page.keyboard.press("Tab")  # to the text
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.id") == "find"
    page.keyboard.type("oak")
    page.wait_for_function("location.hash.includes('find=oak')")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.textContent") == "Piece"
    page.keyboard.press("Tab")
    page.keyboard.press("Space")  # the first value of the first facet
    page.wait_for_function("location.hash.includes('piece=')")
    count = found(page).count()
    assert page.evaluate("document.activeElement.checked")
    page.keyboard.press("Shift+Tab")
    page.keyboard.press("Shift+Tab")
    page.keyboard.press("Enter")  # from the field to what was found
    assert page.evaluate("document.activeElement.id") == "found-count"
    page.keyboard.press("Tab")  # the mark, taken off again
    assert "×" in page.evaluate("document.activeElement.textContent")
    page.keyboard.press("Enter")
    page.wait_for_function("!location.hash.includes('piece=')")
    assert found(page).count() > count
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    assert page.evaluate("!!document.activeElement.closest('#found li')")


def test_every_stop_of_the_keyboard_is_seen(shelf):
    page = shelf("#find=oak")
    found(page).first.wait_for()
    for _ in range(30):
        page.keyboard.press("Tab")
        seen = page.evaluate(
            "(() => { const e = document.activeElement, s = getComputedStyle(e);"
            " return e === document.body || s.outlineStyle !== 'none' || s.boxShadow !== 'none'; })()"
        )
        assert seen, page.evaluate("document.activeElement.outerHTML")


def test_the_back_button_goes_back_a_question_at_a_time(shelf):
    page = shelf()
    type_and_settle(page, "walnut")
    walnut = found(page).count()
    page.locator(".facet label:visible").first.click()
    narrowed = found(page).count()
    assert narrowed < walnut
    page.go_back()
    expect(found(page)).to_have_count(walnut)
    assert page.locator("#find").input_value() == "walnut"
    page.go_back()
    expect(page.locator("#years")).to_be_visible()
    assert page.locator("#find").input_value() == ""
    page.go_forward()
    expect(found(page)).to_have_count(walnut)


def test_from_a_job_the_back_button_leads_to_what_was_found(shelf):
    page = shelf()
    page.locator("#find").fill("oak")
    count = found(page).count()
    found(page).first.locator("h3 a").click()
    page.wait_for_url("**/jobs/**")
    page.go_back()
    expect(found(page)).to_have_count(count)
    assert page.locator("#find").input_value() == "oak"


def test_a_bookmark_brings_everything_back(shelf):
    page = shelf()
    type_and_settle(page, '"sliding dovetail" oak')
    page.locator(".facet label:visible").first.click()
    page.wait_for_function("location.hash.includes('piece=')")
    address, keys = page.url, [item.get_attribute("data-job") for item in found(page).all()]
    assert keys
    again = shelf(address[address.index("#") :])
    expect(found(again)).to_have_count(len(keys))
    assert [item.get_attribute("data-job") for item in found(again).all()] == keys
    assert again.locator("#find").input_value() == '"sliding dovetail" oak'
    assert "sliding dovetail" in again.title()


def test_facets_narrow_down_within_and_across_and_count(shelf, made):
    page = shelf()
    oaks = [job for job in made if "European oak" in (*job.facts["wood"], *job.facts["wood2"])]
    label = page.locator(".facet", has_text="Wood").locator("label", has_text="European oak")
    counted = int(label.locator(".number").inner_text())
    label.click()
    assert heading(page).inner_text() == f"{counted} jobs"
    assert counted <= len(oaks)
    other = page.locator(".facet", has_text="Wood").locator("label:visible").nth(1)
    both = other.locator("input").is_checked()
    if not both:
        other.click()
    assert int(re.match(r"\d+", heading(page).inner_text())[0]) > counted  # either wood
    year = page.locator(".facet", has_text="Year")
    year.locator("summary").click()
    first = year.locator("label:visible").first
    counted = int(first.locator(".number").inner_text())
    first.click()
    assert (
        int(re.match(r"\d+|one", heading(page).inner_text())[0].replace("one", "1")) == counted
    )  # and this year


def test_a_value_that_is_not_there_any_more_finds_nothing_and_can_be_taken_off(shelf):
    page = shelf("#wood=Unobtainium")
    assert "No job" in heading(page).inner_text()
    page.get_by_role("button", name="Take off: Unobtainium").click()
    expect(page.locator("#years")).to_be_visible()


def test_the_count_is_read_out_once_typing_rests(shelf):
    page = shelf()
    said = page.get_by_role("status")
    page.locator("#find").press_sequentially("waln")
    assert said.inner_text() == ""
    expect(said).to_have_text(re.compile(r"^\d+ jobs$"))
    page.locator("#find").fill("zzzzzz")
    expect(said).to_have_text(re.compile("No job"))


def test_more_is_shown_when_asked_and_the_keyboard_goes_there(shelf):
    page = shelf("#find=a*")
    type_and_settle(page, "e")
    more = page.locator("#more")
    while more.is_visible():
        before = found(page).count()
        more.click()
        assert found(page).count() > before
        assert (
            page.evaluate(
                "[...document.querySelectorAll('#found li.job')].indexOf(document.activeElement.closest('li.job'))"
            )
            == before
        )


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [360, 1280])
@pytest.mark.parametrize("fragment", ["", "#find=walnut+dovetail&wood=Black+walnut", "#find=zzzz"])
def test_axe_finds_nothing(shelf, width, scheme, fragment):
    page = shelf(fragment, width=width, scheme=scheme)
    page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true })")
    page.add_style_tag(
        content=".shelf :is(.year, .job) { content-visibility: visible !important }"
    )  # what is not laid out has no sizes
    page.wait_for_timeout(300)
    result = Axe().run(page, options={"runOnly": RULES})
    assert result.response["violations"] == [], result.generate_report()


@pytest.mark.parametrize("width", [320, 360, 390, 832, 1280, 2000])
def test_it_is_never_wider_than_the_window(shelf, width):
    page = shelf("#find=dovetail+walnut&wood=Black+walnut", width=width)
    page.wait_for_timeout(300)
    assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_no_request_leaves_the_book(shelf, book):
    page = shelf("#find=%22sliding+dovetail%22")
    page.wait_for_timeout(500)
    assert any(url.endswith("words.js") for url in page.asked)
    assert all(url.startswith(book.as_uri()) for url in page.asked), page.asked


def test_pictures_are_there_near_the_window_and_go_again(shelf):
    page = shelf()
    first, last = page.locator("#years .job").first, page.locator("#years .job").last
    expect(first.locator("img")).to_have_js_property("complete", True)
    assert page.locator("#years img").count() < JOBS / 2
    last.scroll_into_view_if_needed()
    expect(last.locator("img")).to_have_js_property("complete", True)
    assert last.locator("img").evaluate("i => i.naturalWidth") > 0
    expect(first.locator("img")).to_have_count(0)


def test_small_copies_are_asked_for(shelf):
    page = shelf()
    page.wait_for_function("[...document.images].some(i => i.complete && i.naturalWidth)")
    asked = page.evaluate("[...document.images].map(i => i.currentSrc).filter(Boolean)")
    assert asked
    assert all(f"-{SMALL_EDGE}.jpg" in url for url in asked), asked


def test_the_list_is_whole_again_after_a_question(shelf):
    page = shelf()
    as_it_was = page.evaluate(LISTED)
    for text in ("oak", "walnut", '"sliding dovetail"', ""):
        page.locator("#find").fill(text)
        expect(page.locator("#years")).to_be_visible(visible=not text)
        page.wait_for_timeout(200)
    assert page.evaluate(LISTED) == as_it_was
    assert page.locator("#years :is(mark, .why-found)").count() == 0


def test_without_script_the_list_is_whole(shelf, made):
    page = shelf(script=False)
    assert page.locator("#years .job").count() == JOBS
    assert not page.locator("#find").is_visible()
    assert not page.locator("#narrow").is_visible()
    assert page.locator("#years .job h3 a").last.is_visible()
    assert page.evaluate("[...document.querySelectorAll('#years .job img')].length") == JOBS
    assert page.evaluate("[...document.images].every(i => i.loading === 'lazy')")


def test_a_job_whose_words_are_lost_is_found_all_the_same(book, shelf, made):
    key = next(job.key for job in made if "bullet" in job.facts["stories"])
    words = book / "jobs" / key / "words.js"
    content = words.read_bytes()
    words.unlink()
    page = shelf("#find=musket")
    expect(page.locator(f'#found li[data-job="{key}"]')).to_be_visible()
    words.write_bytes(content)
