"""What a job is, and reading one from its folder.

`model` and `shop_model` are the frozen records; `folder` finds the files of a job, calls the readers in `toml`,
`table`, `notes` and `photos`, and `cross_checks` asks what takes more than one of them. Readers take what a maker
wrote, add to a `Problems`, and never raise for it.

What reads jobs is loaded when it is asked for: much of this program needs only a module or two of this part.
"""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from buildbook.job.folder import find_jobs, has_shop, no_jobs, read_job, read_shop, shop_around
    from buildbook.job.lacks.gaps import record_gaps

__all__ = ["find_jobs", "has_shop", "no_jobs", "read_job", "read_shop", "record_gaps", "shop_around"]


def __getattr__(name: str) -> Any:
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from buildbook.job import folder
    from buildbook.job.lacks import gaps

    return getattr(gaps if name == "record_gaps" else folder, name)
