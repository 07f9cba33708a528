"""The line of figures of each way of building."""

import math

import pytest

from estimator.core.constants import GRAVITY_M_S2

LUMP = {"part": "L", "shape": "bought", "mass each": "100 kg", "out": "400 mm"}
BRACKETS = [
    {"bracket": f"B{n}", "set": "s", "across": f"{a} m", "up": "0 m", "reach": "300 mm",
     "section": "SHS 60x60x4", "grade": "mild steel", "holds": "welded"}
    for n, a in enumerate((-1, 1))
]  # fmt: skip
STATED = {"wind rule": "stated pressure", "stated pressure": "1 kPa"}


@pytest.fixture(scope="module")
def line(steps):
    """Return a function that gives the line of a job."""
    return lambda **sheets: steps(upto="comparison", **sheets)["comparison"]


def test_mass_comes_with_its_allowance(line):
    """100 kg and 5 % not listed yet; drawn, so that low and high are 10 % off."""
    found = line(parts=[LUMP], job={"not listed yet": "5 %"})

    assert found.mass_kg == pytest.approx(105.0)
    assert (found.low_kg, found.high_kg) == pytest.approx((94.5, 115.5))
    assert found.cg_m == pytest.approx([0.0, 0.0, 0.4])
    assert found.option == ""
    assert found.pulls == ()


def test_the_hardest_pull(line, steps):
    """A board of 2 m2 in 1 kPa pulls with 3600 N, half on each of two; the weight tips it out.

    The bracket nearer the weight, all of it with the lever rule, has the greater moment:
    100 g x 0.4 m and its own arm; wind is level with the arms and adds nothing.
    """
    board = {"part": "W", "shape": "sheet", "length": "2 m", "width": "1 m", "mass each": "1 g",
             "out": "400 mm"}  # fmt: skip
    sheets = {"parts": [LUMP | {"across": "1 m"}, board], "brackets": BRACKETS, "job": STATED}
    (pull,) = line(**sheets).pulls
    weights = steps(upto="weights", **sheets)["weights"]
    arm_nm = float(weights.parts.mass_kg[-1]) * GRAVITY_M_S2 * 0.15

    assert (pull.set_name, pull.bracket) == ("s", "B1")
    assert pull.moment_nm == pytest.approx(100 * GRAVITY_M_S2 * 0.4 + arm_nm, rel=1e-4)
    # Off the middle by a quarter of 2 m the lever rule puts 3 / 4 on one bracket.
    assert pull.pull_out_n >= 0.75 * 3600.0 - 1e-6


def test_hours_and_money(line):
    """10, 12 and 20 h by two people: 24 h likely, 28 in the mean; 28 h x 12 and 30 % on cost."""
    found = line(
        parts=[],
        hours=[{"activity": "building", "people": 2, "low": "10 h", "likely": "12 h",
                "high": "20 h", "rate": "masons"}],
        rates=[{"name": "masons", "likely": 12}],
        job={"mark-up": "30 %"},
    )  # fmt: skip

    assert found.person_hours_likely == pytest.approx(24.0)
    assert found.person_hours_mean == pytest.approx(28.0)
    assert found.cost_mean == pytest.approx(336.0)
    assert found.price_mean == pytest.approx(436.8)


def test_an_empty_job_has_a_line(line):
    """Nothing weighs nothing, and nothing is not a number."""
    found = line(parts=[])

    assert found.mass_kg == 0.0
    assert not any(math.isnan(x) for x in found.cg_m)


def test_figures_of_each_assembly(line):
    """Each has its own mass, band, centre from the datum and wind; what is not blown has none."""
    board = {"part": "W", "assembly": "sign", "shape": "sheet", "length": "2 m", "width": "1 m",
             "mass each": "1 kg", "out": "400 mm"}  # fmt: skip
    rows = [{"assembly": "a"}, {"assembly": "sign", "up": "2 m", "stands": "free",
                                   "coefficient": "1.5"}]  # fmt: skip
    calm = [rows[0] | {"wind": "none"}, rows[1]]
    found = line(parts=[LUMP, board], assemblies=calm, job=STATED)

    lump, sign = found.assemblies
    assert (lump.assembly, lump.mass_kg, lump.wind_n) == ("a", pytest.approx(100.0), 0.0)
    assert (lump.low_kg, lump.high_kg) == pytest.approx((90.0, 110.0))
    assert sign.cg_m == pytest.approx([0.0, 2.0, 0.4])
    assert sign.wind_n == pytest.approx(1000.0 * 1.5 * 2.0)
    assert found.windiest.assembly == "sign"
    assert found.wind_n == pytest.approx(sign.wind_n)


def test_wind_on_all_is_of_one_wind(line):
    """Two boards of 2 m2, one flat to the street and one square to it, are not largest together.

    Free in the wind, each meets what it shows: 2 m2 at most alone, 2 sqrt 2 together at 45 degrees.
    """
    board = {"part": "F", "assembly": "flat", "shape": "sheet", "length": "2 m", "width": "1 m",
             "mass each": "1 kg"}  # fmt: skip
    edge = board | {"part": "E", "assembly": "edge", "along": "out", "faces": "across"}
    rows = [{"assembly": name, "stands": "free", "coefficient": "2"} for name in ("flat", "edge")]
    found = line(parts=[board, edge], assemblies=rows, job=STATED)

    assert [one.wind_n for one in found.assemblies] == pytest.approx([4000.0, 4000.0])
    assert found.wind_n == pytest.approx(4000.0 * math.sqrt(2))


def test_a_mover_counts_where_it_catches_most(line):
    """A board that turns about the upright shows 2 m2 to each wind at one of its positions."""
    board = {"part": "F", "assembly": "vane", "shape": "sheet", "length": "2 m", "width": "1 m",
             "mass each": "1 kg"}  # fmt: skip
    still = board | {"part": "S", "assembly": "sign", "across": "3 m"}
    rows = [{"assembly": "vane", "stands": "free", "coefficient": "2", "moves": "turns",
             "axis": "up", "from": "0 deg", "to": "90 deg", "positions": "2"},
            {"assembly": "sign", "stands": "free", "coefficient": "2"}]  # fmt: skip
    found = line(parts=[board, still], assemblies=rows, job=STATED)

    assert found.wind_n == pytest.approx(8000.0)


def test_without_wind_nothing_is_windiest(line):
    """A job that names no wind has no wind force, which is not a force of nought."""
    found = line(parts=[LUMP])

    assert found.wind_n is None
    assert found.windiest is None
    assert found.assemblies[0].wind_n == 0.0
