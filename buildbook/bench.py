"""Keeps binding while the maker works, and shows the book on this machine only; an open page reloads itself.

Watches the folder, waits until saving has been quiet for a moment, binds, and tells the open pages. The pages in the
book hold no script for this: the server adds one to what it sends.
"""

from __future__ import annotations

import http.server
import threading
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path
from urllib.parse import urlsplit

from watchdog.events import FileSystemEvent, FileSystemEventHandler
from watchdog.observers import Observer

from buildbook.book.bind import Bound, bind, waits_silently

HOST = "127.0.0.1"
QUIET_S = 0.4  # editors save in several steps
LONGEST_WAIT_S = 3.0  # a folder that never falls quiet (a long copy) is still bound now and then
_ASK_S = 25.0  # how long a page's question stays open
_CHANGES = frozenset({"created", "modified", "moved", "deleted", "closed"})
_RELOAD = b"""
<script>
(async () => {
  let seen = null;
  for (;;) {
    try {
      const answer = await fetch("/-/bound?seen=" + (seen ?? ""), { cache: "no-store" });
      const now = await answer.text();
      if (seen !== null && now !== seen) { location.reload(); return; }
      seen = now;
    } catch { await new Promise((wake) => setTimeout(wake, 1000)); }
  }
})();
</script>
"""


class BenchError(Exception):
    """The bench cannot start; the text says why and what to do."""


class Edition:
    """Counts the bindings, and lets a page wait for the next."""

    def __init__(self) -> None:
        self._number = 0
        self._changed = threading.Condition()

    def bound(self) -> None:
        with self._changed:
            self._number += 1
            self._changed.notify_all()

    def wait_past(self, seen: str, timeout_s: float) -> str:
        """The number of the present edition, as soon as it is another than `seen`."""
        with self._changed:
            self._changed.wait_for(lambda: str(self._number) != seen, timeout_s)
            return str(self._number)


class Saves(FileSystemEventHandler):
    """Collects saves and says when they have been quiet for long enough. `book` is never looked at."""

    def __init__(self, book: Path) -> None:
        self._book = book.resolve()
        self._first = self._last = 0.0
        self._changed = threading.Condition()

    def on_any_event(self, event: FileSystemEvent) -> None:
        if event.event_type not in _CHANGES or (event.is_directory and event.event_type == "modified"):
            return
        path = Path(str(event.src_path))
        if path.resolve().is_relative_to(self._book) or path.name.startswith((".", "~$")):
            return
        with self._changed:
            now = time.monotonic()
            self._first = self._first or now
            self._last = now
            self._changed.notify_all()

    def wait(self, stop: threading.Event) -> bool:
        """Block until something was saved and it is quiet; False when told to stop."""
        with self._changed:
            while not stop.is_set():
                if self._last:
                    now = time.monotonic()
                    left = min(self._last + QUIET_S, self._first + LONGEST_WAIT_S) - now
                    if left <= 0:
                        self._first = self._last = 0.0
                        return True
                    self._changed.wait(left)
                else:
                    self._changed.wait(QUIET_S)
        return False


class _Pages(http.server.SimpleHTTPRequestHandler):
    """The book's files, with the reloading script added to pages."""

    edition: Edition

    def do_GET(self) -> None:
        address = urlsplit(self.path)
        if address.path == "/-/bound":
            seen = address.query.partition("seen=")[2]
            self._send(self.edition.wait_past(seen, _ASK_S if seen else 0.0).encode(), "text/plain")
            return
        path = Path(self.translate_path(self.path))
        if path.is_dir() and not address.path.endswith("/"):
            super().do_GET()  # sends the browser to the folder's own address
            return
        page = path / "index.html" if path.is_dir() else path
        if page.suffix == ".html" and page.is_file():
            content = page.read_bytes()
            self._send(content.replace(b"</body>", _RELOAD + b"</body>"), "text/html; charset=utf-8")
            return
        super().do_GET()

    def _send(self, content: bytes, kind: str) -> None:
        self.send_response(200)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(content)))
        self.send_header("Cache-Control", "no-store")
        self.end_headers()
        self.wfile.write(content)

    def log_message(self, format: str, *args: object) -> None:
        """Requests are no news to a maker."""


def serve(book: Path, port: int, edition: Edition) -> http.server.ThreadingHTTPServer:
    """A server of the book on the loopback address. Raises `BenchError` when the port is taken."""
    handler = type("Pages", (_Pages,), {"edition": edition})
    try:
        server = http.server.ThreadingHTTPServer((HOST, port), partial(handler, directory=str(book)))
    except (OSError, OverflowError) as error:
        raise BenchError(f"port {port} cannot be had ({error}). Give another with --port.") from error
    server.daemon_threads = True
    return server


def run(
    folder: Path,
    book: Path,
    port: int,
    *,
    told: Callable[[Bound], None],
    ready: Callable[[str], None],
    waits: Callable[[Path], None] = waits_silently,
    stop: threading.Event | None = None,
) -> None:
    """Bind, serve, and bind again on every save until stopped. Raises `BenchError` when it cannot start."""
    stop = stop or threading.Event()
    if not folder.is_dir():
        raise BenchError(f"{folder} is not a folder. Give a job folder or a shelf.")
    edition, saves = Edition(), Saves(book)
    first = bind(folder, book, waits=waits)
    told(first)
    if not first.jobs:
        raise BenchError("there is nothing to show.")
    book.mkdir(parents=True, exist_ok=True)
    server = serve(book, port, edition)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    observer = Observer()
    for watched in _watched(folder):
        observer.schedule(saves, str(watched), recursive=watched == folder)
    observer.start()
    ready(f"http://{HOST}:{server.server_address[1]}/")
    try:
        while saves.wait(stop):
            told(bind(folder, book, waits=waits))
            edition.bound()
    finally:
        observer.stop()
        observer.join()
        server.shutdown()
        server.server_close()


def _watched(folder: Path) -> list[Path]:
    """The folder with all below it; for a single job also the shelf above, where shop.toml may be."""
    above = folder.resolve().parent
    beside = [above] if (above / "shop.toml").is_file() else []
    return [folder, *beside]
