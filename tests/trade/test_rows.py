"""Units of the tables turn into SI as NIST SP 811 says; a table that is not as it should be is refused
with its line.
"""

from __future__ import annotations

import pytest

from buildbook.trade import rows

from .reference import INCH, POUND_FORCE

HEADINGS = ("key", "value", "source", "basis")


@pytest.mark.parametrize(
    ("unit", "si"),
    [  # NIST SP 811 (2008), Appendix B.8
        ("in", 2.54e-2),
        ("ft", 3.048e-1),
        ("lbf", 4.448222),
        ("psi", 6.894757e3),
        ("lbf/in2", 6.894757e3),
        ("l", 1e-3),
        ("g/l", 1.0),
        ("in3", 1.638706e-5),
        ("lbf/in^1.75", POUND_FORCE / INCH**1.75),
    ],
)
def test_a_unit_is_worth_what_nist_says(unit: str, si: float) -> None:
    assert float(rows.factor(unit)) == pytest.approx(si, rel=1e-6)


def test_an_unknown_unit_is_refused() -> None:
    with pytest.raises(ValueError, match="cubit"):
        rows.factor("cubit")


@pytest.mark.parametrize(
    ("body", "said"),
    [
        ("a,1,,read", "t.csv, line 3: source is empty"),
        ("a,1,a book,hearsay", "t.csv, line 3: basis is 'hearsay', not one of read, memory"),
        ("a,1,a book", "t.csv, line 3: 3 cells, not 4"),
        ("a,1,a book,read\n# more\nb,2,,read", "t.csv, line 5: source is empty"),
    ],
)
def test_a_bad_row_is_refused_with_its_line(body: str, said: str) -> None:
    with pytest.raises(rows.TableError) as caught:
        rows.parse("t.csv", f"# what this is\nkey,value,source,basis\n{body}\n", HEADINGS)
    assert str(caught.value).startswith(said)


def test_wrong_headings_are_refused() -> None:
    with pytest.raises(rows.TableError, match="the headings are not key,value,source,basis"):
        rows.parse("t.csv", "key,source\n", HEADINGS)


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (lambda row: row.number("value"), "value is 'x', not a number"),
        (lambda row: row.yes("value"), "value is 'x', not yes or no"),
        (lambda row: row.one_of("value", ("a", "b")), "value is 'x', not one of a, b"),
    ],
)
def test_a_bad_cell_is_refused_in_words(call, said: str) -> None:
    row = rows.TableRow("t.csv", 7, {"value": "x"})
    with pytest.raises(rows.TableError, match=f"t.csv, line 7: {said}"):
        call(row)
