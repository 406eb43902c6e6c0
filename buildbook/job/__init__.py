"""What a job is, and reading one from its folder.

model.py      the frozen records
keys.py       what job.toml and shop.toml may hold; working_keys.py, the kinds of workings
toml_file.py  one TOML file and its tables; toml_lines.py: where a key stands; toml_values.py: one value
text.py       bytes -> text; dialect.py: text -> rows; headings.py: which column is which; sheet.py: both
note_text.py  the structure of a note; hours.py: its lines of hours; pictures.py: which photo it shows
job_toml.py (air.py, workings.py), shop.py, parts.py, prices.py, notes.py, photos.py   one reader a file
materials.py  what the trade's tables know of a part; countries.py: where it grew; sizes.py: its lengths
folder.py     finds the files and calls the readers; cross_checks.py: what takes more than one of them
record.py     what the record of the piece still lacks

Readers take what a maker wrote, add to a `Problems`, and never raise for it.
Imports `problems`, `quantity` and `trade`.
"""

from buildbook.job.folder import find_jobs, no_jobs, read_job, read_shop, shop_around
from buildbook.job.record import record_gaps

__all__ = ["find_jobs", "no_jobs", "read_job", "read_shop", "record_gaps", "shop_around"]
