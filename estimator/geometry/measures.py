"""Dimensions in, regions out: the records every shape is measured with.

The canonical frame of a shape has its origin at the middle of its envelope and the axes
(along, beside, faces): `along` runs with its length, `faces` is the way a flat or domed thing
looks, and `beside` makes the three right-handed. Unless a part says where it points they are
(across, up, out).

A region is material spread evenly over a line, a skin or a solid. It keeps its second moment per
unit of size, so that a mass spread over any region has the tensor mass x `second_m2`.
"""

from typing import NamedTuple, Self, TypeAlias

import numpy as np
import numpy.typing as npt

Floats: TypeAlias = npt.NDArray[np.float64]

OVER = {
    "length": "line",
    "one face": "face",
    "both faces": "faces",
    "whole outside": "outside",
    "solid": "solid",
    "inside": "inside",
    "each": "each",
}
"""What a layer may be laid over, in a maker's words, and the region it means."""


class Dims(NamedTuple):
    """Dimensions of n parts of one shape; each (n,) float, NaN where a part does not have it."""

    length_m: Floats
    width_m: Floats
    depth_m: Floats
    diameter_m: Floats
    bore_m: Floats
    end_width_m: Floats
    end_diameter_m: Floats
    wall_m: Floats
    angle_rad: Floats

    @classmethod
    def of(cls, **given: npt.ArrayLike) -> Self:
        """Return dimensions from those given by name, numbers or arrays of one length."""
        arrays = np.broadcast_arrays(*(np.atleast_1d(np.asarray(v, float)) for v in given.values()))
        blank = np.full(arrays[0].shape if arrays else (1,), np.nan)
        named = dict.fromkeys(cls._fields, blank) | dict(zip(given, arrays, strict=True))
        return cls(**named)

    def taken(self, index: npt.ArrayLike) -> Self:
        """Return the dimensions of the parts at an index, a mask or a slice of them."""
        at = np.asarray(index)
        return type(self)(*(values[at] for values in self))


class Region(NamedTuple):
    """Material spread evenly over a line, a skin or a solid of n parts.

    Attributes:
        size: (n,) length [m], area [m2] or volume [m3].
        middle_m: (n, 3) centre, from the middle of the envelope.
        second_m2: (n, 3, 3) mean of x x^T about that centre. Times a mass it is the mass's second
            moment tensor S, and its inertia is tr(S) I - S.
    """

    size: Floats
    middle_m: Floats
    second_m2: Floats


class Measures(NamedTuple):
    """What n parts of one shape measure; None is a region that the shape does not have.

    Attributes:
        box_m: (n, 3) size of the envelope.
        each: Where a single given mass counts as spread; its size is one.
        line: The developed length.
        face: One face; of a closed or bent body its outside skin without flat ends.
        faces: Both faces; of a hollow or sheet body inside and outside, taken as equal.
        outside: The whole outside: both faces of what is flat, the closed skin of a body.
        solid: The material of what has a wall or is solid.
        inside: What a body that can be hollow holds, its wall taken off where it is given.
    """

    box_m: Floats
    each: Region
    line: Region | None = None
    face: Region | None = None
    faces: Region | None = None
    outside: Region | None = None
    solid: Region | None = None
    inside: Region | None = None

    def over(self, where: str) -> Region | None:
        """Return the region a layer lies over, by the words of `OVER`.

        Raises:
            ValueError: If the words are none of `OVER`.
        """
        if where not in OVER:
            msg = f"nothing can lie over {where!r}; the choices are {', '.join(OVER)}"
            raise ValueError(msg)
        region: Region | None = getattr(self, OVER[where])
        return region


def given(values: Floats, default: npt.ArrayLike = 0.0) -> Floats:
    """Return dimensions with a default where a part does not have one."""
    return np.where(np.isnan(values), default, values)


def envelope(along_m: Floats, beside_m: Floats, faces_m: Floats) -> Floats:
    """Return the (n, 3) envelope of three sizes."""
    return np.stack((along_m, beside_m, faces_m), axis=-1)


def centred(
    size: Floats, along_m2: npt.ArrayLike, beside_m2: npt.ArrayLike, faces_m2: npt.ArrayLike
) -> Region:
    """Return a region about the origin with its three mean squares and no products."""
    second_m2 = np.zeros((*size.shape, 3, 3))
    for axis, mean_square_m2 in enumerate((along_m2, beside_m2, faces_m2)):
        second_m2[..., axis, axis] = mean_square_m2
    return Region(size, np.zeros((*size.shape, 3)), second_m2)


def shifted(region: Region, axis: int, by_m: Floats) -> Region:
    """Return a region moved along one axis of its frame."""
    middle_m = region.middle_m.copy()
    middle_m[..., axis] += by_m
    return region._replace(middle_m=middle_m)


def times(region: Region, factor: npt.ArrayLike) -> Region:
    """Return a region with its size multiplied: two skins, or -1 for a hole."""
    return region._replace(size=region.size * np.asarray(factor, float))


def one(region: Region) -> Region:
    """Return a region of size one, for a mass that is given and not worked out."""
    return region._replace(size=np.ones_like(region.size))


def combined(*regions: Region) -> Region:
    """Return the one region that several make together; a negative size takes away."""
    sizes = np.stack([r.size for r in regions])
    middles_m = np.stack([r.middle_m for r in regions])
    size = sizes.sum(axis=0)
    share = sizes / size
    middle_m = np.einsum("r...,r...i->...i", share, middles_m)
    off_m = middles_m - middle_m
    own_m2 = np.stack([r.second_m2 for r in regions])
    second_m2 = np.einsum(
        "r...,r...ij->...ij", share, own_m2 + off_m[..., :, None] * off_m[..., None, :]
    )
    return Region(size, middle_m, second_m2)
