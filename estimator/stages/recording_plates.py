"""Records of wall plates and fixings, for the estimate document."""

from collections.abc import Iterator
from typing import Any

from estimator.stages.plate_figures import FixingLoad, Found, Governing, InCombination, OnWall, Pair
from estimator.stages.plating import Plated, Plates, StayPoint
from estimator.stages.recording_arms import source_record
from estimator.stages.recording_loads import known, numbers
from estimator.supports.fixings import PROOF_TESTS, proof_tests

SOFTER = "a softer wall means more pull on the fixings and less pressure on the wall"


def plates_record(plates: Plates) -> dict[str, Any]:
    """Return what the plates and the fixings of all brackets do."""
    return {
        "stiffness_ratios": list(plates.ratios),
        "ratio_told": plates.told,
        "brackets": [_plated(one) for one in plates.plated],
        "proof_tests": _proof_tests(plates),
    }


def assumptions(plates: Plates) -> Iterator[tuple[str, str, str]]:
    """Yield what was taken for granted of the plates: what, its value, why."""
    if not any(one.found for one in plates.plated):
        return
    yield (
        "wall plates",
        "flat, in one-sided contact; fixings equally stiff, and slack before anything acts",
        (
            "a plate that bends, prying and fixings of unequal length pull more on those near "
            "the arm"
        ),
    )
    yield (
        "holes of the fixings",
        "filled, so that all share the shear",
        "with clearance a few of them carry it all until the plate has slipped",
    )
    if not plates.told:
        yield (
            "wall stiffness ratio",
            f"{', '.join(f'{ratio:g}' for ratio in plates.ratios)} in turn, the worst of each told",
            SOFTER,
        )


def _plated(one: Plated) -> dict[str, Any]:
    bracket = one.bracket
    return {
        "bracket": bracket.key,
        "set": bracket.set_name,
        "plate": None if bracket.plate is None else bracket.plate._asdict(),
        "diameter_m": known(bracket.fixings.diameter_m) if bracket.fixings else None,
        "area_m2": known(one.area_m2),
        "area_from": one.area_from,
        "missing": one.missing,
        "found": None if one.found is None else _found(one.found),
        "stay": _point(one.stay),
        "own": _point(one.own),
    }


def _point(point: StayPoint | None) -> dict[str, Any] | None:
    return None if point is None else {k: _pair(v) for k, v in point._asdict().items()}


def _found(found: Found) -> dict[str, Any]:
    return {
        "fixings": [_fixing(one) for one in found.fixings],
        "combinations": [_combination(one) for one in found.combinations],
        "walls": [_wall(one) for one in found.walls],
        "rules": found.rules._asdict(),
        "governing": _governing(found.governing),
        "cases": found.cases,
        "residual": found.residual,
        "turn_nm": found.turn_nm,
    }


def _pair(pair: Pair) -> dict[str, Any]:
    return {
        "pull_n": pair.pull_n,
        "shear_n": pair.shear_n,
        "ratio": known(pair.ratio),
        **source_record(pair.source),
    }


def _fixing(one: FixingLoad) -> dict[str, Any]:
    return {
        "number": one.number,
        "at_m": numbers(one.at_m),
        "pull": _pair(one.pull),
        "shear": _pair(one.shear),
        "service": None if one.service is None else _pair(one.service),
    }


def _combination(one: InCombination) -> dict[str, Any]:
    return {
        "combination": one.combination.name,
        "clause": one.combination.clause,
        "pull_n": numbers(one.pull_n),
        "shear_n": numbers(one.shear_n),
    }


def _wall(one: OnWall) -> dict[str, Any]:
    return {
        "ratio": one.ratio,
        "pull_n": one.pull_n,
        "peak_pa": one.peak_pa,
        "peak_source": source_record(one.peak_source),
    }


def _governing(one: Governing) -> dict[str, Any]:
    return {
        "ratio": one.ratio,
        "action": numbers(one.action),
        "pull_n": numbers(one.pull_n),
        "shear_n": [numbers(shear) for shear in one.shear_n],
        "outline_m": [numbers(corner) for corner in one.outline_m],
        "pressed_n": one.pressed_n,
        "peak_pa": one.peak_pa,
        **source_record(one.source),
    }


def _proof_tests(plates: Plates) -> list[dict[str, Any]]:
    """Return how many fixings would be proof tested, and to what, all brackets as one area."""
    found = [one.found for one in plates.plated if one.found]
    pulls_n = [f.service.pull_n for one in found for f in one.fixings if f.service]
    if not pulls_n:
        return []
    fixings = sum(len(one.fixings) for one in found)
    return [
        {
            "share": test.share,
            "times": test.times,
            "fixings": fixings,
            "tests": min(fixings, proof_tests([fixings], test)[0]),
            "load_n": test.times * max(pulls_n),
        }
        for test in PROOF_TESTS
    ]
