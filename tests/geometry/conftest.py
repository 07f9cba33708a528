"""Examples of every shape, and integrals over surfaces that know nothing of its formulas."""

from collections.abc import Callable, Sequence

import numpy as np
import pytest

from estimator.geometry.measures import Dims, Region

EXAMPLES = {
    "sheet": {"length_m": 1.5, "width_m": 0.8},
    "disc": {"diameter_m": 1.1, "bore_m": 0.3},
    "ring": {"diameter_m": 1.1, "bore_m": 0.8},
    "sector": {"diameter_m": 1.1, "bore_m": 0.3, "angle_rad": 2.0},
    "blade": {"length_m": 1.5, "width_m": 0.3, "end_width_m": 0.1},
    "leaf": {"length_m": 1.5, "width_m": 0.3},
    "box": {"length_m": 1.5, "width_m": 0.8, "depth_m": 0.4},
    "flat": {"length_m": 1.5, "width_m": 0.08, "depth_m": 0.01},
    "rod": {"length_m": 1.5, "diameter_m": 0.2},
    "tube": {"length_m": 1.5, "diameter_m": 0.2, "wall_m": 0.02},
    "hollow": {"length_m": 1.5, "width_m": 0.2, "depth_m": 0.1, "wall_m": 0.008},
    "section": {"length_m": 1.5, "width_m": 0.1, "depth_m": 0.2},
    "hoop": {"diameter_m": 2.2, "width_m": 0.05, "depth_m": 0.006},
    "formed": {
        "length_m": 1.5,
        "width_m": 1.2,
        "diameter_m": 0.3,
        "end_diameter_m": 0.1,
        "wall_m": 0.01,
    },
    "cone": {"length_m": 1.5, "diameter_m": 0.5, "end_diameter_m": 0.2},
    "sphere": {"diameter_m": 0.5},
    "dome": {"diameter_m": 1.1, "depth_m": 0.3},
    "ellipsoid": {"length_m": 1.5, "width_m": 0.7, "depth_m": 0.3},
    "torus": {"diameter_m": 1.1, "end_diameter_m": 0.2},
    "run": {"length_m": 1.5},
    "bought": {"length_m": 0.3, "width_m": 0.2, "depth_m": 0.1},
}

Surface = Callable[[np.ndarray, np.ndarray], np.ndarray]
Patch = tuple[Surface, tuple[float, float], tuple[float, float]]

STEP = 1e-5
KNOTS, WEIGHTS = np.polynomial.legendre.leggauss(80)


@pytest.fixture
def example() -> Callable[..., Dims]:
    """Return the dimensions of an example of a shape, some of them changed."""

    def one(shape: str, **changes: float) -> Dims:
        return Dims.of(**(EXAMPLES[shape] | changes))

    return one


def _sampled(patch: Patch) -> tuple[np.ndarray, np.ndarray]:
    """Return points of a patch and its outward vectors of area, by Gauss's rule.

    Slopes are central differences, which are good to about 1e-9 with this step.
    """
    surface, (u0, u1), (v0, v1) = patch
    u = (u0 + u1) / 2 + (u1 - u0) / 2 * KNOTS[:, None]
    v = (v0 + v1) / 2 + (v1 - v0) / 2 * KNOTS[None, :]
    weight = WEIGHTS[:, None] * WEIGHTS * (u1 - u0) * (v1 - v0) / 4
    along_u = (surface(u + STEP, v) - surface(u - STEP, v)) / (2 * STEP)
    along_v = (surface(u, v + STEP) - surface(u, v - STEP)) / (2 * STEP)
    area = np.cross(along_u, along_v) * weight[..., None]
    return surface(u + 0 * v, v + 0 * u).reshape(-1, 3), area.reshape(-1, 3)


def _region(size: np.ndarray, points: np.ndarray, second: np.ndarray) -> Region:
    """Return a region from weights at points, and its second moment about the origin."""
    total = size.sum()
    middle = (size[:, None] * points).sum(axis=0) / total
    return Region(total, middle, second / total - np.outer(middle, middle))


@pytest.fixture
def skin_of() -> Callable[[Sequence[Patch]], Region]:
    """Return the region of a skin made of patches."""

    def skin(patches: Sequence[Patch]) -> Region:
        points, areas = (np.concatenate(a) for a in zip(*map(_sampled, patches), strict=True))
        size = np.linalg.norm(areas, axis=1)
        return _region(size, points, np.einsum("p,pi,pj->ij", size, points, points))

    return skin


@pytest.fixture
def solid_of() -> Callable[[Sequence[Patch]], Region]:
    """Return the region of the solid inside closed patches, by the divergence theorem."""

    def solid(patches: Sequence[Patch]) -> Region:
        points, areas = (np.concatenate(a) for a in zip(*map(_sampled, patches), strict=True))
        flux = np.einsum("pi,pi->p", points, areas)
        volume = flux.sum() / 3
        middle = (flux[:, None] * points).sum(axis=0) / 4 / volume
        second = np.einsum("p,pi,pj->ij", flux, points, points) / 5 / volume
        return Region(volume, middle, second - np.outer(middle, middle))

    return solid
