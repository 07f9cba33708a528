"""The report page: one self-contained file, drawn and written from the estimate document alone."""

from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from estimator.reports import charts, figures, selection, sentences, views
from estimator.reports.document import Document

PARTS_SHOWN = 200
"""A longer list of parts is cut to its heaviest; the whole list is in estimate.json."""

_FILTERS = {
    "deg": figures.degrees,
    "direction": sentences.direction,
    "fixed": figures.fixed,
    "kg": figures.kilograms,
    "listed": sentences.listed,
    "m": figures.metres,
    "mass": figures.mass,
    "mm": figures.bare_millimetres,
    "money": figures.money,
    "n": figures.newtons,
    "nm": figures.newton_metres,
    "pa": figures.pascals,
    "percent": figures.percent,
    "place": figures.place,
    "quantity": figures.quantity,
    "sig": figures.significant,
}


def page_html(document: Document) -> str:
    """Return the report page as HTML: no script, nothing fetched, all that was typed escaped.

    Args:
        document: The estimate document, as `estimator.reports.document.schema` describes it.
    """
    environment = Environment(
        loader=PackageLoader("estimator.reports"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters.update(_FILTERS)
    return environment.get_template("page.html").render(_context(document))


def _context(document: Document) -> dict[str, Any]:
    sheet = views.assembly_sheet(document)
    return {
        "d": document,
        "banner": sentences.banner(document),
        "fact": lambda item: sentences.fact(document, item),
        "words": sentences,
        "sheet": sheet,
        "key": views.key(),
        "summary": sentences.summary(document),
        "ranges": sentences.ranges(document),
        "problems": sorted(document["problems"], key=_severity),
        "parts": selection.heaviest(document["parts"], PARTS_SHOWN),
        "loads": selection.governing(document["wind"]["loads"], lambda row: row["assembly"]),
        "actions": _actions(document),
        "envelope": selection.grouped(document["bracket_envelope"], lambda row: row["bracket"]),
        "combinations": selection.numbered(document["bracket_envelope"], "combination"),
        "cases": selection.numbered(document["bracket_envelope"], "case"),
        "reasons": selection.numbered(document["wind"]["parts"], "why"),
        "mass_lines": _mass_lines(document),
        "wind_roses": _wind_roses(document),
        "bracket_lines": charts.bracket_lines(document["bracket_envelope"]),
        "price_lines": _price_lines(document),
        "cost_lines": _cost_lines(document),
        "torque_graphs": [
            charts.torque_graph(mover)
            for mover in document["moving"]
            if len(mover["gravity_by_angle"]) > 1
        ],
    }


def _severity(problem: Document) -> int:
    return ("refused", "question", "note").index(problem["severity"])


def _actions(document: Document) -> list[selection.Governing]:
    """Return the governing actions bracket by bracket, and of each by cause."""
    brackets = selection.grouped(document["brackets"], lambda row: row["bracket"])
    return [
        action
        for rows in brackets.values()
        for action in selection.governing(rows, lambda row: row["cause"])
    ]


def _mass_lines(document: Document) -> Markup:
    """Draw the range of each assembly, one line each, and of the whole last."""
    mass = document["mass"]
    firsts = {row["assembly"]: row for row in reversed(document["assemblies"])}
    spans = [
        charts.Span(name, row["low_kg"], row["mass_kg"], row["high_kg"])
        for name, row in reversed(firsts.items())
    ]
    whole = charts.Span("the whole", mass["low_kg"], mass["likely_kg"], mass["high_kg"])
    return charts.range_lines([*spans, whole], figures.kilograms, "Mass of each assembly")


def _wind_roses(document: Document) -> list[Markup]:
    loads = selection.grouped(document["wind"]["loads"], lambda load: load["assembly"])
    return [charts.wind_rose(name, rows) for name, rows in loads.items()]


def _price_lines(document: Document) -> list[Document]:
    """Return the steps from cost to price that are not lines of the cost already."""
    cost = document["cost"]
    costs = {line["name"] for line in cost["lines"]}
    return [line for line in cost["price_lines"] if line["name"] not in costs]


def _cost_lines(document: Document) -> Markup | None:
    """Draw the range of each cost, and of the price; None when no range is known."""
    cost = document["cost"]
    spans = [
        charts.Span(line["name"], line["low"], line["likely"], line["high"])
        for line in (*cost["lines"], *cost["price_lines"][-1:])
        if None not in (line["low"], line["likely"], line["high"])
    ]
    if not spans:
        return None
    return charts.range_lines(
        spans, lambda amount: figures.money(amount, cost["currency"]), "Cost and price"
    )
