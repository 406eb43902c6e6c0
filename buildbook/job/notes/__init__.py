"""Dated notes in Markdown: entries, hours, pictures, passages for the client."""
