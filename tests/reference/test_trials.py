"""Trials: which sections of the table are tried, and in which order."""

import pytest

from estimator.reference.trials import is_trial, trial_sections


@pytest.mark.parametrize(("typed", "is_one"), [
    ("trial", True), ("Trial SHS", True), ("SHS 60x60x4", False), ("trials", False), ("", False),
])  # fmt: skip
def test_what_a_trial_is(typed, is_one):
    """The word comes first."""
    assert is_trial(typed) is is_one


@pytest.mark.parametrize(("typed", "families", "made"), [
    ("trial", {"SHS", "RHS", "CHS"}, {"hot-finished", "cold-formed"}),
    ("trial SHS", {"SHS"}, {"hot-finished", "cold-formed"}),
    ("TRIAL hot-finished", {"SHS", "RHS", "CHS"}, {"hot-finished"}),
    ("trial HFRHS", {"RHS"}, {"hot-finished"}),
    ("trial CFCHS", {"CHS"}, {"cold-formed"}),
    ("trial flat", {"Flat"}, {"hot-rolled"}),
    ("trial L", {"L"}, {"hot-rolled"}),
])  # fmt: skip
def test_families_that_are_wanted(library, typed, families, made):
    """Lightest first, of no other family and in no other way of making."""
    found = trial_sections(library, typed, "steel")
    areas = [section.area_m2 for section in found]

    assert ({one.family for one in found}, {one.made for one in found}) == (families, made)
    assert areas == sorted(areas)


def test_stainless_has_tubes_of_its_own(library):
    """Round tubes of EN ISO 1127, and never a hot-finished section."""
    found = trial_sections(library, "trial", "stainless")

    assert {one.standard for one in found} == {"EN ISO 1127", "EN 10219-2"}
    assert {one.standard for one in found if one.family == "CHS"} == {"EN ISO 1127"}


def test_a_family_nobody_knows(library):
    """It is asked about."""
    assert trial_sections(library, "trial girders", "steel") == ()
