"""The notes on the headings of the blank workbook: what to type, and which way things turn.

A spreadsheet shows notes in a letter of uneven width, so a sketch rests on nothing but leading
spaces.
"""

from collections.abc import Mapping, Sequence

from estimator.core.units import KINDS, conversion, wanted
from estimator.sheets.columns import Column, Reads
from estimator.sheets.facts import Fact

_FRAME = """
Seen from the street:
                up
                 |
                 |
                o------- across
              /
         out, towards you"""

_SENSES = (
    "Turns: + about out is anticlockwise seen from the street, + about across leans the top out, "
    "+ about up turns the front to the right. Slides: + is across, up or out."
)

SKETCHES: Mapping[str, str] = {
    "across": _FRAME,
    "up": _FRAME,
    "out": _FRAME,
    "axis": f"{_FRAME}\n{_SENSES}",
    "along": f"{_FRAME}\nBlank: across.",
    "faces": f"{_FRAME}\nBlank: out.",
    "turn": """
A thing that stood upright, turned by +30 deg, seen from the street:
       \\
         \\
           \\
            o------- across""",
    "tip": """
A thing that stood upright, tipped by +30 deg, seen along the wall from its left end:
  wall
    |          /
    |        /
    |      /
    |     o------- out""",
    "swing": """
A thing that faced the street, swung by +30 deg, seen from above:
  ========== wall
         o------- across
          \\
            \\
              its front""",
    "start": """
Seen from the street:
              90
               |
               o------- 0""",
    "angle": """
             o
           /   \\
         /       \\
       the angle between its sides""",
    "blade_twist": """
A flat blade, seen along its length, and a twisted one:
     --------
     ---/---""",
    "from": f"\n{_SENSES}",
    "to": "\nCounted as under `from`.",
    "stay_from": """
The wall is on the left, the street on the right:
    | \\
    |   \\  stay
    |     \\
    o------- arm""",
}
"""What to draw under the words, by field."""


def heading_note(column: Column, choices: Sequence[str] = ()) -> str:
    """Return the note on a heading: what to type, in which unit, whether it is needed.

    Args:
        column: The heading.
        choices: What its pick list holds.
    """
    lines = [f"{column.words or column.heading}.", _how(column, choices), _need(column)]
    return "\n".join(line for line in lines if line) + SKETCHES.get(column.field, "")


def fact_note(fact: Fact) -> str:
    """Return the note beside an item of the `job` sheet: what to type for it."""
    column = fact.column
    lines = [f"{column.words}." if column.words else "", _how(column, column.choices)]
    return "\n".join(line for line in lines if line)


def fact_default(fact: Fact) -> str:
    """Return what an item of the `job` sheet means when it is left blank, and why it is asked."""
    if fact.default is None:
        used = "Blank: left out"
    else:
        used = f"Blank: {_printed(fact.column, fact.default)}"
    return f"{used}. {fact.why}."


def _printed(column: Column, default: float | str) -> str:
    """Return a default as a person would type it."""
    if isinstance(default, str):
        return default
    if column.kinds:
        unit = _unit(column)
        factor, offset = conversion(unit, column.kinds[0])
        return f"{(default - offset) / factor:g} {unit}"
    return f"{default:g} {column.unit}".strip()


def _unit(column: Column) -> str:
    return column.unit or KINDS[column.kinds[0]].example.rsplit(" ", maxsplit=1)[-1]


def _need(column: Column) -> str:
    if not column.needed:
        return ""
    others = " or ".join(f"`{field.replace('_', ' ')}`" for field in column.unless)
    return f"Needed, unless {others} is filled in." if others else "Needed."


def _how(column: Column, choices: Sequence[str]) -> str:
    """Return how a cell of the column is typed."""
    if column.reads is Reads.CHOICE:
        return f"One of: {', '.join(choices or column.choices)}."
    if column.kinds == ("percent",):
        return "In per cent: 18 %."
    if column.reads in _MIXED and not column.words.startswith("With its unit"):
        return f"With its unit in the cell: {wanted(tuple(KINDS[k] for k in column.kinds))}."
    return _HOW[column.reads] if column.reads in _HOW else _measured(column)


def _measured(column: Column) -> str:
    kind = KINDS[column.kinds[0]]
    if not column.unit:
        return f"With its unit: {kind.example}."
    inches = ", 4 ft 6 in or 3/4 in" if kind.name == "length" else ""
    return f"A plain number is in {column.unit}; or with its unit: {kind.example}{inches}."


_MIXED = (Reads.AMOUNT, Reads.LAYER)
_HOW: Mapping[Reads, str] = {
    **dict.fromkeys((Reads.TEXT, Reads.NAME, *_MIXED), ""),
    Reads.COUNT: "A whole number.",
    Reads.NUMBER: "A plain number without a unit.",
    Reads.MONEY: "A plain number, in the currency of the job.",
    Reads.GAUGE: "A gauge needs the name of its system; a bare number is asked about.",
    Reads.STOCK_SIZE: "With its unit in the cell.",
    Reads.SCALE: "One to how many times as large the real thing is.",
    Reads.COMPASS: "A compass point or a bearing: SE, 135 deg.",
    Reads.FACT: "With its unit in the cell; the note on each item says what to type.",
    Reads.DATE: "Year, month, day: 2026-03-04.",
}
