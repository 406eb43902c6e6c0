"""The same piece at another size: which parts follow, what no longer fits, what it comes to.

wanted.py   the sizes that are asked for, as typed
dims.py     the sizes of parts that could follow (runs.py: which way a part runs; beside.py: what stands beside it)
follow.py   which of them do, each with why; what has to be asked
again.py    the job at its new sizes
asking.py   the questions, on a terminal
laid.py     the new sizes for the files of the new job
unfit.py    what no longer fits (doors.py: the doors, put together from their parts)
figures.py  mass, stock, sheets, movement, cost, hours: before and after
telling.py  all of it in words; as_json.py: for other programs

In: a `Job` of the past, sizes. Out: frozen records in SI. Pure.
"""
