"""Textbook bolt groups loaded in their own plane: as rigid sharing, and as the shear of fixings.

[SHIGLEY] Budynas and Nisbett, Shigley's Mechanical Engineering Design, Example 8-7 (pages 457-458
          of the copy at digilib.universitaspertamina.ac.id): 16 kN at 425 mm from the middle of
          four bolts at (+-75, +-60) mm; printed 21.0 and 14.8 kN.
[BHANDARI] V. B. Bhandari, Design of Machine Elements, Example 7.3, page 233; inputs and method from
           the Scilab textbook companion (FOSSEE/Scilab-TBC-Uploads, 764/CH7/EX7.3), which prints
           only the bolt size. The shears are worked from its method.
"""

import numpy as np
import pytest

from estimator.supports.fixings import group_shear
from estimator.supports.sharing import rigid_sharing

GROUPS = [
    ("SHIGLEY 8-7", (75, 60), 16e3, 425, (20.972559, 14.788848), 1e-6),
    ("SHIGLEY 8-7 as printed", (75, 60), 16e3, 425, (21.0, 14.8), 0.05),
    ("BHANDARI 7.3", (100, 75), 10e3, 500, (12.093387, 8.139410), 1e-6),
]


@pytest.mark.parametrize(("name", "half_mm", "force_n", "arm_mm", "shears_kn", "tol_kn"), GROUPS)
def test_shear_per_bolt(name, half_mm, force_n, arm_mm, shears_kn, tol_kn):
    """Six decimals for sums worked in full; half the last digit where the book rounds."""
    corners = np.array([(a, u, 0) for a in (-1, 1) for u in (-1, 1)], dtype=float)
    points_m = corners * [*half_mm, 0] / 1e3
    springs = np.tile(np.diag([1e8, 1e8, 1e8, 0, 0, 0]), (4, 1, 1))
    load = np.array([[0, -force_n, 0, 0, 0, -force_n * arm_mm / 1e3]])

    shear_n = np.linalg.norm(rigid_sharing(points_m, springs, load).actions[0, :, :2], axis=1)

    assert np.linalg.norm(group_shear(points_m[:, :2], load[0]), axis=1) == pytest.approx(shear_n)
    far, near = shear_n[:2] / 1e3, shear_n[2:] / 1e3
    assert near == pytest.approx([shears_kn[0]] * 2, abs=tol_kn), name
    assert far == pytest.approx([shears_kn[1]] * 2, abs=tol_kn), name
