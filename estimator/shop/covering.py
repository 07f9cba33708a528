"""Covering a demand with patterns at the least cost: the master problem of every cutting plan.

A pattern is one bar or sheet with what is cut from it. Whatever finds the patterns, choosing among
them is the same linear program, and the same in whole numbers.
"""

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, NamedTuple, Self

import numpy as np
import numpy.typing as npt

if TYPE_CHECKING:
    import highspy

Ints = npt.NDArray[np.int64]
Floats = npt.NDArray[np.float64]


class Task(NamedTuple):
    """Pieces to cut and stock to cut them from, in whole units of length.

    A piece needs its length and one kerf, a bar has room for its usable length and one kerf: pieces
    fit when their needs add up to no more than the room.

    Attributes:
        needs: (t,) of each type of piece.
        demand: (t,) pieces of each.
        rooms: (k,) of each stock length.
        prices: (k,) of one.
        limits: (k,) how many there are; infinite where it can be bought.
    """

    needs: Ints
    demand: Ints
    rooms: Ints
    prices: Floats
    limits: Floats


UNMET = 1e4
"""What a missing piece costs, in dearest stock pieces: more than any plan that misses none."""


class Pattern(NamedTuple):
    """One bar or sheet and what is cut from it.

    Attributes:
        stock: Which of the sizes.
        pieces: Each type with how many of it, types rising, none without any.
    """

    stock: int
    pieces: tuple[tuple[int, int], ...]

    @classmethod
    def of(cls, stock: int, counts: Ints) -> Self:
        """Return the pattern with so many (t,) of each type."""
        return cls(stock, tuple((int(kind), int(counts[kind])) for kind in np.flatnonzero(counts)))


Plan = dict[Pattern, int]
"""How often each pattern is cut."""


class Duals(NamedTuple):
    """What one more of each is worth in the linear program.

    Attributes:
        cost: Of the linear program.
        pieces: (t,) a piece of each type, zero or more.
        stock: (k,) a piece of stock with a limit, zero or less.
    """

    cost: float
    pieces: Floats
    stock: Floats


class Effort(NamedTuple):
    """How long to look for whole numbers.

    Attributes:
        nodes: Branches looked at.
        seconds: Time, for a machine that is slow at them.
        step: Two plans nearer in cost than this are one.
    """

    nodes: int
    seconds: float
    step: float


@dataclass
class Master:
    """The patterns found so far, and the choice among them.

    Attributes:
        demand: (t,) pieces wanted of each type.
        prices: (k,) of one piece of each stock size.
        limits: (k,) how many of it there are; infinite where it can be bought.
        patterns: Without repeats, in the order they were found.
    """

    demand: Ints
    prices: Floats
    limits: Floats
    patterns: list[Pattern] = field(default_factory=list)

    def __post_init__(self) -> None:
        """Set up the rows: a demand for each type, a limit for each size; and a way to miss."""
        self._seen: set[Pattern] = set()
        self._solver = _quiet_solver()
        self._solver.setOptionValue("threads", 1)
        nothing: tuple[int, list[int], list[float]] = (0, [], [])
        for wanted in self.demand:
            self._solver.addRow(float(wanted), math.inf, *nothing)
        for limit in self.limits:
            self._solver.addRow(-math.inf, float(limit), *nothing)
        missing = UNMET * float(max(self.prices.max(), 1.0))
        for kind in range(len(self.demand)):
            self._solver.addCol(missing, 0.0, math.inf, 1, [kind], [1.0])

    def add(self, pattern: Pattern) -> bool:
        """Add a pattern; return whether it is new."""
        if pattern in self._seen:
            return False
        self._seen.add(pattern)
        self.patterns.append(pattern)
        rows = [kind for kind, _ in pattern.pieces]
        values = [float(count) for _, count in pattern.pieces]
        rows.append(len(self.demand) + pattern.stock)
        price = float(self.prices[pattern.stock])
        self._solver.addCol(price, 0.0, math.inf, len(rows), rows, [*values, 1.0])
        return True

    def solve(self) -> tuple[Duals, Floats]:
        """Return what the linear program says: its duals, and how much of each pattern it takes."""
        self._solver.run()
        found = self._solver.getSolution()
        types = len(self.demand)
        duals = np.array(found.row_dual)
        return (
            Duals(
                float(self._solver.getInfo().objective_function_value),
                np.maximum(duals[:types], 0.0),
                np.minimum(duals[types:], 0.0),
            ),
            np.array(found.col_value)[types:],
        )

    def solve_whole(self, effort: Effort) -> tuple[Floats | None, float]:
        """Return whole numbers of each pattern, and a bound on what these patterns can do.

        Args:
            effort: How long to look.

        Returns:
            (p,) whole numbers that meet the demand, None when none were found; and the least cost
            that any choice of these patterns could have.
        """
        import highspy  # noqa: PLC0415 - only when something is laid out

        solver, types = self._solver, len(self.demand)
        columns = np.arange(types, types + len(self.patterns), dtype=np.int32)
        kind = np.full(len(columns), highspy.HighsVarType.kInteger)
        solver.changeColsIntegrality(len(columns), columns, kind)
        missed = np.arange(types, dtype=np.int32)
        solver.changeColsBounds(types, missed, np.zeros(types), np.zeros(types))
        solver.setOptionValue("mip_max_nodes", effort.nodes)
        solver.setOptionValue("time_limit", max(effort.seconds, 0.0))
        solver.setOptionValue("mip_rel_gap", 0.0)
        solver.setOptionValue("mip_abs_gap", effort.step)
        solver.run()
        info, values = solver.getInfo(), np.array(solver.getSolution().col_value)
        bound = float(info.mip_dual_bound)
        solver.changeColsIntegrality(
            len(columns), columns, np.full(len(columns), highspy.HighsVarType.kContinuous)
        )
        solver.changeColsBounds(types, missed, np.zeros(types), np.full(types, math.inf))
        solver.setOptionValue("time_limit", math.inf)
        if info.primal_solution_status != highspy.kSolutionStatusFeasible:
            return None, bound
        return np.round(values[types:]), bound


def _quiet_solver() -> "highspy.Highs":
    """Return a solver that prints nothing, not even its name."""
    import highspy  # noqa: PLC0415 - only when something is laid out

    class Quiet(highspy.Highs):
        """A solver without the callbacks, on setting up which it would print its name."""

        def enableCallbacks(self) -> None:  # noqa: N802 - the solver's own name
            """Leave the callbacks alone."""

    solver = Quiet()  # type: ignore[no-untyped-call]  # the library gives no type
    solver.silent()
    return solver
