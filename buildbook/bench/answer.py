"""What the bench sends: status, kind, content, and what goes with all of it."""

from __future__ import annotations

from dataclasses import dataclass
from http import HTTPStatus
from pathlib import PurePosixPath
from typing import BinaryIO

TEXT = "text/plain; charset=utf-8"
PAGE = "text/html; charset=utf-8"
SCRIPT = "text/javascript; charset=utf-8"
STYLE = "text/css; charset=utf-8"
JSON = "application/json"
_BYTES = "application/octet-stream"
_KINDS = {
    ".html": PAGE,
    ".css": STYLE,
    ".js": SCRIPT,
    ".json": JSON,
    ".jsonld": "application/ld+json",
    ".ics": "text/calendar; charset=utf-8",
    ".csv": "text/csv; charset=utf-8",
    ".txt": TEXT,
    ".jpg": "image/jpeg",
    ".jpeg": "image/jpeg",
    ".png": "image/png",
    ".webp": "image/webp",
    ".avif": "image/avif",
    ".svg": "image/svg+xml",
    ".pdf": "application/pdf",
    ".zip": "application/zip",
    ".woff2": "font/woff2",
}
"""Kinds of what lies in a book; the system's own table differs from machine to machine."""

_POLICY = "; ".join(
    (
        "default-src 'none'",  # nothing from elsewhere, whatever a page holds
        "script-src 'self'",
        "style-src 'self' 'unsafe-inline'",  # style sheets are inlined, so that a page mailed alone looks right
        "img-src 'self' data:",
        "font-src 'self' data:",
        "connect-src 'self'",
        "object-src 'self'",  # a browser's own viewer of a PDF
        "base-uri 'none'",
        "form-action 'self'",
        "frame-ancestors 'none'",
    )
)
_ALWAYS = (
    ("Content-Security-Policy", _POLICY),
    ("Cross-Origin-Resource-Policy", "same-origin"),
    ("Cross-Origin-Opener-Policy", "same-origin"),
    ("X-Content-Type-Options", "nosniff"),
    ("X-Frame-Options", "DENY"),
    ("Referrer-Policy", "same-origin"),
    ("Cache-Control", "no-store"),
)


@dataclass(frozen=True)
class Response:
    """One answer; `content` is bytes, or an open file of `size` bytes that is closed once it is sent."""

    status: HTTPStatus
    kind: str
    content: bytes | BinaryIO
    size: int
    more: tuple[tuple[str, str], ...] = ()

    @classmethod
    def of(cls, content: bytes, kind: str) -> Response:
        return cls(HTTPStatus.OK, kind, content, len(content))

    @classmethod
    def short(cls, status: HTTPStatus, words: str, *more: tuple[str, str]) -> Response:
        """A sentence, for what is not as it was asked."""
        content = f"{words}\n".encode()
        return cls(status, TEXT, content, len(content), more)

    @property
    def headers(self) -> list[tuple[str, str]]:
        own = (("Content-Type", self.kind), ("Content-Length", str(self.size)))
        return [*own, *_ALWAYS, *self.more]


def kind_of(name: str) -> str:
    """The media type of a file of the book by its name; what is not known is not opened by a browser."""
    return _KINDS.get(PurePosixPath(name).suffix.lower(), _BYTES)
