"""The wind to work in: names of winds, gusts, and lift units with their sail."""

import math

import pytest

from estimator.wind.air import gust_factor, standard_density

SITE = {"basic wind speed": "22 m/s", "datum height": "20 m"}
BOX = {"part": "b", "shape": "box", "length": "2 m", "width": "1.5 m", "depth": "500 mm",
       "mass each": "250 kg"}  # fmt: skip


@pytest.fixture(scope="module")
def worked(steps):
    """Return a function that gives the wind to work in of a job."""

    def work(*parts, job=SITE, **sheets):
        return steps(upto="working", parts=parts, job=job, **sheets)["working"]

    return work


def test_the_basic_wind_speed_by_name(worked):
    """22 m/s lies between 20.8 and 24.4: Beaufort 9."""
    (spoken,) = worked(BOX).spoken

    assert spoken == ("the basic wind speed", 22.0, 9)


def test_a_stated_pressure_has_no_wind_to_name(worked):
    """And no density, since none was used."""
    stated = {"wind rule": "stated pressure", "stated pressure": "800 Pa"}
    found = worked(BOX, job=stated)

    assert found.spoken == ()
    assert math.isnan(found.used_kg_m3)


def test_the_limit_of_the_crane_as_a_mean(worked):
    """A gust of 14.3 m/s at 20 m belongs to a mean of 14.3 / 1.502 = 9.5 m/s: Beaufort 5."""
    found = worked(BOX, job=SITE | {"lifting wind limit": "14.3 m/s"})

    assert found.spoken[1].speed_m_s == pytest.approx(14.3 / 1.502, rel=1e-3)
    assert found.spoken[1].beaufort == 5
    assert "at 20 m above the ground" in found.spoken[1].what


def test_gusts_of_each_force(worked):
    """The upper end of Beaufort 5 is 10.8 m/s; its gusts at 10 m are 1.4 times that."""
    found = worked(BOX)
    fresh = next(one for one in found.forces if one.beaufort == 5)

    assert (fresh.low_m_s, fresh.high_m_s) == (8.0, 10.8)
    assert fresh.gust_m_s == pytest.approx(1.4 * 10.8)
    assert fresh.gust_high_m_s == pytest.approx(gust_factor(20.0) * 10.8)


@pytest.mark.parametrize("job", [{}, SITE | {"datum height": "6 m"}])
def test_a_low_or_unknown_datum_has_no_gusts_of_its_own(worked, job):
    """Below 10 m the scale's own height is the cautious one."""
    found = worked(BOX, job=job)

    assert math.isnan(found.height_m)
    assert all(math.isnan(one.gust_high_m_s) for one in found.forces)


def test_a_box_on_the_hook(worked):
    """Turned by 30 degrees its corner shows: 1.5 x (2 cos 30 + 1.5 sin 30) = 3.72 m2, not 3."""
    box = BOX | {"depth": "1.5 m"}
    (lift,) = worked(box, job=SITE | {"lifting wind limit": "10 m/s"}).lifts

    shown_m2 = 1.5 * (2 * math.cos(math.radians(30)) + 1.5 * math.sin(math.radians(30)))
    assert lift.outline_m2 == pytest.approx(shown_m2, rel=1e-6)
    assert lift.direction_deg in (30.0, 150.0)
    assert lift.sail_m2 == pytest.approx(2.4 * shown_m2)
    assert lift.cautious_factor == pytest.approx(1.2 * 0.25 / lift.sail_m2)
    assert lift.factor == pytest.approx(math.sqrt(lift.cautious_factor))
    assert lift.limit_m_s == pytest.approx(10 * lift.factor)
    assert lift.cautious_m_s == pytest.approx(10 * lift.cautious_factor)


def test_without_the_limit_of_the_crane_only_its_share_is_told(worked):
    """A share stands, a speed does not."""
    (lift,) = worked(BOX).lifts

    assert 0 < lift.factor < 1
    assert math.isnan(lift.limit_m_s)


def test_assemblies_lifted_as_one_cover_one_another(worked):
    """Two boxes one behind the other, from the street once; along the wall side by side."""
    rows = [{"assembly": "a", "lift unit": "both"},
            {"assembly": "n", "lift unit": "both", "out": "1 m"}]  # fmt: skip
    cube = BOX | {"length": "1 m", "width": "1 m", "depth": "1 m"}
    (lift,) = worked(cube, cube | {"part": "n", "assembly": "n"}, assemblies=rows).lifts

    assert lift.lift_unit == "both"
    assert lift.mass_kg == pytest.approx(500.0)
    # Together a block of 1 x 1 x 2 m, seen at 60 degrees: cos 60 + 2 sin 60.
    assert lift.outline_m2 == pytest.approx(0.5 + math.sqrt(3), rel=1e-6)


def test_a_mover_is_lifted_as_it_stands_in_its_first_position(worked):
    """A board that begins at 90 degrees about up shows itself to the wind along the wall."""
    board = {"part": "b", "shape": "sheet", "length": "2 m", "width": "1 m", "mass each": "9 kg"}
    rows = [{"assembly": "a", "moves": "turns", "axis": "up", "from": "90 deg", "to": "180 deg",
             "positions": 2}]  # fmt: skip
    (lift,) = worked(board, assemblies=rows).lifts

    assert (lift.direction_deg, lift.outline_m2) == (90.0, pytest.approx(2.0))


def test_what_has_no_size_is_not_told_of(worked):
    """A point has no sail."""
    assert worked({"part": "p", "shape": "bought", "mass each": "3 kg"}).lifts == ()


def test_the_air_at_an_altitude(worked):
    """ISO 2533 at 1000 m beside what EN 1991-1-4 uses."""
    found = worked(BOX, job=SITE | {"altitude": "1000 m"})

    assert found.density_kg_m3 == pytest.approx(standard_density(1000.0))
    assert found.used_kg_m3 == 1.25
