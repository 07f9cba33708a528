"""Doubts about a file as problems of the row that names it."""

from estimator.core.problems import Severity
from estimator.resolve.doubts import Doubt, problems_of
from estimator.sheets.rows import Row

ROW = Row("parts", 3, {"part": "B1"}, {"file": "J", "scale": "K"})


def test_a_doubt_is_a_question_at_the_cell_of_its_field():
    """At the file, unless it is about something else; as grave as it says."""
    doubts = [
        Doubt("bird.svg is small", "a larger bird", "look at it"),
        Doubt("1:10 is odd", "", "", "scale", Severity.NOTE),
    ]

    question, note = problems_of(ROW, doubts)

    assert (
        str(question)
        == "parts!J3 (B1): bird.svg is small\n    wanted: a larger bird\n    look at it"
    )
    assert question.severity is Severity.QUESTION
    assert (str(note), note.severity) == ("parts!K3 (B1): 1:10 is odd", Severity.NOTE)
