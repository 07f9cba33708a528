"""The job at other sizes in the document."""

import math

import pytest

STATED = {"wind rule": "stated pressure", "stated pressure": "1 kPa"}


def test_the_sizes_of_the_document(document):
    """A line for each size as figures that can be written; powers under the figures' names."""
    lump = {"part": "L", "shape": "bought", "mass each": "100 kg"}
    brackets = [{"bracket": "B", "set": "s", "across": "0 m", "up": "0 m", "reach": "300 mm",
                 "section": "SHS 60x60x4", "grade": "mild steel", "holds": "welded"}]  # fmt: skip
    sizes = document(parts=[lump], brackets=brackets, job=STATED)["sizes"]

    assert [line["times"] for line in sizes["lines"]] == [0.8, 0.9, 1.0, 1.1, 1.25]
    assert not any(math.isnan(line["mass_kg"]) for line in sizes["lines"])
    assert sizes["growth"]["mass_kg"] == pytest.approx(0.0)
    assert [pull["set"] for pull in sizes["growth"]["pulls"]] == ["s"]
    assert sizes["misfits"] == []


def test_sizes_without_parts_and_with_a_misfit(document):
    """No lines and no powers; a size that cannot be is named with its reason."""
    tube = {"part": "T", "shape": "tube", "length": "1 m", "diameter": "10 mm", "wall": "4.2 mm",
            "made of": "mild steel"}  # fmt: skip

    assert document(parts=[])["sizes"] == {"lines": [], "growth": None, "misfits": []}
    (misfit,) = document(parts=[tube])["sizes"]["misfits"]
    assert misfit["times"] == 0.8
    assert misfit["why"].startswith("T: ")
