"""Factors of combination rules and constants of terrain: numbers a rule module is handed."""

from collections.abc import Mapping
from dataclasses import dataclass

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


def _factor(row: TableRow) -> Factor:
    return Factor(
        citation=row.citation,
        symbol=row.text("symbol"),
        annex=row.text("annex"),
        value=row.need("value_ratio"),
    )
