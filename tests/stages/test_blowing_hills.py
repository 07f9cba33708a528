"""Hills by the side the wind comes from, and their steps; parts and movers by direction."""

from dataclasses import replace

import numpy as np
import pytest

from estimator.wind import en1991
from estimator.wind.asce7_hills import Feature, topographic_factor
from estimator.wind.orography import Hill, orography_factor

SHEET = {"part": "P", "shape": "sheet", "length": "2 m", "width": "1 m", "made of": "copper",
         "gauge": "1 mm"}  # fmt: skip
RIDGE = {
    "hill or cliff": "ridge", "hill height": "30 m", "hill upwind length": "150 m",
    "hill downwind length": "300 m", "distance from crest": "-20 m", "wall faces": "S",
    "hill slope faces": "S", "wind directions": "4", "datum height": "8 m",
}  # fmt: skip
EN = RIDGE | {"basic wind speed": "24 m/s", "terrain": "II"}
US = RIDGE | {"basic wind speed": "50 m/s", "wind rule": "ASCE 7-16", "terrain": "C"}
UP, BACK = Hill(30.0, 150.0, -20.0, 300.0), Hill(30.0, 300.0, 20.0, 150.0)


@pytest.fixture(scope="module")
def blown(steps):
    """Return a function that gives the wind on a free board by the facts of a job."""

    def blow(job, **assembly):
        rows = [{"assembly": "a", "stands": "free"} | assembly]
        return steps(upto="wind", parts=[SHEET], assemblies=rows, job=job)["wind"]

    return blow


@pytest.mark.parametrize("how", ["outline", "parts"])
@pytest.mark.parametrize("stands", ["free", "flat to wall"])
def test_a_ridge_speeds_up_the_winds_across_it(blown, how, stands):
    """(A.1): c_o by the section each wind meets; q_p as (4.8) has it with that c_o.

    A board is read at its middle, parts that are added up at their top, half a metre higher.
    """
    height_m = 8.5 if (how, stands) == ("parts", "free") else 8.0
    wind = blown(EN, stands=stands, wind=how)
    calm = blown({k: v for k, v in EN.items() if "hill" not in k}, stands=stands, wind=how)
    site = en1991.Site(24.0, en1991.TERRAIN["II"])

    def pressure_pa(orography):
        return en1991.site_pressure(replace(site, orography=orography), height_m).pressure_pa

    ratios = {0.0: UP, 90.0: 1.0, 180.0: BACK, 270.0: 1.0}
    force_n, flat_n = (
        np.abs(one.groups[0].wrench[0, 0, :, :3]).max(axis=-1).reshape(4, -1).max(axis=-1)
        for one in (wind, calm)
    )
    for (direction, hill), got_n, without_n in zip(ratios.items(), force_n, flat_n, strict=True):
        expected = pressure_pa(hill) / pressure_pa(1.0)
        assert got_n == pytest.approx(expected * without_n, rel=1e-9), direction


def test_the_steps_tell_how_the_orography_factor_came_about(blown):
    """A.3: H, L_u, X, Phi, L_e and s, each with its clause, before c_o."""
    steps = {step.symbol: step for step in blown(EN).steps}

    order = [*steps]
    assert order[order.index("c_r") + 1 :][:7] == ["H", "L_u", "X", "Phi", "L_e", "s", "c_o"]
    assert steps["Phi"].value == pytest.approx(0.2)
    assert steps["L_e"].value == 150.0
    assert steps["c_o"].value == pytest.approx(float(orography_factor(8.0, UP)))
    assert 1 + 2 * steps["Phi"].value * steps["s"].value == pytest.approx(steps["c_o"].value)
    assert steps["s"].clause == "A.3(3), Figure A.3"


def test_the_american_steps_multiply_up_to_the_topographic_factor(blown):
    """26.8.2: (1 + K_1 K_2 K_3)^2, with L_h half of the level length of the slope."""
    steps = {step.symbol: step.value for step in blown(US).steps}
    ridge = Feature("ridge", 30.0, 75.0, -20.0)

    made = (1 + steps["K_1"] * steps["K_2"] * steps["K_3"]) ** 2
    assert steps["K_zt"] == pytest.approx(made)
    assert steps["L_h"] == 75.0
    assert steps["K_zt"] == pytest.approx(topographic_factor(steps_height(blown), ridge, "C"))


def steps_height(blown):
    """Return the height at which ASCE 7 reads the pressure of the board: its top."""
    return blown(US).catches[0].pressure.height_m


def test_why_prints_the_hill(document):
    """The chain of one assembly holds the same steps."""
    found = document(parts=[SHEET], assemblies=[{"assembly": "a", "stands": "free"}], job=EN)
    symbols = [step["symbol"] for step in found["wind"]["pressures"][0]["steps"]]

    assert {"H", "L_u", "X", "Phi", "L_e", "s", "c_o"} <= set(symbols)
    assert symbols.index("s") < symbols.index("c_o")
    assert any("Winds within 45 deg of 0 deg" in note for note in found["wind"]["notes"])


def test_the_wind_goes_by_the_section_that_is_worse_beside_a_hill(blown):
    """A round hill, wind along the slope: the larger of both sections."""
    wind = blown(EN | {"hill or cliff": "hill", "hill slope faces": "E"})
    shares = wind.catches[0].pressure.shares

    assert max(shares) == 1.0
    assert shares[0] == max(shares[1], shares[3])
