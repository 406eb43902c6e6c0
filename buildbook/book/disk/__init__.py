"""The only modules that change what is on disk."""
