"""Tests of `buildbook.bench`. `tests/bench` next door holds benchmarks."""

import contextlib
import socket
import threading
import time
from dataclasses import dataclass

from buildbook import bench
from buildbook.bench.edition import Edition
from buildbook.bench.server import Server

LONGEST_S = 20


def wait_for(condition, longest_s=LONGEST_S):
    """Poll until the condition holds; fails after a generous time."""
    end = time.monotonic() + longest_s
    while not condition():
        assert time.monotonic() < end, "it never came"
        time.sleep(0.02)


@dataclass
class Bench:
    """A bench at work: its address, what it has bound, what it has said."""

    address: str
    bound: list
    said: list


@contextlib.contextmanager
def running(folder, book, port=0, before=lambda: None, longest_s=LONGEST_S):
    """The bench, on a free port; `before` is called first in its thread."""
    bound, said, where, stop = [], [], [], threading.Event()

    def run():
        before()
        bench.run(folder, book, port, told=bound.append, said=said.append, ready=where.append, stop=stop)

    thread = threading.Thread(target=run)
    thread.start()
    try:
        wait_for(lambda: where, longest_s)
        yield Bench(where[0], bound, said)
    finally:
        stop.set()
        thread.join(LONGEST_S)
    assert not thread.is_alive()


@contextlib.contextmanager
def serving(book, desks=None):
    """The server alone, of a folder that is served as a book; faults of ours fail the test."""
    faults = []
    server = Server(book, 0, Edition(), faults.append, desks)
    server.start()
    try:
        yield server
    finally:
        server.stop()
    assert faults == []


@dataclass
class Got:
    """An answer off the wire."""

    status: int
    headers: dict
    body: bytes


def raw(port, sent, timeout=LONGEST_S):
    """What comes back for exactly these bytes, up to the end of the connection; None when nothing does."""
    with socket.create_connection(("127.0.0.1", port), timeout=timeout) as line:
        with contextlib.suppress(OSError):
            line.sendall(sent)
            line.shutdown(socket.SHUT_WR)
        came = b""
        with contextlib.suppress(ConnectionError):
            while data := line.recv(65536):
                came += data
    if not came:
        return None
    head, _, body = came.partition(b"\r\n\r\n")
    first, *lines = head.decode("latin-1").split("\r\n")
    headers = {name.lower(): value.strip() for name, _, value in (line.partition(":") for line in lines)}
    return Got(int(first.split()[1]), headers, body)


def ask(port, target="/", *headers, method="GET", host=None):
    """The answer to one request with these header lines."""
    lines = [
        f"{method} {target} HTTP/1.1",
        f"Host: {host or f'127.0.0.1:{port}'}",
        "Connection: close",
        *headers,
    ]
    return raw(port, ("\r\n".join(lines) + "\r\n\r\n").encode("utf-8"))
