"""Which causes widen the range of the whole, and by how much."""

import math

import pytest

from estimator.resolve.records import Kind
from estimator.stages.narrowing import MOST, narrow

SHEET = {"part": "S", "name": "skin", "shape": "sheet", "length": "2 m", "width": "1 m",
         "made of": "copper", "gauge": "1 mm"}  # fmt: skip
BEAM = {"part": "W", "shape": "box", "length": "1 m", "width": "200 mm", "depth": "200 mm",
        "made of": "oak European", "confidence": "quoted"}  # fmt: skip


def point(key, mass_kg, **cells):
    """Return a part that weighs what it says and has no size."""
    return {"part": key, "shape": "bought", "mass each": f"{mass_kg!r} kg"} | cells


@pytest.fixture(scope="module")
def widest(steps):
    """Return a function that gives what widens the mass of some parts."""

    def find(*parts, **sheets):
        found = steps(upto="weights", parts=parts, **sheets)
        return narrow(found["columns"], found["weights"])

    return find


def test_guesses_and_drawings(widest):
    """100 kg drawn (10) and 30 kg guessed (6): 11.66 kg off; known, 6 or 10 are left."""
    drawn, guessed = widest(point("a", 100.0), point("b", 30.0, confidence="guess"))

    assert (drawn.cause.cause, guessed.cause.cause) == (
        "the sizes of what is drawn", "the sizes of what is guessed"
    )  # fmt: skip
    assert (drawn.down_kg, drawn.up_kg) == pytest.approx((10.0, 10.0))
    assert (drawn.known_low_kg, drawn.known_high_kg) == pytest.approx((124.0, 136.0))
    assert (guessed.known_low_kg, guessed.known_high_kg) == pytest.approx((120.0, 140.0))


def test_the_parts_that_carry_it(widest):
    """Four drawn parts of 50, 30, 15 and 5 kg: three are told, and what those alone would do."""
    (found,) = widest(*(point(f"p{kg:g}", kg) for kg in (5.0, 50.0, 15.0, 30.0)))

    assert [share.part.key for share in found.chief] == ["p50", "p30", "p15"]
    assert [share.off_kg for share in found.chief] == pytest.approx([5.0, 3.0, 1.5])
    assert found.parts == 4
    # 9.5 of the 10 kg would be known.
    assert (found.chief_low_kg, found.chief_high_kg) == pytest.approx((99.5, 100.5))


def test_what_to_weigh_of_a_gauge(widest):
    """Copper of 8.93 kg/m2, 5 % by gauge and 30 in 8930 by density: what 0.1 m2 comes to."""
    (gauge,) = (one for one in widest(SHEET) if one.cause.kind is Kind.GAUGE)
    tenth, foot = gauge.samples

    off = math.hypot(0.05, 30 / 8930)
    assert (tenth.piece, foot.piece) == ("0.1 m²", "1 square foot")
    assert tenth[1:] == pytest.approx((0.893, 0.893 * (1 - off), 0.893 * (1 + off)))
    assert foot.likely_kg == pytest.approx(8.93 * 0.3048**2)


def test_what_to_weigh_of_timber(widest):
    """A litre of oak: by its density and its moisture together."""
    found = {one.cause.kind: one for one in widest(BEAM)}
    (litre,) = found[Kind.DENSITY].samples

    oak, damp = found[Kind.DENSITY].cause, found[Kind.MOISTURE].cause
    assert litre.likely_kg == pytest.approx(oak.likely / 1000)
    assert litre.low_kg == pytest.approx(litre.likely_kg * (1 - math.hypot(oak.low, damp.low)))
    assert found[Kind.MOISTURE].samples == ()


def test_at_most_five_the_widest_first(widest):
    """Two materials, a gauge, a finish and three classes of sizes make more than five."""
    found = widest(SHEET | {"finish": "wax"}, BEAM | {"finish": "alkyd gloss"},
                   point("a", 10.0, confidence="guess"))  # fmt: skip

    off_kg = [one.down_kg + one.up_kg for one in found]
    assert len(found) == MOST
    assert off_kg == sorted(off_kg, reverse=True)


def test_the_allowance_widens_with_the_rest(widest):
    """5 % more mass that is not listed yet errs as the listed does."""
    (found,) = widest(point("a", 100.0), job={"not listed yet": "5 %"})

    assert found.down_kg == pytest.approx(10.5)
    assert found.known_low_kg == pytest.approx(105.0)


def test_what_was_weighed_is_as_sure_as_its_scale(widest):
    """Nothing but the scale is left, and no trace of what it took the place of."""
    (found,) = widest(SHEET, point("a", 5.0), weighed=[{"assembly": "a", "mass": "24 kg"}])

    assert (found.cause.kind, found.cause.cause) == (Kind.SCALE, "the scale that is not named")
    assert found.down_kg == pytest.approx(0.02 * 24)


def test_what_was_weighed_does_not_count_among_what_varies(widest):
    """Three sheets of one gauge, two of them on a scale: the gauge is about the third alone."""
    sheets = [SHEET | {"part": key} for key in ("S", "T", "U")]
    scale = [{"part": "S", "mass": "17 kg"}, {"part": "T", "mass": "19 kg"}]
    found = widest(*sheets, weighed=scale)
    (gauge,) = (one for one in found if one.cause.kind is Kind.GAUGE)

    assert gauge.parts == 1
    assert [share.part.key for share in gauge.chief] == ["U"]
    assert (gauge.chief_low_kg, gauge.chief_high_kg) == (gauge.known_low_kg, gauge.known_high_kg)


def test_nothing_listed_is_sure(widest):
    """A job without parts, or of parts without mass, has nothing to narrow."""
    assert widest() == ()
    assert widest(SHEET | {"cut away": "100 %"}) == ()
