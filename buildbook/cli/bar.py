"""How far long work has come: a line for the jobs and one for the photos of the job at hand, with the time left."""

from __future__ import annotations

from rich.console import Console
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TaskID, TextColumn, TimeRemainingColumn

from buildbook.cli.terminal import plain_text


class Bar:
    """Progress on standard error, only where a person is looking, and none that is `quiet`."""

    def __init__(self, *, quiet: bool = False) -> None:
        console = Console(stderr=True)
        self._bar = Progress(
            TextColumn("{task.description}", markup=False), BarColumn(), MofNCompleteColumn(), TimeRemainingColumn(),
            console=console, transient=True, disable=quiet or not console.is_terminal,
        )  # fmt: skip
        self._tasks: dict[str, TaskID] = {}
        self.done: dict[str, tuple[int, int]] = {}

    def __enter__(self) -> Bar:
        self._bar.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._bar.stop()

    def show(self, what: str, done: int, of: int) -> None:
        """A line for each kind of work of which there is more than one piece; it goes when the last is done."""
        self.done[what] = (done, of)
        if done == 0 and of > 1 and what not in self._tasks:
            self._tasks[what] = self._bar.add_task(plain_text(what), total=of)
        elif what in self._tasks and done == of:
            self._bar.remove_task(self._tasks.pop(what))
        elif what in self._tasks:
            self._bar.update(self._tasks[what], completed=done)
