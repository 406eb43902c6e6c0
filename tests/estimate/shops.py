"""Shops whose true rates are known: past jobs made from them with noise, for seeing how well the truth is found.

The rates, exponents, noise of 15 % a stage and 15 % a job, two odd jobs in sixty and a slow drift are invented; nothing of the
package is used to make them but its records.
"""

import math
import random
from dataclasses import dataclass
from datetime import date, timedelta

from buildbook.estimate.hours.forecast import Past, PieceSought
from buildbook.estimate.likeness.traits import Traits

NOISE = 0.15
DRIFT = -0.03  # a year: the shop grows faster
ODD_EACH = 30  # one odd job in so many …
ODD = 1.8  # … which takes so many times as long
TRUTH = {
    "design": ("none", 6.0, 0.0),
    "stock": ("rough_volume", 14.0, 0.6),
    "milling": ("rough_volume", 55.0, 0.8),
    "joinery": ("joints", 0.42, 1.0),
    "assembly": ("wood_parts", 0.55, 0.8),
    "hardware": ("hardware", 0.6, 0.9),
    "glazing": ("panes", 1.6, 0.9),
    "finishing": ("finish_area", 0.9, 0.75),
    "fitting": ("doors_drawers", 1.8, 1.0),
    "delivery": ("none", 3.5, 0.0),
}
"""Driver, hours for one of it, exponent."""

PIECES = {  # boards' cubic metres, parts, joints a part, area, panes, doors and drawers: what a piece of a kind has
    "chair": (0.03, 18, 1.8, 3.0, 0, 0),
    "table": (0.12, 14, 1.1, 9.0, 0, 1),
    "cabinet": (0.10, 40, 1.3, 16.0, 2, 4),
    "chest of drawers": (0.11, 70, 2.0, 14.0, 0, 6),
    "box": (0.006, 9, 2.2, 1.2, 0, 0),
    "bookcase": (0.14, 26, 0.9, 20.0, 4, 2),
}
_NO_TRAITS = ("size", "woods", "parts", "panes", "doors", "drawers", "stands")
BOARD_FOOT_M3 = 0.3048 * 0.3048 * 0.0254


@dataclass(frozen=True)
class Shop:
    past: list[Past]


def _drivers(chance: random.Random, piece: str) -> dict[str, float]:
    volume, parts, joints, area, panes, moving = PIECES[piece]

    def about(amount: float, spread: float = 0.45) -> float:
        return amount * math.exp(chance.gauss(0, spread))

    scale = math.exp(chance.gauss(0, 0.3))
    count = max(4, round(about(parts)))
    return {
        "none": 1.0,
        "rough_volume": about(volume) * scale,
        "wood_parts": float(count),
        "joints": float(max(4, round(count * about(joints, 0.25)))),
        "finish_area": about(area) * scale * chance.choice([1, 2, 3]),
        "panes": float(chance.randint(1, 2 * panes)) if panes and chance.random() < 0.6 else 0.0,
        "hardware": float(chance.randint(0, 2 + 4 * moving)),
        "doors_drawers": float(max(0, moving + chance.randint(-1, 2))) if moving else 0.0,
    }


def true_hours(drivers: dict[str, float], years: float = 0.0) -> dict[str, float]:
    """What the stages of a piece take, without noise, so many years after the shop's first job."""
    return {
        stage: rate * drivers[driver] ** exponent * math.exp(DRIFT * years)
        for stage, (driver, rate, exponent) in TRUTH.items()
        if drivers[driver] > 0
    }


def traits(piece: str) -> Traits:
    values = dict.fromkeys(_NO_TRAITS) | {
        "piece": piece,
        "joinery": frozenset(),
        "finish": frozenset(),
        "tags": frozenset(),
    }
    return Traits(values, dict.fromkeys(values, ""))


def make(count: int, seed: int, start: date = date(2016, 1, 4)) -> list[Past]:
    """So many jobs, one after the other, about twelve a year."""
    chance = random.Random(seed * 7919 + 13)
    out, day = [], start
    odd = set(chance.sample(range(count), count // ODD_EACH))
    for number in range(count):
        piece = chance.choice(list(PIECES))
        drivers = _drivers(chance, piece)
        begun, done = day, day + timedelta(days=24)
        years = (done - start).days / 365.25
        mood = math.exp(chance.gauss(0, NOISE))
        hours = {
            s: h * mood * math.exp(chance.gauss(0, NOISE)) for s, h in true_hours(drivers, years).items()
        }
        if number in odd:
            hours = {s: h * ODD for s, h in hours.items()}
        feet = drivers["rough_volume"] / BOARD_FOOT_M3
        out.append(Past(f"job-{number:03}", piece, done, begun, traits(piece), drivers, hours, feet))
        day = done + timedelta(days=6)
    return out


def wanted(job: Past) -> PieceSought:
    return PieceSought(job.traits, job.drivers, frozenset(), job.begun)
