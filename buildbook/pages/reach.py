"""How to reach the maker: each way with where it leads, for whatever is read on a screen."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from buildbook.pages.shared import Contact

_NUMBER = re.compile(
    r"\+?\(?\d(?:[\s().\-–]|/(?! )|(?<! )/|\d)*", re.ASCII
)  # one number, however it is grouped; no second one
_FROM_ABROAD = re.compile(r"(?<=\d)\s*\(0\)")  # the nought that a number with its country is dialled without
_DIGITS = range(3, 16)  # ITU-T E.164: fifteen at most


@dataclass(frozen=True)
class Way:
    """A way to reach the maker.

    kind  `address`, `phone`, `email` or `web`. text: as it is read. to: where it leads, empty for nowhere.
    """

    kind: str
    text: str
    to: str = ""


def ways(contact: Contact) -> Iterator[Way]:
    """The electronic ways that there are."""
    if contact.email:
        yield Way("email", contact.email, f"mailto:{contact.email}")
    if contact.phone:
        yield Way("phone", contact.phone, dialled(contact.phone))
    if contact.web:
        yield Way("web", contact.web, contact.web if is_web(contact.web) else "")


def dialled(phone: str) -> str:
    """A telephone number as a link (RFC 3966); empty for what is none."""
    if not _NUMBER.fullmatch(phone.strip()):
        return ""
    abroad = phone.strip().startswith("+")
    digits = re.sub(r"\D", "", _FROM_ABROAD.sub("", phone) if abroad else phone)
    return f"tel:{'+' if abroad else ''}{digits}" if len(digits) in _DIGITS else ""


def is_web(address: str) -> bool:
    """Whether an address is one that a browser opens."""
    return address.startswith(("https://", "http://"))
