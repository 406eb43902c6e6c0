"""What a job is, and reading one from its folder.

`model` and `shop_model` are the frozen records; `folder` finds the files of a job, calls the readers in `toml`,
`table`, `notes` and `photos`, and `cross_checks` asks what takes more than one of them. Readers take what a maker
wrote, add to a `Problems`, and never raise for it.
"""

from buildbook.job.folder import find_jobs, has_shop, no_jobs, read_job, read_shop, shop_around
from buildbook.job.gaps import record_gaps

__all__ = ["find_jobs", "has_shop", "no_jobs", "read_job", "read_shop", "record_gaps", "shop_around"]
