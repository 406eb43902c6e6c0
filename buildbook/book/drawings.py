"""The maker's drawings in the private folder of a job: an SVG and a PDF as they are, under names made of their content.

Pictures among them are copied like photos, without what a camera noted in them.
"""

from __future__ import annotations

import errno
from collections.abc import Collection, Sequence
from dataclasses import replace

from buildbook import limits
from buildbook.book.disk.write import Staging
from buildbook.job.model import Job
from buildbook.job.photo_model import DrawingFile, Photo, Video
from buildbook.job.plain_file import NotRead, read_plain
from buildbook.pages.log.drawings import file_of


def readable(job: Job, photos: Sequence[Photo]) -> Job:
    """The job with those of its photos, drawings and pictures of videos whose copies could be made."""
    good = {photo.digest for photo in photos}
    return replace(
        job,
        photos=tuple(photo for photo in job.photos if photo.digest in good),
        videos=tuple(_with_good_frame(one, good) for one in job.videos),
        drawings=tuple(one for one in job.drawings if one.photo is None or one.photo.digest in good),
    )


def _with_good_frame(video: Video, good: Collection[str]) -> Video:
    return video if video.frame is None or video.frame.digest in good else replace(video, frame=None)


def lay_drawings(drawings: Sequence[DrawingFile], folder: Staging) -> None:
    """Write them into the folder of the log; those of the last edition are kept. Raises OSError."""
    for name, one in {file_of(one): one for one in drawings if one.kind in ("svg", "pdf")}.items():
        if folder.old.get(name) != one.content or not folder.keep(name):
            try:
                folder.write(name, read_plain(one.path, limits.DRAWING_BYTES))
            except NotRead as why:  # it was there a moment ago
                raise OSError(errno.EIO, why.message, one.name) from why
