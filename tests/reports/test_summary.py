"""The answer in the terminal."""

import re

from estimator.reports.sentences import SIGN_OFF
from estimator.reports.summary import MOST_LINES, summary_text


def flat(text):
    """Return the words on one line."""
    return " ".join(text.split())


def test_the_summary_reads_as_plain_text(document):
    """Title first, the engineer last; no character that a plain terminal cannot show."""
    text = summary_text(document)

    assert text.startswith(
        "Tide dial, harbour library gable, issue C of 2026-05-11, copper, 2026-05-12\n"
    )
    assert flat(text).endswith(SIGN_OFF)
    assert "  ledge                                     152 kg   126 to 181\n" in text
    assert max(len(line) for line in text.splitlines()) <= 88
    text.encode("cp1252")


def test_what_is_left_out_stands_above_the_answer(incomplete):
    """The banner, then each refused cell, then the first number."""
    text = summary_text(incomplete)

    assert text.index("INCOMPLETE: 1 row") < text.index("parts!K9") < text.index("446 kg")


def test_a_job_with_much_to_say_is_kept_short(incomplete):
    """Sixty lines at most; lists say how many more there are; the engineer is never cut off."""
    incomplete["problems"] *= 40
    incomplete["untold"] *= 40
    incomplete["assemblies"] = [
        {**incomplete["assemblies"][0], "assembly": f"a{i}"} for i in range(40)
    ]
    incomplete["bracket_sets"] = [
        {**incomplete["bracket_sets"][1], "set": f"set {i}"} for i in range(60)
    ]
    text = summary_text(incomplete)

    assert len(text.splitlines()) <= MOST_LINES
    assert "and 34 more refused" in text
    assert flat(text).endswith(SIGN_OFF)


def test_lists_say_how_many_more_there_are(document):
    """Six rows, then a count."""
    document["untold"] *= 9

    assert "and 3 more on the page" in summary_text(document)


def test_what_stands_in_for_the_untold_is_named(document):
    """A value as it is; what has none is left out, which is not "nothing used"."""
    document["untold"].append({"item": "wall stiffness ratio", "used": "nothing", "why": ""})
    text = summary_text(document)

    assert "  terrain: II\n  wall stiffness ratio: left out\n" in text


def test_an_empty_list_has_no_masses(document):
    """The sentence stands instead of a table of nought."""
    document["parts"] = []
    text = summary_text(document)

    assert "No part is listed yet.\n" in text
    assert "heaviest first" not in text


def test_nothing_untold_is_said(document):
    """An empty list is a sentence."""
    document["untold"] = []

    assert "Nothing that was asked for is missing." in summary_text(document)


def test_a_job_without_a_title_has_its_file_name(document):
    """Nor is an empty issue printed."""
    document["job"]["title"]["value"] = None
    document["job"]["issue"]["value"] = None
    document["option"] = ""

    assert summary_text(document).startswith("tide-dial.xlsx, 2026-05-12\n")


def test_who_works_in_inches_reads_pounds(document):
    """152 kg is 335 lb: in the list alone, in the sentences beside the kilograms."""
    document["job"]["show_units"] = document["job"]["site"] | {"value": "inch"}
    text = summary_text(document)

    assert "  ledge                                     335 lb   278 to 399\n" in text
    assert "6.94 kN (1 561 lb)" in flat(text)
    assert re.search(r"\d kg \(\d+ lb\)", flat(text))
    assert not re.search(r"\d kg(?! \()", flat(text))
