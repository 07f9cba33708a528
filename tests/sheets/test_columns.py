"""The tables of headings hold together."""

import math

import pytest

from estimator.core.units import KINDS, unit_named
from estimator.sheets.columns import FORMS, Reads, field_of
from estimator.sheets.facts import JOB_FACTS

COLUMNS = [
    pytest.param(form, column, id=f"{form.sheet}-{column.field}")
    for form in FORMS.values()
    for column in form.columns
]
FACTS = [pytest.param(None, fact.column, id=item) for item, fact in JOB_FACTS.items()]
MEASURED = {
    Reads.QUANTITY, Reads.SIZE, Reads.SHARE, Reads.AMOUNT, Reads.LAYER, Reads.STOCK_SIZE,
}  # fmt: skip


def test_sheets_come_in_the_order_a_job_is_thought_about():
    """The order is the order of the problems a person is shown."""
    assert list(FORMS) == [
        "job", "limits", "assemblies", "parts", "build-ups", "maquette", "brackets", "moving",
        "extra loads", "answers", "stock", "rack", "hours", "rates", "costs", "quotes", "weighed",
        "timesheet",
    ]  # fmt: skip


@pytest.mark.parametrize("form", FORMS.values(), ids=FORMS)
def test_every_sheet_has_option_note_and_no_heading_twice(form):
    """A field says which column is meant, so it must be the only one of its name."""
    fields = [column.field for column in form.columns]

    assert len(fields) == len(set(fields))
    assert fields[0] == "option"
    assert fields[-1] == "note"
    assert form.names in fields


@pytest.mark.parametrize(("form", "column"), COLUMNS)
def test_a_column_says_enough_to_be_read_and_filled_in(form, column):
    """Kinds exist, units belong to them, and choices stand where something is chosen."""
    kinds = [KINDS[kind] for kind in column.kinds]

    assert column.words or column.reads is Reads.TEXT
    assert bool(column.choices) == (column.reads is Reads.CHOICE)
    assert (column.reads in MEASURED) == bool(kinds)
    assert all(unit_named(unit, kinds[0]) for unit in (column.unit, column.bare) if unit)
    assert set(column.unless) <= {other.field for other in form.columns}


@pytest.mark.parametrize(("_form", "column"), [*COLUMNS, *FACTS])
def test_a_plain_number_has_an_end(_form, column):
    """No unit tells a slip of the hand there, so the column must."""
    most = {Reads.MONEY: 1e9, Reads.COUNT: 1e5, Reads.NUMBER: 1e6}

    assert column.at_most <= most.get(column.reads, math.inf)
    assert column.at_least >= 0 or column.reads not in most


@pytest.mark.parametrize("heading", ["Build-up", " build up ", "BUILD_UP", "build  up"])
def test_a_heading_is_known_however_it_is_spaced(heading):
    """Case, hyphens and spaces do not make another heading."""
    assert field_of(heading) == "build_up"
