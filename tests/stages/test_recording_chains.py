"""What the document keeps of how each wind load came about."""

import json

import jsonschema
import numpy as np
import pytest

from estimator.reports.document import schema
from estimator.stages import recording_chains
from estimator.stages.recording_chains import chain_records

SITE = {"basic wind speed": "24 m/s", "terrain": "II", "datum height": "8 m"}
BOARD = {"part": "B", "shape": "sheet", "length": "2 m", "width": "1 m", "across": "0.5 m",
         "made of": "copper", "gauge": "1 mm"}  # fmt: skip
BEHIND = BOARD | {"part": "C", "length": "1 m", "out": "-100 mm"}


@pytest.fixture(scope="module")
def chains(steps):
    """Return a function that gives the records of parts of one assembly, and what they are of."""

    def work(*parts, job=SITE, **assembly):
        found = steps(upto="wind", parts=parts, assemblies=[{"assembly": "a"} | assembly], job=job)
        told = (found[key] for key in ("resolved", "shapes", "groups", "wind"))
        return chain_records(*told), found

    return work


def test_the_records_are_as_the_schema_says(chains):
    """In every way of blowing; and plain enough for a file."""
    properties = schema()["properties"]["wind"]["properties"]
    for how in ({"stands": "off wall"}, {"stands": "free"}, {"stands": "free", "wind": "parts"}):
        records, _ = chains(BOARD, BEHIND, **how)
        again = json.loads(json.dumps(records, allow_nan=False))
        for key, value in again.items():
            jsonschema.validate(value, properties[key] | {"$defs": schema()["$defs"]})


def test_what_hides_is_told_beside_what_is_counted(chains):
    """A board of 2 m2 before one of 1 m2: 2 m2 each spot once, 3 m2 one by one."""
    (chain,) = chains(BOARD, BEHIND, stands="free")[0]["chains"]
    face_on = next(row for row in chain["outlines"] if row["direction_deg"] == 0.0)

    assert face_on["area_m2"] == pytest.approx(2.0)
    assert face_on["summed_area_m2"] == pytest.approx(3.0)
    assert face_on["width_m"] == pytest.approx(2.0)
    assert face_on["middle_m"] == pytest.approx([0.5, 0.0, -0.1 / 3], abs=0.05)


def test_holes_are_told_by_the_outline_without_them(chains):
    """A quarter of the board is cut away: the filled outline still has all of it."""
    (chain,) = chains(BOARD | {"cut away": "25 %"}, stands="free")[0]["chains"]
    face_on = next(row for row in chain["outlines"] if row["direction_deg"] == 0.0)

    assert face_on["area_m2"] == pytest.approx(1.5)
    assert face_on["filled_area_m2"] == pytest.approx(2.0)


def test_every_position_has_a_chain_and_alike_pressures_are_told_once(chains):
    """A hand that turns about its middle keeps its height: three chains, one pressure."""
    turning = {"moves": "turns", "axis": "out", "from": "0 deg", "to": "90 deg", "positions": "3"}
    records, _ = chains(BOARD | {"across": "0 m"}, stands="free", **turning)

    assert len(records["chains"]) == 3
    assert len({chain["position"] for chain in records["chains"]}) == 3
    assert len(records["pressures"]) == 1
    high = chains(BOARD | {"across": "2 m"}, stands="free", **turning)[0]
    assert len(high["pressures"]) == 3
    assert [chain["pressure"] for chain in high["chains"]] == [0, 1, 2]


def test_where_a_force_acts_gives_its_moment(chains):
    """Arm x force is the moment of every load that acts in one place."""
    for how in ({"stands": "off wall"}, {"stands": "free"}):
        wind = chains(BOARD, **how)[1]["wind"].groups[0]
        places = wind.points_m.shape[3]
        for k in np.flatnonzero(np.any(wind.wrench[0, 0] != 0.0, axis=-1)):
            direction, place = k // (2 * places), k % places
            at_m = wind.points_m[0, 0, direction, place]
            force_n, moment_nm = wind.wrench[0, 0, k, :3], wind.wrench[0, 0, k, 3:]
            assert np.cross(at_m, force_n) == pytest.approx(moment_nm, rel=1e-9, abs=1e-9)


def test_of_too_many_outlines_the_governing_ones_are_kept(chains, monkeypatch):
    """One direction of each assembly in each position: that of its largest force."""
    monkeypatch.setattr(recording_chains, "MOST_OUTLINES", 3)
    records, found = chains(BOARD, stands="free")
    (outline,) = records["chains"][0]["outlines"]
    wrench = found["wind"].groups[0].wrench[0, 0]
    worst = int(np.argmax(np.linalg.norm(wrench[:, :3], axis=-1)))

    assert outline["direction_deg"] == found["wind"].cases[worst].direction_deg


def test_of_too_many_parts_only_the_governing_side_is_kept(chains, monkeypatch):
    """The force on each part from there, whichever side that is."""
    monkeypatch.setattr(recording_chains, "MOST_PARTS", 1)
    (shown,) = chains(BOARD, BEHIND, stands="free", wind="parts")[0]["shown"]

    assert {row[0] for part in shown["forces"] for row in part["from_n"]} == {
        shown["direction_deg"]
    }


def test_a_stated_pressure_has_no_height(chains):
    """None, never NaN; and the share of each side is one."""
    job = {"wind rule": "stated pressure", "stated pressure": "900 Pa"}
    records, _ = chains(BOARD, job=job, stands="free")

    assert records["pressures"][0]["height_m"] is None
    assert {row["share"] for row in records["chains"][0]["outlines"]} == {1.0}


def test_without_wind_there_is_nothing_to_tell(chains):
    """No pressure, no chain, no part shown."""
    records, _ = chains(BOARD, job={}, stands="free")

    assert records == {"pressures": [], "chains": [], "shown": []}
