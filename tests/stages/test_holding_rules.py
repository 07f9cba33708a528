"""The combinations of a job: whose factors, at which altitude, for which wind."""

import pytest

import estimator
from estimator.files.shelf import Shelf
from estimator.resolve.job import resolve
from estimator.stages.holding_rules import factors_used, rules_for
from estimator.supports.combinations import WeightRange

DISC = {"part": "d", "shape": "disc", "diameter": "1 m", "made of": "copper", "gauge": "1 mm"}
ACTIONS = ("wind", "snow", "person")
STRENGTH_WIND = {"wind rule": "stated pressure", "stated pressure": "1 kPa",
                 "stated pressure kind": "strength level"}  # fmt: skip


@pytest.fixture(scope="module")
def job(steps):
    """Return a function that resolves a job of one disc with some facts."""

    def resolve(**facts):
        return steps(upto="resolved", parts=[DISC], job=facts)["resolved"]

    return resolve


def variable(resolved, name, actions=ACTIONS):
    """Return the factors on the variable actions of one combination."""
    return next(dict(c.variable_factors) for c in rules_for(resolved, actions) if c.name == name)


def test_recommended_factors(job):
    """EN 1990: psi0 of wind 0.6 and of snow 0.5 beside the leading action, times 1.5."""
    assert variable(job(), "6.10 sup: person leading with wind and snow") == pytest.approx(
        {"person": 1.5, "wind": 0.9, "snow": 0.75}
    )


def test_factors_of_the_uk_annex(job):
    """psi0 of wind 0.5 and xi 0.925 (Worked Examples to Eurocode 2, at eurocode.us)."""
    british = job(**{"national annex": "UK", "combination rule": "EN 1990 6.10a/b"})

    assert variable(british, "6.10b sup: person leading with wind and snow")["wind"] == 0.75
    (permanent,) = {c.permanent_factor for c in rules_for(british, ACTIONS)
                    if c.name.startswith("6.10b sup")}  # fmt: skip
    assert permanent == pytest.approx(0.925 * 1.35)


@pytest.mark.parametrize(("altitude", "psi0"), [("1000 m", 0.5), ("1001 m", 0.7)])
def test_snow_lies_longer_high_up(job, altitude, psi0):
    """EN 1990 Table A1.1: 0.5 up to 1000 m; 0.7 above it is from memory."""
    found = variable(job(altitude=altitude), "6.10 sup: wind leading with snow")

    assert found["snow"] == pytest.approx(1.5 * psi0)


def test_the_consequence_factor_of_the_job(job):
    """1.1 on 1.35 and on 1.5."""
    found = {c.name: c for c in rules_for(job(**{"consequence factor": 1.1}), ACTIONS)}
    leading = found["6.10 sup: wind leading"]

    assert (leading.permanent_factor, leading.variable_factors["wind"]) == pytest.approx(
        (1.485, 1.65)
    )


def test_factors_with_their_sources(job):
    """Each by its symbol once; xi only where 6.10b is used; none by ASCE 7."""
    plain, by_pair = job(), job(**{"combination rule": "EN 1990 6.10a/b"})
    american = job(**STRENGTH_WIND, **{"combination rule": "ASCE 7-16 ASD"})

    symbols = [factor.symbol for factor in factors_used(plain, ACTIONS)]
    assert symbols == ["gamma_g_sup", "gamma_g_inf", "gamma_q", "gamma_g_sup_equ",
                       "gamma_g_inf_equ", "gamma_q_equ", "psi0 wind", "psi0 snow",
                       "psi0 person"]  # fmt: skip
    assert "xi" in [factor.symbol for factor in factors_used(by_pair, ACTIONS)]
    assert all(f.source and f.locator for f in factors_used(by_pair, ACTIONS))
    assert not list(factors_used(american, ACTIONS))


def test_a_strength_level_wind_never_meets_a_partial_factor(written, library):
    """The job is told, has no wind figures, and no combination is made with that wind."""
    read = estimator.read_job(written({"parts": [DISC], "job": STRENGTH_WIND}))
    resolved = resolve(read, library, "", Shelf(read.folder))

    assert any("would be counted a second time" in p.found for p in resolved.problems)
    assert not resolved.weather.known
    with pytest.raises(ValueError, match="would be counted a second time"):
        rules_for(resolved, ACTIONS)
    with pytest.raises(ValueError, match="would be counted a second time"):
        rules_for(resolved, ("ice", "wind on ice"))
    assert rules_for(resolved, ("snow", "person"))


def test_a_strength_level_wind_meets_its_own_rules(job):
    """1.0 W by strength, 0.6 W by allowable stress."""
    for rule, factor in (("ASCE 7-16 strength", 1.0), ("ASCE 7-22 ASD", 0.6)):
        found = rules_for(job(**STRENGTH_WIND, **{"combination rule": rule}), ("wind",))
        assert max(
            c.variable_factors.get("wind", 0.0) for c in found if c.kind == "strength"
        ) == factor  # fmt: skip


def test_a_wide_weight_is_in_the_factors(job):
    """1.35 x 1.2 on what is unfavourable."""
    found = {c.name: c for c in rules_for(job(), ("wind",), WeightRange(0.9, 1.2))}

    assert found["6.10 sup (high weight): wind leading"].permanent_factor == pytest.approx(1.62)


@pytest.mark.parametrize("rule", ["ASCE 7-16 strength", "ASCE 7-16 ASD"])
def test_an_answered_pressure_does_not_slip_past(written, library, rule):
    """A pressure from a letter counts as characteristic, and 1.0 or 0.6 W is not for that."""
    site = {"wind rule": "ASCE 7-16", "basic wind speed": "50 m/s", "datum height": "10 m",
            "terrain": "C", "combination rule": rule}  # fmt: skip
    answer = {"about": "pressure", "answer": "1 kPa", "who": "J. Marsh", "date": "2026-03-04"}
    read = estimator.read_job(written({"parts": [DISC], "job": site, "answers": [answer]}))
    resolved = resolve(read, library, "", Shelf(read.folder))

    assert not resolved.weather.known
    with pytest.raises(ValueError, match="would leave out the partial factor"):
        rules_for(resolved, ACTIONS)


def test_uplift_against_the_weight(steps):
    """Set A: 1.5 x what lifts less 0.9 x the weight that holds; more than 1.00 of it in set B."""
    bracket = {"bracket": "B1", "set": "s", "across": "0 m", "up": "0 m", "reach": "300 mm",
               "section": "SHS 60x60x4", "grade": "mild steel", "holds": "welded"}  # fmt: skip
    lump = {"part": "lump", "shape": "bought", "mass each": "100 kg", "confidence": "quoted"}
    lift = {"load": "jack", "assembly": "a", "force": "1.2 kN", "direction": "up",
            "cause": "mechanism"}  # fmt: skip
    found = steps(upto="held", parts=[lump], brackets=[bracket], extra_loads=[lift],
                  assemblies=[{"assembly": "a", "carried by": "s"}])  # fmt: skip
    (up,) = (row for row in found["held"][0].governing if row.component == "uplift")

    weight_n = found["weights"].listed_kg * 9.80665
    assert up.value == pytest.approx(1.5 * 1200 - 0.9 * weight_n)
    assert up.combination.name == "EQU inf: mechanism leading"


def test_an_answered_factor_takes_the_place_of_the_table(written, library):
    """1.6 on the wind, as somebody said, in place of 1.50; its source is who said so."""
    answer = {"about": "partial factor variable", "answer": 1.6, "who": "J. Marsh",
              "date": "2026-03-04"}  # fmt: skip
    read = estimator.read_job(written({"parts": [DISC], "answers": [answer]}))
    resolved = resolve(read, library, "", Shelf(read.folder))
    found = {c.name: c for c in rules_for(resolved, ("wind",))}
    (factor,) = (one for one in factors_used(resolved, ("wind",)) if one.symbol == "gamma_q")

    assert found["6.10 sup: wind leading"].variable_factors["wind"] == 1.6
    assert (factor.source, factor.locator) == ("J. Marsh, 2026-03-04", "answers!B2")
