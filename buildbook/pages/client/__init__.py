"""All that may leave the shop about one piece."""
