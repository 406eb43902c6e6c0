"""The book: what is bound where, written whole. Only `disk` changes what is on disk."""
