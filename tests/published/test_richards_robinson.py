"""Wind on porous panels.

[RR] P. J. Richards and M. Robinson, Wind loads on porous structures, Journal of Wind Engineering
     and Industrial Aerodynamics 83 (1999) 455-465; abstract only, pl.scribd.com/document/371217871.
"""

import pytest

from estimator.wind.boards import signboard
from estimator.wind.coefficients import mesh


def test_mesh_carries_its_solid_part():
    """[RR] round-wire mesh: the load falls with the open part, so 0.4 solid feels 0.4 as much."""
    solid = signboard(1.0, 1.0, 2.0).coefficient

    assert mesh(solid, 0.4).value == pytest.approx(0.40 * solid.value, abs=0.01)
    assert mesh(solid, 1.0).value == solid.value


@pytest.mark.parametrize("solidity", [0.0, 1.1, float("nan")])
def test_mesh_refuses_what_is_no_part(solidity):
    """A part of an area lies between nothing and all of it."""
    with pytest.raises(ValueError, match="closed by more than 0"):
        mesh(signboard(1.0, 1.0, 2.0).coefficient, solidity)
