"""What assemblies cover from every side the wind comes from, each view drawn once."""

import math
from collections.abc import Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from estimator.geometry.measures import Floats
from estimator.geometry.silhouettes import view
from estimator.resolve.job import Resolved
from estimator.resolve.records import Assembly
from estimator.stages.blowing_parts import Gathered
from estimator.stages.measuring import Shapes
from estimator.stages.outlining import Outliner, Seen
from estimator.stages.posing import Group
from estimator.wind import walls

FRONT, SIDE, LEFT = 0.0, 90.0, 270.0
"""Directions in degrees: from the street, and along the wall from the right and the left."""
HALF_TURN_DEG = 180.0


class Desk(NamedTuple):
    """Everything the wind blows on.

    Attributes:
        resolved: The job.
        shapes: What its parts measure.
        outliner: What draws their outlines.
        gathered: The parts of the assemblies whose parts are added up, by their rows.
    """

    resolved: Resolved
    shapes: Shapes
    outliner: Outliner
    gathered: Mapping[int, Gathered]


def stands_clear(assembly: Assembly) -> bool:
    """Return whether the wind goes round an assembly, instead of pressing it to a wall."""
    return not walls.STANDINGS[assembly.stands].both_senses


def added_up(assembly: Assembly) -> bool:
    """Return whether each part of an assembly is blown by the rule for its own shape."""
    alone = assembly.wind == "parts" and math.isnan(assembly.coefficient)
    return alone and stands_clear(assembly)


@dataclass(frozen=True, slots=True)
class Looks:
    """What assemblies whose frames are turned alike cover from every side.

    Attributes:
        desk: Everything the wind blows on.
        turn: How their frames are turned.
        seen: By direction, of each and its opposite the one below 180 degrees: what each assembly
            covers, by its row, and whether it was seen from behind. What stands at a wall is only
            seen from the front and the side.
    """

    desk: Desk
    turn: Floats
    seen: Mapping[float, tuple[Mapping[int, Seen], bool]]

    def at(self, direction_deg: float, row: int) -> Seen | None:
        """Return what one assembly covers seen from a direction; None for nothing."""
        found, behind = self.seen[direction_deg % HALF_TURN_DEG]
        one = found.get(row)
        return one.from_behind() if one and behind != (direction_deg >= HALF_TURN_DEG) else one


class _Sight(NamedTuple):
    """A view of frames that are turned some way, the same for all that see them alike."""

    key: bytes
    projection: Floats
    behind: bool

    @classmethod
    def of(cls, direction_deg: float, turn: Floats) -> "_Sight":
        """Return the view from a direction; of a view and its mirror only one."""
        projection = view(math.radians(direction_deg)) @ turn
        level = np.round(projection[0], 9)
        behind = bool(level[np.flatnonzero(level)[0]] < 0)
        if behind:
            projection = np.array([[-1.0], [1.0]]) * projection
        return cls((np.round(projection, 9) + 0.0).tobytes(), projection, behind)


def _halves(directions_deg: Sequence[float]) -> list[float]:
    """Return the directions that are drawn; the opposite of each is its mirror."""
    return sorted({FRONT, SIDE, *(d % HALF_TURN_DEG for d in directions_deg)})


def looks_of(desk: Desk, groups: Sequence[Group]) -> list[list[list[Looks]]]:
    """Return what groups cover from every side, for each group, state and member.

    A view that several positions or groups share is drawn once, and those of a slide are all alike.
    """
    if not groups:
        return []
    flat = np.concatenate([np.round(group.rotation, 12).reshape(-1, 9) for group in groups])
    turns, found_at = np.unique(flat, axis=0, return_inverse=True)
    ends = np.cumsum([group.rotation[..., 0, 0].size for group in groups])
    which = [
        numbers.reshape(group.rotation.shape[:2])
        for group, numbers in zip(groups, np.split(found_at.ravel(), ends[:-1]), strict=True)
    ]
    halves = _halves(desk.resolved.weather.sides.directions_deg)
    sights = [{d: _Sight.of(d, turn.reshape(3, 3)) for d in halves} for turn in turns]
    found = _drawn(desk, sights, _rows_by_turn(groups, which, len(turns)))
    looks = [
        Looks(desk, turn.reshape(3, 3), {d: (found[s.key], s.behind) for d, s in views.items()})
        for turn, views in zip(turns, sights, strict=True)
    ]
    return [[[looks[k] for k in row] for row in numbers] for numbers in which]


def _rows_by_turn(
    groups: Sequence[Group], which: Sequence[npt.NDArray[np.intp]], count: int
) -> list[set[int]]:
    """Return the assemblies that stand turned in each way."""
    rows: list[set[int]] = [set() for _ in range(count)]
    for group, numbers in zip(groups, which, strict=True):
        for member, turned in zip(group.members, numbers.T, strict=True):
            for k in np.unique(turned).tolist():
                rows[k].add(member)
    return rows


def _drawn(
    desk: Desk, sights: Sequence[Mapping[float, _Sight]], rows_by_turn: Sequence[set[int]]
) -> dict[bytes, Mapping[int, Seen]]:
    """Return what is covered in each view that is wanted, by the view's key."""
    wanted: dict[bytes, tuple[Floats, set[int]]] = {}
    from_flat: set[bytes] = set()
    for views, rows in zip(sights, rows_by_turn, strict=True):
        clear = {row for row in rows if stands_clear(desk.resolved.assemblies[row])}
        for d, sight in views.items():
            _, asked = wanted.setdefault(sight.key, (sight.projection, set()))
            asked |= rows if d in (FRONT, SIDE) else clear
            from_flat |= {sight.key} if d in (FRONT, SIDE) else set()

    def drawn(keys: Sequence[bytes]) -> dict[bytes, Mapping[int, Seen]]:
        """Return what is seen along some lines of sight."""
        found: dict[bytes, Mapping[int, Seen]] = {}
        known: dict[int, tuple[Seen, Floats]] = {}
        for key in keys:
            projection, rows = wanted[key]
            # Of parts that are added up only the height of the outline is asked, from two sides.
            later = set(known) | (set() if key in from_flat else set(desk.gathered))
            seen = desk.outliner.seen(projection, sorted(rows), later=later) if rows else {}
            found[key] = {
                row: one.as_in(known[row][0], projection @ known[row][1].T) if row in known else one
                for row, one in seen.items()
            }
            known |= {row: (one, projection) for row, one in seen.items() if row not in later}
        return found

    along: dict[bytes, list[bytes]] = {}
    for key, (projection, _) in wanted.items():
        along.setdefault(_line_of_sight(projection), []).append(key)
    # Uniting outlines is most of the work of a long list, and leaves Python free meanwhile.
    with ThreadPoolExecutor() as pool:
        return {
            key: seen for group in pool.map(drawn, along.values()) for key, seen in group.items()
        }


def _line_of_sight(projection: Floats) -> bytes:
    """Return a key of the line along which a view looks: views along one differ by a turn."""
    way = np.round(np.cross(*projection), 9)
    way *= np.sign(way[np.flatnonzero(way)[0]])
    return (way + 0.0).tobytes()
