"""Parts whose form is a surface of triangles in a file: from its row to what it measures."""

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

import numpy as np

from estimator.core.problems import Problem, Severity
from estimator.core.units import conversion
from estimator.files.meshes import READERS, RawMesh, counted, read_mesh
from estimator.files.shelf import FileError, Found, Shelf
from estimator.geometry.crossings import Crossings, crossings
from estimator.geometry.measures import Measures
from estimator.geometry.mesh_faults import Faults, Spot, faults
from estimator.geometry.meshes import (
    Depths,
    Shell,
    depths,
    edges_of,
    looks_in,
    measures,
    moved_in,
    shell,
    vector_areas,
)
from estimator.geometry.models import Mesh, Model
from estimator.resolve.doubts import LIKELY_M, SIZE_DIFFERS, Doubt, problems_of
from estimator.resolve.names import refusal
from estimator.resolve.records import Layer, Modelled
from estimator.sheets.columns import FILE_UNITS
from estimator.sheets.rows import Row

SKINS = {"one face": 1, "both faces": 2, "whole outside": 1}
"""Where a layer adds to the thickness of the skin, and how often."""
ENCLOSED = frozenset({"solid", "inside"})
FULL_SIZE = 1.0
"""Scale where nobody says another."""
SKIN_SHIFTS = 0.05
"""Share from which the area of a thick skin is asked about."""
SIDES = {"length": 0, "width": 1, "depth": 2}
"""Axes of a file, by the size that may be typed beside it."""


class _Read(NamedTuple):
    """A file as its row says it is to be taken.

    Attributes:
        found: The file.
        raw: Its triangles.
        unit: Of its lengths.
        scale: Full size is so many times as large.
    """

    found: Found
    raw: RawMesh
    unit: str
    scale: float

    @property
    def metres(self) -> float:
        """Return the full size of one unit of the file."""
        return conversion(self.unit, "length")[0] * self.scale

    @property
    def said(self) -> str:
        """Return how it is taken: "mm at 1:10"."""
        return f"{self.unit} at 1:{self.scale:g}"

    def place(self, spot: Spot) -> str:
        """Return where to look in the file, to a thousandth of how large it is there."""
        step = 10.0 ** (math.floor(math.log10(np.ptp(self.raw.points, axis=0).max())) - 3)
        steps = (round(value / self.metres / step) for value in spot.at_m)
        at = ", ".join(f"{count * step:.7g}" for count in steps)
        return f"about ({at}) {self.unit} in the file"


class _Surface(NamedTuple):
    """A mesh at full size, with its outside outwards, and what is wrong with it."""

    shell: Shell
    faults: Faults
    crossings: Crossings


def mesh_model(
    row: Row, shelf: Shelf, layers: tuple[Layer, ...], problems: list[Problem]
) -> Modelled | None:
    """Return the model of a part from its file; None, with a problem, when there is none.

    Args:
        row: Its row of the parts sheet.
        shelf: Where the files of the job lie.
        layers: What the part is made of: it decides how thick its skin is.
        problems: What is found wrong is added here.
    """
    try:
        read = _read(row, shelf, problems)
        if read is None:
            return None
        key = ("surface", read.found.sha256, read.metres)
        surface = shelf.kept(key, lambda: _surface(read))
    except FileError as error:
        problems.append(refusal(row, "file", error.found, error.expected, error.advice))
        return None
    shows, skin_m = row.text("model_shows", "outside"), skin_thickness_m(layers)
    at = depths(shows, skin_m)
    try:
        measured = shelf.kept((*key, at), lambda: measures(surface.shell, at))
    except ValueError as error:
        long_m = float(np.ptp(surface.shell.mesh.points_m, axis=0).max())
        found = f"{read.found.name} is {_length(long_m)} long, taken as {read.said}: {error}"
        wanted = "a skin that is thinner than the thing itself"
        problems.append(refusal(row, "made_of", found, wanted, "look at scale, unit and gauge"))
        return None
    doubts = (
        *_sizes(row, read, measured),
        *_faults(read, surface, layers),
        *_skin(read, surface.shell, at, measured),
    )
    problems += problems_of(row, doubts)
    return Modelled(
        key=f"{read.found.name}, {read.said}, {shows} of {1000 * skin_m:g} mm",
        shape="mesh",
        model=Model(measured, mesh=shelf.kept((*key, at.outer), lambda: _outside(surface, at))),
        file=read.found.name,
        sha256=read.found.sha256,
        scale=read.scale,
        unit=read.unit,
        facts=tuple(_facts(row, read, surface, (at, measured))),
    )


def skin_thickness_m(layers: Sequence[Layer]) -> float:
    """Return the thickness of what lies over the faces of a part; what covers a share counts so.

    A layer without a thickness, such as a coat, adds none.
    """
    thick = (layer for layer in layers if layer.over in SKINS and layer.thickness_m > 0)
    return sum(SKINS[layer.over] * layer.covers * layer.thickness_m for layer in thick)


def _read(row: Row, shelf: Shelf, problems: list[Problem]) -> _Read | None:
    """Return what the file of a row holds, and how it is to be taken.

    Raises:
        FileError: It cannot be read.
    """
    found = shelf.find(row.text("file"), tuple(READERS))
    raw = shelf.kept(("mesh", found.sha256, found.suffix), lambda: read_mesh(found))
    read = _Read(found, raw, row.text("file_unit"), row.number("scale", FULL_SIZE))
    if not read.unit:
        problems.append(_no_unit(row, read))
        return None
    return read


def _no_unit(row: Row, read: _Read) -> Problem:
    """Return the problem of a mesh without a unit, with what each would make of it."""
    longest = float(np.ptp(read.raw.points, axis=0).max())
    sizes = (
        f"as {unit} it is {_length(longest * read._replace(unit=unit).metres)} long"
        for unit in FILE_UNITS
    )
    found = f"nothing says in which unit {read.found.name} is, and such a file does not"
    advice = f"at 1:{read.scale:g}, {', '.join(sizes)}"
    return refusal(row, "file_unit", found, f"one of: {', '.join(FILE_UNITS)}", advice)


def _surface(read: _Read) -> _Surface:
    """Return the surface of a file at full size; one that is all inside out is turned.

    Raises:
        FileError: It has no area.
    """
    mesh = Mesh(read.metres * read.raw.points, read.raw.faces)
    if not vector_areas(mesh).any():
        found = f"the triangles of {read.found.name} have no area"
        advice = "look at it in the program it was made with"
        raise FileError(found, "a surface", advice)
    edges = edges_of(mesh.faces)
    wrong = faults(mesh, edges)
    if wrong.inverted:
        mesh = mesh._replace(faces=np.ascontiguousarray(mesh.faces[:, ::-1]))
        edges = edges_of(mesh.faces)
    return _Surface(shell(mesh, edges, closed=wrong.closed), wrong, crossings(mesh))


def _outside(surface: _Surface, at: Depths) -> Mesh:
    """Return the outside of the skin: what is seen, and met by the wind."""
    return moved_in(surface.shell.mesh, at.outer)


def _sizes(row: Row, read: _Read, measured: Measures) -> Iterator[Doubt]:
    """Yield what is odd about the size of a mesh."""
    box_m = measured.box_m[0]
    longest_m = float(box_m.max())
    shortest_m, furthest_m = LIKELY_M
    if not shortest_m <= longest_m <= furthest_m:
        found = f"{read.found.name} is {_length(longest_m)} long at full size, taken as {read.said}"
        wanted = f"a thing of {_length(shortest_m)} to {_length(furthest_m)}"
        yield Doubt(found, wanted, "look whether the unit and the scale are right", "file_unit")
    for side, axis in SIDES.items():
        typed_m, own_m = row.number(side), float(box_m[axis])
        if abs(typed_m - own_m) > SIZE_DIFFERS * typed_m:
            found = (
                f"the {side} is typed as {_length(typed_m)}, and {read.found.name} is "
                f"{_length(own_m)} that way ({'xyz'[axis]} of the file), taken as {read.said}"
            )
            advice = "the file was used; look at its scale, its unit and its axes"
            yield Doubt(found, f"the same within {100 * SIZE_DIFFERS:g} %", advice, side)


def _faults(read: _Read, surface: _Surface, layers: Sequence[Layer]) -> Iterator[Doubt]:
    """Yield what is wrong with a surface."""
    name, found = read.found.name, surface.faults
    if found.open_edges.found:
        yield _open(read, found, layers)
    for spot, noun, words, wanted, advice in _kinds(found, surface.crossings):
        if spot.found:
            many = counted(spot.found, noun)
            about = words.format(n=many, name=name, size=_figure(spot.size))
            yield Doubt(f"{about}, such as {read.place(spot)}", wanted, advice)
    if found.inverted:
        words = f"all triangles of {name} have their outside inwards"
        yield Doubt(words, "an outside that faces outwards", "they were taken the other way round")
    look = "look at it in the program it was made with"
    yield from (Doubt(f"{name}: {doubt}", "", look) for doubt in read.raw.doubts)


class _Kind(NamedTuple):
    """A kind of fault: where it was found, what it is counted in, and what to say of it."""

    spot: Spot
    noun: str
    words: str
    wanted: str
    advice: str


def _kinds(found: Faults, crossed: Crossings) -> tuple[_Kind, ...]:
    """Return the kinds of fault that are counted."""
    return (
        _Kind(found.crowded, "edge", "more than two triangles meet in {n} of {name}, {size} m long",
              "two triangles at every edge", "what lies inside counts as skin too; take it out"),
        _Kind(found.flipped, "edge", "neighbours disagree which side is outside at {n} of {name}",
              "an outside that is the same all over",
              "its skin is used, a volume is not; turn those that are inside out"),
        _Kind(found.doubled, "triangle", "{n} of {name}, {size} m2, with the corners of another",
              "each triangle once", "their skin counts twice; take the second ones out"),
        _Kind(found.hollows, "piece", "{n} of {name}, {size} m3, inside out within another",
              "", "that was taken off as hollow, and its skin counts as well; turn it if it is "
              "no hollow, take it out if the skin is to be the outside alone"),
        _Kind(found.astray, "piece", "{n} of {name}, {size} m3, inside out",
              "an outside that is the same all over",
              "its skin is used, a volume is not; turn it"),
        _Kind(crossed.found, "triangle", "{n} of {name} running through others",
              "pieces that do not run through each other",
              "what lies inside another piece counts twice; unite the pieces"),
    )  # fmt: skip


def _open(read: _Read, found: Faults, layers: Sequence[Layer]) -> Doubt:
    """Return what to say of a surface that does not close."""
    over = {layer.over for layer in layers}
    holes = found.borders
    words = (
        f"{read.found.name} is open: {counted(found.open_edges.found, 'edge')} of one triangle "
        f"alone, {_length(found.open_edges.size)} in {counted(holes.found, 'border')}; the longest "
        f"is {_length(holes.size)}, {read.place(holes)}"
    )
    advice = "its skin and its outline are used; close it if it is to have a volume"
    if "whole outside" in over:
        advice += "; what lies over its whole outside counts on the side that is shown alone"
    severity = Severity.QUESTION if over & {*ENCLOSED, "whole outside"} else Severity.NOTE
    return Doubt(words, "", advice, severity=severity)


def _skin(read: _Read, shown: Shell, at: Depths, measured: Measures) -> Iterator[Doubt]:
    """Yield what the thickness of the skin does that should be looked at."""
    shift = _shift(shown, measured)
    if abs(shift) > SKIN_SHIFTS:
        found = (
            f"a skin of {_length(at.inner - at.outer)} changes the area that {read.found.name} "
            f"shows: {_change(shift)}"
        )
        advice = "it is right for what bends gently; look at `model shows`, the unit and the scale"
        yield Doubt(found, "a skin that is thin beside its bends", advice, "model_shows")
    if shown.solid is None and at.inner > at.outer and looks_in(shown):
        found = f"the outside of {read.found.name} is on its hollow side"
        advice = "its skin was laid on that side; turn its triangles if it belongs on the other"
        yield Doubt(found, "an outside that faces outwards", advice)
    if shown.solid is not None and measured.solid is None:
        found = f"a skin of {_length(at.inner - at.outer)} leaves nothing inside {read.found.name}"
        advice = "if the file shows both faces of a sheet, its skin counts twice: leave one face"
        yield Doubt(found, "a surface that is one face of the skin", advice)


def _shift(shown: Shell, measured: Measures) -> float:
    """Return by which share the skin is larger than what the mesh shows."""
    face_m2 = 0.0 if measured.face is None else float(measured.face.size[0])
    return face_m2 / float(shown.skin.size[0]) - 1.0


def _facts(
    row: Row, read: _Read, surface: _Surface, taken: tuple[Depths, Measures]
) -> Iterator[str]:
    """Yield what there is to say of a mesh, as sentences."""
    at, measured = taken
    shown, found, crossed = surface
    one_sided = "closed" if found.closed else "not the same side out all over"
    closed = "open" if found.open_edges.found else one_sided
    assumed = "" if row.has("scale") else ", as no scale is given"
    count = counted(len(shown.mesh.faces), "triangle")
    yield f"{read.found.name}: {count}, {closed}; taken as {read.said}{assumed}."
    box = " x ".join(f"{size:.3g}" for size in measured.box_m[0])
    yield f"At full size it is {box} m along its x, y and z."
    encloses = "" if shown.solid is None else f" and encloses {_figure(shown.solid.size[0])} m3"
    yield f"What it shows has an area of {_figure(shown.skin.size[0])} m2{encloses}."
    if at.inner > at.outer and measured.face is not None:
        holds = measured.solid
        inside = "" if holds is None else f", and {_figure(holds.size[0])} m3 inside"
        yield (
            f"It shows the {row.text('model_shows', 'outside')} of a skin of "
            f"{_length(at.inner - at.outer)}: {_figure(measured.face.size[0])} m2 at the middle of "
            f"its thickness, {_change(_shift(shown, measured))}{inside}."
        )
    if found.pieces.found > 1:
        share = found.pieces.size / float(shown.skin.size[0])
        yield (f"It is in {found.pieces.found:,} pieces that share no corner; the largest has "
               f"{100 * share:.0f} % of the area.")  # fmt: skip
    if found.flat.found:
        yield f"{counted(found.flat.found, 'triangle')} of it without an area."
    if crossed.looked_at < crossed.faces:
        yield (f"Whether it runs through itself was looked at for {crossed.looked_at:,} of its "
               "triangles, the largest.")  # fmt: skip
    yield from (f"{note}." for note in read.raw.notes)


def _figure(value: float) -> str:
    """Return a figure to three digits, without a power of ten."""
    return np.format_float_positional(value, 3, unique=False, fractional=False, trim="-")


def _change(share: float) -> str:
    """Return by how much something is more or less."""
    return f"{abs(100 * share):.1f} % {'less' if share < 0 else 'more'}"


def _length(length_m: float) -> str:
    """Return a length to three digits, in millimetres below a metre."""
    return f"{_figure(length_m)} m" if length_m >= 1 else f"{_figure(1000 * length_m)} mm"
