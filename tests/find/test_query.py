"""Questions: how words match, and what comes first."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.find.index import build
from buildbook.find.query import ask, find, lacking, parse, turned, within_slips
from tests.find.test_index import with_words

SHELF = [
    with_words("glazed", ("title", "", "Walnut cabinet"), ("wood", "", "Black walnut, Juglans nigra"), ("material", "Door", "toughened glass")),
    with_words("table", ("title", "", "Oak table"), ("note", "2024-01-02", "Found a walnut key for it"), ("names", "", "English oak, Stieleiche"), sides=(12000, 7400), day="2024-01-01"),
    with_words("tray", ("title", "", "Tray"), ("note", "", "sliding lid; the dovetail is tight"), sides=(4000,)),
    with_words("chest", ("title", "", "Chest"), ("joinery", "", "sliding dovetail"), ("tags", "", "book-matched"), sides=(12500,)),
]  # fmt: skip


def keys(text, shelf=SHELF):
    index = build(one.record for one in shelf)
    passages = {one.key: one.passages for one in shelf}
    return [index.keys[hit.place] for hit in find(index, text, passages.__getitem__)]


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("walnut", ["glazed", "table"]),  # the title before the note
        ("the walnut thing with the glass", ["glazed"]),  # words that say nothing are left out
        ("juglans", ["glazed"]),
        ("stieleiche", ["table"]),
        ("WALNUTS", ["glazed", "table"]),
        ("wal gla", ["glazed"]),  # beginnings
        ("wlanut", ["glazed", "table"]),  # two letters turned round
        ("walnt cabnet", ["glazed"]),
        ("oka", ["table"]),  # in a short word only two letters turned round
        ("rtay", ["tray"]),
        ("oat", []),
        ("trey", []),
        ("chets", ["chest"]),  # not several of a chet
        ("chezt", ["chest"]),  # from five letters on any one slip
        ("walnut table", ["table"]),
        ("walnut bicycle", []),
        ('"sliding dovetail"', ["chest"]),
        ("sliding dovetail", ["chest", "tray"]),
        ('tray "the dovetail is"', ["tray"]),
        ('"sliding dov', ["chest", "tray"]),  # a quote that is not closed yet
        ("bookmatched", ["chest"]),
        ("book matched", ["chest"]),
        ("1200 mm", ["table", "chest"]),  # 1250 is within 5 %
        ("4 ft", ["table", "chest"]),
        ("1300 mm", ["chest"]),
        ("1.2 m oak", ["table"]),
        ("1320 mm", []),
        ('48" chest', ["chest"]),  # the inch sign opens no quote
    ],
)
def test_a_question_finds(text, wanted):
    assert keys(text) == wanted


@pytest.mark.parametrize("text", ["", "  ", '""', '"', "…", "the with"])
def test_a_question_without_words_finds_everything_as_it_stands(text):
    assert keys(text) == ["chest", "glazed", "tray", "table"]


def test_a_frequent_word_itself_comes_before_a_rare_longer_one():
    shelf = [with_words(f"table-{n}", ("title", "", "Table")) for n in range(9)] + [
        with_words("a", ("title", "", "Tablet"))
    ]
    assert keys("table", shelf)[-1] == "a"


def test_slips_are_only_looked_for_where_the_word_stands_nowhere():
    many = [with_words(f"cable-{n}", ("note", "", "cable")) for n in range(3)]
    assert "t" not in keys("cable", [*many, with_words("t", ("title", "", "table"))])
    assert "t" not in keys("cable", [*many[:1], with_words("t", ("title", "", "table"))])  # it stands there
    assert "t" in keys("cable", [with_words("t", ("title", "", "table"))])


def test_what_ranks_the_same_stands_by_day_then_key():
    shelf = [
        with_words(key, ("title", "", "stool"), day=day)
        for key, day in (("b", "2020-01-01"), ("c", "2021-01-01"), ("a", "2020-01-01"))
    ]
    assert keys("stool", shelf) == ["c", "a", "b"]


@pytest.mark.parametrize(
    ("one", "other", "most", "yes"),
    [("walnut", "wlanut", 1, True), ("walnut", "walnt", 1, True), ("walnut", "wallnut", 1, True), ("walnut", "chalnut", 1, False),
     ("dovetail", "dovteial", 2, True), ("dovetail", "dvtal", 2, False), ("ab", "abcd", 1, False)],
)  # fmt: skip
def test_slips_are_counted(one, other, most, yes):
    assert within_slips(one, other, most) is yes
    assert within_slips(other, one, most) is yes


def _distance(one, other):
    """Optimal string alignment distance by its recurrence, written out (Boytsov, 2011, section 2.1)."""
    table = {}
    for i in range(len(one) + 1):
        for j in range(len(other) + 1):
            if not i or not j:
                table[i, j] = i + j
                continue
            ways = [
                table[i - 1, j] + 1,
                table[i, j - 1] + 1,
                table[i - 1, j - 1] + (one[i - 1] != other[j - 1]),
            ]
            if i > 1 and j > 1 and one[i - 1] == other[j - 2] and one[i - 2] == other[j - 1]:
                ways.append(table[i - 2, j - 2] + 1)
            table[i, j] = min(ways)
    return table[len(one), len(other)]


@pytest.mark.parametrize(("word", "ways"), [("oak", ["aok", "oka"]), ("eel", ["ele"]), ("aa", []), ("", [])])
def test_two_neighbours_are_turned_round(word, ways):
    assert turned(word) == ways


ANGLED = [
    with_words("stool", ("note", "", "table tipped to 11°, three holes")),
    with_words("rail", ("note", "", "set at 11 1/2 from the end")),
    with_words("oven", ("note", "", "dried at 11 °C, 2.5 h")),
]


@pytest.mark.parametrize(
    ("text", "wanted"),
    [("11°", ["stool"]), ("11 deg", ["stool"]), ("11 Grad", ["stool"]), ("11 1/2", ["rail"])],
)
def test_an_angle_is_no_length_and_no_warmth(text, wanted):
    assert keys(text, ANGLED) == wanted


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("walnut cabinet zzzz", ["glazed"]),  # two of three
        ("walnut glass cabinet zzzz", ["glazed"]),
        ("walnut zzzz", []),  # of two words both
        ("walnut zzzz yyyy", []),  # one of three is not most
        ('walnut cabinet zzzz "black walnut"', []),  # whoever quotes means it
        ("sliding dovetail chest zzzz", ["chest"]),
    ],
)
def test_where_no_job_has_every_word_those_with_most_are_found(text, wanted):
    assert keys(text) == wanted


def test_what_a_job_lacks_is_told():
    index = build(one.record for one in SHELF)
    query = parse("walnut cabinet zzzz")
    asked = ask(index, query)
    assert lacking(query, asked, index.keys.index("glazed")) == ("zzzz",)


@given(st.text("abc", max_size=7), st.text("abc", max_size=7), st.integers(1, 2))
def test_slips_agree_with_the_full_distance(one, other, most):
    assert within_slips(one, other, most) is (_distance(one, other) <= most)


@given(st.text())
def test_any_question_is_taken_apart(text):
    query = parse(text)
    assert len({word.typed for word in query.words}) == len(query.words)
    assert isinstance(keys(text), list)


@given(st.sampled_from(SHELF), st.data())
def test_a_job_is_found_by_any_words_of_its_own(one, data):
    words = [
        word for passage in one.passages for word in passage.text.replace(",", "").replace(";", "").split()
    ]
    some = data.draw(st.lists(st.sampled_from(words), min_size=1, max_size=4))
    assert one.key in keys(" ".join(some))
