"""How sure the mean of repeated readings is, against published figures.

[GUM] JCGM 100:2008, Evaluation of measurement data - Guide to the expression of uncertainty in
      measurement, 4.4.3 and its table 1: twenty readings of a temperature, their mean 100.145 C,
      experimental standard deviation 1.489 C, that of the mean 0.333 C. Readings from memory; they
      give the printed mean and deviations to every decimal.
[TN]  NIST Technical Note 1297, appendix B, table B.1: t_p(v) for the fraction p = 90 %, two
      decimals, as [GUM] table G.2 has them. Seen at nist.gov/physical-measurement-laboratory/
      nist-tn-1297-guidelines-appendix-b-table-b1.
"""

import math

import pytest

from estimator.geometry.maquettes import averaged

READINGS_C = [
    96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68,
    100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72,
]  # fmt: skip
T_90 = [
    (1, 6.31), (2, 2.92), (3, 2.35), (4, 2.13), (5, 2.02), (10, 1.81), (19, 1.73), (50, 1.68),
    (100, 1.660),
]  # fmt: skip


def test_twenty_readings_of_a_temperature():
    """[GUM] 4.4.3: printed to 0.001 C; the interval is t of [TN] for 19 times the deviation."""
    mean = averaged(READINGS_C)

    assert mean.value == pytest.approx(100.145, abs=0.0005)
    assert mean.half == pytest.approx(1.73 * 0.333, rel=0.005)


@pytest.mark.parametrize(("freedom", "factor"), T_90)
def test_the_factor_for_few_readings(freedom, factor):
    """[TN] rounds to 0.01: of readings -1 and 1 with zeros between, whose deviation is known."""
    readings = [-1.0, *[0.0] * (freedom - 1), 1.0]
    of_the_mean = math.sqrt(2 / freedom / (freedom + 1))

    assert averaged(readings).half / of_the_mean == pytest.approx(factor, abs=0.005)
