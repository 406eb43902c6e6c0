"""The seal: every change to a handover is named, and the short fingerprint survives being read out."""

import json
import random
import shutil

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.book.disk.write import listing, sha256
from buildbook.book.sealed import seal
from buildbook.book.sealed.names import SEAL
from buildbook.book.sealed.verify import verify
from buildbook.cli import main
from tests.conftest import every_file

SYMBOLS = st.text(alphabet=seal.ALPHABET, min_size=16, max_size=16)


@pytest.fixture
def handover(bound_sample, tmp_path):
    return shutil.copytree(bound_sample / "handover" / "sample_job", tmp_path / "handover")


def test_an_untouched_handover_is_whole(handover):
    verdict = verify(handover)
    assert verdict.ok
    assert seal.read_out(verdict.fingerprint) == verdict.fingerprint
    assert verdict.fingerprint in (handover / "index.html").read_text("utf-8")


def test_every_file_counts(handover):
    """Whichever file is changed by one bit, taken away or added, it is named."""
    for name, content in every_file(handover).items():
        if name == SEAL:
            continue
        path = handover / name
        path.write_bytes(content[:-1] + bytes([content[-1] ^ 1]))
        assert verify(handover).changed == (name,)
        path.unlink()
        assert verify(handover).missing == (name,)
        path.write_bytes(content)
    (handover / "more.txt").write_text("added")
    assert verify(handover).added == ("more.txt",)


def test_a_seal_made_to_fit_changed_files_has_another_fingerprint(handover):
    """Who changes a file and its SHA-256 must change the fingerprint too, and that one is on the printed card."""
    path = handover / SEAL
    facts = json.loads(path.read_text("utf-8"))
    changed = (handover / "care.ics").read_bytes().replace(b"VERSION:2.0", b"VERSION:2.1")
    (handover / "care.ics").write_bytes(changed)
    facts["files"]["care.ics"] = sha256(changed)
    path.write_bytes(listing(facts["files"], fingerprint=facts["fingerprint"], whole=facts["whole"]))
    verdict = verify(handover)
    assert not verdict.ok
    assert "fingerprint" in verdict.broken


@pytest.mark.parametrize(
    "content", [b"", b"{}", b"[]", b'{"files": []}', b'{"files": {"a": 1}}', b"\xff\xfe", b"null"]
)
def test_a_seal_that_cannot_be_read_is_said(handover, content):
    (handover / SEAL).write_bytes(content)
    verdict = verify(handover)
    assert not verdict.ok
    assert verdict.broken


@given(SYMBOLS, st.integers(0, 16), st.sampled_from(seal.ALPHABET))
def test_a_slip_of_one_symbol_does_not_fit(symbols, place, other):
    whole = symbols + seal.check_symbol(symbols)
    slipped = whole[:place] + other + whole[place + 1 :]
    assert (seal.read_out(slipped) is not None) == (slipped == whole)


def test_most_swaps_of_neighbours_do_not_fit():
    """Luhn mod N misses only the swap of the first and the last symbol of the alphabet."""
    chance = random.Random(1)
    for _ in range(500):
        symbols = "".join(chance.choices(seal.ALPHABET, k=16))
        whole = symbols + seal.check_symbol(symbols)
        place = chance.randrange(15)
        pair = {whole[place], whole[place + 1]}
        swapped = whole[:place] + whole[place + 1] + whole[place] + whole[place + 2 :]
        if len(pair) == 2 and pair != {seal.ALPHABET[0], seal.ALPHABET[-1]}:
            assert seal.read_out(swapped) is None


@pytest.mark.parametrize(
    ("payload", "check"),
    [
        # the alphabet of 32 symbols makes the check of all zeros zero; a single 1 counts double and takes 32 - 2
        ("0000000000000000", "0"),
        ("0000000000000001", "Y"),
    ],
)
def test_check_symbols_worked_by_hand(payload, check):
    assert seal.check_symbol(payload) == check


def test_it_may_be_typed_as_it_was_heard():
    text = seal.grouped("0000000000000001")
    assert seal.read_out(text.lower().replace("0", "o").replace("1", "l").replace("-", " ")) == text


def test_verify_in_words(handover, capsys):
    assert main(["verify", str(handover)]) == 0
    out, _ = capsys.readouterr()
    assert "nothing was added" in out
    assert "It does not show who sealed them" in out
    (handover / "care.ics").unlink()
    assert main(["verify", str(handover), "--json"]) == 1
    out, err = capsys.readouterr()
    assert json.loads(out)["missing"] == ["care.ics"]
    assert "missing: care.ics" in err
    assert main(["verify", str(handover / "nowhere")]) == 1
