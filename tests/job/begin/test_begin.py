"""A new job folder: in the language of its shop, with what this piece needs, good at once; and never over anything."""

import re
import tomllib
from datetime import date
from pathlib import Path

import pytest

from buildbook.job import read_job
from buildbook.job.begin import Around, BeginError, Wishes, begin
from buildbook.job.begin.wishes import QUESTIONS, asked, known_answer
from buildbook.job.lacks.asked import open_questions
from buildbook.job.proof import proof
from buildbook.trade.kinds import kinds
from buildbook.words import Words


def test_a_german_shop_begins_in_german_and_what_is_laid_out_is_read(tmp_path):
    (tmp_path / "shop.toml").write_text('name = "W"\nlanguage = "de-AT"\ncountry = "AT"\n', "utf-8")
    folder = tmp_path / "2026-014-esstisch"
    begin(folder, date(2026, 3, 2))
    assert "Angaben zum Auftrag" in (folder / "job.toml").read_text("utf-8")
    with_row = (folder / "parts.csv").read_text("utf-8") + "Platte;1;;Eiche;900;80;20;;;;;;;;;;;;;;\n"
    (folder / "parts.csv").write_text(with_row, "utf-8")
    uncommented = re.sub(r"(?m)^# (?!quantity)(?=\w+ +=|\[)", "", (folder / "job.toml").read_text("utf-8"))
    (folder / "job.toml").write_text(re.sub(r"(?s)\[photos\].*?(?=\[\[)", "", uncommented), "utf-8")
    job = read_job(folder)
    assert [str(p) for p in job.problems if p.severity == "error"] == []
    assert (job.stands, job.parts[0].name) == ("floor", "Platte")


# -- what is laid out ------------------------------------------------------------------------------

DAY = date(2026, 3, 2)
EVERY_KIND = [kind.usual[0] for kind in kinds().values()]


def errors(folder):
    return [str(p) for p in read_job(folder).problems if p.severity == "error"]


def uncommented(text):
    """A TOML file with the # taken away at each line that is no sentence."""
    return re.sub(r"(?m)^# (?=[\w.]+ +=|\[)", "", text)


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("glass", [True, False])
@pytest.mark.parametrize("hangs", [True, False])
def test_every_kind_of_piece_binds_at_once(tmp_path, language, units, glass, hangs):
    for number, piece in enumerate(EVERY_KIND):
        folder = tmp_path / f"2026-{number:03}-piece"
        wishes = Wishes(piece=piece, units=units, glass=glass, hangs=hangs, language=language)
        begin(folder, DAY, wishes)
        job = read_job(folder)
        told = [p for p in job.problems if p.severity == "error" or p.file == "parts.csv"]
        assert told == [], (piece, told)
        assert len(job.parts) == 3
        assert any(part.kind == "glass" for part in job.parts) == glass, piece
        assert (job.stands == "wall") == hangs
        assert ("[hanging]" in (folder / "job.toml").read_text("utf-8")) == hangs
        assert job.units == units


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("piece", ["wardrobe", "wall shelf", "chair", "cutting board"])
def test_every_commented_line_is_good(tmp_path, language, units, piece):
    """A maker takes away the # and it is right."""
    folder = tmp_path / "2026-001-piece"
    begin(folder, DAY, Wishes(piece=piece, units=units, language=language))
    for path in (folder / "job.toml", tmp_path / "shop.toml"):
        text = uncommented(path.read_text("utf-8"))
        path.write_text(re.sub(r"(?m)^quantity.*\n", "", text), "utf-8")
    found = errors(folder)
    assert [text for text in found if "photo" not in text] == []
    assert "name" in tomllib.loads((tmp_path / "shop.toml").read_text("utf-8"))


def test_glass_is_named_by_where_it_sits(tmp_path):
    for number, piece in enumerate(("wardrobe", "bookcase", "coffee table")):
        folder = tmp_path / f"{number}"
        begin(folder, DAY, Wishes(piece=piece, glass=True))
        assert not [p for p in open_questions(read_job(folder)) if "glass" in p.message]


def test_examples_are_asked_about_until_they_are_written_over(tmp_path):
    folder = tmp_path / "2026-001-bench"
    begin(folder, DAY)
    ((_, problems),) = proof(folder).jobs
    (told,) = [p for p in problems if "examples that begin" in p.message]
    assert (told.row, told.also) == (2, (3, 4))
    parts = folder / "parts.csv"
    rows = parts.read_text("utf-8").splitlines()
    parts.write_text("\n".join([rows[0], *(row[: row.rindex(",") + 1] for row in rows[1:])]), "utf-8")
    assert not [p for p in open_questions(read_job(folder)) if "examples" in p.message]


def test_the_folders_name_says_what_it_is(tmp_path):
    begin(tmp_path / "2026-014-coffee-table", DAY)
    facts = tomllib.loads((tmp_path / "2026-014-coffee-table" / "job.toml").read_text("utf-8"))
    assert (facts["piece"], facts["number"], facts["begun"]) == ("coffee table", "2026-014", DAY)


def test_a_shop_is_laid_out_once_and_never_over_another(tmp_path):
    laid = begin(tmp_path / "one", DAY, Wishes(units="in"))
    assert laid.shop == tmp_path / "shop.toml"
    (tmp_path / "shop.toml").write_text('name = "Mine"\nunits = "mm"\n', "utf-8")
    assert begin(tmp_path / "two", DAY).shop is None
    assert (tmp_path / "shop.toml").read_text("utf-8") == 'name = "Mine"\nunits = "mm"\n'
    assert 'units     = "mm"' in (tmp_path / "two" / "job.toml").read_text("utf-8")


def test_an_enquiry_apart_from_the_jobs_is_of_their_shop(tmp_path):
    (tmp_path / "shop.toml").write_text('name = "Werkstatt"\nlanguage = "de"\ncountry = "DE"\n')
    laid = begin(tmp_path / "asked" / "2026-003-schrank")
    assert laid.shop is None
    assert not (tmp_path / "asked" / "shop.toml").exists()
    assert "Die Angaben zum Auftrag" in (tmp_path / "asked" / "2026-003-schrank" / "job.toml").read_text()


def test_a_shop_by_another_way_of_writing_its_name_is_one(tmp_path):
    (tmp_path / "Shop.TOML").write_text('name = "Mine"\n', "utf-8")
    assert begin(tmp_path / "one", DAY).shop is None
    assert sorted(path.name for path in tmp_path.iterdir()) == ["Shop.TOML", "one"]


@pytest.mark.parametrize(
    ("wishes", "said"),
    [
        (Wishes(woods=("waalnut",)), "walnut"),
        (Wishes(woods=("xyzzy",)), "buildbook keys"),
        (Wishes(finish="shelac"), "Shellac"),
        (Wishes(units="cubits"), "mm or in"),
    ],
)
def test_what_is_not_known_is_told_with_the_nearest_and_nothing_laid_out(tmp_path, wishes, said):
    with pytest.raises(BeginError, match=said):
        begin(tmp_path / "one", DAY, wishes)
    assert list(tmp_path.iterdir()) == []


def test_where_the_disk_fails_nothing_is_left(tmp_path, monkeypatch):
    real = Path.mkdir

    def mkdir(path, *how, **more):
        if path.name == "photos":
            raise OSError(28, "No space left on device")
        return real(path, *how, **more)

    monkeypatch.setattr(Path, "mkdir", mkdir)
    with pytest.raises(BeginError, match="No space left"):
        begin(tmp_path / "one", DAY)
    assert list(tmp_path.iterdir()) == []


# -- asking ----------------------------------------------------------------------------------------


def test_only_what_was_not_said_is_asked_and_a_slip_asked_again():
    answers = iter(["", "waalnut", "walnut, ash", "y", "Anna"])
    questions, said = [], []

    def ask(question):
        questions.append(question)
        return next(answers)

    around = Around("Wall shelf", "en", "mm", has_shop=False)
    wishes = asked(Wishes(units="in", finish="soap", hangs=False), around, QUESTIONS, ask, said.append)
    assert wishes == Wishes(None, "in", ("walnut", "ash"), "soap", False, True, "Anna")
    assert "[wall shelf]" in questions[0]
    assert len(said) == 2
    assert "“waalnut” is not a wood" in said[1]


def test_what_enter_takes_is_told_in_the_language_of_the_shop():
    questions = []
    around = Around("Gartenbank", "de", "mm", has_shop=True)
    asked(Wishes(), around, QUESTIONS, lambda question: questions.append(question) or "", lambda text: None)
    finish = Words("de").name("finish_name", "exterior-oil", "")
    assert finish
    assert any(f"[{finish}]" in question for question in questions)


def test_a_shop_that_measures_in_inches_is_offered_dollars_and_the_united_states(tmp_path):
    for units, country, currency in (("in", "US", "USD"), ("mm", "GB", "GBP")):
        text = begin(tmp_path / units / "desk", wishes=Wishes(units=units)).shop.read_text()
        assert f'# country   = "{country}"' in text
        assert f'# currency  = "{currency}"' in text
        assert text.count("currency") == 1


def test_yes_and_no_are_read_in_both_languages():
    with pytest.raises(BeginError):
        known_answer("maybe")
    assert [known_answer(word) for word in ("Y", "ja", "Nein", "no")] == [True, True, False, False]
