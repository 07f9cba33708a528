"""The most valuable pieces that fit a length: for every length up to a limit in one table."""

import numpy as np
import numpy.typing as npt

Ints = npt.NDArray[np.int64]
Floats = npt.NDArray[np.float64]

GAIN = 1e-12
"""A parcel is taken only where it adds more than rounding."""


class Knapsack:
    """Pieces of some types, each up to so many times, to be fitted into whole lengths.

    Copies are tied into parcels of 1, 2, 4, ..., so that any number up to the most can be had from
    a few of them, and each parcel is one pass over all lengths at once.
    """

    def __init__(self, needs: Ints, most: Ints, room: int) -> None:
        """Tie the parcels.

        Args:
            needs: (t,) length of each type, one or more.
            most: (t,) copies of each that may be taken.
            room: Longest length there is.
        """
        self.needs, self.room = needs, room
        fitting = np.minimum(most, room // needs)
        self._parcels = [
            (kind, copies) for kind in range(len(needs)) for copies in parcels(int(fitting[kind]))
        ]
        self._taken = np.zeros((len(self._parcels), room + 1), dtype=bool)

    def fill(self, values: Floats) -> Floats:
        """Return the most value (room + 1,) that fits each length.

        Args:
            values: (t,) value of one piece of each type; what is worth nothing is left out.

        References:
            Dynamic programming for the bounded knapsack, each number of copies written in binary:
            Martello and Toth, Knapsack Problems (1990), 3.2.
        """
        best = np.zeros(self.room + 1)
        self._taken[:] = False
        for taken, (kind, copies) in zip(self._taken, self._parcels, strict=True):
            need, value = int(self.needs[kind]) * copies, float(values[kind]) * copies
            if value > GAIN:
                with_it = best[: best.size - need] + value
                np.greater(with_it, best[need:] + GAIN, out=taken[need:])
                np.maximum(best[need:], with_it, out=best[need:])
        return best

    def chosen(self, length: int) -> Ints:
        """Return how many of each type (t,) the last table took into a length."""
        counts = np.zeros(len(self.needs), dtype=np.int64)
        for taken, (kind, copies) in zip(self._taken[::-1], self._parcels[::-1], strict=True):
            if taken[length]:
                counts[kind] += copies
                length -= int(self.needs[kind]) * copies
        return counts


def parcels(most: int) -> list[int]:
    """Return parcels whose sums give every number from none to the most."""
    found, size = [], 1
    while most > 0:
        found.append(min(size, most))
        most -= found[-1]
        size *= 2
    return found
