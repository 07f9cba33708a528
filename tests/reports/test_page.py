"""The page: a pure function of the document, escaped, whole, and careful with its words."""

import copy
import re
from html.parser import HTMLParser

import pytest
from jinja2 import UndefinedError

from estimator.reports.page import PARTS_SHOWN, page_html
from estimator.reports.sentences import SIGN_OFF

VOID = {"meta", "link", "br", "hr", "img", "input"}


class Reader(HTMLParser):
    """Checks that tags close in order, and keeps the words, tags and attributes."""

    def __init__(self):
        """Start with nothing open."""
        super().__init__()
        self.open, self.tags, self.attributes, self.words = [], set(), [], []

    def handle_starttag(self, tag, attrs):
        """Note what was opened."""
        self.tags.add(tag)
        self.attributes += attrs
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag):
        """Refuse a tag that closes out of order."""
        assert self.open.pop() == tag

    def handle_data(self, data):
        """Keep the words, those of the style sheet apart."""
        if self.open[-1:] != ["style"]:
            self.words.append(data)


def read(page):
    """Return the page taken apart."""
    reader = Reader()
    reader.feed(page)
    assert not reader.open
    return reader


def words(page):
    """Return all that a reader of the page sees."""
    return re.sub(r"\s+", " ", " ".join(read(page).words))


def test_the_page_is_well_formed_and_needs_nothing_else(document):
    """No script, nothing fetched: no link, image, import or address anywhere."""
    page = page_html(document)
    reader = read(page)

    assert not reader.tags & {"script", "link", "img", "iframe", "object"}
    assert not [name for name, _ in reader.attributes if name.startswith("on")]
    assert not [name for name, _ in reader.attributes if name in {"src", "href", "xlink:href"}]
    assert "@import" not in page
    assert "url(" not in page


def test_the_same_document_gives_the_same_page(document):
    """Nothing of the clock, the machine or chance; and the document is left as it was."""
    before = copy.deepcopy(document)

    assert page_html(document) == page_html(copy.deepcopy(document))
    assert document == before


def test_sections_stand_in_the_order_of_the_job(document):
    """What a maker asks comes first, then what the engineer reads in one go; cautions close."""
    headings = re.findall(r"<h2>(.*?)</h2>", page_html(document))

    assert headings == [
        "Summary", "What is left out", "Weights and balance", "Lift units",
        "Wind to work and lift in", "Moving parts", "Figures from files and maquettes",
        "Blanks and forming", "Materials to order", "Hours, cost and price",
        "Ways of building it, side by side", "If it were larger or smaller",
        "For the engineer", "Wind", "Slender parts and ice", "How loads are combined",
        "Forces at each bracket", "Arms of the brackets", "Wall plates and fixings",
        "Each bracket from the side", "Holes in the wall", "What you have not told me",
        "Facts of the job", "Sources and dates", "Cautions",
    ]  # fmt: skip


def section(page, name):
    """Return one section of the page."""
    return re.search(rf'<section id="{name}">(.*?)</section>', page, re.DOTALL)[1]


@pytest.mark.parametrize(
    "name",
    [
        "summary",
        "options",
        "sizes",
        "engineer",
        "wind",
        "combinations",
        "brackets",
        "arms",
        "plates",
        "elevations",
        "holes",
        "register",
        "cautions",
    ],
)
def test_the_engineer_is_named_beside_the_numbers(document, name):
    """Directly below the heading, before any number of the wind, the brackets or the wall."""
    assert re.match(
        rf'\s*<h2>[^<]*</h2>\s*<strong class="sign">{SIGN_OFF}', section(page_html(document), name)
    )


@pytest.mark.parametrize("name", ["brackets", "arms", "plates"])
def test_the_engineer_is_named_in_tables_that_run_on(document, name):
    """A table head is printed again on every sheet the table runs on to."""
    text = section(page_html(document), name)

    assert re.search(rf'<thead>\s*<tr><th class="signing"[^>]*>{SIGN_OFF}', text)


def test_the_engineer_is_named_in_the_title_block(document):
    """The first sheet may be printed alone."""
    page = page_html(document)

    assert SIGN_OFF in page[page.index('class="title"') : page.index('id="summary"')]


def test_words_that_would_approve_are_never_printed(document):
    """The page gives demands; it says nothing of what a wall or a fixing can bear."""
    banned = (
        r"\b(safe|safely|safety|ok|pass|passes|fail|fails|approved|capacity|resistance|anchors?)\b"
    )

    assert not re.findall(banned, words(page_html(document)), re.IGNORECASE)


def test_an_incomplete_result_says_so_on_every_sheet(incomplete):
    """In the file's title, on the screen, in the strip that every printed sheet repeats."""
    page = page_html(incomplete)

    assert "<title>INCOMPLETE: " in page
    assert page.count("INCOMPLETE: 1 row of the workbook left out") == 3
    strip = page[page.index('class="strip"') : page.index("<main>")]
    assert "INCOMPLETE" in strip
    assert re.search(r"\.strip \{[^}]*position: fixed", page)


def test_a_complete_result_never_says_incomplete(document):
    """The word is kept for its meaning."""
    assert "INCOMPLETE" not in page_html(document)


def test_refused_rows_come_first(incomplete):
    """Then questions, then notes, each with its cell and what to do."""
    text = section(page_html(incomplete), "left-out")

    assert text.index("refused</td>") < text.index("question</td>") < text.index("note</td>")
    assert "parts!K9" in text
    assert "type 18 SWG or 1.2 mm" in text


def strings(node, path=()):
    """Return the path of every text in the document that a person may have typed."""
    if isinstance(node, dict):
        for key, value in node.items():
            yield from strings(value, (*path, key))
    elif isinstance(node, list):
        for i, value in enumerate(node):
            yield from strings(value, (*path, i))
    elif isinstance(node, str):
        yield path


FIXED = {"severity", "origin", "kind", "sharing", "unit", "level"}


def test_no_text_of_the_document_becomes_markup(incomplete):
    """Every text is replaced by a piece of script; none of it survives as a tag."""
    for path in list(strings(incomplete)):
        if path[-1] not in FIXED:
            record = incomplete
            for step in path[:-1]:
                record = record[step]
            record[path[-1]] = f'"><script>{path[-1]}</script>&amp;'

    reader = read(page_html(incomplete))

    assert "script" not in reader.tags
    assert '"><script>value</script>&amp;' in "".join(reader.words)


def test_every_number_is_the_documents_own(document):
    """Another mass in the document is another mass on the page, in all the places it stands."""
    assert "446\u202fkg" in page_html(document)
    document["mass"]["likely_kg"] = 447.0

    page = page_html(document)
    assert "447\u202fkg" in section(page, "summary")
    assert "446\u202fkg" not in section(page, "summary")


def test_a_long_list_is_cut_to_the_heaviest(document):
    """Two hundred rows and a count of the rest."""
    part = document["parts"][0]
    document["parts"] = [
        {**part, "part": f"P{i}", "mass_kg": float(i)} for i in range(1, PARTS_SHOWN + 6)
    ]
    text = section(page_html(document), "weights")

    assert "5 lighter parts are in estimate.json" in text
    assert f'<td class="b">P{PARTS_SHOWN + 5}</td>' in text
    assert '<td class="b">P5</td>' not in text


def test_a_short_list_is_whole(document):
    """No count of the rest when there is none."""
    assert "lighter parts" not in page_html(document)


def test_a_line_for_each_assembly_in_the_wind(document):
    """54 loads of three assemblies become three lines of their largest, the cases listed once."""
    text = section(page_html(document), "wind")
    matrix = text[text.index('class="matrix"') :]

    assert len(document["wind"]["loads"]) == 54
    assert re.findall(r'<tr class="first"><td class="b">(\w+)</td>', matrix) == [
        "dial", "bird", "hand",
    ]  # fmt: skip
    assert matrix.count("Case 1: ") == 1


def test_what_other_rules_give_is_a_note(document):
    """It stands with the coefficient it is beside, not with the pressure as well."""
    text = section(page_html(document), "wind")

    assert "would give signboard" not in text
    assert "Coefficient note 1: " in text


def test_a_part_of_the_wind_that_needs_no_note_has_none(document):
    """Neither a reason nor another rule."""
    for row in document["wind"]["parts"]:
        row.update(why="", others=[])

    assert "Note 1" not in section(page_html(document), "wind")


def test_a_clause_from_memory_is_marked(document):
    """A reader must know which clauses to look up."""
    row = re.search(r"<tr><td[^>]*>peak pressure.*?</tr>", page_html(document))[0]

    assert "from memory: to be checked" in row


def test_a_bare_job_has_a_page(document):
    """Nothing listed, nothing known: every section that must stand, stands, without a failure."""
    for key in ("parts", "assemblies", "lift_units", "moving", "brackets", "bracket_sets",
                "bracket_envelope", "problems", "assumptions", "untold", "cautions", "sources",
                "options_table", "register", "elevations"):  # fmt: skip
        document[key] = []
    for view in document["views"].values():
        view.update(box_m=[0.0, 0.0, 0.0, 0.0], shapes=[], sweeps=[])
    document["mass"]["cg_m"] = None
    document["marks"] = {
        "cg_m": None, "brackets": [], "wind_centres": [], "limits": [], "ground_m": None,
    }  # fmt: skip
    document["wall"].update(plates=[], holes=[], zones=[])
    document["wind"].update(pressure_pa=None, steps=[], loads=[], parts=[], notes=[])
    document["order"] = {"lines": [], "total_cost": None}
    document["cost"].update(lines=[], hours_lines=[], price_lines=[], sum_of_likely=None, mean=None)

    text = words(page_html(document))

    assert "No bracket is listed" in text
    assert "Peak pressure not known" in text
    assert "Nothing that was asked for is missing" in text


def test_a_key_that_is_missing_is_not_printed_as_blank(document):
    """A hole in the document is a failure here, never an empty cell there."""
    del document["order"]["lines"][0]["gauge"]

    with pytest.raises(UndefinedError, match="gauge"):
        page_html(document)


def test_what_many_rows_share_is_said_once(document):
    """The combination of 24 values stands below the table, and its letter beside each."""
    text = section(page_html(document), "brackets")

    assert text.count("1.35 G + 1.5 W (EN 1990 6.10)") == 1
    assert "Combination A: 1.35 G + 1.5 W (EN 1990 6.10)" in text
    assert len(re.findall(r'class="ref">A1a\xa0[RL]<', text)) == 24


def test_brackets_are_told_one_after_another(document):
    """All causes of the first bracket stand before the second, in whatever order they came."""
    document["brackets"].sort(key=lambda row: row["cause"])
    rows = re.findall(
        r'<td class="b">(\w+)</td><td class="b">(own weight|wind)</td>', page_html(document)
    )

    assert rows
    assert [name for name, _ in rows] == sorted(name for name, _ in rows)


def test_what_is_unfactored_stands_first(document):
    """Each cause on its own before anything with partial factors, and the file of it is named."""
    text = section(page_html(document), "brackets")

    assert (
        0 < text.index("Each cause on its own; characteristic") < text.index("with partial factors")
    )
    assert "unfactored, is in brackets.csv" in section(page_html(document), "combinations")


def test_the_letter_of_loads_along_an_arm_is_explained(document):
    """Where an arm has a stay, P may stand in what a figure comes from; without one it cannot."""
    meaning = "P, placed: on an arm with a stay, each load at its own place along it."

    assert meaning in section(page_html(document), "brackets")
    for arm in document["arms"]:
        arm["stay"] = None
    assert meaning not in page_html(document)


def test_costs_are_not_told_twice(document):
    """A step to the price that repeats a line of the cost is printed once; steps follow."""
    cost = document["cost"]
    cost["price_lines"] = [{**cost["price_lines"][0], "name": "making"}, *cost["price_lines"]]
    text = section(page_html(document), "cost")

    assert text.count('<td class="b">making</td><td class="b">making</td>') == 1
    assert '<td colspan="2">making</td>' not in text
    assert '<td colspan="2">price before tax</td>' in text


def test_without_a_price_the_cost_has_its_total(document):
    """The sum of the likely figures and the mean close the table."""
    document["cost"]["price_lines"] = []

    assert "cost: sum of likely; mean" in section(page_html(document), "cost")


def test_a_price_nobody_told_is_worded(document):
    """An unknown price, one typed as nought, a cost of nothing: none is printed as a price."""
    document["order"]["lines"][0].update(price_each=0.0, cost=0.0)
    document["order"]["total_cost"] = None
    document["cost"]["lines"][0].update(low=0.0, likely=0.0, high=0.0, mean=0.0)
    page = page_html(document)

    assert section(page, "order").count(">no price yet<") == 1
    assert section(page, "order").count(">0, as typed<") == 1
    assert section(page, "order").count(">no price told<") == 1
    assert section(page, "cost").count("no price told") == 1
    assert "0.00" not in section(page, "order")


@pytest.mark.parametrize("name", ["order", "cost", "summary"])
def test_what_the_price_is_short_of_stands_beside_it(document, name):
    """Wherever the price or the order list is read."""
    text = section(page_html(document), name)

    assert "1 order line has no price yet and is not in the price." in text
    assert ("no tax is in it" in text) is (name != "order")


def test_what_is_charged_by_its_area_says_so(document):
    """A line without whole pieces is priced by the square metre; one with them is not."""
    line = document["order"]["lines"][1]
    line.update(price_each=73.3, cost=337.2, count_to_buy=0)
    text = section(page_html(document), "order")

    assert "73.30 per m²" in text
    assert text.count("per m²") == 1
    assert "What is not laid out is charged by its area." in text


@pytest.mark.parametrize(
    ("kept", "there", "missing"),
    [(0, "in whole pieces", "by its area"), (1, "by its area", "in whole pieces")],
)
def test_whole_pieces_are_told_of_where_there_are_any(document, kept, there, missing):
    """A list of areas has no pieces, and a list of pieces no areas."""
    document["order"]["lines"] = [document["order"]["lines"][kept]]
    text = section(page_html(document), "order")

    assert there in text
    assert missing not in text


def test_a_name_is_not_told_twice_in_one_line(document):
    """What is bought in is its own material and its own size."""
    document["order"]["lines"][0].update(material="spot lamps", size_text="spot lamps")

    assert section(page_html(document), "order").count("spot lamps") == 1


@pytest.mark.parametrize(
    ("paper", "size"),
    [("A4", "A4 landscape"), ("letter", "Letter landscape"), ("foolscap", "landscape")],
)
def test_the_page_has_the_size_of_the_jobs_paper(document, paper, size):
    """A paper the style sheet has no name for is left to the printer; nothing typed gets in."""
    document["job"]["paper"] = {**document["job"]["title"], "value": paper}

    assert f"@page {{ size: {size};" in page_html(document)


def test_the_wind_is_drawn_of_what_catches_most(document):
    """Of thirty assemblies the five with the largest force are drawn; all are in the matrix."""
    load = document["wind"]["loads"][0]
    document["wind"]["loads"] = [
        {**load, "assembly": f"A{i}", "force_n": [0.0, 0.0, 10.0 + i]} for i in range(30)
    ]
    text = section(page_html(document), "wind")

    assert re.findall(r"Wind on A(\d+) by direction", text) == [str(i) for i in range(25, 30)]
    assert text.count('<tr class="first">') == 30


def test_no_type_is_smaller_than_seven_points(document):
    """8.5 points for what is read, 7 for what is looked up; in drawings 1 pt is 0.3528 mm."""
    page = page_html(document)
    points = [float(size) for size in re.findall(r"font(?:-size)?: ([\d.]+)pt", page)]
    drawn = [float(size) * 72 / 25.4 for size in re.findall(r'font-size="([\d.]+)"', page)]

    assert min(points) == 7
    assert min(drawn) >= 7
    assert "body { margin: 0; font: 8.5pt" in page


def test_ways_of_building_stand_side_by_side(document):
    """A column for each, what pulls on each set of brackets among the rows."""
    text = section(page_html(document), "options")

    assert text.index('<th class="n">copper</th>') < text.index("lead on wood</th>")
    assert "dial: 2.71\u202fkN" in text
    assert "dial: 245\u202fN\u202fm at D4" in text


def test_one_way_of_building_is_not_compared(document):
    """With one option there is nothing to stand beside it."""
    del document["options_table"][1]

    assert "side by side" not in page_html(document)


def test_limits_have_their_unit_and_are_compared_with_nothing(document):
    """A length in millimetres, a mass in kilograms; neither is a verdict."""
    limit = document["marks"]["limits"][0]
    document["marks"]["limits"] += [
        {**limit, "limit": "van payload", "value_m": None, "value_kg": 1100.0},
        {**limit, "limit": "noise", "value_m": None},
    ]
    text = words(section(page_html(document), "assumptions"))

    assert "headroom 2 600 mm" in text
    assert "van payload 1 100 kg" in text
    assert "noise not told" in text
    assert text.index("van payload") < text.index("Nothing is compared with these limits yet.")


def test_the_outline_is_that_of_the_largest_force(document):
    """The bird is blown hardest from the right, in its second position, on another outline."""
    load = {**document["wind"]["loads"][0], "assembly": "bird", "position": "wings up"}
    load |= {"direction_deg": 90.0, "compass": "", "force_n": [3e4, 0.0, 4e4], "area_m2": 0.345}
    document["wind"]["loads"].append(load)
    bird, hand = (
        re.search(rf"<tr><td[^>]*>{name}</td>.*?</tr>", section(page_html(document), "wind"))[0]
        for name in ("bird", "hand")
    )

    assert "50.00\u202fkN" in bird
    assert "90° (the right)" in bird
    assert "wings up" in bird
    assert ">0.345<" in bird
    assert ">\N{EN DASH}<" in bird
    assert ">0.341<" in hand  # 0.31 x 1.1: parts added up from the same side


def test_an_assembly_without_a_load_has_its_outline_alone(document):
    """Nothing blows on it, so there is no side and no position to name."""
    document["wind"]["loads"] = []
    row = re.search(r"<tr><td[^>]*>dial</td>.*?</tr>", section(page_html(document), "wind"))[0]

    assert ">none<" in row
    assert ">4.75<" in row


def test_an_upright_axle_has_a_sentence_and_no_graph(document):
    """A flat line at nought says less than words."""
    assert "gravity torque by angle" in page_html(document)
    document["moving"][0]["gravity_torque_nm"] = 0.0
    text = section(page_html(document), "moving")

    assert "<p>hand: no torque of gravity on an upright axle.</p>" in text
    assert "gravity torque by angle" not in text


def test_range_lines_stand_heaviest_first(document):
    """Assemblies by their mass, costs by their likely figure; the sum of them last."""
    page = page_html(document)

    def names(where):
        drawn = re.search(r"<figure>.*?</figure>", section(page, where), re.DOTALL)[0]
        return re.findall(r'text-anchor="end"[^>]*>([^<]*)<', drawn)

    assert names("weights") == ["ledge", "dial", "bird", "hand", "the whole"]
    assert names("cost") == ["site", "materials", "making", "price before tax"]


def test_a_long_title_is_set_smaller_and_never_clipped(document):
    """Whole lines only: no height is fixed, and what is cut on paper ends in dots."""
    short = page_html(document)
    document["job"]["title"]["value"] = "Tide dial " * 5
    document["job"]["client"]["value"] = "Harbour Trust " * 6
    page = page_html(document)

    assert '<div class="named">' not in page
    assert '<div class="named long"><small>title</small>' in page
    assert '<div class="longer"><small>client</small>' in page
    assert '<div class=""><small>client</small>' in short
    assert not re.search(r"\.title[^{]*\{[^}]*max-height", page)


def test_sources_name_the_document_first(document):
    """Where a copy was read is small and last."""
    text = section(page_html(document), "sources")

    assert re.findall("<th>(.*?)</th>", text) == [
        "document", "edition", "publisher", "used for", "copy that was read",
    ]  # fmt: skip
    assert '<td class="small">EN1991-1-4: library</td>' in text
    assert 'from "tide-dial.xlsx";' in text


def test_a_pressure_without_a_source_is_not_said_to_be_remembered(document):
    """Somebody stated it and is not named; no clause was recalled."""
    document["wind"]["pressures"][0]["steps"] = [
        {"name": "stated pressure", "symbol": "q", "value": 800.0, "unit": "Pa", "clause": "",
         "confirmed": False}
    ]  # fmt: skip

    assert "<td>nobody is named as its source</td>" in page_html(document)


def test_an_empty_list_says_so_on_the_page(document):
    """No drawing, no line at nought, no mass in the title block."""
    document["parts"] = []
    page = page_html(document)

    assert words(page).count("No part is listed yet.") == 4
    assert "Mass of each assembly" not in page
    assert "Front, side and plan" not in page


def test_sheets_without_a_row_are_not_counted(document):
    """A sheet nobody filled has nothing that could be left out."""
    document["rows"]["maquette"] = dict.fromkeys(document["rows"]["job"], 0)

    assert "maquette" not in section(page_html(document), "left-out")


def test_a_job_in_inches_has_no_metric_column(document):
    """US units at the head of every column; the bare numbers below are theirs: 152 kg is 335 lb."""
    document["job"]["show_units"] = document["job"]["site"] | {"value": "inch"}
    page = page_html(document)
    heads = re.findall(r'<th class="n">([^<]*)', page)

    assert "centre across in" in heads
    assert "mass lb" in heads
    assert not [
        words
        for words in heads
        if re.search(r"\b(mm|kg|m²|MPa|m/s|N\N{NARROW NO-BREAK SPACE}m|m)$", words)
    ]
    assert re.search(r'<td class="b">ledge</td>.*?<td class="n">335</td>', page)
    assert "ft and in; lb or kip" in page
