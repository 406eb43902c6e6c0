"""What makers call their pieces, in both languages, and what is no piece of that kind."""

import pytest

from buildbook.trade.kinds import HAS, REACHES, every_key, kind_of, kinds, nearest

CALLED = {
    "dining-table": """
        dining table; Table; six-seat dining table in ash; refectory table with breadboard ends; oak kitchen table
        trestle table; Extending table, European oak; round table; Esstisch; Eichentisch; Küchentisch aus Esche
        Ausziehtisch; Tische; runder Tisch; Besprechungstisch Nussbaum; Kuechentisch; Table for six, with a bench
        ESSTISCH; conference tables; gate-leg table; tisch mit Schublade; Massivholztisch; Wangentisch; Tischlein""",
    "side-table": """
        coffee table; end table; pair of bedside tables; Couchtisch; Beistelltische; Nachttisch; coffee-table
        Nest of three tables; Nachttischchen; occasional table; Sofatisch aus Altholz; nesting tables""",
    "console-table": "console table; hall table; Konsole; console; Wandkonsole; Konsolentisch; narrow hallway table",
    "desk": """
        desk; writing desk; sit-stand desk; Desk with two drawers; Schreibtisch; Stehpult; standing desk; Sekretär
        Kirschbaum-Schreibtisch; dressing table; roll-top desk; Schreibtische; home office desk; lectern
        slant-front desk; Lesepult""",
    "chair": """
        chair; six dining chairs; set of six chairs; armchair; rocking chair; Windsor chair; Stuhl; Stühle; Sessel
        Armlehnstuhl; Schaukelstuhl; Esszimmerstühle; ladder-back chair; Lounge chair; Stuehle; Bugholzstuhl; Ohrensessel
        Chair for a desk; rocker; folding chairs""",
    "office-chair": "office chair; desk chair; swivel chair; Bürostuhl; Drehstuhl; Schreibtischstuhl",
    "stool": "stool; bar stools; counter stool; three-legged stool; Hocker; Barhocker; Schemel; footstool; Melkschemel",
    "step-stool": "step stool; library steps; kitchen steps; Tritthocker; Trittleiter; step-stool; Bibliotheksleiter",
    "bench": """
        bench; hall bench; oak bench; pew; settle; Bank; Sitzbank; Bank aus Eiche; Bänke; Eckbank; Dielenbank; piano bench
        Ofenbank; entry bench in walnut; Holzbank""",
    "storage-bench": "storage bench; lidded bench; Sitztruhe",
    "sofa": "sofa; sofa bed; settee; Sofa; Schlafsofa; daybed sofa; chaise longue; Zweisitzer-Sofa; couch",
    "bed": """
        bed; bedstead; four-poster bed; daybed; Bett; Doppelbett; Betten; Zirbenbett; platform bed with drawers; Bettgestell
        king-size bed; Massivholzbett""",
    "headboard": "headboard; Kopfteil; Bettkopfteil; upholstered headboard",
    "bunk-bed": "bunk bed; loft bed; Bunk bed for two; bunk beds; high bed; Etagenbett; Hochbett; Stockbett; cabin bed",
    "wall-bed": "wall bed; fold-down bed; Schrankbett; Klappbett; folding bed",
    "cot": "cot; crib; cradle; bassinet; Gitterbett; Babybett; Wiege; Kinderbett; Beistellbett; toddler bed; baby cradle",
    "playpen": "playpen; Laufstall; Laufgitter",
    "stair-gate": "stair gate; baby gate; Treppenschutzgitter; Stair gate in beech",
    "changing-table": "changing table; Wickelkommode; Wickeltisch",
    "high-chair": "high chair; highchair; Hochstuhl; Kinderhochstuhl; high-chair",
    "learning-tower": "learning tower; toddler tower; Lernturm; kitchen helper",
    "child-furniture": "children's table; child's chair; Kinderstuhl; Kindertisch; kids' table; Children’s chair; play table",
    "toy": """
        toy; toy car; rattle; rocking horse; doll's house; dollhouse; Puppenhaus; Bauklötze; Schaukelpferd; Holzspielzeug
        play kitchen; Kinderküche; building blocks; wooden toys; pull-along toy; doll's bed; Puppenbett""",
    "chest": """
        chest; blanket chest; trunk; coffer; hope chest; Truhe; Wäschetruhe; sea chest
        linen chests; Truhen; dowry chest""",
    "toy-chest": "toy chest; toy box; Spielzeugkiste; Spielzeugtruhe; Painted toy chest; children's chest; Spielkiste aus Fichte",
    "tool-chest": "tool chest; toolbox; Werkzeugkiste; tool cabinet; Werkzeugschrank; Tool box",
    "chest-of-drawers": """
        chest of drawers; chests of drawers; dresser; tallboy; bureau; Kommode; Kommoden; Schubladenkommode; plan chest
        Apothekerschrank; highboy; six-drawer dresser""",
    "wardrobe": "wardrobe; armoire; linen press; Kleiderschrank; Kleiderschränke; Wäscheschrank; clothes cupboard",
    "cabinet": """
        cabinet; cupboard; larder; Bench plane cabinet; record cabinet; Schrank; Vitrine; Schränkchen; display case
        corner cupboard; Geschirrschrank; kitchen cabinet; Eckschrank; Vorratsschrank; Glasvitrine; china cabinets; gun cabinet""",
    "bedside-cabinet": "nightstand; bedside cabinet; night stands; Nachtschrank; Nachtkommode; Nachtkästchen",
    "sideboard": "sideboard; credenza; Sideboard with a slate inset; Anrichte; Lowboard; buffet; Welsh dresser; Büffet?",
    "tv-stand": "TV stand; TV stand in oak; media unit; media console; TV-Bank; TV-Möbel; TV Lowboard; Fernsehschrank; tv cabinet",
    "wall-cabinet": "wall cabinet; hanging cabinet; Cherry wall cabinet on a cleat; Hängeschrank; medicine cabinet; Spiegelschrank",
    "wall-shelf": "shelf; floating shelf; floating shelves; Wandregal; Wandbord; plate rack; picture ledge",
    "coat-rack": "coat rack; Coat rack on a French cleat; Garderobe; Hakenleiste; peg rail; Shaker peg rail; towel rail; Wandgarderobe",
    "bookcase": "bookcase; bookshelf; bookshelves; shelving unit; Regal; Bücherregal; Regale; Bücherwand; shelving; Bücherregale",
    "room-divider": "room divider; folding screen; Paravent; Raumteiler",
    "wine-rack": "wine rack; Weinregal; bottle rack",
    "coat-stand": "coat stand; hall tree; Garderobenständer; Kleiderständer; hat stand; umbrella stand; stummer Diener",
    "blanket-ladder": "blanket ladder; quilt ladder; leaning ladder; Deckenleiter; Handtuchleiter",
    "tall-clock": "longcase clock; grandfather clock; tall-case clock; Standuhr",
    "clock": "wall clock; mantel clock; Wanduhr; clock",
    "mirror": "mirror; wall mirror; Spiegel; Wandspiegel; round mirror; Badspiegel; Flurspiegel; mirror with a walnut frame",
    "leaning-mirror": "leaning mirror; cheval mirror; floor mirror; Standspiegel; full-length mirror",
    "picture-frame": "picture frame; frames; Bilderrahmen; Rahmen; frame for a drawing",
    "box": """
        box; jewellery box; jewelry box; humidor; urn; keepsake boxes; Schatulle; Schmuckkästchen; Kästchen; Box for a chess set
        pencil box; Holzkiste; memory box; Urnen""",
    "cutting-board": "cutting board; chopping board; bread board; end-grain board; Schneidebrett; Schneidebretter; Brotzeitbrett; charcuterie board",
    "bowl": "bowl; salad bowls; plate; tray; Schale; Schüssel; Tablett; Obstschale; Serviertablett; turned bowl; Holzteller; Schälchen",
    "spoon": "spoon; wooden spoons; spatula; Kochlöffel; Löffel; rolling pin; Pfannenwender; chopsticks; butter knife",
    "lamp": "table lamp; floor lamp; pendant; Stehleuchte; Tischlampe; Lampe; chandelier; wall light; Pendelleuchten; lantern",
    "candle-holder": "candlestick; candle holder; Kerzenständer; tealight holders",
    "outdoor-table": "garden table; picnic table; patio table; Gartentisch; Terrassentisch",
    "outdoor-seat": """
        garden bench; Garden bench in oak; garden chairs; deck chair; Gartenbank; Liegestuhl; park bench; sun lounger
        Gartenstühle; Adirondack chair; outdoor bench""",
    "gate": "garden gate; Gartentor; pergola; fence; driveway gates; Gartenzaun",
    "swing": "swing seat; porch swing; hammock; Hollywoodschaukel; Hängesessel; Schaukel; hanging chair",
    "climbing-frame": "climbing frame; playhouse; tree house; sandpit; Klettergerüst; Spielhaus; Sandkasten",
    "room-door": "door; room door; front door; barn door; interior doors; Tür; Zimmertür; Haustür; Schiebetür; Türen; pair of doors",
    "window": "sash window; shutters; Fenster; Fensterläden; Kastenfenster",
    "stairs": "staircase; stairs; Treppe; Holztreppe; staircase with an oak handrail",
    "handrail": "handrail; banister; Handlauf; Eichenhandlauf; newel post; Treppengeländer",
    "kitchen": "kitchen; kitchen island; Küche; Einbauküche; Kücheninsel; kitchen units",
    "worktop": "worktop; Kitchen worktop with a sink; countertop; Arbeitsplatte; butcher-block worktop; Küchenarbeitsplatte in Eiche",
    "washstand": "vanity unit; washstand; Waschtisch; Waschbeckenunterschrank",
    "bath-ware": "bath board; duckboard; bath caddy; sauna bench; Saunabank; Badewannenbrett; Duschrost",
    "walking-stick": "walking stick; Hazel walking stick; hiking staff; Gehstock; Spazierstock; crutches; Wanderstab",
    "built-in": "built-in wardrobe; fitted bookcase; alcove shelves; Einbauschrank; Einbauregal; built-in bench",
    "workbench": "workbench; work bench; joiner's bench; Werkbank; Hobelbank; sawhorse; Hobelbänke; shaving horse",
    "trolley": "tea trolley; bar cart; Servierwagen; kitchen trolley",
    "instrument-stand": "guitar stand; music stand; Notenpult; Gitarrenständer; keyboard stand",
    "aquarium-stand": "aquarium stand; fish tank cabinet; Aquarienschrank; Aquarium-Unterschrank; Aquariumschrank",
    "knife-rack": "knife block; magnetic knife rack; Messerblock; tool wall; Messerblöcke; Magnetleiste für Messer",
    "plant-stand": "plant stand; planter; Blumenkasten; Hochbeet; raised bed; window box; Blumenständer",
    "pet-furniture": "dog bed; Hundebett; chicken coop; dog crate",
    "cat-tree": "cat tree; Katzenbaum; Kratzbaum aus Eiche; scratching post",
    "wildlife-box": "nest box; bird house; Vogelhaus; Nistkasten; Starennistkasten; beehive; Insektenhotel; bat box",
    "game": "chess board; chess set; Schachbrett; backgammon board",
}
"""Names as makers write them, by the kind that the trade means; a `?` marks a slip of spelling that is not found."""

NOTHING = """
    praktisch; table saw; bench plane; bench hook; table runner; cabinet scraper; chair rail; Datenbank; Webstuhl; Dachstuhl
    shelf pin; bed slat; Parkett; Fahrstuhl; optisch; statisch; stand; rack; thing; Konzept; door handle; Kühlschrank; cabinet door
    Schranktür; Bibliothek; Rollstuhl; Kinderwagen; Katapult; Bildschirm; Sandbank; commission; 2026-014; Ding; Kunstwerk aus Eiche
    Stand for a vase; Holder for knives and spoons; Legs for a table; Auflage für ein Bett; Commission for a desk
    Steckdose; desk lamp base; Gefriertruhe; box joint; illegal; Grundwasserspiegel"""


def _listed(names):
    return [name.strip() for line in names.splitlines() for name in line.split(";") if name.strip()]


PAIRS = [(name, key) for key, names in CALLED.items() for name in _listed(names) if not name.endswith("?")]


@pytest.mark.parametrize(("name", "key"), PAIRS)
def test_a_piece_is_of_the_kind_that_the_trade_means(name, key):
    found = kind_of(name)
    assert found
    assert found.key == key


def test_the_list_is_long_and_in_both_languages():
    assert len(PAIRS) > 400
    assert {key for _, key in PAIRS} <= set(kinds())


@pytest.mark.parametrize("name", _listed(NOTHING))
def test_what_only_looks_like_a_piece_is_none(name):
    assert kind_of(name) is None


@pytest.mark.parametrize(
    ("piece", "title", "key"),
    [
        ("table", "Coffee table in ash", "side-table"),
        ("bed", "Bunk bed for two", "bunk-bed"),
        ("bench", "Garden bench", "outdoor-seat"),
        ("Tisch", "Gartentisch für die Terrasse", "outdoor-table"),
        ("cabinet", "A bench for the hall", "cabinet"),
        ("thing", "Writing desk", "desk"),
        ("", "Low bookcase for records", "bookcase"),
        ("sideboard", "", "sideboard"),
        ("chair", "Table", "chair"),
        ("", "", None),
        ("", "No. 14", None),
    ],
)
def test_what_the_job_calls_the_piece_comes_before_its_title_which_may_say_more(piece, title, key):
    found = kind_of(piece, title)
    assert (found.key if found else None) == key


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("Desk and chair", "desk"),
        ("Box with a lid like a chest", "box"),
        ("In memory of a grandmother: a cradle", "cot"),
        ("Walnut and oak table", "dining-table"),
        ("A pair of chests of drawers", "chest-of-drawers"),
        ("Schrank mit Spiegel", "cabinet"),
        ("Kiste für den Sandkasten", "box"),
        ("Shelf (above the bed)", "wall-shelf"),
        ("Child's first chair, cherry", "child-furniture"),
        ("Children's room bookcase", "bookcase"),
        ("Toddler’s oak bed", "cot"),
        ("Chair for a child", "chair"),
        ("Frame-and-panel chest", "chest"),
        ("Desk built in walnut", "desk"),
        ("Cabinet, built in cherry", "cabinet"),
        ("Set of four bar stools", "stool"),
        ("From an old beam: a bench", "bench"),
        ("Chest on stand", "chest-of-drawers"),
        ("TV stand, low bookcase", "tv-stand"),
    ],
)
def test_the_main_noun_counts_and_not_what_is_told_of_it(text, key):
    found = kind_of(text)
    assert found
    assert found.key == key


def test_what_a_kind_has_makes_sense_together():
    for kind in kinds().values():
        assert (
            not ({"hangs", "floor", "on-table"} & kind.has)
            or len({"hangs", "floor", "on-table"} & kind.has) == 1
        )
        assert kind.has <= set(HAS)
        assert kind.reaches <= set(REACHES)
        assert "washed-up" not in kind.has or "food" in kind.has
        assert "seat" not in kind.has or "people" in kind.has
        assert not ("cups" in kind.reaches and not kind.has & {"top", "low-top"}), kind.key


def test_a_wider_kind_holds_too():
    assert every_key(kind_of("TV stand")) == ("tv-stand", "sideboard")
    assert every_key(kind_of("leaning mirror")) == ("leaning-mirror", "mirror")
    assert every_key(None) == ()


@pytest.mark.parametrize(
    ("word", "meant"),
    [
        ("gossip stand", "TV stand"),
        ("rack", "plate rack"),
        ("wardrob", "wardrobe"),
        ("tabel", "table"),
        ("Komode", "Kommode"),
        ("bokcase", "bookcase"),
    ],
)
def test_the_nearest_kinds_are_named(word, meant):
    assert meant in nearest(word)


def test_nothing_near_is_nothing():
    assert nearest("blorp") == ()
    assert nearest("") == ()
