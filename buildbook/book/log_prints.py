"""The prints that lie beside a build log: the wall sheet, templates in full size. Private, as the log is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import partial

from buildbook.book.disk.write import Staging
from buildbook.book.prints import WantedPrint, content_of, copy_within, lay_prints, made_from
from buildbook.book.redo.made import KeptPrint
from buildbook.pages.log.build_log import BuildLog
from buildbook.render.copies import LONG_EDGES
from buildbook.render.html.theme import Theme
from buildbook.render.print.full_size import FILE as FULL_SIZE
from buildbook.render.print.full_size import full_size_pdf
from buildbook.render.print.typeset import Printed
from buildbook.render.print.wall import FILE as WALL
from buildbook.render.print.wall import wall_pdf


def lay_log_prints(
    log: BuildLog, theme: Theme, folder: Staging, before: Mapping[str, KeptPrint], made_with: str
) -> dict[str, KeptPrint]:
    """Write the prints that a log has, and say what each was made from. Raises `ThemeError`.

    before  what the prints of the last edition were made from. made_with: a digest of program and theme
    """
    return lay_prints(_prints(log, theme, folder, made_with), theme, folder, before)


def _prints(log: BuildLog, theme: Theme, folder: Staging, made_with: str) -> Iterator[WantedPrint]:
    if log.wall:
        yield WantedPrint(WALL, made_from((made_with, log.wall)), partial(wall_pdf, log.wall, theme))
    if full := log.full_size:
        copies = {p.digest: copy_within(p, folder, LONG_EDGES[0]) for p in full.pictures()}
        shown = {digest: folder.digests[name] for digest, name in copies.items()}

        def print_full_size() -> Printed:
            return full_size_pdf(
                full, theme, {digest: content_of(folder, name) for digest, name in copies.items()}
            )

        yield WantedPrint(FULL_SIZE, made_from((made_with, full, shown)), print_full_size)
