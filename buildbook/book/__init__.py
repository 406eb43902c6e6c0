"""The book: what is bound where, written whole.

swap.py      two folders change places in one step
write.py     staging: a folder is written beside its place and put there whole; files that are not ours stay
pictures.py  the sized copies of a job's photos, made once, on all cores
bind.py      a job or a shelf -> a book
Imports everything to its left; only `write` and `swap` change what is on disk.
"""
