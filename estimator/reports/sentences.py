"""What every report says in words, once: the summary, the ranges, and who must sign."""

from collections.abc import Iterator, Sequence
from typing import Any

from estimator.reports import figures, selection, sure, swinging, wall_pulls
from estimator.reports.bracket_states import AS_BUILT
from estimator.reports.document import Document

SIGN_OFF = (
    "A structural engineer must check and sign off the fixings, brackets, wall and wind figures"
    " before anything is made or hung."
)
_UNFACTORED = {
    "peak characteristic": (
        "These are characteristic actions on the wall, at the wall face: no partial factor is in"
        " them."
    ),
    "strength level": (
        "These are actions on the wall, at the wall face, without load factors. The wind in them"
        " is at strength level: it already holds what other rules put in a partial factor, and its"
        " own factor in a combination is 1."
    ),
}
"""What loads without factors are, by the level of the wind."""
_CHARACTERISTIC = {"peak characteristic": "characteristic", "strength level": "unfactored"}
_LEVEL = {"peak characteristic": "characteristic", "strength level": "at strength level"}
FACTORED = (
    "These are the same actions with the partial factors of the combination named, so no factor is"
    " to be put on them again; the larger of the ways of sharing. An uplift below nought is a"
    " weight that is never lifted: the least that hangs there."
)
MEANINGS = (
    (
        "Characteristic: as worked out from the list and the rules, with nothing added."
        " With partial factors: times the factors of the combination that is named."
    ),
    (
        "Pull-out (out +) draws a bracket straight off the wall and pulls at all its fixings."
        " Push-in (out \N{MINUS SIGN}) presses it on and pulls at none."
    ),
    (
        "Shear slides the plate along the wall: to the right (across +), to the left, down with"
        " the weight, or up against it, which is uplift (up +)."
    ),
    (
        "A moment about across tips the bracket like a shelf: + pulls at the top fixings and"
        " presses at the bottom, \N{MINUS SIGN} the other way round."
    ),
    (
        "A moment about up swings it like a door: + pulls at the fixings on the left,"
        " \N{MINUS SIGN} at those on the right, seen from the street."
    ),
    (
        "A moment about out turns the plate flat on the wall and shears the fixings round its"
        " middle: + is anticlockwise seen from the street."
    ),
)
"""What a maker may not know, in one sentence each; signs as the frame of the wall has them."""
_WIDEST = 3
_NOTHING = 5e-4
"""A torque (N m) or an imbalance (kg m) below this is printed as nought."""
_LEFT_OUT = "left out"
"""What became of something nobody told that nothing stands in for."""
_THIN_M = 0.1
_COUNTED = {"quotation validity": "days", "years exposed": "years"}
"""What a fact counts that has no unit of its own."""
_SIDES = {0.0: "the street", 90.0: "the right", 180.0: "behind", 270.0: "the left"}


def unfactored(document: Document) -> str:
    """Return what the loads without factors of this job are."""
    return _UNFACTORED[document["wind"]["level"]]


def characteristic(document: Document) -> str:
    """Return the word for loads without factors: "characteristic", unless the wind is not."""
    return _CHARACTERISTIC[document["wind"]["level"]]


def level(document: Document) -> str:
    """Return what the wind is: "characteristic" or "at strength level"."""
    return _LEVEL[document["wind"]["level"]]


def in_inches(document: Document) -> bool:
    """Return whether the job asks for US units."""
    return fact(document, "show_units") == "inch"


def fact(document: Document, item: str) -> str:
    """Return a fact of the job as it is printed; empty when the job does not say."""
    known = document["job"].get(item)
    if known is None or known["value"] is None:
        return ""
    return fact_words(item, known)


def issue(document: Document) -> str:
    """Return the issue as a title has it: "issue B of 2026-03-04", or "not issued"."""
    known = document["job"].get("issue", {})
    named, date = fact(document, "issue"), fact(document, "date")
    if known.get("origin") == "default" or not named:
        return named
    return f"issue {named} of {date}" if date else f"issue {named}"


def fact_words(item: str, known: Document) -> str:
    """Return the value of a fact of the job with its unit, or with what it counts."""
    value, unit = known["value"], known["unit"] or _COUNTED.get(_spoken(item), "")
    # What is thinner than a hand is wide is spoken of in millimetres.
    if unit == "m" and isinstance(value, float) and 0 < abs(value) < _THIN_M:
        value, unit = value * 1000.0, "mm"
    return figures.quantity(value, unit)


def facts(document: Document) -> list[tuple[str, Document]]:
    """Return the facts of the job by name; a default that stands among the untold is left out."""
    told = {_spoken(row["item"]) for row in document["untold"]}
    named = ((_spoken(item), known) for item, known in document["job"].items())
    return [
        (name, known) for name, known in named if known["origin"] != "default" or name not in told
    ]


def stood_in(row: Document) -> str:
    """Return what was used for something that nobody told."""
    if row["used"] == "nothing":
        return _LEFT_OUT
    counted = _COUNTED.get(_spoken(row["item"]), "") if row["used"].isdigit() else ""
    return figures.with_unit(row["used"], counted)


def made_of(part: Document) -> str:
    """Return what a part is made of: as typed, or else what its layers are."""
    layers = dict.fromkeys(layer["material"] for layer in part["layers"])
    return str(part["made_of"]) or ", ".join(layers)


def no_gravity(mover: Document) -> str:
    """Return why gravity does not turn a mover; empty when it does."""
    if mover["gravity_torque_nm"] >= _NOTHING:
        return ""
    if mover["out_of_balance_kgm"] >= _NOTHING:
        return "no torque of gravity on an upright axle"
    return "in balance, so no torque of gravity"


def banner(document: Document) -> str:
    """Return what stands on every page of a result with rows left out; empty otherwise."""
    if document["complete"]:
        return ""
    count = refused(document)
    if not count:
        return "INCOMPLETE: rows of another way of building could not be used"
    return f"INCOMPLETE: {in_words(count, 'row')} of the workbook left out"


def shortfall(document: Document) -> str:
    """Return which totals of an incomplete result are short."""
    if refused(document):
        return "Every total below is short of what they hold."
    return "Totals of the way shown are whole; those of the other way are short of what they hold."


def refused(document: Document) -> int:
    """Return how many rows of the workbook could not be used."""
    return sum(sheet["refused"] for sheet in document["rows"].values())


def in_words(count: int, thing: str) -> str:
    """Return "1 row" or "3 rows"."""
    return f"{count} {thing}" if count == 1 else f"{count} {thing}s"


def summary(document: Document) -> list[str]:
    """Return the answer in sentences, the most asked for first."""
    tellers = (_mass, _balance, _wind, _pull, swinging.summary, _lifting, _reach, _money)
    return [sentence for teller in tellers for sentence in teller(document)]


def no_part(document: Document) -> str:
    """Return why nothing is weighed: no row at all, or none that could be used."""
    if document["rows"].get("parts", {}).get("refused"):
        return "No part could be used; what is left out says why."
    return "No part is listed yet."


def ranges(document: Document) -> list[str]:
    """Return how sure the mass is, and which parts make it unsure, widest first."""
    widest = "; ".join(
        f"{part['part']} {part['name']}, {figures.spread(part['low_kg'], part['high_kg'], 'kg')}"
        for part in selection.widest(document["parts"], _WIDEST)
    )
    return [sure.straight(document), *([f"Least sure: {widest}."] if widest else [])]


def _mass(document: Document) -> Iterator[str]:
    mass = document["mass"]
    if not document["parts"]:
        yield no_part(document)
        return
    yield (
        f"The whole is likely to have a mass of {figures.kilograms(mass['likely_kg'])};"
        f" one time in twenty less than {figures.kilograms(mass['low_kg'])},"
        f" one in twenty more than {figures.kilograms(mass['high_kg'])}."
    )
    if mass["not_listed_kg"]:
        whole = " of what was not weighed as a whole" if mass["weighed_kg"] else ""
        yield (
            f"Of this {figures.kilograms(mass['not_listed_kg'])}"
            f" ({figures.percent(mass['not_listed_fraction'])}{whole}) allows for what is not"
            " listed yet."
        )
    yield from sure.summary(document)


def _balance(document: Document) -> Iterator[str]:
    if document["parts"] and document["mass"]["cg_m"] is not None:
        yield (
            "Seen from the street its centre of gravity is"
            f" {figures.place(document['mass']['cg_m'])} from the datum on the wall."
        )


def _wind(document: Document) -> Iterator[str]:
    wind = document["wind"]
    if not wind["loads"]:
        return
    worst = max(wind["loads"], key=lambda load: selection.resultant(load["force_n"]))
    force = figures.quantity(selection.resultant(worst["force_n"]), "N")
    pressure = figures.quantity(wind["pressure_pa"], "Pa")
    yield (
        f"The largest wind force on one assembly is {force}, {level(document)}, on"
        f" {worst['assembly']} ({worst['position']}) with the wind from"
        f" {direction(worst['direction_deg'], worst['compass'])}, {worst['case']}"
        f" ({wind['rule']}, {pressure})."
    )


def _pull(document: Document) -> Iterator[str]:
    calm = "" if document["wind"]["loads"] else ", without any wind,"
    marked = selection.largest(document["marks"]["brackets"], "pull_out_n")
    if marked is not None:
        yield (
            f"The largest {characteristic(document)} pull on the wall{calm} is"
            f" {figures.quantity(marked['pull_out_n'], 'N')} at"
            f" {wall_pulls.point(marked['bracket'], of_stay=marked['of_stay'])}."
        )
    shown = [row for row in document["options_table"] if row["option"] == document["option"]]
    tilt = selection.largest([pull for row in shown for pull in row["pulls"]], "moment_nm")
    if tilt is not None and tilt["moment_nm"] > 0:
        yield (
            f"The largest {characteristic(document)} moment that pulls the top fixings{calm} is"
            f" {figures.quantity(tilt['moment_nm'], 'N m')} about across at bracket"
            f" {tilt['bracket']}."
        )
    worst = selection.largest(wall_pulls.factored(document), "value")
    if worst is not None:
        built = worst["state"] == AS_BUILT
        yield (
            f"With partial factors the pull is {figures.quantity(worst['value'], 'N')} at"
            f" {wall_pulls.point(worst['bracket'], of_stay=worst['of_stay'])}"
            f" ({worst['combination']}; {worst['case']};"
            f" {wall_pulls.shared(worst['sharing'])}{'' if built else ', ' + worst['state']})."
        )
    for bracket_set in document["bracket_sets"]:
        if bracket_set["mechanism"] is not None:
            yield f"Bracket set {bracket_set['set']} is {bracket_set['mechanism']}."


def _lifting(document: Document) -> Iterator[str]:
    unit = selection.largest(document["lift_units"], "high_kg")
    if unit is not None:
        name = unit["lift_unit"] or listed(unit["assemblies"])
        yield (
            f"The heaviest lift unit is {name}:"
            f" {figures.kilograms(unit['mass_kg'])}, perhaps {figures.kilograms(unit['high_kg'])}."
        )


def _reach(document: Document) -> Iterator[str]:
    if not document["parts"]:
        return
    lows = [row for row in document["assemblies"] if row["lowest_m"] is not None]
    if lows:
        lowest = min(lows, key=lambda row: row["lowest_m"])
        yield (
            f"The lowest point is {figures.metres(lowest['lowest_m'])} above the pavement"
            f" ({lowest['assembly']}, {lowest['position']})."
        )
    furthest = selection.largest(document["assemblies"], "furthest_m")
    if furthest is not None:
        yield (
            f"The furthest point is {figures.millimetres(furthest['furthest_m'])} out from the wall"
            f" ({furthest['assembly']}, {furthest['position']})."
        )


def _money(document: Document) -> Iterator[str]:
    cost = document["cost"]
    if not cost["mean"]:
        yield "No price is told, so there is no cost and no price."
        return
    currency = cost["currency"]
    yield (
        f"The likely costs add up to {figures.money(cost['sum_of_likely'], currency)}; the mean"
        f" cost, which allows for overruns, is {figures.money(cost['mean'], currency)}."
    )
    yield from priced(document)
    yield from unpriced(document)


def priced(document: Document) -> list[str]:
    """Return the price, with whether tax and work are in it, in sentences; none without a price."""
    cost = document["cost"]
    currency = cost["currency"]
    no_work = [] if cost["hours_lines"] else ["No hours are counted, so no work is in the price."]
    told = [
        f"{capital(last['name'])}: mean {figures.money(last['mean'], currency)},"
        f" from {figures.money(last['low'], currency)}"
        f" to {figures.money(last['high'], currency)}; {_tax(cost)}."
        for last in cost["price_lines"][-1:]
    ]
    return [*told, *no_work] if told else []


def unpriced(document: Document) -> list[str]:
    """Return how many order lines the price is short of, as one sentence; none when none is."""
    count = sum(line["cost"] is None for line in document["order"]["lines"])
    if not count:
        return []
    have, are = ("has", "is") if count == 1 else ("have", "are")
    return [f"{in_words(count, 'order line')} {have} no price yet and {are} not in the price."]


def _tax(cost: Document) -> str:
    """Return whether tax is in the price."""
    tax = next((line for line in cost["price_lines"] if line["name"] == "tax"), None)
    return f"tax is included, {tax['how']}" if tax and tax["high"] else "no tax is in it"


def direction(direction_deg: float | None, compass: str = "") -> str:
    """Return the side a wind comes from, in the wall's frame and by the compass."""
    if direction_deg is None:
        return ""
    words = [_SIDES.get(round(direction_deg, 6), ""), compass]
    told = ", ".join(word for word in words if word)
    return f"{direction_deg:g}° ({told})" if told else f"{direction_deg:g}°"


def wind_heights(document: Document) -> list[str]:
    """Return which height the rule names for each assembly, and why: the alike together."""
    pressures = document["wind"]["pressures"]
    of: dict[str, dict[str, None]] = {}
    for chain in document["wind"]["chains"]:
        of.setdefault(_named_height(pressures[chain["pressure"]]), {})[chain["assembly"]] = None
    return [f"{listed(list(names))}: {words}" for words, names in of.items()]


def _named_height(pressure: Document) -> str:
    """Return the height of a pressure in words; its own middle differs and stands in the table."""
    checked = ": to be checked" if "from memory" in pressure["why"] else ""
    return f"{pressure['why']}{checked}"


def sides(words: str) -> str:
    """Return words about a hand as they hold of whatever turns: a long and a short side."""
    return words.replace("blade", "long side").replace("tail", "short side")


def listed(names: Sequence[Any]) -> str:
    """Return names as "a, b and c"."""
    words = [str(name) for name in names]
    if len(words) <= 1:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def _spoken(item: str) -> str:
    """Return an item of the job as it is said: "structural factor"."""
    return item.casefold().replace("_", " ").replace("-", " ")


def capital(words: str) -> str:
    """Return words as they begin a sentence."""
    return words[:1].upper() + words[1:]
