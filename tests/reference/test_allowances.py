"""Allowances: a range, its unit, and what it is counted on."""

from estimator.reference.allowances import find_allowance


def test_an_allowance_has_its_unit(library):
    """Numbers apart, unit and basis in words."""
    lap = find_allowance(library, "brazed lap")

    assert (lap.low, lap.high, lap.unit, lap.per) == (6, 12, "mm", "lap")


def test_a_miss_shows_the_range(library):
    """So that the right one can be chosen."""
    assert find_allowance(library, "armatures").choices == ("armature (3 to 6 kg/m2)",)
