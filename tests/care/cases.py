"""For every rule a piece that calls for it and one, as like it as can be, that does not."""

from dataclasses import replace

from buildbook.job.holding_model import Hanging
from buildbook.job.shop_model import Climate, Shop
from buildbook.summary.model import Mass
from tests.care.pieces import (
    BARE,
    EVEN_AIR,
    LONG_CURED,
    NO_WOOD,
    SUMMER,
    coated,
    finished,
    hardware,
    moving,
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

OILED, VARNISHED, POLISHED, WAXED = map(finished, ("hardwax-oil", "oil-polyurethane", "shellac", "paste-wax"))
SOAPED, PAINTED, WATER_LACQUERED = map(finished, ("soap", "milk-paint", "water-lacquer"))
TUNG, DANISH, LINSEED = map(finished, ("pure-tung-oil", "oil-varnish-blend", "boiled-linseed-oil"))
NITRO, WIPED, WATER_POLY = map(finished, ("nitrocellulose-lacquer", "wiping-varnish", "water-polyurethane"))
RAW, MINERAL, DECKING, SPAR = map(
    finished, ("raw-linseed-oil", "mineral-oil", "exterior-oil", "spar-varnish")
)
CONVERSION, TWO_PART, FRENCH = map(finished, ("conversion-varnish", "two-part-hardwax-oil", "french-polish"))
WAXED_SHELLAC, LIMED, LASUR = map(finished, ("waxed-shellac", "limed-finish", "exterior-stain"))
ACRYLIC, LINSEED_PAINT, LIMEWASH, STAINED = map(
    finished, ("acrylic-paint", "linseed-paint", "lime-paint", "dye-stain")
)
SECRET = finished("other")
BODY = OILED.job.finishes[0]


def layered(top, beneath):
    """A board with one finish over another."""
    return piece(wood(finish="top"), finishes=[coated(top, "top", over="base"), coated(beneath, "base")])


CURING = OILED.figured(finish=(use_of(BODY, full_cure_to=SUMMER.replace(day=30)),))
EARLY = OILED.figured(
    finish=(use_of(BODY, light_use_from=SUMMER.replace(day=22), full_cure_to=SUMMER.replace(day=30)),)
)
CURED = OILED.figured(finish=(use_of(BODY, full_cure_to=LONG_CURED),))

LINED = piece(
    wood(name="Top", finish="a"),
    wood("sycamore-maple", "Drawer side", finish="b"),
    panel("Drawer bottom", finish="b"),
    finishes=[coated("hardwax-oil", "a"), coated("shellac", "b")],
    drawers=1,
)
"""Oiled outside, shellac in the drawers."""

IN_US, IN_EU = Shop(country="United States"), Shop(country="DE")
TABLE = BARE.but(piece="table")
OILED_TABLE, WAXED_TABLE, SOAPED_TABLE = (made.but(piece="table") for made in (OILED, WAXED, SOAPED))
STEEL, BRASS, STAINLESS = hardware("mild steel hinge"), hardware("brass"), hardware("stainless steel")
MAPLE = wood("sugar-maple")
CABINET = piece(wood(), panel(), piece="cabinet", stands="floor", overall=size(1200, 420, 800), mass_kg=40)
DRESSER = piece(
    wood(),
    piece="chest of drawers",
    drawers=4,
    overall=size(900, 450, 1000),
    mass_kg=45,
    shop=Shop(country="US"),
)
HUNG = piece(wood(), piece="cabinet", hanging=Hanging("cleat"))
CHEST = piece(wood(), wood(name="lid"), piece="blanket chest", overall=size(1000, 450, 450))
DESK_WITH_FLAP = piece(wood(), wood(name="fall-front"), piece="desk")
STAYED = piece(wood(), hardware("brass", "lid stay"), piece="desk", title="Desk with a fall-front")
BOX = piece(
    wood("sugar-maple"), wood("sugar-maple", "lid"), piece="jewellery box", overall=size(250, 180, 90)
)
MAGNETS = piece(wood(), hardware("neodymium magnet", "door catch"))
TIGHT = BARE.figured(movement=(moving(2, "board", ok=False),))
DRY = piece(wood(), piece="table", climate=Climate(25, 55, 21)).figured(air=replace(EVEN_AIR, rh_low_pct=25))
DAMP = piece(wood(), piece="table", climate=Climate(40, 70, 21)).figured(
    air=replace(EVEN_AIR, rh_high_pct=70)
)
ASSUMED_AIR = TABLE.figured(air=replace(EVEN_AIR, rh_low_pct=25, rh_high_pct=70))
DRAWERS, DOORS, SLIDING = BARE.but(drawers=2), BARE.but(doors=2), BARE.but(doors=2, tags=("sliding doors",))
ON_SLIDES = piece(wood(), hardware("zinc-plated steel", "drawer slide"), drawers=2)
CHAIR = BARE.but(piece="dining chair")
COCOBOLO = piece(wood("cocobolo"))
COT, BUNK, HIGH_CHAIR, TOWER = (
    BARE.but(piece=kind) for kind in ("cot", "bunk bed", "high chair", "learning tower")
)
CHILDS_CHAIR, TOY, CRADLE = (BARE.but(piece=kind) for kind in ("children's chair", "toy car", "cradle"))
BOOKCASE = BARE.but(piece="bookcase", overall=size(900, 300, 1900), stands="floor")
SWING, WALL_BED = BARE.but(piece="porch swing", stands="ceiling"), BARE.but(piece="Murphy bed")
BOARD, BOWL, SPOON = (BARE.but(piece=kind) for kind in ("cutting board", "salad bowl", "wooden spoon"))
ROOM_DOOR, KITCHEN = BARE.but(piece="interior door"), BARE.but(piece="kitchen")
TABLE_LAMP, AQUARIUM = BARE.but(piece="table lamp"), BARE.but(piece="aquarium stand")
GARDEN_TABLE, FRAME = BARE.but(piece="garden table"), BARE.but(piece="picture frame", stands="wall")
SLEEPER, PADDED = piece(wood(material="railway sleeper")), piece(wood(), upholstery("foam"), piece="armchair")
GLASS_TABLE = piece(wood("sugar-maple"), pane("table top", "toughened"), piece="coffee table")
IN_JANUARY = {"delivered": SUMMER.replace(month=1)}
BARN = piece(wood(origin="floorboards reclaimed from a mill"))
LAMP = piece(wood(), hardware("LED strip light", "light"))
RIVER = piece(wood(), tags=("river table",), title="Table with an epoxy river")

CASES = {
    # first days
    "too-soon": (EARLY, CURING),
    "acclimatise": (BARE.but(drawers=1, stands="table", **IN_JANUARY), BARE.but(drawers=1, stands="table")),
    "acclimatise-fixed": (
        CABINET.but(doors=2, **IN_JANUARY),
        BARE.but(drawers=1, stands="table", **IN_JANUARY),
    ),
    "cure-before-use": (CURING, CURED),
    "stand-level": (piece(panel(), doors=1, stands="floor"), piece(panel(), doors=1, stands="wall")),
    # each week
    "clean-oiled": (TUNG, OILED),
    "clean-hardwax-oil": (OILED, TUNG),
    "clean-varnish": (WATER_LACQUERED, NITRO),
    "clean-shellac-lacquer": (NITRO, WATER_LACQUERED),
    "clean-wax": (WAXED, OILED),
    "clean-open-paint": (PAINTED, ACRYLIC),
    "clean-paint": (ACRYLIC, PAINTED),
    "clean-food-oil": (MINERAL, TUNG),
    "clean-exterior-oil": (DECKING, TUNG),
    "clean-exterior-film": (SPAR, VARNISHED),
    "clean-colour": (STAINED, layered("hardwax-oil", "dye-stain")),
    "clean-other": (SECRET, VARNISHED),
    "clean-bare": (BARE, SOAPED),
    "clean-soap": (SOAPED, BARE),
    "water-weak": (SOAPED_TABLE, OILED_TABLE),
    "water-fair": (OILED_TABLE, SOAPED_TABLE),
    "heat-weak": (WAXED_TABLE, DANISH.but(piece="table")),
    "ammonia-silicone": (VARNISHED, NO_WOOD),
    "alcohol-shellac": (POLISHED, NITRO),
    "alcohol-lacquer": (NITRO, POLISHED),
    "plasticiser-marks": (NITRO.but(piece="bookcase"), WATER_POLY.but(piece="bookcase")),
    "iron-tannin": (piece(wood(), STEEL), piece(MAPLE, STEEL)),
    "tannin-wood": (piece(wood(), STAINLESS), piece(wood(), STEEL)),
    "candle-heat": (TABLE, CHAIR),
    "stone-marble": (piece(stone("limestone")), piece(stone("granite"))),
    "stone-hard": (piece(stone("granite")), piece(stone("slate"))),
    "stone-slate": (piece(stone("slate")), piece(stone("granite"))),
    "stone-resin": (piece(stone("quartz-composite")), piece(stone("solid-surface"))),
    "stone-tile": (piece(stone("ceramic-tile")), piece(stone("granite"))),
    "glass-clean": (piece(pane()), piece(pane(kind="acrylic"))),
    "mirror-clean": (piece(pane(kind="safety-mirror")), piece(pane())),
    "leaded-clean": (piece(pane(kind="leaded")), piece(pane())),
    "plastic-clean": (piece(pane(kind="polycarbonate")), piece(pane())),
    "leather": (piece(upholstery("saddle leather")), piece(upholstery("leatherette"))),
    "finish-unsaid": (piece(wood()), BARE),
    "cloth": (piece(upholstery("wool cloth")), piece(upholstery("leather"))),
    "lining": (BOX.but(parts=(upholstery("wool felt"),)), CHAIR.but(parts=(upholstery("wool felt"),))),
    "woven-seat": (piece(upholstery("Danish cord")), piece(upholstery("cane"))),
    "woven-cane": (piece(upholstery("cane")), piece(upholstery("rush"))),
    "stone-solid": (piece(stone("solid-surface")), piece(stone("quartz-composite"))),
    "stone-sintered": (piece(stone("sintered-stone")), piece(stone("granite"))),
    "stone-cement": (piece(stone("concrete")), piece(stone("marble"))),
    "board-wash": (BOARD, BOWL),
    "board-worn": (BOARD, SPOON),
    "bowl-wash": (BOWL, BOARD),
    "spoon-wash": (SPOON, BOWL),
    "kitchen-wet": (KITCHEN, TABLE),
    "basin-wet": (BARE.but(piece="washstand"), BARE.but(piece="bath board")),
    "bath-ware-dry": (BARE.but(piece="bath board"), BARE.but(piece="washstand")),
    "aquarium-water": (AQUARIUM, TABLE),
    "plant-water": (BARE.but(piece="plant stand"), TABLE),
    "humidor": (BOX.but(title="Humidor in maple"), BOX),
    "instrument-pads": (BARE.but(piece="guitar stand"), BARE.but(piece="coat stand")),
    "floor-wet": (CHAIR, CHAIR.but(piece="garden chair")),
    # metal
    "brass-unlacquered": (piece(hardware("unlacquered brass")), piece(hardware("lacquered brass"))),
    "brass-lacquered": (
        piece(hardware("brass", note="lacquered")),
        piece(hardware("brass", note="unlacquered")),
    ),
    "brass-unsaid": (piece(hardware("bronze")), piece(hardware("bronze", note="a living finish"))),
    "metal-tarnish": (piece(hardware("copper")), piece(BRASS)),
    "metal-rust": (piece(hardware("blackened steel")), piece(STAINLESS)),
    "metal-plated": (piece(hardware("zinc-plated steel")), piece(STEEL)),
    "metal-stable": (piece(STAINLESS), piece(STAINLESS, BRASS)),
    "metal-coated": (piece(hardware("powder-coated steel")), piece(STEEL)),
    "gilding": (piece(hardware("gold leaf")), piece(BRASS)),
    "nickel-skin": (piece(hardware("satin nickel")), piece(hardware("satin chrome"))),
    "lead-hands": (piece(hardware("lead")), piece(hardware("pewter"))),
    # each month and each year
    "stone-seal": (piece(stone("limestone")), piece(stone("quartz-composite"))),
    "inside-finish": (LINED, finished("shellac")),
    "soap-wash": (SOAPED, BARE),
    "sliding-track": (SLIDING, DOORS),
    "year-oiled": (TUNG, LINSEED),
    "year-look": (LINSEED, TUNG),
    "year-paint": (LIMEWASH, ACRYLIC),
    "outdoor-grey": (BARE.but(use="in the garden"), SPAR.but(use="in the garden")),
    "outdoor-perishable": (
        piece(wood("european-beech"), use="in the garden"),
        piece(wood("european-beech", material="thermally modified beech"), use="in the garden"),
    ),
    "year-film": (POLISHED, WAXED),
    "hinge-screws": (DOORS, SLIDING),
    "drawer-wax": (DRAWERS, ON_SLIDES),
    "drawer-slides": (ON_SLIDES, DRAWERS),
    "lid-stay": (STAYED, CHEST),
    "fixings-year": (HUNG, CABINET),
    "tip-fixing-year": (CABINET, HUNG),
    "joints-year": (CHAIR, TABLE),
    "joints-year-clear": (TABLE, GLASS_TABLE),
    "joints-year-loose": (GLASS_TABLE, TABLE),
    "bed-bolts": (BARE.but(piece="bed"), COT),
    "door-sliding": (ROOM_DOOR.but(title="Sliding door"), ROOM_DOOR),
    "wall-bed-check": (WALL_BED, HUNG),
    "swing-check": (SWING, HUNG),
    "child-check": (COT, CHAIR),
    "outdoor-check": (GARDEN_TABLE, TABLE),
    "workbench-care": (BARE.but(piece="workbench"), TABLE),
    "electric-year": (LAMP, BARE),
    "outdoor-fixed": (BARE.but(piece="front door", use="outdoors"), GARDEN_TABLE),
    "stairs-check": (BARE.but(piece="handrail"), BARE.but(piece="step stool")),
    "stairs-slip": (BARE.but(piece="staircase"), BARE.but(piece="handrail")),
    "stick-use": (BARE.but(piece="walking stick"), BARE.but(piece="sculpture")),
    "outdoor-care": (BARE.but(use="in the garden"), BARE.but(use="indoors, in a garden room")),
    # seasons
    "rh-band": (TABLE, CHAIR),
    "movement-tight": (TIGHT, BARE.figured(movement=(moving(2, "board"),))),
    "air-dry": (DRY, ASSUMED_AIR),
    "air-damp": (DAMP, ASSUMED_AIR),
    "outdoor-cracks": (GARDEN_TABLE, TABLE),
    "radiator": (TABLE, TABLE.but(near=("radiator",))),
    "sticking": (DOORS, piece(panel(), doors=2)),
    "direct-sun": (CHAIR, CHAIR.but(near=("window",))),
    "sun-patches": (piece(panel(), piece="table"), CHAIR),
    "near-window": (TABLE.but(near=("window",)), TABLE.but(near=("radiator",))),
    "heat-sources": (TABLE.but(near=("radiator",)), BARE.but(near=("underfloor heating",))),
    "near-warm-floor": (BARE.but(near=("underfloor heating",)), BARE.but(near=("radiator",))),
    "near-fire": (BARE.but(near=("stove",)), BARE.but(near=("radiator",))),
    "near-hob": (BARE.but(near=("hob",)), KITCHEN.but(near=("hob",))),
    "fire-surround": (BARE.but(piece="fireplace surround"), BARE.but(near=("fireplace",))),
    "door-trim": (ROOM_DOOR, ROOM_DOOR.but(tags=("fire door",))),
    "near-damp": (BARE.but(near=("bathroom",)), BARE.but(near=("sun",))),
    # renewing
    "renew-oil-varnish-blend": (DANISH, TUNG),
    "renew-tung-oil": (TUNG, LINSEED),
    "renew-linseed-oil": (LINSEED, TUNG),
    "renew-raw-oil": (RAW, LINSEED),
    "renew-hardwax-oil": (OILED, TWO_PART),
    "renew-two-part-oil": (TWO_PART, OILED),
    "renew-food-oil": (MINERAL, TUNG),
    "renew-exterior-oil": (DECKING, LASUR),
    "renew-exterior-stain": (LASUR, DECKING),
    "renew-spar-varnish": (SPAR, VARNISHED),
    "renew-wiping-varnish": (WIPED, VARNISHED),
    "renew-oil-polyurethane": (VARNISHED, WATER_POLY),
    "renew-water-polyurethane": (WATER_POLY, VARNISHED),
    "renew-shellac": (FRENCH, WAXED_SHELLAC),
    "renew-nitrocellulose": (NITRO, WATER_LACQUERED),
    "renew-water-lacquer": (WATER_LACQUERED, NITRO),
    "renew-hard-lacquer": (CONVERSION, WATER_LACQUERED),
    "renew-wax": (WAXED_SHELLAC, LIMED),
    "renew-limed": (LIMED, WAXED),
    "renew-soap": (SOAPED, PAINTED),
    "renew-declared": (HIGH_CHAIR, CHAIR),
    "renew-open-paint": (PAINTED, LIMEWASH),
    "renew-lime-paint": (LIMEWASH, PAINTED),
    "renew-linseed-paint": (LINSEED_PAINT, ACRYLIC),
    "renew-paint": (ACRYLIC, LINSEED_PAINT),
    "renew-colour": (STAINED, layered("shellac", "dye-stain")),
    "renew-other": (SECRET, OILED),
    "renew-bare": (BARE, OILED),
    # mending
    "mend-under-colour": (layered("oil-polyurethane", "oil-stain"), VARNISHED),
    "mend-under-polish": (layered("paste-wax", "shellac"), layered("paste-wax", "boiled-linseed-oil")),
    "mend-under-film": (layered("paste-wax", "oil-polyurethane"), VARNISHED),
    "gas-strut": (piece(wood(), hardware("", "gas strut")), STAYED),
    "glass-broken": (piece(pane(kind="mirror")), piece(pane(kind="acrylic"))),
    "padding": (piece(upholstery("horsehair")), piece(upholstery("rush"))),
    # handling
    "heavy-lift": (BARE.figured(mass=Mass(total_kg=25.1)), BARE.figured(mass=Mass(total_kg=25.0))),
    "moving-out": (piece(wood(name="shelf"), piece="desk"), BARE.but(piece="desk")),
    "moving-glass": (piece(pane()), piece(stone())),
    "storage": (TABLE, TABLE.but(use="on a terrace")),
    "moving-plain": (TABLE, TABLE.but(drawers=1)),
    "moving-bed": (BARE.but(piece="bed"), BARE.but(piece="headboard")),
    "moving-wall-bed": (WALL_BED, BARE.but(piece="bed")),
    "moving-clock": (BARE.but(piece="longcase clock"), BARE.but(piece="clock")),
    "moving-outdoors": (GARDEN_TABLE, GARDEN_TABLE.figured(mass=Mass(total_kg=40))),
    "wall-take-down": (BARE.but(stands="ceiling"), BARE.but(stands="table")),
    "feet-floor": (CHAIR, CHAIR.figured(mass=Mass(total_kg=40))),
    # changing it
    "fix-wall": (CABINET, HUNG),
    "rent-hung": (HUNG, SWING),
    "hung-television": (HUNG, CABINET),
    "drill-told": (CABINET.but(may_drill="the back, in the middle"), CABINET),
    "drill-case": (CABINET, CHAIR),
    "drill-frame": (CHAIR, CABINET),
    "repaint": (CHAIR, HIGH_CHAIR),
    "alter": (TABLE, AQUARIUM),
    # another, passing it on
    "another": (BOWL, BARE.but(piece="coffin")),
    "maker-gone": (ROOM_DOOR, SPOON),
    "hand-on": (BOWL, BARE.but(piece="coffin")),
    "keep-invoice": (BOX, BARE.but(piece="coffin")),
    "genuine": (BARE.but(marks="branded inside the door"), BARE),
    "genuine-unmarked": (BOWL, BARE.but(piece="coffin")),
    "end": (ROOM_DOOR, SLEEPER),
    "end-ware": (SPOON, CHAIR),
    # dangers
    "oily-rags": (WIPED, VARNISHED),
    "oily-rags-shop": (VARNISHED, WIPED),
    "sanding-dust-fire": (LINSEED, SOAPED),
    "solvent-vapour": (
        WAXED,
        finished("hardwax-oil").but(finishes=(coated("hardwax-oil", voc_g_per_l=10.0),)),
    ),
    "solvent-vapour-shop": (POLISHED, WAXED),
    "caustic": (LIMEWASH, ACRYLIC),
    "caustic-shop": (finished("reactive-stain"), LIMEWASH),
    "acid-curing": (CONVERSION, VARNISHED),
    "nut-oil": (finished("walnut-oil"), finished("hemp-oil")),
    "lacquer-overspray": (NITRO, POLISHED),
    "overspray-mixed": (
        piece(wood(finish="a"), finishes=[coated("nitrocellulose-lacquer", "a"), coated("hardwax-oil", "b")]),
        NITRO,
    ),
    "finish-indoors-only": (OILED.but(use="on a terrace"), DECKING.but(use="on a terrace")),
    "finish-food": (VARNISHED.but(food=True), MINERAL.but(food=True)),
    "finish-colour-only": (STAINED, layered("paste-wax", "dye-stain")),
    "isocyanate": (WATER_POLY.but(finishes=(coated("water-polyurethane", two_part=True),)), WATER_POLY),
    "sensitiser-mouth": (SPOON.but(parts=COCOBOLO.job.parts), SPOON),
    "epoxy-sensitisation": (piece(wood(), supply("epoxy")), piece(wood(), supply("hide glue"))),
    "epoxy-heat": (RIVER, piece(wood(), supply("epoxy"))),
    "wood-dust": (piece(panel()), NO_WOOD),
    "sensitising-species": (piece(wood("iroko")), piece(wood("white-oak"))),
    "irritant-dust": (piece(wood("white-oak")), piece(wood("iroko"))),
    "safety-glazing": (piece(pane("low panel"), at_risk=["low panel"]), piece(pane("low panel"))),
    "safety-glazing-door": (
        piece(pane("door"), piece="interior door"),
        piece(pane("door"), piece="cabinet"),
    ),
    "glazing-standards": (piece(pane("door"), piece="cabinet"), piece(pane("door"), piece="interior door")),
    "glass-top": (GLASS_TABLE, piece(pane("door"), piece="cabinet")),
    "fire-door": (ROOM_DOOR.but(tags=("fire door",)), ROOM_DOOR),
    "rail-fix": (BARE.but(piece="handrail"), BARE.but(piece="staircase")),
    "pegs-load": (BARE.but(piece="coat rack"), BARE.but(piece="floating shelf")),
    "coffin-use": (BARE.but(piece="coffin"), BOX),
    "stick-law": (BARE.but(piece="walking stick"), BARE.but(piece="sculpture")),
    "toy-chest-law": (BARE.but(piece="toy chest"), BARE.but(piece="blanket chest")),
    "electric-sale": (piece(wood(), hardware("LED strip"), piece="desk"), TABLE_LAMP),
    "paint-lead": (PAINTED.but(shop=IN_US), PAINTED.but(shop=IN_EU)),
    "stairs-law": (BARE.but(piece="staircase"), BARE.but(piece="step stool")),
    "glass-shelf-load": (piece(pane("shelf")), piece(wood(name="shelf"))),
    "glass-spontaneous": (piece(pane(kind="toughened")), piece(pane("shelf", "toughened"))),
    "tip-over": (CABINET, CABINET.but(overall=size(1200, 420, 680))),
    "tip-drawers": (DRESSER, CABINET),
    "no-television": (CABINET, BARE.but(piece="TV stand", overall=size(1600, 400, 800))),
    "lean-fix": (BARE.but(piece="leaning mirror"), BARE.but(piece="mirror", stands="wall")),
    "television": (BARE.but(piece="TV stand"), CABINET),
    "csu-rule": (DRESSER, DRESSER.but(shop=IN_EU)),
    "wall-hanging-fixings": (HUNG, SWING),
    "swing-hang": (SWING, HUNG),
    "swing-use": (SWING, HUNG),
    "wall-bed-anchor": (WALL_BED, BARE.but(piece="bed")),
    "wall-bed-use": (WALL_BED, BARE.but(piece="bed")),
    "frame-hang": (FRAME, HUNG),
    "kitchen-fitting": (KITCHEN, TABLE),
    "loaded-weight": (HUNG.but(contents_kg=60.0), CHAIR.but(contents_kg=110.0)),
    "load-ask": (HUNG, HUNG.but(contents_kg=60.0)),
    "seat-load": (CHAIR.but(contents_kg=110.0), HUNG),
    "aquarium-load": (AQUARIUM, TABLE),
    "shelf-load": (BOOKCASE, CABINET),
    "magnets-children": (MAGNETS, BARE),
    "magnets-implants": (piece(hardware("magnetic catch")), piece(hardware("ball catch"))),
    "castors": (
        piece(wood(), hardware("steel", "castor with brake")),
        piece(wood(), hardware("steel", "castor")),
    ),
    "office-chair": (BARE.but(piece="office chair"), CHAIR),
    "chair-tilt": (CHAIR, BARE.but(piece="rocking chair")),
    "rocker": (BARE.but(piece="rocking chair"), CHAIR),
    "bench-ends": (BARE.but(piece="hall bench"), CHAIR),
    "step-stool-use": (BARE.but(piece="step stool"), BARE.but(piece="stool")),
    "hurt": (BARE, NO_WOOD),
    "sharp-display": (BARE.but(piece="knife rack"), piece(wood(), supply("saw blade"))),
    "cribs-out-of-scope": (BARE.but(piece="playpen"), HIGH_CHAIR),
    "cot-bedding": (CRADLE, BARE.but(piece="toddler bed")),
    "cot-base": (COT, BARE.but(piece="toddler bed")),
    "toddler-bed-use": (BARE.but(piece="toddler bed"), COT),
    "bunk-use": (BUNK, BARE.but(piece="bed")),
    "high-chair-use": (HIGH_CHAIR, CHAIR),
    "high-chair-tray": (HIGH_CHAIR, CHAIR),
    "changing-use": (BARE.but(piece="changing table"), TABLE),
    "gate-use": (BARE.but(piece="stair gate"), BARE.but(piece="playpen")),
    "gate-law": (BARE.but(piece="stair gate"), BARE.but(piece="playpen")),
    "cat-tree-fix": (BARE.but(piece="cat tree"), BARE.but(piece="dog bed")),
    "wildlife-clean": (BARE.but(piece="nest box"), BARE.but(piece="dog bed")),
    "playpen-use": (BARE.but(piece="playpen"), COT),
    "climbing-use": (BARE.but(piece="climbing frame"), SWING),
    "tower-use": (TOWER, BARE.but(piece="step stool")),
    "toy-use": (TOY, BOX),
    "cot-law": (CRADLE, CHILDS_CHAIR),
    "bunk-law": (BUNK, COT),
    "high-chair-law": (HIGH_CHAIR, CHAIR),
    "tower-law": (TOWER, HIGH_CHAIR),
    "child-furniture-law": (CHILDS_CHAIR, CHAIR),
    "toy-law": (TOY, BOX),
    "mouth-law": (TOY, SPOON),
    "children-at-home": (BARE.but(children=True), BARE),
    "baby": (CHAIR, CHAIR.but(children=True)),
    "finger-pinch": (BARE.but(tags=("folding",)), BARE),
    "folding-seat": (BARE.but(piece="folding chair", tags=("folding",)), CHAIR),
    "folding-leaf": (TABLE.but(title="Drop leaf table"), TABLE),
    "heavy-lid": (DESK_WITH_FLAP, BOX),
    "chest-lid": (CHEST, BOX),
    "box-lid": (BOX, CHEST),
    "chest-air": (CHEST, CHEST.but(overall=size(250, 200, 150))),
    "stone-weight": (piece(pane("table top")), piece(pane("door"))),
    "insects": (piece(wood(material="oak with live edge")), BARE),
    "ispm15": (piece(supply("pine crate", "packing")), BARE),
    "cites": (COCOBOLO.but(crosses_border=True), piece(wood("honduras-mahogany"), crosses_border=True)),
    "cites-timber": (piece(wood("honduras-mahogany")), COCOBOLO),
    "protected-wood": (COCOBOLO, COCOBOLO.but(crosses_border=True)),
    "lacey": (piece(wood(country="CA"), shop=IN_US), piece(wood(country="US"), shop=IN_US)),
    "eudr": (BARE.but(shop=IN_EU), BARE.but(shop=IN_US)),
    "product-safety": (SPOON.but(shop=IN_EU), SPOON.but(shop=IN_US)),
    "formaldehyde-eu": (piece(panel(), shop=IN_EU), piece(panel(), shop=IN_US)),
    "formaldehyde-panels": (piece(panel()), BARE),
    "formaldehyde-records": (
        piece(panel(), shop=IN_US),
        piece(replace(panel(), key="osb"), shop=IN_US),
    ),
    "lead-paint": (BARN, BARE),
    "lead-paint-sale": (piece(wood(origin="door with old paint")), BARN),
    "lead-vapour": (piece(wood(), hardware("lead")), piece(hardware("lead"))),
    "salvage-metal": (BARN, BARE.but(tags=("barn door",))),
    "treated-wood": (piece(wood(material="tanalised pine")), piece(wood(material="heat-treated ash"))),
    "creosote": (SLEEPER, piece(wood(material="untreated railway sleeper"))),
    "creosote-law": (SLEEPER, piece(wood(material="tanalised pine"))),
    "electrical": (LAMP, piece(wood(), hardware("socket-head screw", "screw"))),
    "led-heat": (LAMP, piece(hardware("desk lamp"))),
    "food-contact": (OILED.but(food=True), OILED.but(finishes=(replace(BODY, food_safe=True),), food=True)),
    "food-law": (BOWL, TABLE),
    "food-declared": (OILED.but(finishes=(replace(BODY, food_safe=True),)), OILED.but(food=True)),
    "candle-holder": (BARE.but(piece="candlestick"), TABLE),
    "case-vapour": (BOX.but(parts=(wood(),)), BOX),
    "lamp-bulb": (TABLE_LAMP, LAMP),
    "lamp-law": (TABLE_LAMP, LAMP),
    "button-cell": (piece(wood(), hardware("CR2032 button cell", "light")), LAMP),
    "electric-bath": (LAMP.but(near=("bathroom",)), LAMP.but(near=("kitchen",))),
    "electric-motor": (piece(wood(), hardware("", "lifting column")), LAMP),
    "outdoor-fire": (GARDEN_TABLE, TABLE),
    "outdoor-build": (GARDEN_TABLE, TABLE),
    "padding-fire": (PADDED, CHAIR),
    "aromatic-cedar": (piece(wood("eastern-redcedar")), piece(wood("western-redcedar"))),
    "quartz-dust": (piece(stone("quartz-composite")), piece(stone("quartzite"))),
    "upholstery-fire": (piece(upholstery("foam")), piece(upholstery("cane"))),
    "salvage-claims": (BARN, BARE),
}
