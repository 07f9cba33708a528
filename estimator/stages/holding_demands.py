"""Demands: the factored actions at a bracket, for which its arm and plate are worked out."""

from typing import NamedTuple

from estimator.geometry.measures import Floats
from estimator.supports.combinations import Combination

AS_BUILT = "as built"
"""State in which every bracket shares as its row says."""


class Source(NamedTuple):
    """What an action comes from.

    Attributes:
        combination: With its factors.
        case: Wind case and loads, in words.
        position: Of the movers.
        sharing: Way the brackets share: rigid, lever, beam.
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
