"""Wind on the elements that parts are made of: flat sides and round lengths, any number at once.

A part is a few elements in its own frame; turned into place, the elements of everything are worked
out together for all directions.
"""

from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple

import numpy as np

from estimator.wind.figures import crosswind, travel
from estimator.wind.records import FloatArray, Vector

STALL_RAD = np.pi / 4
"""Up to which slant of the wind a plate feels what it feels face-on: common practice, no source."""
NOWHERE: Vector = (0.0, 0.0, 0.0)
_UP = np.array([0.0, 1.0, 0.0])
_LEVEL = 1e-9
"""A side whose normal is this near to upright has no level direction of its own."""


class Panel(NamedTuple):
    """A flat side of a part, in the part's own frame.

    Attributes:
        area_m2: What its coefficients are on.
        normal: Unit vector out of its front.
        front: Coefficient with the wind onto its front.
        back: With the wind from behind; zero for a side that something solid stands behind.
        along: Unit vector along the long bar it is a side of, so that only wind across the bar
            counts; nothing for a panel by itself.
        stall_rad: Up to which slant of the wind its force stays what it is face-on.
        spread_m: Its two sides as vectors, along which the force may wander; nothing for a force
            that stays in the middle.
        rounded: Its outline is an ellipse with these two as its diameters.
    """

    area_m2: float
    normal: Vector
    front: float
    back: float
    along: Vector = NOWHERE
    stall_rad: float = STALL_RAD
    spread_m: tuple[Vector, Vector] = (NOWHERE, NOWHERE)
    rounded: bool = False


class Round(NamedTuple):
    """A length of a round bar, or a ball, in the part's own frame.

    Attributes:
        area_m2: Length times width, or the disc of a ball.
        coefficient: On that.
        along: Unit vector along the bar; nothing for a ball.
        ball_m: Diameter of a ball, zero for a bar.
    """

    area_m2: float
    coefficient: float
    along: Vector = NOWHERE
    ball_m: float = 0.0


class Panels(NamedTuple):
    """Many panels: the fields of `Panel` as arrays, (n,) or (n, 3); spread (n, 2, 3)."""

    area_m2: FloatArray
    normal: FloatArray
    front: FloatArray
    back: FloatArray
    along: FloatArray
    stall_rad: FloatArray
    spread_m: FloatArray
    rounded: FloatArray

    @classmethod
    def of(cls, panels: Sequence[Panel]) -> "Panels":
        """Return panels as arrays."""
        return cls(*_arrays(panels, ((), (3,), (), (), (3,), (), (2, 3), ())))

    def turned(self, rotation: FloatArray) -> "Panels":
        """Return the panels turned by one (3, 3) rotation, or an (n, 3, 3) each its own."""
        return self._replace(
            normal=_turn(rotation, self.normal),
            along=_turn(rotation, self.along),
            spread_m=np.stack([_turn(rotation, self.spread_m[:, i]) for i in (0, 1)], axis=1),
        )


class Rounds(NamedTuple):
    """Many round lengths: the fields of `Round` as arrays, (n,) or (n, 3)."""

    area_m2: FloatArray
    coefficient: FloatArray
    along: FloatArray
    ball_m: FloatArray

    @classmethod
    def of(cls, rounds: Sequence[Round]) -> "Rounds":
        """Return round lengths as arrays."""
        return cls(*_arrays(rounds, ((), (), (3,), ())))

    def turned(self, rotation: FloatArray) -> "Rounds":
        """Return them turned by one (3, 3) rotation, or an (n, 3, 3) each its own."""
        return self._replace(along=_turn(rotation, self.along))


def _arrays(
    rows: Sequence[tuple[Any, ...]], shapes: Sequence[tuple[int, ...]]
) -> Iterator[FloatArray]:
    """Yield each field of the rows as one array, of the shape that one of it has."""
    columns = zip(*rows, strict=True) if rows else ((),) * len(shapes)
    for column, shape in zip(columns, shapes, strict=True):
        yield np.asarray(column, float).reshape(len(rows), *shape)


def _turn(rotation: FloatArray, vectors: FloatArray) -> FloatArray:
    turned: FloatArray = np.einsum("...ij,...j->...i", rotation, vectors)
    return turned


def incidence(cosine: FloatArray, stall_rad: FloatArray) -> FloatArray:
    """Return how much of its face-on force a panel feels, by the cosine of wind to normal.

    All of it up to the stall, then falling with the cosine to nothing edge-on; with a stall of
    zero, as for the side of a square bar, with the cosine from the first.

    References:
        Common practice, no source, for plates. A square bar with its edge to the wind then feels
        what it feels face-on; handbooks print 1.04 times that.
    """
    share: FloatArray = np.clip(cosine / np.cos(stall_rad), -1.0, 1.0)
    return share


def stall_of(depth_over_width: float) -> float:
    """Return the stall of a side of a bar by how deep the bar is behind it.

    A plate, up to a fifth as deep as wide: 45 degrees. A square and anything deeper: none. Between
    them straight on a log axis: engineering judgement.
    """
    slim, square = np.log(0.2), 0.0
    return float(np.interp(np.log(depth_over_width), (slim, square), (STALL_RAD, 0.0)))


def panel_forces(panels: Panels, pressure_pa: float, directions_rad: FloatArray) -> FloatArray:
    """Return the force on each panel along its own normal, (n, d, 3) in N.

    Args:
        panels: Turned into place.
        pressure_pa: Peak pressure.
        directions_rad: (d,) sides the wind comes from.
    """
    across, speed = _crossing(panels.along, directions_rad)
    onto = np.einsum("ndi,ni->nd", across, panels.normal)
    slant = incidence(onto, panels.stall_rad[:, None])
    # The front meets the wind that blows against its normal.
    drag = np.where(onto < 0, panels.front[:, None], panels.back[:, None])
    size_n = pressure_pa * panels.area_m2[:, None] * drag * speed**2 * slant
    force_n: FloatArray = size_n[..., None] * panels.normal[:, None]
    return force_n


def round_forces(rounds: Rounds, pressure_pa: float, directions_rad: FloatArray) -> FloatArray:
    """Return the force on each length square to it, and on balls along the wind, (n, d, 3) in N.

    Only the part of the wind that crosses a bar counts, so that its pressure falls with the square
    of the cosine of its slant.

    References:
        Independence of the flow across a slanting cylinder: common practice, no source.
    """
    across, speed = _crossing(rounds.along, directions_rad)
    size_n = pressure_pa * rounds.area_m2 * rounds.coefficient
    force_n: FloatArray = (size_n[:, None] * speed**2)[..., None] * across
    return force_n


def _crossing(along: FloatArray, directions_rad: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return the way of the wind across each bar, (n, d, 3), and how much of it crosses, (n, d)."""
    wind = travel(directions_rad)
    lengthwise = along @ wind.T
    across = wind - lengthwise[..., None] * along[:, None]
    speed = np.linalg.norm(across, axis=-1)
    return across / np.maximum(speed, _LEVEL)[..., None], speed


def wandering(panels: Panels, directions_rad: FloatArray) -> FloatArray:
    """Return the level width of each panel, to the right of one who looks along the wind.

    Args:
        panels: Turned into place.
        directions_rad: (d,).

    Returns:
        (n, d, 3) in m, along the panel's own plane; times the ratio of a rule it is how far off its
        middle the force may act. A panel that lies level has none.
    """
    level = np.cross(_UP, panels.normal)
    size = np.linalg.norm(level, axis=-1, keepdims=True)
    level = np.where(size > _LEVEL, level / np.maximum(size, _LEVEL), 0.0)
    reach_m = np.abs(np.einsum("nji,ni->nj", panels.spread_m, level))
    width_m = np.where(panels.rounded > 0, np.hypot(*reach_m.T), reach_m.sum(axis=-1))
    side = np.sign(level @ crosswind(directions_rad).T)
    arms_m: FloatArray = side[..., None] * (width_m[:, None] * level)[:, None]
    return arms_m
