"""Bending: what bends of a long bar in its weaker direction, and how fast that shakes."""

import math
from typing import NamedTuple

import numpy as np

from estimator.geometry.measures import Dims, Floats, given
from estimator.geometry.turned import round_section
from estimator.reference.sections import Section
from estimator.resolve.records import Layer, Part
from estimator.supports.cantilevers import even_frequency, tapered_frequency

ONE_END, AXLE, WALL = "one end", "the axle", "the wall"
"""Where a bar is taken to be held."""
STATIONS = 201
"""Places along a tapered bar: with them its frequency holds to a thousandth."""
POINT = 1e-6
"""How thick the end of what runs out to a point counts, as a share of the other end."""
OUTER = 1 / 3
"""The width of a tapered bar for vortices is its mean over this share at the free end."""


class Bending(NamedTuple):
    """What bends of a bar, at stations from the held end to the tip; one station for an even bar.

    Attributes:
        inertia_m4: (k,) second moment of area in its weaker direction.
        share: (k,) its mass per metre over the mean.
        across_m: Width the way it swings.
        wide_m: Width that the wind meets, for vortices.
        ratio: Depth along that wind over this width, NaN where it is no plain rectangle.
    """

    inertia_m4: Floats
    share: Floats
    across_m: float
    wide_m: float
    ratio: float


class Free(NamedTuple):
    """One way for a bar to be free.

    Attributes:
        length_m: How far it reaches from where it is held.
        tip: Marks of what sits at its tip; blank for nothing.
        tip_kg: What that weighs.
        held: Where it is held.
    """

    length_m: float
    tip: str = ""
    tip_kg: float = 0.0
    held: str = ONE_END


def widest_m(dims: Dims) -> Floats:
    """Return the widest any of some bars is across its length, (n,)."""
    sides = (dims.width_m, dims.depth_m, dims.diameter_m, dims.end_diameter_m)
    # The width of a formed bar is its chord, not a side: it has a diameter.
    is_round = dims.diameter_m > 0
    widest = np.max([given(side) for side in sides[:2]], axis=0)
    thickest = np.max([given(side) for side in sides[2:]], axis=0)
    wide_m: Floats = np.where(is_round, thickest, widest)
    return wide_m


def carrying_layer(part: Part) -> Layer | None:
    """Return the layer that carries a part: its solid, its section, or a skin of known gauge."""
    by_over = {over: [x for x in part.layers if x.over == over] for over in ("solid", "length")}
    skins = [x for x in part.layers if x.thickness_m > 0] if part.shape == "cone" else []
    typed = [x for x in part.layers if x.over == "each"] if part.shape != "cone" else []
    carrying = (*by_over["solid"], *by_over["length"], *skins, *typed)
    return carrying[0] if carrying else None


def rolled(section: Section) -> Bending:
    """Return a section of the tables."""
    wide_m, weak_m4 = section.width_m, section.iz_m4
    if section.iy_m4 < section.iz_m4:
        wide_m, weak_m4 = section.height_m, section.iy_m4
    return Bending(np.array([weak_m4]), np.ones(1), wide_m, wide_m, math.nan)


def tapered(part: Part, layer: Layer) -> Bending:
    """Return a round bar that tapers, held at its thicker end; a skin is as thick as its gauge."""
    dims = Dims(*np.array(part.dims)[:, None])
    near_m = float(dims.diameter_m[0])
    blank_m = 0.0 if part.shape == "cone" else near_m
    far_m = float(given(dims.end_diameter_m, blank_m)[0])
    thick_m, thin_m = max(near_m, far_m), min(near_m, far_m)
    diameter_m = np.linspace(thick_m, max(thin_m, POINT * thick_m), STATIONS)
    wall_m = layer.thickness_m if part.shape == "cone" else float(dims.wall_m[0])
    ring = round_section(diameter_m, np.full(STATIONS, wall_m))
    mean_m2 = float(np.trapezoid(ring.size)) / (STATIONS - 1)
    outer_m = float(np.interp(1 - OUTER / 2, (0.0, 1.0), (thick_m, thin_m)))
    return Bending(
        ring.size * ring.second_m2[:, 1, 1], ring.size / mean_m2, thick_m, outer_m, math.nan
    )


def frequencies(
    section: Bending, modulus_pa: tuple[float, float], mass_kg_m: float, free: Free
) -> tuple[float, float]:
    """Return the lowest frequency of a bar with the lower and with the upper end of E."""
    ends = []
    for e_pa in modulus_pa:
        stiffness_nm2, metre_kg = e_pa * section.inertia_m4, mass_kg_m * section.share
        if len(stiffness_nm2) == 1:
            even = float(stiffness_nm2[0]), mass_kg_m
            ends.append(even_frequency(*even, free.length_m, free.tip_kg))
        else:
            ends.append(tapered_frequency(stiffness_nm2, metre_kg, free.length_m, free.tip_kg))
    low, high = ends
    return low, high
