"""Slender parts: how fast long bars and bracket arms shake, and the winds that set them off."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from estimator.geometry.measures import Floats
from estimator.geometry.placing import AXES
from estimator.reference.finding import Miss
from estimator.reference.materials import find_material
from estimator.reference.sections import find_section
from estimator.resolve.brackets import BRACKETS
from estimator.resolve.job import Resolved
from estimator.resolve.records import Bracket, Indices, Layer, Part
from estimator.stages.arm_masses import arm_key, arm_mass
from estimator.stages.bending import (
    AXLE,
    WALL,
    Bending,
    Free,
    carrying_layer,
    frequencies,
    rolled,
    tapered,
    widest_m,
)
from estimator.stages.measuring import Shapes
from estimator.stages.posing import Group
from estimator.stages.weighing import Weights
from estimator.stages.whole import frames
from estimator.wind import shedding
from estimator.wind.en1991 import HIGHEST_M, Site, profile

LONG = 10.0
"""A bar this many times as long as it is wide counts as slender: program default."""
ROUND_SHAPES = ("rod", "tube", "formed", "cone")
TAPERED = frozenset({"formed", "cone"})
SHAPES = (*ROUND_SHAPES, "flat", "hollow", "section")
LUMP = 1 / 3
"""What is at most this long, against a bar, and lies at its end counts as a mass there."""
NEAR = 0.02
"""How far off the end that may be, as a share of the bar's length."""
SHARE = "share of set"
"""What sits at the end of the arm of a bracket."""
ACROSS = 0.5
"""Square of how much of its direction a bar has across the axle that it runs over."""
BESIDE = 0.1
"""How far beside the axle a bar of a mover may run and be held there, as a share of its length."""


class Speeds(NamedTuple):
    """The winds that set one bar swinging.

    Attributes:
        kind: Of its section, for vortices.
        width_m: b, across the wind.
        height_m: Of its middle above the ground, NaN when the datum's is not known.
        mean_m_s: Mean wind there, NaN when no site is known.
        strouhal: St.
        critical_m_s: Lowest and highest speed at which vortices keep step with it.
        scruton: Sc.
        galloping_factor: a_G, NaN for what does not gallop.
        galloping_m_s: Speed from which it gallops, NaN likewise.
    """

    kind: str
    width_m: float
    height_m: float
    mean_m_s: float
    strouhal: float
    critical_m_s: tuple[float, float]
    scruton: float
    galloping_factor: float
    galloping_m_s: float

    @property
    def sheds(self) -> bool | None:
        """Return whether vortices are to be looked at; None where the mean wind is not known."""
        return self._met(self.critical_m_s[0])

    @property
    def gallops(self) -> bool | None:
        """Return whether galloping is to be looked at; None where the mean wind is not known."""
        return self._met(self.galloping_m_s)

    def _met(self, speed_m_s: float) -> bool | None:
        return None if math.isnan(self.mean_m_s) else shedding.met(speed_m_s, self.mean_m_s)


@dataclass(frozen=True, slots=True, kw_only=True)
class Slender:
    """One slender part, held at one end or at its axle, in its weaker direction.

    Attributes:
        part: Its mark.
        name: What it is.
        assembly: What it belongs to.
        held: Where it is taken to be held.
        length_m: From there to its tip.
        across_m: Its width the way it swings.
        mass_kg_m: Of itself, on average.
        modulus_pa: E, lower and upper end.
        tip: Marks of what sits at its end; blank for nothing.
        tip_kg: What that weighs.
        alone_hz: Its lowest natural frequency by itself, lower and upper end.
        hz: The same with what sits at its end.
        speeds: Winds that set it swinging; None for what is not in the wind.
    """

    part: str
    name: str
    assembly: str
    held: str
    length_m: float
    across_m: float
    mass_kg_m: float
    modulus_pa: tuple[float, float]
    tip: str
    tip_kg: float
    alone_hz: tuple[float, float]
    hz: tuple[float, float]
    speeds: Speeds | None


class Slenders(NamedTuple):
    """Every slender part, the slowest first, and why others could not be told."""

    found: tuple[Slender, ...]
    unknown: tuple[tuple[str, str], ...]


def find_slender(
    resolved: Resolved, shapes: Shapes, weights: Weights, groups: Sequence[Group]
) -> Slenders:
    """Return the slender parts of a job and the arms of its brackets, the slowest first."""
    desk = _Desk.of(resolved, shapes, weights, groups)
    found, unknown = [], []
    for row in desk.long_rows():
        part = resolved.columns.parts[row]
        told = desk.slender(row)
        if isinstance(told, str):
            unknown.append((part.key, told))
        else:
            found.append(told)
    found += [arm for bracket in resolved.brackets if (arm := desk.arm(bracket)) is not None]
    return Slenders(tuple(sorted(found, key=lambda one: one.hz[0])), tuple(unknown))


@dataclass(frozen=True, slots=True)
class _Desk:
    """Everything a slender part is worked out from.

    Attributes:
        resolved: The job.
        shapes: What its parts measure.
        weights: What they weigh.
        up_m: (n,) how far the middle of each part is above the datum, in the first position.
        longest_m: (n,) longest side of each part's envelope.
        local: (n,) number of each part among those of its form.
        lone: (n,) whether its copies stand in one place.
    """

    resolved: Resolved
    shapes: Shapes
    weights: Weights
    up_m: Floats
    longest_m: Floats
    local: Indices
    lone: npt.NDArray[np.bool_]

    @classmethod
    def of(
        cls, resolved: Resolved, shapes: Shapes, weights: Weights, groups: Sequence[Group]
    ) -> "_Desk":
        """Return the desk, with what concerns every part worked out at once."""
        columns = resolved.columns
        rotation, origin_m = frames(len(resolved.assemblies), groups)
        turn, step_m = rotation[columns.assembly], origin_m[columns.assembly]
        centre_m = np.einsum("nij,nj->ni", turn, weights.parts.centre_m) + step_m
        longest_m = np.zeros(len(columns.parts))
        local = np.zeros(len(columns.parts), dtype=np.intp)
        for form, rows in columns.shape_rows.items():
            longest_m[rows] = shapes.measures[form].box_m.max(axis=-1)
            local[rows] = np.arange(len(rows))
        lone = np.array([not part.set_out[0] for part in columns.parts], dtype=bool)
        return cls(resolved, shapes, weights, centre_m[:, 1], longest_m, local, lone)

    def long_rows(self) -> Iterator[int]:
        """Yield the parts that are long bars; the arms of brackets are told of apart."""
        columns = self.resolved.columns
        for shape in SHAPES:
            rows = columns.shape_rows.get(shape, np.zeros(0, dtype=np.intp))
            for row, wide_m in zip(rows, widest_m(columns.dims.taken(rows)), strict=True):
                part = columns.parts[row]
                own = part.assembly.startswith(BRACKETS)
                if part.dims[0] > LONG * wide_m and not own:
                    yield int(row)

    def slender(self, row: int) -> Slender | str:
        """Return what one long bar does, or why that cannot be said."""
        part = self.resolved.columns.parts[row]
        layer = carrying_layer(part)
        modulus_pa = self._modulus(layer.material) if layer else None
        if layer is None or modulus_pa is None:
            return f"no modulus of elasticity is known for {layer.material if layer else 'it'}"
        section = self._section(row, part, layer)
        if section is None:
            return "its section is not in the tables"
        each_kg = float(self.weights.parts.mass_kg[row]) / part.count
        if not each_kg > 0:
            return "it has no mass"
        mass_kg_m = each_kg / part.dims[0]
        ways = [
            (frequencies(section, modulus_pa, mass_kg_m, free), free) for free in self._ways(row)
        ]
        hz, free = min(ways, key=lambda way: way[0][0])
        return Slender(
            part=part.key, name=part.name, assembly=part.assembly, held=free.held,
            length_m=free.length_m, across_m=section.across_m, mass_kg_m=mass_kg_m,
            modulus_pa=modulus_pa, tip=free.tip, tip_kg=free.tip_kg,
            alone_hz=frequencies(section, modulus_pa, mass_kg_m, Free(free.length_m)), hz=hz,
            speeds=self._speeds(row, section, mass_kg_m, hz) if part.in_wind else None,
        )  # fmt: skip

    def arm(self, bracket: Bracket) -> Slender | None:
        """Return what the arm of a bracket does with its share of what hangs from the set."""
        masses = arm_mass(self.resolved, self.weights, bracket)
        if masses is None or not bracket.bears_m > 0:
            return None
        section, e_pa = bracket.section, bracket.modulus_pa[0]
        arm = rolled(section)
        alone_hz, hz = (
            frequencies(arm, (e_pa, e_pa), masses.arm_kg_m, Free(bracket.bears_m, tip_kg=tip_kg))
            for tip_kg in (0.0, masses.share_kg)
        )
        return Slender(
            part=arm_key(bracket), name=f"arm, {section.key}", assembly=BRACKETS + bracket.set_name,
            held=WALL,
            length_m=bracket.bears_m, across_m=arm.across_m,
            mass_kg_m=masses.arm_kg_m, modulus_pa=(e_pa, e_pa),
            tip=SHARE if masses.share_kg > 0 else "", tip_kg=masses.share_kg,
            alone_hz=alone_hz, hz=hz, speeds=None,
        )  # fmt: skip

    def _modulus(self, material: str) -> tuple[float, float] | None:
        """Return the band of E of a material; None where the tables have none."""
        found = find_material(self.resolved.library, material)
        if isinstance(found, Miss):
            return None
        low, high = found.youngs_modulus_low_pa, found.youngs_modulus_high_pa
        return (low, high) if low is not None and high is not None else None

    def _section(self, row: int, part: Part, layer: Layer) -> Bending | None:
        """Return what bends of a bar in its weaker direction; None for an unknown section."""
        if part.shape == "section":
            found = find_section(self.resolved.library, layer.gauge)
            return None if isinstance(found, Miss) else rolled(found)
        if part.shape in TAPERED:
            return tapered(part, layer)
        solid = self.shapes.measures[part.shape].solid
        if solid is None:
            return None
        at = int(self.local[row])
        own_m4 = np.diag(solid.second_m2[at])[1:] * solid.size[at] / part.dims[0]
        weak = int(np.argmin(own_m4))
        sides_m = self.shapes.measures[part.shape].box_m[at, 1:]
        wide_m, deep_m = float(sides_m[weak]), float(sides_m[1 - weak])
        return Bending(own_m4[[weak]], np.ones(1), wide_m, wide_m, deep_m / wide_m)

    def _ways(self, row: int) -> list[Free]:
        """Return the ways for a bar to be free, with what sits at its tip.

        A bar of a mover that runs over the axle is held there, any other at one of its ends: which
        one is not known, but a cone is held at its thicker end.
        """
        columns = self.resolved.columns
        part, length_m = columns.parts[row], columns.parts[row].dims[0]
        if part.set_out[0] or part.shape == "formed":
            return [Free(length_m)]
        along, middle_m = columns.rotation[row][:, 0], columns.at_m[row]
        far_m, near_m = middle_m + along * length_m / 2, middle_m - along * length_m / 2
        axle_m = self._axle_m(row)
        if axle_m is not None:
            return [
                Free(length_m / 2 - axle_m, *self._tip(row, far_m), AXLE),
                Free(length_m / 2 + axle_m, *self._tip(row, near_m), AXLE),
            ]
        ends_m = [near_m, far_m]
        if part.shape == "cone":
            ends_m = [near_m] if columns.dims.end_diameter_m[row] > part.dims[3] else [far_m]
        return [Free(length_m, *self._tip(row, end_m)) for end_m in ends_m]

    def _axle_m(self, row: int) -> float | None:
        """Return where along a bar of even section, from its middle, the axle of its mover is."""
        columns = self.resolved.columns
        part, mover = columns.parts[row], self.resolved.assemblies[columns.assembly[row]]
        if mover.moves != "turns" or part.shape in TAPERED:
            return None
        flat = 1.0 - np.eye(3)[AXES[mover.axis]]
        along, middle_m = flat * columns.rotation[row][:, 0], flat * columns.at_m[row]
        if not along @ along > ACROSS:
            return None
        at_m = -float(middle_m @ along) / float(along @ along)
        beside_m = float(np.linalg.norm(middle_m + at_m * along))
        length_m = part.dims[0]
        inside = abs(at_m) < (0.5 - NEAR) * length_m
        return at_m if inside and beside_m <= BESIDE * length_m else None

    def _tip(self, row: int, end_m: Floats) -> tuple[str, float]:
        """Return what small things sit at an end of a bar, and their mass for one bar."""
        columns, bodies = self.resolved.columns, self.weights.parts
        part = columns.parts[row]
        small = (columns.assembly == columns.assembly[row]) & (bodies.mass_kg > 0)
        small &= self.longest_m <= LUMP * part.dims[0]
        small &= self.lone
        off_m = np.linalg.norm(bodies.centre_m - end_m, axis=-1)
        at = np.flatnonzero(small & (off_m <= self.longest_m / 2 + NEAR * part.dims[0]))
        marks = ", ".join(columns.parts[i].key for i in at)
        return marks, float(bodies.mass_kg[at].sum()) / part.count

    def _speeds(
        self, row: int, section: Bending, mass_kg_m: float, hz: tuple[float, float]
    ) -> Speeds:
        """Return the winds that set a bar swinging."""
        weather = self.resolved.weather
        round_section_ = self.resolved.columns.parts[row].shape in ROUND_SHAPES
        kind = shedding.ROUND if round_section_ else shedding.SHARP
        strouhal = shedding.STROUHAL[kind]
        height_m = weather.datum_m + float(self.up_m[row])
        mean_m_s = math.nan
        if isinstance(weather.site, Site):
            within_m = min(max(height_m, 0.0), HIGHEST_M)
            mean_m_s = float(profile(weather.site, within_m).mean_speed_m_s)
        scruton = shedding.scruton_number(mass_kg_m, section.wide_m)
        factor = shedding.galloping_factor(kind, section.ratio)
        return Speeds(
            kind=kind, width_m=section.wide_m, height_m=height_m, mean_m_s=mean_m_s,
            strouhal=strouhal,
            critical_m_s=(shedding.critical_speed(section.wide_m, hz[0], strouhal),
                          shedding.critical_speed(section.wide_m, hz[1], strouhal)),
            scruton=scruton,
            galloping_factor=math.nan if factor is None else factor,
            galloping_m_s=math.nan if factor is None else
            shedding.galloping_speed(scruton, hz[0], section.wide_m, factor),
        )  # fmt: skip
