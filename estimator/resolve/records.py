"""What resolving gives: the job with every name looked up, in SI, still without arithmetic."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from estimator.core.problems import Cell
from estimator.core.sourced import Sourced
from estimator.geometry.measures import Dims, Floats, Measures
from estimator.geometry.models import Model, repeated
from estimator.geometry.pieces import Blank, Cut
from estimator.geometry.shapes import measure
from estimator.reference.forming import Forming
from estimator.reference.sections import Section

Indices = npt.NDArray[np.intp]


class Kind(StrEnum):
    """What sort of thing a mass varies with, and so what would have to be measured."""

    GAUGE = "gauge"
    DENSITY = "density"
    MOISTURE = "moisture"
    COAT = "coat"
    SIZES = "sizes"
    LAPS = "laps"
    FORMING = "forming"
    SCALE = "scale"
    OTHER = "other"


class Spread(NamedTuple):
    """How far a factor of a mass may lie off, one in twenty on each side.

    Attributes:
        cause: What it varies with: everything that shares the cause errs together.
        low: Fraction below the likely value.
        high: Fraction above it.
        kind: What sort of cause it is.
        likely: The figure itself, NaN where there is none: kg/m2 of a gauge or a coat, kg/m3 of
            a density, fraction of the dry mass of a moisture.
        why: Where the ends come from.
    """

    cause: str
    low: float
    high: float
    kind: Kind = Kind.OTHER
    likely: float = math.nan
    why: str = ""


class Seam(NamedTuple):
    """How the pieces of a sheet are joined.

    Attributes:
        joint: What the tables call it; blank when they have none for this material.
        low_m: Sheet that one joint takes, lower end.
        high_m: Upper end.
        stays: Whether that sheet stays on and weighs.
        slope_rad: Slope of the face from level that the joint was chosen for; NaN where its faces
            lie at all slopes.
        why: Who says so.
    """

    joint: str = ""
    low_m: float = 0.0
    high_m: float = 0.0
    stays: bool = False
    slope_rad: float = math.nan
    why: str = ""

    @property
    def allowance_m(self) -> float:
        """Return the sheet that one joint is likely to take: the middle of its range."""
        return (self.low_m + self.high_m) / 2


class Pattern(NamedTuple):
    """What the sheet or bar of a layer is cut from, for one part.

    Attributes:
        blank: As developed from the finished form, before it is hammered, trimmed and joined.
        cut: Pieces to cut; of one skin.
        copies: Skins alike, as on both faces of a wing.
        finished_m2: Finished area of all skins, without laps.
        blank_m2: Blanks of all skins, trim in them, joints not.
        trim_m2: Of that, what is cut off after forming.
        seam: How the pieces are joined.
        joint_share: What the joints take, as a share of the finished area.
        laps_typed: Whether the build-up says what laps take, so that the joints do not count.
        forming: How it is formed; None when nobody said.
        spare: Extra to buy of what is not laid out, a share of it.
        roll_way: Side of the blank that must lie along the roll: length, width, or blank for any.
    """

    blank: Blank
    cut: Cut
    copies: int = 1
    finished_m2: float = 0.0
    blank_m2: float = 0.0
    trim_m2: float = 0.0
    seam: Seam = Seam()
    joint_share: float = 0.0
    laps_typed: bool = False
    forming: Forming | None = None
    spare: float = 0.0
    roll_way: str = ""


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer of one part, ready to be weighed.

    Attributes:
        name: What the maker calls it: skin, core, paint.
        material: Name of the material or finish.
        over: One of `estimator.geometry.measures.OVER`.
        mass_per_size_kg: kg per m2, m3, m or piece of what it lies over.
        covers: Share of that which it covers.
        laps: Extra that stays on.
        waste: Extra to buy that does not stay on.
        thickness_m: Of a sheet, else NaN.
        amount: What was typed, with what it came to: "18 SWG = 1.219 mm, 10.89 kg/m2".
        spreads: What its mass varies with.
        sources: Ids of the documents its table rows rest on.
        cited: The same rows as they are printed, with how surely each was seen.
        skin: Whether hammering (`relief`) makes more of it.
        form: How it is bought: sheet, roll, board, bar, ...; empty when it is not cut from stock.
        gauge: Label of its gauge or section, for ordering.
        cell: Where what it lies over was said; None for what a bracket makes.
        formed: Mass of the formed skin over finished area x gauge; 1 when nobody said how it is
            formed.
        pattern: What it is cut from; None for what is not cut from sheet or bar.
    """

    name: str
    material: str
    over: str
    mass_per_size_kg: float
    covers: float = 1.0
    laps: float = 0.0
    waste: float = 0.0
    thickness_m: float = float("nan")
    amount: str = ""
    spreads: tuple[Spread, ...] = ()
    sources: tuple[str, ...] = ()
    cited: tuple[str, ...] = ()
    skin: bool = True
    form: str = ""
    gauge: str = ""
    cell: Cell | None = None
    formed: float = 1.0
    pattern: Pattern | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One part, resolved.

    Attributes:
        key: Its mark.
        name: What it is.
        assembly: The assembly it belongs to.
        count: How many are alike.
        shape: One of the shapes of `tables/shapes.csv`.
        dims: Sizes in the order of `Dims`, NaN where blank.
        pointing: Axes under `along` and `faces`, blank for the default.
        angles_rad: turn, tip, swing.
        at_m: Middle of its envelope from the origin of its assembly.
        set_out: One of `estimator.geometry.placing.SET_OUTS`, with spread [m] and start [rad].
        relief: Skin gained by hammering.
        cut_away: Share of outline and mass lost.
        in_wind: Whether the wind reaches it.
        confidence: guess, drawn, quoted or weighed.
        made_of: What was typed.
        layers: What it weighs.
        get_by: make, buy or rack.
        price_each: Price of one, NaN when not given.
        pieces: Pieces it is cut as.
        roughness_m: Of its finish, for the wind on round things; NaN when unknown.
        mirrored: Whether it is the left-to-right mirror of what its row says.
        model: Key of its model in `PartColumns.models`; blank for what dimensions describe.
        section: The rolled section it is a length of; None for any other shape.
        wind_as: What its row says it is like to the wind; blank for its own shape.
        cell: Where its row is.
    """

    key: str
    name: str
    assembly: str
    count: int
    shape: str
    dims: tuple[float, ...]
    pointing: tuple[str, str] = ("", "")
    angles_rad: tuple[float, float, float] = (0.0, 0.0, 0.0)
    at_m: tuple[float, float, float] = (0.0, 0.0, 0.0)
    set_out: tuple[str, float, float] = ("", 0.0, 0.0)
    relief: float = 1.0
    cut_away: float = 0.0
    in_wind: bool = True
    confidence: str = "drawn"
    made_of: str = ""
    layers: tuple[Layer, ...] = ()
    get_by: str = "make"
    price_each: float = float("nan")
    pieces: int = 1
    roughness_m: float = float("nan")
    mirrored: bool = False
    model: str = ""
    section: Section | None = None
    wind_as: str = ""
    cell: Cell = field(default_factory=lambda: Cell("parts"))

    @property
    def form(self) -> str:
        """Return what its measures go by: its model, or else its shape."""
        return self.model or self.shape


@dataclass(frozen=True, slots=True)
class Modelled:
    """A model with where it came from.

    Attributes:
        key: What parts name it by: the same file, scale and skin are one model.
        shape: mesh, outline or measured.
        model: The model.
        file: Name of the file, from the folder of the workbook; blank for readings.
        sha256: Digest of the file.
        scale: Full size is this many times the model.
        unit: Unit of length of the file.
        facts: What there is to say of it, as sentences for print, with figures.
        spreads: How far what lies over it may be off for its readings, by the words of `OVER`.
    """

    key: str
    shape: str
    model: Model
    file: str = ""
    sha256: str = ""
    scale: float = 1.0
    unit: str = ""
    facts: tuple[str, ...] = ()
    spreads: Mapping[str, Spread] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Assembly:
    """A thing that hangs, moves or is lifted as one.

    Attributes:
        key: Its name.
        carrier: The assembly its origin is measured from; blank for the datum.
        origin_m: Its origin from the carrier's.
        stands: flat to wall, off wall, projecting or free.
        moves: fixed, turns or slides.
        axis: across, up or out, through its origin.
        positions: Angles [rad] or ways [m] it is worked out at, from its position as drawn.
        carried_by: Bracket set, or `wall`.
        lift_unit: What it is lifted with.
        wind: outline, parts or none.
        coefficient: Force coefficient somebody gave; NaN when nobody did.
        coefficient_source: Who.
        same_as: Assembly whose parts it repeats; blank for none.
        mirrored: Whether the repeat is mirrored left to right.
        stage: When it goes up; blank when nobody said.
        stiffness_nm2: EI of a long body; NaN when nobody said.
        cell: Where its row is.
    """

    key: str
    carrier: str = ""
    origin_m: tuple[float, float, float] = (0.0, 0.0, 0.0)
    stands: str = "off wall"
    moves: str = "fixed"
    axis: str = "out"
    positions: tuple[float, ...] = (0.0,)
    carried_by: str = "wall"
    lift_unit: str = ""
    wind: str = "outline"
    coefficient: float = float("nan")
    coefficient_source: str = ""
    same_as: str = ""
    mirrored: bool = False
    stage: str = ""
    stiffness_nm2: float = math.nan
    cell: Cell = field(default_factory=lambda: Cell("assemblies"))


class Plate(NamedTuple):
    """A wall plate, its middle at the root of the arm."""

    width_m: float
    height_m: float
    thickness_m: float


class Fixings(NamedTuple):
    """The fixings of a wall plate, in even rows about its middle.

    Attributes:
        across: Fixings in one row.
        up: Rows.
        pitch_across_m: Between fixings in a row; NaN where nobody said.
        pitch_up_m: Between rows; NaN where nobody said.
        diameter_m: Trial size; NaN where nobody said.
    """

    across: int
    up: int
    pitch_across_m: float
    pitch_up_m: float
    diameter_m: float

    @property
    def points_m(self) -> Floats:
        """Return the (n, 2) places (across, up) from the middle of the plate.

        Row by row from the bottom, left to right. A pitch counts only where there are two.
        """
        across_m = _in_a_row(self.across, self.pitch_across_m)
        up_m = _in_a_row(self.up, self.pitch_up_m)
        return np.stack([np.tile(across_m, self.up), np.repeat(up_m, self.across)], axis=-1)


def _in_a_row(count: int, pitch_m: float) -> Floats:
    """Return places a pitch apart about nought."""
    if count == 1:
        return np.zeros(1)
    return np.asarray(pitch_m * (np.arange(count) - (count - 1) / 2), dtype=float)


class Stay(NamedTuple):
    """A stay or strut between an arm and the wall, in the plane of arm and wall's upright.

    Attributes:
        from_m: Its wall point above the root of the arm; below when negative.
        to_m: Where it meets the arm, from the wall face.
        section: Its own.
        pulls_only: Whether it goes slack instead of pushing: a rod, a flat.
    """

    from_m: float
    to_m: float
    section: Section
    pulls_only: bool

    @property
    def length_m(self) -> float:
        """Return how long it is between its two points."""
        return math.hypot(self.from_m, self.to_m)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bracket:
    """A bracket on the wall.

    Attributes:
        key: Its mark.
        set_name: Brackets that carry the same things together.
        root_m: Middle of its wall plate, on the wall face.
        reach_m: Wall face to the end of its arm.
        bears_m: Wall face to where the load bears.
        section: Its arm.
        modulus_pa: Young's modulus and shear modulus of the arm.
        holds: welded, pin, hook, slide or rests.
        cell: Where its row is.
        grade: Of its metal, as typed; blank when nobody said.
        metal: Key of its material.
        density_kg_m3: Of the metal.
        plate: Its wall plate; None when none is described.
        fixings: What holds the plate; None when nobody said.
        stay: None when it has none.
        stage: When it goes up; blank when nobody said.
        trial: What was typed when a section is to be tried, blank otherwise.
    """

    key: str
    set_name: str
    root_m: tuple[float, float, float]
    reach_m: float
    bears_m: float
    section: Section
    modulus_pa: tuple[float, float]
    holds: str
    cell: Cell
    grade: str = ""
    metal: str = ""
    density_kg_m3: float = math.nan
    plate: Plate | None = None
    fixings: Fixings | None = None
    stay: Stay | None = None
    stage: str = ""
    trial: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drive:
    """What the `moving` sheet says of a mover; NaN or blank where it says nothing."""

    assembly: str
    drive_torque_nm: float
    drive_mass_kg: float
    drum_m: float
    falls: float
    counterweight: str
    radius_m: float
    twist_rad: float
    twist_assumed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ExtraLoad:
    """A load from elsewhere: a force [N] in (across, up, out) at a point of an assembly's frame.

    Attributes:
        key: Its name.
        assembly: What it acts on.
        cause: What causes it.
        force_n: Characteristic.
        at_m: Where it acts.
        source: Who says so.
        together: Loads it may act with; None when nobody said.
        fills: Whether it is water, up to what the hollow shapes of the assembly hold.
    """

    key: str
    assembly: str
    cause: str
    force_n: tuple[float, float, float]
    at_m: tuple[float, float, float]
    source: str
    together: tuple[str, ...] | None = None
    fills: bool = False


@dataclass(frozen=True, slots=True)
class Assumption:
    """Something the program took for granted."""

    what: str
    value: str
    why: str


@dataclass(frozen=True, slots=True)
class PartColumns:
    """The resolved parts as one table: a row per part, each column an array over the parts.

    Attributes:
        parts: The rows themselves, for what is text.
        assembly: (n,) row of the part's assembly.
        count: (n,) copies.
        dims: Sizes by name, each (n,).
        shape_rows: For each form (a shape, or the key of a model), the rows that have it.
        rotation: (n, 3, 3) from the shape's own frame to the assembly's.
        at_m: (n, 3) middle of the envelope in the assembly's frame.
        relief: (n,).
        cut_away: (n,).
        in_wind: (n,) bool.
        models: Models by key.
    """

    parts: tuple[Part, ...]
    assembly: Indices
    count: Floats
    dims: Dims
    shape_rows: Mapping[str, Indices]
    rotation: Floats
    at_m: Floats
    relief: Floats
    cut_away: Floats
    in_wind: npt.NDArray[np.bool_]
    models: Mapping[str, Modelled] = field(default_factory=dict)

    def measures(self, form: str, rows: npt.ArrayLike) -> Measures:
        """Return what some parts of one form measure."""
        if form in self.models:
            return repeated(self.models[form].model.measures, len(np.atleast_1d(rows)))
        return measure(form, self.dims.taken(rows))


@dataclass(frozen=True, slots=True)
class Facts:
    """The facts of the job: as typed, or the stated default; what has neither is absent."""

    values: Mapping[str, Sourced]

    def number(self, item: str, default: float = float("nan")) -> float:
        """Return a fact as SI number, or the default when nobody said and nothing is assumed."""
        fact = self.values.get(item)
        return default if fact is None else float(fact.value)

    def text(self, item: str, default: str = "") -> str:
        """Return a fact as text."""
        fact = self.values.get(item)
        return default if fact is None else str(fact.value)

    def has(self, item: str) -> bool:
        """Return whether there is a value, typed or assumed."""
        return item in self.values
