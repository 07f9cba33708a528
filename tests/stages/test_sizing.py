"""The job at other sizes: the laws a skin, a solid and the wind follow, and what it costs."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.pipeline import at_sizes
from estimator.resolve.scaling import scaled
from estimator.stages.blowing import blow
from estimator.stages.burdening import burden
from estimator.stages.comparing import compare
from estimator.stages.holding import hold
from estimator.stages.icing import ice_up
from estimator.stages.measuring import measure_parts
from estimator.stages.posing import pose
from estimator.stages.sizing import SIZES, power, size_up
from estimator.stages.weighing import weigh
from estimator.stages.whole import in_job

TIMES = st.floats(0.5, 2.0)
STATED = {"wind rule": "stated pressure", "stated pressure": "1 kPa"}
SKIN = [
    {"part": "E", "shape": "ellipsoid", "length": "0.9 m", "width": "0.4 m", "depth": "0.3 m",
     "made of": "copper", "gauge": "1 mm", "out": "400 mm", "relief": "1.2"},
    {"part": "C", "shape": "cone", "length": "0.6 m", "diameter": "0.2 m", "made of": "copper",
     "gauge": "1 mm", "across": "0.5 m", "up": "1 m", "out": "300 mm", "turn": "30 deg"},
    {"part": "W", "shape": "leaf", "length": "1 m", "width": "0.4 m", "made of": "copper",
     "gauge": "0.8 mm", "out": "200 mm", "count": 6, "set out": "ring", "spread": "2 m"},
]  # fmt: skip
SOLID = [
    {"part": "B", "shape": "box", "length": "0.9 m", "width": "0.4 m", "depth": "0.3 m",
     "made of": "european oak", "out": "400 mm"},
    {"part": "R", "shape": "rod", "length": "0.6 m", "diameter": "20 mm",
     "made of": "mild steel", "across": "0.5 m", "up": "1 m", "out": "300 mm", "count": 4,
     "set out": "row", "spread": "1 m"},
]  # fmt: skip
BRACKETS = [
    {"bracket": f"K{n}", "set": "s", "across": f"{a} m", "up": "0 m", "reach": "300 mm",
     "section": "SHS 60x60x4", "grade": "mild steel", "holds": "welded"}
    for n, a in enumerate((-1, 1))
]  # fmt: skip
ROD = {"part": "R", "shape": "rod", "length": "1 m", "diameter": "20 mm", "made of": "mild steel"}
BAR = {"material": "mild steel", "form": "bar", "section": "round 20", "size": "6 m", "price": 60,
       "per": "piece"}  # fmt: skip


@pytest.fixture(scope="module")
def skin(steps):
    """Return a job of nothing but skins, in a stated wind."""
    return steps(upto="groups", parts=SKIN, job=STATED)["resolved"]


@pytest.fixture(scope="module")
def solid(steps):
    """Return a job of nothing but solids."""
    return steps(upto="groups", parts=SOLID)["resolved"]


def weighed(resolved):
    """Return the mass of everything, and its moment about the datum as it hangs out, kg m."""
    weights = weigh(resolved, measure_parts(resolved.columns))
    bodies = in_job(weights, pose(resolved.assemblies))
    return weights.listed_kg, float(bodies.mass_kg @ bodies.centre_m[:, 2])


@pytest.mark.parametrize(("kind", "power_of_mass"), [("skin", 2), ("solid", 3)])
@given(times=TIMES)
def test_mass_and_moment_of_a_pure_thing(request, kind, power_of_mass, times):
    """A skin of one gauge weighs as the square, a solid as the cube; its arm is times as long."""
    drawn = request.getfixturevalue(kind)
    (mass_kg, moment_kgm), (large_kg, large_kgm) = weighed(drawn), weighed(scaled(drawn, times))

    assert large_kg == pytest.approx(mass_kg * times**power_of_mass)
    assert large_kgm == pytest.approx(moment_kgm * times ** (power_of_mass + 1))


@settings(max_examples=10)
@given(times=TIMES)
def test_wind_at_one_pressure(skin, times):
    """Every force goes as the square, every moment about the datum as the cube."""
    found = []
    for one in (skin, scaled(skin, times)):
        shapes = measure_parts(one.columns)
        found.append(blow(one, shapes, pose(one.assemblies)).groups[0].wrench)

    assert found[1][..., :3] == pytest.approx(found[0][..., :3] * times**2)
    assert found[1][..., 3:] == pytest.approx(found[0][..., 3:] * times**3)


@pytest.fixture(scope="module")
def sized(steps):
    """Return a function that gives a job at all sizes."""
    return lambda **sheets: at_sizes(steps(upto="comparison", **sheets))


def test_pull_of_the_wind(sized):
    """A board on two pins: by the lever rule its pull-out is a share of the wind's, as the square.

    Welded arms of one reach take a share of its turning that is not the same at every size.
    """
    board = {"part": "W", "shape": "sheet", "length": "2 m", "width": "1 m", "made of": "copper",
             "gauge": "1 mm", "out": "300 mm"}  # fmt: skip
    pins = [bracket | {"holds": "pin"} for bracket in BRACKETS]
    found = sized(parts=[board], brackets=pins, job=STATED)

    (growth,) = found.growth.pulls
    assert growth.set_name == "s"
    assert growth.pull_out == pytest.approx(2.0, abs=1e-6)
    assert found.growth.wind == found.growth.windiest == pytest.approx(2.0)


def test_the_sizes_stand_in_rising_order(sized):
    """As drawn is one of them, and is the job itself."""
    found = sized(parts=SKIN)

    assert [one.times for one in found.sized] == list(SIZES)
    assert 1.0 in SIZES
    assert found.growth.mass == pytest.approx(2.0)
    assert found.growth.skin == pytest.approx(2.0)
    assert found.growth.wind is None  # no wind is known
    assert found.misfits == ()


def test_bought_things_weigh_the_same_and_move(sized):
    """A lump of 100 kg stays one; its centre is 1.25 times as far out."""
    lump = {"part": "L", "shape": "bought", "mass each": "100 kg", "out": "400 mm"}
    found = sized(parts=[lump])

    assert {round(one.line.mass_kg, 9) for one in found.sized} == {100.0}
    assert found.sized[-1].line.cg_m == pytest.approx([0.0, 0.0, 0.5])
    assert found.growth.mass == pytest.approx(0.0)
    assert found.sized[-1].hours_by_skin == 0.0


def test_hours_as_listed_and_by_skin(sized):
    """24 h likely at the size as drawn; by skin 24 x 1.25^2 = 37.5. The price is 40 an hour."""
    found = sized(
        parts=SKIN,
        hours=[{"activity": "raising", "people": 2, "low": "12 h", "likely": "12 h",
                "high": "12 h", "rate": "smith"}],
        rates=[{"name": "smith", "likely": 40}],
    )  # fmt: skip
    drawn, large = found.sized[2], found.sized[-1]

    assert (drawn.hours_listed, drawn.hours_by_skin) == pytest.approx((24.0, 24.0))
    assert (large.hours_listed, large.hours_by_skin) == pytest.approx((24.0, 37.5))
    assert large.price_by_skin - large.price_listed == pytest.approx(40 * 13.5)
    assert drawn.price_by_skin == pytest.approx(drawn.price_listed)


def test_a_bar_is_charged_by_the_kilogram_at_every_size(sized):
    """A rod of 20 mm from a bar at 60: at 1.25 it is of 25 mm, and a bar is 60 x 1.25^2 = 93.75."""
    found = sized(parts=[ROD], stock=[BAR])

    costs = {one.times: one.material_cost for one in found.sized}
    assert costs[1.0] == pytest.approx(60.0)
    assert costs[1.25] == pytest.approx(93.75, rel=2e-4)  # the table rounds areas
    assert {one.unpriced for one in found.sized} == {0}
    assert found.growth.material_cost == pytest.approx(2.0, abs=1e-3)


def test_no_power_of_money_where_prices_go_missing(sized):
    """A bar of 5 m that grows beyond the 6 m that are sold has no price: the two do not compare."""
    found = sized(parts=[ROD | {"length": "5 m"}], stock=[BAR])

    assert [one.unpriced for one in found.sized] == [0, 0, 0, 0, 1]
    assert found.growth.material_cost is None
    assert found.growth.price_listed is None
    assert found.growth.mass == pytest.approx(3.0)


def test_a_size_at_which_a_part_cannot_be(sized):
    """A tube of 10 mm with a wall of 4.2 mm closes at 0.8; the others are worked out."""
    tube = {"part": "T", "shape": "tube", "length": "1 m", "diameter": "10 mm", "wall": "4.2 mm",
            "made of": "mild steel"}  # fmt: skip
    found = sized(parts=[tube])

    assert [one.times for one in found.sized] == list(SIZES[1:])
    assert found.misfits == (
        (0.8, "T: the shape tube must have a wall thinner than half its diameter"),
    )


def test_a_job_without_parts_has_no_sizes(sized):
    """Nothing grows."""
    found = sized(parts=[])

    assert (found.sized, found.growth, found.misfits) == ((), None, ())
    assert size_up({}).growth is None


def test_the_line_of_a_size_is_that_of_the_steps(steps, sized):
    """What is told of 1.1 is what the steps give for a job of that size."""
    sheets = {"parts": SKIN, "brackets": BRACKETS, "job": STATED}
    resolved = scaled(steps(upto="resolved", **sheets)["resolved"], 1.1)
    shapes, groups = measure_parts(resolved.columns), pose(resolved.assemblies)
    weights, wind = weigh(resolved, shapes), blow(resolved, shapes, groups)
    burdens = burden(resolved, shapes, groups, ice_up(resolved, shapes, weights, groups, wind))
    held = hold(resolved, weights, groups, wind, burdens)
    pricing = steps(upto="pricing", **sheets)["pricing"]
    line = compare(resolved, weights, groups, wind, held, pricing)
    found = next(one.line for one in sized(**sheets).sized if one.times == 1.1)

    assert found.mass_kg == pytest.approx(line.mass_kg)
    assert found.wind_n == pytest.approx(line.wind_n)
    assert found.pulls == line.pulls


@given(exponent=st.floats(-3.0, 4.0), ratio=st.floats(1.1, 3.0), first=st.floats(1e-3, 1e6))
def test_the_power_that_a_figure_follows(exponent, ratio, first):
    """What was multiplied by a power of the ratio gives that power back."""
    assert power(first, first * ratio**exponent, ratio) == pytest.approx(exponent, abs=1e-9)


@pytest.mark.parametrize(
    "values", [(0.0, 1.0, 2.0), (1.0, 0.0, 2.0), (1.0, -1.0, 2.0), (1.0, 2.0, 1.0), (1.0, 2.0, 0)]
)
def test_no_power_of_nought(values):
    """Nothing, what changes sign, and a single size have no power."""
    assert power(*values) is None


def test_power_of_a_known_pair():
    """Four times as much at double the size is a power of two."""
    assert power(3.0, 12.0, 2.0) == pytest.approx(2.0)
    assert math.isclose(power(3.0, 24.0, 2.0), 3.0)
