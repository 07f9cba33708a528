"""What a mesh weighs and how it balances once it is turned and mirrored, against another library.

Trimesh moves the corners and integrates over the moved body; the program turns what it measured.
"""

import numpy as np
import pytest
import trimesh

import estimator

ANGLES_DEG = {"turn": 25.0, "tip": 40.0, "swing": -70.0}
ABOUT = {"turn": (0, 0, 1), "tip": (1, 0, 0), "swing": (0, 1, 0)}
"""Fixed axes as (across, up, out)."""
AT_M = (1.5, -0.4, 0.3)
WEDGE = trimesh.Trimesh([(1, 2, 0), (9, 2, 1), (2, 7, 0), (1, 3, 4)],
                        [(0, 2, 1), (0, 1, 3), (0, 3, 2), (1, 2, 3)])  # fmt: skip
"""A body without any symmetry, away from its origin, in decimetres."""


@pytest.fixture(scope="module")
def bodies(written):
    """Return the assemblies of the document: the wedge as it is turned, and in a mirror."""
    part = {"part": "W", "shape": "mesh", "file": "wedge.ply", "file unit": "mm", "scale": "1:100",
            "made of": "core"}  # fmt: skip
    part |= dict(zip(("across", "up", "out"), (f"{x!r} m" for x in AT_M), strict=True))
    part |= {name: f"{angle:g} deg" for name, angle in ANGLES_DEG.items()}
    core = {"build-up": "core", "layer": "core", "material": "softwood", "over": "solid",
            "amount": "100 %"}  # fmt: skip
    twin = {"assembly": "b", "same as": "a", "mirrored": "yes"}
    folder = written(
        {"parts": [part], "build_ups": [core], "assemblies": [{"assembly": "a"}, twin]}
    )
    (folder / "wedge.ply").write_bytes(trimesh.exchange.ply.export_ply(WEDGE))
    document = estimator.estimate(estimator.read_job(folder)).document
    return {one["assembly"]: one for one in document["assemblies"]}


@pytest.mark.parametrize(("assembly", "side"), [("a", 1.0), ("b", -1.0)])
def test_a_turned_mesh_balances_as_its_moved_corners_do(bodies, assembly, side):
    """Mass, middle and the six numbers of its inertia: angles in their order, then the place."""
    moved = WEDGE.copy().apply_scale(0.1)
    for name, angle_deg in ANGLES_DEG.items():
        turn = trimesh.transformations.rotation_matrix(np.radians(angle_deg), ABOUT[name])
        moved.apply_transform(turn)
    moved.apply_translation(AT_M).apply_transform(np.diag([side, 1, 1, 1]))
    found = bodies[assembly]
    tensor = found["mass_kg"] / moved.volume * moved.moment_inertia
    (cc, cu, co), (_, uu, uo), (_, _, oo) = tensor

    assert found["cg_m"] == pytest.approx(moved.center_mass, abs=1e-6)
    assert found["inertia_kgm2"] == pytest.approx((cc, uu, oo, cu, uo, co), rel=1e-5)
    assert found["mass_kg"] == pytest.approx(bodies["a"]["mass_kg"])
