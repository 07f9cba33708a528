"""Panels with openings: the larger of two rules, never less for more metal, the rest told."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.wind.coefficients import entered, flat_plate
from estimator.wind.porous import RULES, panel

solids = st.floats(0.5, 2.0)
solidities = st.floats(0.001, 1.0)


@given(solids, solidities, solidities)
def test_more_metal_never_feels_less(solid, one, other):
    """More of the area closed lets less wind through."""
    coefficient = entered(solid, "a letter")
    open_one, closed_one = sorted((one, other))

    assert panel(coefficient, open_one).value <= panel(coefficient, closed_one).value + 1e-12


@given(solids, solidities)
def test_between_nothing_and_the_solid_panel(solid, solidity):
    """At least what is closed of it, at most all of it; every rule is told beside the used one."""
    coefficient = entered(solid, "a letter")
    found = panel(coefficient, solidity)

    assert solidity * solid <= found.value + 1e-12
    assert found.value <= solid
    names = [rule.name for rule in RULES.values()]
    assert solidity == 1.0 or sum(name in dict(found.others) for name in names) == len(names) - 1


BY_HAND = [  # solidity, used, on the whole area of a square plate of 1.259
    (0.05, 2.0 * 0.05),  # open sign, flat members, below 0.1
    (0.2, 1.8 * 0.2),
    (0.5, 1.6 * 0.5),
    (0.9, 1.259 * (1 - 0.1**1.5)),  # sign with openings
]


@pytest.mark.parametrize(("solidity", "expected"), BY_HAND)
def test_a_square_plate_with_openings(solidity, expected):
    """ASCE 7 Figures 29.4-2 and 29.3-1 note 1, as in public transcriptions, by hand."""
    assert panel(flat_plate(1.0, 1.0), solidity).value == pytest.approx(expected, abs=1e-3)


def test_the_open_sign_does_not_step_down():
    """1.8 x 0.299 of the area is 0.538, 1.6 x 0.3 only 0.48: the first holds until it is passed."""
    plate = flat_plate(1.0, 1.0)

    assert panel(plate, 0.3).value == pytest.approx(1.8 * 0.3)
    assert panel(plate, 0.36).value == pytest.approx(1.6 * 0.36)


def test_what_is_from_memory_is_never_used():
    """The lattice of EN 1991-1-4, 7.11 stands beside, and a guess stays a guess."""
    found = panel(flat_plate(2.0, 1.0), 0.5)

    assert found.confirmed
    assert not RULES["lattice"].confirmed
    assert dict(found.others)[RULES["lattice"].name] == pytest.approx(0.8)
    assert "the rule for round wires" in found.source
    assert not panel(entered(1.4, ""), 0.5).confirmed


@pytest.mark.parametrize("solidity", [0.0, 1.1, float("nan")])
def test_refuses_what_is_no_part(solidity):
    """A part of an area lies between nothing and all of it."""
    with pytest.raises(ValueError, match="closed by more than 0"):
        panel(flat_plate(1.0, 1.0), solidity)
