"""Bodies whose coefficient depends on which side meets the wind: bowls, half tubes, cones, ends.

EN 1991-1-4 has none of them, so that handbooks of smooth, steady flow stand alone here. An open or
hollow side to the wind is always the heavier one, whatever a handbook calls it.
"""

from collections.abc import Mapping
from math import acos, atan, pi, sqrt
from types import MappingProxyType
from typing import NamedTuple

from estimator.wind.charts import require_positive
from estimator.wind.coefficients import CLOSED_FIGURE, flat_plate
from estimator.wind.handbook import books, cone_drag, drag, end_on_drag
from estimator.wind.records import Coefficient

_BETWEEN = "between them in proportion to its rise: engineering judgement"


class Sides(NamedTuple):
    """Coefficients of a body on its two sides, on the same area.

    Attributes:
        front: With the wind onto the side it points or bulges to.
        back: With the wind from behind that.
    """

    front: Coefficient
    back: Coefficient


class _Bowl(NamedTuple):
    """Handbook bodies that a bowl as deep as half its width is: round side, other side, words."""

    round_side: str
    other_side: str
    named: tuple[str, str]


_BOWLS: Mapping[bool, _Bowl] = MappingProxyType(
    {
        False: _Bowl("bowl, dome to the wind", "bowl, hollow to the wind", ("dome", "open side")),
        True: _Bowl(
            "solid half ball, round to the wind",
            "solid half ball, flat to the wind",
            ("dome", "flat side"),
        ),
    }
)
"""By whether the bowl is closed behind."""


def bowl(diameter_m: float, rise_m: float, *, closed: bool = False) -> Sides:
    """Return the coefficients of a bowl, a dish or a dome, on the disc of its rim.

    A dish without depth is a plate, one as deep as half its width a half ball.

    Args:
        diameter_m: Of its rim.
        rise_m: Its depth, at most half the diameter.
        closed: A flat back closes it.

    References:
        Aeronautical Engineer's Data Book, Fig. 5.13(b), p. 95 (half balls, open); Munson and
        others, Figure 9.20 (solid half balls). Between them and the plate: engineering judgement.
    """
    require_positive(diameter_m=diameter_m, rise_m=rise_m)
    kind, plate = _BOWLS[closed], flat_plate(diameter_m, diameter_m)
    share = min(2 * rise_m / diameter_m, 1.0)

    def side(body: str, meets: str) -> Coefficient:
        """Return the coefficient of one side, between a plate and a half ball."""
        deep = drag(body)
        return Coefficient(
            plate.value + share * (deep.value - plate.value),
            f"dish, {meets} to the wind, {share:.0%} as deep as a half ball",
            f"{deep.source}, for a half ball; {plate.source}, for a plate; {_BETWEEN}",
            confirmed=deep.confirmed and share == 1.0,
            others=(*books(body), (plate.rule, plate.value), *plate.others),
        )

    dome, other = kind.named
    return Sides(side(kind.round_side, dome), side(kind.other_side, other))


def profile_m2(diameter_m: float, rise_m: float) -> float:
    """Return what a dish shows from the side: a segment of a circle."""
    radius_m = (diameter_m**2 / 4 + rise_m**2) / (2 * rise_m)
    off_m = radius_m - rise_m
    half_rad = acos(off_m / radius_m)
    return radius_m**2 * half_rad - off_m * sqrt(2 * radius_m * rise_m - rise_m**2)


def edge_of_bowl() -> Coefficient:
    """Return the coefficient of a dish edge to the wind, on what it shows from the side."""
    return Coefficient(
        CLOSED_FIGURE,
        "dish, edge to the wind, as a closed figure",
        "engineering judgement; nothing was found in print",
        confirmed=False,
    )


def half_tube() -> Sides:
    """Return the coefficients of a long half tube across the wind, on length times width.

    References:
        Aeronautical Engineer's Data Book, Fig. 5.13(b), p. 95, which calls the heavier side
        "facing" where it calls the lighter side of a half ball so.
    """
    return Sides(drag("trough, round to the wind"), drag("trough, hollow to the wind"))


def cone_end(length_m: float, base_m: float, tip_m: float = 0.0) -> Sides:
    """Return the coefficients of a cone with the wind along it, on its base: point, then base.

    Of a cut-off one the end counts as that of a bar, the rest as if it ran to a point.

    Args:
        length_m: From end to end.
        base_m: Diameter of the wider end.
        tip_m: Diameter of the narrower one.

    References:
        Munson and others, Figure 9.20; base to the wind from memory.
    """
    require_positive(length_m=length_m, base_m=base_m)
    half_rad = atan(base_m / (2 * length_m))
    blunt = (tip_m / base_m) ** 2
    ahead = float(cone_drag(half_rad))
    blunter = blunt * float(end_on_drag(length_m / base_m)) if blunt else 0.0
    point = Coefficient(
        (1 - blunt) * ahead + blunter,
        f"cone, point to the wind, {2 * half_rad * 180 / pi:.0f} degrees across its point"
        + (f", {blunt:.0%} of it cut off flat" if blunt else ""),
        "Munson and others, Fundamentals of Fluid Mechanics, Figure 9.20",
        confirmed=blunt == 0,
        others=books(
            "cone of 30 degrees, point to the wind", "cone of 60 degrees, point to the wind"
        ),
    )
    return Sides(point, _cone_base())


def _cone_base() -> Coefficient:
    base = drag("cone, base to the wind")
    return Coefficient(
        base.value,
        base.rule,
        base.source,
        base.confirmed,
        others=books("disc", "solid half ball, flat to the wind"),
    )


def bar_end(length_m: float, width_m: float) -> Coefficient:
    """Return the coefficient of a bar or block end to the wind, on its end.

    Args:
        length_m: Along the wind.
        width_m: Diameter of the end; of a rectangle that of the circle of the same area.

    References:
        Munson and others, Figure 9.20, and Aeronautical Engineer's Data Book, Fig. 5.13(b); for
        round bars, taken for others as well.
    """
    require_positive(length_m=length_m, width_m=width_m)
    ratio = length_m / width_m
    return Coefficient(
        float(end_on_drag(ratio)),
        f"bar, end to the wind, {ratio:.3g} times as long as wide",
        "Munson and others, Figure 9.20, and Aeronautical Engineer's Data Book, Fig. 5.13(b)",
        confirmed=True,
        others=books("disc"),
    )
