"""A TOML file of any bytes is read or told; a key's line is right or not given."""

import pytest

from buildbook.job.toml.file import read_toml
from buildbook.job.toml.lines import lines_of
from buildbook.problems import Problems
from tests.job import told


def test_where_keys_stand():
    text = '''# a remark = 1
title = "a"   # title = 2
sizes = { width = 1, "in depth" = { x = 2 } }
list = [
  "a = 1",
  { deep = 1 },
]
long = """
fake = 1
[fake]
"""
a.b = 1
[table]
key = 'x # y'
[[many]]
one = 1
[[many]]
one = 1
[many.inner]
two = 2
'''
    assert lines_of(text) == {
        ("title",): 2,
        ("sizes",): 3,
        ("sizes", "width"): 3,
        ("sizes", "in depth"): 3,
        ("sizes", "in depth", "x"): 3,
        ("list",): 4,
        ("list", 0): 5,
        ("list", 1): 6,
        ("list", 1, "deep"): 6,
        ("long",): 8,
        ("a", "b"): 12,
        ("table",): 13,
        ("table", "key"): 14,
        ("many", 0): 15,
        ("many", 0, "one"): 16,
        ("many", 1): 17,
        ("many", 1, "one"): 18,
        ("many", 1, "inner"): 19,
        ("many", 1, "inner", "two"): 20,
    }


@pytest.mark.parametrize("ends", ["\n", "\r\n"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_encodings(encoding, ends):
    problems = Problems()
    file = read_toml(f'title = "Türe"{ends}price = 1{ends}'.encode(encoding), "job.toml", problems)
    assert told(problems) == []
    assert file.values["title"] == "Türe"
    assert file.lines[("price",)] == 2


@pytest.mark.parametrize(
    ("data", "line"),
    [
        (
            b"x = " + b"9" * 5000,
            "error: job.toml: A number in this file is too long. Write it with fewer digits.",
        ),
        (
            b"x = " + b"[" * 100_000,
            "error: job.toml, line 1: Keys or lists stand 100,000 deep inside one another here; 20 can be read."
            " Write it more simply.",
        ),
        (
            b"x = 0xZZ",
            "error: job.toml, line 1: Something follows the value: “x = 0xZZ”."
            ' Put the whole value in quotes: key = "7 ft 3 in".',
        ),
        (
            b"[a\nx = 1",
            "error: job.toml, line 1: This is not TOML, expected ']' at the end of a table declaration: “[a”."
            ' A line is written key = "words", key = 12 or key = 2026-03-02.',
        ),
    ],
    ids=["a huge number", "deep lists", "letters in a number", "an open heading"],
)
def test_what_is_no_toml_is_told(data, line):
    problems = Problems()
    assert read_toml(data, "job.toml", problems) is None
    assert told(problems) == [line]


def test_an_exponent_beyond_all_bounds_is_read():
    problems = Problems()
    assert read_toml(b"x = 1e99999999999999999999", "job.toml", problems) is not None
    assert told(problems) == []
