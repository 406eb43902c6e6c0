"""Tests of `buildbook.quantity`, a file a module."""
