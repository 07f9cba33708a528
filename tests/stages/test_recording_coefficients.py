"""The record of coefficients: a line for each thing and side, alike ones together, with rivals."""

import pytest

from estimator.wind.coefficients import figure, flat_plate

STATED = {"wind rule": "stated pressure", "stated pressure": "1 kPa"}
LETTER = {"part": "L1", "shape": "sheet", "length": "230 mm", "width": "170 mm",
          "made of": "copper", "gauge": "1 mm", "count": 12}  # fmt: skip
BOWL = {"part": "B", "shape": "dome", "diameter": "400 mm", "depth": "200 mm",
        "made of": "copper", "gauge": "1 mm"}  # fmt: skip
FREE = {"assembly": "a", "stands": "free", "wind": "parts"}


@pytest.fixture(scope="module")
def lines(document):
    """Return a function that gives the coefficients of a job."""
    return lambda **sheets: document(job=STATED, **sheets)["wind"]["coefficients"]


def test_parts_alike_share_a_line(lines):
    """Two letters of one size by name, a third of another by itself, each with its area."""
    found = lines(
        parts=[LETTER, LETTER | {"part": "L2"}, LETTER | {"part": "M", "width": "200 mm"}],
        assemblies=[FREE],
    )

    assert [(row["parts"], row["meets"]) for row in found] == [
        (["L1", "L2"], "face on"), (["M"], "face on"),
    ]  # fmt: skip
    assert found[0]["area_m2"] == pytest.approx(0.23 * 0.17)
    expected = flat_plate(0.23, 0.17)
    assert found[0]["coefficient"] == expected.value
    assert found[0]["others"] == [list(other) for other in expected.others]
    assert (found[0]["rule"], found[0]["source"]) == (expected.rule, expected.source)
    assert found[0]["confirmed"]


def test_every_side_of_a_part_has_a_line(lines):
    """A bowl is met on its open side, its dome and its edge."""
    found = lines(parts=[BOWL], assemblies=[FREE])

    assert [(row["meets"], row["coefficient"]) for row in found] == [
        ("open side to the wind", pytest.approx(1.42)),
        ("dome to the wind", pytest.approx(0.38)),
        ("edge to the wind", 1.3),
    ]


def test_an_outline_is_one_line(lines):
    """An assembly that is not added up has the coefficient of its outline, and no parts."""
    (row,) = lines(parts=[LETTER], assemblies=[FREE | {"wind": "outline"}])

    assert (row["assembly"], row["parts"], row["meets"]) == ("a", [], "on its outline")
    assert row["rule"] == figure(hollows=True).rule
    assert row["area_m2"] == pytest.approx(0.23 * 0.17)


def test_what_changes_its_outline_has_no_area(lines):
    """An egg shows another outline to every side."""
    egg = {"part": "E", "shape": "ellipsoid", "length": "920 mm", "width": "430 mm",
           "depth": "330 mm", "made of": "softwood"}  # fmt: skip
    (row,) = lines(parts=[egg], assemblies=[FREE])

    assert row["area_m2"] is None


@pytest.mark.parametrize("cells", [{"in wind": "no"}, {"cut away": "100 %"}])
def test_what_catches_nothing_has_no_line(lines, cells):
    """Out of the wind, or all cut away."""
    found = lines(parts=[BOWL, LETTER | cells], assemblies=[FREE])

    assert {part for row in found for part in row["parts"]} == {"B"}


def test_parts_of_other_assemblies_stay_there(lines):
    """Each line is of the assembly its parts belong to."""
    found = lines(
        parts=[LETTER | {"assembly": "a"}, LETTER | {"part": "M", "assembly": "b"}],
        assemblies=[FREE, FREE | {"assembly": "b"}],
    )

    assert [(row["assembly"], row["parts"]) for row in found] == [("a", ["L1"]), ("b", ["M"])]


def test_without_wind_there_is_no_line(document):
    """Nothing is told of a coefficient that multiplies nothing."""
    assert document(parts=[LETTER])["wind"]["coefficients"] == []
