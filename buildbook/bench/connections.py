"""Connections to the bench: how many there may be, how long each may take, and HTTP/1.1 on each of them.

The protocol is read and written by h11, which refuses what is not HTTP; here are the socket, the bounds and the
deadlines. When too many are open, the one that has kept us waiting longest makes room: a page of ours is answered
whatever else knocks.
"""

from __future__ import annotations

import asyncio
import contextlib
import socket
import traceback
from collections.abc import AsyncIterator, Callable, Coroutine
from dataclasses import replace
from http import HTTPStatus

import h11

from buildbook.bench.admit import Request
from buildbook.bench.answer import Response

OPEN_MOST = 128
"""Connections at a time; a browser opens six."""

HEAD_S = 10.0
"""From a connection's begin, or the last answer's end, until the head of the next request is whole."""

BODY_S = 10.0
"""For what a page of ours sends, whole."""

SEND_S = 60.0
"""For sending one answer whole."""

_HEAD_BYTES = 16_384
_CHUNK_BYTES = 262_144
_LINGER_S = 1.0  # what still comes in is read that long, so that the answer is not lost with the connection
_LINGER_BYTES = 1_000_000


def listen(host: str, port: int) -> socket.socket:
    """A listening socket. Raises OSError or OverflowError when the port cannot be had."""
    return socket.create_server((host, port), backlog=OPEN_MOST)


class _Connection:
    """One connection: `waits` while it has sent no whole request."""

    def __init__(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        self.reader = reader
        self.writer = writer
        self.http = h11.Connection(h11.SERVER, max_incomplete_event_size=_HEAD_BYTES)
        writer.transport.set_write_buffer_limits(high=0)  # what was drained is with the system
        # an answer goes out in several steps, and none waits for the other side to acknowledge the one before (40 ms)
        writer.get_extra_info("socket").setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, True)
        self.waits = True
        self.task = asyncio.current_task()


class Connections:
    """Serves `answer` on a socket. `failed` is told the traceback of a fault of ours; the connection then ends.

    `not_taken` is asked about the head of a request that brings a body: why it is not read, or None where it is.
    """

    def __init__(
        self,
        answer: Callable[[Request], Coroutine[None, None, Response]],
        not_taken: Callable[[Request], Response | None],
        failed: Callable[[str], None],
    ) -> None:
        self._answer = answer
        self._not_taken = not_taken
        self._failed = failed
        self._open: dict[_Connection, None] = {}  # in the order in which they came

    async def serve(self, listening: socket.socket, stop: asyncio.Event, begun: Callable[[], None]) -> None:
        """Until told to stop; then every connection is ended."""
        server = await asyncio.start_server(self._serve_one, sock=listening)
        begun()
        await stop.wait()
        server.close()
        tasks = [connection.task for connection in self._open if connection.task]
        for task in tasks:
            task.cancel()
        await asyncio.gather(*tasks, return_exceptions=True)
        await server.wait_closed()

    async def _serve_one(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        connection = _Connection(reader, writer)
        if not self._make_room():
            writer.transport.abort()
            return
        self._open[connection] = None
        try:
            while await self._one_request(connection):
                pass
            await _end(connection)
        except (OSError, TimeoutError, h11.ProtocolError, asyncio.CancelledError):
            pass  # the other side is gone, too slow, or makes room: nothing to say, and nobody to say it to
        except Exception:
            self._failed(traceback.format_exc())
        finally:
            del self._open[connection]
            writer.transport.abort()

    def _make_room(self) -> bool:
        if len(self._open) < OPEN_MOST:
            return True
        oldest = next((one for one in self._open if one.waits), None)
        if oldest is None or oldest.task is None:
            return False
        oldest.waits = False
        oldest.task.cancel()
        return True

    async def _one_request(self, connection: _Connection) -> bool:
        """Response the next request; False when there is no other to come."""
        http = connection.http
        connection.waits = True
        try:
            async with asyncio.timeout(HEAD_S):
                event = await _next_event(connection)
        except h11.RemoteProtocolError as error:
            await _send(connection, _not_http(error), last=True)
            return False
        connection.waits = False
        if not isinstance(event, h11.Request):
            return False
        request = _request_of(event)
        refused = None
        if _brings_a_body(request):
            refused = self._not_taken(request)
            if refused is None:
                try:
                    request = replace(request, body=await _body(connection))
                except h11.RemoteProtocolError as error:
                    refused = _not_http(error)
        else:
            http.next_event()  # the end of what has only a head
        answer = refused or await self._until_gone(connection, self._answer(request))
        await _send(connection, answer, last=refused is not None, head=event.method == b"HEAD")
        if http.our_state is not h11.DONE or http.their_state is not h11.DONE:
            return False
        http.start_next_cycle()
        return True

    async def _until_gone(
        self, connection: _Connection, answering: Coroutine[None, None, Response]
    ) -> Response:
        """The answer, unless the other side ends the connection and there is none soon: a page that was left."""
        answer = asyncio.create_task(answering)
        more = asyncio.create_task(connection.reader.read(_HEAD_BYTES))
        try:
            await asyncio.wait({answer, more}, return_when=asyncio.FIRST_COMPLETED)
            if not answer.done() and not more.result():
                await asyncio.wait({answer}, timeout=_LINGER_S)
                if not answer.done():
                    raise ConnectionResetError
            return await answer
        finally:
            answer.cancel()
            more.cancel()
            await asyncio.wait({more})
            if not more.cancelled() and more.exception() is None:
                connection.http.receive_data(more.result())  # the next request, sent ahead; or the end


def _request_of(event: h11.Request) -> Request:
    headers = tuple((name.decode("latin-1"), value.decode("latin-1")) for name, value in event.headers)
    return Request(event.method.decode("ascii"), event.target.decode("latin-1"), headers)


def _brings_a_body(request: Request) -> bool:
    lengths = request.all("content-length")
    return bool(request.all("transfer-encoding")) or any(length != "0" for length in lengths)


async def _body(connection: _Connection) -> bytes:
    """What a request brings, as long as its head says. Raises TimeoutError when it is too slow."""
    http, came = connection.http, bytearray()
    async with asyncio.timeout(BODY_S):
        if http.they_are_waiting_for_100_continue:
            go_on = h11.InformationalResponse(status_code=HTTPStatus.CONTINUE, headers=[])
            connection.writer.write(http.send(go_on) or b"")
        while isinstance(event := await _next_event(connection), h11.Data):
            came += event.data
    return bytes(came)


async def _next_event(connection: _Connection) -> object:
    while (event := connection.http.next_event()) is h11.NEED_DATA:
        connection.http.receive_data(await connection.reader.read(_HEAD_BYTES))
    return event


def _not_http(error: h11.RemoteProtocolError) -> Response:
    try:
        status = HTTPStatus(error.error_status_hint)
    except ValueError:
        status = HTTPStatus.BAD_REQUEST
    return Response.short(status, "This cannot be read as a request.")


async def _send(connection: _Connection, answer: Response, *, last: bool, head: bool = False) -> None:
    """Send an answer, or its head alone. Raises TimeoutError, OSError and h11's errors; its file is closed anyhow."""
    http, writer = connection.http, connection.writer
    headers = [*answer.headers, *([("Connection", "close")] if last else [])]
    status, phrase = answer.status.value, answer.status.phrase.encode()
    try:
        async with asyncio.timeout(SEND_S):
            writer.write(http.send(h11.Response(status_code=status, headers=headers, reason=phrase)) or b"")
            if not head:
                async for chunk in _chunks(answer):
                    writer.write(http.send(h11.Data(data=chunk)) or b"")
                    await writer.drain()
            writer.write(http.send(h11.EndOfMessage()) or b"")
            await writer.drain()
    finally:
        if not isinstance(answer.content, bytes):
            answer.content.close()


async def _chunks(answer: Response) -> AsyncIterator[bytes]:
    if isinstance(answer.content, bytes):
        yield answer.content
        return
    left = answer.size
    while left > 0:
        chunk = await asyncio.to_thread(answer.content.read, min(left, _CHUNK_BYTES))
        if not chunk:
            raise OSError("the file became shorter while it was sent")
        left -= len(chunk)
        yield chunk


async def _end(connection: _Connection) -> None:
    """Close so that what was sent arrives: our side first, then read for a moment what still comes."""
    if connection.writer.can_write_eof():
        connection.writer.write_eof()
    left = _LINGER_BYTES
    with contextlib.suppress(TimeoutError):
        async with asyncio.timeout(_LINGER_S):
            while left > 0 and (data := await connection.reader.read(_HEAD_BYTES)):
                left -= len(data)
