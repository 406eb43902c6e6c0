"""A theme of the shop's own: where it may lie, what it cannot do, and that one that fails costs no other job."""

import os

import pytest

from buildbook.book.bind import bind
from buildbook.book.bind_job import pages_of
from buildbook.book.estimate import estimate
from buildbook.book.sealed.pack import pack
from buildbook.job import read_job
from buildbook.render.html import theme as themes
from tests.conftest import SAMPLE
from tests.estimates import DAY, ENQUIRIES

TOML = 'after = "oilstone"\n[paper]\nday = "#ffffff"\nnight = "#101010"\n'
MARK = "rebeccapurple"


@pytest.fixture
def shelf(tmp_path):
    """Two jobs; the second names a theme of its own, `ours`."""
    place = tmp_path / "shelf"
    for name in ("bench", "chair"):
        (place / name).mkdir(parents=True)
        (place / name / "job.toml").write_text(f'title = "{name}"\n')
        (place / name / "notes.md").write_text("## 2026-01-05 x\n\ny\n")
    (place / "shop.toml").write_text('name = "S"\n')
    (place / "chair" / "shop.toml").write_text('name = "S"\ntheme = "ours"\n')
    return place


def lay_theme(folder, **files):
    """A theme that shows by its colour that it was used; further files by name, two strokes for the dot."""
    folder.mkdir()
    (folder / "theme.toml").write_text(TOML)
    (folder / "style.css").write_text(f"body {{ color: {MARK} }}")
    for name, content in files.items():
        path = folder / name.replace("__", ".")
        path.write_bytes(content if isinstance(content, bytes) else content.encode())


def bound_by_name(folder, book):
    return {job.key: job for job in bind(folder, book).jobs}


def errors_of(job):
    return [str(problem) for problem in job.problems if problem.severity == "error"]


def used(book):
    return MARK in (book / "handover" / "chair" / "index.html").read_text("utf-8")


# -- what fails --------------------------------------------------------------------------------------

FAILING = {
    "a division": ("client__html", "a\n{{ 1 // 0 }}", "client.html, line 2: ZeroDivisionError"),
    "a type": ("client__html", '{{ 1 + "a" }}', "client.html, line 1: TypeError"),
    "no end": ("client__html", "{% macro m() %}{{ m() }}{% endmacro %}{{ m() }}", "RecursionError"),
    "too long": ("log__html", "{% for n in range(10 ** 9) %}x{% endfor %}", "log.html, line 1: OverflowError"),
    "too large": ("client__html", '{% set n = 10 ** 15 %}{{ "a" * n }}', "client.html, line 1: MemoryError"),
    "no such file": ("client__html", '\n\n{% include "gone.html" %}', "gone.html"),
    "no such field": ("client__html", "{{ piece.price }}", "client.html, line 1: "),
    "no such function": ("client__html", "{{ nothing() }}", "'nothing' is undefined"),
    "a wrong call": ("client__html", "{{ drawing() }}", "client.html, line 1: TypeError"),
    "no grammar": ("client__html", "{% for %}", "client.html, line 1: "),
    "no letters": ("client__html", b"\xff\xfe{{ piece.title }}", "client.html: UnicodeDecodeError"),
    "no style": ("style__css", b"body { content: '\xff' }", "style.css: cannot be read (UnicodeDecodeError"),
    "a print": ("booklet__typ", "#let a = 1\n#nothing", "booklet.typ, line 2: unknown variable: nothing"),
    "a print in panic": ("card__typ", '#panic("no")', "card.typ, line 1: panicked"),
    "a print without end": ("card__typ", "#let n = 1\n#while n > 0 { n = 1 }", "card.typ, line 2: loop seems to be infinite"),
    "a print that does not fit": ("card__typ", "#metadata((fits: false)) <report>", "card.typ"),
    "a print without letters": ("booklet__typ", b"\xff", "booklet.typ: cannot be read"),
    "deep facts": ("theme__toml", "a = " + "[" * 100_000, "theme.toml: "),
    "odd facts": ("theme__toml", "paper = 3", "theme.toml: "),
}  # fmt: skip


@pytest.mark.parametrize("name", FAILING)
def test_a_theme_that_fails_says_so_whatever_it_raises_and_costs_no_other_job(shelf, tmp_path, name):
    file, content, said = FAILING[name]
    lay_theme(shelf / "ours", **{file: content})
    jobs = bound_by_name(shelf, tmp_path / "book")
    assert jobs["bench"].bound
    assert not jobs["chair"].bound
    assert jobs["chair"].fault == ""
    (told,) = errors_of(jobs["chair"])
    assert told.startswith("shop.toml, theme: ")
    assert said in told
    assert len(told) < 600
    assert not (tmp_path / "book" / "handover" / "chair").exists()


def test_a_fault_of_ours_under_a_theme_of_ours_keeps_its_traceback(shelf, monkeypatch):
    """Under a theme of the shop's it may be the call that is wrong; under ours it is a fault to be mended."""

    def broken(*_args):
        raise ValueError("ours")

    lay_theme(shelf / "ours")
    piece, _, _, _ = pages_of(read_job(SAMPLE))
    monkeypatch.setattr(themes, "drawing", broken)
    with pytest.raises(ValueError, match=r"^ours$"):
        themes.load_theme("oilstone").client_page(piece)
    with pytest.raises(themes.ThemeError, match=r"^theme ours, .*, line \d+: ValueError: ours$"):
        themes.load_theme("ours", beside=[shelf]).client_page(piece)


def test_a_letter_that_a_theme_cannot_set_is_told_as_the_themes(shelf, tmp_path):
    lay_theme(shelf / "ours", letter__typ="#nothing")
    (shelf / "shop.toml").write_text('name = "S"\ntheme = "ours"\n')
    made = estimate(ENQUIRIES / "low-bench", shelf, tmp_path / "estimates", DAY)
    assert made.fault == ""
    assert any("theme ours, letter.typ, line 1" in str(p) for p in made.problems)
    assert made.folder is None


# -- what it cannot do -------------------------------------------------------------------------------

RUNS = {
    "classes": "{{ ().__class__.__base__.__subclasses__() }}",
    "globals of a function": "{{ drawing.__globals__.x }}",
    "globals of a helper": '{{ cycler.__init__.__globals__.os.system("touch " ~ "@") }}',
    "globals of a method": '{{ t.__func__.__globals__["__builtins__"] }}',
    "a format": '{{ "{0.__class__.__mro__}".format(piece) }}',
    "a format kept": '{% set f = "{0.__class__}".format %}{{ f(piece) }}',
    "an attribute by name": '{{ (t|attr("__globals__")).x }}',
    "itself": "{{ self._TemplateReference__context.environment.__class__ }}",
    "a change": "{{ piece.__dict__.update(title=1) }}",
    "a list": "{% set a = [] %}{{ a.append(1) }}",
}


@pytest.mark.parametrize("name", RUNS)
def test_a_template_runs_no_code(shelf, tmp_path, name):
    witness = tmp_path / "witness"
    lay_theme(shelf / "ours", client__html=RUNS[name].replace("@", str(witness)))
    job = bound_by_name(shelf, tmp_path / "book")["chair"]
    assert not job.bound
    assert not witness.exists()
    assert "client.html, line 1" in errors_of(job)[0]


BRINGS_IN = {
    "a package": '#import "@preview/example:0.1.0": add',
    "a package by a sum": '#{ import ("@pre" + "view/example:0.1.0") }',
    "a text that is run": '#eval("imp" + "ort \\"@preview/example:0.1.0\\"")',
    "a name by a sum": '#(dictionary(std).at("ev" + "al"))("1")',
    "after a stroke in a text": '#let a = "//"; #import "@preview/example:0.1.0"',
    "a file outside": '#read("/etc/hostname")',
    "a file above": '#read("../../etc/hostname")',
}


@pytest.mark.parametrize("name", BRINGS_IN)
def test_a_print_brings_nothing_in(shelf, tmp_path, monkeypatch, name):
    for proxy in (
        "HTTPS_PROXY",
        "https_proxy",
        "ALL_PROXY",
    ):  # should it ask the net all the same, nobody answers
        monkeypatch.setenv(proxy, "http://127.0.0.1:9")
    lay_theme(shelf / "ours", booklet__typ=BRINGS_IN[name])
    job = bound_by_name(shelf, tmp_path / "book")["chair"]
    assert not job.bound
    (told,) = errors_of(job)
    assert "booklet.typ, line 1" in told
    assert "package" not in told  # it was not even looked for


# -- where it may lie --------------------------------------------------------------------------------


def test_a_theme_lies_beside_the_shop_toml_of_the_shelf(shelf, tmp_path):
    lay_theme(shelf / "ours")
    assert bound_by_name(shelf, tmp_path / "book")["chair"].bound
    assert used(tmp_path / "book")
    assert bind(shelf / "chair", tmp_path / "alone").ok
    assert used(tmp_path / "alone")
    assert pack(shelf / "chair", tmp_path / "out", lambda *_: None).ok


def test_a_theme_in_a_job_folder_is_used_only_where_the_shelf_says_so(shelf, tmp_path):
    lay_theme(shelf / "chair" / "ours")
    own = shelf / "chair" / "shop.toml"
    for said in ("", "themes_in_jobs = true\n"):  # what came with the job has no say
        own.write_text(f'theme = "ours"\n{said}')
        for folder in (shelf, shelf / "chair"):
            job = bound_by_name(folder, tmp_path / "book")["chair"]
            assert not job.bound
            assert "themes_in_jobs" in errors_of(job)[0]
    (shelf / "shop.toml").write_text('name = "S"\nthemes_in_jobs = true\n')
    for number, folder in enumerate((shelf, shelf / "chair")):
        assert bound_by_name(folder, tmp_path / str(number))["chair"].bound
        assert used(tmp_path / str(number))


def test_without_a_shop_toml_around_it_no_theme_of_its_own_is_used(shelf, tmp_path):
    (shelf / "shop.toml").unlink()
    lay_theme(shelf / "ours")
    job = bound_by_name(shelf / "chair", tmp_path / "book")["chair"]
    assert not job.bound
    assert "there is no theme “ours”" in errors_of(job)[0]


PATHS = ["../ours", "chair/ours", "@/ours", ".", "..", "..\\\\ours", "", " ", ".ours", "\\u0000", "x" * 5000]


@pytest.mark.parametrize("name", PATHS)
def test_a_theme_is_named_without_a_path(shelf, tmp_path, name):
    lay_theme(shelf / "ours")
    lay_theme(shelf / ".ours")
    (shelf / "chair" / "shop.toml").write_text(f'theme = "{name.replace("@", str(shelf))}"\n')
    job = bound_by_name(shelf, tmp_path / "book")["chair"]
    assert job.fault == ""
    assert not job.bound or (not name.strip() and not used(tmp_path / "book"))  # no name: the usual theme


@pytest.mark.parametrize("file", ["client.html", "_own.html", "sub"])
def test_a_link_in_a_theme_that_leads_out_is_refused(shelf, tmp_path, file):
    secret = tmp_path / "secret"
    secret.mkdir()
    (secret / "words.html").write_text("SECRET")
    lay_theme(shelf / "ours")
    os.symlink(secret if file == "sub" else secret / "words.html", shelf / "ours" / file)
    job = bound_by_name(shelf, tmp_path / "book")["chair"]
    assert not job.bound
    assert f"theme ours, {file}: a link that leads out of its folder" in errors_of(job)[0]


def test_a_theme_may_be_a_link_beside_shop_toml_but_not_in_a_job(shelf, tmp_path):
    kept = tmp_path / "kept elsewhere"
    lay_theme(kept)
    os.symlink("style.css", kept / "again.css")  # a link inside it leads nowhere else
    os.symlink(kept, shelf / "ours")
    assert bound_by_name(shelf, tmp_path / "book")["chair"].bound
    (shelf / "ours").unlink()
    (shelf / "shop.toml").write_text("themes_in_jobs = true\n")
    os.symlink(kept, shelf / "chair" / "ours")
    job = bound_by_name(shelf, tmp_path / "book")["chair"]
    assert not job.bound
    assert "leads out of the job folder" in errors_of(job)[0]


def test_what_is_no_plain_file_is_not_read(shelf, tmp_path):
    lay_theme(shelf / "ours")
    (shelf / "ours" / "style.css").unlink()
    for file in ("style.css", "client.html", "card.typ"):
        os.mkfifo(shelf / "ours" / file)
    job = bound_by_name(shelf, tmp_path / "book")["chair"]
    assert job.bound  # they are taken from the theme that it comes after
    assert (tmp_path / "book" / "handover" / "chair" / "index.html").stat().st_size > 10_000
