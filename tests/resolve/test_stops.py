"""Stops on the `moving` sheet: what is used, what is asked about, what is refused."""

import math

import pytest

from estimator.core.problems import Severity

SIGN = """
    assembly | moves | axis | from    | to     | positions
    dial     | turns | out  | -12 deg | 12 deg | 3
    """
HEAD = "assembly | drive torque | drive weight | stops from | stops to | stop arm\n"
GIVEN = HEAD + "dial | | | -12 deg | 12 deg | 90 mm"


def told(found):
    """Return what is said of the `moving` sheet."""
    return [p for p in found.problems if p.cell.sheet == "moving"]


def test_stops_are_read_in_si(resolved):
    """Twelve degrees each way, 90 mm from the axle; nothing to say of them."""
    found = resolved({"assemblies": SIGN, "moving": GIVEN})

    assert not told(found)
    assert found.stops["dial"] == pytest.approx((-math.radians(12), math.radians(12), 0.09))


def test_a_mover_without_stops_has_none(resolved):
    """They are not made up."""
    found = resolved({"assemblies": SIGN, "moving": HEAD + "dial | 20 Nm | | | |"})

    assert found.stops == {}


INCOMPLETE = [
    (
        "dial | | | -12 deg | 12 deg |", "F2", '"stop arm" is blank',
        "how far from the axle the stops bear, such as 90 mm",
        "type all three of stops from, stops to and stop arm, or none",
    ),
    (
        "dial | | | 12 deg | -12 deg | 90 mm", "E2",
        "its stops go from 12 deg to -12 deg, which leaves no room",
        "the angle of the last stop, further on than the first", "look at both angles",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("row", "cell", "found", "expected", "advice"), INCOMPLETE)
def test_stops_that_cannot_be_used(resolved, row, cell, found, expected, advice):
    """Half of them are no stops, and neither are two the wrong way round."""
    answer = resolved({"assemblies": SIGN, "moving": HEAD + row})

    (problem,) = told(answer)
    assert problem.severity is Severity.REFUSED
    assert str(problem.cell) == f"moving!{cell}"
    assert (problem.found, problem.expected, problem.advice) == (found, expected, advice)
    assert answer.stops == {}


UNUSED = [
    ("out", "dial | 20 Nm | | -12 deg | 12 deg | 90 mm", "it is driven"),
    ("out", "dial | | 5 kg | -12 deg | 12 deg | 90 mm", "it is driven"),
    ("up", "dial | | | -12 deg | 12 deg | 90 mm", "its weight does not turn it back"),
]


@pytest.mark.parametrize(("axis", "row", "why"), UNUSED)
def test_stops_that_nothing_is_worked_out_from(resolved, axis, row, why):
    """A drive holds a hand, and nothing brings a vane back: a note says so."""
    found = resolved({"assemblies": SIGN.replace("out ", axis), "moving": HEAD + row})

    (problem,) = told(found)
    assert problem.severity is Severity.NOTE
    assert problem.found == f"nothing is worked out from the stops of dial: {why}"


def test_positions_beyond_the_stops_are_asked_about(resolved):
    """It cannot be worked out where its stops do not let it go, without a word."""
    found = resolved({"assemblies": SIGN.replace("12 deg", "20 deg"), "moving": GIVEN})

    (problem,) = told(found)
    assert problem.severity is Severity.QUESTION
    assert problem.found == (
        "dial is worked out from -20 deg to 20 deg, but its stops stand at -12 deg and 12 deg"
    )
    assert problem.advice == "look at from and to on the assemblies sheet"


def test_stops_of_what_does_not_move_are_not_kept(resolved):
    """The sheet already says that it is no mover."""
    still = "assembly | moves\ndial | fixed"
    found = resolved({"assemblies": still, "moving": GIVEN})

    (problem,) = told(found)
    assert problem.found == '"dial" is not an assembly that turns or slides'
    assert found.stops == {}
