"""Readings on a maquette turned into full-size figures, and into a body that stands in for it.

Every array of three is (across, up, out) of the maquette as it stands to be read: the shadow along
across is the one seen from the side, along up from the top, along out from the front.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple, Self

import numpy as np
from scipy.special import stdtrit

from estimator.geometry.chunks import chunks, placed
from estimator.geometry.measures import Dims, Floats, Region
from estimator.geometry.models import Model
from estimator.geometry.shapes import measure

ONE_IN_TWENTY = 0.05
SEEN_FROM = ("side", "top", "front")
"""Where a shadow is seen from, by the axis it is seen along."""
ENDS = ("left end", "foot", "back")
"""Where a balance point is measured from, by axis."""
SMALLEST_M, LARGEST_M = 0.05, 20.0
"""Outside these a full size is more likely a slip of the scale: program default, no source."""
MOST_SKIN, LEAST_SKIN, LEAST_VOLUME, LEAST_SHADOW = 5.0, 1 / 5, 1 / 50, 1 / 30
"""How far skin, volume and shadow may lie from those of an ellipsoid as large before it is asked
about: they catch a scale that is ten times off. Program defaults, no source."""
_ROUND = 1 + 1e-9
"""What a bound that is just met may be passed by, for rounding."""


class Figure(NamedTuple):
    """What was read, and how far it may lie off.

    Attributes:
        value: Likely value.
        half: One in twenty lies further below it than this, and one in twenty further above.
    """

    value: float
    half: float = 0.0

    @property
    def low(self) -> float:
        """Return what one in twenty lies below; never less than nothing."""
        return max(self.value - self.half, 0.0)

    @property
    def high(self) -> float:
        """Return what one in twenty lies above."""
        return self.value + self.half

    @property
    def share(self) -> float:
        """Return how far it may lie off as a fraction of the likely value."""
        return self.half / self.value

    def times(self, factor: float) -> "Figure":
        """Return the figure multiplied by a number that is exact."""
        return Figure(self.value * factor, self.half * factor)


def averaged(values: Sequence[float]) -> Figure:
    """Return the mean of repeated readings, two or more, with its 90 % interval.

    References:
        JCGM 100:2008 (GUM), 4.2.1 to 4.2.3: the mean and its experimental standard deviation;
        G.3.2: the interval by the t-factor for as many degrees of freedom as readings less one.
    """
    count = len(values)
    deviation = float(np.std(values, ddof=1)) / math.sqrt(count)
    return Figure(float(np.mean(values)), float(stdtrit(count - 1, 1 - ONE_IN_TWENTY)) * deviation)


def quotient(top: Figure, bottom: Figure) -> Figure:
    """Return one figure over another that was read by itself.

    References:
        JCGM 100:2008 (GUM), 5.1.6: relative uncertainties of a product add as squares.
    """
    value = top.value / bottom.value
    return Figure(value, value * math.hypot(top.share, bottom.share))


class Readings(NamedTuple):
    """What was read on a maquette; None is what was not.

    Attributes:
        skin_m2: Its whole skin.
        volume_m3: What it displaces.
        shadows_m2: Three, by the axis each is seen along.
        balance_m: Three: balance point from the left end, the foot and the back.
    """

    skin_m2: Figure | None = None
    volume_m3: Figure | None = None
    shadows_m2: tuple[Figure | None, ...] = (None, None, None)
    balance_m: tuple[Figure | None, ...] = (None, None, None)

    def full_size(self, scale: float) -> Self:
        """Return the same of a thing so many times as long."""
        return type(self)(
            self.skin_m2 and self.skin_m2.times(scale**2),
            self.volume_m3 and self.volume_m3.times(scale**3),
            tuple(shadow and shadow.times(scale**2) for shadow in self.shadows_m2),
            tuple(point and point.times(scale) for point in self.balance_m),
        )


def _likely(figures: Iterable[Figure | None]) -> Floats:
    return np.array([math.nan if figure is None else figure.value for figure in figures])


def faces_m2(envelope_m: Floats) -> Floats:
    """Return (3,) areas of the faces of a box, by the axis each is seen along."""
    return np.array([envelope_m[i - 2] * envelope_m[i - 1] for i in range(3)])


def shadow_areas(read: Readings, envelope_m: Floats) -> Floats:
    """Return (3,) shadow areas, those that were not read from the envelope [m2].

    A shadow that was not traced is taken to fill as much of its face of the envelope as the
    geometric mean of those that were; where none was, as an ellipse does, pi / 4.

    Args:
        read: At full size.
        envelope_m: (3,) full size, NaN where unknown.

    Returns:
        NaN where neither says anything.
    """
    areas_m2, whole_m2 = _likely(read.shadows_m2), faces_m2(envelope_m)
    traced = ~np.isnan(areas_m2) & ~np.isnan(whole_m2)
    fills = areas_m2[traced] / whole_m2[traced]
    fill = float(np.exp(np.log(fills).mean())) if traced.any() else math.pi / 4
    return np.where(np.isnan(areas_m2), fill * whole_m2, areas_m2)


def ellipsoid_axes(areas_m2: Floats) -> Floats:
    """Return (3,) full axes of the ellipsoid that has these (3,) shadow areas [m].

    Along its axes an ellipsoid of half axes a, b, c throws the shadows pi b c, pi a c and pi a b.
    """
    axes_m: Floats = 2 * np.sqrt(areas_m2.prod() / math.pi) / areas_m2
    return axes_m


def box_of(read: Readings, envelope_m: Floats) -> Floats:
    """Return (3,) envelope, the sides nobody gave from the ellipsoid with the same shadows [m]."""
    return np.where(
        np.isnan(envelope_m), ellipsoid_axes(shadow_areas(read, envelope_m)), envelope_m
    )


def model_of(read: Readings, envelope_m: Floats, pointing: Floats) -> Model:
    """Return a maquette at full size as the model of one part.

    Skin and volume are as read, or absent. Their middle is the balance point, or the middle of
    the envelope along an axis where it was not found. Their second moments are those of the
    ellipsoid within the envelope, which reaches as far as the thing itself; the ellipsoid that
    has the traced shadows stands in for what is seen of it.

    Args:
        read: At full size; with the envelope it must give three shadows.
        envelope_m: (3,) full size, NaN where unknown.
        pointing: (3, 3) from the part's own frame to (across, up, out), a turn by right angles.
    """
    own = pointing.T
    box_m = box_of(read, envelope_m)
    whole = measure("ellipsoid", _sized(np.abs(own) @ box_m))
    off_m = np.nan_to_num(_likely(read.balance_m) - box_m / 2)
    middle_m = (own @ off_m)[None]
    skin = _spread(whole.face, read.skin_m2, middle_m)
    solid = _spread(whole.solid, read.volume_m3, middle_m)
    measures = whole._replace(
        each=whole.each._replace(middle_m=middle_m),
        face=skin,
        faces=skin and skin._replace(size=2 * skin.size),
        outside=skin,
        solid=solid,
        inside=solid,
    )
    stand_in = chunks("ellipsoid", _sized(ellipsoid_axes(shadow_areas(read, envelope_m))))
    return Model(measures, stand_in=placed(stand_in, own, np.zeros(3)))


def _sized(sides_m: Floats) -> Dims:
    length_m, width_m, depth_m = sides_m
    return Dims.of(length_m=length_m, width_m=width_m, depth_m=depth_m)


def _spread(like: Region | None, read: Figure | None, middle_m: Floats) -> Region | None:
    """Return a region of the size that was read, spread about its middle as another one is."""
    if like is None or read is None:
        return None
    return Region(np.array([read.value]), middle_m, like.second_m2)


class Doubt(NamedTuple):
    """Readings that cannot all be right.

    Attributes:
        about: The reading to look at: skin, volume, shadow, balance or size.
        axis: Of a shadow or a balance point.
        why: With figures, a sentence without a full stop.
    """

    about: str
    axis: int
    why: str


def doubts(read: Readings, envelope_m: Floats) -> list[Doubt]:
    """Return what cannot be so, or hardly, each reading taken at the end that speaks for it.

    Args:
        read: At full size; with the envelope it must give three shadows.
        envelope_m: (3,) full size, NaN where unknown.
    """
    return [
        *_skins(read),
        *_volumes(read, envelope_m),
        *_shadows(read, envelope_m),
        *_balances(read, envelope_m),
        *_sizes(read, envelope_m),
    ]


def least_skin_m2(volume_m3: float) -> float:
    """Return the skin of a ball, the least that any body of this volume has.

    References:
        Isoperimetric inequality, A^3 >= 36 pi V^2: Burago and Zalgaller, Geometric Inequalities,
        Springer 1988 (from memory).
    """
    return float(np.cbrt(36 * math.pi * volume_m3**2))


def least_skin_by_shadows_m2(shadows_m2: Iterable[float]) -> float:
    """Return the least skin of a body that throws these shadows along different axes.

    A line of sight through a body meets its skin twice at least, so that a shadow is at most half
    of the integral of |n . axis| over the skin. Taken as vectors, half the skin is at least as
    long as the shadows together: A >= 2 sqrt(S1^2 + S2^2 + S3^2). Convex or not; equal for a
    regular octahedron seen along its diagonals. With fewer shadows it holds all the more.

    References:
        The same integral, over all directions of a convex body, is Cauchy's formula A = 4 x mean
        shadow: E. Tsukerman and E. Veomett, A simple proof of Cauchy's surface area formula,
        arXiv:1604.05815. The step to three axes is the triangle inequality.
    """
    return 2 * math.hypot(*shadows_m2)


def most_volume_m3(shadows_m2: Floats) -> float:
    """Return the most that a body with these (3,) shadows can hold; a box holds as much.

    References:
        V^2 <= S1 S2 S3: L. H. Loomis and H. Whitney, An inequality related to the isoperimetric
        inequality, Bull. Amer. Math. Soc. 55 (1949), 961-962, as quoted at
        en.wikipedia.org/wiki/Loomis-Whitney_inequality.
    """
    return float(np.sqrt(shadows_m2.prod()))


def _skins(read: Readings) -> Iterator[Doubt]:
    if read.skin_m2 is None:
        return
    most_m2 = read.skin_m2.high
    came_to = f"and the foil came to {most_m2:.3g} m2 at the most"
    if read.volume_m3 is not None:
        volume_m3 = read.volume_m3.low
        least_m2 = least_skin_m2(volume_m3)
        if least_m2 > most_m2 * _ROUND:
            why = f"round {volume_m3:.3g} m3 even a ball has a skin of {least_m2:.3g} m2, {came_to}"
            yield Doubt("skin", 0, why)
    least_m2 = least_skin_by_shadows_m2(s.low for s in read.shadows_m2 if s is not None)
    if least_m2 > most_m2 * _ROUND:
        why = f"what throws these shadows has a skin of {least_m2:.3g} m2 at least, {came_to}"
        yield Doubt("skin", 0, why)


def _volumes(read: Readings, envelope_m: Floats) -> Iterator[Doubt]:
    if read.volume_m3 is None:
        return
    traced_m2 = [math.nan if s is None else s.high for s in read.shadows_m2]
    bounds_m2 = np.fmin(traced_m2, faces_m2(envelope_m))
    most_m3 = most_volume_m3(bounds_m2)
    if read.volume_m3.low > most_m3 * _ROUND:
        why = (
            f"what is no larger than its shadows and sides holds at most {most_m3:.3g} m3, "
            f"and the water came to {read.volume_m3.low:.3g} m3 at least"
        )
        yield Doubt("volume", 0, why)


def _shadows(read: Readings, envelope_m: Floats) -> Iterator[Doubt]:
    for axis, (shadow, whole_m2) in enumerate(
        zip(read.shadows_m2, faces_m2(envelope_m), strict=True)
    ):
        if shadow is None or math.isnan(whole_m2):
            continue
        seen = f"the shadow from the {SEEN_FROM[axis]} is {shadow.value:.3g} m2 at full size"
        whole = f"the envelope seen from there is {whole_m2:.3g} m2"
        if shadow.low > whole_m2 * _ROUND:
            yield Doubt("shadow", axis, f"{seen}, and {whole}")
        elif shadow.high < whole_m2 * LEAST_SHADOW:
            yield Doubt("shadow", axis, f"{seen}, a small part of its envelope: {whole}")


def _balances(read: Readings, envelope_m: Floats) -> Iterator[Doubt]:
    for axis, (point, side_m) in enumerate(zip(read.balance_m, envelope_m, strict=True)):
        if point is not None and point.low > side_m * _ROUND:
            why = (
                f"the balance point lies {1000 * point.value:.0f} mm from the {ENDS[axis]} at full "
                f"size, and the envelope ends at {1000 * side_m:.0f} mm"
            )
            yield Doubt("balance", axis, why)


def _sizes(read: Readings, envelope_m: Floats) -> Iterator[Doubt]:
    longest_m = float(box_of(read, envelope_m).max())
    if not SMALLEST_M <= longest_m <= LARGEST_M:
        yield Doubt("size", 0, f"at full size it is {longest_m:.3g} m at its longest")
    like = measure("ellipsoid", _sized(ellipsoid_axes(shadow_areas(read, envelope_m))))
    rules = (
        ("skin", read.skin_m2, like.face, LEAST_SKIN, MOST_SKIN),
        ("volume", read.volume_m3, like.solid, LEAST_VOLUME, math.inf),
    )
    for about, figure, region, least, most in rules:
        ratio = figure.value / region.size[0] if figure and region else 1.0
        if not least <= ratio <= most:
            times = np.format_float_positional(ratio, 2, unique=False, fractional=False, trim="-")
            why = f"its {about} is {times} times that of an ellipsoid as large"
            yield Doubt(about, 0, why)


def overfull(read: Readings, thickness_m: float) -> str:
    """Return why a skin of this thickness is hardly meant; blank where it can be.

    A sheet that takes more room than the whole body cannot be its skin.
    """
    if read.skin_m2 is None or read.volume_m3 is None:
        return ""
    sheet_m3 = read.skin_m2.low * thickness_m
    if not sheet_m3 > read.volume_m3.high:
        return ""
    return (
        f"{read.skin_m2.value:.3g} m2 of sheet {1000 * thickness_m:.3g} mm thick take "
        f"{sheet_m3:.3g} m3, more than the whole body, {read.volume_m3.value:.3g} m3"
    )
