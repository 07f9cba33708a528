"""The mass of one part, layer by layer, or of one assembly, part by part, as sums in words."""

from collections.abc import Iterator, Sequence

from estimator.reports import figures, selection, sentences, sums, sure
from estimator.reports.document import Document

_FACTORS = {
    "gained": "for hammering",
    "left": "left of it",
    "covers": "covered",
    "laps": "for laps",
    "formed": "for forming",
    "made": "as weighed",
}
"""Factors of a layer that are told where they are not one, in the order of the sum."""


def part(document: Document, rows: Sequence[Document]) -> Iterator[str]:
    """Yield the sums behind the mass of a part, of each row that has its name.

    Args:
        document: The estimate document.
        rows: Of the part, one or more.
    """
    for row in rows:
        yield (
            f"Mass of {_called(row)}, in {row['assembly']}: {figures.kilograms(row['mass_kg'])},"
            f" one time in twenty below {figures.kilograms(row['low_kg'])}, one in twenty above"
            f" {figures.kilograms(row['high_kg'])}."
        )
        yield "A layer is what it lies over, times what a unit of that weighs, times the copies."
        for layer in row["layers"]:
            yield ""
            yield from _layer(row, layer)
            yield from _blank(document, row, layer)
        yield ""
        yield from _added(row)
        yield from _weighed(document, row)
        yield from _range(row)


def _called(row: Document) -> str:
    return f"{row['part']} {row['name']}".strip()


def _layer(row: Document, layer: Document) -> Iterator[str]:
    """Yield the sum of one layer and who says so."""
    told = layer["sum"]
    amount = f", {layer['amount']}" if layer["amount"] else ""
    yield f"{layer['layer'] or 'layer'}: {layer['material']}{amount}, over {layer['over']}"
    per = f"kg/{told['unit']}" if told["unit"] else "kg each"
    factors = [(told["size"], told["unit"]), (told["kg_per_size"], per)]
    if not told["unit"]:
        factors = factors[1:]
    factors += [(told[key], words) for key, words in _FACTORS.items() if told[key] != 1.0]
    if row["count"] != 1:
        factors.append((row["count"], "copies"))
    yield f"  {sums.product(factors, layer['mass_kg'], 'kg')}"
    for source in told["cited"]:
        yield f"  from {_marked(source)}"
    if not told["cited"]:
        yield "  from the workbook itself: no table is behind it"


def _marked(source: str) -> str:
    """Return a source; what nobody looked up says that it is to be checked."""
    return f"{source}: to be checked" if "from memory" in source else source


def _blank(document: Document, row: Document, layer: Document) -> Iterator[str]:
    """Yield what the sheet is cut from, and its mass by that."""
    for blank in document["blanks"]:
        if (blank["part"], blank["layer"]) != (row["part"], layer["layer"] or blank["layer"]):
            continue
        formed = f"{blank['forming']} from " if blank["forming"] else ""
        yield (
            f"  {formed}{blank['why']}: blanks of {sums.digits(blank['blank_m2'])} m2, trim off"
            f" {sums.digits(blank['trim_m2'])} m2, give {sums.digits(blank['by_blank_kg'])} kg;"
            f" finished area x gauge gives {sums.digits(blank['by_area_kg'])} kg;"
            f" {blank['used']} counts"
        )


def _added(row: Document) -> Iterator[str]:
    """Yield the layers added up."""
    terms = [layer["mass_kg"] for layer in row["layers"]]
    if len(terms) > 1:
        yield f"{' + '.join(sums.total(terms, row['mass_kg']))} = {_kg(row['mass_kg'])}"


def _kg(mass_kg: float) -> str:
    return f"{sums.digits(mass_kg)} kg"


def _weighed(document: Document, row: Document) -> Iterator[str]:
    """Yield the reading of a scale that took the place of what was worked out."""
    if not row["weighed"]:
        return
    for reading in document["weighings"]:
        if reading["name"] == row["weighed"] and row["part"] in reading["parts"]:
            words = sure.weighing(reading)
            factor = sums.product(
                [(reading["estimated_kg"], "kg worked out"), (reading["ratio"], "as weighed")],
                reading["weighed_kg"],
                "kg",
            )
            yield (
                f"On the scale with {words['what']} ({words['when']}, scale: {words['scale']},"
                f" {reading['cell']}): {factor}"
            )


def _range(row: Document) -> Iterator[str]:
    """Yield what makes the mass unsure, the most first."""
    off: dict[str, tuple[float, float, str]] = {}
    for layer in row["layers"]:
        for cause in layer["sum"]["causes"]:
            down_kg, up_kg, _ = off.get(cause["cause"], (0.0, 0.0, ""))
            down_kg += layer["mass_kg"] * cause["low"]
            up_kg += layer["mass_kg"] * cause["high"]
            off[cause["cause"]] = (down_kg, up_kg, cause["why"])
    yield (
        f"How sure: {figures.spread(row['low_kg'], row['high_kg'], 'kg')}, {sure.known_by(row)}."
        " Causes, each by itself; ends of different ones add as squares:"
    )
    for cause, (down_kg, up_kg, why) in sorted(off.items(), key=lambda item: -item[1][1]):
        said = f": {why}" if why else ""
        low, high = (figures.kilograms(abs(value)) for value in (down_kg, up_kg))
        yield f"  {cause}, {low} less to {high} more{_marked(said)}"


def assembly(document: Document, name: str) -> Iterator[str]:
    """Yield the parts of an assembly, heaviest first, added up.

    Args:
        document: The estimate document.
        name: Of the assembly.
    """
    whole = next(row for row in document["assemblies"] if row["assembly"] == name)
    rows = [row for row in document["parts"] if row["assembly"] == name]
    rows = selection.heaviest(rows, len(rows))
    yield (
        f"Mass of {name}: {figures.kilograms(whole['mass_kg'])}, one time in twenty below"
        f" {figures.kilograms(whole['low_kg'])}, one in twenty above"
        f" {figures.kilograms(whole['high_kg'])}, of {sentences.in_words(len(rows), 'part')}."
    )
    wide = max((len(_called(row)) for row in rows), default=0)
    terms = sums.total([row["mass_kg"] for row in rows], whole["mass_kg"])
    most = max(map(len, terms), default=0)
    for row, text in zip(rows, terms, strict=True):
        copies = f", {row['count']:g} copies" if row["count"] != 1 else ""
        ends = figures.spread(row["low_kg"], row["high_kg"], "kg")
        yield f"  {_called(row):<{wide}}  {text:>{most}} kg  {ends}, {sure.known_by(row)}{copies}"
    yield f"  added up {sums.digits(whole['mass_kg'])} kg"
    share = document["mass"]["not_listed_fraction"]
    if share:
        yield (
            f"{figures.percent(share)} for what is not listed yet is in the whole and at the"
            " brackets, not here."
        )
    if rows:
        yield f'Layer by layer: ask for a part, such as "{rows[0]["part"]}".'
