"""Looking in a table from the command line."""

from estimator.reference.lookup import show_table


def test_a_word_picks_the_rows_it_stands_in(library):
    """Spaces and case do not matter; the last cell cites the document."""
    view = show_table(library, "Gauges", "swg 18")

    assert view.headings == ("key", "system", "number", "thickness_in", "thickness_mm", "from")
    assert view.rows == (
        (
            *("SWG 18", "SWG", "18", "0.048", "1.2192"),
            "BS 3737 Imperial standard wire gauge, 1964, table of sizes (as quoted)",
        ),
    )


def test_a_whole_word_goes_before_a_part_of_one(library):
    """18 is a gauge of many systems, not every thickness with 18 among its digits."""
    whole, part = show_table(library, "gauges", "18"), show_table(library, "finishes", "gild")

    assert {row[2] for row in whole.rows} == {"18"}
    assert len(whole.rows) > 5
    assert [row[0] for row in part.rows] == ["oil gilding"]


def test_without_a_word_all_rows_are_shown(library):
    """Columns that are blank throughout are left out."""
    view = show_table(library, "lead sheet")

    assert len(view.rows) == 6
    assert "alias" not in view.headings


def test_a_word_that_stands_nowhere_shows_no_row(library):
    """An empty view, not an error."""
    assert show_table(library, "kerfs", "unobtainium").rows == ()


def test_a_table_that_is_not_there_gets_its_neighbours(library):
    """Or, when the name is like none, all of them."""
    near, far = show_table(library, "gauge"), show_table(library, "qqqq")

    assert near.sentence == '"gauge" is not the name of a table'
    assert "gauges" in near.choices
    assert far.choices == library.names
