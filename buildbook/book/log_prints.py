"""The prints that lie beside a build log: the wall sheet. Private, as the log is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import partial

from buildbook.book.disk.write import Staging
from buildbook.book.prints import WantedPrint, lay_prints, made_from
from buildbook.book.redo.made import KeptPrint
from buildbook.pages.log.build_log import BuildLog
from buildbook.render.html.theme import Theme
from buildbook.render.print.wall import wall_pdf


def lay_log_prints(
    log: BuildLog, theme: Theme, folder: Staging, before: Mapping[str, KeptPrint], made_with: str
) -> dict[str, KeptPrint]:
    """Write the prints that a log has, and say what each was made from. Raises `ThemeError`.

    before  what the prints of the last edition were made from. made_with: a digest of program and theme
    """
    return lay_prints(_prints(log, theme, made_with), theme, folder, before)


def _prints(log: BuildLog, theme: Theme, made_with: str) -> Iterator[WantedPrint]:
    if log.wall:
        yield WantedPrint("wall.pdf", made_from((made_with, log.wall)), partial(wall_pdf, log.wall, theme))
