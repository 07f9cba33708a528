"""The wind on one assembly or part as a chain: speed, pressure, outline, coefficient, force."""

import math
from collections.abc import Iterator, Sequence

from estimator.reports import figures, selection, sentences, sums
from estimator.reports.document import Document
from estimator.reports.why_side import THE_WORST, Found, From, apart, find

TO_BE_CHECKED = "from memory: to be checked"
UNSEEN = "judgement or from memory: to be checked"
NO_SOURCE = "nobody is named as its source"
_NOTHING = 5e-7
"""What is less, in its own unit, is nought but for rounding."""
_AXES = ("across", "up", "out")


def part(document: Document, name: str, key: str, side: From) -> Iterator[str]:
    """Yield the wind on a part: its own where parts are added up, else that of its assembly.

    Args:
        document: The estimate document.
        name: Of its assembly.
        key: Of the part.
        side: Which wind.
    """
    shown = next((row for row in document["wind"]["shown"] if row["assembly"] == name), None)
    if shown is None:
        yield from assembly(document, name, side)
        return
    if not shown["forces"]:
        yield from _in_an_outline(shown, key)
    else:
        yield from _alone(document, shown, key, side)
    yield ""
    yield from assembly(document, name, side)


def _in_an_outline(shown: Document, key: str) -> Iterator[str]:
    area_m2 = next((row["area_m2"] for row in shown["areas"] if row["part"] == key), None)
    shows = "shows nothing to that wind" if area_m2 is None else f"shows {_m2(area_m2)} to it"
    yield (
        f"{key} has no wind force of its own: the wind on {shown['assembly']} is worked out on the"
        f" outline of all its parts together, each spot counted once. By itself, seen as that"
        f" outline is, {key} {shows}."
    )


def _alone(document: Document, shown: Document, key: str, side: From) -> Iterator[str]:
    """Yield the coefficients of a part, and the force on it."""
    yield f"Wind on {key}, a part of {shown['assembly']}, where parts are added up one by one."
    for row in document["wind"]["coefficients"]:
        if row["assembly"] == shown["assembly"] and key in row["parts"]:
            on = "the outline it shows" if row["area_m2"] is None else f"{_m2(row['area_m2'])} each"
            yield f"  {row['meets']}: {sums.digits(row['coefficient'])} on {on}"
            yield from _rule(row, "    ")
    forces: Sequence[Sequence[float]] = next(
        (row["from_n"] for row in shown["forces"] if row["part"] == key), []
    )
    if not forces:
        yield "  The wind does not reach it."
        return
    if side.direction_deg is None:
        chosen = max(forces, key=lambda row: selection.resultant(row[1:]))
        which = "the largest of any side"
    else:
        chosen = min(forces, key=lambda row: abs(apart(row[0], side.direction_deg or 0.0)))
        which = "as asked"
    yield (
        f"  Its force with everything at its own middle, {shown['position']}, wind from"
        f" {figures.degrees(chosen[0])} ({which}): {_vector(chosen[1:], 'N')};"
        f" {_newtons(selection.resultant(chosen[1:]))} in all."
    )
    yield (
        "  Flat sides are pushed along their own normal and long things square to themselves, with"
        " the part of the wind that crosses them, so it is less than the sum of pressure x"
        " coefficient x area unless the wind meets it squarely."
    )


def assembly(document: Document, name: str, side: From) -> Iterator[str]:
    """Yield the chain behind the wind on one assembly.

    Args:
        document: The estimate document.
        name: Of the assembly.
        side: Which wind.

    Raises:
        RequestError: That direction or position was not looked at.
    """
    loads = [row for row in document["wind"]["loads"] if row["assembly"] == name]
    if not loads:
        yield f"There is no wind on {name}."
        yield from document["wind"]["notes"]
        return
    found = find(document, name, loads, side)
    worst = found.loads[0]
    asked = "as asked" if side != THE_WORST else "the largest of them"
    yield (
        f"Wind on {name}, {worst['position']}, from"
        f" {sentences.direction(worst['direction_deg'], worst['compass'])}, {worst['case']}:"
        f" {_newtons(selection.resultant(worst['force_n']))},"
        f" {sentences.level(document)} ({asked}; {found.of} cases were looked at)."
    )
    for tell in (_pressure, _outline, _coefficient, _force, _cases):
        yield ""
        yield from tell(document, found)


def _pressure(document: Document, found: Found) -> Iterator[str]:
    """Yield the steps from the wind speed to the pressure, and the height they are for."""
    steps = found.pressure["steps"]
    yield f"1. From the wind speed to the pressure ({document['wind']['rule']})"
    shown = [figures.quantity(step["value"], step["unit"]) for step in steps]
    wide = max((len(step["symbol"]) for step in steps), default=0)
    much = max(map(len, shown), default=0)
    for step, value in zip(steps, shown, strict=True):
        checked = "" if step["confirmed"] or not step["clause"] else f"; {TO_BE_CHECKED}"
        clause = step["clause"] or NO_SOURCE
        yield f"  {step['symbol']:<{wide}}  {value:>{much}}  {step['name']}: {clause}{checked}"
    height_m = found.pressure["height_m"]
    why = _marked(found.pressure["why"])
    if height_m is None:
        yield f"  Height: none is used, {why}."
    else:
        yield f"  Height: {figures.metres(height_m)} above the ground, {why}."
    if found.outline is not None and found.outline["share"] != 1.0:
        share = found.outline["share"]
        pressure_pa = found.pressure["pressure_pa"]
        from_here = sums.product(
            [(pressure_pa, "Pa"), (share, "of it from this side")], share * pressure_pa, "Pa"
        )
        yield f"  {from_here}"


def _outline(_: Document, found: Found) -> Iterator[str]:
    """Yield what the wind meets: area, middle, what is counted once, what is open."""
    chain, outline = found.chain, found.outline
    yield f"2. The outline ({chain['stands']})"
    if outline is None:
        yield f"  {_m2(found.loads[0]['area_m2'])}; of this side no more was kept in the document."
        return
    seen = "from the street" if chain["way"] == "wall" else "from the side the wind comes from"
    yield f"  Seen {seen}: {_m2(outline['area_m2'])}, each spot counted once."
    hidden_m2 = outline["summed_area_m2"] - outline["area_m2"]
    if chain["way"] == "parts" or found.loads[0]["area_m2"] != outline["area_m2"]:
        yield f"  What counts here is the parts one by one: {_m2(outline['summed_area_m2'])}."
    else:
        yield (
            f"  Its parts one by one come to {_m2(outline['summed_area_m2'])}: {_m2(hidden_m2)} of"
            " that hides behind other parts and is not counted again."
        )
    open_m2 = outline["filled_area_m2"] - outline["area_m2"]
    if sums.digits(open_m2) != "0" and open_m2 > 0:
        yield f"  Holes and what is cut away take {_m2(open_m2)} out of it."
    width, height = (figures.millimetres(outline[key]) for key in ("width_m", "height_m"))
    yield f"  Its box is {width} wide and {height} high."
    yield f"  Its middle is {figures.place(outline['middle_m'])} from the datum."
    if chain["way"] == "wall":
        yield f"  Seen along the wall it shows {_m2(chain['side_m2'])}."


def _coefficient(document: Document, found: Found) -> Iterator[str]:
    """Yield the coefficient, its rule and source, and what other rules would give."""
    worst, chain = found.loads[0], found.chain
    yield "3. The coefficient"
    if chain["way"] == "parts":
        rows = [
            row for row in document["wind"]["coefficients"] if row["assembly"] == worst["assembly"]
        ]
        yield (
            f"  Each part goes by the rule for its shape; {sums.digits(worst['coefficient'])} is"
            " what the sum comes to on all their outlines."
        )
        for row in rows:
            on = "the outline it shows" if row["area_m2"] is None else f"{_m2(row['area_m2'])} each"
            of = ", ".join(row["parts"])
            yield f"  {of}, {row['meets']}: {sums.digits(row['coefficient'])} on {on}"
            yield from _rule(row, "    ")
        return
    row = next(x for x in document["wind"]["coefficients"] if x["assembly"] == worst["assembly"])
    normal = " normal to the wall, both senses," if chain["way"] == "wall" else ""
    yield f"  {sums.digits(worst['coefficient'])}{normal} on {_m2(worst['area_m2'])}"
    if sums.digits(row["coefficient"]) != sums.digits(worst["coefficient"]):
        yield (
            f"    the same rule gives {sums.digits(row['coefficient'])} for the outline in the"
            " first position seen from the street, and changes with the outline and the case"
        )
    yield from _rule(row, "    ")
    if chain["along"] is not None:
        along = chain["along"]
        yield f"  {sums.digits(along['value'])} along the wall on {_m2(chain['side_m2'])}"
        yield from _rule(along, "    ")
        yield (
            f"  {sums.digits(chain['friction'])} for friction along the wall on"
            f" {_m2(chain['front_m2'])}: as on the job sheet, 0.04 until typed (EN 1991-1-4 7.5,"
            " Table 7.10, ribs or folds)"
        )


def _rule(row: Document, lead: str) -> Iterator[str]:
    """Yield the rule of a coefficient with its source, and the others."""
    source = f"{row['source']}; {UNSEEN}" if not row["confirmed"] else _marked(row["source"])
    yield f"{lead}rule: {row['rule']}"
    yield f"{lead}source: {source}"
    for rule, value in row["others"]:
        yield f"{lead}other rule: {sums.digits(value, 3)}, {_marked(rule)}"


def _marked(words: str) -> str:
    """Return words; what of them is from memory says that it is to be checked."""
    return f"{words}: to be checked" if "from memory" in words else words


def _force(document: Document, found: Found) -> Iterator[str]:
    """Yield the force as a product, and its moment about the datum."""
    worst = found.loads[0]
    yield f"4. The force, {sentences.level(document)}"
    if found.chain["way"] == "wall":
        yield from _force_at_wall(found)
    elif found.chain["way"] == "outline":
        force_n = selection.resultant(worst["force_n"])
        factors = [*_pressed(found), (worst["coefficient"], ""), (worst["area_m2"], "m2")]
        yield f"  along the wind: {sums.product(factors, force_n, 'N')}"
    else:
        yield "  The sum over the parts, each at its own middle unless the case says otherwise."
    yield f"  Force: {_vector(worst['force_n'], 'N')}."
    if worst["at_m"] is None:
        yield "  It is the sum of many forces, which act in no one place."
    else:
        yield f"  It acts {figures.place(worst['at_m'])} from the datum."
        yield f"  The arm: {_vector(worst['at_m'], 'm')}."
    yield f"  Moment about the datum, right-hand rule: {_vector(worst['moment_nm'], 'N m')}."
    if worst["at_m"] is not None:
        yield from _moments(worst)


def _moments(load: Document) -> Iterator[str]:
    """Yield each moment as the arms times the forces."""
    at_m, force_n = load["at_m"], load["force_n"]
    for axis, moment_nm in enumerate(load["moment_nm"]):
        one, other = (axis + 1) % 3, (axis + 2) % 3
        values = [_clean(v) for v in (at_m[one], force_n[other], at_m[other], force_n[one])]
        if not any(
            abs(value) > _NOTHING for value in (values[0] * values[1], values[2] * values[3])
        ):
            continue
        arm, force, arm_back, force_back = sums.settled(
            values, lambda v: v[0] * v[1] - v[2] * v[3], moment_nm
        )
        yield (
            f"    about {_AXES[axis]}: {_AXES[one]} ({arm} m) x {_AXES[other]} ({force} N) -"
            f" {_AXES[other]} ({arm_back} m) x {_AXES[one]} ({force_back} N) ="
            f" {sums.digits(moment_nm)} N m"
        )


def _pressed(found: Found) -> list[tuple[float, str]]:
    """Return the pressure as factors of a product."""
    factors = [(found.pressure["pressure_pa"], "Pa")]
    if found.outline is not None and found.outline["share"] != 1.0:
        factors.append((found.outline["share"], "from this side"))
    return factors


def _force_at_wall(found: Found) -> Iterator[str]:
    """Yield the force normal to the wall in both senses, and that along it."""
    worst, chain = found.loads[0], found.chain
    normal_n, along_n = abs(worst["force_n"][2]), worst["force_n"][0]
    factors = [*_pressed(found), (worst["coefficient"], ""), (worst["area_m2"], "m2")]
    yield f"  normal to the wall: {sums.product(factors, normal_n, 'N')}"
    yield (
        f"    pressed to the wall it is out -{sums.digits(normal_n)} N, pulled off it out"
        f" +{sums.digits(normal_n)} N: both are taken, whatever the side the wind comes from"
    )
    dragged_m2 = chain["along"]["value"] * chain["side_m2"] + chain["friction"] * chain["front_m2"]
    values = [chain["along"]["value"], chain["side_m2"], chain["friction"], chain["front_m2"]]
    drag, side, rub, front = sums.settled(values, lambda v: v[0] * v[1] + v[2] * v[3], dragged_m2)
    yield (
        f"  along the wall: {drag} x {side} m2 + {rub} x {front} m2 = {sums.digits(dragged_m2)} m2"
    )
    sine = -math.sin(math.radians(worst["direction_deg"]))
    slant = sine * abs(sine)
    if sums.digits(along_n) != "0":
        of_it = "of it along the wall"
        product = sums.product([*_pressed(found), (dragged_m2, "m2"), (slant, of_it)], along_n, "N")
        yield f"    {product}, above nought to the right"
        yield (
            "    of a wind that blows along the wall all counts, of another its sine squared,"
            " towards the side it does not come from"
        )
    else:
        yield "    none of this wind blows along the wall"


def _cases(document: Document, found: Found) -> Iterator[str]:
    """Yield every case of this side and position, with its moment."""
    yield "5. Every case of this side and position (across, up, out; moments about the datum)"
    for load in found.loads:
        at = "" if load["at_m"] is None else f", at {_vector(load['at_m'], 'm')}"
        yield f"  {load['case']}: {_vector(load['force_n'], 'N')}{at}"
        yield f"    moment {_vector(load['moment_nm'], 'N m')}"
    if len({load["case"].split(", ")[-1] for load in found.loads}) > 1:
        yield (
            "  Off the middle, to the right or left of one who looks along the wind, for wind that"
            f" is not even: {found.chain['off_middle']}."
        )
    for note in document["wind"]["notes"]:
        yield f"  Note: {_marked(note)}."


def _newtons(force_n: float) -> str:
    return figures.beside(f"{sums.digits(force_n)} N", force_n, "N")


def _vector(values: Sequence[float], unit: str) -> str:
    """Return three numbers by the name of their axes."""
    told = (f"{name} {_signed(value)}" for name, value in zip(_AXES, values, strict=True))
    return f"{', '.join(told)} {unit}"


def _signed(value: float) -> str:
    """Return a number with its sign; what is nought but for rounding is nought."""
    text = sums.digits(_clean(value))
    return text if text.startswith("-") or text == "0" else f"+{text}"


def _clean(value: float) -> float:
    """Return a value, nought where it only differs from that by rounding."""
    return 0.0 if abs(value) < _NOTHING else value


def _m2(area_m2: float) -> str:
    return figures.beside(f"{sums.digits(area_m2)} m2", area_m2, "m²")
