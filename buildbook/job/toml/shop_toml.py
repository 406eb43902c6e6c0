"""shop.toml -> `Shop`. In: its bytes. Out: the shop, with whatever could be read."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from typing import Any

from buildbook.job.shop_model import Allowances, CardFormat, Payment, Quoting, Shop, letter_paper
from buildbook.job.table.countries import find_country
from buildbook.job.text import shown
from buildbook.job.toml import keys, shop_keys
from buildbook.job.toml.air import read_climate, read_made_at
from buildbook.job.toml.as_typed import units_said
from buildbook.job.toml.file import TomlTable, read_toml
from buildbook.problems import Problems, listed
from buildbook.quantity import Length
from buildbook.quantity.price import currencies
from buildbook.words import Words, chain, known_language, languages

FILE = "shop.toml"

_WHOLE = 100  # per cent
_CURRENCY = re.compile(r"[A-Z]{3}")  # the shape of ISO 4217
_LANGUAGE = re.compile(r"[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*")  # the shape of BCP 47
_EMAIL = re.compile(r"[^@\s]+@[^@\s]+\.[^@\s]+")


def read_shop_toml(data: bytes, problems: Problems) -> Shop:
    """The shop of a shop.toml; a plain `Shop()` where nothing can be read."""
    file = read_toml(data, FILE, problems)
    if file is None:
        return Shop()
    file.decimal_comma = decimal_comma(file.values.get("language"))
    top = file.top(shop_keys.SHOP, units_said(file.values.get("units"), keys.UNITS, Shop().units))
    found = top.read()
    _check_words(top, found)
    if not found.get("stages"):
        found["stages"] = usual_stages(found.get("language", Shop().language))
    allowances = top.table("allowances", shop_keys.ALLOWANCES)
    card = top.table("card", shop_keys.CARD)
    return replace(
        Shop(),
        **{name: value for name, value in found.items() if value not in ("", ())},
        waste=Allowances(**_metres(allowances.read())) if allowances else Allowances(),
        climate=read_climate(top.table("climate", keys.CLIMATE)),
        made_at=read_made_at(top.table("made_at", keys.MADE_AT)),
        card=_card(card, found),
        quoting=_quoting(top.table("estimate", shop_keys.ESTIMATE)),
    )


def _card(table: TomlTable | None, found: dict[str, Any]) -> CardFormat:
    """The prints as the shop says, else on the paper of its country."""
    letter = letter_paper(found.get("country_code", ""), found.get("units", Shop().units))
    usual = CardFormat(size="4x6", booklet="half-letter") if letter else CardFormat()
    return replace(usual, **table.read()) if table else usual


def _quoting(table: TomlTable | None) -> Quoting:
    if table is None:
        return Quoting()
    found = table.read()
    shares = [payment.read() for payment in table.tables("payment", shop_keys.PAYMENT)]
    payments = tuple(Payment(**share) for share in shares if len(share) == len(shop_keys.PAYMENT.keys))
    asked = math.fsum(payment.share_pct for payment in payments) + found.get("deposit_pct", 0)
    if payments and abs(asked - _WHOLE) > _WHOLE / 1000:
        hint = f"Together they ask for {asked:g} %: put right deposit or share."
        table.warn("Deposit and payments do not make up the whole price.", hint, "payment")
    return Quoting(**{k: v for k, v in found.items() if k != "payment"}, payments=payments)


def _metres(found: dict[str, Any]) -> dict[str, float]:
    return {name: value.m if isinstance(value, Length) else value for name, value in found.items()}


def decimal_comma(language: object) -> bool:
    """Whether a comma is read as the decimal mark in texts of this language; a country of it may print another."""
    known = known_language(language) if isinstance(language, str) else None
    return known is not None and Words(chain(known)[-1]).text("figures.decimal") == ","


def usual_stages(language: str) -> tuple[str, ...]:
    """The stages of work of a shop that names none, in its language."""
    return tuple(Words(language).section("stages").values())


def _set_currency(top: TomlTable, found: dict[str, Any]) -> None:
    """The code of a currency that is said by its sign or its name; a sign of several is that of the shop's country."""
    said = str(found.get("currency", ""))
    if _CURRENCY.fullmatch(said):
        return
    country = find_country(
        str(found.get("country") or str(found.get("language", "")).partition("-")[2])
    ).country
    codes = currencies(said, country.code if country else "")
    if len(codes) == 1:
        (found["currency"],) = codes
    elif codes:
        del found["currency"]
        which = "dollar" if "USD" in codes else "currency"
        written = [f'"{code}"' for code in sorted(codes)]
        hint = f"Write currency = {listed(written, 'or')}."
        top.error(f"{shown(said)} does not say which {which}.", hint, "currency")


def _check_words(top: TomlTable, found: dict[str, Any]) -> None:
    """Keys whose words have a shape of their own; a wrong one is told and left out."""
    _set_currency(top, found)
    for name, shape, what, hint in (
        ("currency", _CURRENCY, "a currency", 'Write its three letters, such as currency = "EUR".'),
        ("language", _LANGUAGE, "a language", 'Write its letters, such as language = "en".'),
        ("email", _EMAIL, "an address for mail", 'Write one such as email = "workshop@example.org".'),
    ):
        if found.get(name) and not shape.fullmatch(found[name]):
            top.error(f"{shown(found.pop(name))} is not {what}.", hint, name)
    _check_language(top, found)
    if found.get("country"):
        known = find_country(found["country"])
        if known.country is None:
            top.warn(f"{shown(found['country'])} is not a country that is known here.", known.hint, "country")
        else:
            found["country"], found["country_code"] = known.country.name, known.country.code
            _set_form(found)


def _set_form(found: dict[str, Any]) -> None:
    """A language that names no country is written as in the shop's: `en` in the United States is `en-US`."""
    language = found.get("language", Shop().language)
    here = f"{language}-{found['country_code']}"
    if "-" not in language and here in languages():
        found["language"] = here


def _check_language(top: TomlTable, found: dict[str, Any]) -> None:
    """One that there are words for; a form of a country that has none (`de-LI`) is its language."""
    if not found.get("language"):
        found.pop("language", None)
        return
    if (language := known_language(found["language"])) is not None:
        found["language"] = language
        return
    known = listed([f'"{name}"' for name in languages()], "or")
    top.error(
        f"There are no words for the language {shown(found.pop('language'))}.", f"Write {known}.", "language"
    )
