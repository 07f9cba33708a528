"""Laws that chapter 26 of ASCE 7 obeys whatever the numbers; its values are in published/."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.wind.asce7 import EDITIONS, Site, exposure_coefficient, height_used, site_pressure
from estimator.wind.asce7_hills import KINDS, Feature, topographic_factor

editions = st.sampled_from(list(EDITIONS.values()))
exposures = st.sampled_from("BCD")
heights = st.floats(0.0, 200.0)
speeds = st.floats(20.0, 90.0)


def pressure(edition, speed_m_s, exposure, height_m, **others):
    """Return what a coefficient multiplies, in a few words."""
    return site_pressure(Site(edition, speed_m_s, exposure, **others), height_m).pressure_pa


@given(editions, speeds, exposures, heights, st.floats(0.5, 2.0))
def test_pressure_goes_with_the_square_of_speed(edition, speed_m_s, exposure, height_m, factor):
    """(26.10-1): so much faster, so much squared."""
    assert pressure(edition, factor * speed_m_s, exposure, height_m) == pytest.approx(
        factor**2 * pressure(edition, speed_m_s, exposure, height_m)
    )


@given(editions, exposures, heights, heights)
def test_exposure_coefficient_never_falls_with_height(edition, exposure, one_m, other_m):
    """Table 26.10-1, note 1: a rising power of height, level below 15 ft."""
    low, high = (exposure_coefficient(h, edition, exposure) for h in sorted((one_m, other_m)))

    assert low <= high


@given(editions, st.floats(0.0, 150.0))
def test_open_ground_gives_more_wind(edition, height_m):
    """Town, open country, shore: each more than the one before, up to 150 m (500 ft)."""
    found = [exposure_coefficient(height_m, edition, exposure) for exposure in "BCD"]

    assert found == sorted(found)


@given(editions, exposures)
def test_profile_is_continuous_where_it_is_held(edition, exposure):
    """At 4.6 m, and at z_g, where K_z is the coefficient itself."""
    gradient_m = edition.exposures[exposure].gradient_m
    for edge_m in (4.6, gradient_m):
        near = [exposure_coefficient(edge_m + d, edition, exposure) for d in (-1e-6, 1e-6)]
        assert near[0] == pytest.approx(near[1], rel=1e-6)
    assert exposure_coefficient(2 * gradient_m, edition, exposure) == pytest.approx(
        edition.gradient_coefficient
    )


@given(speeds, exposures, heights, st.floats(0.5, 1.0), st.floats(0.8, 1.1))
def test_directionality_counts_once(speed_m_s, exposure, height_m, directionality, gust):
    """K_d is in q_h by 7-16 and beside it by 7-22; the load has it once in both."""
    for name, inside in [("ASCE 7-16", directionality), ("ASCE 7-22", 1.0)]:
        plain = Site(EDITIONS[name], speed_m_s, exposure, directionality=1.0, gust_factor=1.0)
        site = Site(EDITIONS[name], speed_m_s, exposure, directionality=directionality,
                    gust_factor=gust)  # fmt: skip
        bare = site_pressure(plain, height_m)
        worked = site_pressure(site, height_m)
        q_pa = next(step.value for step in worked.steps if step.symbol == "q_h")

        assert worked.pressure_pa == pytest.approx(directionality * gust * bare.pressure_pa)
        assert q_pa == pytest.approx(inside * bare.pressure_pa)


@given(editions, heights, st.floats(0.0, 4000.0))
def test_thin_air_presses_less(edition, height_m, altitude_m):
    """K_e never raises a pressure, and a site at the sea has the pressure of one not told."""
    told = pressure(edition, 50.0, "C", height_m, altitude_m=altitude_m)

    assert told <= pressure(edition, 50.0, "C", height_m)
    assert pressure(edition, 50.0, "C", height_m, altitude_m=0.0) == pressure(
        edition, 50.0, "C", height_m
    )


@given(editions, heights, st.floats(1.0, 3.0))
def test_topographic_factor_multiplies_the_pressure(edition, height_m, factor):
    """(26.10-1): K_zt is a factor on the pressure, not on the speed."""
    assert pressure(edition, 50.0, "C", height_m, topography=factor) == pytest.approx(
        factor * pressure(edition, 50.0, "C", height_m)
    )


def test_steps_stand_in_the_order_of_the_standard():
    """Only the gust factor's clause number is from memory."""
    orders = {
        "ASCE 7-16": ["V", "z", "K_z", "K_zt", "K_e", "K_d", "q_h", "G", "q_h G"],
        "ASCE 7-22": ["V", "z", "K_z", "K_zt", "K_e", "q_h", "K_d", "G", "q_h K_d G"],
    }
    for name, order in orders.items():
        worked = site_pressure(Site(EDITIONS[name], 50.0, "C"), 10.0)
        assert [step.symbol for step in worked.steps] == order
        assert [step.symbol for step in worked.steps if not step.confirmed] == ["G"]
        assert worked.steps[-1].value == worked.pressure_pa
        assert "strength level" in worked.notes[0]
        assert "K_e = 1" in worked.notes[-1]
    told = site_pressure(Site(EDITIONS["ASCE 7-22"], 50.0, "C", altitude_m=10.0), 10.0)
    assert not any("K_e" in note for note in told.notes)


@given(st.sampled_from(sorted(KINDS)), exposures, st.floats(0.0, 100.0), st.floats(-300, 300))
def test_hills_only_speed_up_and_die_away(kind, exposure, height_m, distance_m):
    """(26.8-1): at least 1, most at the crest and the ground, and 1 far off."""
    hill = Feature(kind, 30.0, 80.0, distance_m)
    found = topographic_factor(height_m, hill, exposure)
    crest = topographic_factor(0.0, hill._replace(distance_m=0.0), exposure)

    assert 1.0 <= found <= crest
    assert topographic_factor(0.0, hill._replace(distance_m=1e4), exposure) == 1.0
    assert topographic_factor(height_m, hill._replace(height_m=10.0), exposure) == 1.0


def test_steep_hills_are_taken_as_half_as_steep():
    """Figure 26.8-1, note 2: above H/L_h = 0.5 it is 0.5 with L_h = 2 H: no jump, no more gain."""
    half = topographic_factor(5.0, Feature("ridge", 50.0, 100.0), "C")
    steep = topographic_factor(5.0, Feature("ridge", 50.0, 20.0), "C")

    assert steep == pytest.approx(half)


def test_wind_goes_further_down_an_escarpment_than_up_it():
    """Factor mu is 4 downwind of an escarpment and 1.5 upwind of anything."""
    down, up = (
        topographic_factor(0.0, Feature("escarpment", 20.0, 50.0, x), "C") for x in (60.0, -60.0)
    )

    assert down > up


def test_a_hill_reaches_the_pressure():
    """A site on a crest has K_zt of its own height."""
    crest = Feature("hill", 40.0, 100.0)
    edition = EDITIONS["ASCE 7-16"]

    assert pressure(edition, 50.0, "B", 8.0, topography=crest) == pytest.approx(
        topographic_factor(8.0, crest, "B") * pressure(edition, 50.0, "B", 8.0)
    )


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: Site(EDITIONS["ASCE 7-16"], 50.0, "II"), "exposures B, C and D, got 'II'"),
        (lambda: Site(EDITIONS["ASCE 7-16"], 0.0, "C"), "basic_speed_m_s above zero"),
        (lambda: Site(EDITIONS["ASCE 7-16"], 50.0, "C", topography=0.0), "topography above zero"),
        (lambda: height_used(-1.0, EDITIONS["ASCE 7-16"].exposures["C"]), "above the ground"),
        (lambda: height_used(float("nan"), EDITIONS["ASCE 7-16"].exposures["C"]), "ground"),
        (lambda: topographic_factor(1.0, Feature("dune", 1.0, 1.0), "C"), "hill is one of"),
        (lambda: topographic_factor(1.0, Feature("hill", 0.0, 1.0), "C"), "height_m"),
    ],
)
def test_impossible_sites_are_refused(call, message):
    """What no site can have is refused in words."""
    with pytest.raises(ValueError, match=message):
        call()
