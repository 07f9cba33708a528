"""The sum behind the stress ratio of one arm: from the estimate document alone."""

import math
from collections.abc import Iterator, Sequence
from difflib import get_close_matches

from estimator.core.problems import RequestError
from estimator.reports import arms, figures
from estimator.reports.document import Document
from estimator.reports.sums import digits, settled

_CM3, _MM2, _MPA = 1e6, 1e6, 1e-6
_NEIGHBOURS = 3
_ROUNDING = 1e-9
_WAYS = ("across", "up", "out")


def bracket(document: Document, name: str) -> list[str]:
    """Return how the stress ratio of a bracket's arm came about.

    Args:
        document: The estimate document.
        name: The mark of a bracket.

    Raises:
        RequestError: There is no such bracket.
    """
    found = {arm["bracket"].casefold(): arm for arm in document["arms"]}
    key = name.casefold().strip()
    refused = [one for one in document["problems"] if one["severity"] == "refused"]
    if key not in found and key in (one["part"].casefold() for one in refused):
        msg = f'the row "{name}" cannot be used; `estimator check` says what is wrong with it'
        raise RequestError(msg)
    if key not in found:
        near = get_close_matches(key, found, n=_NEIGHBOURS, cutoff=0.0)
        choices = ", ".join(found[one]["bracket"] for one in near) or "none there yet"
        msg = f'there is no bracket "{name}" with an arm; the nearest names are: {choices}'
        raise RequestError(msg)
    return list(_told(found[key]))


def _told(arm: Document) -> Iterator[str]:
    ratio = arms.ratio_words(arm["ratio"], arm["gamma_m0"])
    yield f"Stress ratio of the arm of {arm['bracket']}: {ratio}"
    yield (
        f"{arm['section']}, {arm['standard']}, {arm['made']}; its load bears "
        f"{figures.millimetres(arm['bears_m'])} from the wall"
    )
    stress = arm["stress"]
    if stress is None:
        yield "No factored action is known, so there is no stress."
        return
    yield ""
    yield f"Worst cut, {figures.millimetres(stress['at_m'])} from the wall, with partial factors:"
    yield f"  {arms.comes_from(stress)}"
    forces, moments = stress["action"][:3], stress["action"][3:]
    yield f"  it brings to the wall {_each(forces, 'N')}"
    yield f"  and moments {_each(moments, 'N m')}"
    yield ""
    yield from _stresses(arm["moduli"], stress)
    yield ""
    if arm["note"]:
        yield f"{arm['note'][:1].upper()}{arm['note'][1:]}."
    elif arm["yield_pa"]:
        yield from _ratio(arm)


def _each(values: Sequence[float], unit: str) -> str:
    """Return what acts each way; what is there by rounding alone is nought."""
    least = _ROUNDING * max(map(abs, values))
    values = [value if abs(value) > least else 0.0 for value in values]
    return ", ".join(f"{way} {digits(value)} {unit}"
                     for way, value in zip(_WAYS, values, strict=True))  # fmt: skip


def _stresses(moduli: Document, stress: Document) -> Iterator[str]:
    """Yield each stress as the sum it is."""
    across, up, out, bends, sways, twists = map(abs, stress["action"])
    root = moduli["is_round"]
    yield _pair("bending", stress["bending_pa"], "N m", "cm3", root=root, terms=[
        (bends, moduli["bends_m3"] * _CM3), (sways, moduli["sways_m3"] * _CM3),
    ])  # fmt: skip
    along = [(out, moduli["area_m2"] * _MM2)]
    yield _pair("along", stress["axial_pa"], "N", "mm2", root=False, terms=along)
    sheared = [(across, moduli["shear_across_m2"] * _MM2), (up, moduli["shear_up_m2"] * _MM2)]
    if moduli["is_hollow"] and not root:
        sheared = [max(sheared, key=lambda term: term[0] / term[1])]
    yield _pair("shear", stress["shear_pa"], "N", "mm2", root=True, terms=sheared)
    if stress["torsion_pa"]:
        twisted = [(twists, moduli["twists_m3"] * _CM3)]
        yield _pair("twist", stress["torsion_pa"], "N m", "cm3", root=False, terms=twisted)
    normal = (stress["bending_pa"] + stress["axial_pa"]) * _MPA
    sheer = (stress["shear_pa"] + (stress["torsion_pa"] or 0.0)) * _MPA
    together = stress["von_mises_pa"] * _MPA
    first, second = settled([normal, sheer], lambda x: math.hypot(x[0], 3**0.5 * x[1]), together)
    yield (
        f"  all together: square root of ({first} squared + 3 x {second} squared) = "
        f"{digits(together)} MPa, EN 1993-1-1 6.2.1(5)"
    )


def _pair(
    name: str, stress_pa: float, unit: str, over: str, *, root: bool,
    terms: Sequence[tuple[float, float]],
) -> str:  # fmt: skip
    """Return a stress as a sum of quotients, or as the root of the sum of their squares."""
    flat = [value for term in terms for value in term]

    def formula(values: Sequence[float]) -> float:
        """Return what the printed figures come to."""
        quotients = [a / b for a, b in zip(values[::2], values[1::2], strict=True)]
        return math.hypot(*quotients) if root else math.fsum(quotients)

    printed = settled(flat, formula, stress_pa * _MPA)
    told = [f"{a} {unit} / {b} {over}" for a, b in zip(printed[::2], printed[1::2], strict=True)]
    joined = " + ".join(told)
    if root and len(told) > 1:
        joined = "square root of (" + " + ".join(f"({one}) squared" for one in told) + ")"
    return f"  {name}: {joined} = {digits(stress_pa * _MPA)} MPa"


def _ratio(arm: Document) -> Iterator[str]:
    values = [arm["stress"]["von_mises_pa"] * _MPA, arm["gamma_m0"], arm["yield_pa"] * _MPA]
    together, gamma, yield_mpa = settled(values, lambda x: x[0] * x[1] / x[2], arm["ratio"])
    yield f"Stress ratio: {together} MPa x {gamma} / {yield_mpa} MPa = {digits(arm['ratio'])}"
    yield f"  yield of {arm['counted_as']}: {arm['yield_source']}"
    yield f"  partial factor: {arm['gamma_source']}"
