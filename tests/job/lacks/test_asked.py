"""`proof` asks what only the maker can tell: what the piece is, where its glass sits; and only then."""

from dataclasses import replace

import pytest

from buildbook.job.lacks.asked import open_questions
from buildbook.job.model import Job, Part
from buildbook.job.proof import proof
from buildbook.job.shop_model import Shop
from buildbook.job.table.parts import read_parts
from buildbook.problems import Problems
from buildbook.trade.tables import Place

PANE = Part(7, "Pane", 2, "glass", "float glass", key="float")


def said(job):
    return [str(problem) for problem in open_questions(job)]


def test_an_unknown_kind_is_asked_about_with_the_nearest_and_what_to_write():
    assert said(Job(folder="a-job", piece="gossip stand", title="Something for the hall")) == [
        "job.toml, piece: “gossip stand” names no kind of piece that is known here: the page says of its care only what"
        " is true of any piece. Write piece = … with what it is, such as “moses basket stand”, “night stand” or “TV stand”;"
        " more words may stand in the title."
    ]


def test_a_title_that_names_no_kind_is_asked_about_where_there_is_no_piece():
    (question,) = said(Job(folder="a-job", title="For Anna"))
    assert "“For Anna” (the title; there is no “piece”)" in question
    assert "“dining table”" in question


def test_kinds_are_offered_in_the_language_of_the_shop():
    (question,) = said(Job(folder="a-job", title="Für Anna", shop=Shop(language="de")))
    assert "“Tisch”, “Stuhl”" in question
    assert "dining table" not in question


@pytest.mark.parametrize(
    "job",
    [
        Job(folder="a-job"),
        Job(folder="a-job", piece="Kommode"),
        Job(folder="a-job", title="Bookcase for a stair"),
        Job(folder="a-job", piece="stand", title="Plant stand"),
    ],
)
def test_what_is_known_or_not_written_at_all_is_not_asked(job):
    assert said(job) == []


@pytest.mark.parametrize(
    ("piece", "country", "asked"),
    [("Kasten", "AT", 1), ("Kasten aus Zirbe", "CH", 1), ("Kasten", "DE", 0), ("Nähkasten", "AT", 0)],
)
def test_a_name_that_means_a_cupboard_elsewhere_is_asked_about_there(piece, country, asked):
    """Common practice: the Austrian and Swiss word for a wardrobe is the German one for a box."""
    job = Job(folder="a", piece=piece, shop=Shop(country_code=country, language="de"))
    assert sum("may mean a cupboard" in problem.message for problem in open_questions(job)) == asked


def test_glass_is_asked_about_where_nothing_tells_its_place():
    cabinet = Job(folder="a-job", piece="display cabinet", parts=(PANE,))
    (question,) = open_questions(cabinet)
    assert (question.file, question.row, question.field, question.severity) == (
        "parts.csv",
        7,
        "part",
        "warning",
    )
    assert "“Pane”" in question.message
    told = (
        replace(cabinet, doors=2),
        replace(cabinet, piece="coffee table"),
        replace(cabinet, parts=(replace(PANE, name="Side pane"),)),
        replace(cabinet, parts=(replace(PANE, name="Glastür links"),)),
        replace(cabinet, parts=(replace(PANE, key="mirror", material="mirror"),)),
    )
    assert [open_questions(job) for job in told] == [[]] * len(told)


def test_proof_asks_it(tmp_path):
    (tmp_path / "job.toml").write_text('piece = "contraption"\n', encoding="utf-8")
    ((_, problems),) = proof(tmp_path).jobs
    assert any("names no kind of piece" in problem.message for problem in problems)


def wood(material, row=2, **said):
    (part,) = read_parts(
        f"Part,Qty,Kind,Material,Length (mm),Width (mm),Thickness (mm)\nTop,1,wood,{material},900,400,20\n".encode(),
        "mm",
        Problems(),
        said.get("place", Place("GB", "en")),
    )
    return replace(part, row=row)


def test_a_wood_that_may_be_several_is_asked_about_once():
    job = Job(
        folder="a-job",
        piece="box",
        shop=Shop(country_code="GB"),
        parts=(wood("mahogany"), wood("Mahogany", 3)),
    )
    (question,) = open_questions(job)
    assert (question.file, question.row, question.field, question.severity) == (
        "parts.csv",
        2,
        "material",
        "warning",
    )
    assert "Swietenia macrophylla" in question.message
    assert "Khaya spp." in question.message
    assert "no page for the client says which wood it is" in question.message
    assert "Protected by CITES" in question.message


@pytest.mark.parametrize("material", ["sapele", "Khaya ivorensis", "sycamore", "English oak", "Räuchereiche"])
def test_a_wood_that_is_said_is_not_asked_about(material):
    job = Job(folder="a-job", piece="box", shop=Shop(country_code="GB"), parts=(wood(material),))
    assert [one for one in said(job) if " may be " in one] == []


def test_a_protected_wood_is_told_with_its_annotation_and_the_day_of_the_list():
    job = Job(folder="a-job", piece="box", parts=(wood("cocobolo"), wood("cocobolo", 3)))
    (told,) = open_questions(job)
    assert "appendix II, annotation #15 (finished goods too, but for up to 10 kg" in told.message
    assert "by the list as known on 2025-12-05" in told.message
    assert told.hint.startswith("Check the current list")


def test_steel_beside_a_cooked_wood_is_told():
    hinge = Part(5, "Hinge", 2, "hardware", "zinc-plated steel butt hinge")
    cooked = Job(folder="a-job", piece="box", parts=(wood("Thermoesche"), hinge))
    (told,) = open_questions(cooked)
    assert "“Thermoesche” attack steel and zinc" in told.message
    assert told.row == 5
    stainless = replace(hinge, material="stainless steel butt hinge")
    assert open_questions(replace(cooked, parts=(wood("Thermoesche"), stainless))) == []
    assert open_questions(replace(cooked, parts=(wood("European ash"), hinge))) == []
