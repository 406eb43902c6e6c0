"""The piece for programs: JSON-LD in the vocabulary of schema.org, units by their codes of UN/CEFACT Rec 20."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import date
from typing import Any

from buildbook.pages.client.piece import ClientPiece
from buildbook.pages.shared import Contact
from buildbook.quantity.figures import placed

MILLIMETRE, KILOGRAM, CUBIC_METRE, PIECE = "MMT", "KGM", "MTQ", "C62"  # UN/CEFACT Recommendation 20, Annex I


def piece_jsonld(piece: ClientPiece) -> bytes:
    """A schema.org Product. What is not known is left out."""
    measures = piece.measures
    facts: dict[str, Any] = {
        "@context": "https://schema.org",
        "@type": "Product",
        "name": piece.title,
        "productID": piece.number,
        "category": piece.kind,
        "description": piece.introduction,
        "url": piece.page_address,
        "productionDate": piece.dated.isoformat() if piece.dated else "",
        "countryOfOrigin": _country(piece.contact.country),
        "manufacturer": _maker(piece.contact),
        "material": [name for material in piece.materials for name in (material.botanical or material.name,)],
        "width": _length(measures.width_m),
        "depth": _length(measures.depth_m),
        "height": _length(measures.height_m),
        "weight": _quantity(measures.mass_kg, KILOGRAM, 1),
        "additionalProperty": _properties(piece),
    }
    kept = {key: value for key, value in facts.items() if value not in ("", None, [], {})}
    return (json.dumps(kept, ensure_ascii=False, indent=1) + "\n").encode()


def _quantity(value: float | None, unit: str, places: int) -> dict[str, Any] | None:
    if value is None:
        return None
    return {"@type": "QuantitativeValue", "value": placed(value, places), "unitCode": unit}


def _length(metres: float | None) -> dict[str, Any] | None:
    return None if metres is None else _quantity(metres * 1000, MILLIMETRE, 1)


def _country(code: str) -> dict[str, str] | None:
    return {"@type": "Country", "name": code} if code else None


def _maker(contact: Contact) -> dict[str, Any]:
    facts = {
        "@type": "Organization",
        "name": contact.name or contact.maker,
        "employee": {"@type": "Person", "name": contact.maker} if contact.maker and contact.name else "",
        "address": ", ".join(contact.address),
        "email": contact.email,
        "telephone": contact.phone,
        "url": contact.web,
    }
    kept = {key: value for key, value in facts.items() if value}
    return kept if len(kept) > 1 else {}


def _property(name: str, value: float, unit: str, places: int) -> dict[str, Any]:
    return {"@type": "PropertyValue", "name": name, "value": placed(value, places), "unitCode": unit}


def _set(piece: ClientPiece) -> Iterator[dict[str, Any]]:
    """How many like pieces there are, by which numbers, and which went when; the figures are those of one."""
    if not piece.pieces:
        return
    yield {
        "@type": "PropertyValue",
        "name": "like pieces in the set, each as described",
        "value": len(piece.pieces),
        "unitCode": PIECE,
    }
    yield {
        "@type": "PropertyValue",
        "name": "numbers of the pieces",
        "value": [own.number for own in piece.pieces],
    }
    days: dict[date, list[str]] = {}
    for own in piece.pieces:
        if own.delivered:
            days.setdefault(own.delivered, []).append(own.number)
    for day in sorted(days):
        name = f"delivered on {day.isoformat()}"
        yield {"@type": "PropertyValue", "name": name, "value": days[day]}


def _properties(piece: ClientPiece) -> list[dict[str, Any]]:
    rows = list(_set(piece))
    of_all = f" in all {len(piece.pieces)} pieces" if piece.pieces else ""
    if piece.measures.stored_kg_co2 is not None:
        rows.append(
            _property("biogenic carbon stored, as carbon dioxide", piece.measures.stored_kg_co2, KILOGRAM, 1)
        )
    for line in piece.timber_statement:
        row = _property(f"net volume of {line.botanical or line.name}{of_all}", line.net_m3, CUBIC_METRE, 4)
        rows.append(row | ({"description": f"grew in {line.grew_in}"} if line.grew_in else {}))
    for moving in piece.seasons.moving:
        rows.append(_property(f"seasonal growth of {moving.part}", moving.grows_m * 1000, MILLIMETRE, 1))
        rows.append(_property(f"seasonal shrinkage of {moving.part}", moving.shrinks_m * 1000, MILLIMETRE, 1))
    return rows
