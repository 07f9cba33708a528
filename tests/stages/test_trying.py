"""A run with a section that is tried: it is worked out again until the section stays the same."""

from dataclasses import replace

import numpy as np
import pytest

from estimator import pipeline
from estimator.core.constants import GRAVITY_M_S2
from estimator.stages.holding_demands import Demands, Source
from estimator.supports.combinations import Combination, Kind

STRENGTH = Combination("sup", "6.10", Kind.STRENGTH, 1.35, {})
BRACKET = {"bracket": "B1", "set": "s", "across": "0 mm", "up": "0 mm", "reach": "1.5 m",
           "section": "trial HFSHS", "grade": "S235", "holds": "welded"}  # fmt: skip
PART = {"part": "p", "shape": "bought", "mass each": "1 kg"}


@pytest.fixture
def loaded(steps, monkeypatch):
    """Return a function that runs one arm under a load at its end and under its own weight."""
    hold = next(stage.run for stage in pipeline.STAGES if stage.name == "held")
    rounds = []

    def demanded(resolved, weights, *more):
        """Return the brackets with the actions of a load, and of the arm at its own end."""
        rounds.append(resolved.brackets[0].section.key)
        down_n = load_n + 1.35 * GRAVITY_M_S2 * float(weights.parts.mass_kg.sum())
        action = np.array([[0.0, -down_n, 0.0, 1.5 * down_n, 0.0, 0.0]])
        some = Demands(action, (Source(STRENGTH, "", "as drawn", "rigid"),))
        return tuple(replace(one, demands={"B1": some}) for one in hold(resolved, weights, *more))

    def run(newtons):
        nonlocal load_n
        load_n = newtons
        rounds.clear()
        return steps(upto="arms", brackets=[BRACKET], parts=[PART]), list(rounds)

    load_n = 0.0
    stages = (one._replace(run=demanded) if one.name == "held" else one for one in pipeline.STAGES)
    monkeypatch.setattr(pipeline, "STAGES", tuple(stages))
    return run


@pytest.mark.parametrize("load_n", [100.0, 1500.0, 3000.0])
def test_a_run_ends_with_the_section_it_picks(loaded, load_n):
    """The first round is of the lightest, the last of the one that is picked from it."""
    found, rounds = loaded(load_n)
    (one,) = found["arms"]
    last = found["resolved"].brackets[0].section.key

    assert rounds[0] == "HFSHS 40x40x2.6"
    assert rounds[-1] == last == one.tried.pick
    assert len(rounds) == len(set(rounds))
    assert one.tried.fits
    assert one.ratio <= 1.0


def test_the_arm_is_weighed_in_the_section_it_ends_with(loaded):
    """Its part carries the section, and so do its mass and its price."""
    found, _ = loaded(3000.0)
    (one,) = found["arms"]
    (arm,) = (part for part in found["columns"].parts if part.key == "B1 arm")

    assert arm.made_of == one.bracket.section.key
    assert one.mass.arm_kg_m == pytest.approx(one.bracket.section.area_m2 * 7850.0)


def test_a_load_that_no_section_is_within(loaded):
    """The heaviest is taken, and the run ends."""
    found, rounds = loaded(1e6)

    assert rounds[-1] == "HFSHS 100x100x6.3"
    assert not found["arms"][0].tried.fits
