"""Polygons cut into triangles: bulging ones, dented ones, and ones that cannot be."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.files.polygons import Polygons, cut_up

ARROW = [(0, 0, 0), (2, -1, 0), (0, 2, 0), (-2, -1, 0)]
"""A quad with a dent at its first corner: cut from its second, it would fold back."""


def _polygons(*outlines):
    points = np.concatenate([np.array(outline, float) for outline in outlines])
    sizes = np.array([len(outline) for outline in outlines])
    return Polygons(points, np.arange(len(points)), sizes)


def _areas(polygons, faces):
    a, b, c = polygons.points[faces].transpose(1, 0, 2)
    return np.cross(b - a, c - a)[:, 2] / 2


@pytest.mark.parametrize("first", range(4))
def test_a_dented_quad_is_cut_at_its_dent(first):
    """Whatever corner it starts from: 4 square units, not 4 and something folded over."""
    polygons = _polygons(np.roll(ARROW, first, axis=0))
    faces, cut, doubtful = cut_up(polygons)

    assert (cut, doubtful) == (1, 0)
    assert (_areas(polygons, faces) > 0).all()
    assert _areas(polygons, faces).sum() == pytest.approx(4)


def test_polygons_of_many_sizes_stay_in_order():
    """Triangles of the first come before those of the second."""
    triangle, pair = [(9, 9, 0), (10, 9, 0), (9, 10, 0)], [(0, 0, 0), (1, 0, 0)]
    polygons = _polygons(ARROW, triangle, pair, ARROW)
    faces, cut, _ = cut_up(polygons)

    assert (np.sort(faces, axis=1).min(axis=1) // 1).tolist() == [0, 0, 4, 9, 9]
    assert cut == 2


def test_one_that_folds_back_from_every_corner_is_told():
    """A comb with three teeth: its area comes out too large."""
    comb = [(0, 0, 0), (5, 0, 0), (5, 3, 0), (4, 1, 0), (3, 3, 0), (2, 1, 0), (1, 3, 0), (0, 1, 0)]

    assert cut_up(_polygons(comb)).doubtful == 1


def test_nothing_is_cut_into_nothing():
    """No polygons, no triangles."""
    assert cut_up(Polygons(np.empty((0, 3)), np.empty(0, int), np.empty(0, int))).faces.shape == (
        0, 3
    )  # fmt: skip


@given(st.integers(3, 40), st.integers(0, 1_000_000))
def test_a_bulging_polygon_keeps_its_area(count, seed):
    """Corners on a circle, anywhere: the shoelace sum."""
    angles = np.sort(np.random.default_rng(seed).uniform(0, 2 * np.pi, count))
    outline = np.stack([np.cos(angles), np.sin(angles), 0 * angles], axis=-1)
    polygons = _polygons(outline)
    x, y, _ = outline.T
    shoelace = (x * np.roll(y, -1) - y * np.roll(x, -1)).sum() / 2

    assert _areas(polygons, cut_up(polygons).faces).sum() == pytest.approx(shoelace, abs=1e-9)
