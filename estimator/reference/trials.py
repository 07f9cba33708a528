"""Trials: the sections that can be tried where a maker has not chosen one, lightest first."""

from collections.abc import Mapping
from types import MappingProxyType

from estimator.reference.library import Library
from estimator.reference.rows import fold
from estimator.reference.sections import Section, sections

TRIAL = "trial"
"""What a maker types for a section that is to be tried; the family wanted may follow."""
_HOLLOW = ("SHS", "RHS", "CHS")
_BOTH, _HOT, _COLD = (False, True), (True,), (False,)
_WANTED: Mapping[str, tuple[tuple[str, ...], tuple[bool, ...]]] = MappingProxyType(
    {
        "": (_HOLLOW, _BOTH),
        "hollow": (_HOLLOW, _BOTH),
        "hotfinished": (_HOLLOW, _HOT),
        "coldformed": (_HOLLOW, _COLD),
        **{name.casefold(): ((name,), _BOTH) for name in _HOLLOW},
        **{f"hf{name.casefold()}": ((name,), _HOT) for name in _HOLLOW},
        **{f"cf{name.casefold()}": ((name,), _COLD) for name in _HOLLOW},
        **{name.casefold(): ((name,), _COLD) for name in ("Flat", "Round", "L", "UPN", "UPE")},
    }
)
"""What may follow, folded: the families, and whether they are finished hot."""
ALLOWED = "trial, or trial with a family: SHS, RHS, CHS, HFSHS (hot-finished), CFSHS, Flat, Round"


def is_trial(text: str) -> bool:
    """Return whether a section is to be tried."""
    return text.casefold().split()[:1] == [TRIAL]


def trial_sections(library: Library, text: str, metal: str) -> tuple[Section, ...]:
    """Return the sections of the table that a maker wants tried, lightest first.

    Args:
        library: The tables.
        text: As typed: "trial", "trial RHS".
        metal: Family of the metal. Stainless tubes have sizes of their own; square and
            rectangular ones are tried in the sizes of EN 10219-2.

    Returns:
        None of them when the family is not known.
    """
    wanted = _WANTED.get(fold(" ".join(text.split()[1:])))
    if wanted is None:
        return ()
    families, hot = wanted
    found = [
        section
        for section in sections(library)
        if section.family in families and section.hot in hot and _made_in(section, metal)
    ]
    return tuple(sorted(found, key=lambda section: (section.area_m2, section.key)))


def _made_in(section: Section, metal: str) -> bool:
    """Return whether a section of the table is made in a metal."""
    if metal == "stainless":
        return section.metal == metal or (section.family != "CHS" and not section.hot)
    return not section.metal
