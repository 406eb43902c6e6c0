"""The less plain ways in which a piece calls for an instruction, and words that only look like one."""

from dataclasses import replace

import pytest

from buildbook.care import rules, vocabulary
from buildbook.care.happens import table
from buildbook.job.model import Size
from buildbook.job.shop_model import Shop
from buildbook.summary.model import HardwareItem, Mass
from buildbook.trade import tables
from buildbook.trade.kinds import kinds
from tests.care.cases import BARN, CABINET, CASES, CHAIR, CHEST, DRESSER, DRY, LINED, OILED, WAXED
from tests.care.pieces import (
    BARE,
    EVEN_AIR,
    SUMMER,
    coated,
    finished,
    hardware,
    pane,
    panel,
    piece,
    size,
    stone,
    supply,
    upholstery,
    use_of,
    wood,
)

TABLE = BARE.but(piece="table", drawers=1)
SMALL = size(300, 200, 200)
SMALL_DRAWERS = BARE.but(piece="box", drawers=2, stands="table")

ALSO_GETS = {
    "acclimatise: day not known": ("acclimatise", SMALL_DRAWERS.but(delivered=None)),
    "acclimatise: winter is in June down under": (
        "acclimatise",
        SMALL_DRAWERS.but(shop=Shop(country="NZ")),
    ),
    "acclimatise: made wetter than the rooms": (
        "acclimatise",
        SMALL_DRAWERS.figured(air=replace(EVEN_AIR, made_mc_pct=11.0)),
    ),
    "air-dry: the shop states the air": (
        "air-dry",
        DRY.but(climate=None, shop=Shop(climate=DRY.job.climate)),
    ),
    "cure-before-use: day of delivery not known": ("cure-before-use", OILED.but(delivered=None)),
    "cure-before-use: last coat not known": (
        "cure-before-use",
        OILED.figured(finish=(use_of(OILED.job.finishes[0], full_cure_to=None),)),
    ),
    "oily-rags: a wax with linseed in it": (
        "oily-rags",
        WAXED.but(finishes=(coated("paste-wax", product="linseed wax"),)),
    ),
    "oily-rags: a family by another name": ("oily-rags", OILED.but(finishes=(coated("hard wax oil"),))),
    "isocyanate: in the glue": ("isocyanate", piece(wood(), supply("polyurethane glue"))),
    "isocyanate: in the name": ("isocyanate", OILED.but(finishes=(coated("hardwax-oil", product="2K oil"),))),
    "iron-tannin: iron by the part's name": (
        "iron-tannin",
        piece(wood(), hardware("", "steel bracket")),
    ),
    "metal-rust: the metal is in the figures": (
        "metal-rust",
        piece(hardware("", "pull")).figured(hardware=(HardwareItem("pull", 2, 1, "", metal="Wrought iron"),)),
    ),
    "safety-glazing: a door, whatever the figures": ("safety-glazing", piece(pane("left door", "toughened"))),
    "leather: on a handle": ("leather", piece(hardware("leather", "strap"))),
    "tip-over: a light case": ("tip-over", CABINET.figured(mass=Mass(total_kg=13.0))),
    "tip-over: height not known": ("tip-over", CABINET.but(overall=Size())),
    "tip-over: mass not known": ("tip-over", CABINET.figured(mass=Mass())),
    "tip-over: mass not known whole": ("tip-over", CABINET.figured(mass=Mass(total_kg=9, unknown=("top",)))),
    "tip-over: no kind given, but drawers": (
        "tip-over",
        BARE.but(drawers=3, overall=size(500, 400, 900)).figured(mass=Mass(total_kg=20)),
    ),
    "csu-rule: country not known": ("csu-rule", DRESSER.but(shop=Shop())),
    "csu-rule: sent abroad": ("csu-rule", DRESSER.but(shop=Shop(country="CA"), crosses_border=True)),
    "chest-air: sizes not known": ("chest-air", CHEST.but(overall=replace(CHEST.job.overall, width=None))),
    "bunk-law: by the title": ("bunk-law", BARE.but(title="Bunk bed for two")),
    "food-contact: a bowl": ("food-contact", OILED.but(piece="salad bowl")),
    "sharp-display: by its parts": ("sharp-display", piece(wood(name="knife block"))),
    "lead-paint: old paint": ("lead-paint", piece(wood(origin="door panel with old paint"))),
    "insects: old wood": ("insects", BARN),
    "insects: by a tag": ("insects", BARE.but(tags=("live edge",))),
    "ispm15: crosses a border": ("ispm15", BARE.but(crosses_border=True)),
    "lacey: sent abroad from elsewhere": ("lacey", BARE.but(crosses_border=True, shop=Shop(country="GB"))),
    "eudr: sent abroad": ("eudr", BARE.but(crosses_border=True)),
    "case-vapour: lined with felt": (
        "case-vapour",
        piece(wood("sugar-maple"), upholstery("wool felt", "lining"), piece="jewellery box"),
    ),
    "feet-floor: a kind that stands": ("feet-floor", CHAIR.but(stands="")),
    "stone-weight: any slab": ("stone-weight", piece(stone("slate"))),
    "moving-out: a lid": ("moving-out", CHEST),
    "glass-spontaneous: a door, beside a shelf": (
        "glass-spontaneous",
        piece(pane("shelf", "toughened"), pane("door", "toughened")),
    ),
    "sticking: a drawer": ("sticking", BARE.but(drawers=1)),
    "brass-unsaid: only a few pieces are told of": (
        "brass-unsaid",
        piece(hardware("brass"), hardware("brass"), hardware("unlacquered brass")),
    ),
}

STILL_WITHOUT = {
    "treated-wood: with an oil in many words": (
        "treated-wood",
        piece(wood(note="treated with two thin coats of Danish oil"), wood(name="oil-treated rail")),
    ),
    "treated-wood: boards of a deck": ("treated-wood", piece(wood("ipe", material="ipe decking"))),
    "outdoor-grey: a film": ("outdoor-grey", finished("spar-varnish", use="in the garden")),
    "outdoor-grey: beech": ("outdoor-grey", piece(wood("european-beech"), use="in the garden")),
    "isocyanate: an acid hardener": (
        "isocyanate",
        piece(wood(finish="a"), finishes=[coated("conversion-varnish", "a", two_part=True)]),
    ),
    "cure-before-use: what never hardens": ("cure-before-use", finished("mineral-oil", delivered=None)),
    "finish-indoors-only: its maker sells it for outdoors": (
        "finish-indoors-only",
        piece(wood(finish="a"), finishes=[coated("hardwax-oil", "a", exterior=True)], use="in the garden"),
    ),
    "finish-food: it is declared": (
        "finish-food",
        piece(wood(finish="a"), finishes=[coated("hardwax-oil", "a", food_safe=True)], food=True),
    ),
    "acclimatise: June up here": ("acclimatise", SMALL_DRAWERS.but(shop=Shop(country="SE"))),
    "acclimatise: January down under": (
        "acclimatise",
        SMALL_DRAWERS.but(delivered=SUMMER.replace(month=1), shop=Shop(country="AU")),
    ),
    "tip-over: a table with a drawer": ("tip-over", TABLE.but(overall=size(1800, 900, 750))),
    "tip-over: stands on a table": ("tip-over", CABINET.but(stands="table")),
    "csu-rule: a tool chest": ("csu-rule", DRESSER.but(piece="tool chest")),
    "csu-rule: too small to enclose it": ("csu-rule", DRESSER.but(overall=size(300, 250, 700))),
    "chest-air: a box": ("chest-air", CHEST.but(overall=SMALL)),
    "safety-glazing: a low shelf": ("safety-glazing", piece(pane("shelf"), at_risk=["shelf"])),
    "safety-glazing: plastic": ("safety-glazing", piece(pane("door", "acrylic"))),
    "glass-spontaneous: a shelf has its own instruction": (
        "glass-spontaneous",
        piece(pane("shelf", "toughened"), pane("door", "laminated")),
    ),
    "glass-shelf-load: a shelf pin": ("glass-shelf-load", piece(wood(), hardware("brass", "shelf pin"))),
    "iron-tannin: magnets": ("iron-tannin", piece(wood(), hardware("neodymium magnet"))),
    "solvent-vapour: water-borne": ("solvent-vapour", finished("water-lacquer")),
    "sliding-track: a hinged door": ("sliding-track", BARE.but(doors=1)),
    "electrical: a leaded light": ("electrical", piece(pane("leaded light", "leaded"))),
    "insects: no sapwood": ("insects", piece(wood(origin="free of sapwood"))),
    "sharp-display: a knife hinge": ("sharp-display", piece(wood(), hardware("brass", "knife hinge"))),
    "epoxy-heat: only glue": ("epoxy-heat", piece(wood(), supply("epoxy adhesive"))),
    "outdoor-care: a garden room": ("outdoor-care", BARE.but(use="in a garden room")),
    "salvage: hardware from an old house": ("salvage-metal", piece(wood(), hardware("reclaimed brass"))),
    "brass-unsaid: most pieces are told of": (
        "brass-unsaid",
        piece(hardware("brass"), hardware("unlacquered brass"), hardware("brass", note="unlacquered")),
    ),
    "inside-finish: one part is outside": (
        "inside-finish",
        LINED.but(parts=(*LINED.job.parts, wood(name="Knob", finish="b"))),
    ),
    "inside-finish: no part is for the client": (
        "inside-finish",
        LINED.but(parts=tuple(replace(part, for_client=False) for part in LINED.job.parts)),
    ),
    "joints-year: a bench plane till": (
        "joints-year",
        BARE.but(piece="cabinet", title="Bench plane cabinet"),
    ),
    "formaldehyde-records: no sheets": ("formaldehyde-records", BARE.but(shop=Shop(country="US"))),
    "cites: not listed": ("protected-wood", piece(wood("sapele"))),
    "candle-heat: a chair": ("candle-heat", CHAIR),
}


@pytest.mark.parametrize("case", ALSO_GETS)
def test_other_ways_to_call_for_it(case):
    key, made = ALSO_GETS[case]
    assert key in made.keys


@pytest.mark.parametrize("case", STILL_WITHOUT)
def test_what_only_looks_like_it(case):
    key, made = STILL_WITHOUT[case]
    assert key not in made.keys


def test_a_fact_names_only_what_the_client_may_read_unless_the_maker_asks():
    made = piece(wood(), wood("black-walnut", "hidden rail", for_client=False))
    assert made.facts.named("wood.solid", public=True) == ("white oak",)
    assert made.facts.named("wood.solid", public=False) == ("white oak", "black walnut")


EVERY_KIND = tuple(BARE.but(piece=kind.name) for kind in kinds().values())
ASKED_BY_THE_PIECE = ("kind.", "piece.", "has.", "reaches.", "part.", "glass.", "hangs", "use.")
"""Facts that say what a piece is: any rule may ask them, and some none does yet."""


def test_every_fact_is_found_on_some_piece_and_all_but_what_it_is_named_by_a_rule():
    pieces = [made for pair in CASES.values() for made in pair]
    pieces += [made for _, made in (*ALSO_GETS.values(), *STILL_WITHOUT.values())]
    pieces += [finished(family.key) for family in tables.finishes()]
    pieces += [piece(panel("door panel")), piece(panel("back"), piece="armchair")]
    found = {fact for made in (*pieces, *EVERY_KIND, *SEATED) for fact in made.facts}
    assert found == set(vocabulary())
    named = {fact for rule in rules() for fact in rule.facts}
    named |= {fact for facts in table().made_of.values() for fact in facts}
    named |= {fact for entry in table().entries for fact in entry.facts}
    assert [fact for fact in found - named if not fact.startswith(ASKED_BY_THE_PIECE)] == []


SEATED = (
    BARE.but(near=("stove", "hob")),
    BARE.but(piece="sideboard", stands="wall").figured(mass=Mass(total_kg=1.0)),
    piece(pane(), piece="cabinet"),
    piece(pane("side pane"), piece="cabinet", stands="floor", overall=size(900, 400, 1000)),
    piece(pane(), piece="picture frame").figured(mass=Mass(total_kg=1.0)),
)


def test_a_deckel_is_the_top_of_a_case_with_doors_and_the_lid_of_a_box():
    named = piece(wood(name="Deckel")).but(piece="Schrank", stands="floor")
    assert "part.lid" not in set(named.but(doors=2).facts)
    assert "part.lid" in set(named.but(piece="Kiste", doors=0, drawers=0).facts)
    assert "part.lid" in set(named.but(doors=2, title="Schrank mit Klappe").facts)
