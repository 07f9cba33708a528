"""Wind on a chain link mesh.

[FENCE] Design calculation of a chain link fence, ASCE 7-05, tr.scribd.com/doc/357894692: wires of
        4.75 mm at 50 mm both ways close 0.19 of the area, rounded up to 0.2; shape factor 1.2 on
        that, round wires; 0.6 kN/m2.
"""

import pytest

from estimator.wind.asce7_frames import open_sign, round_regime
from estimator.wind.coefficients import flat_plate
from estimator.wind.porous import RULES, panel

SOLIDITY = 40 * 0.00475
"""Forty metres of wire to a square metre, crossings not taken off."""


def test_what_the_wires_close():
    """[FENCE] 40 x 1 x 0.00475 = 0.19 m2 to the square metre."""
    assert pytest.approx(0.19) == SOLIDITY


def test_the_rule_for_round_wires_agrees():
    """[FENCE] 1.2 x 0.19 = 0.228 of the whole area; a panel of 3 x 2 m as a mesh 8 % more."""
    solid = flat_plate(3.0, 2.0)

    assert RULES["round wires"].value(solid.value, SOLIDITY) == pytest.approx(0.228, rel=0.08)


def test_what_is_used_is_for_flat_members():
    """[FENCE] knows that its wires are round; nobody tells a parts list, so more is used."""
    found = panel(flat_plate(3.0, 2.0), SOLIDITY)

    assert round_regime(0.00475, 600.0) < 5.3
    assert open_sign(SOLIDITY, "round").value == pytest.approx(1.2, abs=0.11)
    assert found.value == pytest.approx(1.8 * SOLIDITY)
    assert found.value > 1.2 * SOLIDITY
