"""No page that leaves the shop says a species that nobody stated."""

import re
from dataclasses import replace
from pathlib import Path

import pytest

from buildbook.book.bind_job import pages_of
from buildbook.job import read_job
from buildbook.job.table.materials import find_material
from buildbook.trade import tables
from tests.pages.client.test_hidden_rows import leaves

TESTS = Path(__file__).resolve().parents[2]


def of(material, country="", language="en"):
    """The sample, all its wood of one material."""
    job = read_job(TESTS.parent / "sample_job")
    shop = replace(job.shop, country_code=country, language=language)
    known = find_material("wood", material, shop.place)
    parts = tuple(
        replace(part, material=material, key=known.key, name_assumed=known.assumed, stated=known.stated)
        if part.kind == "wood"
        else part
        for part in job.parts
    )
    return replace(job, shop=shop, parts=parts, description="", features=(), joinery=(), entries=())


def texts(piece):
    return [value for _, value in leaves(piece) if isinstance(value, str)]


@pytest.mark.parametrize(
    "material", ["mahogany", "cedar", "tulipwood", "rosewood", "ironwood", "Erle", "Linde", "Kastanie"]
)
def test_a_name_of_several_woods_is_printed_as_written_without_a_species(material):
    job = of(material)
    said = texts(pages_of(job)[0])
    for wood in tables.species().meant(material):
        for name in {wood.botanical, *wood.botanical.split(" / "), wood.name}:
            found = re.compile(rf"\b{re.escape(name)}\b", re.IGNORECASE)
            assert [text for text in said if found.search(text)] == []
    assert any(material.casefold() in text.casefold() for text in said)


def test_a_name_that_its_place_makes_plain_is_printed_with_its_species():
    assert "Platanus occidentalis" in texts(pages_of(of("sycamore", "US"))[0])
    assert "Acer pseudoplatanus" in texts(pages_of(of("sycamore", "GB"))[0])
