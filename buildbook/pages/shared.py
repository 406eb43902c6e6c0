"""What pages for different readers are made of alike: a picture, a line, how to reach the shop.

Nothing here knows what a page is for: what may leave the shop is decided in `client` and `letter`.
"""

from __future__ import annotations

from dataclasses import dataclass

from buildbook.job.model import Job


@dataclass(frozen=True)
class Picture:
    """A picture by the fingerprint of its content; the renderer knows the files made from it.

    caption  what the maker says of it. alt: what it is, for whoever does not see it, beside the caption; where the
    caption is not shown, it is the better alternative text (`alone`).
    """

    digest: str
    width: int
    height: int
    alt: str
    caption: str = ""

    @property
    def alone(self) -> str:
        """The alternative text where no caption stands beside it."""
        return self.caption.strip() or self.alt.strip()


@dataclass(frozen=True)
class Line:
    """A label and its value."""

    label: str
    value: str
    note: str = ""


@dataclass(frozen=True)
class Contact:
    name: str = ""
    maker: str = ""
    address: tuple[str, ...] = ()
    email: str = ""
    phone: str = ""
    web: str = ""
    country: str = ""


def contact_of(job: Job) -> Contact:
    """How to reach the shop: the only fields of it that may leave."""
    shop = job.shop
    return Contact(
        name=shop.name,
        maker=shop.maker,
        address=tuple(line.strip() for line in shop.address.splitlines() if line.strip()),
        email=shop.email,
        phone=shop.phone,
        web=shop.web,
        country=shop.country,
    )
