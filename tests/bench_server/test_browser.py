"""The bench in a real browser: an enemy page that is open beside it reads nothing, and its own pages work whole."""

import contextlib
import functools
import http.server
import threading

import pytest

from tests.bench_server import LONGEST_S, running, serving, wait_for
from tests.conftest import CHROMIUM, FLAGS

pytestmark = pytest.mark.browser

ENEMY = "enemy.test"

SETTLED = "[...document.images].every((one) => one.loading === 'lazy' || one.complete)"

ATTACK = """<!doctype html><title>enemy</title><body><script>
const ours = new Set(Object.getOwnPropertyNames(window));
const at = "%s";
const tried = [];
const add = (name, test) => tried.push(new Promise((done) => {
  setTimeout(() => done([name, "nothing"]), 3000);
  Promise.resolve().then(test).then((got) => done([name, got || "nothing"]), () => done([name, "nothing"]));
}));
const element = (tag, attribute, file, more = {}) => new Promise((done, failed) => {
  const one = Object.assign(document.createElement(tag), more);
  one.onload = () => done("loaded");
  one.onerror = failed;
  one[attribute] = at + file;
  document.body.append(one);
});
for (const file of ["search.js", "words.js", "find.js", "index.html", "-/bench.js", "-/page?of=/&seen="]) {
  add(`script ${file}`, () => element("script", "src", file));
  add(`module ${file}`, () => element("script", "src", file, { type: "module" }));
  add(`crossorigin ${file}`, () => element("script", "src", file, { crossOrigin: "anonymous" }));
  add(`fetch ${file}`, async () => (await (await fetch(at + file)).text()).slice(0, 40));
  add(`import ${file}`, async () => { await import(at + file); return "loaded"; });
  add(`xhr ${file}`, () => new Promise((done, failed) => {
    const ask = new XMLHttpRequest();
    ask.open("GET", at + file); ask.onload = () => done(ask.responseText.slice(0, 40)); ask.onerror = failed; ask.send();
  }));
}
add("fetch no-cors", async () => {
  const got = await fetch(at + "search.js", { mode: "no-cors" });
  return got.type === "opaque" && (await got.text()) || (got.type === "opaque" ? "" : "read");
});
add("post", async () => (await fetch(at, { method: "POST", body: "x" })).status);
add("image", () => element("img", "src", IMAGE));
add("style", () => element("link", "href", "index.html", { rel: "stylesheet" }));
add("video", () => new Promise((done, failed) => {
  const one = document.createElement("video");
  one.onloadeddata = () => done("loaded"); one.onerror = failed; one.src = at + IMAGE;
}));
add("object", () => element("object", "data", "index.html"));
add("frame", () => new Promise((done) => {
  const frame = document.createElement("iframe");
  frame.onload = () => {
    let text = "";
    try { text = frame.contentDocument.body.innerText; } catch { /* of another origin: read nothing */ }
    done(text || (frame.contentWindow.length ? `frames ${frame.contentWindow.length}` : ""));
  };
  frame.src = at; document.body.append(frame);
}));
add("window", () => new Promise((done) => {
  const other = open(at);
  setTimeout(() => {
    let text = "";
    try { text = other.document.body.innerText; } catch { /* of another origin */ }
    done(text);
  }, 2000);
}));
add("socket", () => new Promise((done, failed) => {
  const socket = new WebSocket(at.replace("http", "ws") + "-/page");
  socket.onopen = () => done("open"); socket.onerror = failed;
}));
add("events", () => new Promise((done, failed) => {
  const source = new EventSource(at + "-/page?of=/&seen=");
  source.onopen = () => done("open"); source.onerror = failed;
}));
add("worker", () => new Promise((done, failed) => {
  const worker = new Worker(URL.createObjectURL(new Blob([`importScripts("${at}search.js"); postMessage("loaded")`])));
  worker.onmessage = () => done("loaded"); worker.onerror = failed;
}));
Promise.all(tried).then((results) => {
  const left = Object.getOwnPropertyNames(window).filter((name) => !ours.has(name) && !/^\\d+$/.test(name));
  window.results = { tried: Object.fromEntries(results), left };
});
</script></body>"""


@pytest.fixture(scope="module")
def book(tmp_path_factory, bound_sample):
    return bound_sample


@pytest.fixture(scope="module")
def enemies_browser(chromium):
    """A browser for which the enemy's name, and those below it, mean this machine."""
    flags = [*FLAGS, f"--host-resolver-rules=MAP *.{ENEMY} 127.0.0.1, MAP {ENEMY} 127.0.0.1"]
    browser = chromium.browser_type.launch(executable_path=CHROMIUM, args=flags)
    yield browser
    browser.close()


@contextlib.contextmanager
def enemy_site(folder):
    class Quiet(http.server.SimpleHTTPRequestHandler):
        def log_message(self, *_):
            pass

    site = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(Quiet, directory=str(folder)))
    thread = threading.Thread(target=site.serve_forever)
    thread.start()
    try:
        yield site.server_address[1]
    finally:
        site.shutdown()
        site.server_close()
        thread.join()


def attack(browser, site, at, image, tmp_path):
    """What an enemy page of a site got from an address."""
    page_text = (ATTACK % at).replace("IMAGE", repr(image))
    (tmp_path / "enemy.html").write_text(page_text)
    context = browser.new_context()
    try:
        page = context.new_page()
        page.goto(f"{site}/enemy.html")
        page.wait_for_function("window.results", timeout=LONGEST_S * 1000)
        return page.evaluate("window.results")
    finally:
        context.close()


def an_image(book):
    return next(path.relative_to(book).as_posix() for path in sorted(book.rglob("*.jpg")))


@pytest.mark.parametrize("name", [ENEMY, "127.0.0.1", "localhost"])
@pytest.mark.parametrize("asked", ["127.0.0.1", "localhost", f"bench.{ENEMY}"])
def test_an_enemy_page_reads_nothing(enemies_browser, book, tmp_path, name, asked):
    with serving(book) as bench, enemy_site(tmp_path) as port:
        got = attack(
            enemies_browser,
            f"http://{name}:{port}",
            f"http://{asked}:{bench.port}/",
            an_image(book),
            tmp_path,
        )
    assert {what: came for what, came in got["tried"].items() if came != "nothing"} == {}
    assert got["left"] == []
    assert len(got["tried"]) > 40


def test_the_attack_reads_what_is_not_kept(enemies_browser, book, tmp_path):
    """The same page against a plain server of the same book: what it would have got."""
    with enemy_site(book) as other, enemy_site(tmp_path) as port:
        got = attack(
            enemies_browser, f"http://{ENEMY}:{port}", f"http://127.0.0.1:{other}/", an_image(book), tmp_path
        )
    came = {what for what, got in got["tried"].items() if got != "nothing"}
    assert {"script search.js", "script find.js", "image", "object", "worker"} <= came
    assert got["left"] != []


@pytest.mark.parametrize("page", ["/", "/search.js", "/jobs/sample_job/"])
def test_a_name_that_is_turned_to_this_machine_gets_nothing(enemies_browser, book, page):
    """DNS rebinding: for the browser, enemy and bench are one origin then."""
    with serving(book) as bench:
        opened = enemies_browser.new_page()
        answer = opened.goto(f"http://{ENEMY}:{bench.port}{page}")
        assert answer.status == 421
        assert len(answer.text()) < 200
        opened.close()


# -- its own pages -------------------------------------------------------------------------------


def pages_of(book):
    return sorted(path.relative_to(book).as_posix() for path in book.rglob("*.html"))


def test_every_page_works_under_the_policy(chromium, book):
    """No word of complaint in the console, nothing refused, every picture and style there."""
    with serving(book) as bench:
        for name in pages_of(book):
            page, said, failed = chromium.new_page(), [], []
            page.on(
                "console", lambda message, said=said: said.append((message.location["url"], message.text))
            )
            page.on("pageerror", lambda error, said=said: said.append(("", str(error))))
            page.on("response", lambda got, failed=failed: failed.append(got.url) if got.status >= 400 else 0)
            page.goto(f"{bench.address}{name}")
            page.evaluate("scrollTo(0, document.body.scrollHeight)")
            wait_for(lambda page=page: page.evaluate(SETTLED))
            assert [text for url, text in said if not url.endswith("/favicon.ico")] == [], name
            assert [url for url in failed if not url.endswith("/favicon.ico")] == [], name
            assert page.evaluate("getComputedStyle(document.body).fontFamily") != "", name
            assert page.evaluate("document.styleSheets.length") > 0, name
            assert page.evaluate("[...document.images].every((one) => !one.complete || one.naturalWidth > 0)")
            page.close()


def test_the_list_is_searched(chromium, book):
    with serving(book) as bench:
        page = chromium.new_page()
        page.goto(bench.address)
        page.locator("#find").press_sequentially("glue")
        found = page.locator("#found li.job")
        found.first.wait_for()
        assert found.count() == 1
        found.locator("a").first.click()
        page.wait_for_url(f"{bench.address}jobs/sample_job/**")
        page.close()


def test_an_open_page_reloads_itself(make_job, tmp_path, chromium):
    job = make_job("box", **{"job.toml": 'title = "First title"\n', "notes.md": "## 2026-01-05\n\nBegun\n"})
    with running(job, tmp_path / "book") as at:
        page = chromium.new_page()
        page.goto(f"{at.address}jobs/box/")
        for number in range(3):
            (job / "job.toml").write_text(f'title = "Fresh title {number}"\n')
            page.get_by_text(f"Fresh title {number}").first.wait_for(timeout=LONGEST_S * 1000)
        page.close()


def test_many_open_pages_do_not_wait_for_one_another(make_job, tmp_path, chromium):
    """A browser opens six connections to one host; each open page keeps asking."""
    job = make_job("box", **{"job.toml": 'title = "First title"\n', "notes.md": "## 2026-01-05\n\nBegun\n"})
    with running(job, tmp_path / "book") as at:
        context = chromium.new_context()
        pages = [context.new_page() for _ in range(10)]
        for page in pages:
            page.goto(f"{at.address}jobs/box/", timeout=LONGEST_S * 1000)
        (job / "job.toml").write_text('title = "Fresh title"\n')
        for page in pages:
            page.get_by_text("Fresh title").first.wait_for(timeout=LONGEST_S * 1000)
        context.close()


def test_a_page_of_an_earlier_run_reloads(make_job, tmp_path, chromium):
    """The bench was ended and begun again, with the page open all the while."""
    job = make_job("box", **{"job.toml": 'title = "First title"\n', "notes.md": "## 2026-01-05\n\nBegun\n"})
    with running(job, tmp_path / "book") as at:
        page = chromium.new_page()
        page.goto(f"{at.address}jobs/box/")
    (job / "job.toml").write_text('title = "Fresh title"\n')
    with running(job, tmp_path / "book", int(at.address.rstrip("/").rpartition(":")[2])):
        page.get_by_text("Fresh title").first.wait_for(timeout=LONGEST_S * 1000)
    page.close()
