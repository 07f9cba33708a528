"""The report page: one self-contained file, drawn and written from the estimate document alone."""

from collections.abc import Sequence
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from estimator.reports import (
    arms,
    bracket_states,
    charts,
    coefficients,
    combining,
    elevations,
    exposure,
    figures,
    hole_map,
    matrices,
    patterns,
    plates,
    register,
    reissue,
    selection,
    sentences,
    sizes,
    sure,
    swinging,
    views,
    ways,
    weights,
)
from estimator.reports.document import Document

PARTS_SHOWN = 200
"""A longer list of parts is cut to its heaviest; the whole list is in estimate.json."""

MASSES_DRAWN = 7
"""The heaviest assemblies, and the whole, are drawn as lines; all are in the table."""

COSTS_DRAWN = 5
"""The largest costs, and the price, are drawn as lines; all are in the table."""

LEDGER = {
    "other_option": "of another option",
    "parked": "parked (count 0)",
    "replaced": "replaced by a weighing or a later answer",
    "refused": "refused",
}
"""What may have become of a row other than being used, and its heading."""

_LONG = {"longer": 60, "long": 36}
"""Letters from which words of the title block are set smaller: the smallest first."""

PAPERS = {"a4": "A4 landscape", "letter": "Letter landscape"}
"""How a style sheet names a paper, lying; any other job prints on what the printer holds."""

_FILTERS = {
    "bare": figures.bare,
    "bare_fixed": figures.bare_fixed,
    "deg": figures.degrees,
    "direction": sentences.direction,
    "fixed": figures.fixed,
    "kg": figures.kilograms,
    "listed": sentences.listed,
    "m": figures.metres,
    "mass": figures.mass,
    "millimetres": figures.millimetres,
    "mm": figures.bare_millimetres,
    "money": figures.money,
    "n": figures.newtons,
    "nm": figures.newton_metres,
    "pa": figures.pascals,
    "percent": figures.percent,
    "place": figures.place,
    "quantity": figures.quantity,
    "sig": figures.significant,
    "unit": figures.head,
    "small": lambda words: _type_size(str(words)),
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
    with figures.us_beside(wanted=sentences.in_inches(document)):
        return environment.get_template("page.html").render(_context(document))


def _type_size(words: str) -> str:
    """Return the class that sets long words of the title block small enough to stand in it."""
    return next((name for name, most in _LONG.items() if len(words) > most), "")


def _context(document: Document) -> dict[str, Any]:
    assemblies = {row["assembly"] for row in document["assemblies"]}
    items = views.items(document)
    hows = selection.repeated(
        line[key] for line in document["order"]["lines"] for key in ("how", "bound_text")
    )
    return {
        "d": document,
        "banner": sentences.banner(document),
        "stamp": reissue.stamp(document),
        "out_of_date": reissue.out_of_date(document),
        "register": register.lines(document),
        "paper": PAPERS.get(sentences.fact(document, "paper").casefold(), "landscape"),
        "fact": lambda item: sentences.fact(document, item),
        "words": sentences,
        "summary": sentences.summary(document),
        "ranges": sentences.ranges(document),
        "sure": sure.context(document),
        "problems": sorted(document["problems"], key=_severity),
        "ledger": _ledger(document),
        "facts": sentences.facts(document),
        "items": items,
        "more_items": len(assemblies) - len(items),
        "order_notes": matrices.marked(hows, str),
        "price_lines": _price_lines(document),
        "exposure": exposure,
        **weights.context(document, PARTS_SHOWN),
        "most_positions": weights.MOST_POSITIONS,
        **exposure.context(document),
        **coefficients.context(document),
        **combining.context(document),
        **arms.context(document),
        **plates.context(document),
        **swinging.context(document),
        **_cut(document),
        **_beside(document),
        **_drawings(document),
        **_wall(document),
        **_loads(document),
    }


def _ledger(document: Document) -> list[tuple[str, str]]:
    """Return what became of rows that were read, as far as it happened to any."""
    return [
        (key, heading)
        for key, heading in LEDGER.items()
        if any(count[key] for count in document["rows"].values())
    ]


def _cut(document: Document) -> dict[str, Any]:
    """Return what sheets are cut from."""
    blank_rows, blank_notes = patterns.rows(document["blanks"])
    return {
        "patterns": patterns,
        "blank_rows": blank_rows,
        "blank_notes": blank_notes,
        "blank_drawings": patterns.drawings(document["blanks"]),
    }


def _wall(document: Document) -> dict[str, Any]:
    """Return what is drawn of brackets and the wall they stand on."""
    return {
        "elevations": elevations.elevations(document),
        "elevations_left_out": elevations.left_out(document),
        "sign_key": elevations.sign_key(),
        "hole_map": hole_map.hole_map(document),
        "hole_sentences": hole_map.sentences(document),
        "zone_words": hole_map.zone_words,
        "not_on_the_map": hole_map.not_on_it(document),
    }


def _beside(document: Document) -> dict[str, Any]:
    """Return other ways of building, and other sizes, beside what is shown."""
    return {
        "ways": ways,
        "mass": figures.mass,
        "fronts": ways.fronts(document),
        "way_rows": ways.rows(document),
        "way_assemblies": ways.by_assembly(document),
        "sizes": sizes.rows(document),
        "size_heading": sizes.heading,
        "growth_lines": sizes.growth_lines(document),
    }


def _drawings(document: Document) -> dict[str, Any]:
    """Return what is drawn."""
    return {
        "sheet": views.assembly_sheet(document),
        "key": views.key(),
        "most_masses": MASSES_DRAWN,
        "most_costs": COSTS_DRAWN,
        "mass_lines": _mass_lines(document),
        "wind_roses": _wind_roses(document),
        "cost_lines": _cost_lines(document),
        "torque_graphs": [
            charts.torque_graph(mover)
            for mover in document["moving"]
            if len(mover["gravity_by_angle"]) > 1 and not sentences.no_gravity(mover)
        ],
    }


def _loads(document: Document) -> dict[str, Any]:
    """Return the wind and what it and the weights do at the brackets."""
    loads = selection.grouped(document["wind"]["loads"], lambda load: load["assembly"])
    parts = [
        (
            _at_its_worst(row, loads.get(row["part_or_assembly"], ())),
            [row["why"]] if row["why"] else [],
        )
        for row in document["wind"]["parts"]
    ]
    marks = matrices.marked((text for _, texts in parts for text in texts), str)
    ways = dict.fromkeys(row["sharing"] for row in document["brackets"])
    if any(arm["stay"] for arm in document["arms"]):
        ways["placed"] = None
    return {
        "wind_parts": [(row, [marks[text] for text in texts]) for row, texts in parts],
        "wind_notes": {mark: text for text, mark in marks.items()},
        "wind_steps": _wind_steps(document),
        "wind_heights": sentences.wind_heights(document),
        "wind_loads": matrices.wind_loads(document["wind"]["loads"]),
        "actions": matrices.characteristic(document["brackets"]),
        "envelope": matrices.envelope(document["bracket_envelope"]),
        "set_states": bracket_states.set_states(document),
        "side_by_side": bracket_states.SIDE_BY_SIDE,
        "sharings": [f"{matrices.initial(way)}, {way}: {matrices.SHARINGS[way]}." for way in ways],
    }


def _wind_steps(document: Document) -> Sequence[Document]:
    """Return the way to the highest pressure."""
    highest = selection.largest(document["wind"]["pressures"], "pressure_pa")
    return [] if highest is None else list(highest["steps"])


def _at_its_worst(catch: Document, loads: Sequence[Document]) -> dict[str, Any]:
    """Return a catch of wind with its largest force, and the outline that this force is for.

    What its parts add up to is told of one outline only: of another it is not known.
    """
    if not loads:
        return {**catch, "largest_n": None, "wind_from": "", "position": ""}
    worst = max(loads, key=lambda load: selection.resultant(load["force_n"]))
    same = catch["area_m2"] == worst["area_m2"]
    return {
        **catch,
        "largest_n": selection.resultant(worst["force_n"]),
        "wind_from": sentences.direction(worst["direction_deg"], worst["compass"]),
        "position": worst["position"],
        "area_m2": worst["area_m2"],
        "summed_area_m2": catch["summed_area_m2"] if same else None,
    }


def _severity(problem: Document) -> int:
    return ("refused", "question", "note").index(problem["severity"])


def _mass_lines(document: Document) -> Markup:
    """Draw the range of each assembly, heaviest first, and of the whole last."""
    mass = document["mass"]
    firsts = {row["assembly"]: row for row in reversed(document["assemblies"])}
    spans = [
        charts.Span(name, row["low_kg"], row["mass_kg"], row["high_kg"])
        for name, row in sorted(firsts.items(), key=lambda item: -item[1]["mass_kg"])
    ]
    whole = charts.Span("the whole", mass["low_kg"], mass["likely_kg"], mass["high_kg"])
    return charts.range_lines(
        [*spans[: MASSES_DRAWN - 1], whole], figures.kilograms, "Mass of each assembly"
    )


def _wind_roses(document: Document) -> list[Markup]:
    loads = selection.grouped(document["wind"]["loads"], lambda load: load["assembly"])
    chief = selection.chief(
        list(loads.items()),
        charts.MOST_ROSES,
        lambda item: max(selection.resultant(load["force_n"]) for load in item[1]),
    )
    return [charts.wind_rose(name, rows) for name, rows in chief]


def _price_lines(document: Document) -> list[Document]:
    """Return the steps from cost to price that are not lines of the cost already."""
    cost = document["cost"]
    costs = {line["name"] for line in cost["lines"]}
    return [line for line in cost["price_lines"] if line["name"] not in costs]


def _cost_lines(document: Document) -> Markup | None:
    """Draw the range of each cost, dearest first, and of the price; None when none is known."""
    cost = document["cost"]
    dearest = sorted(cost["lines"], key=lambda line: -(line["likely"] or 0.0))
    known = [
        charts.Span(line["name"], line["low"], line["likely"], line["high"])
        for line in (*dearest, *cost["price_lines"][-1:])
        if None not in (line["low"], line["likely"], line["high"]) and line["high"]
    ]
    spans = selection.chief(known, COSTS_DRAWN, lambda span: span.high)
    if not spans:
        return None
    return charts.range_lines(
        spans, lambda amount: figures.money(amount, cost["currency"]), "Cost and price"
    )
