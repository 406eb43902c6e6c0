"""The finished piece, in its room: the lead picture and three closer ones.

Role: each function sets a scene up and leaves a camera in it. Imports `piece`, `props`, `rooms`, `shapes`, `stage`.
"""

from __future__ import annotations

import piece
import stage
from piece import HEIGHT
from props import book, bowl, branches, cup, teapot, turned_pot
from rooms import room
from shapes import group


def _vase(x: float, y: float) -> None:
    vase = turned_pot(0.085, 0.26, "#d9cfbd")
    vase.location = (x, y, HEIGHT)
    branches((x, y, HEIGHT + 0.26))


def lead() -> None:
    stage.empty(exposure=0.32)
    room()
    piece.sideboard()
    _vase(-0.50, 0.03)
    bowl(0.13).location = (0.10, -0.02, HEIGHT)
    book((0.24, 0.165, 0.028), (-0.22, 0.05, HEIGHT), "#6d3b2c", 4)
    book((0.215, 0.15, 0.020), (-0.22, 0.05, HEIGHT + 0.028), "#37474a", -7)
    book((0.19, 0.125, 0.016), (-0.215, 0.05, HEIGHT + 0.048), "#b59a63", 11)
    group(teapot(), (0.46, 0.0, HEIGHT), (0, 0, 30))
    stage.camera((1.10, -2.72, 1.24), (-0.03, 0, 0.70), 34, 5.6, focus=(0, -0.2, 0.6))


def drawer_open() -> None:
    stage.empty(exposure=0.2)
    room()
    piece.sideboard(open_row=2, out_m=0.19)
    _vase(-0.50, 0.03)
    stage.camera((0.78, -0.93, 1.05), (0.125, -0.36, 0.645), 50, 5.0, focus=(0.235, -0.42, 0.66))


def slate_inset() -> None:
    stage.empty(exposure=0.1)
    room()
    piece.sideboard()
    _vase(-0.50, 0.03)
    book((0.24, 0.165, 0.028), (-0.12, 0.05, HEIGHT), "#6d3b2c", 4)
    group(teapot(), (0.53, 0.045, HEIGHT), (0, 0, -20))
    group(cup(), (0.38, -0.065, HEIGHT), (0, 0, -50))
    stage.camera((0.72, -0.78, 1.27), (0.42, -0.02, 0.79), 46, 3.2, focus=(0.40, -0.09, 0.79))


def door() -> None:
    stage.empty(exposure=0.15)
    room()
    piece.sideboard()
    stage.camera(
        (-piece.DOOR_X, -1.45, 0.55), (-piece.DOOR_X, 0, 0.505), 62, 5.6, focus=(-piece.DOOR_X, -0.215, 0.5)
    )
