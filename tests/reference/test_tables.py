"""The tables as they are shipped: every row cited, numbers that are numbers, pairs that agree.

A standard prints some facts twice: a thickness and a mass, an area and a mass per metre. Both are
kept and compared here, so that a slip of the keyboard in one of them is found.
"""

from math import pi

import pytest

from estimator.reference.library import Library, tables_dir
from estimator.reference.reading import CHECKED, NEEDED_NUMBERS, SOURCES, read_table
from estimator.reference.rows import fold, unit_factor

LIBRARY = Library()
TABLES = [name for name in LIBRARY.names if name != SOURCES]
STEEL_KG_M3 = 7850
COPPER_KG_M3 = 8930
LEAD_KG_M3 = 11340

ON_PURPOSE = {
    "brass": 4,
    "concrete": 2,
    "iron": 2,
    "larch": 2,
    "limestone": 2,
    "marineply": 2,
    "marineplywood": 2,
    "oak": 2,
    "pine": 3,
    "plywood": 4,
    "polystyrene": 2,
    "solder": 2,
    "stainless": 3,
    "stainlesssteel": 3,
    "zinc": 2,
    "bandsaw": 2,
    "hammered": 3,
    "beaten": 3,
}
"""Names that belong to several rows because the trade's own word does."""


def rows(name):
    """Return the rows of a shipped table."""
    return LIBRARY.table(name).rows


def worded(name):
    """Return the rows of a table with their key, for messages."""
    return [pytest.param(row, id=row.key) for row in rows(name)]


@pytest.mark.parametrize("name", TABLES)
def test_every_row_is_cited(name):
    """Source in the table of sources, locator and degree of checking never blank."""
    for row in rows(name):
        assert row.citation.source in LIBRARY.documents(), row.key
        assert row.citation.locator, row.key
        assert row.text("checked") in CHECKED, row.key


@pytest.mark.parametrize("name", TABLES)
def test_memory_is_marked(name):
    """What rests on no document at all cannot be marked as quoted from one."""
    for row in rows(name):
        if row.citation.source == "general":
            assert row.citation.checked == "memory", row.key


@pytest.mark.parametrize("name", TABLES)
def test_every_row_of_a_file_is_used(name):
    """No row is lost on the way from the file to the table, and keys are unique."""
    raw = read_table(tables_dir() / f"{name}.csv")

    assert len(raw.rows) == len(rows(name)) == len({fold(row.key) for row in rows(name)})
    assert raw.problems == ()


@pytest.mark.parametrize("name", TABLES)
def test_columns_of_numbers_say_their_unit(name):
    """A column whose cells are all numbers has a unit in its heading, save names of sizes."""
    names = {"key", "number", "code", "swg"}
    for heading in rows(name)[0].cells:
        texts = [row.text(heading) for row in rows(name) if row.text(heading)]
        if texts and heading not in names and unit_factor(heading) is None:
            assert not all(text.replace(".", "", 1).isdigit() for text in texts), heading


def test_needed_numbers_are_columns():
    """Every column that a table cannot do without is there."""
    for name, headings in NEEDED_NUMBERS.items():
        assert set(headings) <= set(rows(name)[0].cells), name


def test_every_document_is_cited_by_a_row():
    """The table of sources holds nothing that no figure rests on."""
    cited = {row.citation.source for name in TABLES for row in rows(name)}

    assert set(LIBRARY.documents()) == cited


@pytest.mark.parametrize("name", TABLES)
def test_aliases_lead_to_one_row_or_are_shared_on_purpose(name):
    """An alias typed twice by mistake would turn a plain name into a question."""
    table = LIBRARY.table(name)
    shared = {
        word: len(found)
        for word, found in table.by_alias.items()
        if len(found) > 1 and word not in table.by_key
    }

    assert shared.items() <= ON_PURPOSE.items()


def test_no_table_has_a_price():
    """Prices are the maker's to enter, with a date."""
    assert not [heading for name in TABLES for heading in rows(name)[0].cells if "price" in heading]


@pytest.mark.parametrize("row", worded("lead_sheet"))
def test_lead_weighs_what_its_thickness_says(row):
    """Mass as sold against thickness x 11340, to 0.1 %: three figures are printed."""
    assert row.need("surface_kg_m2") == pytest.approx(
        row.need("thickness_mm") * LEAD_KG_M3, rel=0.001
    )
    assert row.need("thickness_low_mm") < row.need("thickness_high_mm") == row.need("thickness_mm")


@pytest.mark.parametrize("row", worded("copper_ounces"))
def test_ounces_weigh_by_definition(row):
    """Ounces per square foot against kg/m2 to 0.02 %, and thickness at 8930 to half a micron."""
    assert row.need("surface_kg_m2") == pytest.approx(row.need("surface_oz_ft2"), rel=2e-4)
    assert row.need("thickness_mm") == pytest.approx(
        row.need("surface_kg_m2") / COPPER_KG_M3, abs=0.6e-6
    )


@pytest.mark.parametrize("row", worded("gauges"))
def test_inches_and_millimetres_of_a_gauge_agree(row):
    """Within the rounding of whichever was printed with fewer figures: 0.005 mm."""
    assert row.need("thickness_in") == pytest.approx(row.need("thickness_mm"), abs=0.005e-3)
    assert row.key == f"{row.text('system')} {row.text('number')}"


@pytest.mark.parametrize("system", [row for row in rows("gauge_systems") if row.key != "typed"])
def test_a_gauge_runs_one_way(system):
    """Numbers go up as the table says: thinner, or for zinc, lead and ounces thicker."""
    held = [row for row in rows(system.text("holds")) if row.text("system") == system.key]
    thickness = [row.need("thickness_mm") for row in held]

    assert thickness == sorted(thickness, reverse=system.text("number_rises") == "thinner")
    assert len(held) > 5


@pytest.mark.parametrize("row", worded("galvanizing"))
def test_zinc_weighs_7_2_grams_a_micron(row):
    """The standard rounds to 5 g/m2, so 1 % of the thinnest is all the pair can show."""
    for end in ("local", "mean"):
        assert row.need(f"{end}_g_m2") == pytest.approx(7200 * row.need(f"{end}_um"), rel=0.01)


@pytest.mark.parametrize("row", worded("sections"))
def test_area_mass_and_radii_of_a_section_agree(row):
    """Printed with three figures: mass per metre within 0.8 %, radii of gyration within 1 %."""
    area_m2 = row.need("area_mm2")

    assert row.need("mass_kg_m") == pytest.approx(area_m2 * STEEL_KG_M3, rel=0.008)
    for axis in "yz":
        assert row.need(f"i{axis}_mm4") == pytest.approx(
            area_m2 * row.need(f"radius_{axis}_mm") ** 2, rel=0.015
        )


@pytest.mark.parametrize("row", worded("sections"))
def test_modulus_and_inertia_of_a_section_agree(row):
    """W = I / distance of the far edge: half the height, or for angles height less centroid."""
    edge_m = row.need("height_mm") / 2
    if row.text("family") == "L":
        edge_m = row.need("height_mm") - row.need("centroid_mm")

    assert row.need("wel_y_mm3") == pytest.approx(row.need("iy_mm4") / edge_m, rel=0.01)


@pytest.mark.parametrize("row", worded("bolts"))
def test_bolts_weigh_what_their_threads_measure(row):
    """Stress area (pi/4)(d - 0.9382 P)2 and rod as the pitch cylinder, ISO 898-1 (from memory)."""
    d_m, pitch_m = row.need("diameter_mm"), row.need("pitch_mm")

    assert row.need("stress_area_mm2") == pytest.approx(
        pi / 4 * (d_m - 0.9382 * pitch_m) ** 2, rel=0.003
    )
    assert row.need("rod_kg_m") == pytest.approx(
        pi / 4 * (d_m - 0.6495 * pitch_m) ** 2 * STEEL_KG_M3, rel=0.004
    )
    assert row.need("shank_kg_m") == pytest.approx(pi / 4 * d_m**2 * STEEL_KG_M3, rel=0.003)


def test_timber_classes_rise():
    """Within softwoods and hardwoods a higher class is heavier and stiffer."""
    for family, first in (("softwood", "C"), ("hardwood", "D")):
        classes = [
            row
            for row in rows("materials")
            if row.citation.source == "EN 338" and row.text("family") == family
        ]
        assert all(row.key.startswith(first) for row in classes)
        for heading in ("density_kg_m3", "density_low_kg_m3", "youngs_modulus_low_gpa"):
            values = [row.need(heading) for row in classes]
            assert values == sorted(values), heading


def test_films_and_masses_of_paint_agree():
    """Film x a dry density between 1 and 4 kg/L for every coat whose film is in the table.

    Gold is denser; the patina of decades is 3.9; zinc spray and galvanizing are metal.
    """
    metal = {"gold leaf", "galvanised", "zinc spray", "patina"}
    for row in rows("finishes"):
        film_m = row.si("film_high_um")
        if film_m and row.key not in metal:
            assert 900 <= row.need("dry_mass_high_kg_m2") / film_m <= 4000, row.key
