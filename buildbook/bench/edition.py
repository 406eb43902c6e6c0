"""Counts what came new into the book, and lets an open page wait for the next."""

from __future__ import annotations

import asyncio
import secrets
import threading


class Edition:
    """The number of the present binding, with a mark of this run, so that a page of an earlier run is an old one.

    is_binding  while a binding is going on: pages across jobs may be half of the old and half of the new.
    """

    def __init__(self) -> None:
        self.is_binding = False
        self._run = secrets.token_hex(4)
        self._number = 0
        self._lock = threading.Lock()
        self._waiting: set[tuple[asyncio.AbstractEventLoop, asyncio.Event]] = set()

    @property
    def now(self) -> str:
        return f"{self._run}-{self._number}"

    def bound(self) -> None:
        """There is a new one. May be called from any thread."""
        with self._lock:
            self._number += 1
            for loop, changed in self._waiting:
                loop.call_soon_threadsafe(changed.set)

    async def wait_past(self, seen: str, timeout_s: float) -> str:
        """The present edition, as soon as it is another than `seen`, or when the time is over."""
        changed = asyncio.Event()
        entry = (asyncio.get_running_loop(), changed)
        with self._lock:
            if self.now != seen:
                return self.now
            self._waiting.add(entry)
        try:
            async with asyncio.timeout(timeout_s):
                await changed.wait()
        except TimeoutError:
            pass
        finally:
            with self._lock:
                self._waiting.discard(entry)
        return self.now
