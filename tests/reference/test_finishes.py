"""Finishes: coats joined, coats repeated, zinc by the thickness of the steel."""

import pytest

from estimator.reference.finding import Reason
from estimator.reference.finishes import find_finish

ADDED = [
    ("alkyd gloss", 0.0435, 0.05, 0.058),
    ("2 x alkyd gloss", 0.087, 0.1, 0.116),
    ("2 coats of wax", 0.02, 0.03, 0.04),
    ("galvanised + painted", 0.475, 0.67, 0.79),
    ("patina, wax", 0.01, 0.04, 0.07),
    ("painted (sea-green, two blues)", 0.15, 0.165, 0.18),
    ("oil gilt", 0.1, 0.125, 0.15),
    ("bare", 0.0, 0.0, 0.0),
]


@pytest.mark.parametrize(("typed", "low", "likely", "high"), ADDED)
def test_coats_add_up(library, typed, low, likely, high):
    """Coats join by + or comma, a number repeats one, brackets hold the maker's own words."""
    finish = find_finish(library, typed)

    found = (finish.mass_low_kg_m2, finish.mass_likely_kg_m2, finish.mass_high_kg_m2)
    assert found == pytest.approx((low, likely, high), abs=1e-9)


@pytest.mark.parametrize(
    ("typed", "roughness_m"),
    [
        ("galvanised", 0.2e-3),
        ("galvanised + painted", 0.006e-3),
        ("galvanised + wax", 0.2e-3),
        ("wax", None),
    ],
)
def test_the_outermost_known_roughness_counts(library, typed, roughness_m):
    """Wind sees the last coat that EN 1991-1-4 has a roughness for."""
    assert find_finish(library, typed).roughness_m == (
        None if roughness_m is None else pytest.approx(roughness_m)
    )


def test_zinc_follows_the_steel(library):
    """With the steel known, the standard's own row takes the place of its whole range."""
    (coat,) = find_finish(library, "galvanised", steel_thickness_m=0.010).parts

    assert coat.by_thickness
    assert (coat.mass_low_kg_m2, coat.mass_likely_kg_m2) == pytest.approx((0.505, 0.610))


def test_other_coats_do_not_mind_the_steel(library):
    """Paint weighs the same on thick and thin."""
    assert find_finish(library, "painted", steel_thickness_m=0.001) == find_finish(
        library, "painted"
    )


def test_the_coat_that_is_not_known_is_named(library):
    """Not the whole cell: the one that has to be mended."""
    miss = find_finish(library, "galvanised + glossy")

    assert (miss.found, miss.reason) == ("glossy", Reason.UNKNOWN)
    assert miss.choices == ("alkyd gloss (0.05 kg/m2)",)


@pytest.mark.parametrize("typed", ["", "(green)", " + "])
def test_an_empty_finish_is_unknown(library, typed):
    """A cell that holds no coat says so; a bare metal is written "bare"."""
    assert find_finish(library, typed).reason is Reason.UNKNOWN
