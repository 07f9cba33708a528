"""Slender parts, ice and working wind in the estimate document."""

import json

import jsonschema
import pytest

from estimator.reports.document import schema

KEYS = ("slender", "ice", "working_wind")
PARTS = [
    {"part": "rod", "shape": "rod", "length": "1 m", "diameter": "10 mm", "made of": "copper",
     "along": "up"},
    {"part": "ball", "shape": "sphere", "diameter": "60 mm", "made of": "copper", "gauge": "1 mm",
     "up": "530 mm"},
    {"part": "chain", "shape": "run", "length": "2 m", "kg per m": "1 kg/m"},
]  # fmt: skip
SITE = {"basic wind speed": "24 m/s", "datum height": "12 m"}
JOBS = [
    {},
    SITE,
    SITE | {"ice thickness": "10 mm", "lifting wind limit": "9.8 m/s", "altitude": "300 m"},
    {"ice thickness": "60 mm", "wind rule": "stated pressure", "stated pressure": "1 kPa"},
]


@pytest.mark.parametrize("job", JOBS)
def test_the_records_keep_the_schema(document, job):
    """Whatever is known or not, without a number that is none."""
    found = document(parts=PARTS, job=job)
    described = schema()

    for key in KEYS:
        part = {**described["properties"][key], "$defs": described["$defs"]}
        jsonschema.validate(found[key], part)
        json.dumps(found[key], allow_nan=False)


def test_what_is_recorded_of_a_rod_with_a_ball(document):
    """Both frequencies, the line it does not reach, and the wind by Beaufort."""
    rod = document(parts=PARTS, job=SITE)["slender"]["parts"][0]

    assert (rod["part"], rod["tip"]) == ("rod", "ball")
    assert rod["hz"][0] < rod["alone_hz"][0] < rod["alone_hz"][1]
    assert rod["below"] == ["EN 1991-1-4 6.2(1)"]
    assert rod["speeds"]["critical_beaufort"] == [0, 0]


def test_no_ice_is_null_and_ice_names_what_it_leaves_out(document):
    """A chain has no surface that is known."""
    assert document(parts=PARTS, job=SITE)["ice"] is None

    ice = document(parts=PARTS, job=SITE | {"ice thickness": "10 mm"})["ice"]
    assert ice["bare"] == ["chain"]
    assert ice["wind_level"] == "peak characteristic"
    assert ice["ice_kg"] == pytest.approx(sum(one["ice_kg"] for one in ice["parts"]))
    assert ice["ice_kg"] == pytest.approx(sum(one["ice_kg"] for one in ice["assemblies"]))


def test_a_gust_of_the_map_is_named_by_the_mean_it_belongs_to(document):
    """ASCE 7 maps a 3-second gust: 56 m/s is a mean of 40 m/s at 10 m, with no mean at a part."""
    job = {"wind rule": "ASCE 7-16", "combination rule": "ASCE 7-16 strength", "terrain": "C",
           "basic wind speed": "56 m/s", "datum height": "12 m"}  # fmt: skip
    found = document(parts=PARTS, job=job)

    (spoken,) = found["working_wind"]["spoken"]
    assert spoken["speed_m_s"] == pytest.approx(40.0)
    assert spoken["beaufort"] == 12
    assert found["working_wind"]["used_kg_m3"] is None
    assert found["slender"]["parts"][0]["speeds"]["sheds"] is None
