"""The command line speaks the language of the shop that it works for."""

import re
from pathlib import Path

import pytest

from buildbook.book.sealed.verify import verify
from buildbook.cli import main
from buildbook.cli.say import spoken_day
from buildbook.cli.spoken import language_of
from buildbook.words import Words
from tests.words.test_told import english_in

SHOP = 'name = "Werkstatt"\nlanguage = "de"\ncurrency = "EUR"\n'
PARTS = "Teil;Material;Länge;Breite;Dicke\nPlatte;Eiche;lang;80;20\nBein;Bubinga;700;60;60\n"


@pytest.fixture
def shelf(tmp_path):
    place = tmp_path / "aufträge"
    (place / "tisch").mkdir(parents=True)
    (place / "shop.toml").write_text(SHOP, "utf-8")
    (place / "tisch" / "parts.csv").write_text(PARTS, "utf-8")
    (place / "hocker").mkdir()
    (place / "hocker" / "notes.md").write_text("## 2.3.2026 Zapfen\n\nGut gelaufen.\n", "utf-8")
    return place


def said(capsys):
    """What was said, without the paths."""
    out, err = capsys.readouterr()
    return re.sub(r"\S*/\S*|\S+\.(?:toml|csv|md)\b", "…", out + err)


@pytest.mark.parametrize(
    "arguments",
    [
        ["proof", "{shelf}"],
        ["proof", "{shelf}/tisch"],
        ["bind", "{shelf}", "--to", "{book}"],
        ["bind", "{shelf}", "--to", "{book}", "--quiet"],
        ["proof", "{shelf}/nowhere"],
        ["find", "Zapfen", "--in", "{shelf}"],
        ["find", "Zapfen Kranich", "--in", "{shelf}"],
        ["estimate", "{shelf}/hocker", "--from", "{shelf}", "--to", "{book}"],
        ["handover", "{shelf}/hocker", "--to", "{book}"],
        ["begin", "{shelf}/bank", "--wood", "Eiche"],
        ["begin", "{shelf}/bank", "--like", "hocker"],
        ["begin", "{shelf}/bank", "--like", "Hocke"],
        ["begin", "{shelf}/bank", "--like", "hocker", "--units", "in"],
        ["begin", "{shelf}/bank", "--wood", "Eichxe"],
        ["begin", "{shelf}/bank", "--finish", "Ölx"],
        ["begin", "{shelf}/bank", "--units", "Elle"],
        ["begin", "{shelf}/hocker"],
        ["begin", "{shelf}/hocker/bank"],
        ["begin", "{shelf}/../bank", "--language", "de"],
        ["begin", "{shelf}/tisch/bank", "--language", "de"],
        ["bench", "{shelf}/nowhere", "--to", "{book}"],
    ],
)
def test_a_german_shop_reads_german(arguments, shelf, tmp_path, capsys):
    main([word.format(shelf=shelf, book=tmp_path / "buch") for word in arguments])
    text = said(capsys)
    assert text
    assert english_in(text.replace("piece = …", "…").replace("[[finish]]", "…")) == []


def test_the_words_are_those_of_the_trade(shelf, tmp_path, capsys):
    assert main(["bind", str(shelf), "--to", str(tmp_path / "buch"), "--why"]) == 1
    out, err = capsys.readouterr()
    assert "hocker: gebunden, " in out
    assert "  denn: von einem früheren Binden liegt hier nichts vor" in out
    assert "tisch: nicht gebunden, 1 Fehler, " in err
    assert "  Fehler: parts.csv, Zeile 2, length: „lang“ ist kein Maß." in err
    main(["bind", str(shelf), "--to", str(tmp_path / "buch")])
    assert "hocker: unverändert, " in capsys.readouterr().out


def test_a_german_handover_is_checked_in_german(tmp_path, capsys):
    """Its page says in which language it is: a client has no shop.toml beside it."""
    shelf, book = tmp_path / "aufträge", tmp_path / "buch"
    shelf.mkdir()
    (shelf / "shop.toml").write_text(SHOP, "utf-8")
    (shelf / "kiste").mkdir()
    (shelf / "kiste" / "job.toml").write_text('title = "Kiste"\npiece = "Kiste"\n', "utf-8")
    (shelf / "kiste" / "notes.md").write_text("## 2.3.2026 Zapfen\n\nGut gelaufen.\n", "utf-8")
    main(["bind", str(shelf), "--to", str(book)])
    handover = book / "handover" / "kiste"
    verdict = verify(handover)
    capsys.readouterr()
    for given, word in (((), "nichts fehlt"), (("--fingerprint", verdict.whole), "Jede Datei ist"),
                        (("--fingerprint", verdict.fingerprint), "Ihr Fingerabdruck ist")):  # fmt: skip
        assert main(["verify", str(handover), *given]) == 0
        text = said(capsys)
        assert word in text.replace("\n", " ")
        assert english_in(text) == []
    (handover / "mehr.txt").write_text("mehr", "utf-8")
    assert main(["verify", str(handover)]) == 1
    text = capsys.readouterr().err
    assert "  hinzugekommen: mehr.txt" in text
    assert f"Fehler: {handover}: ist nicht, wie es versiegelt wurde." in text
    (handover / "seal.json").write_text("{", "utf-8")
    assert main(["verify", str(handover)]) == 1
    assert "hat eine seal.json, die nicht gilt: Sie ist nicht zu lesen." in capsys.readouterr().err


def test_a_packed_handover_and_what_is_none_are_told_in_german(shelf, tmp_path, capsys):
    (shelf / "tisch" / "parts.csv").unlink()
    book, packed, away = tmp_path / "buch", tmp_path / "gepackt", tmp_path / "fort"
    packed.mkdir()
    main(["bind", str(shelf), "--to", str(book)])
    main(["handover", str(shelf / "hocker"), "--to", str(packed)])
    archive = next(packed.glob("*.zip"))
    away.mkdir()
    (away / "alone.zip").write_bytes(archive.read_bytes())
    (away / "damaged.zip").write_bytes(archive.read_bytes()[:-100])
    assert language_of(away / "alone.zip") == "de"
    assert language_of(away / "damaged.zip") == "en", "nothing is known of it"
    capsys.readouterr()
    for given in (
        [away / "alone.zip"],
        [away / "alone.zip", "--fingerprint", "abc"],
        [away / "alone.zip", "--fingerprint", "3" * 17],
        [next(packed.glob("*.html"))],
        [book],
        [book / "handover"],
        [book / "handover" / "hocker" / "care-card.pdf"],
        [shelf],
        [shelf / "hocker" / "notes.md"],
        [shelf / "nichts"],
    ):
        main(["verify", *map(str, given)])
        text = said(capsys)
        assert text
        assert english_in(text.replace("buildbook handover", "…")) == []


def test_which_language_a_folder_is_told_in(shelf, tmp_path):
    main(["bind", str(shelf), "--to", str(tmp_path / "buch"), "--quiet"])
    assert {language_of(place) for place in (shelf, shelf / "tisch", tmp_path / "buch")} == {"de"}
    assert {language_of(Path(place)) for place in (tmp_path / "none", tmp_path)} == {"en"}
    for stated, language in (('language = "de-LI"', "de"), ("language = 3", "en"), ("language", "en")):
        (shelf / "shop.toml").write_text(stated, "utf-8")
        assert language_of(shelf) == language


def test_a_day_is_as_its_language_writes_it_and_english_needs_no_words_for_it():
    assert Words("en").short_day("2026-09-16") == spoken_day("2026-09-16", "en") == "2026-09-16"
    assert [spoken_day("2026-09-16", name) for name in ("de", "en-US")] == ["16.09.2026", "09/16/2026"]
