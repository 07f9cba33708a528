"""Materials: what a skin, core or bar weighs, and how it stretches with heat."""

from dataclasses import dataclass

from estimator.reference.finding import Miss, find_row
from estimator.reference.library import Library
from estimator.reference.rows import Cited, TableRow


@dataclass(frozen=True, slots=True, kw_only=True)
class Material(Cited):
    """A material in SI units.

    Attributes:
        key: What the table calls it.
        name: Its full name.
        group: metal, timber, board, stone, polymer, sheet goods, liquid, ...
        family: Materials that are bought and kept alike: copper, steel, softwood, ...
        density_kg_m3: Likely density.
        density_low_kg_m3: Lower end of the published band.
        density_high_kg_m3: Upper end.
        youngs_modulus_low_pa: Lower end, None when the table has none.
        youngs_modulus_high_pa: Upper end.
        expansion_per_k: Linear thermal expansion.
        moisture: Moisture fraction of dry mass at which the density holds, for timber.
        gauge_system: System that a bare gauge number means for it; empty when there is none.
    """

    key: str
    name: str
    group: str
    family: str
    density_kg_m3: float
    density_low_kg_m3: float
    density_high_kg_m3: float
    youngs_modulus_low_pa: float | None = None
    youngs_modulus_high_pa: float | None = None
    expansion_per_k: float | None = None
    moisture: float | None = None
    gauge_system: str = ""


def find_material(library: Library, text: str) -> Material | Miss:
    """Return the material that goes by a name, or why there is none."""
    row = find_row(library.table("materials"), text, _choice)
    return row if isinstance(row, Miss) else _material(row)


def _choice(row: TableRow) -> str:
    return f"{row.key} ({row.need('density_kg_m3'):g} kg/m3)"


def _material(row: TableRow) -> Material:
    density_kg_m3 = row.need("density_kg_m3")
    return Material(
        citation=row.citation,
        key=row.key,
        name=row.text("name") or row.key,
        group=row.text("group"),
        family=row.text("family") or row.key,
        density_kg_m3=density_kg_m3,
        density_low_kg_m3=row.need("density_low_kg_m3", density_kg_m3),
        density_high_kg_m3=row.need("density_high_kg_m3", density_kg_m3),
        youngs_modulus_low_pa=row.si("youngs_modulus_low_gpa"),
        youngs_modulus_high_pa=row.si("youngs_modulus_high_gpa"),
        expansion_per_k=row.si("expansion_1e-6_per_k"),
        moisture=row.si("moisture_pct"),
        gauge_system=row.text("gauge_system"),
    )
