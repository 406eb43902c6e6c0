"""Records of the reference tables: frozen, in SI, each figure with the source it rests on.

No reading and no sums here.
"""

from __future__ import annotations

from dataclasses import dataclass

BASES = ("read", "memory", "common practice", "definition", "derived")
"""How a figure came here: read in a published text, recalled, the trade's habit, true by definition,
worked out.
"""


@dataclass(frozen=True)
class Ends:
    """A figure that is only known between two ends."""

    low: float
    high: float

    @property
    def middle(self) -> float:
        """The mean of both ends: what is used when a job gives no figure of its own."""
        return (self.low + self.high) / 2


@dataclass(frozen=True)
class Sourced:
    """One figure: its value in SI (per cent kept as per cent), the unit, where it is from and on what
    basis; `span`, what printed tables give of it where they differ.
    """

    value: float
    unit: str
    source: str
    basis: str
    note: str = ""
    span: Ends | None = None


@dataclass(frozen=True)
class NotKnown:
    """A figure that cannot be had, and why, as a sentence that a maker can read."""

    reason: str


@dataclass(frozen=True, kw_only=True)
class Named:
    """A row that is found by name.

    `aliases` are other names of this very thing; `taken_for` are loose names (oak, ply) that are taken to
    mean it, which is then reported as an assumption.
    """

    key: str
    name: str
    aliases: tuple[str, ...] = ()
    taken_for: tuple[str, ...] = ()
    source: str
    basis: str
    note: str = ""

    @property
    def also(self) -> tuple[str, ...]:
        """Names that follow from other fields."""
        return ()

    @property
    def full_name(self) -> str:
        """The name as it stands in a sentence."""
        return self.name


@dataclass(frozen=True, kw_only=True)
class Species(Named):
    """A wood. `source` and `basis` are those of names, colours and flags; each figure carries its own."""

    botanical: str
    group: str  # hardwood, softwood
    tannin: bool
    irritant: bool  # False means: not known to be
    cites: str
    colour_change: str
    fresh_hex: str
    aged_hex: str
    sg_basic: Sourced | None = None
    sg_12: Sourced | None = None
    density_12: Sourced | None = None  # kg/m3
    shrink_radial: Sourced | None = None  # %, green to oven-dry
    shrink_tangential: Sourced | None = None
    shrink_volumetric: Sourced | None = None
    c_radial: Sourced | None = None  # per 1 % of moisture content
    c_tangential: Sourced | None = None
    janka: Sourced | None = None  # N
    modulus: Sourced | None = None  # N/m2, of elasticity in bending, along the grain at 12 %
    fibre_saturation: Sourced | None = None  # %, where it is not the usual one
    of: str = ""  # the wood that it is, where this one is fumed, steamed, cooked …
    movement_share: float = 1.0  # of the movement of that wood
    corrodes: bool = False  # its acids attack steel where it gets damp

    @property
    def also(self) -> tuple[str, ...]:
        return () if self.of else (self.botanical,)

    @property
    def full_name(self) -> str:
        return f"{self.name} ({self.botanical})"


@dataclass(frozen=True)
class SheetSize:
    """A size that sheets are sold in; the length is along the grain of the face."""

    key: str
    name: str
    length_m: float
    width_m: float
    system: str
    source: str
    basis: str
    note: str = ""


@dataclass(frozen=True, kw_only=True)
class SheetGoods(Named):
    """Sheet goods. `wood_share` is the share of the volume that is wood, at the moisture content `mc_pct`."""

    density_kg_m3: float
    wood_share: float
    mc_pct: float
    grain: bool
    sizes: tuple[SheetSize, ...]
    glue: str  # what binds it, and what that gives off

    def sizes_for(self, system: str) -> tuple[SheetSize, ...]:
        """The sizes of one system of units ("in" or "mm"), the usual one first; all if it has none."""
        return tuple(size for size in self.sizes if size.system == system) or self.sizes


@dataclass(frozen=True)
class SheetStiffness:
    """How stiff a sheet is: its modulus of elasticity in bending, and what a lasting load adds to the first sag."""

    key: str
    modulus_pa: float
    creep: float
    source: str
    basis: str
    note: str = ""


@dataclass(frozen=True, kw_only=True)
class GlassKind(Named):
    """A kind of glass, or of the plastics used in its place. `safety`: breaks safely when made and marked
    as such.
    """

    density_kg_m3: float
    safety: bool


@dataclass(frozen=True, kw_only=True)
class Stone(Named):
    """A stone. `acid`: marked by lemon, vinegar and wine."""

    density_kg_m3: float
    acid: bool


@dataclass(frozen=True, kw_only=True)
class Metal(Named):
    """A metal. `tannin`: stains, or is eaten by, woods with tannin. `care`: its class of care."""

    density_kg_m3: float
    tannin: bool
    magnetic: bool
    care: str


@dataclass(frozen=True, kw_only=True)
class FinishFamily(Named):
    """A family of finishes. A figure is None where it does not apply or nobody can know it; ratings run from 1 (poor)
    to 5 (good).

    spread_m2_per_l  of the first coat on bare wood; `later_m2_per_l` of a coat after it.
    kind, cared_as, traits, exterior, food: words of data/finishes.csv, explained at its head.
    """

    kind: str
    cared_as: str
    film: str
    spread_m2_per_l: Ends | None
    later_m2_per_l: Ends | None
    coats: int
    recoat_h: Ends | None
    light_use_days: int | None
    full_cure_days: Ends | None
    voc_kg_per_l: Ends | None
    heat: int | None
    water: int | None
    repair: int | None
    refresh_months: Ends | None
    rags_heat: bool
    traits: frozenset[str]
    exterior: str
    food: str

    def has(self, trait: str) -> bool:
        return trait in self.traits


@dataclass(frozen=True)
class FinishKind:
    """A kind of finishes and by which words of a name it is known: whole words, or the ends of words."""

    key: str
    words: frozenset[str]
    endings: tuple[str, ...]
    source: str
    basis: str


@dataclass(frozen=True)
class NominalStock:
    """A nominal thickness that solid timber is sold in; `surfaced_m` is the least one after planing two
    faces.
    """

    system: str
    name: str
    thickness_m: float
    surfaced_m: float | None
    source: str
    basis: str
    note: str = ""


@dataclass(frozen=True)
class Screw:
    """A wood screw or lag screw: shank and root diameter, and the bending yield strength where it is
    known.
    """

    name: str
    system: str  # gauge, mm, lag
    diameter_m: float
    root_m: float | None
    bending_pa: float | None
    source: str
    basis: str
    note: str = ""


@dataclass(frozen=True, kw_only=True)
class WallWood(Named):
    """What a wall is framed with, and the specific gravity the design rules give it."""

    sg: float


@dataclass(frozen=True, kw_only=True)
class IndoorClimate(Named):
    """The rooms a piece lives in: driest and wettest relative humidity of the year, and the usual
    temperature.
    """

    rh_low_pct: float
    rh_high_pct: float
    temperature_c: float


@dataclass(frozen=True)
class UsualAllowances:
    """What a shop adds to its parts; a shop's own figures replace those of its system of units."""

    over_length_m: float
    over_width_m: float
    clean_up_m: float
    waste_pct: float
    sheet_waste_pct: float
    kerf_m: float
