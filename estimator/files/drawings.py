"""DXF drawings: what their model space shows as paths, blocks taken apart, in their own units."""

import logging
import math
import struct
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, NamedTuple, Self, cast

import numpy as np

from estimator.files.curves import (
    METRES,
    Drawing,
    Floats,
    Path,
    anchors,
    moved,
    refuse_unmeasurable,
)
from estimator.files.dxf_curves import DRAWS, NEEDS
from estimator.files.shelf import FileError, Found

if TYPE_CHECKING:
    from ezdxf.document import Drawing as Document
    from ezdxf.entities.dxfentity import DXFEntity
    from ezdxf.entities.insert import Insert

MOST_ENTITIES = 50_000
"""More lines, arcs and blocks than this take too long to look through."""
DEEPEST = 16
"""Blocks within blocks."""
LEVEL = 1e-6
"""How far, as a share of its size, what is drawn may leave a plane square to the view."""
UNITS: Mapping[int, str] = {
    1: "in", 2: "ft", 4: "mm", 5: "cm", 6: "m", 7: "km", 9: "mil", 10: "yd", 13: "micron", 14: "dm",
}  # fmt: skip
"""Values of $INSUNITS that a drawing of this trade can have, as the DXF reference lists them."""
_UNREADABLE = ("a DXF drawing that is whole", "open it in a drawing program, and save it again")
_TOO_MANY = (
    f"it draws more than {MOST_ENTITIES:,} things, those in blocks each time they are set in",
    "the outline alone",
    "take out what is not part of the outline",
)
_TOO_DEEP = (
    f"its blocks lie more than {DEEPEST} deep, or within themselves",
    "the outline alone",
    "explode its blocks, and save it again",
)
_TILTED = (
    "some of it does not lie flat in its XY plane",
    "an outline drawn flat, in plan",
    "flatten it, or make the part a mesh",
)
_KINDS: Mapping[str, str] = {
    "MTEXT": "text", "TEXT": "text", "ATTDEF": "text", "ATTRIB": "text", "HATCH": "hatch",
    "MPOLYGON": "hatch", "DIMENSION": "dimension", "ARC_DIMENSION": "dimension",
    "POINT": "point", "POLYLINE": "mesh",
    "LEADER": "leader", "MULTILEADER": "leader", "IMAGE": "image", "3DFACE": "face in space",
    "SOLID": "filled piece", "TRACE": "filled piece", "3DSOLID": "solid", "REGION": "region",
    "MLINE": "multiple line", "XLINE": "endless line", "RAY": "endless line",
}  # fmt: skip
"""What is left aside, in words."""
_MOST_SAID = 3
_FAILURES = (OSError, ValueError, TypeError, LookupError, ArithmeticError, AttributeError,
             AssertionError, StopIteration, RuntimeError, struct.error)  # fmt: skip
"""What the library may raise of a file that is not whole."""


def read_dxf(found: Found) -> Drawing:
    """Return what the model space of a DXF drawing shows.

    Raises:
        FileError: It cannot be read, or is more than can be looked through.
    """
    from ezdxf.filemanagement import readfile  # noqa: PLC0415 - heavy, for drawings only
    from ezdxf.lldxf.const import DXFError  # noqa: PLC0415

    # What is no number goes through quietly here: it is refused where curves are moved.
    with _listening() as said, np.errstate(all="ignore"):
        try:
            document = readfile(found.path)
            walk = _Walk(document)
            walk.layout(document.modelspace(), Frame.of_the_world(), "0", 0)
            paths = tuple(_in_plan(path) for path in walk.paths)
            code = _unit_code(found, document)
        except FileError:
            raise
        except (DXFError, *_FAILURES) as error:
            words = f"it is not a DXF drawing that can be read ({type(error).__name__}: {error})"
            raise FileError(words, *_UNREADABLE) from error
    unit = UNITS.get(code, "")
    if code and not unit:
        walk.notes.append(f"Its unit is number {code} of DXF, which none of this trade is.")
    notes = (*walk.notes, *(f"Its reader says: {line}" for line in said[:_MOST_SAID]))
    metres = METRES.get(unit, math.nan)
    return Drawing(paths, unit, metres, falls=False, aside=walk.aside, notes=notes)


@contextmanager
def _listening() -> Iterator[list[str]]:
    """Give what the library warns of while it reads: that is for the page, not for the screen."""
    said = list[str]()
    handler = logging.Handler(logging.WARNING)
    handler.emit = lambda record: said.append(record.getMessage())  # type: ignore[method-assign]
    logger = logging.getLogger("ezdxf")
    before = logger.propagate
    logger.addHandler(handler)
    logger.propagate = False
    try:
        yield said
    finally:
        logger.removeHandler(handler)
        logger.propagate = before


def _unit_code(found: Found, document: "Document") -> int:
    """Return $INSUNITS as the file has it; the library gives a default where the file has none."""
    if b"$INSUNITS" not in found.path.read_bytes():
        return 0
    return int(document.header.get("$INSUNITS", 0))


class Frame(NamedTuple):
    """Where a block is set in: linear x + shift.

    Attributes:
        linear: (3, 3).
        shift: (3,).
    """

    linear: Floats
    shift: Floats

    @classmethod
    def of_the_world(cls) -> Self:
        """Return the frame of the model space."""
        return cls(np.eye(3), np.zeros(3))

    def holding(self, insert: "Insert") -> "Frame":
        """Return the frame of a block that is set into this one."""
        matrix = np.array([*insert.matrix44()]).reshape(4, 4)  # rows are the images of the axes
        refuse_unmeasurable(matrix)
        inner = Frame(matrix[:3, :3].T, matrix[3, :3])
        both = Frame(self.linear @ inner.linear, self.linear @ inner.shift + self.shift)
        refuse_unmeasurable(both.linear)
        return both


@dataclass
class _Walk:
    """A walk through the entities of a drawing, blocks each time they are set in.

    Attributes:
        document: The drawing.
        paths: What was drawn so far, in space.
        aside: How many things of each kind were left aside.
        notes: What there is to say.
        seen: Entities looked at so far.
        hidden: Whether each layer is frozen, and whether it is off, by name.
    """

    document: "Document"
    paths: list[Path] = field(default_factory=list)
    aside: Counter[str] = field(default_factory=Counter)
    notes: list[str] = field(default_factory=list)
    seen: int = 0
    hidden: dict[str, tuple[bool, bool]] = field(default_factory=dict)

    def layout(self, entities: Iterable["DXFEntity"], frame: Frame, layer: str, depth: int) -> None:
        """Draw the entities of the model space or of a block.

        Args:
            entities: What it holds.
            frame: Where it is set in.
            layer: Layer it is set in on, which what lies on layer 0 in a block takes over.
            depth: Blocks it lies in.
        """
        if depth > DEEPEST:
            raise FileError(*_TOO_DEEP)
        for entity in entities:
            self._count(1)
            own = str(entity.dxf.get("layer", "0"))
            on = layer if own == "0" else own
            frozen, off = self._layer(on)
            kind = entity.dxftype()
            if frozen or entity.dxf.get("invisible", 0) or (off and kind != "INSERT"):
                self.aside["thing that is hidden, or on a layer that is off or frozen"] += 1
            elif kind == "INSERT":
                self._block(cast("Insert", entity), frame, on, depth)
            else:
                self._entity(kind, entity, frame)

    def _count(self, more: int) -> None:
        self.seen += more
        if self.seen > MOST_ENTITIES:
            raise FileError(*_TOO_MANY)

    def _layer(self, name: str) -> tuple[bool, bool]:
        """Return whether a layer is frozen, and whether it is off."""
        key = name.lower()
        if key not in self.hidden:
            known = name in self.document.layers
            layer = self.document.layers.get(name) if known else None
            self.hidden[key] = (layer.is_frozen(), layer.is_off()) if layer else (False, False)
        return self.hidden[key]

    def _block(self, insert: "Insert", frame: Frame, layer: str, depth: int) -> None:
        """Draw a block, in each row and column it is repeated in."""
        block = insert.block()
        if block is None or block.block is None or block.block.is_xref:
            self.aside["block that lies in another file, or nowhere"] += 1
            return
        rows, columns = (max(1, insert.dxf.get(f"{way}_count", 1)) for way in ("row", "column"))
        self._count(rows * columns - 1)
        for one in insert.multi_insert() if rows * columns > 1 else (insert,):
            self.layout(block, frame.holding(one), layer, depth + 1)

    def _entity(self, kind: str, entity: "DXFEntity", frame: Frame) -> None:
        """Draw one entity, or leave it aside."""
        if not all(entity.dxf.hasattr(name) for name in NEEDS.get(kind, ())):
            words = f"it has a {kind} without all its coordinates"
            raise FileError(words, *_UNREADABLE)
        curves = DRAWS[kind](entity) if kind in DRAWS else None
        if curves is None:
            self.aside[_KINDS.get(kind, f"thing called {kind}")] += 1
            return
        if getattr(entity, "has_width", False):
            wide = "Wide polylines count along their middle, without their width."
            self.notes += [wide] if wide not in self.notes else []
        if curves:
            self.paths.append(tuple(moved(curve, *frame) for curve in curves))


def _in_plan(path: Path) -> Path:
    """Return a path seen from above.

    Raises:
        FileError: It is not level.
    """
    reach = np.ptp(np.concatenate([anchors(curve) for curve in path]), axis=0)
    if reach[2] > LEVEL * reach.max():
        raise FileError(*_TILTED)
    return tuple(moved(curve, np.eye(2, 3), np.zeros(2)) for curve in path)
