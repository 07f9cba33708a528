"""The items of the job sheet hold together."""

import math

import pytest

from estimator.core.units import KINDS
from estimator.sheets.columns import Reads
from estimator.sheets.converters import reader
from estimator.sheets.facts import JOB_FACTS

NOTHING_STANDS_IN = ["basic_wind_speed", "datum_height", "wall_faces", "stated_pressure"]


@pytest.mark.parametrize("fact", JOB_FACTS.values(), ids=JOB_FACTS)
def test_a_fact_says_why_it_matters_and_can_be_read(fact):
    """Each can be listed under what has not been said, and each has a reader."""
    assert fact.why
    assert all(kind in KINDS for kind in fact.column.kinds)
    assert callable(reader(fact.column))


@pytest.mark.parametrize("fact", JOB_FACTS.values(), ids=JOB_FACTS)
def test_a_default_is_a_value_its_own_column_allows(fact):
    """A default that the sheet would refuse would be a contradiction."""
    column, default = fact.column, fact.default
    if default is None:
        return

    assert isinstance(default, str) == (column.reads in {Reads.TEXT, Reads.CHOICE})
    assert not column.choices or default in column.choices
    assert isinstance(default, str) or (math.isfinite(default) and default >= column.at_least)


@pytest.mark.parametrize("item", NOTHING_STANDS_IN)
def test_nothing_is_assumed_where_a_guess_would_be_dangerous(item):
    """Wind speed, height and orientation have no stand-in."""
    assert JOB_FACTS[item].default is None
