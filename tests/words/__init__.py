"""Tests of `buildbook.words`."""
