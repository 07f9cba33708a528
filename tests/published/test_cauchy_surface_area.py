"""Mean outlines of convex bodies against Cauchy's surface area formula.

[TV] E. Tsukerman and E. Veomett, A Simple Proof of Cauchy's Surface Area Formula,
     arXiv:1604.05815, theorem 1 (seen at ar5iv.labs.arxiv.org/html/1604.05815): the skin of a
     convex body is the integral of its projections over the unit sphere, divided by the measure of
     the unit ball one dimension lower. In space that ball measures pi and the sphere 4 pi, so the
     mean projection is a quarter of the skin.
"""

import numpy as np
import pytest
import shapely
import trimesh

from estimator.geometry.contours import Surface, outline
from estimator.geometry.models import Mesh
from estimator.geometry.placing import about_axis
from estimator.geometry.silhouettes import FRONT

RULE = 1e-3
"""What a rule of 64 x 30 sides leaves open: what a body with flat faces shows has kinks."""
BODIES = {
    "box": trimesh.creation.box((2.0, 1.0, 0.5)),
    "cylinder": trimesh.creation.cylinder(0.3, 1.5, sections=48),
    "cone": trimesh.creation.cone(0.5, 1.2, sections=48),
    "ball": trimesh.creation.icosphere(2),
    "hull of points": trimesh.Trimesh(np.random.default_rng(2).normal(size=(40, 3))).convex_hull,
}


@pytest.mark.parametrize("name", BODIES)
def test_the_mean_outline_is_a_quarter_of_the_skin(name):
    """[TV] theorem 1, the skin as trimesh adds up its triangles."""
    body = BODIES[name]
    surface = Surface.of(Mesh(np.array(body.vertices), np.array(body.faces, dtype=np.intp)))
    cosine, weight = np.polynomial.legendre.leggauss(30)
    around_rad = 2 * np.pi * (np.arange(64) + 0.5) / 64
    turns = about_axis("across", np.arcsin(cosine))[:, None] @ about_axis("up", around_rad)

    areas_m2 = [[shapely.area(outline(surface, FRONT @ turn)) for turn in row] for row in turns]

    mean_m2 = np.average(np.mean(areas_m2, axis=1), weights=weight)
    assert mean_m2 == pytest.approx(body.area / 4, rel=RULE)
