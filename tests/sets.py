"""Two whole jobs that make several pieces: six dining chairs, and a pair of bedside tables that went on two days."""

from pathlib import Path

SHOP = """
name = "Tenterhook Furniture"
maker = "A. Maker"
address = "Sawyer's Yard\\nNether Quillby"
email = "hello@tenterhook.example"
country = "GB"
currency = "GBP"
hour_rate = 48
"""

CHAIR_PARTS = (
    ("Back leg", 2, "wood", "European ash", 860, 38, 28, "body"),
    ("Front leg", 2, "wood", "European ash", 440, 32, 32, "body"),
    ("Rail", 4, "wood", "European ash", 400, 48, 18, "body"),
    ("Stretcher", 3, "wood", "European ash", 400, 20, 18, "body"),
    ("Back slat", 3, "wood", "European ash", 420, 60, 10, "body"),
    ("Seat board", 1, "wood", "European ash", 420, 400, 14, "body"),
    ("Leg glide", 4, "hardware", "felt glide, 22 mm", "", "", "", ""),
)
"""A chair: part, how many it has, kind, material, length, width, thickness, finish."""


def parts_csv(parts, times):
    """parts.csv with the counts of one piece, times how many."""
    rows = [f"{name},{qty * times},{','.join(map(str, rest))}" for name, qty, *rest in parts]
    return "\n".join(("part,qty,kind,material,length,width,thickness,finish", *rows, ""))


def lay(folder: Path, toml: str, parts: str, notes: str, language: str = "en") -> Path:
    folder.mkdir(parents=True)
    (folder / "shop.toml").write_text(f'{SHOP}language = "{language}"\n', "utf-8")
    (folder / "job.toml").write_text(toml, "utf-8")
    (folder / "parts.csv").write_text(parts, "utf-8")
    (folder / "notes.md").write_text(notes, "utf-8")
    return folder


CHAIRS = """
number = "2026-022"
title = "Six dining chairs"
piece = "chair"
units = "mm"
begun = 2026-04-07
overall = { width = 450, depth = 520, height = 860 }
joinery = ["mortise and tenon"]
stands = "floor"
contents = "110 kg"
price = 5400
use = "indoors, at home"
description = "A plain ladder-back chair with a wooden seat."
limits = ["one person"]
quantity = 6
"""
CHAIRS_FINISH = """
[[finish]]
key = "body"
family = "hardwax-oil"
product = "clear hardwax oil"
coats = [2026-06-01, 2026-06-02]
"""
CHAIRS_NOTES = """## 2026-04-07 Ash from the yard

Hours: stock 3, milling 12

## 2026-05-11 Joints

Hours: joinery 40.5, assembly 18

## 2026-06-02 Second coat

Hours: finishing 16.5
"""


def chairs(
    place: Path, parts_for: str = "all", more: str = "delivered = 2026-06-12\n", language: str = "en"
) -> Path:
    """Six chairs, with their parts counted for all of them or for each."""
    toml = f'{CHAIRS}parts_for = "{parts_for}"\n{more}{CHAIRS_FINISH}'
    times = 6 if parts_for == "all" else 1
    folder = place / f"chairs-{parts_for}" / "2026-022-chairs"
    return lay(folder, toml, parts_csv(CHAIR_PARTS, times), CHAIRS_NOTES, language)


BEDSIDE_PARTS = (
    ("Top", 1, "wood", "black walnut", 450, 380, 20, "top"),
    ("Side", 2, "wood", "black walnut", 520, 360, 18, "top"),
    ("Drawer front", 1, "wood", "black walnut", 400, 140, 20, "top"),
    ("Back", 1, "panel", "birch plywood", 500, 420, 6, "top"),
    ("Knob", 1, "hardware", "brass knob, 20 mm", "", "", "", ""),
)
BEDSIDES = """
number = "2026-030"
title = "Pair of bedside tables"
piece = "bedside table"
units = "mm"
begun = 2026-05-04
overall = { width = 450, depth = 380, height = 560 }
stands = "floor"
drawers = 1
price = 1900
use = "indoors, at home"
quantity = 2
parts_for = "each"
cards = "each"

[[delivery]]
day = 2026-06-12
pieces = "1"

[[delivery]]
day = 2026-07-24
pieces = "2"

[[finish]]
key = "top"
family = "hardwax-oil"
product = "clear hardwax oil"
coats = [2026-06-08, 2026-06-09, 2026-07-20, 2026-07-21]
"""
BEDSIDES_NOTES = "## 2026-05-04 Begun\n\nHours: milling 6, joinery 14\n"


def bedsides(place: Path, language: str = "en") -> Path:
    """A pair of bedside tables of which each was finished and went on its own days."""
    return lay(place / "2026-030-bedsides", BEDSIDES, parts_csv(BEDSIDE_PARTS, 1), BEDSIDES_NOTES, language)
