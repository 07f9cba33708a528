"""Sections: from the table when it has them, in closed form when it has not."""

import pytest

from estimator.reference.sections import STEEL_KG_M3, closed_form, find_section

NAMED = [
    ("SHS 60x60x4", "SHS 60x60x4"),
    ("shs 60 x 4", "SHS 60x60x4"),
    ("RHS 50x100x4", "RHS 100x50x4"),
    ("flat 6 \N{MULTIPLICATION SIGN} 50 mm", "Flat 50x6"),
    ("flat bar 50x6", "Flat 50x6"),
    ("Round 20", "Round 20"),
    ("angle 50x50x5", "L 50x50x5"),
    ("UPN 100", "UPN 100"),
]
DRAWN = ["flat 55x6", "round 21", "CHS 48.3x3.2", "SHS 65x65x4", "RHS 120x60x5"]
NONE = [
    "UPN 110",
    "SHS 60x50x4",
    "SHS 60",
    "flat 50x6x4",
    "CHS 20x12",
    "flat 0x6",
    "round 5000",
    "SHS 20x20x9",
    "flat 5..0x6",
    "girder",
]


@pytest.mark.parametrize(("typed", "key"), NAMED)
def test_a_section_of_the_table_is_taken_from_it(library, typed, key):
    """Order of the sizes, spaces and the sign between them do not matter."""
    section = find_section(library, typed)

    assert section.key == key
    assert section.checked == "quoted"


@pytest.mark.parametrize("typed", DRAWN)
def test_any_other_size_is_drawn(library, typed):
    """The source says that it is closed form, and mass is area x steel."""
    section = find_section(library, typed)

    assert (section.source, section.it_basis, section.standard) == ("geometry", "closed form", "")
    assert section.mass_kg_m == pytest.approx(section.area_m2 * STEEL_KG_M3)
    assert section.wel_y_m3 == pytest.approx(2 * section.iy_m4 / section.height_m)


@pytest.mark.parametrize("typed", NONE)
def test_what_cannot_be_made_is_a_miss(library, typed):
    """A wall that fills the hole, a square with unequal sides, a size of five metres."""
    assert find_section(library, typed).table == "sections"


def test_a_miss_shows_mass_to_choose_by(library):
    """The nearest names come first."""
    assert "UPN 100 (10.6 kg/m)" in find_section(library, "UPN 110").choices


def test_the_table_and_the_closed_form_agree(library):
    """Hollow sections and bars of the table, within 0.8 % where three figures are printed."""
    rows = [row for row in library.table("sections").rows if closed_form(row.key)]

    assert len(rows) == 97
    for row in rows:
        table, drawn = find_section(library, row.key), closed_form(row.key)
        for name in ("area_m2", "iy_m4", "iz_m4", "it_m4", "wel_y_m3", "wel_z_m3", "mass_kg_m"):
            assert getattr(drawn, name) == pytest.approx(getattr(table, name), rel=0.008), (
                row.key,
                name,
            )


def test_an_open_section_says_its_torsion_is_an_estimate(library):
    """Thin walls summed, without the fillets that stiffen it."""
    assert find_section(library, "UPN 100").it_basis == "thin-wall estimate"


@pytest.mark.parametrize(
    ("typed", "key", "made"),
    [
        ("HFSHS 60x60x4", "HFSHS 60x60x4", "hot-finished"),
        ("hot-finished shs 60x60x4", "HFSHS 60x60x4", "hot-finished"),
        ("HFRHS 120x60x5", "HFRHS 120x60x5", "hot-finished"),
        ("CFSHS 60x60x4", "SHS 60x60x4", "cold-formed"),
        ("cold-formed CHS 50x3", "CHS 50x3", "cold-formed"),
        ("stainless CHS 42.4x2", "ISO 1127 tube 42.4x2", "welded"),
        ("UPN 100", "UPN 100", "hot-rolled"),
    ],
)
def test_hot_finished_and_cold_formed_are_told_apart(library, typed, key, made):
    """By the letters the trade puts before, or in words."""
    section = find_section(library, typed)

    assert (section.key, section.made) == (key, made)


def test_a_hot_finished_corner_is_sharper():
    """So a hot-finished section of the same sizes has more metal."""
    hot, cold = (closed_form(f"{how} 65x65x4") for how in ("HFSHS", "CFSHS"))

    assert hot.area_m2 > cold.area_m2
    assert "EN 10210-2" in hot.locator
    assert "EN 10219-2" in cold.locator
