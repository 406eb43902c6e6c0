"""The same piece at another size: which parts follow, what no longer fits, what it comes to.

wanted.py   the sizes that are asked for, as typed
follow.py   which sizes of parts follow, each with why; what has to be asked (runs.py: which way a part runs)
again.py    the job at its new sizes, as it would be read
cells.py    the sizes as they stand in parts.csv and job.toml
unfit.py    what no longer fits (limits of data/limits.csv)
figures.py  mass, stock, sheets, movement, cost, hours: before and after
telling.py  all of it in words; as_json.py: for other programs

In: a `Job` of the past, sizes. Out: frozen records in SI. Pure.
"""
