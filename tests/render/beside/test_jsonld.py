"""piece.jsonld: valid JSON-LD by a processor of its own, in schema.org's words, units by UN/CEFACT codes."""

import json

import pytest
from pyld import jsonld

from buildbook.book.bind_job import pages_of
from buildbook.job import read_job
from buildbook.render.beside.jsonld import piece_jsonld
from tests.conftest import SAMPLE

# The context of schema.org maps every plain term to its own vocabulary (schema.org, developers' page; recalled).
CONTEXT = {
    "@context": {"@vocab": "https://schema.org/", "id": "@id", "type": "@type", "url": {"@type": "@id"}}
}
S = "https://schema.org/"


def from_here(url, options=None):
    """The context without asking the network for it."""
    return {"document": CONTEXT, "documentUrl": url, "contextUrl": None, "contentType": "application/ld+json"}


@pytest.fixture(scope="module")
def expanded():
    piece = pages_of(read_job(SAMPLE))[0]
    return jsonld.expand(json.loads(piece_jsonld(piece)), {"documentLoader": from_here})[0]


def value(node, *path):
    for name in path:
        node = node[S + name][0]
    return node["@value"]


def test_it_is_a_product_of_schema_org(expanded):
    assert expanded["@type"] == [S + "Product"]
    assert value(expanded, "name") == "Sideboard with a slate inset"
    assert value(expanded, "productID") == "2026-007"
    assert value(expanded, "manufacturer", "name") == "Tenterhook Furniture"
    assert value(expanded, "countryOfOrigin", "name")
    assert {m["@value"] for m in expanded[S + "material"]} >= {"Juglans nigra", "Slate"}


def test_sizes_have_unit_codes(expanded):
    """MMT millimetre, KGM kilogram, MTQ cubic metre: UN/CEFACT Recommendation 20."""
    assert (value(expanded, "width", "value"), value(expanded, "width", "unitCode")) == (1600, "MMT")
    assert value(expanded, "weight", "unitCode") == "KGM"
    codes = {value(p, "unitCode") for p in expanded[S + "additionalProperty"]}
    assert codes == {"KGM", "MTQ", "MMT"}


def test_what_is_not_known_is_left_out(make_job):
    bare = make_job(**{"notes.md": "## 2026-01-01 x\n\ny\n"})
    facts = json.loads(piece_jsonld(pages_of(read_job(bare))[0]))
    assert set(facts) <= {"@context", "@type", "name", "productionDate", "manufacturer", "additionalProperty"}
