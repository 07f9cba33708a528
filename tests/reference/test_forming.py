"""Ways of forming: found by the words of the workshop, and in an order that makes sense."""

import pytest

from estimator.reference.finding import Reason
from estimator.reference.forming import find_forming


def ways(library):
    """Return every way of the table."""
    return [find_forming(library, row.key) for row in library.table("forming").rows]


@pytest.mark.parametrize(
    ("typed", "key"),
    [("Sunk", "sunk"), ("hollowing", "sunk"), ("folded", "bent"), ("repoussé", "chased"),
     ("spinning", "spun")],
)  # fmt: skip
def test_a_way_of_forming_goes_by_its_other_names(library, typed, key):
    """As a maker types them."""
    assert find_forming(library, typed).key == key


def test_hammered_could_be_several_ways(library):
    """They differ by a fifth in mass, so that it is asked which is meant."""
    found = find_forming(library, "hammered")

    assert found.reason is Reason.AMBIGUOUS
    assert found.choices == (
        "raised (1 of finished area x gauge)",
        "sunk (0.9 of finished area x gauge)",
        "chased (0.825 of finished area x gauge)",
    )


def test_ranges_run_upwards(library):
    """Low, likely and high of every way, and shares between nothing and all."""
    for way in ways(library):
        assert 0 < way.mass_low <= way.mass_likely <= way.mass_high, way.key
        assert 0 <= way.trim_low <= way.trim <= way.trim_high < 1, way.key
        assert 0 <= way.thinning_low <= way.thinning_high < 1, way.key


def test_what_is_bent_one_way_moves_no_metal(library):
    """It is neither thinned nor trimmed, and weighs what its area says."""
    for way in ways(library):
        if way.bent:
            figures = (way.mass_low, way.mass_likely, way.mass_high)
            assert figures == (1.0, 1.0, 1.0), way.key
            assert way.trim_high == way.thinning_high == 0.0, way.key


def test_the_mean_is_nowhere_thinner_than_the_thinnest_place(library):
    """The share of the mass that is gone is a mean; the thinnest place has lost more."""
    for way in ways(library):
        assert 1 - way.mass_likely <= way.thinning_high, way.key


def test_a_maker_may_change_a_figure(makers):
    """The cells that a row of their own fills replace ours."""
    own = makers(forming="key,mass_likely_ratio,source\nsunk,0.92,own scales\n")
    found = find_forming(own, "sunk")

    assert (found.mass_likely, found.mass_low) == (0.92, 0.85)
    assert found.citation.own
