"""Sums that a reader can do again: as many figures as it takes for what is printed to come out."""

import math
from collections.abc import Callable, Sequence
from decimal import Decimal

RESULT_DIGITS = 4
"""Significant figures of a result."""
_MOST_DIGITS = 15
"""All that a number holds."""


def digits(value: float, count: int = RESULT_DIGITS) -> str:
    """Return a number to so many significant figures, never in powers of ten.

    Noughts behind the point are left out.
    """
    text = format(Decimal(f"{value:.{count - 1}e}"), "f")
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text in ("-0", "0") else text


def settled(
    values: Sequence[float], formula: Callable[[Sequence[float]], float], result: float
) -> list[str]:
    """Return the values with the fewest figures from which the printed result comes out.

    Args:
        values: What goes into the formula.
        formula: What is done with them.
        result: What comes out of them unrounded.
    """
    wanted = digits(result)
    for count in range(RESULT_DIGITS, _MOST_DIGITS):
        printed = [digits(value, count) for value in values]
        if digits(formula([float(text) for text in printed])) == wanted:
            return printed
    return [digits(value, _MOST_DIGITS) for value in values]


def product(factors: Sequence[tuple[float, str]], result: float, unit: str) -> str:
    """Return a product as it is written: "2.5 m2 x 10 kg/m2 = 25 kg".

    Args:
        factors: Each with its unit, or with what it is.
        result: What they come to.
        unit: Of that.
    """
    printed = settled([value for value, _ in factors], math.prod, result)
    told = " x ".join(
        f"{text} {words}".rstrip() for text, (_, words) in zip(printed, factors, strict=True)
    )
    return f"{told} = {digits(result)} {unit}".rstrip()


def total(terms: Sequence[float], result: float) -> list[str]:
    """Return the terms of a sum, so that what is printed adds up."""
    return settled(terms, math.fsum, result)
