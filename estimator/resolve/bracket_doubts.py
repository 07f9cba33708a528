"""What a person should look at on a bracket row that can be used: its plate and its fixings."""

from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

from estimator.core.problems import Problem, Severity
from estimator.resolve.names import refusal
from estimator.resolve.records import Bracket, Fixings, Plate
from estimator.sheets.rows import Row

SAME_M = 1e-9
"""Sizes that differ by less are one size, for they came from the same typed figures."""


class _Way(NamedTuple):
    """One of the two ways in which fixings stand in rows.

    Attributes:
        number: Field of how many.
        pitch: Field of how far apart.
        plate: Field of the size of the plate.
    """

    number: str
    pitch: str
    plate: str


ACROSS = _Way("fixings_across", "pitch_across", "plate_width")
UP = _Way("fixings_up", "pitch_up", "plate_height")
NOT_THEN = "until then nothing is worked out for its plate and fixings; its arm is"


def plate_doubts(row: Row, bracket: Bracket) -> Iterator[Problem]:
    """Yield what keeps the plate of a bracket from being worked out, or cannot be so.

    Args:
        row: Its row, which can be used.
        bracket: As resolved.
    """
    yield from _missing(row, bracket)
    if bracket.fixings is None:
        return
    for way in (ACROSS, UP):
        yield from _spread(row, bracket.fixings, bracket.plate, way)


def _missing(row: Row, bracket: Bracket) -> Iterator[Problem]:
    """Yield what the fixings lack, each beside what calls for it."""
    fixings = bracket.fixings
    if fixings is None:
        typed = [way.number for way in (ACROSS, UP) if row.has(way.number)]
        blank = [way.number for way in (ACROSS, UP) if not row.has(way.number)]
        if typed:
            yield _asked(row, blank[0], _blank(blank[0]), "1 or more, as there is the other")
        return
    if bracket.plate is None:
        yield _asked(row, ACROSS.plate, "there are fixings but no wall plate",
                     "plate width, height and thickness")  # fmt: skip
    if not fixings.diameter_m > 0:
        yield _asked(row, "fixing_diameter", _blank("fixing_diameter"), "a trial size, for pricing")
    for way, count, pitch_m in _rows(fixings):
        if count > 1 and not pitch_m > 0:
            yield _asked(row, way.pitch, _blank(way.pitch),
                         f"how far apart the {count} fixings stand")  # fmt: skip


def _spread(row: Row, fixings: Fixings, plate: Plate | None, way: _Way) -> Iterator[Problem]:
    """Yield what is wrong with where the fixings of one way stand."""
    _, count, pitch_m = next(one for one in _rows(fixings) if one[0] is way)
    diameter_m = fixings.diameter_m if fixings.diameter_m > 0 else 0.0
    if count > 1 and 0 < pitch_m < diameter_m:
        found = f"the fixings are {_mm(diameter_m)} thick and stand {_mm(pitch_m)} apart"
        yield _asked(row, way.pitch, found, "more than the fixing diameter", "look at both sizes")
    span_m = (count - 1) * pitch_m if count > 1 else 0.0
    has_m = plate.height_m if plate and way is UP else plate.width_m if plate else float("inf")
    if span_m + diameter_m > has_m + SAME_M:
        found = (
            f"the fixings take {_mm(span_m + diameter_m)}, the wall plate has {_mm(has_m)}, so "
            "some stand outside of it"
        )
        yield _asked(row, way.plate, found, "a wall plate that is larger than its fixings",
                     "look at the plate, the pitch and the fixing diameter")  # fmt: skip


def _rows(fixings: Fixings) -> tuple[tuple[_Way, int, float], ...]:
    return (
        (ACROSS, fixings.across, fixings.pitch_across_m),
        (UP, fixings.up, fixings.pitch_up_m),
    )


def _blank(name_field: str) -> str:
    return f'"{name_field.replace("_", " ")}" is blank'


def _mm(length_m: float) -> str:
    return f"{1000 * length_m:.4g} mm"


def _asked(row: Row, name_field: str, found: str, expected: str, advice: str = NOT_THEN) -> Problem:
    asked = refusal(row, name_field, found, expected, advice)
    return replace(asked, severity=Severity.QUESTION)
