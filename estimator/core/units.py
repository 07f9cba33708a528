"""Units the trade writes, read into SI floats at the edge and written out again for print.

The only module that knows pint. What a person typed is never evaluated: the number is read here,
the unit is looked up in a closed list, and pint gives that unit's factor.
"""

import difflib
import math
import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    import pint

_DEFINITIONS = (
    "metre = [length] = m",
    "kilogram = [mass] = kg",
    "second = [time] = s",
    "kelvin = [temperature]; offset: 0 = K",
    "radian = []  = rad",
    "degree_Celsius = kelvin; offset: 273.15 = C",
    "degree = 0.017453292519943295 * radian = deg",
    "percent = 0.01 * radian",
    "millimetre = 0.001 * metre = mm",
    "centimetre = 0.01 * metre = cm",
    "kilometre = 1000 * metre = km",
    "inch = 0.0254 * metre",
    "foot = 0.3048 * metre = ft",
    "yard = 0.9144 * metre = yd",
    "mile = 1609.344 * metre = mi",
    "nautical_mile = 1852 * metre",
    "gram = 0.001 * kilogram = g",
    "tonne = 1000 * kilogram = t",
    "pound = 0.45359237 * kilogram = lb",
    "ounce = pound / 16 = oz",
    "minute = 60 * second = min",
    "hour = 60 * minute = h",
    "day = 24 * hour",
    "litre = 0.001 * metre ** 3 = L",
    "millilitre = 0.001 * litre = mL",
    "newton = kilogram * metre / second ** 2 = N",
    "kilonewton = 1000 * newton = kN",
    "pound_force = 9.80665 * pound * metre / second ** 2 = lbf",
    "kilopound_force = 1000 * pound_force = kip",
    "pascal = newton / metre ** 2 = Pa",
    "kilopascal = 1000 * pascal = kPa",
    "megapascal = 1000000 * pascal = MPa",
)


@dataclass(frozen=True, slots=True, eq=False)
class Kind:
    """What a quantity measures.

    Attributes:
        name: Its key in `KINDS`.
        si: Unit its values have inside the program.
        words: As a sentence says it: "a length".
        example: As a person would type one.
        units: The units it may be typed in; each with pint's way of writing it.
        high: Above this a person probably meant something else, SI; below its negative likewise.
        low: Below this likewise, SI.
        also: A unit as common as that of the example, and far from it.
    """

    name: str
    si: str
    words: str
    example: str
    units: Mapping[str, str]
    high: float
    low: float = -math.inf
    also: str = ""

    @property
    def unit(self) -> str:
        """Return the unit of the example."""
        return self.example.rsplit(" ", maxsplit=1)[-1]

    def holds(self, value: float) -> bool:
        """Return whether anything this program is about may have this SI value."""
        return max(self.low, -self.high) <= value <= self.high


class Amount(NamedTuple):
    """A value whose kind the row itself decides.

    Attributes:
        kind: Key of `KINDS`, or "gauge" for a gauge that a table has to be asked about.
        value: SI; NaN for a gauge.
        text: As typed, with its unit.
    """

    kind: str
    value: float
    text: str


class UnitError(ValueError):
    """What was typed cannot be read as the quantity that is wanted.

    Attributes:
        found: What is there and why it will not do; one sentence, no full stop.
        expected: What is wanted.
        advice: What to type instead.
    """

    def __init__(self, found: str, expected: str, advice: str) -> None:
        """Keep the three parts of the message apart."""
        super().__init__(found)
        self.found = found
        self.expected = expected
        self.advice = advice


class MissingUnitError(UnitError):
    """A number stands alone, where only a unit can say what it means.

    Attributes:
        in_cell: What to type where the heading can have no unit.
    """

    def __init__(self, typed: str, kind: Kind, expected: str) -> None:
        """Say what to type, in the cell or in the heading, if the usual unit is meant."""
        unit = kind.unit
        advice = f'type "{typed} {unit}" if that is meant, or put [{unit}] in the heading'
        super().__init__(f'"{typed}" has no unit', expected, advice)
        other = f' or "{typed} {kind.also}"' if kind.also else ""
        self.in_cell = f'type its unit in the cell, as in "{typed} {unit}"{other}'


def _same(*units: str) -> dict[str, str]:
    return {unit: unit for unit in units}


_LENGTHS = _same("mm", "cm", "m", "ft", "yd") | {"in": "inch", "'": "foot", '"': "inch"}

_KINDS = (
    Kind("length", "m", "a length", "120 mm", _LENGTHS, 60.0, also="m"),
    Kind("height", "m", "a height", "12 m", _LENGTHS | _same("km"), 5000.0),
    Kind("mass", "kg", "a mass", "2.5 kg", _same("kg", "g", "t", "lb", "oz"), 20e3),
    Kind("force", "N", "a force", "1.2 kN", _same("N", "kN", "lbf", "kip"), 1e6),
    Kind(
        "line_force", "N/m", "a force per length", "0.5 kN/m",
        {"N/m": "N/m", "kN/m": "kN/m", "lbf/ft": "lbf/ft"}, 1e6,
    ),
    Kind("angle", "rad", "an angle", "30 deg", _same("deg", "rad"), 13.0),
    Kind("percent", "", "a percentage", "18 %", {"%": "percent"}, 10.0),
    Kind(
        "pressure", "Pa", "a pressure", "1.2 kPa",
        _same("Pa", "kPa", "MPa")
        | {"psf": "lbf/ft**2", "psi": "lbf/inch**2", "ksf": "kip/ft**2",
           "ksi": "kip/inch**2", "N/m2": "N/m**2", "kN/m2": "kN/m**2",
           "N/mm2": "N/mm**2"},
        20e3,
    ),
    Kind(
        "speed", "m/s", "a speed", "24 m/s",
        {"m/s": "m/s", "km/h": "km/h", "mph": "mi/h", "kn": "nautical_mile/h"}, 120.0,
    ),
    Kind("temperature", "K", "a temperature", "-15 C", _same("C", "K"), 400.0, 200.0),
    Kind("time", "h", "a time", "6 h", _same("h", "min", "s", "day"), 5000.0),
    Kind(
        "surface_mass", "kg/m2", "a mass per area", "0.3 kg/m2",
        {"kg/m2": "kg/m**2", "g/m2": "g/m**2", "lb/ft2": "lb/ft**2", "oz/ft2": "oz/ft**2"},
        2000.0,
    ),
    Kind(
        "line_mass", "kg/m", "a mass per length", "0.6 kg/m",
        {"kg/m": "kg/m", "g/m": "g/m", "lb/ft": "lb/ft"}, 500.0,
    ),
    Kind(
        "density", "kg/m3", "a density", "480 kg/m3",
        {"kg/m3": "kg/m**3", "lb/ft3": "lb/ft**3"}, 23000.0, 1.0,
    ),
    Kind(
        "stiffness", "N m2", "a stiffness EI", "12 kNm2",
        {"Nm2": "N*m**2", "kNm2": "kN*m**2"}, 1e10,
    ),
    Kind(
        "spring", "N/m", "a force per length of give", "30 kN/mm",
        {"kN/mm": "kN/mm", "N/mm": "N/mm", "kN/m": "kN/m", "lbf/in": "lbf/inch"}, 1e12,
    ),
    Kind(
        "turn_spring", "N m/rad", "a moment per angle of give", "200 kNm/rad",
        {"kNm/rad": "kN*m/rad", "Nm/rad": "N*m/rad", "kNm/deg": "kN*m/deg"}, 1e12,
    ),
    Kind(
        "moment", "N m", "a moment", "40 Nm",
        {"Nm": "N*m", "kNm": "kN*m", "lbfft": "lbf*ft", "kipft": "kip*ft"}, 1e6,
    ),
    Kind(
        "area", "m2", "an area", "120 cm2",
        {"m2": "m**2", "cm2": "cm**2", "mm2": "mm**2", "ft2": "ft**2", "in2": "inch**2"},
        1e4,
    ),
    Kind(
        "volume", "m3", "a volume", "0.8 L",
        {"L": "L", "ml": "mL", "m3": "m**3", "cm3": "cm**3", "ft3": "ft**3"}, 1e3,
    ),
)  # fmt: skip

KINDS: Mapping[str, Kind] = {kind.name: kind for kind in _KINDS}
"""Every kind of quantity a cell can hold, by name."""

_PINT_SI = {
    "N m2": "N*m**2", "N m": "N*m", "N m/rad": "N*m/rad",
    "kg/m2": "kg/m**2", "kg/m3": "kg/m**3", "m2": "m**2",
    "m3": "m**3", "": "radian",
}  # fmt: skip

_WORDS = {
    "inch": "in", "inches": "in", "ins": "in", "foot": "ft", "feet": "ft", "yard": "yd",
    "yards": "yd", "metre": "m", "metres": "m", "meter": "m", "meters": "m", "lbs": "lb",
    "pounds": "lb", "kilos": "kg", "kgs": "kg", "tonne": "t", "tonnes": "t", "degrees": "deg",
    "degree": "deg", "°": "deg", "degC": "C", "°C": "C", "hour": "h", "hours": "h", "hr": "h",
    "hrs": "h", "mins": "min", "days": "day", "l": "L", "litre": "L", "litres": "L", "kph": "km/h",
    "percent": "%", "pct": "%", "knots": "kn", "ftlbf": "lbfft", "lbft": "lbfft", "ftlb": "lbfft",
    "kips": "kip", "ftkip": "kipft", "ftkips": "kipft", "kipsft": "kipft", "ozs": "oz",
    "''": '"', "lb-ft": "lbfft", "ft-lb": "lbfft", "kip-ft": "kipft", "pcf": "lb/ft3",
    "plf": "lbf/ft",
}  # fmt: skip

_KIND_OF_UNIT = {unit: kind for kind in reversed(_KINDS) for unit in kind.units}

_LONGEST_TEXT = 80
_SIGNS = str.maketrans("−–‐‑′’‘″”“⁄", "----'''\"\"\"/")  # noqa: RUF001 - what people paste
_POWERS = str.maketrans({"²": "2", "³": "3", "·": "", "⋅": "", "^": "", "*": "", " ": "", ".": ""})
_COMMA = re.compile(r"(?P<number>[+-]?[\d.]*,[\d.,]*\d) ?(?P<unit>[^\d.,].*)?")
_THOUSANDS = re.compile(r"[+-]?\d{1,3}(?:,\d{3})+(?:\.\d+)?")
_NUMBER = r"(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?"
_VALUE = rf"(?:(?:(?P<whole>\d+)[ -]+)?(?P<top>\d+) ?/ ?(?P<bottom>\d+)|(?P<number>{_NUMBER}))"
_QUANTITY = re.compile(rf"(?P<sign>[+-]?) ?{_VALUE} ?(?P<unit>[^\W\d_].*|[%°'\"].*)?")
_FEET = re.compile(
    r"(?P<sign>[+-]?) ?(?P<feet>\d+(?:\.\d+)?) ?(?:ft|feet|foot|') ?-? ?"
    r"(?P<inches>\d.*?(?:in|ins|inch|inches|\"|''))",
    re.IGNORECASE,
)
_SCALE = re.compile(r"1 ?: ?(\d+(?:\.\d+)?)")
_THOUSAND_DIGITS = 3
_DIVIDED = frozenset({"in", "ft", "'", '"'})
"""Units of length that people halve and quarter; a fraction of a millimetre is a slip."""
_LENGTH_KINDS = frozenset({"length", "height"})
_SMALLEST_SCALE, _LARGEST_SCALE = 1e-3, 1e4


@cache
def _registry() -> "pint.UnitRegistry[float]":
    import pint  # noqa: PLC0415 - a fifth of a second that `--help` need not wait for

    registry: pint.UnitRegistry[float] = pint.UnitRegistry(None)
    for line in _DEFINITIONS:
        registry.define(line)
    return registry


@cache
def _line(pint_unit: str, pint_si: str) -> tuple[float, float]:
    """Return the factor and offset that turn a value in the first unit into the second."""
    quantity = _registry().Quantity
    zero, one = (float(quantity(x, pint_unit).to(pint_si).magnitude) for x in (0.0, 1.0))
    return (1.0, zero) if zero else (one, 0.0)


def unit_named(text: str, kind: Kind) -> str | None:
    """Return the listed spelling of a unit as a person typed it, if this kind has it."""
    plain = text.translate(_POWERS)
    for spelling in (plain, _WORDS.get(plain), _WORDS.get(plain.lower())):
        if spelling in kind.units:
            return spelling
    return {unit.lower(): unit for unit in kind.units}.get(plain.lower())


@lru_cache(maxsize=1024)
def conversion(unit: str, kind_name: str) -> tuple[float, float]:
    """Return factor and offset of a unit: SI value = factor x value + offset.

    Raises:
        UnitError: The unit is unknown, or measures something else.
    """
    kind = KINDS[kind_name]
    spelling = unit_named(unit, kind)
    if spelling is None:
        raise _unit_refused(unit, unit, (kind,))
    return _line(kind.units[spelling], _PINT_SI.get(kind.si, kind.si))


def parse_quantity(value: str | float, kind: Kind, heading_unit: str = "") -> float:
    """Return the SI value of what a person typed.

    Args:
        value: The text of a cell, or its number.
        kind: What is wanted.
        heading_unit: Unit that a number without one has.

    Raises:
        UnitError: It is not a number with a unit of this kind.
    """
    if heading_unit and not isinstance(value, str) and math.isfinite(value):
        factor, offset = conversion(heading_unit, kind.name)
        return value * factor + offset
    return parse_amount(value, (kind,), heading_unit).value


def parse_amount(value: str | float, kinds: tuple[Kind, ...], heading_unit: str = "") -> Amount:
    """Return what a person typed as an amount of one of several kinds, the first that fits.

    Raises:
        UnitError: It is not a number with a unit of one of these kinds.
    """
    if isinstance(value, str):
        return _parsed(value, kinds, heading_unit)
    return _amount(value, heading_unit, f"{value:.15g}", kinds)


@lru_cache(maxsize=4096)
def _parsed(text: str, kinds: tuple[Kind, ...], heading_unit: str) -> Amount:
    tidy = tidied(text)
    if len(tidy) > _LONGEST_TEXT:
        raise _unreadable(tidy, kinds)
    feet = _FEET.fullmatch(tidy)
    inches = _QUANTITY.fullmatch(feet["inches"]) if feet else None
    if feet and inches:
        whole_inches = 12.0 * float(feet["feet"]) + _number(inches)
        return _amount(-whole_inches if feet["sign"] == "-" else whole_inches, "in", tidy, kinds)
    comma = _COMMA.fullmatch(tidy)
    if comma:
        found = f'"{tidy}" has a comma in its number'
        raise UnitError(found, wanted(kinds), comma_advice(comma["number"], comma["unit"] or ""))
    match = _QUANTITY.fullmatch(tidy)
    if not match:
        raise _unreadable(tidy, kinds)
    unit = (match["unit"] or "").strip()
    if match["top"] and not unit:
        _refuse_fraction(_number(match), tidy, kinds, heading_unit)
    return _amount(_number(match), unit or heading_unit, tidy, kinds)


def _refuse_fraction(value: float, typed: str, kinds: tuple[Kind, ...], unit: str) -> None:
    """Refuse a fraction that a heading would make one of a millimetre."""
    kind = next((kind for kind in kinds if unit_named(unit, kind)), None)
    if kind is None or kind.name not in _LENGTH_KINDS or unit_named(unit, kind) in _DIVIDED:
        return
    found = f'"{typed}" is a fraction, but the heading says {unit}'
    advice = f'type "{typed} in", or the decimal "{value:.4g}" if {unit} is meant'
    raise UnitError(found, wanted(kinds), advice)


def _number(match: re.Match[str]) -> float:
    """Return the number in a match of the value pattern; NaN where it divides by zero."""
    if match["number"]:
        size = float(match["number"])
    elif int(match["bottom"]) == 0:
        return math.nan
    else:
        size = int(match["whole"] or 0) + int(match["top"]) / int(match["bottom"])
    return -size if match["sign"] == "-" else size


def _amount(value: float, unit: str, typed: str, kinds: tuple[Kind, ...]) -> Amount:
    if not math.isfinite(value):
        raise _unreadable(typed, kinds)
    if not unit:
        raise MissingUnitError(typed, kinds[0], wanted(kinds))
    kind = next((kind for kind in kinds if unit_named(unit, kind)), None)
    if kind is None:
        raise _unit_refused(unit, typed, kinds)
    factor, offset = conversion(unit, kind.name)
    return Amount(kind.name, value * factor + offset, typed)


def tidied(text: str) -> str:
    """Return text with plain spaces, quotes and minus signs, and fractions written out."""
    if not text.isascii():
        text = "".join(_spelled(letter) for letter in text).translate(_SIGNS)
    return " ".join(text.split())


def _spelled(letter: str) -> str:
    if unicodedata.decomposition(letter).startswith("<fraction>"):
        return f" {unicodedata.normalize('NFKC', letter)}"
    return letter


def wanted(kinds: tuple[Kind, ...]) -> str:
    """Return what is wanted, in words: "a length such as 120 mm"."""
    return ", or ".join(f"{kind.words} such as {kind.example}" for kind in kinds)


def _unreadable(typed: str, kinds: tuple[Kind, ...]) -> UnitError:
    shown = typed if len(typed) <= _LONGEST_TEXT else f"{typed[:_LONGEST_TEXT]}..."
    found = f'"{shown}" is not one number with a unit'
    return UnitError(found, wanted(kinds), f'type it as in "{kinds[0].example}"')


def comma_advice(number: str, unit: str = "") -> str:
    """Return what to type instead of a number with a comma: both, where it may mean two things."""
    unit = f" {unit}" if unit else ""
    plain = number.replace(",", "")
    whole, _, rest = number.partition(",")
    if "," not in rest and "." not in number:
        point = f'type "{whole or 0}.{rest}{unit}", with a point'
        if len(rest) == _THOUSAND_DIGITS and whole.strip("+-0"):
            point += f'; "{plain}{unit}" if the comma parts thousands'
        return point
    if _THOUSANDS.fullmatch(number):
        return f'type "{plain}{unit}", without commas'
    return "type it with a point for the decimals, and without commas"


def _unit_refused(unit: str, typed: str, kinds: tuple[Kind, ...]) -> UnitError:
    other = next((kind for kind in _KINDS if unit_named(unit, kind)), None)
    listed = [name for kind in kinds for name in kind.units if name.isalpha() or "/" in name]
    listed = listed or [name for kind in kinds for name in kind.units]
    if other:
        found = f'"{typed}" is {other.words}' if typed != unit else f'"{unit}" is for {other.words}'
        return UnitError(found, wanted(kinds), f"units for that are {', '.join(listed)}")
    near = difflib.get_close_matches(unit, listed, n=1, cutoff=0.5)
    advice = f"did you mean {near[0]}? " if near else ""
    return UnitError(
        f'"{unit}" is not a unit this program knows',
        wanted(kinds),
        f"{advice}units for that are {', '.join(listed)}",
    )


def parse_scale(text: str) -> float:
    """Return how many times the real thing is larger than its model: 10.0 for "1:10".

    Raises:
        UnitError: It is not written as 1 to something.
    """
    match = _SCALE.fullmatch(tidied(text)[:_LONGEST_TEXT])
    if not match or not _SMALLEST_SCALE <= float(match[1]) <= _LARGEST_SCALE:
        found = f'"{text}" is not a scale'
        advice = 'type "1:10" if the real thing is ten times as long'
        raise UnitError(found, "the scale of a model, one to something", advice)
    return float(match[1])


def format_quantity(value_si: float, unit: str, digits: int) -> str:
    """Return an SI value in a unit with so many decimals: "1200 mm".

    Raises:
        KeyError: The unit is not one of the listed spellings.
    """
    kind = _KIND_OF_UNIT[unit]
    factor, offset = conversion(unit, kind.name)
    return f"{(value_si - offset) / factor:.{digits}f} {unit}"
