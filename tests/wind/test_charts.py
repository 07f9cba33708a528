"""Charts are continuous, level where they end, and refuse what has no meaning."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.wind import charts

reynolds_numbers = st.floats(1.0, 1e8)
roughnesses = st.floats(0.0, 1.0)


@pytest.mark.parametrize(
    ("chart", "axis"),
    [
        (charts.rectangle_coefficient, np.geomspace(0.01, 100.0, 4001)),
        (charts.corner_factor, np.linspace(0.0, 0.5, 4001)),
        (charts.end_effect_factor, np.geomspace(0.1, 1000.0, 4001)),
        (
            lambda re: charts.cylinder_coefficient(re, 1e-5, supercritical=True),
            np.geomspace(1, 1e8, 4001),
        ),
        (
            lambda k: charts.cylinder_coefficient(5e5, k, supercritical=True),
            np.geomspace(1e-7, 1, 4001),
        ),
        (lambda length: charts.effective_slenderness(length, 0.5), np.linspace(1.0, 60.0, 4001)),
    ],
    ids=["rectangle", "corners", "end effect", "cylinder by Re", "cylinder by k/b", "slenderness"],
)
def test_charts_have_no_jumps(chart, axis):
    """A hair along the axis is a hair in the value: no step larger than a fiftieth of the whole."""
    values = chart(axis)
    steps = np.abs(np.diff(values))

    assert steps.max() < 0.02 * (values.max() - values.min())


@given(reynolds_numbers, roughnesses)
def test_cylinder_takes_no_credit_unless_asked(reynolds, roughness):
    """Without asking, the subcritical 1.2; with asking, between the floor of the chart and it."""
    assert charts.cylinder_coefficient(reynolds, roughness) == 1.2
    assert 0.4 <= charts.cylinder_coefficient(reynolds, roughness, supercritical=True) <= 1.2 + 1e-9


@given(reynolds_numbers, roughnesses, roughnesses)
def test_rougher_cylinders_feel_more(reynolds, one, other):
    """Roughness never lowers the force in Fig. 7.28."""
    smooth, rough = sorted((one, other))

    assert charts.cylinder_coefficient(reynolds, smooth, supercritical=True) <= (
        charts.cylinder_coefficient(reynolds, rough, supercritical=True) + 1e-12
    )


@given(st.floats(0.1, 100.0), st.floats(0.01, 10.0), st.booleans())
def test_sealing_ends_never_lowers_the_force(length_m, width_m, round_section):
    """A wall at an end stops air from slipping round it; walls at both leave nothing to lose."""
    found = [
        charts.end_effect_factor(
            charts.effective_slenderness(
                length_m, width_m, round_section=round_section, sealed_ends=ends
            )
        )
        for ends in (0, 1, 2)
    ]

    assert 0.6 <= found[0] <= found[1] <= found[2] == 1.0


def test_slenderness_of_table_7_16():
    """Short sharp 2 l/b, long 1.4 l/b, half way 1.7 l/b; round half of each; never above 70."""
    lengths_m = np.array([10.0, 32.5, 50.0])
    sharp = charts.effective_slenderness(lengths_m, 2.0)

    assert sharp == pytest.approx([10.0, 1.7 * 16.25, 35.0])
    assert charts.effective_slenderness(lengths_m, 2.0, round_section=True) == pytest.approx(
        sharp / 2
    )
    assert charts.effective_slenderness(10.0, 0.01) == 70.0


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: charts.rectangle_coefficient(0.0), "depth_over_width"),
        (lambda: charts.corner_factor(-0.1), "corner radius"),
        (lambda: charts.end_effect_factor(float("nan")), "slenderness"),
        (lambda: charts.effective_slenderness(1.0, 0.0), "width_m"),
        (lambda: charts.effective_slenderness(1.0, 1.0, sealed_ends=3), "two ends"),
        (lambda: charts.cylinder_coefficient(-1.0, 0.0), "reynolds"),
    ],
)
def test_charts_name_what_they_cannot_read(call, message):
    """The message names the axis."""
    with pytest.raises(ValueError, match=message):
        call()
