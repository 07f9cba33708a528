"""Cells into values: one reader for each thing a column may hold.

A reader takes the column, the unit in its heading and what stands in the cell. It returns the
value, or a `Doubtful` one; what it cannot use it refuses with a `UnitError` or a `CellError`.
"""

import datetime as dt
import difflib
import math
import re
from collections.abc import Callable, Mapping
from functools import cache, partial
from typing import Any, NamedTuple

from estimator.core.units import (
    KINDS,
    Amount,
    Kind,
    MissingUnitError,
    UnitError,
    comma_advice,
    format_quantity,
    parse_amount,
    parse_quantity,
    parse_scale,
    tidied,
    wanted,
)
from estimator.sheets.cells import ErrorValue, NoSavedValue, Percent, Raw
from estimator.sheets.columns import Column, Reads

LONGEST_TEXT = 2_000
_LONGEST_QUOTE = 60
_MOST_TOLD = 1e4
"""A limit from here on only keeps out what nobody means, and is not worth telling."""
_MOST_PARTS = 3
_GAUGE = re.compile(r"\b(?:code|swg|awg|bwg|msg|gauge|gage|ga|oz|zinc no)\b|\d ?oz$|\bcode\d", re.I)
_TIMES = re.compile(r" ?[x×] ?", re.IGNORECASE)  # noqa: RUF001 - merchants write it so
_SIZES = frozenset({Reads.SIZE, Reads.LAYER})
_LEADING_NUMBER = re.compile(r"\d+(?:\.\d+)?")
_POWER_OF_TEN = re.compile(r"\de[+\d]", re.IGNORECASE)
_WITH_COMMA = re.compile(r"-?[\d.]*,[\d.,]*\d")
_CURRENCY = r"(?:[A-Z]{3}|[^\w\s%.,+/-])"
_PRICE = re.compile(
    rf"{_CURRENCY}? ?(?P<number>\d[\d.,]*\d|\d) ?{_CURRENCY}?"
    r"(?i: ?(?:pounds|euros|dollars|each|(?:/|per|an?\b)[a-z ]+))?"
)
"""A price with its currency and what it is for; not 5 %, 36-40 nor 2.5k, which are other numbers.
"""
_UNIT_AT_END = re.compile(r"(?:(?!e[+-]?\d)[^\W\d_]|['\"]).*", re.IGNORECASE)
_LONG = frozenset({"length", "height"})
_POINTS = (
    "N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE", "S", "SSW", "SW", "WSW", "W", "WNW", "NW",
    "NNW",
)  # fmt: skip
_POINT_RAD = {point: math.radians(22.5 * index) for index, point in enumerate(_POINTS)}
_POINT_WORDS = str.maketrans({" ": "", "-": ""})


_AS_TEXT = "Format the cell as text and type it again"


class CellError(UnitError):
    """A cell that cannot be used for another reason than its unit."""


class Doubtful(NamedTuple):
    """A value that is used as typed, and what a person should look at."""

    value: Any
    found: str
    expected: str
    advice: str


Reader = Callable[[Raw], Any]
"""From what stands in a cell that is not blank to its value, or a `Doubtful` one."""


def reader(column: Column, heading_unit: str = "") -> Reader:
    """Return what reads the cells of a column, given the unit in its heading."""
    return partial(_READERS[column.reads], column, heading_unit or column.bare)


def folded(text: str) -> str:
    """Return text as names are compared: without case, with hyphens as spaces."""
    return " ".join(text.lower().replace("-", " ").replace("_", " ").split())


def quoted(raw: Raw, unit: str = "") -> str:
    """Return what stands in a cell in quotes, cut short where it is long."""
    match raw:
        case Percent():
            text = f"{100 * raw.value:.15g} %"
        case bool():
            text = str(raw).upper()
        case int() | float():
            text = f"{raw:.15g} {unit}".strip()
        case dt.date():
            text = f"{raw.day} {raw:%B %Y}"
        case _:
            text = str(raw)
    return f'"{text}"' if len(text) <= _LONGEST_QUOTE else f'"{text[:_LONGEST_QUOTE]}..."'


def _refuse_traps(raw: Raw, expected: str, again: str = _AS_TEXT) -> None:
    """Refuse what a spreadsheet puts in a cell that nobody typed so, and say how to type again."""
    match raw:
        case NoSavedValue():
            found = (
                f'the formula "={raw.formula}" has no saved value'
                if raw.formula
                else ("a formula here has no saved value")
            )
            advice = "open the file in your spreadsheet program and save it, or type the value"
        case ErrorValue():
            found = f"{raw.text} is an error, not a value"
            advice = "put the formula right, or type the value"
        case dt.date():
            found = f"the cell holds a date, {quoted(raw)}"
            meant = f"{raw.month}/{raw.day}"
            advice = f"did you mean {meant} or {raw.day}/{raw.month}? {again.format(meant)}"
        case dt.time() | dt.timedelta():
            found = f"the cell holds a time of day, {_hours_minutes(raw)}"
            advice = f"did you mean {_hours_minutes(raw)}? {_AS_TEXT}"
        case str() if len(raw) > LONGEST_TEXT:
            found = f"the text is {len(raw)} characters long"
            advice = f"keep it below {LONGEST_TEXT}"
        case _:
            return
    raise CellError(found, expected, advice)


def _hours_minutes(raw: dt.time | dt.timedelta) -> str:
    if isinstance(raw, dt.time):
        return f"{raw.hour}:{raw.minute:02d}"
    minutes = int(raw.total_seconds() // 60)
    return f"{minutes // 60}:{minutes % 60:02d}"


def _written(raw: Raw, expected: str) -> str:
    """Return a cell as the text a person sees in it."""
    if isinstance(raw, str) and len(raw) <= LONGEST_TEXT:
        return raw
    _refuse_traps(raw, expected)
    return quoted(raw)[1:-1]


def _text(_column: Column, _unit: str, raw: Raw) -> str:
    if isinstance(raw, dt.date):
        return raw.isoformat()[:10]
    return _written(raw, "text").strip()


def _name(_column: Column, _unit: str, raw: Raw) -> str:
    return " ".join(_written(raw, "a name").split())


def _choice(column: Column, _unit: str, raw: Raw) -> str:
    meanings = column.meanings or [""] * len(column.choices)
    listed = map(" ".join, zip(column.choices, meanings, strict=True))
    expected = f"one of: {', '.join(map(str.strip, listed))}"
    if isinstance(raw, bool):
        raw = "yes" if raw else "no"
    text = folded(_written(raw, expected))
    known = _choices(column.choices)
    if text in known:
        return known[text]
    near = difflib.get_close_matches(text, known, n=1)
    advice = f"did you mean {known[near[0]]}?" if near else ""
    found = f"{quoted(raw)} is not a choice here"
    raise CellError(found, expected, advice)


@cache
def _choices(choices: tuple[str, ...]) -> dict[str, str]:
    return {folded(choice): choice for choice in choices}


def _as_number(raw: Raw, column: Column, expected: str) -> float:
    """Return the plain number in a cell, if it is one that makes sense there."""
    _refuse_traps(raw, expected)
    text = tidied(raw) if isinstance(raw, str) else ""
    value = math.nan
    if isinstance(raw, int | float) and not isinstance(raw, bool):
        value = raw
    elif _LEADING_NUMBER.fullmatch(text.removeprefix("-")):
        value = float(text)
    if not math.isfinite(value):
        found = f"{quoted(raw)} is not a plain number"
        raise CellError(found, expected, _plain_advice(text, column))
    within = _limits(column) if column.reads is Reads.NUMBER else ""
    _refuse_outside(value, column, quoted(raw), expected + within)
    return value


def _plain_advice(text: str, column: Column) -> str:
    """Return what to type instead of a text that is no plain number."""
    if _WITH_COMMA.fullmatch(text):
        return comma_advice(text)
    if column.reads is not Reads.MONEY:
        return ""
    price = _PRICE.fullmatch(text)
    if price and _LEADING_NUMBER.fullmatch(price["number"]):
        return f"type the plain number {price['number']}"
    if price and "," in price["number"]:
        return comma_advice(price["number"])
    return "type one plain number, such as 260"


def _plain(column: Column, _unit: str, raw: Raw) -> float | Doubtful:
    expected = "a plain number without a unit"
    value = float(_as_number(raw, column, expected))
    return _if_text(raw, value, expected) or value


def _limits(column: Column) -> str:
    """Return what a plain number may be, to follow what is expected; blank for any."""
    low, high = column.at_least, column.at_most
    if math.isfinite(low) and high < _MOST_TOLD:
        return f", from {low:.15g} to {high:.15g}"
    return f", {low:.15g} or more" if math.isfinite(low) else ""


def _count(column: Column, _unit: str, raw: Raw) -> int | Doubtful:
    expected = f"a whole number, {column.at_least:.0f} or more"
    if isinstance(raw, str) and column.unit and raw.lower().endswith(column.unit):
        raw = _as_number(raw[: -len(column.unit)].strip(), column, expected)
    value = _as_number(raw, column, expected)
    if value != math.floor(value):
        found = f"{quoted(raw)} is not a whole number"
        raise CellError(found, expected, "")
    return _if_text(raw, int(value), expected) or int(value)


def _if_text(raw: Raw, value: float, expected: str) -> Doubtful | None:
    """Return a number that was typed as text as one to look at."""
    if not isinstance(raw, str):
        return None
    advice = f"it was used as {value:.15g}; format the cell as a number and type it again"
    return Doubtful(value, f"{quoted(raw)} is text, not a number", expected, advice)


def _refuse_outside(
    value: float, column: Column, typed: str, expected: str, kind: Kind | None = None
) -> None:
    """Refuse a value that is not between the limits of its column."""
    if column.reads in _SIZES and not value > 0:
        found = f"{typed} is {'negative' if value < 0 else 'zero'}"
        advice = "leave it out if there is no such thing"
        raise CellError(found, f"{expected}, more than zero", advice)
    if value < column.at_least:
        found = f"{typed} is less than {_bound(column.at_least, column, kind)}"
        raise CellError(found, expected, "")
    if value > column.at_most:
        found = f"{typed} is more than {_bound(column.at_most, column, kind)}"
        raise CellError(found, expected, "")


def _bound(bound: float, column: Column, kind: Kind | None) -> str:
    """Return a limit of a column as a person would type it."""
    if not bound or kind is None:
        return f"{bound:.15g}"
    number, unit = format_quantity(bound, column.unit or kind.unit, 9).split(maxsplit=1)
    return f"{float(number):.15g} {unit}"


def _quantity(column: Column, unit: str, raw: Raw) -> float:
    kind = KINDS[column.kinds[0]]
    if not isinstance(raw, float):
        raw = _measurable(raw, (kind,))
    value = parse_quantity(raw, kind, unit)
    if not kind.holds(value):
        raise _far_out(value, kind, quoted(raw, unit))
    if not (value > 0 and column.at_least <= value <= column.at_most):
        _refuse_outside(value, column, quoted(raw, unit), wanted((kind,)), kind)
    return value


def _measurable(raw: Raw, kinds: tuple[Kind, ...]) -> str | float:
    """Return what a cell holds as far as it can be a number with a unit."""
    unit = "in" if kinds[0].name in _LONG else kinds[0].unit
    _refuse_traps(raw, wanted(kinds), f'Type "{{}} {unit}", with its unit')
    if isinstance(raw, Percent):
        return quoted(raw)[1:-1]
    if isinstance(raw, str | int | float) and not isinstance(raw, bool):
        return raw
    found = f"{quoted(raw)} is not a number"
    raise CellError(found, wanted(kinds), "")


def _far_out(value: float, kind: Kind, typed: str) -> CellError:
    """Return why a value cannot be that of such a thing, with the unit perhaps meant.

    Used as typed it would drown every total, so the row is left out instead.
    """
    number = None if _POWER_OF_TEN.search(typed) else _LEADING_NUMBER.search(typed)
    meant = [
        f"{number[0]} {unit}"
        for unit in kind.units
        if number and unit.isalpha() and kind.holds(parse_quantity(float(number[0]), kind, unit))
    ]
    size = "large" if abs(value) > kind.high else "small"
    advice = f"did you mean {meant[0]}?" if meant else ""
    return CellError(f"{typed} is too {size} for anything here", wanted((kind,)), advice)


def _share(column: Column, unit: str, raw: Raw) -> float:
    kind = KINDS[column.kinds[0]]
    value = parse_quantity(_measurable(raw, (kind,)), kind, unit)
    most = min(column.at_most, 1.0)
    if not 0.0 <= value <= most:
        limit = "less than 0 %" if value < 0 else f"more than {100 * most:.15g} %"
        found = f"{quoted(raw, unit)} is {limit}"
        raise CellError(found, f"a share from 0 % to {100 * most:.15g} %", "")
    return value


def _amount(column: Column, unit: str, raw: Raw) -> Amount | Doubtful:
    kinds = tuple(KINDS[name] for name in column.kinds)
    amount = parse_amount(_measurable(raw, kinds), kinds, unit)
    kind = KINDS[amount.kind]
    if not kind.holds(amount.value):
        raise _far_out(amount.value, kind, quoted(raw, unit))
    _refuse_outside(amount.value, column, quoted(raw, unit), wanted(kinds), kind)
    return amount


def _layer(column: Column, unit: str, raw: Raw) -> Amount | Doubtful:
    if isinstance(raw, str) and _GAUGE.search(raw):
        return Amount("gauge", math.nan, tidied(raw))
    return _amount(column, unit, raw)


def _gauge(_column: Column, unit: str, raw: Raw) -> str:
    expected = "a gauge with its system, or a thickness, such as 18 SWG or 1.2 mm"
    if isinstance(raw, int | float) and not isinstance(raw, bool):
        return quoted(raw, unit)[1:-1]
    text = tidied(_written(raw, expected))
    return f"{text} {unit}" if unit and _LEADING_NUMBER.fullmatch(text) else text


def _stock_size(column: Column, unit: str, raw: Raw) -> tuple[float, ...]:
    kind = KINDS[column.kinds[0]]
    expected = "a size as sold, such as 2000 x 1000 mm or 6 m"
    measurable = _measurable(raw, (kind,))
    typed = tidied(measurable) if isinstance(measurable, str) else f"{measurable:.15g}"
    parts = _TIMES.split(typed)
    if len(parts) > _MOST_PARTS:
        found = f"{quoted(raw)} has more than {_MOST_PARTS} sides"
        raise CellError(found, expected, "")
    last_unit = _UNIT_AT_END.search(parts[-1])
    if not unit and not last_unit:
        raise MissingUnitError(typed, kind, expected)
    if last_unit:
        parts = [part if _UNIT_AT_END.search(part) else f"{part} {last_unit[0]}" for part in parts]
    sizes = tuple(parse_quantity(part, kind, unit) for part in parts)
    if not min(sizes) > 0:
        found = f"{quoted(raw)} is not more than zero"
        raise CellError(found, expected, "")
    if not kind.holds(max(sizes)):
        raise _far_out(max(sizes), kind, quoted(raw, unit))
    _refuse_outside(min(sizes), column, quoted(raw, unit), expected, kind)
    return sizes


def _scale(_column: Column, _unit: str, raw: Raw) -> float:
    return parse_scale(_written(raw, "the scale of a model, such as 1:10"))


def _compass(column: Column, unit: str, raw: Raw) -> float:
    expected = "a compass point such as SE, or a bearing such as 135 deg"
    text = _written(raw, expected)
    point = text.upper().translate(_POINT_WORDS)
    for word in ("NORTH", "EAST", "SOUTH", "WEST"):
        point = point.replace(word, word[0])
    if point in _POINT_RAD:
        return _POINT_RAD[point]
    try:
        return _quantity(column, unit, text) % math.tau
    except UnitError as error:
        raise CellError(error.found, expected, 'type "SE" or "135 deg"') from error


def _date(_column: Column, _unit: str, raw: Raw) -> dt.date:
    if isinstance(raw, dt.datetime):
        return raw.date()
    if isinstance(raw, dt.date):
        return raw
    expected = "a date such as 2026-03-04"
    text = _written(raw, expected).strip()
    try:
        return dt.date.fromisoformat(text)
    except ValueError as error:
        found = f"{quoted(raw)} is not a date"
        raise CellError(found, expected, "type year-month-day") from error


def _fact(_column: Column, _unit: str, raw: Raw) -> Raw:
    return raw


_READERS: Mapping[Reads, Callable[..., Any]] = {
    Reads.TEXT: _text,
    Reads.NAME: _name,
    Reads.CHOICE: _choice,
    Reads.COUNT: _count,
    Reads.NUMBER: _plain,
    Reads.MONEY: _plain,
    Reads.QUANTITY: _quantity,
    Reads.SIZE: _quantity,
    Reads.SHARE: _share,
    Reads.AMOUNT: _amount,
    Reads.LAYER: _layer,
    Reads.GAUGE: _gauge,
    Reads.STOCK_SIZE: _stock_size,
    Reads.SCALE: _scale,
    Reads.COMPASS: _compass,
    Reads.DATE: _date,
    Reads.FACT: _fact,
}
