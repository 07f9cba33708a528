"""Rows: matching of names, units of headings, citations in words."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.reference.rows import Citation, Table, TableRow, fold, unit_factor

CITATION = Citation("S", "A standard, 2016", "Table 1", "quoted")


def row(key="k", **cells):
    """Return a row with the given cells."""
    return TableRow("things", key, {"key": key, **cells}, CITATION)


@pytest.mark.parametrize(
    "typed", ["SWG 18", "swg18", "Swg-18", " SWG  18 ", "swg_18", "SWG\u00a018", "SWG\u201318"]
)
def test_names_match_without_case_spaces_and_hyphens(typed):
    """Every way of writing it folds to one word, non-breaking spaces and dashes included."""
    assert fold(typed) == "swg18"


def test_a_multiplication_sign_matches_an_x():
    """Sizes pasted from a catalogue carry the sign, sizes typed the letter."""
    assert fold("50 \N{MULTIPLICATION SIGN} 6") == fold("50x6")


@given(st.text())
def test_folding_twice_changes_nothing(text):
    """A folded word is its own fold, so that an index may be asked with either."""
    assert fold(fold(text)) == fold(text)


@pytest.mark.parametrize(
    ("heading", "factor"),
    [
        ("thickness_mm", 1e-3),
        ("area_mm2", 1e-6),
        ("iy_mm4", 1e-12),
        ("density_kg_m3", 1.0),
        ("mass_kg_m", 1.0),
        ("mean_g_m2", 1e-3),
        ("nut_g", 1e-3),
        ("expansion_1e-6_per_k", 1e-6),
        ("yield_mpa", 1e6),
        ("tolerance_pct", 0.01),
        ("low", 1.0),
        ("name", None),
        ("used_for", None),
    ],
)
def test_the_ending_of_a_heading_is_its_unit(heading, factor):
    """The longest ending counts: g/m2 is not g, kg/m is not m."""
    assert unit_factor(heading) == factor


def test_a_number_is_read_in_si():
    """A blank is None, not zero."""
    found = row(thickness_mm="1.5", width_mm="")

    assert found.si("thickness_mm") == pytest.approx(0.0015, rel=1e-12)
    assert found.si("width_mm") is None
    assert found.need("width_mm", 2.0) == 2.0


def test_a_number_that_must_be_there_is_named():
    """The message names key, table and heading."""
    with pytest.raises(ValueError, match=r"'k' in tables/things.csv has no width_mm"):
        row(width_mm="").need("width_mm")


def test_a_column_of_words_holds_no_number():
    """Asking for one is a slip in the program, and says so."""
    with pytest.raises(KeyError, match="names no unit"):
        row(name="copper").si("name")


def test_a_cell_of_several_words_is_split():
    """Semicolons part them; empty ones are dropped."""
    assert row(alias=" a; b;;").words("alias") == ("a", "b")


@pytest.mark.parametrize(
    ("citation", "printed"),
    [
        (CITATION, "A standard, 2016, Table 1 (as quoted)"),
        (Citation("S", "A standard", "", "document"), "A standard"),
        (Citation("S", "My scales", "", "memory", own=True), "My scales (from memory) [own table]"),
    ],
)
def test_a_citation_says_how_sure_it_is(citation, printed):
    """What was not read in the document itself says so wherever it is printed."""
    assert str(citation) == printed


def test_a_table_is_found_in_by_key_name_and_alias():
    """An alias of two rows leads to both."""
    first, second = row("a", alias="both", name="Long a"), row("b", alias="both", name="")
    table = Table("things", (first, second))

    assert table.by_key == {"a": first, "b": second}
    assert table.by_alias["longa"] == (first,)
    assert table.by_alias["both"] == (first, second)
