"""The sum behind one figure: every printed product can be done again with what is printed."""

import csv
import math
import re

import pytest

import estimator
from estimator.core.problems import RequestError
from estimator.reports import sums
from estimator.reports.why import why_text
from estimator.reports.why_side import THE_WORST, From

EN = {"basic wind speed": "24 m/s", "terrain": "II", "datum height": "6 m"}
ASCE = {"wind rule": "ASCE 7-16", "basic wind speed": "45 m/s", "terrain": "C",
        "datum height": "6 m", "show units": "inch"}  # fmt: skip
STATED = {"wind rule": "stated pressure", "stated pressure": "900 Pa", "datum height": "6 m"}
PARTS = [
    {"part": "P1", "name": "face", "assembly": "sign", "count": "1", "shape": "sheet",
     "length": "900 mm", "width": "600 mm", "across": "300 mm", "up": "200 mm", "out": "120 mm",
     "made of": "copper", "gauge": "16 SWG", "finish": "", "relief": "1.1", "cut away": "20 %"},
    {"part": "P2", "name": "<b>knob</b>", "assembly": "sign", "count": "3", "shape": "sphere",
     "diameter": "90 mm", "across": "500 mm", "up": "700 mm", "out": "120 mm", "made of": "copper",
     "gauge": "18 SWG"},
]  # fmt: skip
JOBS = {
    "at a wall": (EN, {"stands": "off wall"}),
    "free": (EN | {"structural factor": "1.1"}, {"stands": "free"}),
    "by parts": (EN, {"stands": "free", "wind": "parts"}),
    "ASCE, free": (ASCE, {"stands": "free"}),
    "ASCE, at a wall": (ASCE, {"stands": "flat to wall"}),
    "stated": (STATED, {"stands": "free", "coefficient": "1.4"}),
    "stated by side": (
        {"wind rule": "stated pressure", "datum height": "6 m",
         "stated pressure by direction": "0: 900 Pa; 90: 600 Pa; 180: 600 Pa; 270: 600 Pa"},
        {"stands": "free", "coefficient": "1.4", "source": "the engineer, 2 May"},
    ),
    "a hand": (EN, {"stands": "off wall", "moves": "turns", "axis": "out", "from": "0 deg",
                    "to": "90 deg", "positions": "3"}),
}  # fmt: skip


def rows(sheet):
    """Return the rows of a sheet of dicts, its headings first."""
    headings = list(dict.fromkeys(heading for row in sheet for heading in row))
    return [headings, *([row.get(heading, "") for heading in headings] for row in sheet)]


@pytest.fixture(scope="module")
def worked(tmp_path_factory):
    """Return a function that gives the document of a small sign, by the name of its job."""
    kept = {}

    def work(name):
        if name not in kept:
            facts, assembly = JOBS[name]
            folder = tmp_path_factory.mktemp("sign")
            sheets = {
                "job": [{"item": item, "value": value} for item, value in facts.items()],
                "parts": PARTS,
                "assemblies": [{"assembly": "sign"} | assembly],
                "weighed": [{"part": "P2", "mass": "0.9 kg",
                             "date": "2026-05-02", "scale": "bench"}],
            }  # fmt: skip
            for sheet, some in sheets.items():
                with (folder / f"{sheet}.csv").open("w", encoding="utf-8", newline="") as stream:
                    csv.writer(stream).writerows(rows(some))
            result = estimator.estimate(estimator.read_job(folder))
            assert result.complete, result.document["problems"]
            kept[name] = result.document
        return kept[name]

    return work


def joined(text):
    """Return the text with lines that went on put together again."""
    return re.sub(r"\n +", " ", text)


NUMBER = re.compile(r"-?[\d.]+")


def products(lines):
    """Yield (factors, result) of every product of the lines."""
    for line in lines:
        if line.strip().startswith(("Note:", "about ")) or " + " in line or " = " not in line:
            continue
        left, right = line.split(" = ")
        told = [part.strip() for part in left.split(": ")[-1].split(" x ")]
        yield [float(NUMBER.match(part)[0]) for part in told], NUMBER.match(right)[0]


@pytest.mark.parametrize("name", JOBS)
@pytest.mark.parametrize("side", [THE_WORST, From(0.0), From(75.0)])
def test_every_printed_product_of_the_wind_comes_out(worked, name, side):
    """To the last printed figure, and the force is the one in the document."""
    document = worked(name)
    lines = why_text(document, "sign", "wind", side, width=10_000).splitlines()
    found = list(products(lines))
    loads = document["wind"]["loads"]
    if side.direction_deg is not None:
        loads = [load for load in loads if load["direction_deg"] == side.direction_deg]
    force_n = max(math.hypot(*load["force_n"]) for load in loads)

    wanted = {"at a wall": 2, "ASCE, at a wall": 2, "a hand": 2, "by parts": 0}.get(name, 1)
    assert len(found) == wanted - (wanted == 2 and side == From(0.0))
    for factors, result in found:
        assert sums.digits(math.prod(factors)) == result
    assert f": {sums.digits(force_n)} N" in lines[0]


@pytest.mark.parametrize("name", ["at a wall", "free", "ASCE, free", "a hand"])
def test_every_printed_moment_comes_out(worked, name):
    """Arm times force less arm times force, from what is printed."""
    text = why_text(worked(name), "sign", "wind", From(75.0), width=10_000)
    pattern = r"about \w+: .*?\((\S+) m\).*?\((\S+) N\).*?\((\S+) m\).*?\((\S+) N\) = (\S+) N m"
    found = re.findall(pattern, text)

    assert len(found) >= 2
    for *numbers, moment in found:
        a, b, c, d = map(float, numbers)
        assert sums.digits(a * b - c * d) == moment


@pytest.mark.parametrize("name", JOBS)
def test_nothing_from_memory_goes_unmarked(worked, name):
    """Every step, coefficient and height that nobody saw says that it is to be checked."""
    document = worked(name)
    lines = why_text(document, "sign", "wind", width=10_000).splitlines()
    steps = document["wind"]["pressures"][0]["steps"]
    unseen = [step for step in steps if not step["confirmed"] and step["clause"]]

    for step in unseen:
        (line,) = [x for x in lines if f" {step['name']}: " in x]
        assert line.endswith("from memory: to be checked")
    for row in document["wind"]["coefficients"]:
        line = next(x for x in lines if f"source: {row['source']}" in x)
        assert row["confirmed"] or "to be checked" in line
    for line in lines:
        assert "from memory" not in line or "to be checked" in line


def test_what_hangs_at_a_wall_is_told_in_both_senses(worked):
    """Pressed to it and pulled off it, with the drag along it and the cases off the middle."""
    text = joined(why_text(worked("at a wall"), "sign", "wind", From(90.0)))

    assert "both are taken" in text
    for case in ("pressed to the wall, in the middle", "pulled off the wall, off to the left"):
        assert f"{case}: across" in text
    assert "none of this wind blows along" not in text
    assert "none of this wind blows along" in joined(
        why_text(worked("at a wall"), "sign", "wind", From(0.0))
    )
    assert "EN 1991-1-4 7.4.3(3)" in text


def test_the_area_that_drags_along_a_wall_comes_out(worked):
    """Side outline and friction on the front, each times its coefficient."""
    text = why_text(worked("at a wall"), "sign", "wind", From(75.0), width=10_000)
    (found,) = re.findall(r"along the wall: (\S+) x (\S+) m2 \+ (\S+) x (\S+) m2 = (\S+) m2", text)
    a, b, c, d = map(float, found[:4])

    assert sums.digits(a * b + c * d) == found[4]


def test_the_height_the_rule_names_is_told_with_its_reason(worked):
    """Of a free thing its own middle; a stated pressure has none."""
    assert "its own middle, as for a free board" in joined(why_text(worked("free"), "sign", "wind"))
    assert "its top, as for a sign" in joined(why_text(worked("ASCE, free"), "sign", "wind"))
    stated = joined(why_text(worked("stated"), "sign", "wind"))
    assert "Height: none is used" in stated
    assert "nobody is named as its source" in stated or "job" in stated


def test_the_structural_factor_stands_between_pressure_and_coefficient(worked):
    """1.1 times the peak pressure, once, as the factor on the job sheet says."""
    steps = {step["symbol"]: step["value"]
             for step in worked("free")["wind"]["pressures"][0]["steps"]}  # fmt: skip

    assert steps["c_s c_d"] == 1.1
    assert steps["q_p c_s c_d"] == pytest.approx(1.1 * steps["q_p"])


def test_a_part_of_an_outline_has_no_force_of_its_own(worked):
    """It says so, with what the part shows by itself, and goes on with its assembly."""
    text = joined(why_text(worked("at a wall"), "p1", "wind"))

    assert "P1 has no wind force of its own" in text
    assert "P1 shows 0.432 m2" in text  # 0.9 x 0.6 x 0.8
    assert "Wind on sign" in text


def test_parts_that_are_added_up_have_a_force_each(worked):
    """Their forces from one side add up to that of the assembly with everything in its middle."""
    document = worked("by parts")
    (shown,) = document["wind"]["shown"]
    for direction_deg in (0.0, 45.0, 180.0):
        forces = [row[1:] for part in shown["forces"] for row in part["from_n"]
                  if row[0] == direction_deg]  # fmt: skip
        (load,) = (
            row
            for row in document["wind"]["loads"]
            if row["direction_deg"] == direction_deg and "own middle" in row["case"]
        )
        for axis in range(3):
            assert math.fsum(force[axis] for force in forces) == pytest.approx(
                load["force_n"][axis], rel=1e-9, abs=1e-9
            )

    text = joined(why_text(document, "P2", "wind", From(45.0)))
    assert "wind from 45° (as asked)" in text
    assert "sphere" in text


def test_a_position_and_a_side_can_be_asked_for(worked):
    """By any part of its name that only one has."""
    document = worked("a hand")
    first = document["wind"]["loads"][0]["position"]

    text = why_text(document, "sign", "wind", From(0.0, "45"), width=10_000)
    assert "sign at 45 deg, from 0°" in text.splitlines()[0]
    assert f"{first}, from" in why_text(document, "sign", "wind", From(None, first), 10_000)


@pytest.mark.parametrize(
    ("name", "side", "told"),
    [
        ("sing", THE_WORST, "the nearest names are: sign"),
        ("P", THE_WORST, "there is no part or assembly"),
        ("sign", From(37.0), "the nearest are 30 and 45"),
        ("sign", From(180.0), "the nearest are 90 and 270"),
        ("sign", From(None, "sign"), "could be several positions"),
        ("sign", From(None, "upside down"), "is none of the positions"),
    ],
)
def test_what_is_not_there_is_refused_with_what_is(worked, name, side, told):
    """Nearest names, directions that were looked at, positions there are."""
    with pytest.raises(RequestError, match=re.escape(told)):
        why_text(worked("a hand"), name, "wind", side)


def test_a_part_whose_row_was_refused_says_so(tmp_path):
    """Not that it is not there: its cell, and what was found."""
    good = {"part": "P1", "shape": "sheet", "length": "1 m", "width": "1 m", "made of": "copper",
            "gauge": "1 mm"}  # fmt: skip
    with (tmp_path / "parts.csv").open("w", encoding="utf-8", newline="") as stream:
        csv.writer(stream).writerows(rows([good, good | {"part": "P2", "made of": "unobtainium"}]))
    found = estimator.estimate(estimator.read_job(tmp_path)).document

    with pytest.raises(RequestError, match='the row of "P2" was refused, so there is') as told:
        why_text(found, "p2", "mass")
    assert "parts!" in str(told.value)
    assert "unobtainium" in str(told.value)


@pytest.mark.parametrize("name", ["P1", "P2"])
def test_every_printed_product_of_a_mass_comes_out(worked, name):
    """Size x kg per size x factors x copies, to the last printed figure."""
    document = worked("at a wall")
    lines = why_text(document, name, "mass", width=10_000).splitlines()
    found = list(products(lines))
    (row,) = [row for row in document["parts"] if row["part"] == name]

    assert len(found) >= len(row["layers"])
    for factors, result in found:
        assert sums.digits(math.prod(factors)) == result
    for layer, (_, result) in zip(row["layers"], found, strict=False):
        assert sums.digits(layer["mass_kg"]) == result


def test_the_sum_in_the_document_is_the_mass(worked):
    """Every factor is there: hammering, cutting away, copies, and the reading of the scale."""
    for row in worked("at a wall")["parts"]:
        for layer in row["layers"]:
            told = layer["sum"]
            factors = ("size", "kg_per_size", "gained", "left", "covers", "laps", "formed", "made")
            mass_kg = math.prod(told[key] for key in factors) * row["count"]
            assert mass_kg == pytest.approx(layer["mass_kg"], rel=1e-12)
    first = worked("at a wall")["parts"][0]["layers"][0]["sum"]
    assert (first["gained"], first["left"]) == (1.1, 0.8)
    assert first["size"] == pytest.approx(0.9 * 0.6)


def test_a_mass_says_who_says_so_and_how_sure(worked):
    """The table row with how it was seen, the range, its causes, and the scale."""
    text = joined(why_text(worked("at a wall"), "P1", "mass"))
    assert "BS 3737" in text
    assert "(as quoted)" in text
    assert "How sure: " in text
    assert "gauge 16 SWG" in text
    weighed = joined(why_text(worked("at a wall"), "P2", "mass"))
    assert "On the scale with P2" in weighed
    assert "as weighed" in weighed


def test_the_parts_of_an_assembly_add_up_as_printed(worked):
    """Heaviest first, to the total of the document."""
    text = why_text(worked("at a wall"), "SIGN", "mass", width=10_000)
    terms = [float(x) for x in re.findall(r"^  P\d.*?  +([\d.]+) kg", text, re.MULTILINE)]
    (whole,) = re.findall(r"added up ([\d.]+) kg", text)

    assert len(terms) == 2
    assert terms == sorted(terms, reverse=True)
    assert sums.digits(math.fsum(terms)) == whole


@pytest.mark.parametrize("width", [60, 80, 120])
def test_nothing_is_wider_than_the_terminal(worked, width):
    """Lines go on in the next, and every one is plain text."""
    for figure in ("wind", "mass"):
        for name in ("sign", "P1", "P2"):
            for line in why_text(worked("by parts"), name, figure, width=width).splitlines():
                assert len(line) <= width
                assert "\N{NARROW NO-BREAK SPACE}" not in line


def test_a_pressure_that_differs_by_side_is_told_with_its_share(worked):
    """600 of 900 Pa from the right; the pressure from there stands in the product too."""
    text = why_text(worked("stated by side"), "sign", "wind", From(90.0), width=10_000)

    assert "900 Pa x 0.6667 of it from this side = 600 Pa" in text
    assert "900 Pa x 0.6667 from this side x 1.4 x" in text


def test_a_side_whose_outline_was_not_kept_is_told_so(document):
    """Its area and its force are there all the same."""
    text = joined(why_text(document, "bird", "wind"))

    assert "0.62 m2; of this side no more was kept" in text


def test_a_mass_that_was_given_is_not_said_to_be_from_a_table(document):
    """Kilograms each times the copies, from the workbook itself."""
    layer = document["parts"][5]["layers"][0]
    layer["sum"] |= {"size": 1.0, "unit": "", "kg_per_size": 1.535, "gained": 1.0, "cited": []}

    text = why_text(document, "T21", "mass")

    assert "1.535 kg each x 2 copies = 3.07 kg" in text
    assert "from the workbook itself" in text


def test_what_a_terminal_would_act_on_is_not_printed(document):
    """A name typed with an escape sequence or a line break is shown without either."""
    document["parts"][1]["name"] = "face\x1b[31m red\nP9 other"

    text = why_text(document, "T01", "mass")

    assert "\x1b" not in text
    assert "T01 face [31m red P9 other" in text


def test_us_units_stand_beside_where_the_job_asks_for_inches(worked):
    """The force in pounds too."""
    assert re.search(r"N \([\d ]+ lb\)", why_text(worked("ASCE, free"), "sign", "wind"))


def test_no_wind_is_told_in_a_sentence(document):
    """A job without wind says so instead of a sum of nought."""
    document["wind"]["loads"] = []

    assert "There is no wind on dial." in why_text(document, "dial", "wind")


def test_an_incomplete_result_says_so_first(document):
    """Nobody takes a sum that is short of rows for a whole one."""
    document["complete"] = False
    document["rows"]["parts"]["refused"] = 1

    assert why_text(document, "dial", "mass").startswith("INCOMPLETE")
