"""Path data and transforms of SVG against another reader of them, and against hostile ones.

[SVG] W3C Recommendation Scalable Vector Graphics 1.1, second edition, 2011; clauses from memory.
[READER] The open library svgelements 1.9.6, which was written without this one in sight.
"""

import math

import numpy as np
import pytest
import svgelements
from hypothesis import given
from hypothesis import strategies as st

from estimator.files import svg_paths
from estimator.files.curves import Arc, Points, Spline, lines
from estimator.files.shelf import FileError
from estimator.files.svg_paths import matrix_of, path_of

numbers = st.floats(-50, 50).map(lambda x: f"{x:.3f}")
radii = st.floats(0.1, 60).map(lambda x: f"{x:.3f}")
flags = st.sampled_from("01")
TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "Z": 0}
AFTER = {"S": "CS", "T": "QT"}
"""[READER] mirrors the control point of any curve, [SVG] 8.3.6 only that of a like one."""


@st.composite
def path_data(draw):
    """Return path data with any command, in either case."""
    words, last = [f"M{draw(numbers)} {draw(numbers)}"], "M"
    for letter in draw(st.lists(st.sampled_from("LHVCSQTAZM"), max_size=8)):
        if letter in AFTER and last not in AFTER[letter]:
            continue
        command = letter if draw(st.booleans()) else letter.lower()
        if letter == "A":
            row = [draw(radii), draw(radii), draw(numbers), draw(flags), draw(flags),
                   draw(numbers), draw(numbers)]  # fmt: skip
        else:
            row = [draw(numbers) for _ in range(TAKES[letter])]
        words.append(command + ",".join(row))
        last = letter
    return "".join(words)


def _steps(line):
    return float(np.hypot(*np.diff(line, axis=0).T).sum())


def _length_elsewhere(piece):
    if isinstance(piece, svgelements.Move) or piece.start is None:
        return 0.0
    if isinstance(piece, svgelements.Line | svgelements.Close):
        return abs(complex(piece.end) - complex(piece.start))
    return _steps(np.asarray(piece.npoint(np.linspace(0, 1, 2001))).reshape(-1, 2))


@given(path_data())
def test_path_data_as_another_reader_has_it(data):
    """[READER] Length and end of all that is drawn; its arcs are rounded to eight places."""
    path = svgelements.Path(data)

    drawn = lines(path_of(data), 1e-4)

    elsewhere = sum(_length_elsewhere(piece) for piece in path)
    assert sum(map(_steps, drawn)) == pytest.approx(elsewhere, rel=2e-4, abs=1e-3)
    if drawn and isinstance(path[-1], svgelements.Line | svgelements.CubicBezier | svgelements.Arc):
        end = complex(path[-1].end)
        assert drawn[-1][-1] == pytest.approx([end.real, end.imag], abs=1e-6)


WRITTEN = [
    ("M0 0L1 0 1 1z", [[0, 0], [1, 0], [1, 1], [0, 0]]),
    ("m0 0 1 0 0 1z", [[0, 0], [1, 0], [1, 1], [0, 0]]),
    ("M.5.5-1-1", [[0.5, 0.5], [-1, -1]]),
    ("M1e1,2E-1L+3-.5", [[10, 0.2], [3, -0.5]]),
    (" M 0\n0\tH 4 V 3 h -1 v -1 ", [[0, 0], [4, 0], [4, 3], [3, 3], [3, 2]]),
    ("M0 0A0 5 0 0 1 3 3", [[0, 0], [3, 3]]),
    ("M0 0T4 0", [[0, 0], [4, 0]]),
]


@pytest.mark.parametrize(("data", "points"), WRITTEN)
def test_ways_of_writing(data, points):
    """[SVG] 8.3: blanks and commas may be left out, an arc without radius is a straight line."""
    (line,) = lines(path_of(data), 1.0)

    kept = line[[0, *(np.flatnonzero(np.hypot(*np.diff(line, axis=0).T) > 1e-12) + 1)]]
    ends = kept if "T" not in data else kept[[0, -1]]
    assert ends == pytest.approx(np.array(points, float))


def test_after_closing_the_pen_is_back_at_the_start():
    """[SVG] 8.3.3: what follows without a move starts there."""
    first, second = path_of("M1 2h3v4zl-5 0")

    assert first[0].at[-1].tolist() == [1, 2]
    assert second[0].at.tolist() == [[1, 2], [-4, 2]]


def test_a_smooth_curve_after_a_line_starts_at_a_point():
    """[SVG] 8.3.6: its first control point is where the pen is, unless a like curve came before."""
    ((straight, cubic),) = path_of("M0 0L1 0S2 1 3 0")
    (((curve,)),) = path_of("M0 0Q1 1 2 0S3 1 4 0")

    assert isinstance(straight, Points)
    assert cubic.controls[1].tolist() == [1, 0]
    assert curve.controls[4].tolist() == [2, 0]


def test_curves_end_to_end_are_one_curve():
    """Lines, cubics and arcs each make a piece of the path."""
    (path,) = path_of("M0 0L1 0 2 0C3 0 3 1 2 1Q1 1 1 2A1 1 0 0 1 0 2")

    assert [type(piece) for piece in path] == [Points, Spline, Arc]
    assert len(path[1].controls) == 7


ARCS = [("0", "1", 1 / 4), ("0", "0", 1 / 4), ("1", "1", 3 / 4), ("1", "0", 3 / 4)]


@pytest.mark.parametrize(("large", "grows", "share"), ARCS)
def test_the_four_arcs_between_two_points(large, grows, share):
    """[SVG] 8.3.8: a quarter or three quarters, on either side of the chord."""
    (line,) = lines(path_of(f"M6 0A6 6 0 {large}{grows}0 6"), 1e-5)

    assert _steps(line) == pytest.approx(share * 12 * math.pi, rel=1e-5)
    corner = [0, 0] if (large, grows) in {("0", "1"), ("1", "0")} else [6, 6]
    assert np.hypot(*(line - corner).T) == pytest.approx(6.0)


def test_radii_that_do_not_reach_are_grown():
    """[SVG] F.6.6: half a circle over the chord, however small the radius was."""
    (line,) = lines(path_of("M0 0a.1 .1 0 0 0 8 0"), 1e-5)

    assert _steps(line) == pytest.approx(4 * math.pi, rel=1e-5)


def test_an_arc_to_where_the_pen_is_draws_nothing():
    """[SVG] F.6.2; and one that leads all but nowhere is a straight line."""
    assert path_of("M0 0A5 5 0 1 1 0 0") == ()
    assert isinstance(path_of("M0 0A5 5 0 1 1 0 1e-300")[0][0], Points)


@pytest.mark.parametrize("data", ["", "  ", "none", "M3 4", "M0 0M1 1z"])
def test_what_draws_nothing(data):
    """A pen that was put down and lifted leaves no path."""
    assert path_of(data) == ()


BROKEN = [
    ("L5 5", "L5 5"), ("5 5 M0 0", "5 5 M0 0"), ("M0 0L1", "L1"), ("M0 0L", "L"), ("M0 0z3", "z3"),
    ("M0 0L1 1 foo", "1 1 foo"), ("M0 0 L nan 3", "n"), ("M0 0C1 1 2 2", "C1 1 2 2"),
    ("M0 0A1 1 0 2 0 3 3", "1 1 0 2 0 3 3"), ("M0 0A", "A"), ("M0 0 é 1 1", "0 0 é 1 1"),
    ("hello", "hello"), ("z M0 0", "z M0 0"), ("M0 0L1.2.", "1.2."),
]  # fmt: skip


@pytest.mark.parametrize(("data", "quoted"), BROKEN)
def test_broken_path_data_is_refused_with_what_is_wrong(data, quoted):
    """[SVG] F.2 draws up to the error; half an outline is worse than none."""
    with pytest.raises(FileError) as caught:
        path_of(data)

    words, wanted, advice = caught.value.found, caught.value.expected, caught.value.advice
    assert words.endswith("in it cannot be read")
    assert quoted[:4] in words
    assert wanted == "path data, transforms and lengths as SVG has them"
    assert advice == "open the drawing where it was made, and save it again"


@pytest.mark.parametrize("data", ["M0 0L1e999 3", "M0 0L1e13 3", "M0 0A1e300 1 0 0 0 1 1"])
def test_huge_numbers_are_refused(data):
    """They read as endless."""
    with pytest.raises(FileError, match="far too large"):
        path_of(data)


def test_too_many_steps_are_refused(monkeypatch):
    """Before they are all kept."""
    monkeypatch.setattr(svg_paths, "MOST_POINTS", 5)

    with pytest.raises(FileError, match="more than 500,000 points"):
        path_of("M0 0" + "l1 1" * 6)


SLOW = ["M0 0A" + "1" * 300_000, "M0 0L" + "1e" * 150_000, "M0 0L" + "-" * 300_000,
        "M0 0L" + "1," * 150_001, "M0 0A" + "1 1 1 0 0 " * 30_000]  # fmt: skip


@pytest.mark.parametrize("data", SLOW, ids=lambda data: data[:12])
def test_hostile_path_data_is_refused(data):
    """Time grows with its length, not with the square of it: this test would not come to an end."""
    with pytest.raises(FileError):
        path_of(data)


MOVES = ["translate(3,4)", "translate(3)", "scale(2)", "scale(2 -3)", "rotate(30)", "skewY(-20)",
         "rotate(30,5 6)", "skewX(10)", "matrix(1 .2 .3 1 5 6)",
         "translate(1,2)rotate(45) scale(2)", "scale(2),rotate(-10), translate(5 5)",
         ""]  # fmt: skip


@pytest.mark.parametrize("text", MOVES)
def test_transforms_as_another_reader_has_them(text):
    """[READER] The last one named comes first, as in [SVG] 7.6."""
    m = svgelements.Matrix(text)

    assert matrix_of(text) == pytest.approx(np.array([[m.a, m.c, m.e], [m.b, m.d, m.f]]), abs=1e-9)


NO_MOVES = ["rotate(1 2)", "foo(1)", "translate(5mm)", "scale(nan)", "scale 2", "scale(2",
            "scale(2))", "a" * 300_000, "a" + " " * 300_000, "scale(" * 50_000]  # fmt: skip


@pytest.mark.parametrize("text", NO_MOVES, ids=range(len(NO_MOVES)))
def test_what_is_no_transform_is_refused(text):
    """Units, unknown names, wrong counts, brackets that do not pair."""
    with pytest.raises(FileError, match="cannot be read"):
        matrix_of(text)
