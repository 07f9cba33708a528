"""How loads are combined, as printed."""

from estimator.reports import combining, figures
from estimator.reports.page import page_html


def test_factors_say_where_they_are_from(document):
    """And which of them are from memory."""
    printed = combining.context(document)["factors"]

    assert printed == [
        ("gamma_G on weight that is unfavourable", "1.35",
         "EN 1990, Table A1.2(B), set B, as quoted elsewhere"),
        ("psi_0 of person", "0.7",
         "EN 1990, Table A1.1, categories A and B, from memory: to be checked"),
    ]  # fmt: skip


def test_an_expression_has_one_line_with_every_factor(document):
    """Leading first, then beside another; what only leaves actions out adds nothing."""
    lines = combining.lines(document["combinations"])

    assert [(line.name, line.kind, line.permanent, line.factors) for line in lines] == [
        ("6.10 sup (high weight)", "strength", "1.51", ("1.5 or 0.75", "1.5 or 1.05")),
        ("6.14b", "movement, nothing factored", "1", ("1", "")),
    ]


def test_allowable_stress_is_called_so(document):
    """Its factors are not those of strength."""
    lines = combining.lines(document["combinations"] | {"rule": "ASCE 7-16 ASD"})

    assert lines[0].kind == "allowable stress"


def test_only_a_wide_weight_is_told(document):
    """Of the dial the range is narrow."""
    assert combining.weights(document["combinations"]) == [
        "Set ledge: 85.0\u202f% and 112.0\u202f% of the likely weight."
    ]


def test_what_lies_on_things_is_told(document):
    """Snow with what is not in it, water with its parts, and a load that counts nowhere."""
    snow, typed, water, lost = combining.burdens(document["burdens"])

    assert "ledge 2.06 m²" in figures.plain(snow)
    assert "Drift against the wall is not in it." in snow
    assert typed == "Typed in its place: the snow on bird."
    assert "the whole inside of T15; filled, so without water: T16" in water
    assert lost == "No listed bracket carries what E9 acts on: it is in no figure here."


def test_no_room_for_water_is_told(document):
    """Nothing counts, and that must not pass unseen."""
    water = document["burdens"]["water"][0] | {"parts": [], "filled": []}

    assert combining.burdens({**document["burdens"], "water": [water]})[2] == (
        "W1: bird has no closed hollow shape, so no water counts."
    )


def test_nothing_lies_on_things():
    """No snow, no water, no sentence."""
    nothing = {"snow": None, "water": [], "typed": [], "not_held": []}

    assert combining.burdens(nothing) == []


def test_the_page_has_the_section(document):
    """With the rule, the annex, the convention of the files, and the sign-off."""
    page = page_html(document)
    section = page.split('<section id="combinations">')[1].split("</section>")[0]

    assert "Rule: EN 1990 6.10, national annex UK; consequence factor K_FI 1.0" in section
    assert "across + to the right, up + uplift, out + pull-out" in section
    assert "A structural engineer must check and sign off" in section
