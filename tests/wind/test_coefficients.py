"""Coefficients carry their rule, their rivals, and whether the number was seen or remembered."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.wind import coefficients as c
from estimator.wind.handbook import DRAG, drag, finite_cylinder_drag
from estimator.wind.records import Coefficient

sizes = st.floats(0.01, 20.0)

REMEMBERED = [
    c.sharp_section(1.0, 0.1),
    c.sphere(0.5, 3.0),
    c.figure(hollows=False),
    c.figure(hollows=True),
    c.flat_plate(1.0, 0.1, sealed_ends=1),
    c.rectangular_bar(c.Bar(1.0, 0.1, 0.2, corner_radius_m=0.01)),
    c.entered(1.4, ""),
    drag("cone, base to the wind"),
]
SEEN = [
    c.flat_plate(1.0, 0.1),
    c.rectangular_bar(c.Bar(1.0, 0.1, 0.1, corner_radius_m=0.01)),
    c.rectangular_bar(c.Bar(1.0, 0.1, 0.3)),
    c.cylinder(c.Tube(1.0, 0.04), 30.0),
    c.entered(1.4, "letter from the engineer"),
    drag("disc"),
]


@pytest.mark.parametrize("coefficient", REMEMBERED, ids=range(len(REMEMBERED)))
def test_values_from_memory_or_judgement_say_so(coefficient):
    """What no public copy showed is not called confirmed."""
    assert not coefficient.confirmed


@pytest.mark.parametrize("coefficient", SEEN, ids=range(len(SEEN)))
def test_values_read_somewhere_say_so(coefficient):
    """What a public copy or code showed is called confirmed, with its source."""
    assert coefficient.confirmed
    assert coefficient.source


@given(sizes, sizes)
def test_plate_is_two_with_its_end_effect(length_m, width_m):
    """Fig. 7.23 gives 2.0 for a plate, Fig. 7.36 takes off 40 % at most; either way round."""
    found = c.flat_plate(length_m, width_m)

    assert 1.2 - 1e-12 <= found.value <= 2.0
    assert found.value == c.flat_plate(width_m, length_m).value


def test_sharp_section_is_two_with_its_end_effect():
    """From memory of 7.7: 2.0, with psi(20) = 0.7764 for ten widths of length."""
    assert c.sharp_section(1.0, 0.1).value == pytest.approx(2.0 * 0.7764, abs=2e-4)
    assert c.sharp_section(1.0, 0.1, sealed_ends=2).value == 2.0


def test_plate_names_the_rules_that_disagree():
    """A square plate: 2.0 x psi(2) = 1.259 here, 1.80 as a signboard, 1.17 in smooth flow."""
    found = c.flat_plate(1.0, 1.0)

    assert found.value == pytest.approx(2.0 * 0.6295, abs=1e-4)
    assert dict(found.others)["signboard, EN 1991-1-4 7.4.3"] == 1.80
    assert dict(found.others)["square plate in smooth flow, handbook"] == 1.17


def test_edge_on_bar_and_rounded_bar_feel_less():
    """d/b = 10 reads 0.9 and a radius of a fifth halves the force: Figs. 7.23 and 7.24."""
    edge_on = c.rectangular_bar(c.Bar(1.0, 0.01, 0.1, sealed_ends=2))
    square = c.rectangular_bar(c.Bar(1.0, 0.1, 0.1))
    rounded = c.rectangular_bar(c.Bar(1.0, 0.1, 0.1, corner_radius_m=0.02))

    assert edge_on.value == pytest.approx(0.9)
    assert rounded.value == pytest.approx(square.value / 2)


def test_cylinder_takes_no_supercritical_credit_unless_asked():
    """A smooth 0.5 m tube at 40 m/s: Re 1.3e6; 1.2 psi(10), the chart's value only beside it."""
    tube = c.Tube(5.0, 0.5, roughness_m=0.00002)
    plain = c.cylinder(tube, 40.0)
    asked = c.cylinder(tube, 40.0, supercritical=True)

    assert plain.value == pytest.approx(1.2 * 0.698)
    assert asked.value < 0.7 * plain.value
    rival = "Figure 7.28 at Re 1.3e+06 and k/b 4e-05, with end effect"
    assert dict(plain.others)[rival] == asked.value
    assert dict(plain.others)["round chimney in slow flow, ASCE 7 Figure 29.4-1"] == pytest.approx(
        0.8 + 0.4 * 3 / 18  # between 7 and 25 times as high as wide
    )


def test_every_rule_of_a_shape_has_rivals():
    """Where rules that can be defended disagree, the reader sees what the others give."""
    rounded = c.rectangular_bar(c.Bar(2.0, 0.1, 0.1, corner_radius_m=0.01))
    others = dict(rounded.others)

    assert others["with sharp corners"] == pytest.approx(rounded.value / 0.75)
    assert others["square chimney, ASCE 7 Figure 29.4-1"] == pytest.approx(1.833, abs=1e-3)
    assert "square chimney, ASCE 7 Figure 29.4-1" not in dict(
        c.rectangular_bar(c.Bar(2.0, 0.1, 0.02)).others
    )
    assert dict(c.sharp_section(1.0, 0.1).others)["long angle, the worse side, handbook"] == 1.98
    for found in (c.figure(hollows=True), c.figure(hollows=False), c.sphere(1.0, 3.0)):
        assert found.others


def test_one_plate_has_many_answers():
    """1.17 to 1.80 on one square: every one is told, with the name of its rule."""
    others = dict(c.flat_plate(1.0, 1.0).others)

    assert others == {
        "signboard, EN 1991-1-4 7.4.3": 1.80,
        "square plate in smooth flow, handbook": 1.17,
        "endless plate in smooth flow, handbook": 1.98,
        "0.85 x solid sign on the ground, ASCE 7 Figure 29.3-1": pytest.approx(0.85 * 1.45),
        "0.85 x solid sign high up, ASCE 7 Figure 29.3-1": pytest.approx(0.85 * 1.80),
    }


def test_sphere_near_the_ground():
    """From memory of 7.10: 1.6 times the drag and 0.60 up, nearer than half a diameter."""
    assert c.sphere(1.0, 0.6).value == 0.5
    assert c.sphere(1.0, 0.4).value == pytest.approx(0.8)
    assert c.sphere(1.0, 0.6, supercritical=True).value == 0.4


def test_figures_state_their_range():
    """Judgement: 1.3 closed, as a person's upper value; 1.8 with hollows, within 1.6 to 2.0."""
    closed, hollow = c.figure(hollows=False), c.figure(hollows=True)

    assert (closed.value, hollow.value) == (1.3, 1.8)
    assert closed.value == drag("standing person, upper").value
    assert dict(hollow.others)["lower end of the range"] < hollow.value
    assert dict(hollow.others)["upper end of the range"] > hollow.value
    assert "judgement" in closed.source


@pytest.mark.parametrize("body", sorted(DRAG))
def test_handbook_values_have_a_source(body):
    """No figure without its book."""
    found = drag(body)

    assert found.source
    assert found.confirmed == ("memory" not in found.source)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: drag("teapot"), 'no handbook value for "teapot"; listed are ball'),
        (lambda: c.sphere(0.0, 1.0), "diameter_m"),
        (lambda: c.cylinder(c.Tube(1.0, 0.1), 0.0), "speed_m_s"),
        (lambda: c.rectangular_bar(c.Bar(1.0, 0.1, 0.0)), "depth_m"),
        (lambda: finite_cylinder_drag(0.0), "length_over_width"),
        (lambda: c.entered(float("nan"), "a letter"), "zero or more"),
        (
            lambda: Coefficient(-1.0, "board", "book", confirmed=True),
            r"zero or more, got -1.0 \(board\)",
        ),
    ],
)
def test_refusals_name_the_value(call, message):
    """The message says what was asked for and what there is."""
    with pytest.raises(ValueError, match=message):
        call()
