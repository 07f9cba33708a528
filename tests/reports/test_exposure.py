"""Slender parts, ice and working wind in print: rows, sentences with numbers, rounding."""

import pytest
from jinja2 import Environment, PackageLoader, StrictUndefined

from estimator.reports import exposure, figures, page, sentences


@pytest.fixture
def tube(document):
    """Return the one slender part of the document."""
    return document["slender"]["parts"][0]


@pytest.fixture
def ice():
    """Return ice on one assembly."""
    dial = {
        "assembly": "dial", "ice_kg": 83.5, "cg_m": [0.0, -0.08, 0.155], "weight_n": 819.0,
        "front_m2": 4.75, "iced_front_m2": 4.80, "side_m2": 0.255, "iced_side_m2": 0.297,
        "front_n": 3002.0, "side_n": 134.0,
    }  # fmt: skip
    return {
        "thickness_m": 0.006, "density_kg_m3": 900.0, "ice_class": "G1",
        "wind_level": "peak characteristic", "reduction": 0.4, "ice_kg": 83.5,
        "cg_m": [0.0, -0.08, 0.155], "assemblies": [dial],
        "parts": [{"part": "T01", "ice_kg": 83.5}],
        "combinations": [{"name": "ice leading", "ice": 1.0, "wind": 0.5},
                         {"name": "wind leading", "ice": 0.5, "wind": 1.0}],
        "bare": ["T43"],
    }  # fmt: skip


def test_a_slow_part_is_said_with_its_number(document):
    """The line, the part, its frequency, what is asked, and that the clause is from memory."""
    slow, shedding = exposure.shaking(document["slender"])

    assert slow == (
        "Not above 5 Hz: T31 (4.33 to 4.57). Below that a factor of 1 is not given to it, and an"
        " engineer must treat it as what answers to gusts (EN 1991-1-4 6.2(1); from memory: to be"
        " checked)."
    )
    assert "T31 at 0.289 to 0.305 m/s (Beaufort 0)" in shedding


def test_a_line_that_was_read_is_not_called_remembered(document, tube):
    """ASCE 7 as quoted."""
    tube["below"] = ["ASCE 7-16 26.11.5"]
    slow = exposure.shaking(document["slender"])[0]

    assert slow.startswith("Not above 1 Hz: T31")
    assert slow.endswith("(ASCE 7-16 26.11.5).")


def test_what_does_not_matter_makes_no_sentence(document, tube):
    """Fast and beyond the wind: only the table says so."""
    tube |= {"below": [], "speeds": {**tube["speeds"], "sheds": False}}

    assert exposure.shaking(document["slender"]) == []


def test_galloping_is_said_with_the_factor(document, tube):
    """Speed, factor, and that there are better ones."""
    tube |= {
        "below": [],
        "speeds": {**tube["speeds"], "sheds": False, "gallops": True, "galloping_factor": 10.0,
                   "galloping_m_s": 6.62},
    }  # fmt: skip
    (sentence,) = exposure.shaking(document["slender"])

    assert "T31 from 6.62 m/s (a_G 10)" in figures.plain(sentence)


def test_a_bar_that_cannot_be_told_is_named(document):
    """With the reason."""
    document["slender"] |= {"parts": [], "unknown": [{"part": "T9", "why": "it has no mass"}]}

    assert exposure.shaking(document["slender"]) == ["T9 is a long bar, but it has no mass."]


def test_many_parts_are_counted(document, tube):
    """Six are named, the rest counted."""
    document["slender"]["parts"] = [{**tube, "part": f"T{i}"} for i in range(9)]

    assert "T5 (4.33 to 4.57) and 3 more" in exposure.shaking(document["slender"])[0]


def test_parts_alike_share_a_line_and_the_slowest_are_printed(document, tube):
    """Two alike on one line; of fourteen lines twelve are printed."""
    others = [{**tube, "part": f"U{i}", "hz": [10.0 + i, 10.0 + i]} for i in range(13)]
    document["slender"]["parts"] = [tube, {**tube, "part": "T32"}, *others]
    found = exposure.context(document)

    assert found["bars"][0].part == "T31, T32"
    assert len(found["bars"]) == 12
    assert found["more_bars"] == 2


def test_an_arm_has_no_wind_of_its_own(tube):
    """Dashes where nothing was asked, and share of set by name."""
    tube |= {"tip": "share of set", "tip_kg": 25.0, "speeds": None}
    (line,) = exposure.bars([tube])

    assert line.tip == "share of set, 25.0\N{NARROW NO-BREAK SPACE}kg"
    assert {line.critical, line.mean, line.sheds, line.galloping, line.gallops} == {"\N{EN DASH}"}


def test_a_mean_wind_that_is_not_known(tube):
    """Said as a word, not as no."""
    tube["speeds"] |= {"mean_m_s": None, "sheds": None, "gallops": None}
    (line,) = exposure.bars([tube])

    assert (line.mean, line.sheds, line.gallops) == ("not known",) * 3


def test_ice_in_both_combinations(ice):
    """Weight in full with half the wind, and half the weight with all of it."""
    (row,) = exposure.iced(ice)

    leading, wind = row.together
    gap = "\N{NARROW NO-BREAK SPACE}"
    assert leading[1:] == (f"819{gap}N", f"1.50{gap}kN", f"67{gap}N")
    assert wind[1:] == (f"410{gap}N", f"3.00{gap}kN", f"134{gap}N")


def test_ice_without_wind(ice):
    """Not known, not nought."""
    ice["assemblies"][0] |= {"front_n": None, "side_n": None}

    assert exposure.iced(ice)[0].together[0].front == "not known"


def test_ice_is_said_with_its_source_and_what_it_leaves_out(ice):
    """Mass, class, share of the pressure; that it is at the brackets; what has no surface."""
    told = " ".join(exposure.icing(ice))

    assert "class G1, with 40.0" in told
    assert "from memory: to be checked" in told
    assert "the wind with it in every case, are causes of their own at the brackets" in told
    assert "No surface is known of T43" in told


def test_no_surface_missing_no_sentence(ice):
    """Nothing to name."""
    assert not any("No surface" in text for text in exposure.icing({**ice, "bare": []}))


def test_the_wind_by_name_and_the_air(document):
    """At 1000 m the standard atmosphere has 1.112 kg/m3: 12.4 % more is used."""
    working = document["working_wind"]
    assert [figures.plain(words) for words in exposure.winds(working)] == [
        "A wind of 24.0 m/s, the basic wind speed, is Beaufort 9, strong gale."
    ]

    high = {**working, "altitude_m": 1000.0, "density_kg_m3": 1.11166}
    assert "12.4" in exposure.winds(high)[1]
    assert len(exposure.winds({**high, "used_kg_m3": None})) == 1


def test_lifting_as_a_share_then_as_a_speed(document):
    """Blank limit: a share and how to say it; a limit: metres a second, as a gust."""
    working = document["working_wind"]
    share, ask = exposure.lifting(working)

    assert "dial has most sail for its mass" in share
    assert "0.11 times" in share
    assert "0.013 times" in share
    assert '"lifting wind limit"' in ask
    lift = working["lifts"][0] | {"limit_m_s": 1.152, "cautious_m_s": 0.1326}
    told = exposure.lifting({**working, "crane_m_s": 10.0, "lifts": [lift]})
    assert "1.1 m/s, or 0.13 m/s, as gusts" in told[1]
    assert exposure.lifting({**working, "lifts": []}) == []


@pytest.mark.parametrize(
    ("factor", "printed"), [(1.0, "1.00"), (0.999, "0.99"), (0.1152, "0.11"), (0.01326, "0.013")]
)
def test_a_share_is_never_rounded_up(factor, printed):
    """More wind than the rule allows must not be printed."""
    assert exposure.share(factor) == printed


@pytest.mark.parametrize(("speed_m_s", "printed"), [(9.79, "9.7"), (1.0, "1.0"), (0.0899, "0.08")])
def test_a_wind_to_stop_at_is_never_rounded_up(speed_m_s, printed):
    """The same for metres a second."""
    assert exposure.limit(speed_m_s) == printed


def section(document):
    """Return the sections as HTML, by themselves: lifting, wind to work in, slender and ice."""
    environment = Environment(
        loader=PackageLoader("estimator.reports"), autoescape=True, undefined=StrictUndefined
    )
    environment.filters.update(page._FILTERS)
    given = {"d": document, "words": sentences, "exposure": exposure}
    given |= exposure.context(document)
    return figures.plain(
        "".join(
            environment.get_template(f"{name}.html").render(**given)
            for name in ("lifting", "working_wind", "exposure")
        )
    )


def test_the_section_without_ice(document):
    """Slender parts, the wind, and lift units by their share."""
    html = section(document)

    assert "Slender parts and ice" in html
    assert "T31" in html
    assert "Ice of" not in html
    assert "stops at m/s" not in html


def test_the_section_with_everything_but_slender_parts(document, ice):
    """Ice with the level of its wind, a crane's limit, and gusts higher up."""
    working = document["working_wind"]
    working |= {"crane_m_s": 10.0, "height_m": 12.0}
    working["lifts"][0] |= {"limit_m_s": 1.15, "cautious_m_s": 0.13}
    working["forces"][0]["gust_high_m_s"] = 15.4
    document["slender"]["parts"] = []
    html = section({**document, "ice": ice})

    assert "Ice of 6 mm, movers as drawn; no partial factors; the wind is peak charact" in (
        figures.plain(html)
    )
    assert "No bar is more than 10 times as long as it is wide" in html
    assert "stops at m/s" in html
    assert "15.4" in html


def test_what_was_typed_is_escaped(document, tube):
    """A name is words, not markup."""
    tube["name"] = "<b>stem</b>"

    assert "<b>stem" not in section(document)
