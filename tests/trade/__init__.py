"""Tests of `buildbook.trade`, a file a module. Reference figures are in `tests/data/reference/`, with
their sources.
"""
