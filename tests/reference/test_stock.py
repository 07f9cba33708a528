"""Stock sizes, kerfs and offcut rules."""

import pytest

from estimator.reference.materials import find_material
from estimator.reference.stock import find_kerf, offcut_rule, stock_sizes


def test_sheets_come_largest_first(library, copper):
    """Sizes of the family, in metres, and no prices."""
    sizes = [(size.length_m, size.width_m) for size in stock_sizes(library, copper, "sheet")]

    assert sizes == [
        pytest.approx(size) for size in [(2.44, 1.22), (2.0, 1.0), (1.8, 0.6), (1.22, 0.61)]
    ]


def test_bars_have_no_width(library):
    """What is sold by length has a length only."""
    (longer, shorter) = stock_sizes(library, find_material(library, "stainless 316"), "bar")

    assert (longer.length_m, shorter.length_m, longer.width_m) == (6.0, 3.0, None)


def test_a_form_that_is_not_sold_has_no_size(library, lead):
    """Lead is not sold as timber."""
    assert stock_sizes(library, lead, "timber") == ()


@pytest.mark.parametrize(
    ("material", "form", "side_m", "area_m2"),
    [
        ("copper", "sheet", 0.15, 0.05),
        ("mild steel", "sheet", 0.30, 0.15),
        ("mild steel", "bar", 0.50, 0.0),
        ("bronze", "bar", 0.20, 0.0),
        ("C24", "timber", 0.45, 0.0),
    ],
)
def test_offcuts_are_kept_by_material_and_form(library, material, form, side_m, area_m2):
    """The row of the family goes before the row of every family."""
    rule = offcut_rule(library, find_material(library, material), form)

    assert (rule.min_side_m, rule.min_area_m2) == pytest.approx((side_m, area_m2))


def test_a_form_without_a_rule_has_none(library, copper):
    """The caller decides what to do, and says so."""
    assert offcut_rule(library, copper, "blob") is None


def test_a_kerf_has_two_ends(library):
    """Low and high, in metres."""
    kerf = find_kerf(library, "shears")
    plasma = find_kerf(library, "plasma")

    assert (kerf.low_m, kerf.high_m) == (0, 0)
    assert (plasma.low_m, plasma.high_m) == pytest.approx((0.0015, 0.003))


def test_a_bandsaw_is_asked_about(library):
    """For metal and for timber the kerf differs."""
    assert find_kerf(library, "bandsaw").choices == (
        "bandsaw metal (1.1 to 1.6 mm)",
        "bandsaw timber (1 to 2 mm)",
    )
