"""Polygons: from memory throughout, and said so."""

import pytest

from estimator.wind.polygons import SIDES, polygonal_bar

REMEMBERED = {5: 1.80, 6: 1.60, 8: 1.45, 10: 1.30, 12: 1.30, 16: 1.00, 18: 1.00}
"""EN 1991-1-4, Table 7.11, largest value of each row: from memory."""


@pytest.mark.parametrize(("sides", "largest"), REMEMBERED.items())
def test_the_largest_of_each_row_with_its_end_effect(sides, largest):
    """psi(20) = 0.7764 for ten widths of length; none of it is called seen."""
    found = polygonal_bar(sides, 1.0, 0.1)

    assert found.value == pytest.approx(largest * 0.7764, abs=1e-3)
    assert not found.confirmed
    assert "from memory" in found.source
    assert dict(found.others)["without end effect"] == largest


def test_more_sides_never_feel_more():
    """Each row comes nearer to a circle."""
    values = [polygonal_bar(sides, 1.0, 0.1).value for sides in SIDES]

    assert values == sorted(values, reverse=True)


def test_a_row_that_is_not_in_the_table():
    """The message names those that are."""
    with pytest.raises(ValueError, match=r"Table 7\.11 has 5, 6, 8, 10, 12, 16, 18 sides, got 7"):
        polygonal_bar(7, 1.0, 0.1)
