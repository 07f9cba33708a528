"""The table of coefficients: order, names, the range of the other rules, and its notes."""

import pytest

from estimator.reports.coefficients import LEAST, SHOWN, context, of, spread
from estimator.reports.page import page_html


def row(part, coefficient=1.2, area_m2=1.0, **more):
    """Return one line of the record."""
    return {"assembly": "mast", "parts": [part], "meets": "face on", "area_m2": area_m2,
            "coefficient": coefficient, "rule": "flat plate", "source": "a standard",
            "confirmed": True, "others": [["signboard", 1.8], ["disc", 1.12]], **more}  # fmt: skip


@pytest.fixture
def told(document):
    """Return a function that gives the context of some lines."""

    def tell(*rows):
        document["wind"]["coefficients"] = list(rows)
        return context(document)

    return tell


def test_what_catches_most_comes_first(told):
    """By the chief side of each part; the sides of one part stay together, outlines lead."""
    found = told(
        row("P", area_m2=0.1), row("Q", meets="dome"), row("Q", coefficient=0.4, meets="open"),
        row("E", area_m2=None),
    )["coefficient_rows"]  # fmt: skip

    assert [(one["of"], one["meets"]) for one in found] == [
        ("E", "face on"), ("Q", "dome"), ("Q", "open"), ("P", "face on"),
    ]  # fmt: skip


def test_the_ends_of_long_bars_are_left_out(told):
    """A side that catches next to nothing beside the chief one has no line, and is counted."""
    found = told(row("R"), row("R", area_m2=LEAST / 2, meets="end to the wind"))

    assert [one["meets"] for one in found["coefficient_rows"]] == ["face on"]
    assert found["more_coefficients"] == 1


def test_a_long_table_is_cut(told):
    """The rest is counted."""
    found = told(*(row(f"P{i}", area_m2=1.0 + i) for i in range(SHOWN + 3)))

    assert len(found["coefficient_rows"]) == SHOWN
    assert found["more_coefficients"] == 3


@pytest.mark.parametrize(
    ("parts", "named"),
    [
        ([], "the whole"),
        (["L1", "L2"], "L1, L2"),
        (["L1", "L2", "L3", "L4", "L5", "L6"], "L1, L2, L3 and 3 more"),
    ],
)
def test_names_of_a_line(parts, named):
    """Many parts are told by their number."""
    assert of(row("P", parts=parts)) == named


@pytest.mark.parametrize(
    ("others", "told"),
    [([], ""), ([["a", 1.8]], "1.80"), ([["a", 1.8], ["b", 1.12], ["c", 1.5]], "1.12 to 1.80")],
)
def test_the_range_of_the_others(others, told):
    """The least and the most that other rules give."""
    assert spread(row("P", others=others)) == told


def test_notes_and_what_is_known(told):
    """Where a rule is from, and what each other rule gives, said once for all lines alike."""
    found = told(row("P"), row("Q", confirmed=False, others=[]))

    assert found["coefficient_notes"] == {
        "1": "a standard", "2": "other rules: signboard: 1.80; disc: 1.12",
    }  # fmt: skip
    assert [one["notes"] for one in found["coefficient_rows"]] == [["1", "2"], ["1"]]
    assert [one["known"] for one in found["coefficient_rows"]] == ["seen", "to be checked"]


def test_the_page_has_the_table(document):
    """Part, rule, coefficient, and the others beside it; how many lines are left out."""
    document["wind"]["coefficients"] = [row("P<1>"), row("P<1>", area_m2=0.001, meets="edge on")]
    page = page_html(document)

    assert "Which coefficient each thing has" in page
    assert "P&lt;1&gt;" in page
    assert ">1.12 to 1.80<" in page
    assert "Coefficient note 2: other rules: signboard: 1.80; disc: 1.12" in page
    assert "1 line of what catches less is in estimate.json." in page


def test_a_page_without_coefficients_has_no_table(document):
    """No heading over nothing."""
    document["wind"]["coefficients"] = []

    assert "Which coefficient each thing has" not in page_html(document)
