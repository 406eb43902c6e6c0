"""The tables [climate] and [made_at], which job.toml and shop.toml share."""

from __future__ import annotations

from buildbook.job.shop_model import Climate, MadeAt
from buildbook.job.toml.file import TomlTable


def read_climate(table: TomlTable | None) -> Climate | None:
    """The client's rooms; None when the table is missing, or not whole (which is told)."""
    if table is None:
        return None
    found = table.read()
    if len(found) < len(table.spec.keys):
        return None
    low, high = found["rh_low_pct"], found["rh_high_pct"]
    if low > high:
        table.error(
            f"The humidity runs from {low:g} down to {high:g}.",
            f"Write rh_low = {high:g} and rh_high = {low:g}, if that is meant.",
        )
        return None
    return Climate(low, high, found["temperature_c"])


def read_made_at(table: TomlTable | None) -> MadeAt | None:
    """The wood when it was worked, from a meter or from the air of the workshop."""
    if table is None:
        return None
    found = table.read()
    if "moisture" not in table.values and not {"rh", "temperature"} <= set(table.values):
        table.error(
            "This needs the moisture that a meter read, or rh and temperature of the workshop.",
            'Write moisture = 8.0, or rh = 45 and temperature = "18 degC".',
        )
        return None
    if {"moisture_pct", "rh_pct"} <= set(found):
        table.warn(
            "Both the meter and the air of the workshop are given; the meter is taken.", "Keep one of them."
        )
    return MadeAt(**found) if found else None
