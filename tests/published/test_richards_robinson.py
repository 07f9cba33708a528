"""Wind on porous panels.

[RR] P. J. Richards and M. Robinson, Wind loads on porous structures, Journal of Wind Engineering
     and Industrial Aerodynamics 83 (1999) 455-465; abstract only, pl.scribd.com/document/371217871.
"""

import pytest

from estimator.wind.boards import signboard
from estimator.wind.porous import RULES, panel


def test_mesh_carries_its_solid_part():
    """[RR] round-wire mesh: the load falls with the open part, so 0.4 solid feels 0.4 as much.

    Of a signboard that is 0.72 on the whole area, against 0.4 x 1.6 = 0.64 of an open sign.
    """
    solid = signboard(1.0, 1.0, 2.0).coefficient
    found = panel(solid, 0.4)

    assert found.value == pytest.approx(0.40 * solid.value, abs=0.01)
    assert found.rule.startswith("40% closed, as a mesh of round wires")
    assert dict(found.others)[RULES["openings"].name] == pytest.approx(0.64)
    assert panel(solid, 1.0) is solid
