"""Grades: yields by thickness, with and without zinc.

[EN 10025-2] Table 7, as carried by readle.co.uk, Steel Grades to Eurocodes.
"""

import math

import pytest

from estimator.reference.finding import Miss
from estimator.reference.grades import find_grade, without_zinc

YIELDS = [
    ("S235", 16, 235), ("S235JR", 17, 225), ("S275", 5, 275), ("S275J2H", 40, 265),
    ("S355", 16, 355), ("S355", 40, 345), ("S355 galvanised", 5, 355),
]  # fmt: skip


@pytest.mark.parametrize(("grade", "thick_mm", "yield_mpa"), YIELDS)
def test_yields_by_thickness(library, grade, thick_mm, yield_mpa):
    """[EN 10025-2] Up to 16 mm and up to 40 mm."""
    found = find_grade(library, grade, thick_mm / 1000)

    assert found.yield_pa == pytest.approx(yield_mpa * 1e6)
    assert (found.checked, found.gamma) == ("quoted", "")


@pytest.mark.parametrize(("grade", "thick_mm"), [("S235", 41), ("S250GD+Z", 17)])
def test_thicker_than_the_table(library, grade, thick_mm):
    """Nothing is made up for what the table does not reach."""
    assert math.isnan(find_grade(library, grade, thick_mm / 1000).yield_pa)


@pytest.mark.parametrize("typed", [
    "S275 galvanised", "galvanized S275", "S275, hot-dip galvanised", "S275 HDG", "S275 galv",
])  # fmt: skip
def test_zinc_leaves_the_yield(library, typed):
    """The coat is told, and the steel below it found."""
    found = find_grade(library, typed, 0.004)

    assert (found.key, found.galvanised, without_zinc(typed)) == ("S275", True, "S275")


@pytest.mark.parametrize(("typed", "bare"), [
    ("galvanised", "mild steel"), ("", ""), ("galvanised steel", "steel"), ("S275", "S275"),
])  # fmt: skip
def test_zinc_alone_is_on_mild_steel(typed, bare):
    """Nobody galvanises anything else."""
    assert without_zinc(typed) == bare


@pytest.mark.parametrize(("typed", "key"), [
    ("mild steel", "S235"), ("stainless", "1.4301"), ("316L", "1.4404"),
    ("stainless 2205", "1.4462"),
])  # fmt: skip
def test_names_of_the_trade(library, typed, key):
    """A bare name counts as the weakest it is sold as."""
    assert find_grade(library, typed, 0.004).key == key


def test_an_unknown_grade(library):
    """The nearest are named with their yields."""
    found = find_grade(library, "S276", 0.004)

    assert isinstance(found, Miss)
    assert "S275 (275 MPa)" in found.choices
