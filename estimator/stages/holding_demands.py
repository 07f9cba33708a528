"""Demands: the factored actions at a bracket, for which its arm and plate are worked out."""

from typing import NamedTuple

import numpy as np

from estimator.geometry.measures import Floats
from estimator.supports.combinations import Combination, Kind

AS_BUILT = "as built"
"""State in which every bracket shares as its row says."""

FACTORED = (Kind.STRENGTH, Kind.EQUILIBRIUM)
"""Combinations with partial factors; those for service have none."""

PLACED = "placed"
"""Way of sharing between an arm and its stay in which each load bears at its own place."""


class Source(NamedTuple):
    """What an action comes from.

    Attributes:
        combination: With its factors.
        case: Wind case and loads, in words.
        position: Of the movers.
        sharing: Way the brackets share: rigid, lever, beam; or `PLACED`.
        state: Of the brackets: `AS_BUILT`, "B2 slack", "B2 at half stiffness", "stage 1".
    """

    combination: Combination
    case: str
    position: str
    sharing: str
    state: str = AS_BUILT


class Demands(NamedTuple):
    """Everything that can govern at one bracket.

    Attributes:
        action: (c, 6) force [N] and moment [Nm] that the bracket passes on, arm and stay
            together, about the middle of its plate on the wall face; factored.
        sources: Of each, (c,).
    """

    action: Floats
    sources: tuple[Source, ...]


class Placed(NamedTuple):
    """Factored cases of a stayed arm that can govern it, every load at its own place.

    Attributes:
        pull_n: (c,) of the stay, + when it is stretched.
        at_m: (k,) cuts through the arm, from the wall face; the first is its root.
        action: (k, c, 6) what each cut passes on towards the wall.
        sources: (c,) what each case comes from.
    """

    pull_n: Floats
    at_m: Floats
    action: Floats
    sources: tuple[Source, ...]

    def of_kind(self, *kinds: Kind) -> "Placed":
        """Return the cases of some kinds of combination."""
        rows = [i for i, one in enumerate(self.sources) if one.combination.kind in kinds]
        sources = tuple(self.sources[i] for i in rows)
        return Placed(self.pull_n[rows], self.at_m, self.action[:, rows], sources)


class Acting(NamedTuple):
    """What one bracket is worked out for.

    Attributes:
        demands: Of arm and stay together, with all loads where the row says that they bear.
        placed: Of a stayed arm alone more cases, with every load at its own place.
    """

    demands: Demands
    placed: Placed | None = None


NOTHING = Acting(Demands(np.zeros((0, 6)), ()))
"""Nothing is known of what acts."""
