"""Loads from elsewhere: which act together, and which may say no size."""

import pytest

TOGETHER = """
    load | assembly | force | cause  | together with
    A    | dial     | 1 kN  | person | {}
    B    | dial     | 2 kN  | person |
    """


@pytest.mark.parametrize(
    ("typed", "found"),
    [("", None), ("none", ()), ("None", ()), ("B", ("B",)), ("b; A,", ("B", "A"))],
)
def test_loads_that_a_row_names(resolved, typed, found):
    """Blank says nothing, none says that it acts alone, names are found in any case."""
    first, second = resolved({"extra loads": TOGETHER.format(typed)}).extra_loads

    assert (first.together, second.together) == (found, None)


def test_a_load_that_is_none_is_refused_at_its_cell(resolved, said):
    """Whether they act together would be a guess."""
    found = resolved({"extra loads": TOGETHER.format("B, C")})

    assert said(found, "refused") == (
        'extra loads!E2 (A): "C" is not a load of this sheet\n'
        "    wanted: names of other loads with commas between, or none\n"
        "    type one of: A, B"
    )
    assert [load.key for load in found.extra_loads] == ["B"]


def test_a_load_of_another_way_of_building_may_be_named(resolved, said):
    """In this way it is just not there."""
    rows = """
        option | load | assembly | force | cause  | together with
               | A    | dial     | 1 kN  | person | B
        two    | B    | dial     | 1 kN  | person |
        one    | C    | dial     | 1 kN  | person |
        """
    found = resolved({"extra loads": rows}, "one")

    assert said(found, "refused") == ""
    assert {load.key: load.together for load in found.extra_loads} == {"A": ("B",), "C": None}


def test_the_column_is_worked_with(resolved, said):
    """No note says that nothing is worked out from it."""
    assert "together" not in said(resolved({"extra loads": TOGETHER.format("B")}), "note")


def test_trapped_water_needs_no_size(resolved):
    """It means as much as there is room for."""
    rows = "load | assembly | cause\nwater | dial | water trapped"
    (load,) = resolved({"extra loads": rows}).extra_loads

    assert (load.fills, load.force_n) == (True, (0.0, 0.0, 0.0))


@pytest.mark.parametrize("cause", ["person", "snow", "mechanism"])
def test_any_other_load_needs_a_size(resolved, said, cause):
    """Without one it would be nothing."""
    found = resolved({"extra loads": f"load | assembly | cause | force\nX | dial | {cause} |"})

    assert said(found, "refused") == (
        'extra loads!D2 (X): "force" is blank\n'
        '    wanted: Characteristic force or "mass"\n'
        "    fill it in, or empty the whole row"
    )
    assert found.extra_loads == ()
