"""How loads are combined: rows and sentences of one section of the page."""

from collections.abc import Iterable
from typing import Any, NamedTuple

from estimator.reports import figures, selection
from estimator.reports.document import Document

SYMBOLS = {
    "gamma_g_sup": "gamma_G on weight that is unfavourable",
    "gamma_g_inf": "gamma_G on weight that is favourable",
    "gamma_q": "gamma_Q on variable actions",
    "xi": "xi on gamma_G in 6.10b",
    "gamma_g_sup_equ": "gamma_G on weight that tips, equilibrium",
    "gamma_g_inf_equ": "gamma_G on weight that holds, equilibrium",
    "gamma_q_equ": "gamma_Q on variable actions, equilibrium",
}
"""What the factors of the document are called in print."""
CHECKED = {
    "document": "",
    "quoted": ", as quoted elsewhere",
    "memory": ", from memory: to be checked",
}
KINDS = {
    "strength": "strength",
    "equilibrium": "equilibrium",
    "service": "movement, nothing factored",
}
ALLOWABLE = {"strength": "allowable stress"}
"""What such a combination is for by a rule of allowable stress."""


class Line(NamedTuple):
    """One expression, with a cell for each variable action."""

    name: str
    kind: str
    permanent: str
    factors: tuple[str, ...]
    clause: str


def context(document: Document) -> dict[str, Any]:
    """Return what the section is printed from."""
    combined = document["combinations"]
    return {
        "factors": [factor(row) for row in combined["factors"]],
        "combined": lines(combined),
        "weighing": weights(combined),
        "burdening": burdens(document["burdens"]),
    }


def factor(row: Document) -> tuple[str, str, str]:
    """Return a factor as printed: what it is, its value, and where it is from."""
    kind, _, action = row["symbol"].partition(" ")
    seen = CHECKED.get(row["checked"], f", {row['checked']}")
    words = SYMBOLS.get(row["symbol"], f"psi_0 of {action}" if kind == "psi0" else row["symbol"])
    return words, f"{row['value']:g}", f"{row['source']}, {row['locator']}{seen}"


def lines(combined: Document) -> list[Line]:
    """Return the expressions, with every factor that each action has in them.

    A line of ASCE 7 is an expression of its own, with all its actions.
    """
    kinds = KINDS | (ALLOWABLE if combined["rule"].endswith("ASD") else {})
    every = [{**row, "factors": _factors(row)} for row in combined["list"]]
    kept = [row for row in every if not any(_holds(other, row) for other in every)]
    by_name = selection.grouped(kept, lambda row: row["name"].partition(":")[0])
    return [
        Line(
            name,
            kinds.get(str(rows[0]["kind"]), ""),
            _either(row["permanent"] for row in rows),
            tuple(
                _either(row["factors"][action] for row in rows if action in row["factors"])
                for action in combined["actions"]
            ),
            ", ".join(dict.fromkeys(row["clause"] for row in rows)),
        )
        for name, rows in by_name.items()
    ]


def _factors(row: Document) -> dict[str, float]:
    """Return the factors of a combination by action."""
    return {one["action"]: one["factor"] for one in row["variable"]}


def _holds(other: Document, row: Document) -> bool:
    """Return whether another combination is this one with more actions."""
    alike = all(other[key] == row[key] for key in ("permanent", "kind"))
    own, more = row["factors"], other["factors"]
    return bool(alike and len(more) > len(own) and own.items() <= more.items())


def _either(values: Iterable[float]) -> str:
    """Return different values in words, the largest first; blank for none."""
    return " or ".join(dict.fromkeys(f"{v:.3g}" for v in sorted(values, reverse=True)))


def weights(combined: Document) -> list[str]:
    """Return for which sets a lower and an upper weight count."""
    return [
        f"Set {row['set']}: {figures.percent(row['low'])} and {figures.percent(row['high'])} of"
        " the likely weight."
        for row in combined["weights"]
        if row["low"] != row["high"]
    ]


def burdens(found: Document) -> list[str]:
    """Return what lies on and in things, in sentences."""
    told = [*_snow(found["snow"]), *(_water(row) for row in found["water"])]
    if found["not_held"]:
        names = ", ".join(found["not_held"])
        told.append(f"No listed bracket carries what {names} acts on: it is in no figure here.")
    return told


def _snow(found: Document | None) -> list[str]:
    if found is None:
        return []
    each = "; ".join(
        f"{row['assembly']} {figures.square_metres(row['plan_m2'])},"
        f" {figures.newtons(row['weight_n'])}"
        for row in found["assemblies"]
    )
    lying = (
        f"Snow of {figures.pascals(found['ground_pa'])} on level ground, times {found['shape']:g}"
        " (mu_1 of EN 1991-1-3, Table 5.2, as quoted elsewhere), on outlines from above as drawn:"
        f" {each or 'none'}. Each assembly bears its own outline, also below another. Drift"
        " against the wall is not in it."
    )
    typed = ", ".join(found["typed"])
    return [lying, *([f"Typed in its place: the snow on {typed}."] if typed else [])]


def _water(row: Document) -> str:
    if not row["parts"]:
        return f"{row['load']}: {row['assembly']} has no closed hollow shape, so no water counts."
    filled = f"; filled, so without water: {', '.join(row['filled'])}" if row["filled"] else ""
    return (
        f"{row['load']}: water up to {figures.kilograms(row['mass_kg'])} in {row['assembly']}, the"
        f" whole inside of {', '.join(row['parts'])}{filled}. Bars and tubes are not in it."
    )
