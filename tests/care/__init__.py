"""Tests of `buildbook.care`: `pieces` makes pieces from little, `cases` has two for every rule."""
