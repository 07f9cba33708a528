"""Outlining: the united outline of each assembly from any side, in any position."""

from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass
from functools import cache, partial
from typing import NamedTuple

import numpy as np
import shapely

from estimator.geometry.chunks import FINENESS
from estimator.geometry.measures import Floats
from estimator.geometry.silhouettes import Shadows, area_and_middle, moved, united
from estimator.resolve.records import Indices, PartColumns
from estimator.stages.measuring import Pieces, Shapes, pieces_of

Outline = shapely.Geometry
AREA = 2
"""Dimensions of what covers an area."""


class Covered(NamedTuple):
    """What outlines cover together.

    Attributes:
        area_m2: Covered, each spot once, less what is cut away.
        filled_m2: The same with its holes filled and nothing cut away.
        middle_m: (2,) middle of the covered area: level, up.
    """

    area_m2: float
    filled_m2: float
    middle_m: Floats


class Seen(NamedTuple):
    """What one assembly covers from one side.

    Attributes:
        covered: Gives what its parts cover together, worked out once.
        summed_m2: Its parts added one by one.
        low_m: (2,) lowest corner of its box.
        high_m: (2,) highest.
        parts: (n,) row of the part of each copy.
        areas_m2: (n,) of each copy alone.
        middles_m: (n, 2) of each copy.
        halves_m: (n, 2) half the box of each copy.
    """

    covered: Callable[[], Covered]
    summed_m2: float
    low_m: Floats
    high_m: Floats
    parts: Indices
    areas_m2: Floats
    middles_m: Floats
    halves_m: Floats

    @property
    def area_m2(self) -> float:
        """Return what is covered, each spot once, less what is cut away."""
        return self.covered().area_m2

    @property
    def filled_m2(self) -> float:
        """Return the same with its holes filled and nothing cut away."""
        return self.covered().filled_m2

    @property
    def middle_m(self) -> Floats:
        """Return (2,) the middle of the covered area: level, up."""
        return self.covered().middle_m

    def from_behind(self) -> "Seen":
        """Return what is covered from the other side: the same in a mirror."""
        flip = np.array([-1.0, 1.0])
        low_m = np.array([-self.high_m[0], self.low_m[1]])
        high_m = np.array([-self.low_m[0], self.high_m[1]])

        def mirrored() -> Covered:
            own = self.covered()
            return own._replace(middle_m=flip * own.middle_m)

        return self._replace(
            covered=mirrored, low_m=low_m, high_m=high_m, middles_m=flip * self.middles_m
        )


@dataclass(frozen=True, slots=True)
class Outliner:
    """Draws outlines of assemblies from the pieces of their parts.

    Attributes:
        pieces: Of all copies, by form.
        part_assembly: (n,) row of the assembly of each part.
        alike: (n,) how many copies stand in one place.
        solidity: (n,) what is left of each part's outline after cutting away.
        fineness: Corners of a circle.
        edge_m: Thickness given to what is seen edge-on; none where areas count.
    """

    pieces: tuple[Pieces, ...]
    part_assembly: Indices
    alike: Floats
    solidity: Floats
    fineness: int
    edge_m: float = 0.0

    @classmethod
    def of(
        cls, columns: PartColumns, shapes: Shapes, keep: np.ndarray, fineness: int = FINENESS
    ) -> "Outliner":
        """Return an outliner for the parts to keep, (n,) bool."""
        found = pieces_of(columns, shapes, keep, fineness)
        spread = [part.set_out[0] != "" for part in columns.parts]
        alike = np.where(spread, 1.0, columns.count)
        return cls(tuple(found), columns.assembly, alike, 1.0 - columns.cut_away, fineness)

    def shadows(
        self, projection: Floats, members: Sequence[int] | None = None, turn: Floats | None = None
    ) -> tuple[Indices, Shadows]:
        """Return the part and the silhouette of every copy, in its assembly's frame.

        Args:
            projection: (2, 3) rows of the view.
            members: Rows of the assemblies wanted; all when None.
            turn: (3, 3) how their frames are turned.
        """
        seen = projection if turn is None else projection @ turn

        parts, drawn = [np.zeros(0, dtype=np.intp)], [np.zeros(0, dtype=object)]
        for piece, wanted in self.copies(members):
            forms, again = np.unique(piece.which[wanted], return_inverse=True)
            alike = piece.form.shadows(forms, seen, self.fineness, self.edge_m)
            parts.append(piece.part[wanted])
            drawn.append(moved(alike[again], piece.at_m[wanted] @ seen.T))
        return np.concatenate(parts), np.concatenate(drawn)

    def copies(self, members: Sequence[int] | None = None) -> Iterator[tuple[Pieces, Indices]]:
        """Yield the pieces of some assemblies, and which of their copies belong to them."""
        for piece in self.pieces:
            wanted = np.arange(len(piece.part))
            if members is not None:
                wanted = np.flatnonzero(np.isin(self.part_assembly[piece.part], members))
            if len(wanted):
                yield piece, wanted

    def seen(
        self,
        projection: Floats,
        members: Sequence[int] | None = None,
        turn: Floats | None = None,
        later: Collection[int] = (),
    ) -> dict[int, Seen]:
        """Return what each assembly covers, by its row; those that cover nothing are left out.

        Args:
            projection: (2, 3) rows of the view.
            members: Rows of the assemblies wanted; all when None.
            turn: (3, 3) how their frames are turned.
            later: Rows of those whose parts are united only when somebody asks, and drawn again
                then: nobody does where parts are added up.
        """
        parts, drawn = self.shadows(projection, members, turn)
        owner = self.part_assembly[parts]
        order = np.argsort(owner, kind="stable")
        starts = np.flatnonzero(np.diff(owner[order], prepend=-1))
        found = {}
        for rows in np.split(order, starts[1:]) if len(order) else []:
            row = int(owner[rows[0]])
            shown = self._shown(drawn[rows], parts[rows])
            if shown is None:
                continue
            if row in later:
                again = cache(partial(self._again, projection, row, turn))
                found[row] = shown._replace(covered=again)
            else:
                # Worked out at once, so that no drawing is kept.
                covered = shown.covered()
                found[row] = shown._replace(covered=partial(_given, covered))
        return found

    def _again(self, projection: Floats, row: int, turn: Floats | None) -> Covered:
        return self.seen(projection, [row], turn)[row].covered()

    def _shown(self, drawn: Shadows, parts: Indices) -> Seen | None:
        """Return what some silhouettes show; None for no area."""
        alone_m2 = shapely.area(drawn) * self.solidity[parts] * self.alike[parts]
        if not alone_m2.sum() > 0:
            return None
        boxes_m = shapely.bounds(drawn)
        halves_m = np.nan_to_num(boxes_m)
        return Seen(
            partial(self._covered, drawn, parts),
            float(alone_m2.sum()),
            np.nanmin(boxes_m[:, :2], axis=0),
            np.nanmax(boxes_m[:, 2:], axis=0),
            parts,
            alone_m2,
            area_and_middle(drawn)[1],
            (halves_m[:, 2:] - halves_m[:, :2]) / 2,
        )

    def _covered(self, drawn: Shadows, parts: Indices) -> Covered:
        """Return what some silhouettes cover together.

        What is cut away counts with the share that is left, where nothing whole lies behind it.
        """
        solidity = self.solidity[parts]
        cut = solidity < 1.0
        behind = united(drawn[~cut])
        everything = united(np.array([behind, *drawn[cut]])) if cut.any() else behind
        areas_m2, middles_m = area_and_middle(np.array([everything]))
        area_m2, moment_m3 = areas_m2[0], areas_m2[0] * middles_m[0]
        for outline, left in zip(drawn[cut], solidity[cut], strict=True):
            alone = shapely.difference(outline, behind)
            (lost_m2,), (at_m,) = area_and_middle(np.array([alone]))
            area_m2 = area_m2 - (1.0 - left) * lost_m2
            moment_m3 = moment_m3 - (1.0 - left) * lost_m2 * at_m
        return Covered(float(area_m2), _filled_m2(everything), moment_m3 / area_m2)

    def boxes(self, members: Sequence[int], turn: Floats) -> dict[int, Floats]:
        """Return the box (2, 3) round each assembly with its frame turned, by its row."""
        found: dict[int, Floats] = {}
        for piece, wanted in self.copies(members):
            forms, again = np.unique(piece.which[wanted], return_inverse=True)
            step_m = piece.at_m[wanted] @ turn.T
            corners_m = piece.form.boxes(forms, turn)[again] + step_m[:, None]
            owners = self.part_assembly[piece.part[wanted]]
            for owner in np.unique(owners):
                own = corners_m[owners == owner]
                low_m, high_m = own[:, 0].min(axis=0), own[:, 1].max(axis=0)
                if owner in found:
                    low_m = np.minimum(low_m, found[owner][0])
                    high_m = np.maximum(high_m, found[owner][1])
                found[int(owner)] = np.stack((low_m, high_m))
        return found


def _given(covered: Covered) -> Covered:
    return covered


def _filled_m2(outline: Outline) -> float:
    """Return the area of an outline with its holes filled."""
    return float(shapely.area(shapely.polygons(_rims(outline))).sum())


def _rims(outline: Outline) -> Shadows:
    """Return the outer rings of an outline; what is no area has none."""
    pieces = shapely.get_parts(outline)
    return np.asarray(shapely.get_exterior_ring(pieces[shapely.get_dimensions(pieces) == AREA]))
