"""Numbers as they are printed: rounded, grouped, with their unit. None is printed as a word."""

import math
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
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
    """A US unit: how many of the SI unit it is, and decimals it is printed with."""

    size: float
    name: str
    decimals: int


_US: Mapping[str, _Us] = MappingProxyType(
    {
        "Pa": _Us(47.88026, "psf", 1),
        "N": _Us(4.448222, "lb", 0),
        "N m": _Us(1.355818, f"lb{GAP}ft", 0),
        "m/s": _Us(0.44704, "mph", 0),
        "m": _Us(0.3048, "ft", 1),
        "mm": _Us(25.4, "in", 1),
        "kg": _Us(0.45359237, "lb", 1),
    }
)
"""What stands beside an SI unit for who works in inches; a pound is a force, or the mass that
weighs so much."""
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
    return with_unit(fixed(number, decimals), name)


def _beside(shown: str, value: float | None, unit: str) -> str:
    """Return what is printed, with the US unit in brackets where that was asked for."""
    if value is None or not _US_BESIDE.get():
        return shown
    return f"{shown} ({in_us(value, unit)})"


def column(unit: str) -> tuple[float, str]:
    """Return what of a unit one is in a column of bare numbers, and the unit at its head.

    A column has no room for two: the US unit takes the place of the SI unit where it was asked for.
    """
    us = _US.get(unit) if _US_BESIDE.get() else None
    return (1.0, unit) if us is None else (us.size, us.name)


def kilograms(mass_kg: float | None) -> str:
    """Return a mass to the kilogram from 100 kg up, below that to three figures."""
    return _beside(with_unit(mass(mass_kg), "kg"), mass_kg, "kg")


def mass(mass_kg: float | None) -> str:
    """Return the bare number of kilograms, for a column headed kg."""
    if mass_kg is not None and abs(mass_kg) >= _FINE:
        return fixed(mass_kg)
    return significant(mass_kg)


def newtons(force_n: float | None) -> str:
    """Return a force to the newton, from 1 kN up in kilonewtons to two decimals."""
    if force_n is not None and abs(force_n) >= _KILO:
        return _beside(with_unit(fixed(force_n / _KILO, 2), "kN"), force_n, "N")
    return _beside(with_unit(fixed(force_n), "N"), force_n, "N")


def newton_metres(moment_nm: float | None) -> str:
    """Return a moment to three figures, from 1 kN m up in kilonewton metres."""
    if moment_nm is not None and abs(moment_nm) >= _KILO:
        shown = with_unit(fixed(moment_nm / _KILO, 2), f"kN{GAP}m")
    else:
        shown = with_unit(significant(moment_nm), f"N{GAP}m")
    return _beside(shown, moment_nm, "N m")


def bare_millimetres(length_m: float | None) -> str:
    """Return the bare whole number of millimetres, for drawings and columns headed mm."""
    return fixed(None if length_m is None else length_m * _KILO)


def millimetres(length_m: float | None) -> str:
    """Return a length to the millimetre."""
    shown = with_unit(bare_millimetres(length_m), "mm")
    return _beside(shown, None if length_m is None else length_m * _KILO, "mm")


def metres(length_m: float | None) -> str:
    """Return a length in metres to the centimetre."""
    return _beside(with_unit(fixed(length_m, 2), "m"), length_m, "m")


def pascals(pressure_pa: float | None) -> str:
    """Return a pressure to the pascal."""
    return _beside(with_unit(fixed(pressure_pa), "Pa"), pressure_pa, "Pa")


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
        number = significant(value, 4)
        shown = with_unit(number.rstrip("0").rstrip(".") if "." in number else number, unit)
        return _beside(shown, value, unit) if unit in _US else shown

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


def with_us(value: object, unit: str = "") -> str:
    """Return a value as `quantity` does, with its US unit in brackets where it has one."""
    with us_beside():
        return quantity(value, unit)


def spread(low: float | None, high: float | None, unit: str = "") -> str:
    """Return "low to high" with the unit once."""
    if low is None or high is None:
        return BLANK
    return with_unit(f"{mass(low)} to {mass(high)}", unit)


def place(point_m: list[float] | None) -> str:
    """Return where a point is in words, in millimetres from the datum on the wall."""
    if point_m is None:
        return BLANK
    words = (("to the right", "to the left"), ("above", "below"), ("out", "into the wall"))
    return ", ".join(
        f"{millimetres(abs(value))} {pair[round(value, 3) < 0]}"
        for value, pair in zip(point_m, words, strict=True)
    )
