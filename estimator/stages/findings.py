"""Findings: everything that the stages found of one way of building, to be recorded."""

from typing import NamedTuple

from estimator.resolve.job import Resolved
from estimator.stages.arming import Armed
from estimator.stages.blanking import Blanked
from estimator.stages.blowing import Wind
from estimator.stages.burdening import Burdens
from estimator.stages.buying import Order
from estimator.stages.holding import HeldSet
from estimator.stages.icing import Iced
from estimator.stages.measuring import Shapes
from estimator.stages.picturing import Pictures
from estimator.stages.plating import Plates
from estimator.stages.posing import Group
from estimator.stages.pricing import Pricing
from estimator.stages.sizing import Sizes
from estimator.stages.slender import Slenders
from estimator.stages.swinging import Swung
from estimator.stages.turning import Turned
from estimator.stages.weighing import Weights
from estimator.stages.working import Working


class Findings(NamedTuple):
    """What the stages found, by the names of their steps."""

    resolved: Resolved
    shapes: Shapes
    weights: Weights
    groups: tuple[Group, ...]
    wind: Wind
    moving: tuple[Turned, ...]
    swinging: tuple[Swung, ...]
    slender: Slenders
    iced: Iced
    burdens: Burdens
    working: Working
    held: tuple[HeldSet, ...]
    arms: tuple[Armed, ...]
    plates: Plates
    blanks: tuple[Blanked, ...]
    order: Order
    pricing: Pricing
    pictures: Pictures
    sizes: Sizes
