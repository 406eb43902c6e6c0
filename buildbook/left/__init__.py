"""What a bound job leaves for the pages across jobs. Private."""

from buildbook.left.model import Cover, JobRecord
from buildbook.left.record import job_record

__all__ = ["Cover", "JobRecord", "job_record"]
