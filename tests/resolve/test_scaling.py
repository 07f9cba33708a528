"""The whole job larger or smaller: what grows, what stays, and what only moves."""

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator import read_job
from estimator.files.shelf import Shelf
from estimator.geometry.measures import Dims
from estimator.geometry.models import Model
from estimator.geometry.shapes import measure
from estimator.reference.sections import closed_form
from estimator.resolve.job import resolve
from estimator.resolve.parts import DIMENSIONS, columns
from estimator.resolve.records import Modelled
from estimator.resolve.scaling import grows, scaled, unfit, with_hours
from estimator.resolve.trade import BARS, Offer, Want

PARTS = """
    part | assembly | count | shape   | length | width | depth | diameter | wall | section | made of | gauge  | mass each | get by | across | out   | set out | spread
    P    | a        | 1     | ellipsoid | 0.9 m | 0.4 m | 0.3 m |        |      |         | copper  | 1 mm   |           |        | 1 m    | 0.3 m |         |
    T    | a        | 1     | tube    | 1 m    |       |       | 50 mm    | 3 mm |         | mild steel |     |           |        |        |       |         |
    R    | a        | 4     | rod     | 1 m    |       |       | 20 mm    |      |         | mild steel |     |           |        |        |       | ring    | 600 mm
    S    | a        | 1     | section | 1 m    |       |       |          |      | UPN 100 | mild steel |     |           |        |        |       |         |
    M    | a        | 1     | sheet   | 2 m    | 1 m   |       |          |      |         |         |        | 12 kg     |        | 2 m    |       |         |
    B    | a        | 1     | bought  |        |       |       | 300 mm   |      |         |         |        | 5 kg      |        | -1 m   |       |         |
    F    | a        | 6     | rod     | 100 mm |       |       | 12 mm    |      |         | mild steel |     |           | buy    |        |       | row     | 500 mm
    """  # noqa: E501 - a table
ASSEMBLIES = """
    assembly | across | up  | out    | moves  | axis | from | to
    a        | 1 m    | 2 m | 200 mm | fixed  |      |      |
    slide    | 0.5 m  |     |        | slides | up   | 0 mm | 400 mm
    hand     |        |     |        | turns  | out  | 0 deg | 90 deg
    """
BRACKETS = """
    bracket | set | across | up  | reach  | bears at | section    | grade      | holds  | plate width | plate height | plate thickness | fixings across | fixings up | fixing diameter
    K       | s   | 1 m    | 2 m | 400 mm | 350 mm   | SHS 60x60x4 | mild steel | welded | 200 mm     | 200 mm       | 10 mm           | 2              | 2          | 12 mm
    """  # noqa: E501 - a table
STOCK = """
    material   | form | section  | size | price | per
    mild steel | bar  | round 20 | 6 m  | 60    | piece
    mild steel | bar  | round 24 | 6 m  | 70    | piece
    mild steel | bar  | UPN 100  | 6 m  | 90    | piece
    mild steel | bar  | handrail | 3 m  | 40    | piece
    """
LOADS = """
    load   | assembly | mass  | out
    person | a        | 80 kg | 500 mm
    """
MOVING = """
    assembly | counterweight part | radius
    hand     | B                  | 200 mm
    """


@pytest.fixture
def job(resolved):
    """Return a job with one of everything."""
    found = resolved(
        {"parts": PARTS, "assemblies": ASSEMBLIES, "brackets": BRACKETS, "stock": STOCK,
         "extra loads": LOADS, "moving": MOVING}
    )  # fmt: skip
    assert found.complete, [str(p) for p in found.problems]
    return found


def part(found, key):
    """Return a part by its mark."""
    return next(part for part in found.columns.parts if part.key == key)


def sizes(found, key):
    """Return the sizes that a part has, by name."""
    dims = zip(DIMENSIONS, part(found, key).dims, strict=True)
    return {name: size for name, size in dims if not math.isnan(size)}


GROWN = [
    ("P", {"length": 1.8, "width": 0.8, "depth": 0.6}),
    ("T", {"length": 2.0, "diameter": 0.1, "wall": 0.003}),
    ("R", {"length": 2.0, "diameter": 0.04}),
    ("S", {"length": 2.0, "width": 0.1, "depth": 0.05}),
    ("M", {"length": 2.0, "width": 1.0}),
    ("B", {"diameter": 0.3}),
    ("F", {"length": 0.1, "diameter": 0.012}),
]


@pytest.mark.parametrize(("key", "wanted"), GROWN)
def test_what_grows_and_what_stays(job, key, wanted):
    """Walls, the table's sizes of a section, given masses and bought things stay, lengths grow."""
    assert sizes(scaled(job, 2.0), key) == pytest.approx(wanted)


def test_gauges_and_amounts_stay(job):
    """Every layer is laid as it was, of the same gauge and with the same amount."""

    def laid(found):
        return [
            [(x.name, x.over, x.amount, x.gauge, x.mass_per_size_kg) for x in one.layers]
            for one in found.columns.parts
        ]

    assert laid(scaled(job, 2.0)) == laid(job)


def test_everything_moves_with_the_size(job):
    """Places, set-outs, origins and ways of slides are twice as far; angles are not."""
    large = scaled(job, 2.0)

    assert part(large, "P").at_m == pytest.approx((2.0, 0.0, 0.6))
    assert part(large, "M").at_m == pytest.approx((4.0, 0.0, 0.0))
    assert part(large, "R").set_out == ("ring", 1.2, 0.0)
    assert part(large, "F").set_out == ("row", 1.0, 0.0)
    a, slide, hand = large.assemblies[:3]
    assert a.origin_m == pytest.approx((2.0, 4.0, 0.4))
    assert slide.positions[-1] == pytest.approx(0.8)
    assert hand.positions[-1] == pytest.approx(math.pi / 2)
    assert large.extra_loads[0].at_m == pytest.approx((0.0, 0.0, 1.0))
    assert large.extra_loads[0].force_n == job.extra_loads[0].force_n
    assert large.drives["hand"].radius_m == pytest.approx(0.4)
    np.testing.assert_allclose(large.columns.at_m, [p.at_m for p in large.columns.parts])


def test_brackets_only_move_along_the_wall(job):
    """Reach, plate and fixings stay; so does how far they stand out from the wall face."""
    (bracket,) = scaled(job, 2.0).brackets

    assert bracket.root_m == pytest.approx((2.0, 4.0, 0.0))
    assert (bracket.reach_m, bracket.bears_m) == pytest.approx((0.4, 0.35))
    for key in ("K arm", "K wall plate", "K fixings"):
        before, after = part(job, key), part(scaled(job, 2.0), key)
        assert after.dims == pytest.approx(before.dims, nan_ok=True)
        assert after.at_m == pytest.approx((2.0, 4.0, before.at_m[2]))


def test_a_grown_bar_costs_by_the_kilogram(job):
    """A bar of 22 mm nobody sells: as much a kg as the one of 20 mm, in the same lengths.

    Area goes as the square, so 60 x 1.1^2 = 72.60; that of UPN 100 does not grow, nor what is not
    known by its sizes.
    """
    offers = scaled(job, 1.1).trade.offers
    round_22 = offers[Want(_steel(job), BARS, "Round 22")]

    assert [offer.size_m for offer in round_22] == [(6.0,)]
    assert round_22[0].price == pytest.approx(72.60, abs=0.01)  # the table rounds areas
    kept = {want.size for want in job.trade.offers}
    assert {want.size for want in offers} - kept == {"Round 22", "Round 26.4"}


def test_a_grown_bar_is_finished_as_it_was(job):
    """A hot-finished section does not turn into a cold-formed one."""
    want = Want(_steel(job), BARS, "HFSHS 60x60x4")
    trade = dataclasses.replace(job.trade, offers={want: [Offer((6.0,), 50.0)]})
    offers = scaled(dataclasses.replace(job, trade=trade), 2.0).trade.offers

    assert {one.size for one in offers} == {"HFSHS 60x60x4", "HFSHS 120x120x4"}


def _steel(job):
    """Return the key of the steel on the stock sheet."""
    return next(iter(job.trade.offers)).material


def test_what_a_merchant_sells_goes_before_what_is_taken_for_granted(job):
    """20 mm grows to 24 mm, which is on the stock sheet at 70, not 60 x 1.44."""
    offers = scaled(job, 1.2).trade.offers

    assert offers[Want(_steel(job), BARS, "Round 24")][0].price == 70.0


def test_a_bar_of_the_table_is_named_as_its_closed_form(library):
    """A bar that grew to one of the table is found under the same name."""
    keys = [row.key for row in library.table("sections").rows]
    forms = {key: form.key for key in keys if (form := closed_form(key))}

    assert len(forms) > 50
    assert [*forms] == [*forms.values()]


def test_as_large_as_drawn_is_as_drawn(job):
    """Once its own size nothing changes."""
    same = scaled(job, 1.0)

    assert [p.dims for p in same.columns.parts] == [
        pytest.approx(p.dims, nan_ok=True) for p in job.columns.parts
    ]
    assert same.assemblies == job.assemblies
    assert same.brackets == job.brackets
    assert dict(same.trade.offers) == dict(job.trade.offers)


@given(first=st.floats(0.5, 2.0), second=st.floats(0.5, 2.0))
def test_growing_twice_is_growing_once(job_once, first, second):
    """Sizes multiply, whatever stays."""
    twice, once = scaled(scaled(job_once, first), second), scaled(job_once, first * second)

    for a, b in zip(twice.columns.parts, once.columns.parts, strict=True):
        assert a.dims == pytest.approx(b.dims, nan_ok=True)
        assert a.at_m == pytest.approx(b.at_m)
    for a, b in zip(twice.assemblies, once.assemblies, strict=True):
        assert a.origin_m == pytest.approx(b.origin_m)
        assert a.positions == pytest.approx(b.positions)


@pytest.fixture(scope="module")
def job_once(tmp_path_factory, write_job, library):
    """Return the job with one of everything, resolved a single time."""
    folder = write_job(
        tmp_path_factory.mktemp("job") / "job",
        {"parts": PARTS, "assemblies": ASSEMBLIES, "brackets": BRACKETS},
    )
    return resolve(read_job(folder), library, "", Shelf(folder))


def test_a_part_that_cannot_be_made_so_small(job):
    """At a tenth a tube of 50 mm is one of 5 mm, and a wall of 3 mm closes it."""
    assert list(unfit(job.columns)) == []
    assert list(unfit(scaled(job, 0.1).columns)) == [
        "T: the shape tube must have a wall thinner than half its diameter"
    ]


def test_models_of_what_grows_grow_and_others_stay(job):
    """Two parts share a model; the one whose mass was given keeps it, the other's is larger."""
    ball = Dims.of(length_m=0.9, width_m=0.4, depth_m=0.3)
    model = Modelled("bird", "mesh", Model(measure("ellipsoid", ball)), "bird.stl", scale=10.0)
    made, given_mass = (
        dataclasses.replace(part(job, key), shape="mesh", model="bird") for key in ("P", "M")
    )
    rest = [one for one in job.columns.parts if one.key not in ("P", "M")]
    table = columns([made, given_mass, *rest], job.assemblies, {"bird": model})
    small = scaled(dataclasses.replace(job, columns=table), 0.5).columns

    before, after = (t.models[t.parts[0].model].model.measures for t in (table, small))
    assert after.face.size == pytest.approx(before.face.size / 4)
    assert small.models[small.parts[0].model].scale == 5.0
    assert small.parts[1].model == "bird"
    assert small.models["bird"] is model
    assert set(small.shape_rows) >= {"bird", small.parts[0].model}


def test_hours_can_grow_too(resolved):
    """Half as many again of low, likely, high and mean; the rate stays."""
    found = resolved(
        {
            "hours": "activity | low | likely | high | rate\nraising | 8 h | 10 h | 18 h | smith",
            "rates": "name | likely\nsmith | 40",
        }
    )
    before, after = (x.trade.activities[0] for x in (found, with_hours(found, 1.5)))

    assert after.hours_each == pytest.approx((12.0, 15.0, 27.0, 18.0))
    assert after.rate == before.rate


def test_what_grows(job):
    """Everything but what is bought, what has its mass given, and what brackets make."""
    assert {p.key for p in job.columns.parts if grows(p)} == {"P", "T", "R", "S"}
