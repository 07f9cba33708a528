"""Numbers as they are printed: rounded, grouped, with their unit. None is printed as a word."""

import math
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from fractions import Fraction
from types import MappingProxyType
from typing import NamedTuple

BLANK = "not known"
"""Printed for a value the document holds as null."""
MINUS = "\N{MINUS SIGN}"
GAP = "\N{NARROW NO-BREAK SPACE}"
"""Between the thousands, and between a number and its unit."""
TYPOGRAPHY = str.maketrans({MINUS: "-", GAP: " ", "\N{EN DASH}": "-", "·": "."})
"""From the page's characters to those that every terminal can show."""

_MOST_DECIMALS = 6
_KILO = 1000.0
_ICE_POINT_K = 273.15
_FINE = 100.0
"""From here on a mass or an amount of money is printed without decimals."""


def plain(words: str) -> str:
    """Return the words with typewriter characters in place of the page's."""
    return words.translate(TYPOGRAPHY)


def fixed(value: float | None, decimals: int = 0) -> str:
    """Return a number with so many decimals, thousands grouped; never a minus zero."""
    if value is None:
        return BLANK
    rounded = round(value, decimals)
    text = f"{abs(rounded):,.{decimals}f}".replace(",", GAP)
    return MINUS + text if rounded < 0 else text


def significant(value: float | None, digits: int = 3) -> str:
    """Return a number to so many significant figures, whole digits kept."""
    if value is None:
        return BLANK
    if abs(value) < 10.0**-_MOST_DECIMALS:
        return "0"
    rounded = float(f"{value:.{digits - 1}e}")
    decimals = digits - 1 - math.floor(math.log10(abs(rounded)))
    return fixed(value, min(max(decimals, 0), _MOST_DECIMALS))


def with_unit(number: str, unit: str) -> str:
    """Return a printed number and its unit; nothing is added to a blank or to a bare ratio."""
    if number == BLANK or not unit:
        return number
    return f"{number}{'' if unit == '°' else GAP}{unit}"


class _Us(NamedTuple):
    """A US unit.

    Attributes:
        size: How many of the SI unit it is.
        name: As it is printed.
        decimals: It is printed with so many beside an SI unit.
        finer: In a column it has so many decimals more than the SI unit would have.
    """

    size: float
    name: str
    decimals: int
    finer: int = 0


_US: Mapping[str, _Us] = MappingProxyType(
    {
        "Pa": _Us(47.88026, "psf", 1),
        "N": _Us(4.448222, "lb", 0),
        "N m": _Us(1.355818, f"lb{GAP}ft", 0),
        "m/s": _Us(0.44704, "mph", 0),
        "m": _Us(0.3048, "ft", 1),
        "mm": _Us(25.4, "in", 1, 2),
        "m²": _Us(0.09290304, "ft²", 1),
        "kg": _Us(0.45359237, "lb", 1),
        "kg m": _Us(0.1382550, f"lb{GAP}ft", 1),
        "kg m²": _Us(0.04214011, f"lb{GAP}ft²", 1),
        "kN": _Us(4.448222, "kip", 1),
        "MPa": _Us(6.894757, "ksi", 1, 1),
    }
)
"""What stands beside an SI unit for who works in inches; a pound is a force, or the mass that
weighs so much."""
_SIXTEENTHS, _INCHES = 16, 12
"""Of an inch, to which a drawing is dimensioned, and in a foot."""
_KIP = 1000.0
_KIPS_FROM = 10_000.0
"""So many pounds or pound feet are printed in thousands: kip, and kip ft."""
_US_BESIDE: ContextVar[bool] = ContextVar("us_beside", default=False)
"""As the decimal module keeps its precision: for one piece of printing, by `us_beside` alone."""


@contextmanager
def us_beside(*, wanted: bool = True) -> Iterator[None]:
    """Print US units beside SI ones for as long as this holds, wherever a number has its unit."""
    token = _US_BESIDE.set(wanted)
    try:
        yield
    finally:
        _US_BESIDE.reset(token)


def in_us(value: float, unit: str) -> str:
    """Return a value of an SI unit in its US unit."""
    us = _US[unit]
    number, name, decimals = value / us.size, us.name, us.decimals
    if unit in {"N", "N m"} and abs(number) >= _KIPS_FROM:
        number, name, decimals = number / _KIP, name.replace("lb", "kip"), 1
    shown = _weighty(number) if unit == "kg" else fixed(number, decimals)
    return with_unit(shown, name)


def beside(shown: str, value: float | None, unit: str) -> str:
    """Return what is printed, with its US unit in brackets where that was asked for."""
    if value is None or not _US_BESIDE.get():
        return shown
    return f"{shown} ({in_us(value, unit)})"


def column(unit: str) -> tuple[float, str]:
    """Return what of a unit one is in a column of bare numbers, and the unit at its head.

    A column has no room for two: the US unit takes the place of the SI unit where it was asked for.
    """
    us = _US.get(unit) if _US_BESIDE.get() else None
    return (1.0, unit) if us is None else (us.size, us.name)


def head(unit: str) -> str:
    """Return a unit as it stands at the head of a column, or on a drawing, of bare numbers."""
    return column(unit)[1].replace(" ", GAP)


def bare(value: float | None, unit: str, digits: int = 3) -> str:
    """Return a number of an SI unit to so many figures, for a column headed by `head`."""
    return significant(None if value is None else value / column(unit)[0], digits)


def bare_fixed(value: float | None, unit: str, decimals: int = 0) -> str:
    """Return a number of an SI unit for a column headed by `head`, with so many decimals of SI."""
    size, name = column(unit)
    finer = 0 if name == unit else _US[unit].finer
    return fixed(None if value is None else value / size, decimals + finer)


def kilograms(mass_kg: float | None) -> str:
    """Return a mass to the kilogram from 100 kg up, below that to three figures."""
    return beside(with_unit(_weighty(mass_kg), "kg"), mass_kg, "kg")


def mass(mass_kg: float | None) -> str:
    """Return the bare number of kilograms, for a column headed by `head` of kg."""
    return _weighty(None if mass_kg is None else mass_kg / column("kg")[0])


def _weighty(number: float | None) -> str:
    if number is not None and abs(number) >= _FINE:
        return fixed(number)
    return significant(number)


def newtons(force_n: float | None) -> str:
    """Return a force to the newton, from 1 kN up in kilonewtons to two decimals."""
    if force_n is not None and abs(force_n) >= _KILO:
        return beside(with_unit(fixed(force_n / _KILO, 2), "kN"), force_n, "N")
    return beside(with_unit(fixed(force_n), "N"), force_n, "N")


def newton_metres(moment_nm: float | None) -> str:
    """Return a moment to three figures, from 1 kN m up in kilonewton metres."""
    if moment_nm is not None and abs(moment_nm) >= _KILO:
        shown = with_unit(fixed(moment_nm / _KILO, 2), f"kN{GAP}m")
    else:
        shown = with_unit(significant(moment_nm), f"N{GAP}m")
    return beside(shown, moment_nm, "N m")


def bare_millimetres(length_m: float | None, decimals: int = 0) -> str:
    """Return the bare number of millimetres, for drawings and columns headed by `head` of mm."""
    return bare_fixed(None if length_m is None else length_m * _KILO, "mm", decimals)


def dimension(length_m: float | None) -> str:
    """Return a length as a drawing has it: bare millimetres, or feet and inches to a sixteenth."""
    if length_m is None or column("mm")[1] == "mm":
        return bare_millimetres(length_m)
    sixteenths = round(abs(length_m) * _KILO / column("mm")[0] * _SIXTEENTHS)
    inches, over = divmod(sixteenths, _SIXTEENTHS)
    feet, inches = divmod(inches, _INCHES)
    part = Fraction(over, _SIXTEENTHS)
    words = f"{inches} {part}" if inches and part else str(part or inches)
    shown = f"{feet}\N{PRIME}-{words}\N{DOUBLE PRIME}" if feet else f"{words}\N{DOUBLE PRIME}"
    return MINUS + shown if length_m < 0 and sixteenths else shown


def millimetres(length_m: float | None) -> str:
    """Return a length to the millimetre."""
    length_mm = None if length_m is None else length_m * _KILO
    return beside(with_unit(fixed(length_mm), "mm"), length_mm, "mm")


def metres(length_m: float | None) -> str:
    """Return a length in metres to the centimetre."""
    return beside(with_unit(fixed(length_m, 2), "m"), length_m, "m")


def pascals(pressure_pa: float | None) -> str:
    """Return a pressure to the pascal."""
    return beside(with_unit(fixed(pressure_pa), "Pa"), pressure_pa, "Pa")


def metres_per_second(speed_m_s: float | None) -> str:
    """Return a speed to three figures."""
    return beside(with_unit(significant(speed_m_s), "m/s"), speed_m_s, "m/s")


def square_metres(area_m2: float | None) -> str:
    """Return an area to three figures."""
    return beside(with_unit(significant(area_m2), "m²"), area_m2, "m²")


def percent(share: float | None) -> str:
    """Return a share of one as a percentage to one decimal."""
    return with_unit(fixed(None if share is None else share * 100, 1), "%")


def degrees(angle_deg: float | None) -> str:
    """Return an angle to the degree."""
    return with_unit(fixed(angle_deg), "°")


def money(amount: float | None, currency: str = "") -> str:
    """Return an amount, from 100 up without decimals, after its currency."""
    small = amount is not None and abs(amount) < _FINE
    number = fixed(amount, 2 if small else 0)
    return f"{currency}{GAP}{number}" if currency and number != BLANK else number


def _general(unit: str) -> Callable[[float], str]:
    def printed(value: float) -> str:
        """Return a number with its unit, US units beside it where they are wanted."""
        number = significant(value, 4)
        shown = with_unit(number.rstrip("0").rstrip(".") if "." in number else number, unit)
        return beside(shown, value, unit) if unit in _US else shown

    return printed


_PRINTED: dict[str, Callable[[float], str]] = {
    "kg": kilograms,
    "N": newtons,
    "N m": newton_metres,
    "Pa": pascals,
    "°": degrees,
    "deg": degrees,
    "rad": lambda angle_rad: degrees(math.degrees(angle_rad)),
    "K": lambda kelvin: with_unit(fixed(kelvin - _ICE_POINT_K), "°C"),
    "%": percent,
}


def quantity(value: object, unit: str = "") -> str:
    """Return any value of the document with its unit, in the way its unit is printed.

    Args:
        value: Number, text, yes or no, or None.
        unit: SI unit, or "%" for a share of one that is printed as a percentage; empty for none.
    """
    if value is None:
        return BLANK
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return _PRINTED.get(unit, _general(unit))(value)
    return with_unit(str(value), unit)


def spread(low: float | None, high: float | None, unit: str = "") -> str:
    """Return two masses as "low to high" with their unit once; bare numbers without one."""
    if low is None or high is None:
        return BLANK
    if not unit:
        return f"{mass(low)} to {mass(high)}"
    shown = with_unit(f"{_weighty(low)} to {_weighty(high)}", unit)
    size, name = column(unit)
    if name == unit:
        return shown
    return f"{shown} ({with_unit(f'{_weighty(low / size)} to {_weighty(high / size)}', name)})"


def place(point_m: list[float] | None) -> str:
    """Return where a point is in words, in millimetres from the datum on the wall."""
    if point_m is None:
        return BLANK
    words = (("to the right", "to the left"), ("above", "below"), ("out", "into the wall"))
    return ", ".join(
        f"{millimetres(abs(value))} {pair[round(value, 3) < 0]}"
        for value, pair in zip(point_m, words, strict=True)
    )
