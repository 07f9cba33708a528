"""SVG drawings: what they show as paths, in their own units, with y turned to point up.

References:
    [SVG] W3C Recommendation Scalable Vector Graphics (SVG) 1.1, second edition, 2011: chapter 5
    document structure, chapter 7 units and viewBox, chapter 9 basic shapes. From memory.
"""

import math
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from types import SimpleNamespace
from typing import BinaryIO, NamedTuple
from xml.etree.ElementTree import Element, ParseError

import numpy as np

from estimator.files.curves import METRES, Drawing, Floats, Path, moved, refuse_unmeasurable
from estimator.files.shelf import FileError, Found, shown
from estimator.files.svg_paths import matrix_of, plain_numbers, unreadable
from estimator.files.svg_shapes import LENGTH, SHAPES, length_of

MOST_ELEMENTS = 100_000
"""More elements than this in a file, or drawn by it, take too long to look through."""
DEEPEST = 100
"""Groups within groups, and copies of copies."""
_OUTRIGHT = frozenset({"mm", "cm", "in", "pt", "pc"})
"""Units of a width that are meant as lengths; px are only dots."""
_GROUPS = frozenset({"g", "a", "switch"})
_UNDRAWN = frozenset({
    "defs", "symbol", "clipPath", "mask", "pattern", "marker", "linearGradient", "radialGradient",
    "filter", "metadata", "title", "desc", "style", "view", "cursor", "font", "color-profile",
})  # fmt: skip
"""What is only drawn where something else calls for it, or never."""
_KINDS: Mapping[str, str] = {
    "text": "text", "image": "image", "script": "script", "foreignObject": "foreign object",
    "svg": "drawing within the drawing", "symbol": "symbol fitted to a box",
}  # fmt: skip
_BLOCK_BYTES = 1_000_000
_NAMESPACES = frozenset({"", "http://www.w3.org/2000/svg"})
_HREFS = ("href", "{http://www.w3.org/1999/xlink}href")
_FLIP = np.array([[1.0, 0.0, 0.0], [0.0, -1.0, 0.0]])

_NO_SVG = ("it is not an SVG drawing", "a drawing saved as plain SVG", "save it as plain SVG")
_ENTITIES = (
    "it declares entities or calls for other files, which is not followed",
    "a drawing saved as plain SVG",
    "save it as plain SVG",
)
_TOO_MANY = (
    f"it draws more than {MOST_ELEMENTS:,} things",
    "the outline alone",
    "take out what is not part of the outline",
)
_TOO_DEEP = (
    f"its groups and copies lie more than {DEEPEST} deep, or within themselves",
    "the outline alone",
    "ungroup it, and save it again",
)
_STRETCHED = (
    "it is drawn to one scale across and another one up",
    "one scale both ways",
    "save it without stretching",
)
_STYLED = (
    "it moves things by a style, which is not read",
    "transforms as attributes",
    "save it as plain SVG",
)


class Unit(NamedTuple):
    """What one unit of the coordinates is.

    Attributes:
        name: In which lengths are said.
        metres: Length of one unit of the coordinates.
    """

    name: str
    metres: float


def read_svg(found: Found) -> Drawing:
    """Return what an SVG drawing shows.

    Raises:
        FileError: It cannot be read, or means something this program does not follow.
    """
    with found.path.open("rb") as stream:
        root = _tree(stream)
    if _name(root) != "svg":
        raise FileError(*_NO_SVG)
    unit = _unit(root)
    walk = _Walk({one.get("id", ""): one for one in root.iter()})
    walk.inside(root, _after(_FLIP, matrix_of(root.get("transform", ""))), 0)
    return Drawing(tuple(walk.paths), *unit, falls=True, aside=walk.aside, notes=tuple(walk.notes))


def _tree(stream: BinaryIO) -> Element:
    """Return the root of a file that was looked at element by element while it was read."""
    from defusedxml import DefusedXmlException  # noqa: PLC0415 - only where a drawing is read
    from defusedxml.ElementTree import iterparse  # noqa: PLC0415

    count, depth, root = 0, 0, Element("")
    try:
        # A path of many megabytes is looked at anew with each block of the file that is read.
        blocks = SimpleNamespace(read=lambda _: stream.read(_BLOCK_BYTES))
        for event, element in iterparse(blocks, events=("start", "end")):
            started = event == "start"
            root = root if count else element
            count, depth = count + started, depth + (1 if started else -1)
            _refuse_beyond(count, depth)
    except FileError:
        raise
    except DefusedXmlException as error:
        raise FileError(*_ENTITIES) from error
    except (ParseError, ValueError, LookupError) as error:
        words = f"it is not whole ({error})"
        raise FileError(words, *_NO_SVG[1:]) from error
    return root


def _refuse_beyond(count: int, depth: int) -> None:
    """Keep out a drawing of too many elements, or of groups that lie too deep."""
    if count > MOST_ELEMENTS:
        raise FileError(*_TOO_MANY)
    if depth > DEEPEST:
        raise FileError(*_TOO_DEEP)


def _name(element: Element) -> str:
    """Return what an element is called in SVG; blank for what belongs to a drawing program."""
    space, _, name = str(element.tag).rpartition("}")
    return name if space.removeprefix("{") in _NAMESPACES else ""


def _unit(root: Element) -> Unit:
    """Return the unit of the drawing: [SVG] 7.2, 7.8. Percentages say nothing of it."""
    said = f"width={root.get('width')} height={root.get('height')} viewBox={root.get('viewBox')}"
    sides = [LENGTH.fullmatch(root.get(side, "")) for side in ("width", "height")]
    box = plain_numbers(root.get("viewBox", ""))
    units = [(side[2] or "px") for side in sides if side]
    name = next((unit for unit in units if unit in _OUTRIGHT), "px")
    if len(box) not in (0, 4) or any(unit not in METRES for unit in units):
        raise unreadable(said)
    if not box:
        return Unit("px", METRES["px"])
    scales = [
        float(side[1]) * METRES[side[2] or "px"] / extent
        for side, extent in zip(sides, box[2:], strict=True)
        if side and extent > 0
    ]
    scale = min(scales, default=METRES["px"])
    if "none" in root.get("preserveAspectRatio", "") and max(scales, default=0) > 1.001 * scale:
        raise FileError(*_STRETCHED)
    if not 0 < scale < math.inf:
        raise unreadable(said)
    return Unit(name, scale)


@dataclass
class _Walk:
    """A walk through the elements of a drawing, in the order they are drawn.

    Attributes:
        named: Elements by their id.
        paths: What was drawn so far, in the frame of the file with y up.
        aside: How many things of each kind were left aside.
        notes: What there is to say.
        drawn: Elements looked at so far, each time they are called for.
    """

    named: Mapping[str, Element]
    paths: list[Path] = field(default_factory=list)
    aside: Counter[str] = field(default_factory=Counter)
    notes: list[str] = field(default_factory=list)
    drawn: int = 0

    def inside(self, parent: Element, matrix: Floats, depth: int) -> None:
        """Draw what a group holds.

        Args:
            parent: The group.
            matrix: (2, 3) from its coordinates to the frame of the file.
            depth: Groups it lies in.
        """
        for element in parent:
            self.one(element, matrix, depth)

    def one(self, element: Element, matrix: Floats, depth: int) -> None:
        """Draw one element."""
        self.drawn += 1
        _refuse_beyond(self.drawn, depth)
        name = _name(element)
        if name == "style":
            self._warn_of_sheet(element)
        if not name or name in _UNDRAWN:
            return
        style = _style(element)
        if style["display"] == "none" or style["visibility"] in ("hidden", "collapse"):
            self.aside["hidden thing"] += 1
            return
        self._refuse_style(style)
        if style["clip-path"] != "none" or style["mask"] != "none":
            self._note("What is clipped or masked counts whole.")
        here = _after(matrix, matrix_of(element.get("transform", "")))
        if name in SHAPES:
            paths = SHAPES[name](element)
            linear, shift = here[:, :2], here[:, 2]
            self.paths += [tuple(moved(curve, linear, shift) for curve in path) for path in paths]
        elif name == "use":
            self._copy(element, here, depth)
        elif name in _GROUPS:
            self.inside(element, here, depth + 1)
        else:
            self.aside[_KINDS.get(name, f"thing called {shown(name)}")] += 1

    def _copy(self, element: Element, matrix: Floats, depth: int) -> None:
        """Draw a copy of an element of this file: [SVG] 5.6."""
        href = next((element.get(name, "") for name in _HREFS if element.get(name)), "")
        original = self.named.get(href[1:]) if href.startswith("#") else None
        if original is None:
            self.aside["copy of what the file lacks"] += 1
            return
        shift = np.array([[1.0, 0.0, length_of(element, "x")], [0.0, 1.0, length_of(element, "y")]])
        here = _after(matrix, shift)
        if _name(original) != "symbol":
            copy = [original]
        elif original.get("viewBox"):
            self.aside[_KINDS["symbol"]] += 1
            return
        else:
            copy = [*original]
        for one in copy:
            self.one(one, here, depth + 1)

    def _warn_of_sheet(self, element: Element) -> None:
        if any(word in (element.text or "") for word in ("display", "visibility", "transform")):
            self._note("Its style sheet is not read: what that hides or moves counts as drawn.")

    def _refuse_style(self, style: Mapping[str, str]) -> None:
        if style["transform"] or style["transform-origin"]:
            raise FileError(*_STYLED)

    def _note(self, sentence: str) -> None:
        if sentence not in self.notes:
            self.notes.append(sentence)


def _style(element: Element) -> dict[str, str]:
    """Return how an element is shown, by attribute or, before that, by its style."""
    found = {
        "display": element.get("display", ""),
        "visibility": element.get("visibility", ""),
        "clip-path": element.get("clip-path", "none"),
        "mask": element.get("mask", "none"),
        "transform": "",
        "transform-origin": element.get("transform-origin", ""),
    }
    for entry in element.get("style", "").split(";"):
        name, _, value = entry.partition(":")
        if name.strip() in found:
            found[name.strip()] = value.partition("!")[0].strip()
    return found


def _after(matrix: Floats, inner: Floats) -> Floats:
    """Return two (2, 3) matrices as one; the inner one comes first."""
    both: Floats = np.column_stack((matrix[:, :2] @ inner[:, :2],
                                    matrix[:, :2] @ inner[:, 2] + matrix[:, 2]))  # fmt: skip
    refuse_unmeasurable(both)
    return both
