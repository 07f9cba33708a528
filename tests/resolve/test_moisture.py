"""Timber at the moisture of the job."""

import pytest

from estimator.masses.moisture import moved_to
from estimator.resolve.moisture import CAUSE
from estimator.resolve.records import Kind


def parts(made_of):
    """Return a solid box of a material."""
    return {
        "parts": "part | assembly | count | shape | length | width | depth | made of\n"
        f"P1 | a | 1 | box | 1 m | 200 mm | 100 mm | {made_of}"
    }


def layer(found):
    """Return the one layer of the one part."""
    ((one,),) = (part.layers for part in found.columns.parts)
    return one


def moisture(value):
    """Return a job sheet that tells the moisture."""
    return {"job": f"item | value\ntimber moisture | {value}"}


def test_timber_is_moved_from_the_moisture_of_the_table(resolved):
    """European oak, 700 kg/m3 at 12 %, at the default of 17 %; the table's figure stands beside."""
    one = layer(resolved(parts("oak European")))

    assert one.mass_per_size_kg == pytest.approx(moved_to(700.0, 0.12, 0.17))
    assert one.amount == "711 kg/m3 at 17 % moisture (700 at 12 %)"


def test_told_moisture_is_used(resolved):
    """At the moisture of the table nothing moves."""
    one = layer(resolved(parts("oak European") | moisture("12 %")))

    assert one.mass_per_size_kg == pytest.approx(700.0)


STAYS = [
    ("copper", 8930.0), ("birch plywood", 690.0), ("oak green", 1070.0), ("acetylated pine", 510.0),
]  # fmt: skip


@pytest.mark.parametrize(("made_of", "kg_m3"), STAYS)
def test_metal_boards_green_and_modified_timber_stay(resolved, made_of, kg_m3):
    """Only seasoned timber takes up what the place has."""
    found = resolved(parts(made_of))

    assert layer(found).mass_per_size_kg == kg_m3
    assert not [s for s in layer(found).spreads if s.kind is Kind.MOISTURE]


def test_all_timber_shares_one_cause(resolved):
    """Two timbers and the oak's own band; the moisture is the same one, wherever it is met."""
    table = parts("oak European")["parts"] + "\nP2|a|1|box|1 m|200 mm|100 mm|softwood"
    oak, pine = (part.layers[0].spreads for part in resolved({"parts": table}).columns.parts)

    assert [spread.cause for spread in oak] == ["density of oak European", CAUSE]
    assert [spread.cause for spread in pine] == ["density of softwood", CAUSE]
    assert oak[1].low == pytest.approx(
        1 - moved_to(700.0, 0.12, 0.12) / moved_to(700.0, 0.12, 0.17)
    )
    assert oak[0].low == pytest.approx(30 / 700, rel=0.05)


@pytest.mark.parametrize(
    ("told", "value", "why"),
    [
        ({}, "17 %, 12 % to 22 %", "program default"),
        (moisture("20 %"), "20 %, 18 % to 22 %", "told"),
    ],
)
def test_what_is_taken_for_granted_is_said(resolved, told, value, why):
    """Assumed from summer to winter; measured within two points of the meter."""
    (one,) = (a for a in resolved(parts("softwood") | told).assumptions if a.what == CAUSE)

    assert one.value == value
    assert why in one.why


def test_nobody_is_asked_about_timber_that_is_not_there(resolved):
    """The list of what was not told holds what would change a figure."""
    metal, timber = resolved(parts("copper")), resolved(parts("softwood"))

    assert "timber moisture" not in [one.item for one in metal.untold]
    assert "timber moisture" in [one.item for one in timber.untold]
    assert CAUSE not in [one.what for one in metal.assumptions]


def test_a_thickness_of_timber_weighs_at_that_moisture_too(resolved):
    """A skin of oak 20 mm thick: its surface mass goes by the density there."""
    table = parts("oak European")["parts"].replace("made of\n", "made of | gauge\n") + " | 20 mm"

    assert layer(resolved({"parts": table})).mass_per_size_kg == pytest.approx(
        0.020 * moved_to(700.0, 0.12, 0.17)
    )
