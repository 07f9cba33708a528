"""Factors of combination rules and constants of terrain: numbers a rule module is handed."""

from collections.abc import Mapping
from dataclasses import dataclass

from estimator.reference.finding import Miss, find_row
from estimator.reference.library import Library
from estimator.reference.rows import Cited, TableRow

RECOMMENDED = "recommended"
"""Values the Eurocode itself recommends, before any national annex."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Factor(Cited):
    """A partial or combination factor.

    Attributes:
        symbol: "gamma_g_sup", "psi0 wind", "xi", ...
        annex: `recommended`, or the national annex it comes from.
        value: The factor.
    """

    symbol: str
    annex: str
    value: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Terrain(Cited):
    """A terrain category.

    Attributes:
        key: "0", "I", "II", "III" or "IV".
        name: What it looks like.
        roughness_length_m: z0.
        min_height_m: z_min.
    """

    key: str
    name: str
    roughness_length_m: float
    min_height_m: float


def factors(library: Library, annex: str = RECOMMENDED) -> Mapping[str, Factor]:
    """Return the factors by symbol, a national annex's own in place of the recommended ones.

    Raises:
        KeyError: The table has no factor of that annex.
    """
    rows = library.table("psi_and_gamma").rows
    annexes = {row.text("annex") for row in rows}
    if annex not in annexes:
        msg = f"no annex {annex!r} in tables/psi_and_gamma.csv; there are {sorted(annexes)}"
        raise KeyError(msg)
    layers = (RECOMMENDED, annex)
    return {
        row.text("symbol"): _factor(row) for a in layers for row in rows if row.text("annex") == a
    }


def find_terrain(library: Library, text: str) -> Terrain | Miss:
    """Return a terrain category, or why there is none."""
    row = find_row(library.table("terrain"), text, _choice)
    if isinstance(row, Miss):
        return row
    return Terrain(
        citation=row.citation,
        key=row.key,
        name=row.text("name"),
        roughness_length_m=row.need("roughness_length_m"),
        min_height_m=row.need("min_height_m"),
    )


def _choice(row: TableRow) -> str:
    return f"{row.key} ({row.text('name')})"


def _factor(row: TableRow) -> Factor:
    return Factor(
        citation=row.citation,
        symbol=row.text("symbol"),
        annex=row.text("annex"),
        value=row.need("value_ratio"),
    )
