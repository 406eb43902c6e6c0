"""What a piece must never be told, and what it must: pieces that were once taken for something else."""

from dataclasses import replace

import pytest

from buildbook.job.holding_model import Hanging
from buildbook.job.shop_model import Shop
from buildbook.job.toml.keys import NEAR
from buildbook.summary.model import Mass
from tests.care.pieces import (
    SUMMER,
    coated,
    finished,
    hardware,
    pane,
    panel,
    piece,
    size,
    stone,
    upholstery,
    wood,
)

WINTER = SUMMER.replace(month=1)
BY_TIPPING = {"tip-over", "lean-fix", "tip-fixing-year"}
BY_HANGING = {"wall-hanging-fixings", "fixings-year", "wall-take-down"}
BY_ROOM = {"rh-band", "direct-sun", "acclimatise", "storage", "moving-out", "feet-floor"}
BY_CUPS = {"water-weak", "water-fair", "heat-weak", "candle-heat", "plasticiser-marks"}
LID = {"heavy-lid", "chest-lid", "lid-stay", "chest-air"}
OF_CHILDREN = {
    "cribs-out-of-scope", "cot-law", "bunk-law", "high-chair-law", "tower-law", "child-furniture-law", "toy-law",
}  # fmt: skip


def is_fixed(told):
    """Whether these instructions have it fixed to a wall, once, and the fixing looked at."""
    return "tip-fixing-year" in told and len(told & {"tip-over", "lean-fix"}) == 1


def made(kind, *parts, family="shellac", **job):
    """An oak piece of a kind under a finish that everything marks, handed over in winter."""
    facts = {"piece": kind, "delivered": WINTER, "near": (), **job}
    return finished(family, *parts, **facts)


# -- T1: doors of rooms, and what is built in --------------------------------------------------------


@pytest.mark.parametrize("name", ["room door", "interior door", "barn door", "Zimmertür", "Haustür"])
def test_a_door_of_a_room_is_no_cabinet(name):
    told = made(name, doors=1, overall=size(860, 40, 1985)).figured(mass=Mass(total_kg=32)).keys
    assert not told & (BY_TIPPING | BY_HANGING | {"moving-out", "drawer-wax", "acclimatise", "storage"})
    assert "hinge-screws" in told


@pytest.mark.parametrize(
    "job",
    [
        {"piece": "fitted wardrobe"},
        {"piece": "wardrobe", "title": "Built-in wardrobe under the eaves"},
        {"piece": "bookcase", "tags": ("built-in",)},
        {"piece": "Einbauschrank"},
        {"piece": "kitchen"},
    ],
    ids=lambda job: " ".join(map(str, job.values())),
)
def test_what_is_built_in_is_not_strapped_or_carried(job):
    told = made("", **{"overall": size(2400, 600, 2300), "doors": 4, "children": True, **job}).keys
    assert not told & (BY_TIPPING | {"moving-out", "storage", "feet-floor"})


@pytest.mark.parametrize(
    "title", ["Bookcase built in oak", "Bookcase for an alcove", "Bookcase with hand-fitted doors"]
)
def test_what_is_made_of_oak_is_not_built_into_a_house(title):
    assert made("bookcase", title=title, overall=size(900, 300, 1900)).keys >= {"tip-over", "tip-fixing-year"}


@pytest.mark.parametrize("name", ["shelf", "wall cabinet"])
def test_what_mostly_hangs_tips_where_it_stands(name):
    assert made(name, stands="floor", overall=size(900, 300, 1500)).keys >= {"tip-over", "tip-fixing-year"}


# -- T2, T3, T4: what can be pulled over -------------------------------------------------------------

TALL = [
    ("TV stand", size(1800, 450, 700)),
    ("TV-Bank", size(1800, 450, 720)),
    ("aquarium stand", size(1200, 500, 800)),
    ("Aquarienschrank", size(1200, 500, 800)),
    ("leaning mirror", size(700, 40, 1900)),
    ("cheval mirror", size(600, 500, 1650)),
    ("Standspiegel", size(700, 40, 1900)),
    ("coat stand", size(500, 500, 1800)),
    ("Garderobenständer", size(500, 500, 1800)),
    ("blanket ladder", size(500, 60, 1800)),
    ("longcase clock", size(450, 250, 2100)),
    ("Standuhr", size(450, 250, 2100)),
    ("wine rack", size(600, 300, 1500)),
    ("bookcase", size(900, 300, 1900)),
    ("Bücherregal", size(900, 300, 1900)),
    ("wardrobe", size(1200, 600, 2000)),
    ("folding screen", size(1500, 40, 1700)),
]


@pytest.mark.parametrize(("name", "overall"), TALL, ids=[name for name, _ in TALL])
@pytest.mark.parametrize("mass_kg", [9.0, 40.0])
def test_what_is_tall_and_stands_free_tips_whatever_it_weighs(name, overall, mass_kg):
    told = made(name, overall=overall, children=True).figured(mass=Mass(total_kg=mass_kg)).keys
    assert is_fixed(told)
    assert "joints-year" not in told


def test_a_mirror_that_stands_leans_and_one_that_hangs_does_not():
    standing = made("mirror", stands="floor", overall=size(700, 40, 1900))
    assert standing.facts.holds("piece.leans")
    assert is_fixed(standing.keys)
    assert not made("wall mirror", overall=size(700, 40, 900)).keys & BY_TIPPING


def test_a_low_sideboard_tips_where_children_live():
    low = made("sideboard", overall=size(1600, 450, 600))
    assert not low.keys & BY_TIPPING
    assert is_fixed(low.but(children=True).keys)


@pytest.mark.parametrize(
    "name", ["dining table", "desk", "dining chair", "bed", "blanket chest", "workbench"]
)
def test_what_stands_by_its_shape_is_not_fixed_to_a_wall(name):
    assert not made(name, overall=size(1400, 800, 760), children=True, drawers=2).keys & BY_TIPPING


# -- T5, T6: children -------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["cot", "crib", "cradle", "Gitterbett", "Wiege"])
def test_the_joints_of_a_cot_are_looked_at(name):
    assert "child-check" in made(name).keys


@pytest.mark.parametrize(
    "name",
    [
        "high bed",
        "loft bed",
        "learning tower",
        "children's chair",
        "child's table",
        "play kitchen",
        "rattle",
        "Hochbett",
        "Lernturm",
        "Kinderstuhl",
        "Kinderküche",
        "Laufstall",
        "Wickelkommode",
    ],
)
def test_what_is_made_for_a_child_has_rules_of_its_own(name):
    assert len(made(name).keys & OF_CHILDREN) == 1


def test_a_bed_where_children_live_is_not_a_child_s():
    assert not made("bed", children=True).keys & OF_CHILDREN


# -- T7, T15: lids ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "name", ["jewellery box", "humidor", "urn", "pencil box", "Schatulle", "Schmuckkästchen"]
)
def test_nobody_climbs_into_a_small_box(name):
    told = made(name, wood(name="lid"), children=True).keys
    assert not told & LID


def test_a_box_as_big_as_a_chest_is_one():
    assert "chest-air" in made("box", wood(name="lid"), overall=size(900, 500, 500)).keys


@pytest.mark.parametrize("name", ["toy chest", "blanket chest", "storage bench", "Truhe", "Spielzeugkiste"])
def test_a_child_fits_into_a_chest(name):
    assert made(name, wood(name="lid"), overall=size(1000, 450, 500)).keys >= {"chest-air", "chest-lid"}


def test_a_lidded_chest_for_clothes_is_outside_the_us_rule_for_clothing_storage():
    chest = made("chest", wood(name="lid"), title="Chest for clothes", shop=Shop(country="US"))
    chest = chest.but(overall=size(1200, 550, 700)).figured(mass=Mass(total_kg=45))
    assert "csu-rule" not in chest.keys
    dresser = chest.but(piece="dresser", title="Dresser", drawers=6)
    assert "csu-rule" in dresser.keys


# -- T8: stone --------------------------------------------------------------------------------------


def slab(length, width, thickness, name):
    sizes = zip(
        ("length", "width", "thickness"), size(length, width, thickness).__dict__.values(), strict=True
    )
    return replace(stone("slate", name), **dict(sizes))


def test_an_inlay_of_slate_is_no_heavy_top():
    assert "stone-weight" not in made("box", slab(30, 30, 3, "Dot")).keys
    assert "stone-weight" not in made("table", stone("slate", "Slate inlay")).keys
    assert "stone-weight" in made("table", slab(420, 300, 20, "Slab")).keys
    assert "stone-weight" in made("table", stone("slate", "Slab")).keys


# -- T9: lamps, and what runs on electricity ---------------------------------------------------------


@pytest.mark.parametrize("name", ["table lamp", "floor lamp", "pendant", "Tischlampe", "Stehleuchte"])
def test_a_lamp_is_no_table(name):
    told = made(name).keys
    assert not told & (BY_CUPS | {"joints-year", "storage", "rh-band"})
    assert told >= {"electrical", "electric-year"}


@pytest.mark.parametrize(
    "row",
    [
        hardware("fabric-covered flex", "flex"),
        hardware("cord set with switch", "cord set"),
        hardware("3-pin plug", "plug top"),
        hardware("steel lifting column", "leg"),
        hardware("linear actuator", "lift"),
        hardware("Textilkabel", "Kabel"),
        hardware("Hubsäule", "Bein"),
    ],
    ids=lambda row: row.material,
)
def test_what_runs_on_electricity_is_known(row):
    assert "electrical" in made("desk", row).keys


def test_a_desk_with_a_motor_is_known_by_its_title_and_a_wooden_plug_is_no_plug():
    assert "electrical" in made("desk", title="Sit-stand desk with motor").keys
    assert "electrical" not in made("desk", hardware("oak", "plug over a screw")).keys


# -- T10: what is no furniture ----------------------------------------------------------------------

NOT_FURNITURE = ["spoon", "cutting board", "bowl", "toy car", "Löffel", "Schneidebrett", "Schale", "rattle"]
FURNITURE_WITHOUT_CUPS = [
    "picture frame",
    "mirror",
    "cot",
    "bed",
    "table lamp",
    "chair",
    "Bilderrahmen",
    "Bett",
    "Stuhl",
]


@pytest.mark.parametrize("name", NOT_FURNITURE)
def test_what_is_no_furniture_gets_no_word_of_furniture(name):
    told = made(name, near=("window", "radiator")).keys
    assert not told & (BY_CUPS | BY_ROOM | BY_TIPPING | BY_HANGING | {"near-window"})


@pytest.mark.parametrize("name", FURNITURE_WITHOUT_CUPS)
@pytest.mark.parametrize("family", ["shellac", "hardwax-oil", "nitrocellulose-lacquer", "soap"])
def test_where_nobody_sets_down_a_cup_none_is_spoken_of(name, family):
    assert not made(name, family=family).keys & BY_CUPS


@pytest.mark.parametrize("name", ["chair", "bench", "stool", "cot", "Stuhl", "Hocker"])
def test_no_humidity_meter_and_no_week_to_settle_for_a_seat_or_a_cot(name):
    assert not made(name).keys & {"rh-band", "acclimatise", "acclimatise-fixed"}


@pytest.mark.parametrize("name", ["dining table", "sideboard", "desk", "Esstisch", "Kommode"])
def test_where_cups_stand_they_are_spoken_of(name):
    assert made(name).keys >= {
        "water-weak",
        "heat-weak",
        "plasticiser-marks",
        "rh-band",
        "sun-patches",
    }


# -- T11: outdoors ----------------------------------------------------------------------------------

OUTSIDE = [
    {"piece": "garden bench"},
    {"piece": "Gartenbank"},
    {"piece": "bench", "title": "Garden bench in oak"},
    {"piece": "bench", "use": "outdoors, in a public garden"},
    {"piece": "table", "use": "indoors and outdoors"},
    {"piece": "Tisch", "use": "drinnen und draußen"},
    {"piece": "picnic table"},
]


@pytest.mark.parametrize("job", OUTSIDE, ids=lambda job: " ".join(job.values()))
def test_what_stands_outside_is_not_for_indoors_only(job):
    told = made("", **job).keys
    assert "outdoor-care" in told
    indoors = {"rh-band", "direct-sun", "near-window", "acclimatise", "storage", "feet-floor"}
    assert not told & (indoors | (BY_CUPS - {"candle-heat"}))


def test_a_garden_bench_that_lives_indoors_is_a_bench_of_a_room():
    bench = made("garden bench", use="indoors, in the hall")
    assert not bench.facts.holds("use.outdoors")
    assert {"storage", "direct-sun"} <= bench.keys


# -- T12: wheels -------------------------------------------------------------------------------------


def test_only_wheels_that_lock_are_to_be_locked():
    assert "castors" not in made("toy car", hardware("beech", "wheel with brake")).keys
    assert "castors" not in made("office chair", hardware("nylon", "castor with brake")).keys
    assert "castors" not in made("trolley", hardware("steel", "castor")).keys
    assert "castors" in made("trolley", hardware("steel", "castor with brake")).keys
    assert "castors" in made("Servierwagen", hardware("Stahl", "Lenkrolle mit Feststeller")).keys


# -- T13, T14, T16, T18: materials ------------------------------------------------------------------


@pytest.mark.parametrize(
    "row",
    [
        wood(material="oak treated with oil"),
        wood(material="European oak, treated with hardwax oil"),
        wood(material="oak, treated with hard wax oil"),
        wood(material="larch treated with oil and wax"),
        wood(material="mit Öl behandelte Eiche"),
        wood(material="ipe decking"),
        wood("ipe", "Decking board"),
        wood(material="Terrassendielen aus Ipe"),
    ],
    ids=lambda row: row.material,
)
def test_oiled_wood_and_decking_are_not_preserved(row):
    assert "treated-wood" not in piece(row, piece="garden bench").keys


def test_who_sleeps_is_no_railway_sleeper():
    assert "treated-wood" not in piece(wood(), piece="sofa", title="Sleeper sofa").keys
    assert "treated-wood" not in piece(wood(), piece="mid sleeper").keys
    assert "creosote" not in piece(wood(), piece="mid sleeper", title="Sleeper sofa").keys
    assert "creosote" in piece(wood(material="railway sleeper"), piece="bench").keys


@pytest.mark.parametrize("material", ["non-magnetic stainless steel", "nicht magnetischer Edelstahl"])
def test_what_is_not_magnetic_is_no_magnet(material):
    told = piece(wood(), hardware(material, "handle"), piece="desk").keys
    assert not told & {"magnets-children", "magnets-implants"}


@pytest.mark.parametrize("species", ["european-larch", "sapele"])
def test_some_woods_blacken_with_iron_only_outdoors(species):
    bench = piece(wood(species), hardware("steel", "arm strap"), piece="garden bench")
    assert "iron-tannin" in bench.keys
    assert "iron-tannin" not in bench.but(piece="bench").keys


def test_a_spoon_of_a_wood_that_makes_people_ill_says_so():
    assert "sensitiser-mouth" in piece(wood("cocobolo"), piece="spoon").keys
    assert "sensitiser-mouth" in piece(wood("cocobolo"), piece="rattle").keys
    assert "sensitiser-mouth" not in piece(wood("cocobolo"), piece="table").keys
    assert "sensitiser-mouth" not in piece(wood("sugar-maple"), piece="spoon").keys


# -- T17: what it stands near ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("place", "fact"),
    [
        ("hob", "near.hob"),
        ("oven", "near.hob"),
        ("stove", "near.fire"),
        ("fireplace", "near.fire"),
        ("radiator", "near.heat"),
        ("heater", "near.heat"),
        ("underfloor heating", "near.warm-floor"),
        ("cellar", "near.damp"),
        ("laundry", "near.damp"),
        ("sink", "near.damp"),
        ("conservatory", "near.sun"),
    ],
)
def test_what_it_stands_near_can_be_written_and_is_known(place, fact):
    assert place in NEAR
    near = {found for found in made("table", near=(place,)).facts if found.startswith("near.")}
    assert near == {fact}


# -- T19, T20, T21, T22 -----------------------------------------------------------------------------


def test_a_light_frame_needs_no_wall_of_masonry():
    frame = made("picture frame", hanging=Hanging("wire"))
    assert not frame.figured(mass=Mass(total_kg=1.0)).keys & BY_HANGING
    assert frame.figured(mass=Mass(total_kg=14.0)).keys >= BY_HANGING
    assert made("wall shelf").figured(mass=Mass(total_kg=1.0)).keys >= BY_HANGING


@pytest.mark.parametrize("name", ["wall bed", "fold-down bed", "Schrankbett", "Klappbett"])
def test_fingers_are_caught_in_a_wall_bed(name):
    bed = made(name, hardware("steel", "gas strut"), overall=size(1600, 450, 2200))
    assert "wall-bed-use" in bed.keys
    assert not bed.keys & {"wall-take-down", "fixings-year"}
    assert bed.facts.holds("part.stay")


@pytest.mark.parametrize(
    "family",
    ["oil-polyurethane", "water-polyurethane", "nitrocellulose-lacquer", "water-lacquer", "shellac"],
)
def test_who_is_told_to_leave_a_finish_to_the_maker_is_not_warned_of_rags(family):
    client = {item.key for item in made("table", family=family).care if item.for_client}
    assert not client & {"oily-rags", "solvent-vapour"}


def test_the_maker_is_still_warned_and_whoever_oils_at_home_too():
    assert "oily-rags-shop" in made("table", family="oil-polyurethane").keys
    oiled = {item.key for item in made("table", family="hardwax-oil").care if item.for_client}
    assert "oily-rags" in oiled


def test_fingers_are_not_caught_in_every_drawer():
    assert "finger-pinch" not in made("desk", drawers=3).keys
    assert "finger-pinch" in made("desk", drawers=3, children=True).keys
    assert "folding-leaf" in made("table", tags=("folding",)).keys


# -- what is hidden, and what only looks like upholstery ---------------------------------------------


@pytest.mark.parametrize(
    "name", ["wood screw", "bolt", "table clip", "Spanplattenschraube", "Möbelverbinder"]
)
def test_hidden_steel_is_not_waxed(name):
    told = piece(wood("sugar-maple"), hardware("steel", name), piece="table").keys
    assert not told & {"metal-rust", "metal-stable", "metal-plated"}


@pytest.mark.parametrize(
    "row",
    [
        hardware("brass knob, M4 bolt", "Knob"),
        hardware("brass butt hinge with screws", "Hinge"),
        hardware("brass", "Knob", note="fixed with a screw from inside"),
        hardware("brass", "Flush bolt"),
    ],
    ids=lambda row: f"{row.name}: {row.material}{row.note}",
)
def test_what_is_fixed_by_a_screw_is_not_hidden(row):
    assert "brass-unsaid" in piece(wood("sugar-maple"), row, piece="desk").keys


def test_what_a_note_says_is_out_of_sight_is_hidden():
    row = hardware("steel", "Bracket", note="hidden behind the apron")
    assert "metal-rust" not in piece(wood("sugar-maple"), row, piece="desk").keys


def test_hidden_steel_still_blackens_oak_and_a_handle_is_still_waxed():
    assert "iron-tannin" in piece(wood(), hardware("steel", "wood screw"), piece="table").keys
    assert "metal-rust" in piece(wood(), hardware("steel", "handle"), piece="desk").keys


@pytest.mark.parametrize(
    "row", [upholstery("felt", "Glide"), upholstery("cork", "Pad"), upholstery("Filz", "Möbelgleiter")]
)
def test_a_glide_is_no_upholstery(row):
    assert not piece(wood(), row, piece="guitar stand").keys & {"cloth", "padding", "upholstery-fire"}


def test_a_seat_pad_is_upholstery():
    assert piece(wood(), upholstery("wool cloth", "Seat pad"), piece="chair").keys >= {"cloth", "padding"}


# -- the job's own words win ------------------------------------------------------------------------


def test_what_the_job_counts_is_what_there_is():
    assert "drawer-wax" in made("chest of drawers").keys
    assert "drawer-wax" not in made("chest of drawers", drawers=0).keys
    assert "hinge-screws" not in made("wardrobe", doors=0).keys
    assert "hinge-screws" in made("bookcase", doors=2).keys


def test_where_it_stands_is_what_the_job_says():
    assert made("wall shelf").keys >= BY_HANGING
    standing = made("wall shelf", stands="floor", overall=size(400, 300, 300)).keys
    assert not standing & BY_HANGING
    assert not made("cabinet", stands="table").keys & BY_TIPPING


def test_a_case_that_is_too_high_for_cups_has_no_top():
    assert made("cabinet", overall=size(900, 400, 800)).facts.holds("reaches.cups")
    assert not made("cabinet", overall=size(900, 400, 2000)).facts.holds("reaches.cups")


def test_an_unknown_kind_is_told_only_what_the_job_itself_says():
    thing = made("contraption")
    assert thing.facts.holds("kind.unknown")
    assert not thing.keys & (BY_CUPS | BY_ROOM | BY_TIPPING | BY_HANGING)
    standing = made("contraption", stands="floor", drawers=3, overall=size(500, 400, 1200))
    assert is_fixed(standing.keys)
    assert standing.keys >= {"drawer-wax", "direct-sun", "storage"}


def test_the_glass_of_a_piece_is_where_its_kind_has_it():
    def at(kind, row, **job):
        return {fact for fact in piece(wood(), row, piece=kind, **job).facts if fact.startswith("glass.")}

    assert "glass.door" in at("room door", pane())
    assert "glass.top" in at("coffee table", pane())
    assert "glass.shelf" in at("bookcase", pane("Pane"))
    assert "glass.mirror" in at("wall mirror", pane(kind="mirror"))
    assert "glass.door" in at("display cabinet", pane("Pane"), doors=1)
    assert "glass.unsaid" in at("display cabinet", pane("Pane"))
    assert "glass.unsaid" not in at("display cabinet", pane("Side pane"))


def test_a_pane_is_low_by_the_sizes_of_the_piece():
    low = piece(wood(), pane("Side pane"), piece="display cabinet", overall=size(900, 400, 1000))
    assert "safety-glazing" in low.keys
    high = low.but(overall=size(900, 400, 2000))
    assert "safety-glazing" not in high.keys
    assert low.facts.holds("glass.low")


def test_a_panel_of_ply_outdoors_is_not_aired_in_a_room():
    assert (
        "formaldehyde-panels" not in piece(panel(), piece="garden bench", finishes=[coated("shellac")]).keys
    )
