"""A jig, taken apart as the maker wrote it."""

import pytest

from buildbook.job.notes.jigs import Jig, jig_of, labels_in, same_jig


@pytest.mark.parametrize(
    ("text", "jig"),
    [
        (
            "strip of the shelf pins, six holes at 32, first 150 from its foot; on the nail beside the drill, marked PINS.",
            Jig(
                "strip of the shelf pins",
                "PINS",
                "first 150 from its foot",
                "six holes at 32",
                "on the nail beside the drill",
            ),
        ),
        (
            "wedge of 2.5° for the shoulders; on the nail by the door, marked SLATE.",
            Jig("wedge of 2.5° for the shoulders", "SLATE", hangs="on the nail by the door"),
        ),
        (
            "Bohrleiste, alle 32, erstes Loch 150, hängt am Haken hinter der Tür, Zettel STIFTE",
            Jig("Bohrleiste", "STIFTE", "erstes Loch 150", "alle 32", "hängt am Haken hinter der Tür"),
        ),
        ("sled", Jig("sled")),
        ("a block, MDF, 4° under the leg", Jig("a block", "MDF")),
        ("", Jig("")),
    ],
)
def test_a_jig_is_told_by_what_its_line_says(text, jig):
    assert jig_of(text) == jig


def test_a_jig_is_known_by_what_is_written_on_it():
    assert (
        jig_of("strip; marked PINS").key
        == jig_of("the drilling strip, labelled PINS, hangs by the window").key
    )
    assert jig_of("tapering sledge").key == "tapering sledge"


def test_two_lines_of_one_jig_are_one():
    one, other = jig_of("strip; marked PINS"), jig_of("strip, holes at 32; in the drawer, marked PINS")
    assert same_jig([one, other]) == Jig("strip", "PINS", "", "holes at 32", "in the drawer")


def test_only_words_in_capitals_are_labels():
    assert list(labels_in("packed with the block marked CHAIR SIDE, 4° MDF; Not This, A4, NO")) == [
        "CHAIR SIDE",
        "MDF",
    ]
