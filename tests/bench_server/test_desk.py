"""What writes, as a page from elsewhere, or a program on this machine, would try to use it: off the wire."""

import json
import re
import socket
import threading
import time

import msgspec
import pytest

from buildbook.bench import connections
from buildbook.bench.answer import PAGE, Response
from buildbook.bench.desk import Desk, NotTaken
from buildbook.bench.edition import Edition
from buildbook.bench.server import Server
from tests.bench_server import ask, raw, serving

MOST = 2_000


class Told(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """What the desk of these tests takes."""

    words: str
    turn: int = 0


@pytest.fixture
def written():
    """Everything that ever came through to the desk."""
    return []


@pytest.fixture
def port(tmp_path, written):
    (tmp_path / "index.html").write_bytes(b"<body>book</body>")

    def take(parts, told):
        if told.words == "busy":
            raise NotTaken("photos.toml was changed in an editor meanwhile. Open this page again.")
        written.append((parts, told.words))
        return {"taken": told.words}

    def show(parts):
        return Response.of(b"<body>the desk</body>", PAGE) if parts in ((), ("box",)) else None

    with serving(tmp_path, {"sheet": Desk(show, take, Told, MOST)}) as running:
        yield running.port


def token_of(port):
    return re.search(rb'data-token="([^"]+)"', ask(port, "/-/sheet/").body).group(1).decode()


def head(port, **changed):
    """The header lines of a page of ours; one given as None is left out, a list stands as often as it has items."""
    lines = {
        "Host": f"127.0.0.1:{port}",
        "Origin": f"http://127.0.0.1:{port}",
        "Sec-Fetch-Site": "same-origin",
        "Content-Type": "application/json",
        "X-Bench-Token": token_of(port),
    } | {name.replace("_", "-"): value for name, value in changed.items()}
    return [
        f"{name}: {one}"
        for name, value in lines.items()
        if value is not None
        for one in (value if isinstance(value, list) else [value])
    ]


def send(port, body=b'{"words": "hello"}', target="/-/sheet/box", method="POST", length=True, **changed):
    lines = [f"{method} {target} HTTP/1.1", "Connection: close", *head(port, **changed)]
    if length:
        lines.append(f"Content-Length: {len(body)}")
    return raw(port, "\r\n".join(lines).encode() + b"\r\n\r\n" + body)


def test_a_page_of_ours_writes(port, written):
    got = send(port)
    assert (got.status, json.loads(got.body)) == (200, {"taken": "hello"})
    assert written == [(("box",), "hello")]


def test_why_something_is_not_taken_is_told_in_words(port, written):
    got = send(port, b'{"words": "busy"}')
    assert (got.status, got.body.decode()) == (
        409,
        "photos.toml was changed in an editor meanwhile. Open this page again.\n",
    )
    assert written == []


def test_lines_that_follow_one_another_are_told_apart(port, written):
    """Two that write and one that reads, sent ahead on one line: where a body ends decides what the next one is."""
    lines = [*head(port), "Content-Length: 17"]
    one = "\r\n".join(["POST /-/sheet/box HTTP/1.1", *lines]).encode() + b"\r\n\r\n" + b'{"words":"hello"}'
    last = f"GET /index.html HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nConnection: close\r\n\r\n".encode()
    with socket.create_connection(("127.0.0.1", port)) as line:
        line.sendall(one + one + last)
        came = b"".join(iter(lambda: line.recv(65536), b""))
    assert came.count(b"HTTP/1.1 200") == 3
    assert len(written) == 2


@pytest.mark.parametrize(
    "changed",
    [
        {"Host": "enemy.test"},
        {"Host": "enemy.test", "Origin": "http://enemy.test"},  # its name was turned to this machine
        {"Host": "enemy.test:{port}", "Origin": "http://enemy.test:{port}"},
        {"Host": "localhost:{port}"},  # origin is the other of our two names
        {"Host": ["127.0.0.1:{port}", "enemy.test"]},
        {"Origin": None},
        {"Origin": "null"},
        {"Origin": "http://enemy.test"},
        {"Origin": "http://127.0.0.1:1"},
        {"Origin": "https://127.0.0.1:{port}"},
        {"Origin": "http://127.0.0.1:{port}.enemy.test"},
        {"Origin": ["http://127.0.0.1:{port}", "http://127.0.0.1:{port}"]},
        {"Origin": ["http://127.0.0.1:{port}", "http://enemy.test"]},
        {"Sec_Fetch_Site": "cross-site"},
        {"Sec_Fetch_Site": "same-site"},
        {"Sec_Fetch_Site": "none"},  # typed: nobody types what writes
        {"Referer": "http://enemy.test/"},
        {"X_Bench_Token": None},
        {"X_Bench_Token": ""},
        {"X_Bench_Token": "a"},
        {"X_Bench_Token": "é"},
        {"X_Bench_Token": "{token}x"},
        {"X_Bench_Token": "{short}"},
        {"X_Bench_Token": ["{token}", "{token}"]},
        {"X_Bench_Token": "{token}, {token}"},
        {"X_Bench_Token": None, "Cookie": "x-bench-token={token}"},
        {"Content_Type": None},
        {"Content_Type": "text/plain"},  # what a form may send to anywhere
        {"Content_Type": "application/x-www-form-urlencoded"},
        {"Content_Type": "multipart/form-data; boundary=x"},
        {"Content_Type": "text/plain; application/json"},
        {"Content_Type": ["application/json", "text/plain"]},
        {"Content_Encoding": "gzip", "Content_Type": "application/gzip"},
    ],
    ids=str,
)
def test_nobody_else_writes(port, written, changed):
    token = token_of(port)

    def filled(value):
        if isinstance(value, list):
            return [filled(one) for one in value]
        return value and value.format(port=port, token=token, short=token[:-1])

    got = send(port, **{name: filled(value) for name, value in changed.items()})
    assert got is None or got.status in (400, 403, 415, 421)
    assert written == []
    assert got is None or token.encode() not in got.body


@pytest.mark.parametrize("method", ["GET", "HEAD", "PUT", "PATCH", "DELETE", "OPTIONS", "post", "TRACE"])
def test_only_one_method_writes(port, written, method):
    for body in (b"", b'{"words": "hello"}'):
        got = send(port, body, method=method)
        assert got.status in (200, 400, 405, 413)
        assert "access-control-allow-origin" not in got.headers
    assert written == []


@pytest.mark.parametrize(
    "target",
    [
        "/", "/index.html", "/-/", "/-/sheet", "/-/page?of=/&seen=", "/-/bench.js", "/-/other/box", "/-/sheetx/box",
        "/-/Sheet/box", "//-/sheet/box", "/-//sheet/box", "/-/../-/sheet/box", "/-/sheet/../sheet/box", "/-/sheet/..",
        "/-/sheet/%2e%2e/box", "/-/sheet/..%2fbox", "/-%2fsheet/box", "/-/sheet%2fbox", "/-/sheet/a%2fb",
        "/-/sheet/a%5cb", "/-/sheet/a\\b", "/-/sheet/%00", "/-/sheet/box%00", "/-/sheet/.git", "/-/sheet/C:",
        "/-/sheet/box%0d%0aX:%20y", "/-/sheet/%ff", "/-/sheet/box#x", "/-/sheet/" + "a" * 5_000,
        "http://127.0.0.1/-/sheet/box", "*", "",
    ],
)  # fmt: skip
def test_tricks_of_the_path_write_nothing(port, written, target):
    got = send(port, target=target)
    assert got is None or 400 <= got.status < 500 or target in ("/-/sheet",)
    assert [parts for parts, _ in written] in ([], [()])


def test_what_the_desk_does_not_show_is_not_there(port):
    assert ask(port, "/-/sheet/box").status == 200
    assert ask(port, "/-/sheet/other").status == 404


@pytest.mark.parametrize(
    "body",
    [
        b"", b"{", b"[]", b"null", b'"words"', b"{}", b'{"words": 1}', b'{"words": "a", "more": 1}', b"\xff\xfe{",
        b'{"words": "\xff"}', b'{"words": "a", "turn": 1e999}', b'{"words": "a", "turn": NaN}',
        b"[" * 1_900, b'{"words": "a"} {"words": "b"}',
        b"words=hello", b'{"words": "a\x00"}', b"\xef\xbb\xbf{}",
    ],
)  # fmt: skip
def test_what_is_no_such_thing_is_told_and_not_written(port, written, body):
    got = send(port, body)
    assert got.status == 400
    assert got.body.startswith(b"This cannot be read as what this page sends")
    assert written == []


@pytest.mark.parametrize(
    ("more", "status"),
    [
        (["Content-Length: 999999999999"], 413),
        ([f"Content-Length: {MOST + 1}"], 413),
        (["Content-Length: 99999999999999999999999999"], 400),
        (["Content-Length: -1"], 400),
        (["Content-Length: 18", "Content-Length: 19"], 400),
        (["Content-Length: 18", "Transfer-Encoding: chunked"], 411),
        (["Transfer-Encoding: chunked"], 411),
        (["Content-Length: 4e1"], 400),
    ],
)
def test_how_much_comes_is_said_before_and_bounded(port, written, more, status):
    """What is too much is refused at its head: none of it is read."""
    lines = ["POST /-/sheet/box HTTP/1.1", *head(port), *more]
    got = raw(port, "\r\n".join(lines).encode() + b"\r\n\r\n" + b'{"words": "hello"}')
    assert got.status in (status, 501 if "chunked" in more[-1] else status)
    assert written == []


def test_a_body_longer_than_it_says_is_cut_there(port, written):
    got = send(port, b'{"words": "hello"}GET / HTTP/1.1\r\n\r\n', length=False, Content_Length="18")
    assert got.status == 200
    assert written == [(("box",), "hello")]


def test_a_body_that_ends_early_writes_nothing(port, written):
    got = send(port, b'{"words": "hel', length=False, Content_Length="18")
    assert got is None or got.status == 400
    assert written == []


def test_who_asks_first_whether_to_send_is_told_to(port, written):
    got = send(port, Expect="100-continue")
    assert got.status == 100
    assert b"HTTP/1.1 200" in got.body
    assert send(port, Expect="100-continue", Origin="http://enemy.test").status == 403
    assert len(written) == 1


def test_a_body_that_comes_by_drops_is_not_waited_for(port, written, monkeypatch):
    monkeypatch.setattr(connections, "BODY_S", 0.5)
    lines = ["POST /-/sheet/box HTTP/1.1", *head(port), "Content-Length: 1000"]
    started = time.monotonic()
    with socket.create_connection(("127.0.0.1", port), timeout=10) as line:
        line.sendall("\r\n".join(lines).encode() + b"\r\n\r\n")
        try:
            while time.monotonic() - started < 8:
                line.sendall(b" ")
                time.sleep(0.1)
        except OSError:
            pass
    assert time.monotonic() - started < 5
    assert written == []


def test_each_run_has_a_word_of_its_own_and_no_page_of_the_book_knows_it(port, tmp_path):
    with serving(tmp_path) as one, serving(tmp_path) as other:
        first, second = one._token, other._token
    assert first != second
    assert len(first) > 40
    for target in ("/", "/index.html", "/-/bench.js", "/-/page?of=/&seen="):
        assert token_of(port).encode() not in ask(port, target).body
    assert ask(port, "/-/sheet/", "Sec-Fetch-Site: cross-site").status == 403


def test_a_fault_of_the_desk_is_told_and_the_bench_goes_on(tmp_path):
    faults = []

    def take(parts, told):
        raise RuntimeError("a drawer stuck")

    desk = Desk(lambda parts: Response.of(b"<body></body>", PAGE), take)
    server = Server(tmp_path, 0, Edition(), faults.append, {"sheet": desk})
    server.start()
    try:
        got = send(server.port, b"{}")
        assert got.status == 500
        assert b"a drawer stuck" not in got.body
        assert "a drawer stuck" in faults[0]
        assert ask(server.port, "/-/sheet/").status == 200
    finally:
        server.stop()


def test_one_is_taken_after_the_other(tmp_path):
    """Two pages that send at once: neither writes between the other's reading and writing."""
    at_work, most = [], []

    def take(parts, told):
        at_work.append(1)
        time.sleep(0.05)
        most.append(len(at_work))
        at_work.pop()
        return {}

    desk = Desk(lambda parts: Response.of(b"<body></body>", PAGE), take)
    with serving(tmp_path, {"sheet": desk}) as running:
        threads = [threading.Thread(target=send, args=(running.port, b"{}")) for _ in range(6)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
    assert most == [1] * 6
