"""View models: what a page shows, in words and ready-made figures, as frozen records.

client.py   ClientPiece: what may leave the shop, and nothing else. The client's templates get only this.
log.py      BuildLog: everything about a job, for the maker.
shelf.py    PastWork: the list of jobs in a book.
year.py, finish_line.py, front.py, outlines.py
            what is drawn; the geometry is in `render.drawing`.
phrases.py  words and figures in the language and units of the shop.

Imports `words`, `quantity`, `trade`, `job`, `summary`, `care`; knows no HTML and no files of a book.
"""
