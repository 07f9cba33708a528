"""The whole job resolved: drives, loads from elsewhere, sheets still unused, order of problems."""

import math

import pytest

from estimator.core.problems import Severity
from estimator.resolve.job import COLUMNS_NOT_USED_YET, NOT_USED_YET
from estimator.sheets.columns import FORMS

MOVER = {"assemblies": "assembly | moves\ndial | \nhand | turns"}


def test_a_drive_keeps_what_was_said(resolved):
    """Figures in SI, and a twist that somebody gave is not assumed."""
    found = resolved(MOVER | {
        "moving": "assembly | drive torque | drive weight | drum | falls | counterweight part "
        "| radius | blade twist\nhand | 40 Nm | 12 kg | 200 mm | 2 | W1 | 500 mm | 3"
    })  # fmt: skip
    drive = found.drives["hand"]

    assert (drive.drive_torque_nm, drive.drive_mass_kg, drive.drum_m, drive.falls) == (
        40.0, 12.0, 0.2, 2.0
    )  # fmt: skip
    assert (drive.counterweight, drive.radius_m) == ("W1", 0.5)
    assert drive.twist_rad == pytest.approx(math.radians(3))
    assert not drive.twist_assumed


def test_a_blade_is_taken_to_be_a_little_out_of_flat(resolved):
    """Two degrees, marked assumed; one fall of line; nothing else stands in for a blank."""
    drive = resolved(MOVER | {"moving": "assembly\nhand"}).drives["hand"]

    assert drive.twist_rad == pytest.approx(math.radians(2))
    assert drive.twist_assumed
    assert (drive.falls, drive.counterweight) == (1.0, "")
    assert all(map(math.isnan, (drive.drive_torque_nm, drive.drive_mass_kg, drive.drum_m,
                                drive.radius_m)))  # fmt: skip


@pytest.mark.parametrize(("sheets", "choices"), [(MOVER, "hand"), ({}, "none there yet")])
def test_only_a_mover_is_driven(resolved, said, sheets, choices):
    """An assembly that is fixed has no drive."""
    found = resolved(sheets | {"moving": "assembly\ndial"})

    assert said(found, "refused") == (
        'moving!A2 (dial): "dial" is not an assembly that turns or slides\n'
        "    wanted: an assembly that turns or slides\n"
        f"    type one of: {choices}"
    )
    assert found.drives == {}


DIRECTIONS = [
    ("", (0, -1, 0)),
    ("down", (0, -1, 0)),
    ("up", (0, 1, 0)),
    ("in", (0, 0, -1)),
    ("out", (0, 0, 1)),
    ("left", (-1, 0, 0)),
    ("right", (1, 0, 0)),
]


@pytest.mark.parametrize(("direction", "towards"), DIRECTIONS)
def test_an_extra_load_acts_the_way_it_is_said(resolved, direction, towards):
    """Across is to the right, out is towards the street; down when nothing is said."""
    found = resolved({
        "extra loads": "load | assembly | force | direction | across | up | out | cause | source\n"
        f"ladder | dial | 1.5 kN | {direction} | 1 m | 2 m | 3 m | person | the rigger"
    })  # fmt: skip
    (load,) = found.extra_loads

    assert load.force_n == pytest.approx([1500 * way for way in towards])
    assert (load.key, load.assembly, load.cause) == ("ladder", "dial", "person")
    assert (load.at_m, load.source) == ((1.0, 2.0, 3.0), "the rigger")


def test_a_mass_bears_with_its_weight(resolved):
    """Mass times standard gravity, 9.80665 m/s2, downwards, at the assembly's origin."""
    found = resolved({"extra loads": "load | assembly | mass | cause\nsnow | dial | 100 kg | snow"})
    (load,) = found.extra_loads

    assert load.force_n == pytest.approx((0.0, -980.665, 0.0))
    assert (load.cause, load.at_m, load.source) == ("snow", (0.0,) * 3, "extra loads!A2")


def test_a_load_on_nothing_is_refused(resolved, said):
    """It would be lost."""
    found = resolved({"extra loads": "load | assembly | force\nladder | dail | 1 kN"})

    assert said(found, "refused") == (
        'extra loads!B2 (ladder): "dail" is not an assembly of this workbook\n'
        "    wanted: an assembly of this workbook\n"
        "    type one of: dial"
    )
    assert found.extra_loads == ()


UNUSED = {
    "limits": "limit | value\nheadroom | 2.5 m",
    "timesheet": "activity | hours | date\nbeating | 3 | 2026-03-04",
    "rack": "material | form | size | count\ncopper | sheet | 1 x 1 m | 2",
}


@pytest.mark.parametrize("sheet", UNUSED)
def test_a_sheet_that_is_not_worked_with_yet_is_noted(resolved, said, sheet):
    """Whoever filled it in must not think that it counted."""
    found = resolved({sheet: UNUSED[sheet]})

    assert said(found, "note") == (
        f"{sheet}: {NOT_USED_YET[sheet]}; rows read: 1\n"
        "    the figures are as if the sheet were empty"
    )
    assert found.complete


def test_limits_are_said_to_be_compared_with_nothing(resolved, said):
    """Whoever typed a headroom must not think that somebody looks after it."""
    found = resolved({"limits": UNUSED["limits"]})

    assert "limits: nothing is compared with these limits yet; rows read: 1" in said(found, "note")


def test_friction_is_said_to_be_left_out(resolved, said):
    """The torque at the axle is more with it."""
    found = resolved(MOVER | {"moving": "assembly | friction\nhand | 10 %"})

    assert said(found, "note") == (
        "moving!B: nothing is worked out from `friction` yet; rows that fill it: 1\n"
        "    friction is left out of the torque"
    )


@pytest.mark.parametrize("sheet", COLUMNS_NOT_USED_YET)
def test_columns_not_worked_with_are_columns_of_their_sheet(sheet):
    """A slip in a name would leave the maker unwarned."""
    known = {column.field for column in FORMS[sheet].columns}

    assert known.issuperset(COLUMNS_NOT_USED_YET[sheet])


EVERYTHING_WRONG = {
    "parts": """
        part | assembly | count | shape | made of | gauge | diameter
        D1   | dial     | 1     | disc  | coper   | 1 mm  | 1 m
        D2   | dail     | 1     | disc  | coper   | 18    |
        """,
    "brackets": "bracket | set | across | up\nB1 | main | 0 mm | 0 mm",
    "build-ups": "build-up | layer | material | over | amount\nskin | x | coper | solid | 1 mm",
    "assemblies": "assembly | mounted on\ndial | sky",
    "stock": "material | form | size | price\ncoper | sheet | 1 x 1 m | 5",
    "job": "item | value\nwind rule | ASCE 7-22\ntitel | x",
}


def test_problems_stand_in_the_order_of_the_workbook(resolved):
    """By sheet, then row, then column; each once, those of reading among those of resolving."""
    found = resolved(EVERYTHING_WRONG)

    sheets = ["job", "assemblies", "parts", "build-ups", "brackets", "stock"]
    places = [(sheets.index(p.cell.sheet), p.cell.row, p.cell.column) for p in found.problems]
    assert places == sorted(places)
    assert len(set(found.problems)) == len(found.problems)
    assert {p.cell.sheet for p in found.problems} == set(sheets) - {"build-ups"}


def test_a_refused_row_makes_the_result_incomplete(resolved):
    """A question or a note does not."""
    whole = resolved({"timesheet": UNUSED["timesheet"]})

    assert {p.severity for p in whole.problems} == {Severity.QUESTION, Severity.NOTE}
    assert whole.complete
    assert not resolved(EVERYTHING_WRONG).complete


def test_a_job_keeps_what_it_was_resolved_from(resolved, library):
    """The option and the tables go with the result."""
    found = resolved({})

    assert found.library is library
    assert found.chosen.option == ""
    assert found.job.read["parts"] == 1
