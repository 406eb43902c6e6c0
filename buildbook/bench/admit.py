"""Whom the bench answers: the page that it sent itself, or a person who typed its address.

A page from elsewhere that is open in the same browser can ask this machine too, by its number, by `localhost`, or by
a name of its own that it turns to this machine. What tells them apart a page cannot forge: Host, Origin, Referer and
the Fetch Metadata headers (https://www.w3.org/TR/fetch-metadata/). Pure.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from http import HTTPStatus
from urllib.parse import urlsplit

from buildbook.bench.answer import Response

HOST = "127.0.0.1"
_METHODS = ("GET", "HEAD")
_OWN_SITES = (
    "same-origin",
    "none",
)  # none: typed, or from a bookmark; a port of its own is not the same origin


@dataclass(frozen=True)
class Request:
    """The head of a request: names of headers in small letters, values as they came."""

    method: str
    target: str
    headers: tuple[tuple[str, str], ...]

    def all(self, name: str) -> list[str]:
        return [value.strip() for key, value in self.headers if key == name]


def own_hosts(port: int) -> tuple[str, ...]:
    """What a browser that means us sends as Host."""
    return f"{HOST}:{port}", f"localhost:{port}"


def refusal(request: Request, hosts: Iterable[str]) -> Response | None:
    """Why a request is not answered; None when it is. `hosts` are our own."""
    hosts_asked = request.all("host")
    if len(hosts_asked) != 1 or hosts_asked[0].lower() not in hosts:
        return Response.short(HTTPStatus.MISDIRECTED_REQUEST, "This is not the host that answers here.")
    own = f"http://{hosts_asked[0].lower()}"
    foreign = (
        any(site not in _OWN_SITES for site in request.all("sec-fetch-site"))
        or any(origin.lower() != own for origin in request.all("origin"))
        or any(_origin_of(referer) != own for referer in request.all("referer"))
    )
    if foreign:
        words = "The bench answers its own pages only. Type its address, or open it from the terminal."
        return Response.short(HTTPStatus.FORBIDDEN, words)
    if request.method not in _METHODS:
        allowed = ("Allow", ", ".join(_METHODS))
        return Response.short(HTTPStatus.METHOD_NOT_ALLOWED, "The book can only be read.", allowed)
    return None


def _origin_of(address: str) -> str:
    try:
        parts = urlsplit(address)
        return f"{parts.scheme}://{parts.netloc}".lower()
    except ValueError:
        return ""
