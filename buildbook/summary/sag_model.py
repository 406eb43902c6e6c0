"""How far shelves sag. SI, as all figures."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Sag:
    """One shelf under its load, its own weight in it.

    load_told: by the job; else books were assumed.
    first_m  as soon as it is loaded; sag_m after years; sag_per_span of the latter. All are None, and `ok` with them,
             where it is not known how stiff the material is. ok: nobody will see it.
    """

    part: str
    row: int
    material: str
    span_m: float
    load_n_per_m: float
    load_told: bool
    first_m: float | None
    sag_m: float | None
    sag_per_span: float | None
    ok: bool | None
    assumed: tuple[str, ...] = ()
