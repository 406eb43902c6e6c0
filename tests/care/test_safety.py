"""What people must read of a piece and what they must never read, told from the trade's side: by what the sentences say,
whatever the rule is called that says them.
"""

import re
from dataclasses import replace

import pytest

from buildbook.care import choose, if_something_happens, rules
from buildbook.job.holding_model import Hanging
from buildbook.job.shop_model import Shop
from buildbook.trade.kinds import kinds
from buildbook.words import Words
from tests.care.cases import (
    AQUARIUM,
    BOARD,
    BOOKCASE,
    BOWL,
    BOX,
    BUNK,
    CABINET,
    CHAIR,
    CHEST,
    CHILDS_CHAIR,
    COCOBOLO,
    COT,
    CRADLE,
    DRESSER,
    DRY,
    FRAME,
    GARDEN_TABLE,
    GLASS_TABLE,
    HIGH_CHAIR,
    HUNG,
    IN_EU,
    IN_JANUARY,
    IN_US,
    KITCHEN,
    LAMP,
    PADDED,
    ROOM_DOOR,
    SLEEPER,
    SPOON,
    STAYED,
    SWING,
    TABLE,
    TABLE_LAMP,
    TOWER,
    TOY,
    WALL_BED,
)
from tests.care.pieces import (
    BARE,
    coated,
    finished,
    hardware,
    pane,
    panel,
    piece,
    stone,
    supply,
    upholstery,
    wood,
)

LANGUAGES = {language: Words(language) for language in ("en", "de")}
MAHOGANY = piece(wood("honduras-mahogany"), crosses_border=True)
HEAVY = BARE.figured(mass=replace(CABINET.summary.mass, total_kg=60))
MARBLE_TABLE = piece(wood("sugar-maple"), stone("marble", "table top"), piece="dining table")
OLD_PAINT = piece(wood(origin="door with old paint"))
GLAZED = piece(wood("sugar-maple"), pane("door"), piece="cabinet")
GLAZED_DOOR = piece(wood("sugar-maple"), pane("door"), piece="interior door")


def read(made, who="client", language="en"):
    """All that the client, or the maker, reads of care for a piece."""
    items = choose(made.job, made.summary, LANGUAGES[language])
    theirs = [item for item in items if item.audience in (who, "both")]
    lines = [f"{item.title}. {item.text} {item.why} {item.short}" for item in theirs]
    if who == "client":
        happenings = if_something_happens(made.facts, LANGUAGES[language])
        lines += [f"{h.title}. {a.first} {a.never} {a.call}" for h in happenings for a in h.aid]
    return "\n".join(lines)


MUST = {
    # advice that could hurt
    "a stove: a metre at least": (BARE.but(near=("stove",)), "client", r"at least 1\s*m\b", r"mindestens 1\s*m"),
    "a strap is tried by hand": (CABINET, "client", r"never at the piece", r"nie am Möbel"),
    "a lid with a stay": (STAYED, "client", r"fingers clear", r"Fingern von der Kante"),
    "a hung piece is pulled down, not up": (HUNG, "client", r"never up\b", r"nie nach oben"),
    "a loose top is off before a table is rocked": (MARBLE_TABLE, "client", r"Never rock it", r"Nie mit der schweren Platte"),
    "a wooden top is cleared first": (TABLE, "client", r"Clear it first", r"Räumen Sie zuerst"),
    "a bonded top is not lifted": (MARBLE_TABLE, "client", r"bonded", r"verklebt"),
    "glass in furniture: a mark": (GLAZED, "client", r"safety glass, with a small mark", r"Stempel"),
    "glass in a room door: the code": (GLAZED_DOOR, "client", r"Building codes", r"Bauordnung"),
    "broken glass: safety glass again": (GLAZED, "client", r"only safety glass", r"gestempeltes Sicherheitsglas"),
    "cane is damped from below": (piece(upholstery("cane")), "client", r"from below", r"von unten"),
    "rush gets no water": (piece(upholstery("rush")), "client", r"no water", r"Kein Wasser"),
    "creosote": (SLEEPER, "client", r"ask the maker to take it back", r"zurückzunehmen"),
    "creosote is not made into furniture": (SLEEPER, "maker", r"Do not use railway sleepers", r"keine Schwellen"),
    "lead: the limit of the law": (OLD_PAINT, "maker", r"0\.009", r"0,009"),
    "fix first, then wait": (
        CABINET.but(doors=2, **IN_JANUARY),
        "client",
        r"does not wait",
        r"wartet nicht",
    ),
    "heavy: two people, stairs": (HEAVY, "client", r"two people or more, and on stairs", r"zwei Leute .* Treppe"),
    "wired-in lights": (LAMP, "client", r"circuit switched off", r"Sicherung ab"),
    "solid surface can be sanded": (piece(stone("solid-surface")), "client", r"sanded out", r"ausschleifen"),
    "some crumbs are sharp": (piece(pane(kind="toughened")), "client", r"crumbs are sharp", r"sind scharf"),
    "white powder on lead": (piece(hardware("lead")), "client", r"White powder", r"Weißes Pulver"),
    "lead near oak": (piece(wood(), hardware("lead")), "maker", r"acid vapour", r"saure Dämpfe"),
    "the same wall, the same fixings": (HUNG, "client", r"own fixings only on the same wall", r"alten Befestigungen .* an derselben Wand"),
    "a US dresser: certificate, built-in out": (DRESSER, "maker", r"certificate", r"Einbaumöbel"),
    "isocyanate: training": (
        piece(wood(), supply("polyurethane glue")),
        "maker",
        r"24 August 2023",
        r"24\.\s*August 2023",
    ),
    "formaldehyde: the day and the limit": (
        piece(panel(), shop=IN_EU),
        "maker",
        r"6 August 2026.*0\.062",
        r"6\.\s*August 2026.*0,062",
    ),
    "UK fire rules": (PADDED, "maker", r"30 October 2025", r"30\.\s*Oktober 2025"),
    "deforestation": (BARE.but(shop=IN_EU), "maker", r"30 December 2026.*30 June 2027", r"30\.\s*Juni 2027"),
    "Lacey": (BARE.but(crosses_border=True), "maker", r"1 December 2024", r"1\.\s*Dezember 2024"),
    "iroko: a mask, for the client too": (piece(wood("iroko")), "client", r"without a mask", r"ohne Maske"),
    "dry air: a clean humidifier": (DRY, "client", r"clean humidifier", r"sauberen Luftbefeuchter"),
    # what was missing
    "cot: the mattress": (COT, "client", r"firm mattress .* without a gap", r"feste Matratze.*ohne Spalt"),
    "cradle: nothing else in it": (CRADLE, "client", r"no pillow, quilt", r"kein Kissen"),
    "cot: lower the base": (COT, "client", r"Lower the base before", r"Boden tiefer stellen, bevor"),
    "cot: look at every joint": (COT, "client", r"Each month .* joint, bolt", r"Jeden Monat jede Verbindung"),
    "cot: the maker's tests": (COT, "maker", r"EN 716.*16 CFR 1218", r"EN 716"),
    "bunk: not under six": (BUNK, "client", r"No child under six", r"Kein Kind unter sechs"),
    "bunk: the mark, no cords": (BUNK, "client", r"mark on the guard.*no rope", r"Marke.*kein Seil"),
    "bunk: the maker's tests": (BUNK, "maker", r"EN 747-1:2024.*1213", r"EN 747-1:2024"),
    "high chair": (HIGH_CHAIR, "client", r"Never leave the child alone.*straps", r"nie allein.*Gurte"),
    "high chair: pushing off": (HIGH_CHAIR, "client", r"push off from table", r"abstoßen"),
    "learning tower": (TOWER, "client", r"within arm’s reach.*hob", r"Armlänge.*Herd"),
    "learning tower: no standard": (TOWER, "maker", r"13 of 16", r"13 von 16"),
    "drawers: one at a time": (DRESSER, "client", r"one drawer at a time", r"nur eine Schublade"),
    "tip: renters, television, masonry": (
        CABINET,
        "client",
        r"masonry.*No television.*If you rent",
        r"Mauerwerk.*Kein Fernseher.*Miete",
    ),
    "hob": (BARE.but(near=("hob",)), "client", r"manuals of hob", r"Anleitungen von Kochfeld"),
    "swing": (SWING, "client", r"qualified for hanging things that people move", r"bewegte Lasten"),
    "swing: how many": (SWING, "client", r"number of persons and the weight", r"Zahl der Personen"),
    "swing: each month": (SWING, "client", r"each month at hooks, chains", r"jeden Monat Haken"),
    "glass top": (GLASS_TABLE, "client", r"Do not sit, stand or climb on it", r"Setzen und stellen Sie sich nie"),
    "EU: name and addresses on it": (
        SPOON.but(shop=IN_EU),
        "maker",
        r"name, postal and electronic address.*ten years.*buyer’s language",
        r"zehn Jahre",
    ),
    "board: both sides, raw meat": (BOARD, "client", r"both sides.*dishwasher.*Raw meat", r"beide Seiten.*Fleisch"),
    "board: plane when cut": (BOARD, "client", r"planed or sanded", r"abhobeln"),
    "bowl": (BOWL, "client", r"no microwave, no oven", r"keine Mikrowelle"),
    "spoon": (SPOON, "client", r"Throw it away when it splits", r"werfen Sie ihn weg"),
    "toy: broken": (TOY, "client", r"loose small part", r"kleines Teil"),
    "toy: the law": (TOY, "maker", r"EN 71.*2009/48.*1 August 2030.*2025/2509.*F963", r"1\.\s*August 2030"),
    "folding chair": (CHAIR.but(piece="folding chair"), "client", r"until it locks", r"einrastet"),
    "drop leaf": (TABLE.but(title="Drop leaf table"), "client", r"Nobody sits or leans", r"Niemand setzt"),
    "wall bed": (WALL_BED, "client", r"before an installer has anchored", r"Fachbetrieb .* verankert"),
    "struts": (piece(wood(), hardware("", "gas strut")), "client", r"in pairs", r"paarweise"),
    "chest": (CHEST, "client", r"Never let a child climb in.*no lock that closes", r"Schloss .* von selbst"),
    "lamp: watts": (TABLE_LAMP, "client", r"than the label says.*watts.*over the shade", r"an Watt"),
    "lamp: the law": (TABLE_LAMP, "maker", r"EN 60598.*UL 153", r"EN 60598"),
    "button cells": (
        piece(wood(), hardware("CR2032 button cell", "light")),
        "client",
        r"hospital at once",
        r"sofort ins Krankenhaus",
    ),
    "bathroom": (LAMP.but(near=("bathroom",)), "client", r"only an electrician", r"nur ein Elektrofachbetrieb"),
    "padding": (PADDED, "client", r"cigarettes.*label", r"Zigaretten.*Etikett"),
    "aquarium": (AQUARIUM, "client", r"1\s*kg/l.*never move it", r"1\s*kg/l"),
    "kitchen": (KITCHEN, "client", r"Licensed people connect gas", r"Gas, Wasser und Strom"),
    "castors": (
        piece(wood(), hardware("steel", "castor with brake")),
        "client",
        r"Keep the wheels locked",
        r"Rollen festgestellt",
    ),
    "heated floor": (BARE.but(near=("underfloor heating",)), "client", r"turn the floor up slowly", r"langsam"),
    "outdoors: the maker": (GARDEN_TABLE, "maker", r"EN 350.*glue.*stainless.*drain", r"EN 350"),
    "fire door": (ROOM_DOOR.but(tags=("fire door",)), "client", r"Never plane, trim", r"Nie abhobeln"),
    "instrument": (BARE.but(piece="guitar stand"), "client", r"felt, cork or leather", r"Filz, Kork"),
    "woodworm in any wood": (TABLE, "client", r"mall round holes", r"leine runde Löcher"),
    "cloth fades": (piece(upholstery("linen")), "client", r"fades cloth", r"Stoff eher bleicht"),
    "silver in oak": (BOX.but(parts=(wood(),)), "client", r"silver, pearls", r"Silber, Perlen"),
    "concrete": (piece(stone("concrete")), "client", r"hairlines", r"Haarrisse"),
    "smoke, water": (TABLE, "client", r"no soot.*insurer.*dry slowly", r"Ruß nicht.*Versicherung.*[Ll]angsam"),
    "steam mops": (TABLE.but(stands="floor"), "client", r"Steam mops", r"Dampfbesen"),
    "chairs": (CHAIR, "client", r"do not rock back on two legs", r"nicht auf zwei Beinen"),
    "bed bolts": (BARE.but(piece="bed"), "client", r"four to six weeks", r"vier bis sechs Wochen"),
    "hurt": (CHAIR, "client", r"Stop using it, keep every part", r"lassen Sie alle Teile"),
    "bookcase": (BOOKCASE, "client", r"Nobody climbs on the shelves", r"Niemand klettert"),
    "leaning mirror": (BARE.but(piece="leaning mirror"), "client", r"Fix its top", r"oben an Ständer"),
    "food: allergy": (BOWL.but(finishes=(coated("hardwax-oil"),)), "client", r"allergic to nuts", r"Nüsse"),
    "cocobolo spoon": (
        SPOON.but(parts=COCOBOLO.job.parts),
        "client",
        r"itch or swell",
        r"jucken oder anschwellen",
    ),
}  # fmt: skip
"""Of a piece: who must read of what, in English and in German."""


@pytest.mark.parametrize("case", MUST)
def test_they_read_what_keeps_them_from_harm(case):
    made, who, english, german = MUST[case]
    assert re.search(english, read(made, who), re.DOTALL)
    assert re.search(german, read(made, who, "de"), re.DOTALL)


EVERY_KIND = {kind.key: BARE.but(piece=kind.name) for kind in kinds().values()}
HANGING = {key: made.but(hanging=Hanging("cleat"), stands="wall") for key, made in EVERY_KIND.items()}
CHILD = {"cot", "bunk-bed", "high-chair", "learning-tower", "toy", "child-furniture"}

NEVER = {
    "a hung piece is pushed up": (HANGING, r"[Pp]ush\w* [^.]*\bup(wards)?\b", r"[Dd]rücken [^.]*nach oben"),
    "half a metre to a stove": (
        {key: made.but(near=("stove", "fireplace")) for key, made in EVERY_KIND.items()},
        r"50\s*cm[^.]*(radiator|heat)",
        r"50\s*cm[^.]*(Heiz|Wärme)",
    ),
    "pull a tall piece by its top": (EVERY_KIND, r"Pull the top", r"Ziehen Sie oben"),
    "let a lid go": (EVERY_KIND | {"stay": STAYED, "chest": CHEST}, r"\blet go\b", r"lassen Sie los"),
    "bowls of water": (EVERY_KIND, r"bowls of water", r"Wasserschalen"),
    "grey without harm": (EVERY_KIND, r"without harm", r"ohne Schaden zu nehmen"),
    "a swing is tried like a shelf": ({"swing": SWING}, r"must not move|from studs", r"Holzständer"),
    "a wall bed is hung like a cabinet": (
        {"wall-bed": WALL_BED.but(stands="wall")},
        r"One person holds it|from studs",
        r"Eine Person hält",
    ),
    "a box falls like a chest": ({"box": BOX}, r"climb in|can fall", r"hineinklettern|fallen kann"),
    "a damp cloth on rush": ({"rush": piece(upholstery("rush"))}, r"damp cloth|wet cloth", r"feuchtes Tuch"),
    "building codes for furniture": ({"glazed": GLAZED, "table": GLASS_TABLE}, r"[Bb]uilding", r"Bauordnung"),
    "mahogany needs a permit": ({"mahogany": MAHOGANY}, r"CITES|permit", r"CITES|Genehmigung"),
    "oak is a strong allergen": ({"oak": BARE}, r"(?<!with )asthma|rash", r"(?<!bei )Asthma|Ausschlag"),
    "a child's bed at a grown-up's": (
        {key: made for key, made in EVERY_KIND.items() if key not in CHILD | {"chest", "storage-bench"}},
        r"baby can be caught|under six|learning tower|high chair",
        r"Säugling kann in|unter sechs|Lernturm|Hochstuhl",
    ),
    "a toddler bed is a cot": (
        {"toddler": BARE.but(piece="toddler bed")},
        r"no pillow|can climb out",
        r"kein Kissen",
    ),
    "washing up a cabinet": (
        {key: made for key, made in EVERY_KIND.items() if key not in {"cutting-board", "bowl", "spoon"}},
        r"dishwasher|microwave",
        r"Spülmaschine|Mikrowelle",
    ),
    "wheels of a toy are locked": ({"toy": TOY.but(parts=(wood(), hardware("", "wheel")))}, r"\blocks", r"Bremsen"),
    "a rocking chair keeps all feet down": ({"rocker": BARE.but(piece="rocking chair")}, r"tilt", r"Kippeln"),
    "a frame is a cabinet": ({"frame": FRAME.figured(mass=replace(CABINET.summary.mass, total_kg=1.0))},
        r"from studs|must not move", r"Holzständer"),
}  # fmt: skip
"""What none of these pieces' clients must read, in English and in German."""


@pytest.mark.parametrize("case", NEVER)
def test_nobody_reads_what_could_hurt_or_is_not_so(case):
    pieces, english, german = NEVER[case]
    assert {key for key, made in pieces.items() if re.search(english, read(made))} == set()
    assert {key for key, made in pieces.items() if re.search(german, read(made, language="de"))} == set()


GRAVE = {
    "heavy-lid": "caution", "chest-lid": "warning", "near-fire": "warning", "heat-sources": "note",
    "epoxy-heat": "note", "led-heat": "caution", "stone-resin": "note", "food-contact": "note",
    "lid-stay": "caution", "fixings-year": "caution", "tip-fixing-year": "caution", "irritant-dust": "note",
    "tip-over": "warning", "wall-hanging-fixings": "warning", "clean-colour": "note", "lead-hands": "caution",
}  # fmt: skip


def test_grave_things_stand_before_small_ones():
    assert {rule.key: rule.severity for rule in rules() if rule.key in GRAVE} == GRAVE


def test_what_a_finish_is_declared_for_is_said_only_where_the_job_says_so():
    oiled = finished("hardwax-oil", piece="salad bowl")
    declared = oiled.but(finishes=(replace(oiled.job.finishes[0], food_safe=True),))
    assert "states that it suits contact with food" in read(declared)
    assert "states that it suits contact with food" not in read(oiled)
    assert "the record does not say" in read(oiled)
    assert "the record does not say" not in read(declared)


def test_no_law_is_said_to_be_met():
    shops = (IN_EU, IN_US, Shop())
    for made in (*EVERY_KIND.values(), PADDED, SLEEPER, OLD_PAINT, GLAZED, CHILDS_CHAIR):
        for shop in shops:
            for who in ("client", "maker"):
                text = read(made.but(shop=shop), who)
                assert not re.search(r"\b(meets|fulfils|is certified|has passed|conforms|complies)\b", text)
