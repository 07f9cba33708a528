"""Outlining: the united outline of each assembly from any side, in any position."""

from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass
from functools import cache, partial
from typing import NamedTuple

import numpy as np
import shapely

from estimator.geometry.chunks import FINENESS
from estimator.geometry.measures import Floats
from estimator.geometry.silhouettes import Shadows, area_and_middle, moved, united_by_group
from estimator.resolve.records import Indices, PartColumns
from estimator.stages.measuring import Pieces, Shapes, pieces_of

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

    def as_in(self, other: "Seen", turn: Floats) -> "Seen":
        """Return the same, with what is covered known from another view along the same line.

        Args:
            other: What is seen in that view.
            turn: (2, 2) from that view to this one; a mirror does as well.
        """

        def turned() -> Covered:
            """Return the same seen turned in its own plane."""
            own = other.covered()
            return own._replace(middle_m=turn @ own.middle_m)

        return self._replace(covered=turned)

    def from_behind(self) -> "Seen":
        """Return what is covered from the other side: the same in a mirror."""
        flip = np.array([-1.0, 1.0])
        low_m = np.array([-self.high_m[0], self.low_m[1]])
        high_m = np.array([-self.low_m[0], self.high_m[1]])

        def mirrored() -> Covered:
            """Return the same seen from behind."""
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
        # An assembly without parts may have a number beyond those of all parts.
        last = max((self.part_assembly.max(initial=0), *(members or ())))
        asked = np.full(last + 1, members is None)
        asked[[] if members is None else list(members)] = True
        for piece in self.pieces:
            wanted = np.flatnonzero(asked[self.part_assembly[piece.part]])
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
        alone_m2 = shapely.area(drawn) * self.solidity[parts] * self.alike[parts]
        summed_m2 = np.bincount(self.part_assembly[parts], alone_m2)
        order = np.argsort(self.part_assembly[parts], kind="stable")
        order = order[summed_m2[self.part_assembly[parts[order]]] > 0]
        parts, drawn, alone_m2 = parts[order], drawn[order], alone_m2[order]
        owner = self.part_assembly[parts]
        rows, starts = np.unique(owner, return_index=True)
        if not len(rows):
            return {}
        boxes_m = shapely.bounds(drawn)
        low_m, high_m = (reach.reduceat(boxes_m, starts) for reach in (np.fmin, np.fmax))
        halves_m = np.nan_to_num(boxes_m[:, 2:] - boxes_m[:, :2]) / 2
        middles_m = area_and_middle(drawn)[1]
        # Worked out at once where it is asked for at all, so that no drawing is kept.
        now = ~np.isin(owner, list(later))
        covered = self._covered(drawn[now], parts[now])
        found = {}
        for i, (row, own) in enumerate(zip(rows.tolist(), _runs(starts, len(parts)), strict=True)):
            known = row in covered
            found[row] = Seen(
                partial(_given, covered[row]) if known
                else cache(partial(self._again, projection, row, turn)),
                float(summed_m2[row]), low_m[i, :2], high_m[i, 2:],
                parts[own], alone_m2[own], middles_m[own], halves_m[own],
            )  # fmt: skip
        return found

    def _again(self, projection: Floats, row: int, turn: Floats | None) -> Covered:
        return self.seen(projection, [row], turn)[row].covered()

    def _covered(self, drawn: Shadows, parts: Indices) -> dict[int, Covered]:
        """Return what the silhouettes of each assembly cover together, by its row.

        What is cut away counts with the share that is left, where nothing whole lies behind it.
        """
        rows, which = np.unique(self.part_assembly[parts], return_inverse=True)
        cut = self.solidity[parts] < 1.0
        behind = united_by_group(drawn[~cut], which[~cut], len(rows))
        everything = behind.copy()
        some, owner = np.unique(which[cut], return_inverse=True)
        shown = np.concatenate((behind[some], drawn[cut]))
        everything[some] = united_by_group(
            shown, np.concatenate((np.arange(len(some)), owner)), len(some)
        )
        areas_m2, middles_m = area_and_middle(everything)
        moments_m3 = areas_m2[:, None] * middles_m
        lost_m2, at_m = area_and_middle(shapely.difference(drawn[cut], behind[which[cut]]))
        lost_m2 = lost_m2 * (1.0 - self.solidity[parts[cut]])
        np.subtract.at(areas_m2, which[cut], lost_m2)
        np.subtract.at(moments_m3, which[cut], lost_m2[:, None] * at_m)
        found = zip(areas_m2, _filled_m2(everything), moments_m3, strict=True)
        return {
            row: Covered(float(area_m2), float(filled_m2), moment_m3 / area_m2)
            for row, (area_m2, filled_m2, moment_m3) in zip(rows.tolist(), found, strict=True)
        }

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


def _runs(starts: Indices, count: int) -> list[slice]:
    """Return where each run of rows lies that begins at one of the starts."""
    return list(map(slice, starts.tolist(), [*starts[1:].tolist(), count]))


def _filled_m2(outlines: Shadows) -> Floats:
    """Return the areas (n,) of outlines with their holes filled."""
    pieces, owner = shapely.get_parts(outlines, return_index=True)
    flat = shapely.get_dimensions(pieces) == AREA
    filled_m2 = np.zeros(len(outlines))
    rings = shapely.get_exterior_ring(pieces[flat])
    np.add.at(filled_m2, owner[flat], shapely.area(shapely.polygons(rings)))
    return filled_m2
