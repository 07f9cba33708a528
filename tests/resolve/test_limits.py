"""How little the end of an arm may move: as typed, or the usual."""

import pytest


@pytest.mark.parametrize("typed", ["1:250", "L/250", "l / 250", "1/250", "250"])
def test_a_limit_as_it_is_typed(resolved, typed):
    """The ratio of the reach, however it is written."""
    found = resolved({"job": f"item | value | source\nsag limit | {typed} | the engineer"})

    assert (found.sag_limit.over, found.sag_limit.source) == (250.0, "the engineer")


def test_the_usual_limit(resolved):
    """L/180, with who says so."""
    found = resolved({})

    assert found.sag_limit.over == 180.0
    assert "BS 5950-1:2000 Table 8" in found.sag_limit.source


@pytest.mark.parametrize("typed", ["5 mm", "L/0", "none"])
def test_a_limit_that_cannot_be_read(resolved, said, typed):
    """It is asked about, and the usual one used."""
    found = resolved({"job": f"item | value\nsag limit | {typed}"})

    assert found.sag_limit.over == 180.0
    assert said(found, "question").endswith(
        f'job!B2: "{typed}" is not a ratio of the reach; L/180 was used\n'
        "    wanted: L/180 or 1:180\n"
        "    ask the engineer, and say who said so"
    )
