"""Prices of a day, and from cost to price."""
