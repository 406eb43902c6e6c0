"""Draws the pictures of these jobs again: pieces of plain boxes and a bowl, lit by one lamp, of nobody and nowhere.

Run from anywhere: `python make_photos.py`, or with the names of some. The committed files are what the tests read. Needs numpy and Pillow.

A scene is a list of boards, each a box in millimetres: x to the right, y away from the eye, z up; a ray goes from the
eye through each point of the picture, and from where it lands to the lamp.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

import numpy as np
from PIL import Image

JOBS = Path(__file__).resolve().parent
LARGEST_BYTES = 40_000
QUALITIES = (74, 60, 46, 34)
WIDE, TALL = (880, 660), (660, 880)
FINER = 2  # rays a side of each point of the picture
FAR = 1e9
LIGHT = (np.array((-0.55, -0.75, 1.0)) / np.linalg.norm((-0.55, -0.75, 1.0))).astype("float32")
PAPER = np.array((226, 221, 211)) / 255

CHERRY, ASH, OAK, GREY_OAK = (168, 100, 62), (214, 188, 146), (176, 138, 92), (150, 142, 130)
SYCAMORE, SPRUCE, CORD, LINEN = (226, 208, 174), (222, 196, 152), (196, 170, 122), (216, 212, 204)
BRASS, STEEL, GLASS, DARK, GRASS = (
    (196, 158, 76),
    (150, 152, 154),
    (186, 204, 204),
    (86, 78, 70),
    (140, 152, 112),
)


@dataclass(frozen=True)
class Box:
    """A board: its near lower left corner, its size, its colour; `plain` has no grain."""

    at: tuple[float, float, float]
    size: tuple[float, float, float]
    colour: tuple[int, int, int]
    plain: bool = False

    def moved(self, x: float = 0, y: float = 0, z: float = 0) -> Box:
        return replace(self, at=(self.at[0] + x, self.at[1] + y, self.at[2] + z))

    def hit(self, eye: np.ndarray, rays: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """How far along each ray, and the side that looks at it."""
        low, high = np.array(self.at, "float32"), (np.array(self.at) + self.size).astype("float32")
        with np.errstate(divide="ignore", invalid="ignore"):
            one, other = (low - eye) / rays, (high - eye) / rays
        near, far = np.minimum(one, other), np.maximum(one, other)
        enters = np.nanmax(near, axis=-1)
        missed = (enters > np.nanmin(far, axis=-1)) | (enters < 1e-3)
        side = np.zeros_like(rays)
        axis = np.nanargmax(near, axis=-1)
        np.put_along_axis(side, axis[..., None], 1.0, axis=-1)
        return np.where(missed, FAR, enters), -side * np.sign(rays)


@dataclass(frozen=True)
class Bowl:
    """A turned bowl: a ball cut level, hollowed by a smaller one."""

    middle: tuple[float, float]
    radius: float
    height: float
    wall: float
    colour: tuple[int, int, int]
    plain: bool = False

    def hit(self, eye: np.ndarray, rays: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        best, side = np.full(rays.shape[:-1], FAR), np.zeros_like(rays)
        centre = np.array((*self.middle, self.radius))
        for radius, far in ((self.radius, False), (self.radius - self.wall, True)):
            along, normal = _ball(centre, radius, eye, rays, far)
            kept = (along < best) & (((eye + along[..., None] * rays)[..., 2]) < self.height)
            best = np.where(kept, along, best)
            side = np.where(kept[..., None], -normal if far else normal, side)
        with np.errstate(divide="ignore", invalid="ignore"):
            level = (self.height - eye[..., 2]) / rays[..., 2]
        out = np.linalg.norm((eye + level[..., None] * rays)[..., :2] - centre[:2], axis=-1)
        rim = [
            np.sqrt(max(r * r - (self.height - self.radius) ** 2, 0))
            for r in (self.radius, self.radius - self.wall)
        ]
        kept = (out <= rim[0]) & (out >= rim[1]) & (level < best) & (level > 1e-3)
        return np.where(kept, level, best), np.where(kept[..., None], np.array((0.0, 0, 1)), side)


@dataclass(frozen=True)
class Ball:
    """A fruit, or a knob."""

    centre: tuple[float, float, float]
    radius: float
    colour: tuple[int, int, int]
    plain: bool = True

    def hit(self, eye: np.ndarray, rays: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        return _ball(np.array(self.centre, float), self.radius, eye, rays, far=False)


def _ball(
    centre: np.ndarray, radius: float, eye: np.ndarray, rays: np.ndarray, far: bool
) -> tuple[np.ndarray, np.ndarray]:
    towards = centre - eye
    middle = (rays * towards).sum(-1)
    under = radius**2 - ((towards * towards).sum(-1) - middle**2)
    root = np.sqrt(np.maximum(under, 0))
    along = middle + root if far else middle - root
    along = np.where((under < 0) | (along < 1e-3), FAR, along)
    return along, (eye + along[..., None] * rays - centre) / radius


Thing = Box | Bowl | Ball


@dataclass(frozen=True)
class Shot:
    """One picture: where it goes, what stands there, from where to where the eye looks."""

    job: str
    name: str
    things: Callable[[], Sequence[Thing]]
    eye: tuple[float, float, float]
    at: tuple[float, float, float]
    width: float = 0.62
    size: tuple[int, int] = WIDE
    wall: float | None = None
    ground: tuple[int, int, int] = field(default=(198, 190, 178))

    @property
    def path(self) -> Path:
        return JOBS / self.job / "photos" / f"{self.name}.jpg"


def drawn(shot: Shot) -> Image.Image:
    """The picture of a shot."""
    wide, high = (side * FINER for side in shot.size)
    eye, at = np.array(shot.eye, float), np.array(shot.at, float)
    ahead = (at - eye) / np.linalg.norm(at - eye)
    right = np.cross(ahead, (0, 0, 1))
    right /= np.linalg.norm(right)
    up = np.cross(right, ahead)
    across = (np.arange(wide) + 0.5) / wide - 0.5
    down = 0.5 - (np.arange(high) + 0.5) / high
    scale = shot.width / max(shot.size) * np.array(shot.size)
    rays = ahead + (across * scale[0])[None, :, None] * right + (down * scale[1])[:, None, None] * up
    rays = (rays / np.linalg.norm(rays, axis=-1, keepdims=True)).astype("float32")
    eye = eye.astype("float32")
    things = [
        *shot.things(),
        Box((-9e4, -9e4, -50), (18e4, 18e4, 50), shot.ground, plain=True),
        *([Box((-9e4, shot.wall, -10), (18e4, 100, 9e4), (232, 228, 219), plain=True)] if shot.wall else []),
    ]
    best, side, colour = _landed(things, eye, rays)
    where = eye + np.minimum(best, 1e7)[..., None] * rays
    lit = np.clip((side * LIGHT).sum(-1), 0, 1)
    shaded = _shaded(things, where + side * 0.5)
    lit = np.where(shaded, lit * 0.22, lit)
    sky = np.clip(side[..., 2] * 0.5 + 0.5, 0, 1)
    seen = colour * (0.38 + 0.2 * sky + 0.6 * lit)[..., None]
    fade = np.clip((best - 3500) / 9000, 0, 1)[..., None]
    seen = np.where((best >= FAR)[..., None], PAPER, seen * (1 - fade) + PAPER * fade)
    picture = Image.fromarray((np.clip(seen, 0, 1) * 255).astype("uint8"))
    return picture.resize(shot.size, Image.Resampling.LANCZOS)


def _landed(
    things: Sequence[Thing], eye: np.ndarray, rays: np.ndarray
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    best, side, colour = np.full(rays.shape[:-1], FAR, "float32"), np.zeros_like(rays), np.zeros_like(rays)
    for number, thing in enumerate(things):
        some = _towards(thing, eye, rays)
        along, normal = thing.hit(eye, rays[some])
        nearer = along < best[some]
        some = tuple(axis[nearer] for axis in some)
        where = eye + along[nearer][:, None] * rays[some]
        best[some], side[some] = along[nearer], normal[nearer]
        colour[some] = np.array(thing.colour) / 255 * _grain(thing, where, number)[:, None]
    return best, side, colour


def _shaded(things: Sequence[Thing], where: np.ndarray) -> np.ndarray:
    """Which points see no lamp: of each thing, only those are asked that lie behind its outline from the lamp."""
    right = np.cross(LIGHT, (0, 0, 1))
    right /= np.linalg.norm(right)
    plane = np.stack([right, np.cross(right, LIGHT)], axis=-1).astype("float32")
    flat = where @ plane
    shaded = np.zeros(where.shape[:-1], bool)
    for thing in things:
        corners = _corners(thing) @ plane
        behind = ((flat >= corners.min(0)) & (flat <= corners.max(0))).all(-1) & ~shaded
        some = np.nonzero(behind)
        shaded[some] = thing.hit(where[some], np.broadcast_to(LIGHT, where[some].shape))[0] < FAR
    return shaded


def _towards(thing: Thing, eye: np.ndarray, rays: np.ndarray) -> tuple[np.ndarray, ...]:
    """The rays that go the way of a thing."""
    corners = _corners(thing) - eye
    middle = corners.mean(0)
    wide = np.linalg.norm(corners - middle, axis=-1).max()
    far = np.linalg.norm(middle)
    if far <= wide:
        return np.nonzero(np.ones(rays.shape[:-1], bool))
    return np.nonzero(rays @ (middle / far) >= np.sqrt(1 - (wide / far) ** 2))


def _corners(thing: Thing) -> np.ndarray:
    """Of the box round a thing."""
    if isinstance(thing, Box):
        low, size = np.array(thing.at), np.array(thing.size)
    else:
        middle = (*thing.middle, thing.radius) if isinstance(thing, Bowl) else thing.centre
        low, size = np.array(middle) - thing.radius, np.full(3, 2 * thing.radius)
    return np.array([low + size * (x, y, z) for x in (0, 1) for y in (0, 1) for z in (0, 1)], "float32")


def _grain(thing: Thing, where: np.ndarray, number: int) -> np.ndarray:
    """Rings of a tree whose heart lies outside the board, along its longest side."""
    if thing.plain:
        return np.ones(where.shape[:-1])
    along = int(np.argmax(thing.size)) if isinstance(thing, Box) else 0
    one, other = (axis for axis in range(3) if axis != along)
    tone = 0.94 + 0.12 * np.random.default_rng(number).random()
    heart = np.hypot(
        where[..., one] * 1.3 + 90 * (number % 5) + where[..., along] * 0.02, where[..., other] + 160
    )
    return tone * (1 + 0.05 * np.sin(heart / 5.5) + 0.03 * np.sin(heart / 2.1 + where[..., along] / 90))


def _each(
    box: Box, places: Iterator[tuple[float, float, float]] | Sequence[tuple[float, float, float]]
) -> list[Box]:
    return [box.moved(*place) for place in places]


def cabinet(open_by: float = 0) -> list[Thing]:
    """640 x 210 x 820, hung 1,150 above the floor; the door off for a look at the shelves."""
    z = 1150
    made: list[Thing] = [
        Box((0, 0, z), (18, 190, 820), CHERRY), Box((622, 0, z), (18, 190, 820), CHERRY),
        Box((18, 0, z), (604, 190, 18), CHERRY), Box((18, 0, z + 802), (604, 190, 18), CHERRY),
        Box((18, 180, z + 18), (604, 10, 784), CHERRY),
        *(Box((20, 20, z + at), (600, 155, 6), GLASS, plain=True) for at in (280, 540)),
        *(Box((90 + 95 * n, 70, z + at), (52, 52, 110), GLASS, plain=True) for at in (18, 286) for n in range(5)),
    ]  # fmt: skip
    if open_by:
        x = 640
        made += [
            Box((x, -open_by, z + 20), (20, open_by, 52), CHERRY), Box((x, -open_by, z + 748), (20, open_by, 52), CHERRY),
            Box((x, -52, z + 20), (20, 52, 780), CHERRY), Box((x, -open_by, z + 20), (20, 52, 780), CHERRY),
            Box((x + 8, 52 - open_by, z + 72), (3, open_by - 104, 676), GLASS, plain=True),
            Ball((x - 14, 26 - open_by, z + 400), 13, BRASS),
        ]  # fmt: skip
    else:
        made += [
            Box((20, -20, z + 20), (52, 20, 780), CHERRY), Box((568, -20, z + 20), (52, 20, 780), CHERRY),
            Box((72, -20, z + 20), (496, 20, 52), CHERRY), Box((72, -20, z + 748), (496, 20, 52), CHERRY),
            Ball((592, -34, z + 400), 13, BRASS),
        ]  # fmt: skip
    return made


def chair(x: float = 0, y: float = 0, cords: int = 40) -> list[Thing]:
    """490 x 530 x 790, the back to the far side; seen from afar, fewer cords do."""
    made = [
        *_each(Box((0, 0, 0), (34, 34, 450), ASH), [(0, 0, 0), (456, 0, 0)]),
        *_each(Box((0, 490, 0), (32, 34, 790), ASH), [(30, 0, 0), (428, 0, 0)]),
        *_each(Box((34, 6, 0), (422, 22, 22), ASH), [(0, 0, 150), (0, 0, 250)]),
        *_each(Box((6, 34, 0), (22, 456, 22), ASH), [(2, 0, 190), (456, 0, 190)]),
        *_each(Box((62, 500, 0), (366, 10, 70), ASH), [(0, 0, 500), (0, 0, 605), (0, 0, 710)]),
        Box((0, 0, 405), (490, 28, 40), ASH), Box((0, 0, 405), (28, 500, 40), ASH), Box((462, 0, 405), (28, 500, 40), ASH),
        *(Box((24, 8 + 480 / cords * n, 430), (442, 400 / cords, 18), CORD, plain=True) for n in range(cords)),
    ]  # fmt: skip
    return [box.moved(x, y) for box in made]


def bench() -> list[Thing]:
    """1,900 x 560 x 860 on foot plates, on grass."""
    legs = [(0, 0, 0), (1830, 0, 0)]
    return [
        *_each(Box((0, 0, 8), (70, 70, 560), GREY_OAK), legs),
        *_each(Box((0, 480, 8), (70, 70, 852), GREY_OAK), legs),
        *_each(Box((-12, -12, 0), (94, 94, 8), STEEL, plain=True), [*legs, *((x, 480, 0) for x, _, _ in legs)]),
        *_each(Box((0, -20, 568), (90, 540, 35), GREY_OAK), [(-10, 0, 0), (1820, 0, 0)]),
        *_each(Box((70, 10, 330), (1760, 45, 95), GREY_OAK), [(0, 0, 0), (0, 480, 0)]),
        *(Box((20, 20 + 80 * n, 425), (1860, 70, 28), GREY_OAK) for n in range(6)),
        Box((70, 500, 740), (1760, 40, 120), GREY_OAK), Box((70, 500, 480), (1760, 40, 60), GREY_OAK),
        *(Box((130 + 122 * n, 510, 540), (60, 22, 200), GREY_OAK) for n in range(14)),
    ]  # fmt: skip


def on_plinth() -> list[Thing]:
    return [*bench(), Box((-300, -250, -1), (2500, 1050, 1.5), (176, 172, 164), plain=True)]


def bowl() -> list[Thing]:
    return [Bowl((0, 0), 168, 110, 13, SYCAMORE)]


def bowl_with_fruit() -> list[Thing]:
    fruit = [((-48, -20, 76), 40, (168, 60, 44)), ((44, -32, 74), 38, (188, 150, 60)), ((4, 52, 76), 41, (120, 140, 60)),
             ((6, -6, 116), 36, (176, 84, 48))]  # fmt: skip
    return [*bowl(), *(Ball(*each) for each in fruit)]


def blanks() -> list[Thing]:
    return [
        Box((-330, 0, 0), (300, 300, 110), SYCAMORE), Box((-10, 20, 0), (290, 290, 104), SYCAMORE),
        Box((-180, 30, 112), (280, 280, 100), SYCAMORE),
    ]  # fmt: skip


def bed(drawer: float = 0, bedding: bool = True) -> list[Thing]:
    """1,880 wide, 2,120 long, the foot towards the eye."""
    made: list[Thing] = [
        *_each(Box((0, 0, 0), (80, 80, 420), ASH), [(0, 0, 0), (1800, 0, 0)]),
        *_each(Box((0, 2040, 0), (80, 80, 950), ASH), [(0, 0, 0), (1800, 0, 0)]),
        *_each(Box((25, 80, 220), (30, 1960, 180), ASH), [(0, 0, 0), (1800, 0, 0)]),
        Box((80, 25, 300), (1720, 30, 100), ASH), Box((80, 2065, 420), (1720, 30, 480), ASH),
        Box((80, 2060, 860), (1720, 40, 90), ASH),
        *_each(Box((80, 30 - drawer, 90), (840, 22, 190), ASH), [(0, 0, 0)]), Box((960, 30, 90), (840, 22, 190), ASH),
        *(Box((90, 120 + 74 * n, 330), (1700, 58, 18), SPRUCE) for n in range(26)),
        Box((920, 100, 230), (40, 1900, 90), SPRUCE),
    ]  # fmt: skip
    if drawer:
        made += [
            Box((90, 52 - drawer, 100), (14, 600, 160), SYCAMORE), Box((896, 52 - drawer, 100), (14, 600, 160), SYCAMORE),
            Box((104, 52 - drawer, 100), (792, 600, 8), SPRUCE),
        ]  # fmt: skip
    if bedding:
        made += [
            Box((86, 70, 350), (1708, 1950, 180), LINEN, plain=True),
            *(Box((x, 1600, 530), (700, 400, 110), (236, 233, 226), plain=True) for x in (170, 1010)),
        ]
    return made


CABINET, CHAIRS, BENCH, BOWL, BED = (
    "alder-yard/wall-cabinet", "alder-yard/dining-chairs", "alder-yard/library-bench", "alder-yard/salad-bowl", "holzapfel/doppelbett",
)  # fmt: skip
SHOTS = (
    Shot(CABINET, "hung", cabinet, (-500, -1700, 1750), (320, 90, 1545), size=TALL, wall=192, width=0.78),
    Shot(CABINET, "open", lambda: cabinet(600), (-250, -2000, 1720), (430, 0, 1540), wall=192, width=0.66),
    Shot(CABINET, "shelves", lambda: cabinet(600)[:17], (120, -700, 1800), (330, 90, 1560), wall=192),
    Shot(CHAIRS, "one", chair, (-950, -1600, 1080), (250, 250, 370), size=TALL, width=0.56),
    Shot(CHAIRS, "six", lambda: [t for n in range(6) for t in chair(700 * (n % 3), 850 * (n // 3), 6)], (-1300, -2600, 1900), (900, 650, 250), width=0.72),
    Shot(CHAIRS, "slats", chair, (700, -300, 1000), (240, 480, 610)),
    Shot(CHAIRS, "seat", chair, (-120, -480, 900), (260, 200, 430)),
    Shot(BENCH, "garden", on_plinth, (-900, -2600, 1350), (950, 250, 380), ground=GRASS, width=0.74),
    Shot(BENCH, "rail", on_plinth, (700, -800, 1250), (1150, 500, 700), ground=GRASS),
    Shot(BENCH, "foot", on_plinth, (-420, -560, 420), (60, 60, 130), ground=GRASS),
    Shot(BOWL, "bowl", bowl, (-120, -520, 430), (0, 0, 40), width=0.72),
    Shot(BOWL, "fruit", bowl_with_fruit, (160, -520, 330), (0, 0, 60), width=0.72),
    Shot(BOWL, "blanks", blanks, (-500, -800, 620), (-20, 120, 90)),
    Shot(BED, "bett", bed, (-1500, -2300, 1750), (850, 900, 320), width=0.8),
    Shot(BED, "schubkasten", lambda: bed(430), (250, -1900, 1350), (700, 100, 220), width=0.7),
    Shot(BED, "lattenrost", lambda: bed(0, bedding=False), (-500, -900, 1900), (850, 900, 250), width=0.95),
)  # fmt: skip


def write(shot: Shot) -> int:
    """Write a shot, as fine as its bytes allow; how many it takes."""
    shot.path.parent.mkdir(exist_ok=True)
    picture = drawn(shot)
    for quality in QUALITIES:
        picture.save(shot.path, "JPEG", quality=quality, optimize=True, progressive=True)
        if shot.path.stat().st_size <= LARGEST_BYTES:
            break
    return shot.path.stat().st_size


if __name__ == "__main__":
    wanted = set(sys.argv[1:])
    for each in SHOTS:
        if not wanted or each.name in wanted:
            print(f"{each.path.relative_to(JOBS)}: {write(each)} bytes")
