"""What goes on the card, in which order, and what makes way when room runs out."""

from dataclasses import replace
from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from buildbook.care.rules import rules
from buildbook.pages.client.card import card_of
from buildbook.pages.client.handover import client_piece
from buildbook.pages.client.piece import Advice, AdviceGroup, Due, FinishStory, FirstWeeks, Short
from buildbook.pages.client.topics import topics
from buildbook.pages.phrases import Phrases
from buildbook.pages.shared import Contact
from buildbook.summary import summarise
from tests.pages.made import plain, table

JOB = table()
PIECE = client_piece(JOB, summarise(JOB), (), Phrases.of(JOB))
FOUR_LINES = 220  # signs, about what an A6 card holds in four lines of its least type


def advice(key, severity="note", text=""):
    return Advice(key, f"About {key}", text or f"Do {key}.", "", severity, severity.title(), "")


def card(*weekly, **more):
    groups = (AdviceGroup("week", "Each week", weekly),) if weekly else ()
    return card_of(replace(PIECE, care=groups, **more))


def keys(items):
    return [item.key for item in items]


def test_things_go_in_the_order_in_which_harm_is_done():
    every = [advice(key) for key in ("rh-band", "near-window", "iron-tannin", "bed-bolts", "heat-weak", "water-weak", "clean-oiled", "outdoor-care")]  # fmt: skip
    most = ["outdoor-care", "clean-oiled", "water-weak", "heat-weak", "bed-bolts", "near-window"]
    assert keys(card(*every).things) == most
    assert keys(card(*every[:3]).things) == ["near-window", "rh-band", "iron-tannin"]


def test_it_is_chosen_from_all_that_the_page_says():
    seasons = replace(PIECE.seasons, advice=(advice("heat-sources"),))
    made = card(
        advice("glass-clean"),
        seasons=seasons,
        mending=(advice("renew-food-oil"),),
        cautions=(advice("chair-tilt"),),
    )
    assert keys(made.things) == ["glass-clean", "chair-tilt", "renew-food-oil", "heat-sources"]


def test_what_helps_little_on_a_card_is_left_to_the_page_whatever_room_there_is():
    assert card(advice("hurt", "caution"), advice("floor-wet"), advice("storage", "caution")).things == ()


def test_the_first_weeks_come_last_and_a_topic_is_told_once_by_what_harms_soonest():
    first = Short("Wait three weeks.", "cure-before-use", "note", "Note")
    weekly = (
        advice("water-fair"),
        advice("alcohol-shellac", "caution"),
        advice("clean-wax"),
        advice("polish", "caution"),
    )
    now = FirstWeeks("The first weeks, until 1 June 2026", (first,))
    shown = card(*weekly, advice("more", "warning"), advice("less"), day_one=(first,), first_weeks=now).things
    assert keys(shown) == ["clean-wax", "alcohol-shellac", "more", "polish", "cure-before-use"]
    assert [thing.caution for thing in shown] == ["", "Caution", "Warning", "Caution", ""]
    assert (shown[4].title, shown[4].text) == ("", "Wait three weeks.")


def test_a_caution_of_the_first_weeks_is_told_once():
    first = Short("Use it only from 1 May on.", "too-soon", "caution", "Caution")
    made = card(day_one=(first,), first_weeks=FirstWeeks("The first weeks", (first,)))
    assert (keys(made.cautions), keys(made.things)) == (["too-soon"], [])


def test_what_is_graver_goes_before_the_rest_once_each_topic_is_told():
    weekly = (advice("dust"), advice("castors", "caution"), advice("glides", "warning"), advice("clean-wax"))
    assert keys(card(*weekly).things) == [
        "clean-wax",
        "glides",
        "castors",
    ]  # a plain note that no topic knows is left


def test_the_main_finish_is_told_before_a_lesser_one_even_if_that_is_graver():
    finishes = (FinishStory("Hardwax oil", "", ()), FinishStory("Shellac", "", ()))
    of_inside = advice("water-weak", "caution", "On Shellac: wipe at once.")
    of_top = advice("water-fair", "note", "On Hardwax oil: wipe soon.")
    assert keys(card(of_inside, of_top, finishes=finishes).things)[0] == "water-fair"
    assert keys(card(of_inside, of_top).things)[0] == "water-weak"


def test_cautions_of_day_one_and_every_other_warning_stand_first_and_none_twice():
    top = (
        Short("Fix it to the wall.", "fix-to-wall", "warning", "Warning"),
        Short("Air it.", "air", "note", "Note"),
    )
    cautions = (
        advice("fix-to-wall", "warning"),
        advice("glass-doors", "warning"),
        advice("castors", "caution"),
    )
    made = card(day_one=top, cautions=cautions)
    assert [(item.key, item.title, item.text) for item in made.cautions] == [
        ("fix-to-wall", "", "Fix it to the wall."),
        ("glass-doors", "About glass-doors", "Do glass-doors."),
    ]
    assert keys(made.things) == ["castors"]


def test_what_is_done_each_day_is_told_in_full_there_and_not_as_a_caution():
    short = Short("Wash it by hand.", "bowl-wash", "caution", "Caution")
    whole = advice("bowl-wash", "caution", "Wash it by hand. Dry it at once. Leave no water in it.")
    made = card(day_one=(short,), dangers=(replace(whole, manner="do"),))
    assert (keys(made.cautions), [item.text for item in made.things]) == ([], [whole.text])


def due(key, year, month=6, every=0):
    return Due(key, date(year, month, 1), f"Title of {key}", "", every)


def test_dates_are_those_to_come_with_how_they_repeat():
    days = (
        due("cured-1", 2026, 3), due("delivery-fix", 2026, 5), due("renew-1", 2027, 4, 48), due("year", 2028, 5, 12),
        due("year-hang", 2028, 5, 12), due("half-year", 2028, 6, 6), due("renew-2", 2029, 6, 1), due("cured-2", 2029), due("more", 2030),
    )  # fmt: skip
    made = card(due=days, dated=date(2026, 5, 1))
    assert [(plain(line.label), line.value, line.note) for line in made.dates] == [
        ("1 April 2027", "Title of renew-1", "then every 4 years"),
        ("1 May 2028", "Title of year; Title of year-hang", "then each year"),
        ("1 June 2028", "Title of half-year", "then every 6 months"),
        ("1 June 2029", "Title of renew-2", "then every month"),
        ("1 June 2029", "Title of cured-2", ""),
    ]
    assert len(card(due=days[:3], dated=None).dates) == 2
    assert (
        card(due=days[:2], dated=date(2026, 5, 1)).dates == ()
    )  # what is for the first day stands with the cautions


def test_half_an_instruction_is_never_told():
    sentence = "Wipe it with a damp cloth along the grain and dry it at once."
    long = card(advice("clean-oiled", text=" ".join([sentence] * 4)))
    assert long.things[0].text == f"{sentence} {sentence} {sentence}"
    assert (
        card(advice("clean-oiled"), advice("glass-clean", text=" ".join([sentence] * 4))).things[1].text
        == f"{sentence} {sentence}"
    )
    assert (long.shortened, card(advice("clean-oiled", text=sentence)).shortened) == (1, 0)


@given(
    st.text(alphabet="ab .!\n", max_size=400),
    st.lists(st.text(alphabet="ab ", min_size=1, max_size=60), max_size=8),
)
def test_every_text_fits_and_one_that_does_not_is_counted(text, names):
    materials = tuple(replace(PIECE.materials[0], name=name) for name in names)
    made = card(advice("clean-oiled", text=text), title=text or "a", number=text, materials=materials)
    cut = 0
    for whole, shown in (
        (text, made.things[0].text),
        (text, made.number),
        (", ".join(names), made.materials),
    ):
        assert len(shown) <= FOUR_LINES + len(", …")
        assert "\n" not in shown
        cut += shown.rstrip("…, ") != " ".join(whole.split()) and len(whole) > FOUR_LINES
    assert made.shortened >= cut


def test_the_maker_is_reached_by_post_then_by_what_needs_no_machine():
    contact = Contact("Shop", "A. Maker", ("1 Mill Lane", "Oldtown"), "bench@example.org", "+44 20 7946 0000", "https://example.org")  # fmt: skip
    made = card(contact=contact)
    assert [(way.kind, way.text) for way in made.contact] == [
        ("address", "1 Mill Lane, Oldtown"),
        ("phone", "+44 20 7946 0000"),
        ("email", "bench@example.org"),
        ("web", "https://example.org"),
    ]
    assert made.maker == ("A. Maker", "Shop")


def test_a_code_is_made_of_an_address_of_the_web_that_fits_it():
    assert card(page_address="https://example.org/a").address == "https://example.org/a"
    assert card(page_address="ftp://example.org/a").address == ""
    assert card(page_address="https://example.org/" + "a" * 300).address == ""


def test_finishes_say_their_coats_and_where_only_when_there_are_several():
    coats = (date(2026, 4, 1), date(2026, 4, 3))
    one = FinishStory("hardwax oil", "Top", (), coats)
    (line,) = card(finishes=(one,)).finishes
    assert (line.label, plain(line.value), line.note) == ("Hardwax oil", "2 coats, 1 and 3 April 2026", "")
    several = card(finishes=(one,) * 4).finishes
    assert [line.note for line in several] == ["Top"] * 3


def test_topics_name_instructions_that_there_are_each_once():
    table = topics()
    named = [key for keys in table.topics for key in keys] + list(table.left)
    assert set(named) <= {rule.key for rule in rules()}
    assert len(named) == len(set(named))
