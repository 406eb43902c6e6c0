"""German: written as a maker writes to a client, not English left over, and a name for every row of a table."""

import re

import pytest

from buildbook.job.table.countries import countries
from buildbook.job.toml.keys import NEAR
from buildbook.signs import says
from buildbook.trade import tables
from buildbook.words import NAMES, Words

GERMAN, ENGLISH = Words("de"), Words("en")
KEYS = [key for key in GERMAN.every_key() if key.split(".")[0] not in NAMES]
IN_ENGLISH = {*ENGLISH.every_key()}
CARE = [key for key in KEYS if key.startswith("care.")]
LONGEST_SENTENCE = 34  # words; German needs a few more than English
LONGEST_TITLE = 9

SAME_IN_BOTH = re.compile(
    r"drawing\.(initials\..*|outline_plain)|dates\.(month|months\.m(4|8|9|11))|columns\.verdict"
    r"|client\.columns\.wood|log\.(megabytes|runs_minutes|runs_hours)|columns\.material|worksheet\.columns\.exponent|figures\.(timber_by|currency_code)"
    r"|lists\.units\.(m|m2|m3|l|kg|board_foot)"
)
"""Keys whose text may be the same: names of months, letters, signs of units, a word that both languages have."""


def plain(key, words=GERMAN):
    return words.text(key, **dict.fromkeys(words.names(key), "Eiche"))


def filled_with_nothing(key):
    return GERMAN.text(key, **dict.fromkeys(GERMAN.names(key), ""))


def sentences(text):
    return re.split(r"(?<=[.?!]) ", text)


def test_nothing_is_left_in_english():
    same = {
        key
        for key in KEYS
        if key in IN_ENGLISH
        and plain(key) == plain(key, ENGLISH)
        and re.search(r"\w", filled_with_nothing(key))
    }
    assert {key for key in same if not SAME_IN_BOTH.fullmatch(key)} == set()


NOT_AS_GERMAN_IS_SET = {
    "quotation marks are „…“": r"[\"“]\w|\w”|'|(?<!‚)‘",
    "abbreviations are written out": r"\b(z\. ?B|d\. ?h|bzw|usw|etc|ggf|evtl|ca)\.",
    "a narrow space stands before a unit": r"\d [%a-z]{1,2}\b(?! )|\d%",
    "a comma stands in a figure": r"\b\d+\.\d",
    "one space between words, none before a mark": r"  | [.,;:!?]",
}


@pytest.mark.parametrize("rule", NOT_AS_GERMAN_IS_SET)
def test_it_is_set_as_german_is_set(rule):
    offends = re.compile(NOT_AS_GERMAN_IS_SET[rule])
    assert {key: text for key in KEYS if offends.search(text := plain(key))} == {}


def test_quotation_marks_come_in_pairs():
    assert [key for key in KEYS if plain(key).count("„") != plain(key).count("“")] == []


def _is_title(key):
    return key.endswith(".title")


CARE_RULES = {
    "a client is addressed as Sie": lambda key, text: (
        not re.search(r"\b(du|dein\w*|dich|dir|ihr euch)\b", text, re.IGNORECASE)
    ),
    "an instruction says who is to do it": lambda key, text: (
        key.endswith(".why") or not re.search(r"\bman\b", text)
    ),
    "a title is short and has no full stop": lambda key, text: (
        not _is_title(key) or (len(text.split()) <= LONGEST_TITLE and not text.endswith("."))
    ),
    "sentences are short": lambda key, text: (
        _is_title(key) or all(len(sentence.split()) <= LONGEST_SENTENCE for sentence in sentences(text))
    ),
    "a text has three sentences at most, a reason one": lambda key, text: (
        _is_title(key) or len(sentences(text)) <= (3 if key.endswith(".text") else 1)
    ),
}


@pytest.mark.parametrize("rule", CARE_RULES)
def test_care_is_short_sentences_to_a_client(rule):
    keeps = CARE_RULES[rule]
    assert {key: plain(key) for key in CARE if not keeps(key, plain(key))} == {}


def test_warnings_keep_their_force():
    for key, words in {
        "oily-rags": ("binnen Stunden brennen", "flach aus", "Metall|Blech"),
        "magnets-children": ("sofort ärztliche Hilfe",),
        "tip-over": ("bevor Sie es benutzen", "Kinder"),
        "isocyanate": ("Asthma", "nur nach dem Sicherheitsdatenblatt"),
        "wood-dust": ("Nasenkrebs",),
        "lead-hands": ("Waschen Sie",),
        "chest-air": ("ohne Schloss", "aufdrücken"),
    }.items():
        for said in words:
            assert re.search(said, plain(f"care.{key}.text")), (key, said)


@pytest.mark.parametrize(
    ("section", "keys"),
    [
        ("species_name", [row.key for row in tables.species()]),
        ("species_colour", [row.key for row in tables.species()]),
        ("sheet_name", [row.key for row in tables.sheets()]),
        ("metal_name", [row.key for row in tables.metals()]),
        ("glass_name", [row.key for row in tables.glass()]),
        ("stone_name", [row.key for row in tables.stones()]),
        ("finish_name", [row.key for row in tables.finishes()]),
        ("near_name", NEAR),
        ("country_name", [country.code for country in countries()]),
    ],
)
def test_every_row_of_a_table_has_a_german_name(section, keys):
    assert set(GERMAN.section(section)) == set(keys)


@pytest.mark.parametrize(
    ("section", "table"),
    [
        ("sheet_name", tables.sheets),
        ("metal_name", tables.metals),
        ("stone_name", tables.stones),
        ("finish_name", tables.finishes),
    ],
)
def test_what_the_page_calls_a_thing_a_parts_file_may_call_it_too(section, table):
    for key, name in GERMAN.section(section).items():
        found = table().find(name) or table().find(re.sub(r" \(.*\)", "", name))
        assert found is not None, name
        assert (found.record.key, found.assumed) == (key, ""), name


@pytest.mark.parametrize(
    ("written", "key", "loose"),
    [
        ("Eiche", "european-oak", True),
        ("Eiche massiv", "european-oak", True),
        ("Roteiche", "northern-red-oak", False),
        ("Nussbaum", "european-walnut", True),
        ("Amerikanischer Nussbaum", "black-walnut", False),
        ("Kirschbaum", "european-cherry", True),
        ("Ahorn", "sycamore-maple", True),
        ("Esche", "european-ash", True),
        ("Rotbuche", "european-beech", False),
        ("Fichte", "norway-spruce", False),
        ("Kiefer", "scots-pine", True),
        ("Laerche", "european-larch", False),
        ("Douglasie", "douglas-fir", False),
        ("Birnbaum", "european-pear", False),
        ("Rüster", "european-elm", True),
        ("Robinie", "black-locust", False),
        ("Mahagoni", "honduras-mahogany", True),
    ],
)
def test_a_german_wood_is_found_and_a_loose_name_is_the_wood_that_grows_there(written, key, loose):
    found = tables.species().find(written)
    assert (found.record.key, bool(found.assumed)) == (key, loose)


@pytest.mark.parametrize(
    ("sign", "said", "not_said"),
    [
        ("door", "Glastür; Schranktüren; Türgriff; Tuer links", "Natur; türkis; natürlich geölt; Kreatur"),
        ("drawer", "Schubkastenseite; Nähschubladen; Schubkästen", "Schablone"),
        ("blades", "Messerblock; Küchenmesser", "Durchmesser 30; Messerfurnier Eiche; Klingel"),
        ("shelf", "Glasböden; Einlegeboden", "Schubkastenboden; Fußboden; Sideboard"),
        ("lid", "Truhendeckel; Schreibklappe", "Abdeckung; Klapptisch"),
        ("castor", "Lenkrollen", "Rollladen"),
        ("leather", "Rindsleder; Lederriemen", "Kunstleder; Feder"),
        ("padded", "Sitzpolster", "Kunststoff; Hilfsstoff"),
        ("magnet", "Magnetverschluss; Topfmagnete", "Magnolie"),
        ("inside", "Schubladenseite links", "Seite; Innentür"),
        ("salvaged", "Altholz Eiche; aus altem Holz", "alte Eiche"),
        ("lacquered", "Messing lackiert", "Messing unlackiert"),
        ("isocyanate", "2K-Lack; PU-Leim", "Leim"),
    ],
)
def test_a_german_word_gives_a_sign_away_in_a_compound_and_not_by_chance(sign, said, not_said):
    assert [text for text in said.split("; ") if not says(sign, text)] == []
    assert [text for text in not_said.split("; ") if says(sign, text)] == []


@pytest.mark.parametrize(
    ("key", "said"),
    [
        ("drawing.chair_sentence", "Ein Esszimmersessel daneben zeigt die Größe."),
        ("gloss.plinth.said", "Der geschlossene Unterbau, auf dem ein Kasten steht."),
        ("gloss.carcase.said", "Der Korpus eines Kastens, ohne Türen und Laden."),
        ("facts.generic.part-drawer", "Laden"),
        ("care.stairs-law.title", "Stiegen und Geländer regelt die Bauordnung"),
        ("facts.figure.refresh-unknown", GERMAN.text("facts.figure.refresh-unknown")),
    ],
)
def test_furniture_is_called_as_in_austria(key, said):
    assert Words("de-AT").text(key) == said
    texts = " ".join(Words("de-AT").text(k, **dict.fromkeys(GERMAN.names(k), "")) for k in KEYS)
    assert re.findall(r"\w*(?:[Ss]chublade|[Tt]reppe)\w*|\bSchr[aä]nk(?!bett)\w*|\bSt[uü]hl\w*", texts) == []
    assert "Hochstuhl" in texts
