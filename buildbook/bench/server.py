"""The server of a book: its files, with the script that reloads added to pages, and the bench's own addresses.

The bench's own addresses are below `/-/`; no job can have that name. Below `/-/<name>/` lies a desk (`desk.py`), the
only thing that is ever written to.
"""

from __future__ import annotations

import asyncio
import hashlib
import os
import secrets
import threading
import time
import traceback
from collections.abc import Awaitable, Callable, Mapping
from dataclasses import replace
from http import HTTPStatus
from importlib import resources
from pathlib import Path
from urllib.parse import unquote_to_bytes

import msgspec

from buildbook.bench.address import Address, BadAddress, read_address
from buildbook.bench.admit import (
    HOST,
    READS,
    Request,
    only_read,
    own_hosts,
    refusal,
    refusal_to_write,
)
from buildbook.bench.answer import JSON, PAGE, SCRIPT, STYLE, Response, kind_of
from buildbook.bench.connections import Connections, listen
from buildbook.bench.desk import Desk, taken
from buildbook.bench.edition import Edition
from buildbook.bench.files import facts_of_scripts, is_folder, open_plain
from buildbook.bench.standing import Standing
from buildbook.book.place import HANDOVERS, LOGS

ASK_S = 25.0
"""How long a page's question stays open."""

_OWN = "-"
_TOKEN_BYTES = 32
_INDEX = "index.html"
_PAGE_BYTES = 64_000_000  # a page is read whole to put the script in; pages across 2,000 jobs are below 2 MB
_MARK_LETTERS = 16
_SCRIPT = resources.files("buildbook.bench") / "data" / "bench.js"
_STYLE = resources.files("buildbook.bench") / "data" / "bench.css"

Route = Callable[[Address], Awaitable[Response]]


class Server:
    """Shows a book on the loopback address from a thread of its own. `failed` is told of a fault of ours."""

    def __init__(
        self,
        book: Path,
        port: int,
        edition: Edition,
        failed: Callable[[str], None],
        desks: Mapping[str, Desk] | None = None,
        standing: Standing | None = None,
    ) -> None:
        """`desks` by their names; `standing`: what is wrong at the moment.

        Raises OSError or OverflowError when the port cannot be had.
        """
        self._book = book
        self._desks = desks or {}
        self._standing = standing
        self._failed = failed
        self._token = secrets.token_urlsafe(_TOKEN_BYTES)
        self._writing = threading.Lock()  # one at a time, so that none overwrites what another just wrote
        self._edition = edition
        self._socket = listen(HOST, port)
        self.port: int = self._socket.getsockname()[1]
        self._hosts = own_hosts(self.port)
        self._routes: Mapping[str, Route] = {
            "page": self._page,
            "bench.js": self._script,
            "bench.css": self._style,
        }
        self._connections = Connections(self.answer, self.not_taken, failed)
        self._thread = threading.Thread(target=lambda: asyncio.run(self._serve()), daemon=True)
        self._begun = threading.Event()

    @property
    def address(self) -> str:
        return f"http://{HOST}:{self.port}/"

    def start(self) -> None:
        self._thread.start()
        self._begun.wait()

    def stop(self) -> None:
        """End all connections and wait for the thread."""
        self._loop.call_soon_threadsafe(self._stop.set)
        self._thread.join()

    async def _serve(self) -> None:
        self._loop, self._stop = asyncio.get_running_loop(), asyncio.Event()
        await self._connections.serve(self._socket, self._stop, self._begun.set)

    async def answer(self, request: Request) -> Response:
        """What a request gets."""
        if refused := refusal(request, self._hosts):
            return refused
        try:
            address = read_address(request.target)
        except BadAddress as error:
            return Response.short(error.status, str(error))
        if desk := self._desk_of(address):
            if request.method in READS:
                return await asyncio.to_thread(self._shown, desk, address)
            if refused := self.not_taken(request):
                return refused
            return await asyncio.to_thread(self._taken, desk, address, request)
        if request.method not in READS:
            return only_read()
        if address.parts[:1] == (_OWN,):
            route = self._routes.get("/".join(address.parts[1:])) if not address.is_folder else None
            return await route(address) if route else _nothing()
        return await asyncio.to_thread(self._file, address)

    def not_taken(self, request: Request) -> Response | None:
        """Why what a request brings is not to be read; None when it is: it is for a desk, and from a page of ours."""
        if refused := refusal(request, self._hosts):
            return refused
        try:
            desk = self._desk_of(read_address(request.target))
        except BadAddress as error:
            return Response.short(error.status, str(error))
        if request.method in READS:
            return Response.short(HTTPStatus.REQUEST_ENTITY_TOO_LARGE, "Who asks sends nothing along.")
        return refusal_to_write(request, self._token, desk.most_bytes) if desk else only_read()

    def _desk_of(self, address: Address) -> Desk | None:
        own, *more = address.parts or ("",)
        return self._desks.get(more[0]) if own == _OWN and more else None

    def _shown(self, desk: Desk, address: Address) -> Response:
        """A page of a desk, with the word by which it may write."""
        edition = self._edition.now
        response = desk.show(address.parts[2:])
        if response is None:
            return _nothing()
        if response.kind != PAGE or not isinstance(response.content, bytes):
            return response
        content = _with_script(response.content, edition, edition, self._token)
        return replace(response, content=content, size=len(content))

    def _taken(self, desk: Desk, address: Address, request: Request) -> Response:
        try:
            with self._writing:
                return taken(desk, address.parts[2:], request.body)
        except Exception:  # a fault of ours must not look to the page like a line that broke
            self._failed(traceback.format_exc())
            words = "buildbook itself failed; whether this was written is not known. See the terminal."
            return Response.short(HTTPStatus.INTERNAL_SERVER_ERROR, words)

    async def _page(self, address: Address) -> Response:
        """What an open page asks about itself: whether it is still as it is in the book, and what is wrong with it.
        Where it says what it has `seen`, it is answered when there is something else, or the time is over.
        """
        asked = dict(part.partition("=")[::2] for part in address.query.split("&"))
        of = unquote_to_bytes(asked.get("of", "")).decode("latin-1")
        try:
            page = read_address(of)
        except BadAddress as error:
            return Response.short(error.status, str(error))
        if "seen" in asked:
            await self._edition.wait_past(asked["seen"], ASK_S)
        return await asyncio.to_thread(self._page_now, page)

    def _page_now(self, page: Address) -> Response:
        edition = self._edition.now
        of_job = page.parts[:1] in ((LOGS,), (HANDOVERS,))
        half_laid = self._edition.is_binding and not of_job
        if page.parts[:1] == (_OWN,):
            mark, band = edition, None  # what a desk shows may be made of anything
        else:
            parts = (*page.parts, _INDEX) if page.is_folder else page.parts
            found = open_plain(self._book, parts)
            mark, written = "", time.time()
            if found:
                file, size = found
                with file:
                    written = os.fstat(file.fileno()).st_mtime
                    if not half_laid:  # else it would be loaded now and once more when the binding is done
                        mark = self._mark(parts, file.read(min(size, _PAGE_BYTES)))
            band = self._standing.band(parts, written) if self._standing else None
        return Response.of(msgspec.json.encode({"edition": edition, "mark": mark, "band": band}), JSON)

    def _mark(self, parts: tuple[str, ...], page: bytes) -> str:
        """What tells a page from the one before: its bytes, and the scripts beside it, which it reads (the list's)."""
        digest = hashlib.sha256(page)
        for fact in facts_of_scripts(self._book, parts[:-1]):
            digest.update(repr(fact).encode())
        return digest.hexdigest()[:_MARK_LETTERS]

    async def _style(self, address: Address) -> Response:
        return Response.of(_STYLE.read_bytes(), STYLE)

    async def _script(self, address: Address) -> Response:
        return Response.of(_SCRIPT.read_bytes(), SCRIPT)

    def _file(self, address: Address) -> Response:
        parts = address.parts
        if address.is_folder:
            parts = (*parts, _INDEX)
        elif is_folder(self._book, parts):
            there = ("Location", address.path)
            return Response.short(HTTPStatus.TEMPORARY_REDIRECT, f"This is at {address.path}", there)
        edition = self._edition.now  # before the page is read: at worst it reloads once more
        found = open_plain(self._book, parts)
        if found is None:
            return _nothing()
        file, size = found
        kind = kind_of(parts[-1])
        if kind != PAGE or size > _PAGE_BYTES:
            return Response(HTTPStatus.OK, kind, file, size)
        with file:
            page = file.read()
            return Response.of(_with_script(page, edition, self._mark(parts, page)), PAGE)


def _with_script(page: bytes, edition: str, mark: str, token: str = "") -> bytes:
    before, end, after = page.rpartition(b"</body>")
    word = f' data-token="{token}"' if token else ""
    facts = f'data-edition="{edition}" data-mark="{mark}"{word}'
    script = f'<script src="/{_OWN}/bench.js" {facts}></script>\n'.encode()
    return before + script + end + after if end else page + script


def _nothing() -> Response:
    return Response.short(HTTPStatus.NOT_FOUND, "There is nothing here.")
