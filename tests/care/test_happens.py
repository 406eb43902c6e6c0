"""What an owner is told when something happens: reached by a piece, whole in both languages, short, and as the trade would
tell it (happens.toml beside this file), by what the lines say and not by which entry says them.
"""

import re
import tomllib
from dataclasses import replace
from pathlib import Path

import pytest

from buildbook.care.happens import if_something_happens, read_table, table
from buildbook.care.rules import RuleError, vocabulary
from buildbook.job.model import Hanging
from buildbook.trade import tables
from buildbook.trade.kinds import kinds
from buildbook.words import Words
from tests.care.cases import CASES, GLASS_TABLE, OILED_TABLE, layered
from tests.care.pieces import (
    NO_WOOD,
    coated,
    finished,
    hardware,
    pane,
    panel,
    piece,
    stone,
    upholstery,
    wood,
)

LANGUAGES = {language: Words(language) for language in ("en", "de")}
MOST_SENTENCES = 3
MOST_WORDS = {"en": 17, "de": 17}
MOST_AID = 3
FAMILIES = [family.key for family in tables.finishes()]
UNDER = {family: finished(family).but(piece="table") for family in FAMILIES}
MAPLE = wood("sugar-maple")


def seat(*materials):
    return piece(wood(), *(upholstery(what, name) for name, what in materials), piece="armchair")


PIECES = {
    "oiled table": UNDER["oil-varnish-blend"],
    "hardwax table": UNDER["hardwax-oil"],
    "varnished table": UNDER["oil-polyurethane"],
    "shellac table": UNDER["shellac"],
    "nitro table": UNDER["nitrocellulose-lacquer"],
    "waxed table": UNDER["paste-wax"],
    "soaped table": UNDER["soap"],
    "stained table": UNDER["dye-stain"],
    "special table": UNDER["other"],
    "milk-painted chest": finished("milk-paint", piece="blanket chest"),
    "unsaid table": piece(MAPLE, piece="table"),
    "barn table": piece(
        wood(finish="body", origin="boards reclaimed from a barn"),
        finishes=[coated("soap")],
        piece="table",
    ),
    "soap over dye": layered("soap", "dye-stain").but(piece="table"),
    "veneered cabinet": finished("hardwax-oil", panel("door"), piece="cabinet"),
    "garden bench": finished("exterior-oil", piece="garden bench"),
    "bowl": finished("mineral-oil", piece="salad bowl"),
    "bookcase": UNDER["hardwax-oil"].but(piece="bookcase"),
    "cot": finished("oil-varnish-blend", piece="cot"),
    "coffin": finished("hardwax-oil", piece="coffin"),
    "violin": finished("friction-polish", piece="violin"),
    "kitchen": finished("hardwax-oil", piece="kitchen"),
    "leather chair": seat(("seat", "saddle leather")),
    "cloth chair": seat(("seat", "wool cloth"), ("back", "foam")),
    "paper cord chair": seat(("seat", "Danish cord")),
    "cane chair": seat(("seat", "cane")),
    "gilded frame": piece(wood(), hardware("gold leaf"), piece="picture frame"),
    "mirror": piece(wood(), pane("mirror", "mirror"), piece="mirror"),
    "marble table": piece(wood(), stone("marble"), piece="table"),
    "slate table": piece(wood(), stone("slate"), piece="table"),
    "solid-surface table": piece(wood(), stone("solid-surface"), piece="table"),
    "plastic cabinet": piece(wood(), pane("door", "acrylic"), piece="cabinet"),
    "leaded cabinet": piece(wood(), pane("door", "leaded"), piece="cabinet"),
    "glass table": piece(
        wood("sugar-maple"),
        pane("table top", "toughened"),
        piece="coffee table",
        at_risk=["table top"],
    ),
    "picture": piece(wood(), pane("glass", "float"), piece="picture frame", stands="wall"),
    "lamp": piece(wood(), hardware("LED strip light", "light"), piece="table lamp"),
    "magnet box": piece(wood(), hardware("neodymium magnet", "catch"), piece="box"),
    "cell box": piece(wood(), hardware("CR2032 button cell", "light"), piece="box"),
    "swing": piece(wood(), piece="porch swing", stands="ceiling"),
    "wall cabinet": piece(
        wood(),
        piece="wall cabinet",
        stands="wall",
        hanging=Hanging("cleat"),
        contents_kg=20.0,
        mass_kg=20,
    ),
}
EVERY = (
    *(made for pair in CASES.values() for made in pair),
    *UNDER.values(),
    *PIECES.values(),
    finished("spar-varnish", piece="garden table"),
    finished("mineral-oil", piece="box"),
    NO_WOOD,
)


def told(made, language="en"):
    """What is told of a piece, by event."""
    happenings = if_something_happens(made.facts, LANGUAGES[language])
    return {happening.event: happening for happening in happenings}


def text(made, event="*", language="en", parts=("first", "never", "call")):
    """What is told of one event, or of all of them: its title, what each aid is about, its lines."""
    lines = []
    for happening in told(made, language).values():
        if event in ("*", happening.event):
            lines.append(happening.title)
            lines += [
                " ".join((*aid.of, *aid.named, *(getattr(aid, part) for part in parts)))
                for aid in happening.aid
            ]
    return "\n".join(lines)


def first_minutes(made, event="*", language="en"):
    aids = [aid for one in told(made, language).values() if event in ("*", one.event) for aid in one.aid]
    return "\n".join(aid.first for aid in aids)


def keys(made):
    return {aid.key for happening in told(made).values() for aid in happening.aid}


# -- as the trade would tell it ----------------------------------------------------------------------

ORACLE = tomllib.loads(Path(__file__).with_suffix(".toml").with_stem("happens").read_text("utf-8"))["case"]


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("case", ORACLE, ids=lambda case: f"{case['piece']}: {case['event']}")
def test_the_trade_would_say_so(case, language):
    made = PIECES[case["piece"]]
    said = text(made, case["event"], language)
    missing = [
        pattern
        for pattern in case.get("must", {}).get(language, ())
        if not re.search(pattern, said, re.IGNORECASE)
    ]
    assert missing == [], said
    first = first_minutes(made, case["event"], language)
    wrong = [
        pattern
        for pattern in case.get("never", {}).get(language, ())
        if re.search(pattern, first, re.IGNORECASE)
    ]
    assert wrong == [], first


def test_every_piece_of_the_oracle_is_asked_about():
    assert {case["piece"] for case in ORACLE} == set(PIECES)


NEVER_ADVISED = {
    "a solvent, a bleach, an acid or steel wool": (
        r"spirit\b(?!s)|thinner|solvent|remover|bleach|vinegar|ammonia|steel wool|petrol",
        r"Spiritus|Verdünnung|Lösemittel|Löser|Bleiche|Essig|Ammoniak|Stahlwolle|Benzin",
    ),
    "an iron, steam, a heater or the sun": (
        r"\biron\b|steam|hairdryer|\bheater|oven|in the sun\b",
        r"Bügeleisen|Dampf|Föhn|Heizgerät|Ofen|in die Sonne",
    ),
    "glue, filler, a screw": (
        r"\bglue (?:it|the|back)|\bfill (?:it|the)|\bscrew (?:it|the)",
        r"leimen|kitten|schrauben",
    ),
}


@pytest.mark.parametrize("what", NEVER_ADVISED)
def test_no_first_minute_advises(what):
    for made in EVERY:
        for language, pattern in zip(LANGUAGES, NEVER_ADVISED[what], strict=True):
            assert not re.search(pattern, first_minutes(made, language=language)), made.job.piece


UNSAYS = (
    (r"Never wipe it, damp or dry", r"[Ww]ipe the gilding"),
    (r"made to stand outside", r"dry, warm room|Indoors|\broom\b"),
    (r"[Nn]o dishwasher|dishwasher", r"in the dishwasher"),
    (r"best left to the maker", r"same oil"),
    (r"colour lies under", r"fine paper|\b[Ss]and\b"),
)


@pytest.mark.parametrize("pair", UNSAYS)
def test_a_first_minute_does_not_unsay_an_instruction(pair):
    care, first = map(re.compile, pair)
    for made in EVERY:
        instructions = "\n".join(f"{i.title}. {i.text} {i.why}" for i in made.care if i.for_client)
        if care.search(instructions):
            assert not first.search(first_minutes(made)), made.job.piece


# -- nothing is missing ------------------------------------------------------------------------------

EVERYDAY = ("water", "food", "heat", "scratch", "colour")


def test_each_surface_is_one_thing_that_a_piece_is_made_of():
    found = [fact for name in table().finishes for fact in table().made_of[name]]
    surfaces = {fact for fact in vocabulary() if fact.startswith("surface.")}
    assert sorted(found) == sorted(surfaces)
    assert {f"surface.{family.cared_as}" for family in tables.finishes()} == surfaces


@pytest.mark.parametrize("family", FAMILIES)
def test_each_finish_has_one_answer_to_each_mishap(family):
    made = UNDER[family]
    of = {
        name
        for name in table().finishes
        if f"surface.{tables.finishes()[family].cared_as}" in table().made_of[name]
    }
    about = {
        event: [
            entry.key
            for entry in table().entries
            if entry.event == event and set(entry.of) & of and entry.key in keys(made)
        ]
        for event in EVERYDAY
    }
    assert {event: len(found) for event, found in about.items()} == dict.fromkeys(EVERYDAY, 1)


@pytest.mark.parametrize("kind", list(kinds()))
def test_any_kind_of_piece_is_told_of_what_can_befall_it(kind):
    made = OILED_TABLE.but(piece=kind)
    assert {"heat", "scratch", "colour", "break", "damp", "flood"} <= set(told(made))
    for happening in told(made).values():
        assert len(happening.aid) <= MOST_AID, (happening.event, [aid.key for aid in happening.aid])


@pytest.mark.parametrize("name", PIECES)
def test_no_more_than_a_few_answers_stand_under_an_event(name):
    for happening in told(PIECES[name]).values():
        assert len(happening.aid) <= MOST_AID, (happening.event, [aid.key for aid in happening.aid])


def test_finishes_that_ask_for_the_same_share_their_lines_and_others_are_told_apart():
    coats = [coated("shellac", "a", product="blonde shellac"), coated("soap", "b")]
    made = piece(wood(finish="a"), wood(name="seat", finish="b"), finishes=coats, piece="table")
    assert {aid.key: aid.named for aid in told(made)["water"].aid} == {
        "water-polished": ("blonde shellac",),
        "water-soaped": ("soap finish",),
    }
    assert [(aid.of, aid.named) for aid in told(made)["colour"].aid] == [(("Wood",), ())]


def test_what_can_hurt_somebody_comes_first():
    for made in EVERY:
        for happening in told(made).values():
            dangers = [aid.danger for aid in happening.aid]
            assert dangers == sorted(dangers, reverse=True)
    assert told(PIECES["lamp"])["water"].aid[0].key == "water-electric"
    assert told(GLASS_TABLE)["break"].aid[0].danger


# -- the table and its words -------------------------------------------------------------------------


def test_each_entry_is_reached_by_a_piece_and_passes_another_by():
    given = [keys(made) for made in EVERY]
    every = {entry.key for entry in table().entries}
    assert every - set().union(*given) == set()
    assert [key for key in every if all(key in one for one in given)] == []


@pytest.mark.parametrize("language", LANGUAGES)
def test_there_are_words_for_all_of_it_and_for_nothing_else(language):
    words = LANGUAGES[language].section("happens")
    known = table()
    assert set(words) - {"line", "event", "made_of", "call"} == {entry.key for entry in known.entries}
    assert list(words["event"]) == list(known.events)
    assert list(words["made_of"]) == list(known.made_of)
    assert set(words["call"]) == set(known.calls) == {entry.call for entry in known.entries}
    assert set(words["line"]) == {"first", "never", "call"}


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_line_is_short_whole_sentences(language):
    words = LANGUAGES[language].section("happens")
    texts = [line for key, found in words.items() if "-" in key for line in found.values()]
    for line in (*texts, *words["call"].values()):
        assert line.endswith(".")
        assert line[0].isupper()
        assert not re.search(r"[{}]|\be\.g\.|\bz\. ?B|  | [.,;:]|\.\.", line)
        assert len(re.split(r"(?<=[.?!])\s+", line)) <= MOST_SENTENCES, line
        assert len(line.split()) <= MOST_WORDS[language], line


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_word_before_what_to_leave_does_not_turn_it_round(language):
    """“Never: do not wait if one may be swallowed” would tell a reader in haste to wait."""
    label = LANGUAGES[language].text("happens.line.never")
    assert not re.search(r"never|not|don|nie|nicht|kein|lassen", label, re.IGNORECASE)


@pytest.mark.parametrize("language", LANGUAGES)
def test_whom_to_call_names_somebody(language):
    maker = {"en": "maker", "de": "Werkstatt"}[language]
    others = {
        "en": r"[Gg]lazier|electrician|hospital|fire brigade|insurer",
        "de": r"Glaser|Elektriker|Krankenhaus|Feuerwehr|Versicherung",
    }[language]
    for call, to_maker in table().calls.items():
        said = LANGUAGES[language].text(f"happens.call.{call}")
        assert (maker in said) is to_maker or call == "insurer", said
        assert to_maker or re.search(others, said), said


FAULTS = {
    "no such fact: wood.green": {"all": ["wood.green"]},
    "about nothing": {"of": ["ice"]},
    "begins with its event": {"event": "storm"},
    "calls nobody": {"call": "a-friend"},
    "rests on nothing": {"basis": "hearsay"},
    "unknown: colour": {"colour": "red"},
    "stands twice": {},
}
GOOD = {
    "key": "water-wood",
    "event": "water",
    "of": ["wood"],
    "call": "maker",
    "source": "s",
    "basis": "read",
}


@pytest.mark.parametrize("said", FAULTS)
def test_a_fault_in_the_table_is_told_with_its_entry(said):
    made_of = {"wood": ["wood.any"], "unsaid": [], "piece": [], "people": []}
    file = {"events": {"water": []}, "finishes": [], "made_of": made_of, "calls": {"maker": True}}
    assert read_table({**file, "entry": [GOOD]}).entries[0].key == "water-wood"
    entries = [GOOD, GOOD] if said == "stands twice" else [{**GOOD, **FAULTS[said]}]
    with pytest.raises(RuleError, match=said):
        read_table({**file, "entry": entries})


# -- what may leave ----------------------------------------------------------------------------------


def test_nothing_is_told_of_a_part_that_stays_in_but_what_keeps_from_harm():
    rows = (upholstery("wool cloth", "zqwx cushion"), pane("zqwx pane"), stone("marble", "zqwx slab"), wood())
    shown = piece(*rows, piece="cabinet")
    hidden = piece(*(replace(row, for_client=False) for row in rows), piece="cabinet")
    assert "zqwx cushion" in text(shown)
    assert "zqwx pane" in text(shown)
    assert "zqwx" not in text(hidden) + text(hidden, language="de")
    assert keys(hidden) <= keys(shown)
    assert keys(hidden) & {"break-glass", "break-glass-risk"}
    assert not {"food-soft", "food-acid-stone", "water-unknown"} & keys(hidden)
