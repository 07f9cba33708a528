"""Polygons: the largest value of each row of Table 7.11, whatever the flow."""

import pytest

from estimator.wind.polygons import SIDES, polygonal_bar

PRINTED = {5: (1.80, 1.80), 6: (1.60, 1.60), 8: (1.45, 1.10), 10: (1.30, 1.30), 12: (1.30, 0.90),
           16: (1.20, 0.70), 18: (1.20, 0.70)}  # fmt: skip
"""EN 1991-1-4, Table 7.11, largest and least of each row, as in a public transcription of the
tables of SS EN 1991-1-4:2009; 16 to 18 sides in slow flow "as circular cylinder", 1.2 by Figure
7.28."""


@pytest.mark.parametrize(("sides", "ends"), PRINTED.items())
def test_the_largest_of_each_row_with_its_end_effect(sides, ends):
    """psi(20) = 0.7764 for ten widths of length; the least stands beside."""
    largest, least = ends
    found = polygonal_bar(sides, 1.0, 0.1)

    assert found.value == pytest.approx(largest * 0.7764, abs=1e-3)
    assert found.confirmed
    assert dict(found.others)["without end effect"] == largest
    assert dict(found.others)["lowest of Table 7.11, with end effect"] == pytest.approx(
        least * 0.7764, abs=1e-3
    )


def test_more_sides_never_feel_more():
    """Each row comes nearer to a circle."""
    values = [polygonal_bar(sides, 1.0, 0.1).value for sides in SIDES]

    assert values == sorted(values, reverse=True)


def test_a_row_that_is_not_in_the_table():
    """The message names those that are."""
    with pytest.raises(ValueError, match=r"Table 7\.11 has 5, 6, 8, 10, 12, 16, 18 sides, got 7"):
        polygonal_bar(7, 1.0, 0.1)
