"""Turning: balance, torque and inertia of everything that turns about an axle."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import shapely

from estimator.geometry.bodies import Body, inertia_from_second, moved, rotated
from estimator.geometry.measures import Floats
from estimator.geometry.placing import AXES
from estimator.geometry.silhouettes import shifted, united
from estimator.resolve.attached import BLADE_TWIST_RAD
from estimator.resolve.job import Resolved
from estimator.resolve.records import Assembly, Drive
from estimator.stages.blowing import Wind
from estimator.stages.measuring import Shapes
from estimator.stages.outlining import Outliner
from estimator.stages.posing import carried, pose_of
from estimator.stages.turning_wind import (
    WINDWARD,
    face_words,
    hollow_torque,
    pressure_from,
    upright_share,
    vane_words,
)
from estimator.stages.weighing import Weights
from estimator.supports import movers
from estimator.supports.hands import NO_SIDE, Side, ice_torque, wind_torque
from estimator.supports.vanes import Vane
from estimator.wind.charts import rectangle_coefficient
from estimator.wind.coefficients import flat_plate
from estimator.wind.ice import GLAZE_KG_M3

GRAVITY_ANGLES = 24
ALIKE_M = 1e-6
"""Corners this alike in how far they reach are equally far: finer than anything is built."""
ICE = "ice on the blade's face alone"
HOLLOW = "edge wind, only were the blade a half tube"
NO_SHEAR = (
    "the pressure was stated, the same at every height: no wind that grows with height from tail "
    "to blade is in these torques"
)
THIN_RATIO = 10.0
"""Depth to width from which Figure 7.23 is level, for a hand whose edge is nothing."""


class Torque(NamedTuple):
    """One way for wind or ice to turn a mover."""

    mechanism: str
    torque_nm: float
    direction_deg: float | None
    why: str


@dataclass(frozen=True, slots=True)
class Turned:
    """What turns about one axle.

    Attributes:
        assembly: The mover.
        unbalance_kgm: (3,) from the axle to the heavy side, as drawn.
        gravity_torque_nm: Greatest over a whole turn.
        gravity_by_angle: (angle [deg], torque [Nm]), from its position as drawn.
        inertia_kgm2: About the axle.
        counterweight: Part that balances it; blank for none.
        counterweight_kg: Mass that would bring it to balance; NaN without a counterweight.
        radius_m: Where that mass sits.
        drive_torque_nm: Of the drive at the axle; NaN when not given.
        cases: Wind and ice.
        notes: Sentences to read with the numbers.
        vane: How it settles, of what turns freely about an upright axle; else blank.
    """

    assembly: str
    unbalance_kgm: Floats
    gravity_torque_nm: float
    gravity_by_angle: tuple[tuple[float, float], ...]
    inertia_kgm2: float
    counterweight: str
    counterweight_kg: float
    radius_m: float
    drive_torque_nm: float
    cases: tuple[Torque, ...]
    notes: tuple[str, ...]
    vane: str = ""


class _Mover(NamedTuple):
    """A mover as drawn: its axle, and the rows of the assemblies that turn with it."""

    assembly: Assembly
    axle_m: Floats
    axis: Floats
    rows: tuple[int, ...]


def turn(resolved: Resolved, shapes: Shapes, weights: Weights, wind: Wind) -> tuple[Turned, ...]:
    """Return balance, torque and inertia of everything that turns."""
    keep = resolved.columns.in_wind
    outliner = Outliner.of(resolved.columns, shapes, keep)
    return tuple(
        _turned(_mover(resolved, row), resolved, weights, wind, outliner)
        for row, assembly in enumerate(resolved.assemblies)
        if assembly.moves == "turns"
    )


def _mover(resolved: Resolved, row: int) -> _Mover:
    by_key = {assembly.key: assembly for assembly in resolved.assemblies}
    mover = resolved.assemblies[row]
    rows = [i for i, a in enumerate(resolved.assemblies) if mover.key in carried(a, by_key)]
    _, axle_m = pose_of(mover, {}, by_key)
    return _Mover(mover, axle_m, np.eye(3)[AXES[mover.axis]], tuple(rows))


def _turned(
    mover: _Mover, resolved: Resolved, weights: Weights, wind: Wind, outliner: Outliner
) -> Turned:
    drive = resolved.drives.get(mover.assembly.key)
    bodies, keys = _bodies(mover, resolved, weights)
    unbalance = movers.out_of_balance(bodies.mass_kg, bodies.centre_m, mover.axle_m, mover.axis)
    angles_rad = 2 * np.pi * np.arange(GRAVITY_ANGLES) / GRAVITY_ANGLES
    gravity_nm = movers.gravity_torque(unbalance, mover.axis, angles_rad)
    inertia = movers.axle_inertia(
        bodies.mass_kg, bodies.centre_m, inertia_from_second(bodies.second_kgm2),
        mover.axle_m, mover.axis,
    )  # fmt: skip
    counter_kg, radius_m, notes = _counterweight(mover, drive, bodies, keys)
    sides = _sides(mover, resolved, outliner)
    cases, more = _wind_cases(mover, drive, resolved, wind, sides)
    return Turned(
        assembly=mover.assembly.key,
        unbalance_kgm=unbalance,
        gravity_torque_nm=movers.greatest_gravity_torque(unbalance, mover.axis),
        gravity_by_angle=tuple(
            (float(np.degrees(a)), float(t)) for a, t in zip(angles_rad, gravity_nm, strict=True)
        ),
        inertia_kgm2=inertia,
        counterweight=drive.counterweight if drive else "",
        counterweight_kg=counter_kg,
        radius_m=radius_m,
        drive_torque_nm=_drive_torque(drive),
        cases=cases,
        notes=(*notes, *more),
        vane=_vane(mover, drive, bodies, sides),
    )


def _vane(mover: _Mover, drive: Drive | None, bodies: Body, sides: "_Sides") -> str:
    """Return how a vane settles; blank for what is driven, or does not turn about up."""
    driven = not math.isnan(_drive_torque(drive))
    if mover.assembly.axis != "up" or driven or sides.edge is None:
        return ""
    across = np.cross(mover.axis, sides.tip)
    arms_m = bodies.centre_m - mover.axle_m
    reach_m = np.hypot(arms_m @ sides.tip, arms_m @ across)
    return vane_words(
        Vane(
            sides.edge[0].moment_m3,
            sides.edge[1].moment_m3,
            float(bodies.mass_kg @ (arms_m @ sides.tip)),
            float(bodies.mass_kg @ (arms_m @ across)),
            float(bodies.mass_kg @ reach_m),
        )
    )


def _bodies(mover: _Mover, resolved: Resolved, weights: Weights) -> tuple[Body, list[str]]:
    """Return the bodies of the parts that turn, in the job's frame as drawn, and their marks."""
    by_key = {assembly.key: assembly for assembly in resolved.assemblies}
    found, keys = [], []
    for row in mover.rows:
        rotation, origin_m = pose_of(resolved.assemblies[row], {}, by_key)
        at = np.flatnonzero(resolved.columns.assembly == row)
        own = Body(*(values[at] for values in weights.parts))
        found.append(moved(rotated(own, rotation), origin_m))
        keys += [resolved.columns.parts[i].key for i in at]
    return Body(*(np.concatenate(values) for values in zip(*found, strict=True))), keys


def _counterweight(
    mover: _Mover, drive: Drive | None, bodies: Body, keys: Sequence[str]
) -> tuple[float, float, list[str]]:
    """Return the mass that balances a mover, the radius it sits at, and what to say about it."""
    if drive is None or not drive.counterweight:
        return math.nan, math.nan, []
    if drive.counterweight not in keys:
        return math.nan, math.nan, [(f'the counterweight part "{drive.counterweight}" is not among '
                                    "the parts that turn")]  # fmt: skip
    at = keys.index(drive.counterweight)
    others_kg = bodies.mass_kg.copy()
    others_kg[at] = 0.0
    unbalance = movers.out_of_balance(others_kg, bodies.centre_m, mover.axle_m, mover.axis)
    arm_m = movers.out_of_balance(np.array([1.0]), bodies.centre_m[[at]], mover.axle_m, mover.axis)
    radius_m = float(np.linalg.norm(arm_m)) if math.isnan(drive.radius_m) else drive.radius_m
    if not radius_m > 0:
        return math.nan, math.nan, ["the counterweight sits on the axle and balances nothing"]
    notes = []
    if float(arm_m @ unbalance) > 0:
        notes.append(
            "without the counterweight the heavy side is already where it sits: it is "
            "not wanted there, and the mass printed belongs on the other side"
        )
    return movers.counterweight_kg(unbalance, radius_m), radius_m, notes


def _drive_torque(drive: Drive | None) -> float:
    if drive is None:
        return math.nan
    if not math.isnan(drive.drive_torque_nm):
        return drive.drive_torque_nm
    if math.isnan(drive.drive_mass_kg) or math.isnan(drive.drum_m):
        return math.nan
    return movers.drive_torque(drive.drive_mass_kg, drive.drum_m, int(drive.falls))


class _Exposed(NamedTuple):
    """A mover in the wind.

    Attributes:
        face: Blade and tail, seen along the axle.
        edge: Blade and tail, seen along the plane of turning.
        square_pa: Pressure of wind onto its face.
        along_pa: Of wind along the plane of turning.
        twist_rad: How far its face is out of the plane of turning.
        twist_words: The same for print.
        tail_share: Pressure on the tail, with the blade upright above it, as a share of that on
            the blade; None where the pressure was stated and is the same at every height.
    """

    face: tuple[Side, Side]
    edge: tuple[Side, Side]
    square_pa: float
    along_pa: float
    twist_rad: float
    twist_words: str
    tail_share: float | None


class _Sides(NamedTuple):
    """Blade and tail of a mover, seen along its axle and on its edge; the way to its tip."""

    face: tuple[Side, Side] | None
    edge: tuple[Side, Side] | None
    tip: Floats


def _wind_cases(
    mover: _Mover, drive: Drive | None, resolved: Resolved, wind: Wind, sides: _Sides
) -> tuple[tuple[Torque, ...], list[str]]:
    """Return every way for wind or ice to turn the mover, and what to say about them."""
    catch = next((c for c in wind.catches if c.assembly == mover.assembly.key), None)
    if catch is None:
        return (), ["there is no wind pressure on it, so no torque of wind is given"]
    face, edge, _ = sides
    if face is None or edge is None:
        return (), ["it shows no outline along its axle, so no torque of wind is given"]
    twist_rad = drive.twist_rad if drive else BLADE_TWIST_RAD
    assumed = " (assumed)" if drive is None or drive.twist_assumed else ""
    words = f"twist {math.degrees(twist_rad):g} deg{assumed}"
    windward, weather = WINDWARD[mover.assembly.axis], resolved.weather
    square_pa, along_pa = (
        pressure_from(catch.pressure, sides_deg, weather.sides.directions_deg,
                      mover.assembly.stands)
        for sides_deg in (windward.square, windward.along)
    )  # fmt: skip
    stated = weather.stated_pa is not None
    below = None if stated else upright_share(weather, float(mover.axle_m[1]), face)
    exposed = _Exposed(face, edge, square_pa, along_pa, twist_rad, words, below)
    ice = _ice_case(
        face[0],
        resolved.facts.number("ice_thickness", 0.0),
        resolved.facts.number("ice_density", GLAZE_KG_M3),
    )
    return (*_torques(exposed, mover.assembly.axis), *ice), [
        (
            "torque of wind is an envelope of simple mechanisms: no published rule for a hand was "
            "found. A flat sheet counts without the edge of its thickness"
        ),
        face_words(face, square_pa * _face_drag(face)),
        *((NO_SHEAR,) if stated else ()),
    ]


def _torques(exposed: _Exposed, axis: str) -> tuple[Torque, ...]:
    """Return every way for the wind to turn a mover."""
    face, edge, square_pa, along_pa, twist_rad, twist, _ = exposed
    face_m2, edge_m2 = (sum(side.area_m2 for side in sides) for sides in (face, edge))
    twisted = _face_drag(face) * math.sin(twist_rad)
    along = float(rectangle_coefficient(face_m2 / edge_m2 if edge_m2 > 0 else THIN_RATIO))
    square_deg, along_words, *_ = WINDWARD[axis]
    even, gust = "the tail works against the blade", "no wind on the tail"
    edge_on = f"edge wind (from {along_words} deg)"
    return (
        Torque(
            "wind square to a flat blade",
            wind_torque(square_pa * 0.0, *face),
            square_deg,
            "the force is parallel to the axle, whatever the balance",
        ),
        Torque(
            "blade twisted, even wind",
            wind_torque(square_pa * twisted, *face),
            square_deg,
            f"{twist}; {even}",
        ),
        Torque(
            "blade twisted, gust on the blade alone",
            wind_torque(square_pa * twisted, face[0]),
            square_deg,
            f"{twist}; {gust}",
        ),
        Torque(f"{edge_on}, even", wind_torque(along_pa * along, *edge), None, even),
        Torque(
            f"{edge_on}, on the blade alone", wind_torque(along_pa * along, edge[0]), None, gust
        ),
        *_upright(exposed, axis, (twisted, along)),
        Torque(HOLLOW, *_hollow(edge, along_pa)),
    )


def _hollow(edge: tuple[Side, Side], pressure_pa: float) -> tuple[float, None, str]:
    torque_nm, why = hollow_torque(edge, pressure_pa)
    return torque_nm, None, why


def _face_drag(face: tuple[Side, Side]) -> float:
    """Return the coefficient of the face, as of a plate as long and as large."""
    length_m = sum(side.reach_m for side in face)
    return flat_plate(length_m, sum(side.area_m2 for side in face) / length_m).value


def _upright(exposed: _Exposed, axis: str, drags: tuple[float, float]) -> Iterator[Torque]:
    """Yield what wind that grows with height does to a blade upright above its tail."""
    share = exposed.tail_share
    if axis == "up" or share is None:
        return
    why = f"wind at the tail is {100 * share:.0f} % of that at the blade"
    for words, drag, sides, side_deg, pressure_pa in (
        ("blade twisted", drags[0], exposed.face, WINDWARD[axis].square_deg, exposed.square_pa),
        ("edge wind", drags[1], exposed.edge, None, exposed.along_pa),
    ):
        torque_nm = wind_torque(pressure_pa * drag, *sides, tail_share=share)
        yield Torque(f"{words}, blade upright", torque_nm, side_deg, why)


def _ice_case(blade: Side, ice_m: float, ice_kg_m3: float) -> tuple[Torque, ...]:
    """Return the torque of ice on the blade's face alone, none without ice."""
    if not ice_m > 0:
        return ()
    torque_nm = ice_torque(blade, ice_m, ice_kg_m3)
    why = f"{1000 * ice_m:g} mm of ice, blade level"
    return (Torque(ICE, torque_nm, None, why),)


def _sides(mover: _Mover, resolved: Resolved, outliner: Outliner) -> _Sides:
    """Return blade and tail, seen along the axle and seen on their edge."""
    plane = np.delete(np.eye(3), AXES[mover.assembly.axis], axis=0)
    face = _outline(mover, resolved, outliner, plane)
    # A ring says its first corner twice, which would draw the middle of the corners to it.
    points_m = np.unique(shapely.get_coordinates(face), axis=0)
    if not len(points_m):
        return _Sides(None, None, np.zeros(3))
    along = _tip_way(points_m)
    turned = np.array([along, [-along[1], along[0]]])
    on_face = _halves(_outline(mover, resolved, outliner, turned @ plane))
    on_edge = _halves(_outline(mover, resolved, outliner, np.array([along @ plane, mover.axis])))
    return _Sides(on_face, on_edge, along @ plane)


def _tip_way(points_m: Floats) -> Floats:
    """Return the (2,) unit way to the tip; the middle of its corners where it is square."""
    reach_m = np.hypot(*points_m.T)
    far_m = points_m[reach_m >= reach_m.max() - ALIKE_M]
    tip_m = far_m[far_m @ far_m[0] > 0].mean(axis=0)
    return np.asarray(tip_m / np.hypot(*tip_m))


def _outline(
    mover: _Mover, resolved: Resolved, outliner: Outliner, projection: Floats
) -> shapely.Geometry:
    """Return the united outline of what turns, about the axle, as drawn."""
    by_key = {assembly.key: assembly for assembly in resolved.assemblies}
    drawn = []
    for row in mover.rows:
        rotation, origin_m = pose_of(resolved.assemblies[row], {}, by_key)
        _, shadows = outliner.shadows(projection, [row], rotation)
        by_m = projection @ (origin_m - mover.axle_m)
        drawn.append(shifted(united(shadows), by_m))
    return united(np.array(drawn))


def _halves(outline: shapely.Geometry) -> tuple[Side, Side]:
    """Return an outline on the blade's side of the axle (first coordinate above 0), and behind."""
    low_x, low_y, high_x, high_y = shapely.bounds(outline)
    far = max(abs(v) for v in (low_x, low_y, high_x, high_y)) + 1.0
    blade = shapely.intersection(outline, shapely.box(0.0, -far, far, far))
    tail = shapely.intersection(outline, shapely.box(-far, -far, 0.0, far))
    return _side(blade, 1.0), _side(tail, -1.0)


def _side(outline: shapely.Geometry, sign: float) -> Side:
    if shapely.is_empty(outline) or not shapely.area(outline) > 0:
        return NO_SIDE
    points_m = sign * shapely.get_coordinates(outline)[:, 0]
    return Side(
        float(shapely.area(outline)),
        abs(float(shapely.get_x(shapely.centroid(outline)))),
        float(points_m.max()),
    )
