"""For every rule a piece that calls for it and one, as like it as can be, that does not."""

from dataclasses import replace

from buildbook.job.model import Hanging
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
MAGNETS = piece(wood(), hardware("neodymium magnet", "door catch"))
TIGHT = BARE.figured(movement=(moving(2, "board", ok=False),))
DRY = piece(wood(), climate=Climate(25, 55, 21)).figured(air=replace(EVEN_AIR, rh_low_pct=25))
DAMP = piece(wood(), climate=Climate(40, 70, 21)).figured(air=replace(EVEN_AIR, rh_high_pct=70))
ASSUMED_AIR = BARE.figured(air=replace(EVEN_AIR, rh_low_pct=25, rh_high_pct=70))
DRAWERS, DOORS, SLIDING = BARE.but(drawers=2), BARE.but(doors=2), BARE.but(doors=2, tags=("sliding doors",))
ON_SLIDES = piece(wood(), hardware("zinc-plated steel", "drawer slide"), drawers=2)
CHAIR, TABLE = BARE.but(piece="dining chair"), BARE.but(piece="table")
COCOBOLO = piece(wood("cocobolo"))
BARN = piece(wood(origin="floorboards reclaimed from a mill"))
LAMP = piece(wood(), hardware("LED strip light", "light"))
RIVER = piece(wood(), tags=("river table",), title="Table with an epoxy river")

CASES = {
    # first days
    "acclimatise": (BARE.but(delivered=SUMMER.replace(month=1)), BARE),
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
    "water-weak": (SOAPED, OILED),
    "water-fair": (OILED, SOAPED),
    "heat-weak": (WAXED, DANISH),
    "heat-open": (DANISH, WAXED),
    "ammonia-silicone": (VARNISHED, NO_WOOD),
    "alcohol-shellac": (POLISHED, NITRO),
    "alcohol-lacquer": (NITRO, POLISHED),
    "plasticiser-marks": (NITRO, WATER_POLY),
    "iron-tannin": (piece(wood(), STEEL), piece(MAPLE, STEEL)),
    "tannin-wood": (piece(wood(), STAINLESS), piece(wood(), STEEL)),
    "candle-heat": (TABLE, CHAIR),
    "stone-marble": (piece(stone("limestone")), piece(stone("granite"))),
    "stone-hard": (piece(stone("granite")), piece(stone("slate"))),
    "stone-slate": (piece(stone("slate")), piece(stone("granite"))),
    "stone-resin": (piece(stone("quartz-composite")), piece(stone("quartzite"))),
    "stone-tile": (piece(stone("ceramic-tile")), piece(stone("sintered-stone"))),
    "glass-clean": (piece(pane()), piece(pane(kind="acrylic"))),
    "mirror-clean": (piece(pane(kind="safety-mirror")), piece(pane())),
    "leaded-clean": (piece(pane(kind="leaded")), piece(pane())),
    "plastic-clean": (piece(pane(kind="polycarbonate")), piece(pane())),
    "leather": (piece(upholstery("saddle leather")), piece(upholstery("leatherette"))),
    "cloth": (piece(upholstery("wool cloth")), piece(upholstery("leather"))),
    "woven-seat": (piece(upholstery("Danish cord")), piece(upholstery("linen"))),
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
    "inside-finish": (LINED, finished("shellac")),
    "soap-wash": (SOAPED, BARE),
    "sliding-track": (SLIDING, DOORS),
    "year-oiled": (TUNG, LINSEED),
    "year-look": (LINSEED, TUNG),
    "year-paint": (LIMEWASH, ACRYLIC),
    "year-film": (POLISHED, WAXED),
    "hinge-screws": (DOORS, SLIDING),
    "drawer-wax": (DRAWERS, ON_SLIDES),
    "drawer-slides": (ON_SLIDES, DRAWERS),
    "lid-stay": (CHEST, DRESSER),
    "fixings-year": (HUNG, CABINET),
    "tip-fixing-year": (CABINET, HUNG),
    "joints-year": (CHAIR, CABINET),
    "magnets-year": (MAGNETS, BARE),
    "electric-year": (LAMP, BARE),
    "outdoor-grey": (BARE.but(use="in the garden"), SPAR.but(use="in the garden")),
    "outdoor-perishable": (
        piece(wood("european-beech"), use="in the garden"),
        piece(wood("european-beech", material="thermally modified beech"), use="in the garden"),
    ),
    "outdoor-care": (BARE.but(use="in the garden"), BARE.but(use="indoors, in a garden room")),
    # seasons
    "rh-band": (BARE, piece(panel())),
    "movement-tight": (TIGHT, BARE.figured(movement=(moving(2, "board"),))),
    "air-dry": (DRY, ASSUMED_AIR),
    "air-damp": (DAMP, ASSUMED_AIR),
    "sticking": (DOORS, piece(panel(), doors=2)),
    "direct-sun": (piece(panel()), BARE.but(near=("window",))),
    "near-window": (BARE.but(near=("window",)), BARE.but(near=("radiator",))),
    "heat-sources": (BARE.but(near=("underfloor heating",)), BARE.but(near=("window",))),
    "near-damp": (BARE.but(near=("bathroom",)), BARE.but(near=("sun",))),
    "outdoor-use": (BARE, BARE.but(use="on a terrace")),
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
    "renew-open-paint": (PAINTED, LIMEWASH),
    "renew-lime-paint": (LIMEWASH, PAINTED),
    "renew-linseed-paint": (LINSEED_PAINT, ACRYLIC),
    "renew-paint": (ACRYLIC, LINSEED_PAINT),
    "renew-colour": (STAINED, layered("shellac", "dye-stain")),
    "renew-other": (SECRET, OILED),
    "renew-bare": (BARE, OILED),
    # mending
    "mend-oiled": (TUNG, OILED),
    "mend-hardwax-oil": (OILED, TUNG),
    "mend-food-oil": (MINERAL, TUNG),
    "mend-wax": (WAXED, OILED),
    "mend-film": (WATER_POLY, POLISHED),
    "mend-polish": (NITRO, WATER_POLY),
    "mend-veneer": (piece(panel("door panel")), piece(panel("carcase back"))),
    "mend-open": (SOAPED, PAINTED),
    "mend-paint": (PAINTED, SOAPED),
    "mend-other": (SECRET, VARNISHED),
    "mend-under-colour": (layered("oil-polyurethane", "oil-stain"), VARNISHED),
    "mend-under-polish": (layered("paste-wax", "shellac"), layered("paste-wax", "boiled-linseed-oil")),
    "mend-under-film": (layered("paste-wax", "oil-polyurethane"), VARNISHED),
    "mend-joint": (BARE, piece(panel())),
    "glass-broken": (piece(pane(kind="mirror")), piece(pane(kind="acrylic"))),
    "padding": (piece(upholstery("horsehair")), piece(upholstery("rush"))),
    # handling
    "heavy-lift": (BARE.figured(mass=Mass(total_kg=25.1)), BARE.figured(mass=Mass(total_kg=25.0))),
    "moving-out": (piece(wood(name="shelf")), BARE),
    "moving-glass": (piece(pane()), piece(stone())),
    "storage": (BARE, BARE.but(drawers=1)),
    "wall-take-down": (BARE.but(stands="ceiling"), BARE.but(stands="table")),
    "feet-floor": (CHAIR, CHAIR.figured(mass=Mass(total_kg=40))),
    # dangers
    "oily-rags": (WIPED, VARNISHED),
    "oily-rags-shop": (VARNISHED, WIPED),
    "sanding-dust-fire": (LINSEED, SOAPED),
    "solvent-vapour": (
        WAXED,
        finished("hardwax-oil").but(finishes=(coated("hardwax-oil", voc_g_per_l=10.0),)),
    ),
    "solvent-vapour-shop": (NITRO, WAXED),
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
    "epoxy-sensitisation": (piece(wood(), supply("epoxy")), piece(wood(), supply("hide glue"))),
    "epoxy-heat": (RIVER, piece(wood(), supply("epoxy"))),
    "wood-dust": (piece(panel()), NO_WOOD),
    "sensitising-species": (piece(wood("iroko")), piece(wood("basswood"))),
    "safety-glazing": (piece(pane("low panel"), at_risk=["low panel"]), piece(pane("low panel"))),
    "glass-shelf-load": (piece(pane("shelf")), piece(wood(name="shelf"))),
    "glass-spontaneous": (piece(pane(kind="toughened")), piece(pane("shelf", "toughened"))),
    "tip-over": (CABINET, CABINET.but(overall=size(1200, 420, 680))),
    "csu-rule": (DRESSER, DRESSER.but(shop=IN_EU)),
    "wall-hanging-fixings": (HUNG, CABINET),
    "loaded-weight": (HUNG.but(contents_kg=60.0), HUNG),
    "magnets-children": (MAGNETS, BARE),
    "magnets-implants": (piece(hardware("magnetic catch")), piece(hardware("ball catch"))),
    "castors": (piece(wood(), hardware("steel", "castor")), CHAIR),
    "sharp-display": (BARE.but(piece="knife rack"), piece(wood(), supply("saw blade"))),
    "cribs-out-of-scope": (BARE.but(piece="high chair"), CHAIR),
    "children-at-home": (BARE.but(children=True), BARE),
    "finger-pinch": (BARE.but(tags=("folding",)), BARE),
    "heavy-lid": (piece(wood(name="fall-front")), DRESSER),
    "chest-air": (CHEST, CHEST.but(overall=size(250, 200, 150))),
    "stone-weight": (piece(pane("table top")), piece(pane("door"))),
    "insects": (piece(wood(material="oak with live edge")), BARE),
    "ispm15": (piece(supply("pine crate", "packing")), BARE),
    "cites": (COCOBOLO.but(crosses_border=True), BARE.but(crosses_border=True)),
    "protected-wood": (COCOBOLO, COCOBOLO.but(crosses_border=True)),
    "lacey": (piece(wood(country="CA"), shop=IN_US), piece(wood(country="US"), shop=IN_US)),
    "eudr": (BARE.but(shop=IN_EU), BARE.but(shop=IN_US)),
    "formaldehyde-panels": (piece(panel()), BARE),
    "formaldehyde-records": (piece(panel(), shop=IN_US), piece(panel(), shop=IN_EU)),
    "lead-paint": (BARN, BARE),
    "salvage-metal": (BARN, BARE.but(tags=("barn door",))),
    "treated-wood": (piece(wood(material="railway sleeper")), piece(wood(material="heat-treated ash"))),
    "electrical": (LAMP, piece(wood(), hardware("socket-head screw", "screw"))),
    "led-heat": (LAMP, piece(hardware("desk lamp"))),
    "food-contact": (BARE.but(food=True), BARE),
    "food-declared": (OILED.but(finishes=(replace(BODY, food_safe=True),)), OILED.but(food=True)),
    "aromatic-cedar": (piece(wood("eastern-redcedar")), piece(wood("western-redcedar"))),
    "quartz-dust": (piece(stone("quartz-composite")), piece(stone("quartzite"))),
    "upholstery-fire": (piece(upholstery("foam")), piece(upholstery("cane"))),
    "salvage-claims": (BARN, BARE),
}
