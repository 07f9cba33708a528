"""Moduli of sections: against exact figures and laws."""

import math

import numpy as np
import pytest
from sectionproperties.analysis import Section as Meshed
from sectionproperties.pre.library import angle_section

from estimator.reference.moduli import section_moduli
from estimator.reference.sections import closed_form, find_section, sections


@pytest.mark.parametrize(("ratio", "factor"), [
    (1, 0.208), (1.5, 0.231), (2, 0.246), (3, 0.267), (5, 0.291), (10, 0.312),
])  # fmt: skip
def test_flat_bars_in_torsion(ratio, factor):
    """S. Timoshenko and J. Goodier, Theory of Elasticity, table (from memory): three figures."""
    bar = closed_form(f"flat {20 * ratio:g}x20")

    assert section_moduli(bar).twists_m3 == pytest.approx(
        factor * bar.height_m * bar.width_m**2, rel=0.004
    )


def test_a_thin_strip_in_torsion():
    """A third of h t^2 in the limit: 1 % at 100 to 1."""
    strip = closed_form("flat 100x1")

    assert section_moduli(strip).twists_m3 == pytest.approx(0.1 * 0.001**2 / 3, rel=0.01)


@pytest.mark.parametrize(("name", "shares"), [
    ("round 20", (3 / 4, 3 / 4)), ("flat 50x6", (2 / 3, 2 / 3)),
    ("RHS 100x50x4", (2 / 3, 1 / 3)), ("CHS 100x0.1", (1 / 2, 1 / 2)),
])  # fmt: skip
def test_what_a_shear_force_is_divided_by(name, shares):
    """Share of the area: 4/3 and 3/2 of the mean in solids, twice in a thin tube, 0.1 %."""
    section = closed_form(name)
    found = section_moduli(section)

    assert found.shear_h_m2 / section.area_m2 == pytest.approx(shares[0], rel=1e-3)
    assert found.shear_b_m2 / section.area_m2 == pytest.approx(shares[1], rel=1e-3)


def test_a_round_bar_in_torsion():
    """16 T / (pi d^3): textbooks."""
    assert section_moduli(closed_form("round 20")).twists_m3 == pytest.approx(
        math.pi * 0.02**3 / 16
    )


def test_an_angle_bows_sideways(library):
    """An L 50x50x5 under a moment about one leg, meshed: up to 6 % on the heavy side."""
    geometry = angle_section(d=50, b=50, t=5, r_r=7, r_t=2.5, n_r=8)
    meshed = Meshed(geometry.create_mesh(mesh_sizes=[2.0]))
    meshed.calculate_geometric_properties()
    meshed.calculate_warping_properties()
    stress = meshed.calculate_stress(mxx=1.0).get_stress()[0]["sig_zz"]
    found = section_moduli(find_section(library, "L 50x50x5"))

    # The closed form looks at the corner of the toe, which is rounded off.
    ratio = found.bends_y_m3 * 1e9 * np.abs(stress).max()
    assert 0.94 < ratio < 1.0
    assert math.isnan(found.twists_m3)


def test_every_section_of_the_table_has_moduli(library):
    """All above nought; open ones, and no others, without a torsion modulus."""
    for section in sections(library):
        found = section_moduli(section)
        *sizes, twists_m3, _, _ = found
        assert min(sizes) > 0, section.key
        assert math.isnan(twists_m3) == (section.family in ("L", "UPN", "UPE", "PFC")), section.key
        assert found.bends_y_m3 <= section.wel_y_m3 * (1 + 1e-9), section.key
