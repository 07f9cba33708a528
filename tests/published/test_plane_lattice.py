"""A plane lattice by EN 1991-1-4, 7.11, with its end effect below full solidity.

[KB1491] Knowledge base article 001491, Determining Force Coefficient of Resulting Member Loads for
         Plane Lattice Structures from Wind Load, 7 November 2017 (its address carries a brand, so
         it is not written; found by its title): a lattice of 10 x 2 m, 6.214 m2 closed,
         c_f,0 = 1.6 read off Figure 7.33, psi_lambda = 0.95 off Figure 7.36.
"""

import pytest

from estimator.wind.asce7_frames import open_sign
from estimator.wind.charts import effective_slenderness, end_effect_factor
from estimator.wind.coefficients import flat_plate
from estimator.wind.porous import LATTICE, RULES, panel

MEMBERS = [(2.828, 0.1, 5), (2.0, 0.05, 4), (2.0, 0.1, 2), (10.0, 0.2, 2)]
"""Length and width in m, and how many."""
CLOSED_M2 = sum(length * width * count for length, width, count in MEMBERS)
SOLIDITY = CLOSED_M2 / 20.0


def test_its_solidity_and_slenderness():
    """[KB1491] prints 6.214 m2, 0.3107 and 10."""
    assert pytest.approx(6.214) == CLOSED_M2
    assert pytest.approx(0.3107, abs=5e-5) == SOLIDITY
    assert effective_slenderness(10.0, 2.0) == 10.0


def test_the_lattice_is_on_the_safe_side_of_the_example():
    """[KB1491] 1.6 x 0.95 = 1.52 on the closed area; without the end effect 5 % more.

    The curves of Figure 7.36 below full solidity were not read, so that none is taken.
    """
    on_whole = RULES["lattice"].value(flat_plate(10.0, 2.0).value, SOLIDITY)

    assert LATTICE == 1.6
    assert on_whole == pytest.approx(1.6 * SOLIDITY)
    assert 1.0 <= on_whole / (1.52 * SOLIDITY) <= 1 / 0.949


def test_the_end_effect_of_a_solid_plate_is_not_used():
    """[KB1491] psi is 0.95 where the curve of a solid one reads 0.70: that would be too low."""
    assert end_effect_factor(10.0) == pytest.approx(0.698)
    used = panel(flat_plate(10.0, 2.0), SOLIDITY).value / SOLIDITY

    assert used > 1.52
    assert 1.6 * end_effect_factor(10.0) < 1.52


def test_another_standard_reads_the_same():
    """ASCE 7 Figure 29.4-2, flat members, 0.3 to 0.7 closed: 1.6 as well."""
    assert open_sign(SOLIDITY).value == 1.6
