"""Whom the bench answers: the page that it sent itself, or a person who typed its address.

A page from elsewhere that is open in the same browser can ask this machine too, by its number, by `localhost`, or by
a name of its own that it turns to this machine. What tells them apart a page cannot forge: Host, Origin, Referer and
the Fetch Metadata headers (https://www.w3.org/TR/fetch-metadata/). Who writes must be known for certain: what need not
be there for reading must be there, and with it a word that only our own pages were given. Pure.
"""

from __future__ import annotations

import secrets
from collections.abc import Iterable
from dataclasses import dataclass
from http import HTTPStatus
from urllib.parse import urlsplit

from buildbook.bench.answer import JSON, Response

HOST = "127.0.0.1"
READS = ("GET", "HEAD")
WRITES = "POST"
TOKEN = "x-bench-token"
"""The header that brings the word of the page that writes; another site cannot set it without asking us first."""

_OWN_SITES = (
    "same-origin",
    "none",
)  # none: typed, or from a bookmark; a port of its own is not the same origin


@dataclass(frozen=True)
class Request:
    """A request: names of headers in small letters, values as they came. `body` is read only where it is taken."""

    method: str
    target: str
    headers: tuple[tuple[str, str], ...]
    body: bytes = b""

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
    if request.method not in (*READS, WRITES):
        return only_read()
    return None


def only_read() -> Response:
    """The answer to what would change what can only be read."""
    return Response.short(
        HTTPStatus.METHOD_NOT_ALLOWED, "The book can only be read.", ("Allow", ", ".join(READS))
    )


def refusal_to_write(request: Request, token: str, most_bytes: int) -> Response | None:
    """Why what a request that `refusal` lets pass would write is not taken; None when it is."""
    kinds = [kind.partition(";")[0].strip().lower() for kind in request.all("content-type")]
    given = request.all(TOKEN)
    if len(request.all("origin")) != 1 or any(
        site != "same-origin" for site in request.all("sec-fetch-site")
    ):
        return Response.short(HTTPStatus.FORBIDDEN, "Only a page of the bench may write.")
    if len(given) != 1 or not secrets.compare_digest(given[0].encode(), token.encode()):
        words = "This page is of an earlier run of the bench, or of none. Open it again."
        return Response.short(HTTPStatus.FORBIDDEN, words)
    if kinds != [JSON]:
        return Response.short(HTTPStatus.UNSUPPORTED_MEDIA_TYPE, "Only JSON is taken.")
    lengths = request.all("content-length")
    if len(lengths) != 1 or request.all("transfer-encoding"):
        return Response.short(HTTPStatus.LENGTH_REQUIRED, "How much is sent must be said.")
    if int(lengths[0]) > most_bytes:
        return Response.short(HTTPStatus.REQUEST_ENTITY_TOO_LARGE, "This is more than is taken at a time.")
    return None


def _origin_of(address: str) -> str:
    try:
        parts = urlsplit(address)
        return f"{parts.scheme}://{parts.netloc}".lower()
    except ValueError:
        return ""
