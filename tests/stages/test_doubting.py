"""What layers vary with, as columns."""

import numpy as np
import pytest

from estimator.resolve.records import Kind, Layer, Spread
from estimator.stages.doubting import CONFIDENCE, columns_of

SHEET = {"part": "S", "shape": "sheet", "length": "2 m", "width": "1 m", "made of": "copper",
         "gauge": "1 mm"}  # fmt: skip


@pytest.fixture(scope="module")
def table(steps):
    """Return a function that gives the columns of the layers of some parts."""
    return lambda *parts, **more: steps(upto="weights", parts=parts, **more)["weights"].layers


def test_every_cause_once(table):
    """Two sheets of one copper and gauge, one of them guessed: four causes, six entries."""
    found = table(SHEET, SHEET | {"part": "T", "confidence": "guess"})

    assert [cause.cause for cause in found.causes] == [
        "density of copper", "gauge 1 mm (1 mm, 8.93 kg/m2)",
        "the sizes of what is drawn", "the sizes of what is guessed",
    ]  # fmt: skip
    assert found.offs.row.tolist() == [0, 0, 0, 1, 1, 1]
    assert found.offs.cause.tolist() == [0, 1, 2, 0, 1, 3]
    assert found.offs.low[[2, 5]] == pytest.approx([CONFIDENCE["drawn"], CONFIDENCE["guess"]])


def test_a_cause_knows_its_figure_and_where_it_is_from(table):
    """Density 8900 to 8960, a typed gauge 5 % either way, wax by the table of finishes."""
    copper, gauge, sizes, wax = table(SHEET | {"finish": "wax"}).causes

    assert (copper.kind, copper.likely) == (Kind.DENSITY, 8930.0)
    assert copper.why.startswith("8900 to 8960 kg/m3, ")
    assert (gauge.kind, gauge.likely) == (Kind.GAUGE, pytest.approx(8.93))
    assert gauge.why.startswith("program default: 5 %")
    assert (sizes.kind, sizes.why) == (
        Kind.SIZES, "program default for what is drawn: 10 % either way"
    )  # fmt: skip
    assert (wax.kind, wax.cause) == (Kind.COAT, "mass of wax")


def test_a_standard_is_named_where_there_is_one(table):
    """EN 12588 gives rolled lead 5 % either way, as quoted."""
    lead = SHEET | {"made of": "lead", "gauge": "Code 5"}
    (gauge,) = (cause for cause in table(lead).causes if cause.kind is Kind.GAUGE)

    assert gauge.why == "EN 12588: 5 % either way (as quoted)"


def test_spreads_of_others_are_taken_as_they_are(steps):
    """Whoever lays a layer may say what its mass varies with."""
    columns = steps(upto="shapes", parts=[SHEET])["columns"]
    layer = Layer("l", "lead", "one face", 1.0, spreads=(Spread("mood", 0.3, 0.4),))
    found = columns_of(columns, np.array([0]), [layer], np.array([7.0]))

    assert found.causes[0] == Spread("mood", 0.3, 0.4)
    assert (found.offs.low[0], found.offs.high[0]) == (0.3, 0.4)


def test_no_layer_has_no_cause(steps):
    """A job without parts."""
    found = steps(upto="weights", parts=[])["weights"].layers

    assert found.causes == ()
    assert len(found.offs.row) == 0
