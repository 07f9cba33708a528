"""Laws that EN 1991-1-4 section 4 obeys whatever the numbers; its values are in published/."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.wind import en1991
from estimator.wind.en1991 import (
    TERRAIN,
    Site,
    probability_factor,
    profile,
    site_pressure,
    structural_factor_note,
)
from estimator.wind.orography import Hill, location_factor, orography_factor

speeds = st.floats(5.0, 60.0)
heights = st.floats(0.0, 200.0)
terrains = st.sampled_from(sorted(TERRAIN))


def pressure(speed_m_s, terrain, height_m, **others):
    """Return q_p of a site in a few words."""
    return site_pressure(Site(speed_m_s, TERRAIN[terrain], **others), height_m).pressure_pa


@given(speeds, terrains, heights)
def test_pressure_goes_with_the_square_of_speed(speed_m_s, terrain, height_m):
    """Twice the wind is four times the pressure: (4.8)."""
    assert pressure(2 * speed_m_s, terrain, height_m) == pytest.approx(
        4 * pressure(speed_m_s, terrain, height_m)
    )


@given(speeds, terrains, heights, heights)
def test_pressure_never_falls_with_height(speed_m_s, terrain, one_m, other_m):
    """The profile of (4.4) and (4.7) rises with height over flat ground."""
    low_m, high_m = sorted((one_m, other_m))

    assert pressure(speed_m_s, terrain, low_m) <= pressure(speed_m_s, terrain, high_m) * (1 + 1e-12)


@given(speeds, heights)
def test_rougher_terrain_shelters(speed_m_s, height_m):
    """Sea, lake, meadow, suburb, town: each gives less than the one before, up to 200 m."""
    found = [pressure(speed_m_s, terrain, height_m) for terrain in TERRAIN]

    assert found == sorted(found, reverse=True)


@given(st.floats(1.01, 1e4), st.floats(1.01, 1e4))
def test_rarer_wind_is_stronger(one, other):
    """(4.2) rises with the return period."""
    short, long = sorted((one, other))

    assert probability_factor(short) <= probability_factor(long)


@given(st.floats(0.5, 1.5), speeds, terrains, heights)
def test_factors_on_speed_come_in_squared(factor, speed_m_s, terrain, height_m):
    """(4.1): a factor on the velocity is a squared factor on the pressure."""
    plain = pressure(speed_m_s, terrain, height_m)

    assert pressure(speed_m_s, terrain, height_m, direction_factor=factor) == pytest.approx(
        factor**2 * plain
    )
    assert pressure(speed_m_s, terrain, height_m, season_factor=factor) == pytest.approx(
        factor**2 * plain
    )


@given(speeds, terrains, st.lists(heights, min_size=1, max_size=8))
def test_many_heights_at_once_are_each_height_alone(speed_m_s, terrain, heights_m):
    """A profile over an array is the profile of its elements, on a hill as well."""
    site = Site(speed_m_s, TERRAIN[terrain], orography=Hill(30.0, 200.0, -20.0), uk_altitude_m=50.0)
    together = profile(site, np.array(heights_m)).peak_pressure_pa

    assert together == pytest.approx([site_pressure(site, h).pressure_pa for h in heights_m])


def test_steps_follow_the_order_of_the_standard():
    """Every step has a symbol and a clause, and the altitude only where it was asked for."""
    plain = site_pressure(Site(26.0, TERRAIN["III"]), 8.0)
    british = site_pressure(Site(26.0, TERRAIN["III"], uk_altitude_m=100.0), 8.0)

    assert [s.symbol for s in plain.steps] == [
        *("v_b,0", "c_dir", "c_season", "c_prob", "v_b", "q_b", "k_r", "z"),
        *("c_r", "c_o", "v_m", "I_v", "q_p", "c_e"),
    ]
    assert [s.symbol for s in british.steps][1] == "c_alt"
    assert all(step.clause for step in british.steps)


def test_steps_say_which_clause_is_from_memory():
    """Where in the UK annex the altitude factor stands was not seen."""
    british = site_pressure(Site(26.0, TERRAIN["III"], uk_altitude_m=100.0), 8.0)

    assert [s.symbol for s in british.steps if not s.confirmed] == ["c_alt"]


def test_steps_multiply_up_to_the_pressure():
    """(4.9): q_p is c_e times q_b, with the numbers that are printed."""
    steps = {s.symbol: s.value for s in site_pressure(Site(30.0, TERRAIN["II"]), 12.0).steps}

    assert steps["q_p"] == pytest.approx(steps["c_e"] * steps["q_b"])


def test_notes_name_what_changes_the_pressure():
    """A gust for a mean, a national annex, a height below z_min, and the UK charts."""
    site = Site(26.0, TERRAIN["IV"], uk_altitude_m=20.0)
    low = " ".join(site_pressure(site, 6.0).notes)
    high = " ".join(site_pressure(Site(26.0, TERRAIN["IV"]), 12.0).notes)

    assert "10-minute mean" in high
    assert "national annex" in high
    assert "6 m lies below z_min: roughness and turbulence are those at 10 m" in low
    assert "UK annex" in low
    assert "z_min" not in high
    assert "UK annex" not in high


@pytest.mark.parametrize(
    "facts",
    [
        {"basic_speed_m_s": 0.0},
        {"basic_speed_m_s": float("nan")},
        {"direction_factor": -1.0},
        {"season_factor": 0.0},
        {"orography": 0.0},
        {"density_kg_m3": 0.0},
    ],
)
def test_site_names_what_it_cannot_have(facts):
    """The message carries the name of the fact, so that the cell can be found."""
    with pytest.raises(ValueError, match=next(iter(facts))):
        Site(**{"basic_speed_m_s": 26.0, "terrain": TERRAIN["II"]} | facts)


@pytest.mark.parametrize("height_m", [-0.1, 200.1, float("nan")])
def test_profile_ends_at_200_m(height_m):
    """4.3.2(1): the logarithmic profile is given up to there."""
    with pytest.raises(ValueError, match="between 0 and 200 m"):
        en1991.height_used(height_m, TERRAIN["II"])


@pytest.mark.parametrize("years", [1.0, 0.0, float("nan")])
def test_probability_needs_more_than_a_year(years):
    """A chance of 1 a year has no meaning in (4.2)."""
    with pytest.raises(ValueError, match="longer than one year"):
        probability_factor(years)


@given(st.floats(1.0, 50.0), st.floats(20.0, 400.0), heights)
def test_a_hill_never_slows_the_wind_on_its_crest(height_m, length_m, above_m):
    """A.3: c_o is 1 on gentle ground and at most 1 + 0.6 x 1.0124 anywhere."""
    assert 1.0 <= orography_factor(above_m, Hill(height_m, length_m)) <= 1 + 0.6 * 1.0124


def test_a_hill_fades_away_from_its_crest():
    """A.3: most on the crest, less on the slope, nothing beyond the figures."""
    places = [Hill(20.0, 100.0, x) for x in (0.0, -50.0, -100.0, -151.0)]
    found = [float(location_factor(10.0, hill)) for hill in places]

    assert found == sorted(found, reverse=True)
    assert found[-2] > 0
    assert found[-1] == 0.0
    assert location_factor(201.0, places[0]) == 0.0


behind = st.floats(0.0, 500.0)


@given(st.floats(1.0, 50.0), st.floats(20.0, 400.0), behind, heights)
def test_behind_the_crest_a_cliff_keeps_more_than_a_hill(height_m, length_m, distance_m, above_m):
    """A.3: both begin with the crest's own factor; neither ever slows the wind."""
    cliff = orography_factor(above_m, Hill(height_m, length_m, distance_m))
    hill = orography_factor(above_m, Hill(height_m, length_m, distance_m, length_m))

    assert 1.0 <= hill <= 1 + 0.6 * 1.0124
    assert 1.0 <= cliff <= 1.65


@given(st.floats(0.0, 200.0), st.sampled_from([None, 150.0]))
def test_the_factor_does_not_jump_on_the_crest(above_m, behind_m):
    """A step of 1 mm over the crest or the edge changes s by less than 0.001 (A.3)."""
    before, after = (Hill(20.0, 100.0, x, behind_m) for x in (0.0, 0.001))

    assert location_factor(above_m, before) == pytest.approx(
        location_factor(above_m, after), abs=1e-3
    )


def test_a_cliff_is_continuous_where_its_figure_begins():
    """A.3: the straight line from the edge meets the figure at a tenth of L_e."""
    near, at = (Hill(20.0, 100.0, x) for x in (9.999999, 10.000001))

    assert location_factor(15.0, near) == pytest.approx(location_factor(15.0, at), abs=1e-5)


def test_entered_orography_speeds_up_and_calms():
    """c_o multiplies v_m and divides I_v: (4.3), (4.7)."""
    flat = profile(Site(26.0, TERRAIN["II"]), 10.0)
    hilly = profile(Site(26.0, TERRAIN["II"], orography=1.2), 10.0)

    assert hilly.mean_speed_m_s == pytest.approx(1.2 * flat.mean_speed_m_s)
    assert hilly.turbulence_intensity == pytest.approx(flat.turbulence_intensity / 1.2)


def test_turbulence_is_held_whole_below_the_lowest_height():
    """(4.7) stops at z_min with its c_o; (4.3) stops only c_r there and takes c_o at z itself."""
    hill = Hill(20.0, 100.0)
    found = profile(Site(26.0, TERRAIN["IV"], orography=hill), 4.0)

    assert found.orography_factor == orography_factor(4.0, hill)
    assert found.turbulence_intensity == pytest.approx(
        1 / (orography_factor(10.0, hill) * np.log(10.0))
    )


@pytest.mark.parametrize(
    "facts",
    [(0.0, 100.0), (10.0, 0.0), (10.0, 50.0, 1.0, 0.0)],
)
def test_a_hill_needs_its_sizes(facts):
    """Height and both slopes: A.3 divides by them."""
    with pytest.raises(ValueError, match="above zero"):
        Hill(*facts)


@pytest.mark.parametrize(
    ("height_m", "frequency_hz", "said"),
    [
        (12.0, None, "below 15 m"),
        (15.0, None, "is assumed"),
        (12.0, 5.0, "needs working out"),
        (30.0, 6.0, "above 5 Hz"),
    ],
)
def test_structural_factor_says_why_it_is_one(height_m, frequency_hz, said):
    """6.2(1): a low building, or a stiff element; otherwise it is only assumed."""
    assert said in structural_factor_note(height_m, frequency_hz)
