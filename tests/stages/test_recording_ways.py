"""The ways of building in the document: by how much each differs from the first."""

import pytest

SIGN = {"part": "S", "assembly": "sign", "shape": "sheet", "length": "2 m", "width": "1 m",
        "mass each": "20 kg", "option": "steel", "up": "1 m"}  # fmt: skip
LARGER = SIGN | {"width": "1.2 m", "mass each": "25 kg", "option": "oak", "up": "1.1 m"}
POST = {"part": "P", "assembly": "post", "shape": "bought", "mass each": "40 kg"}
STATED = {"wind rule": "stated pressure", "stated pressure": "1 kPa", "not listed yet": "0 %"}


@pytest.fixture(scope="module")
def ways(document):
    """Return a function that gives the ways of a job as the document holds them."""
    return lambda *parts, **facts: document(parts=parts, job=STATED | facts)["options_table"]


def test_the_first_way_differs_from_nothing(ways):
    """It is what the others are measured by."""
    first, _ = ways(SIGN, LARGER, POST)

    assert first["option"] == "steel"
    assert first["differs"] is None
    assert [one["differs"] for one in first["assemblies"]] == [None, None]


def test_how_the_second_differs(ways):
    """5 of 60 kg; centre (25 x 1.1 - 20) / ...; 2.4 m2 before 2 m2, and so the wind."""
    first, other = ways(SIGN, LARGER, POST)
    more = other["differs"]

    assert other["mass_kg"] - first["mass_kg"] == pytest.approx(5.0)
    assert (more["mass_kg"], more["mass_share"]) == pytest.approx((5.0, 5 / 60))
    up_m = 25 * 1.1 / 65 - 20 * 1.0 / 60
    assert more["cg_m"] == pytest.approx([0.0, up_m, 0.0])
    assert more["moved_m"] == pytest.approx(up_m)
    assert more["front_share"] == pytest.approx(0.2)
    assert more["side_share"] is None  # a sheet has no side
    assert more["wind_share"] == pytest.approx(0.2)


def test_by_assembly(ways):
    """The sign is a quarter heavier and 100 mm higher; the post is the same in both."""
    _, other = ways(SIGN, LARGER, POST)
    by_name = {one["assembly"]: one["differs"] for one in other["assemblies"]}

    assert by_name["sign"]["mass_share"] == pytest.approx(0.25)
    assert by_name["sign"]["cg_m"] == pytest.approx([0.0, 0.1, 0.0])
    assert by_name["post"]["mass_kg"] == 0.0
    assert by_name["post"]["moved_m"] == 0.0
    assert by_name["post"]["wind_share"] is None


def test_an_assembly_that_the_first_way_lacks(ways):
    """There is nothing to measure it by."""
    _, other = ways(SIGN, LARGER | {"assembly": "board"}, POST)
    by_name = {one["assembly"]: one["differs"] for one in other["assemblies"]}

    assert by_name["board"] is None


def test_without_wind(ways):
    """No force, no share, and nothing is the windiest."""
    first, other = ways(SIGN, LARGER, POST, **{"stated pressure": ""})

    assert (first["wind_n"], first["windiest"], first["windiest_n"]) == (None, None, None)
    assert other["differs"]["wind_share"] is None


def test_the_front_of_each_way(ways):
    """A box round what is drawn; nothing drawn has none."""
    first, other = ways(SIGN, LARGER)

    assert first["front"]["box_m"] == pytest.approx([-1.0, 0.5, 1.0, 1.5])
    assert other["front"]["box_m"] == pytest.approx([-1.0, 0.5, 1.0, 1.7])
    assert [shape["part"] for shape in first["front"]["shapes"]] == ["S"]
    assert ways(POST)[0]["front"] == {"box_m": [0.0] * 4, "shapes": []}
