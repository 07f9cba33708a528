"""Loads at their own places along a stayed arm that holds a body alone.

The total that such an arm and its stay pass to the wall asks only for statics. How much of it the
stay takes depends on where along the arm each load bears: more, the further out. Here every load
bears at the place of its own middle; elsewhere all of them bear together where the row says. Which
of the two is nearer to what is built nobody said, so the larger of both is told.
"""

from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from estimator.geometry.measures import Floats
from estimator.resolve.records import Bracket
from estimator.stages.arm_figures import carrier_of
from estimator.stages.holding_demands import AS_BUILT, PLACED, Placed, Source
from estimator.stages.holding_frames import Frame, Setting, Shared
from estimator.stages.holding_loads import Desk, Loads, group_loads
from estimator.stages.holding_rules import rules_for
from estimator.stages.holding_search import Pick, Search, source_of, stress_ways
from estimator.stages.holding_states import State
from estimator.stages.holding_variants import variant
from estimator.supports.arms import moved
from estimator.supports.carrying import Carrier
from estimator.supports.combinations import Kind, WeightRange
from estimator.supports.extremes import action_of
from estimator.supports.slackening import states_of
from estimator.supports.stays import StayBar, stay_pull

CUTS = 5
"""Cuts evenly along an arm, from its root to its end; at the stay there are two more."""
PLACE_M = 1e-3
"""Loads nearer than this along an arm bear in one place."""


def placed(desk: Desk, frame: Frame, bracket: Bracket, weight: WeightRange) -> Placed | None:
    """Return the cases of a stayed arm with every load at its own place; None without a stay.

    Args:
        desk: Everything the loads come from.
        frame: The set, of this bracket alone.
        bracket: It.
        weight: How far the weight may lie off.
    """
    carrier = carrier_of(bracket, bracket.section, frame.root)
    if carrier.stay is None:
        return None
    arm = _Stayed(bracket, carrier, carrier.stay)
    count = 1 + 2 * len(arm.at_m)
    state = State(AS_BUILT, Setting(frame, np.ones(count)), desk, "")
    shared = [arm.shared(loads) for loads in group_loads(desk, bracket.set_name, frame.axis)]
    one = variant(state, PLACED, shared)
    ways = np.concatenate([np.eye(6), -np.eye(6), *stress_ways(bracket)])
    search = Search([bracket] * count, np.tile(ways, (count, 1, 1)))
    search.look(one, rules_for(desk.resolved, list(one.answers.cases), weight))
    rules = list(search.rules.values())
    picks = list(dict.fromkeys(_picks(search, count)))
    found = np.array([action_of(one.answers, rules[pick.rule], pick.at) for pick in picks])
    return arm.told(found, tuple(source_of(search, pick) for pick in picks))


def _picks(search: Search, count: int) -> Iterator[Pick]:
    """Yield the furthest of every kind of combination in every direction at every cut."""
    for kind in Kind:
        for n in range(count):
            for d in range(search.ways.shape[1]):
                pick = search.picked((kind,), n, d)
                if pick is not None:
                    yield pick


class _Stayed:
    """A stayed arm, cut in many places.

    What is looked for stands side by side in six numbers each: the stay's pull first, then every
    cut with the stay slack, then every cut with it at work.
    """

    def __init__(self, bracket: Bracket, carrier: Carrier, stay: StayBar) -> None:
        self.root_m, self.reach_m = np.array(bracket.root_m), bracket.reach_m
        self.carrier, self.stay = carrier, stay
        # At the stay the cut is on its wall side; its other side is a hair further out.
        beside = (stay.to_m, stay.to_m + PLACE_M)
        self.at_m = np.unique([*np.linspace(0.0, self.reach_m, CUTS), *beside])
        self.by_stay = np.array(
            [
                moved(stay.pull, np.array([0.0, 0.0, stay.to_m - x])) * (stay.to_m >= x)
                for x in self.at_m
            ]
        )
        self._pulls: dict[int, Floats] = {}

    def shared(self, causes: Mapping[str, Sequence[Loads]]) -> Shared:
        """Return what the loads of one group come to, by cause and position."""
        found = {
            cause: np.stack([self._numbers(loads) for loads in positions])[np.newaxis]
            for cause, positions in causes.items()
        }
        nothing = {cause: np.zeros((*numbers.shape[:3], 0)) for cause, numbers in found.items()}
        return Shared(found, nothing, states_of(0))

    def _numbers(self, loads: Loads) -> Floats:
        """Return what cases of loads come to, (m, 1 + 2 k, 6)."""
        there_m = np.clip(loads.at_m[..., 2] - self.root_m[2], 0.0, self.reach_m)
        on_arm_m = np.broadcast_to(self.root_m, loads.at_m.shape).copy()
        on_arm_m[..., 2] += there_m
        action = np.concatenate([loads.force_n, loads.moment_nm], axis=-1)
        action = moved(action, loads.at_m - on_arm_m)
        pull_n = np.sum(action * self._pull_at(there_m), axis=(1, 2))
        slack = np.zeros((len(action), len(self.at_m), 6))
        for k, cut_m in enumerate(self.at_m):
            off_m = np.zeros_like(on_arm_m)
            off_m[..., 2] = there_m - cut_m
            beyond = (there_m >= cut_m)[..., np.newaxis]
            slack[:, k] = np.sum(moved(action, off_m) * beyond, axis=1)
        whole = np.zeros((len(action), 1, 6))
        whole[:, 0, 2] = pull_n
        at_work = slack + pull_n[:, np.newaxis, np.newaxis] * self.by_stay
        return np.concatenate([whole, slack, at_work], axis=1)

    def _pull_at(self, there_m: Floats) -> Floats:
        """Return the stay's pull for each unit action at places on the arm, (m, l, 6)."""
        number = np.round(there_m / PLACE_M).astype(int)
        places, where = np.unique(number, return_inverse=True)
        each = np.array([self._pull_of(int(place)) for place in places])
        return np.asarray(each[where.reshape(number.shape)])

    def _pull_of(self, place: int) -> Floats:
        if place not in self._pulls:
            arm, _, _, root = self.carrier
            # At the root itself an arm does not bend: a hair further out stands for it.
            self._pulls[place] = stay_pull(arm, self.stay, root, max(place, 0.5) * PLACE_M)
        return self._pulls[place]

    def told(self, found: Floats, sources: tuple[Source, ...]) -> Placed:
        """Return cases with the stay slack where it would have to push and cannot."""
        pull_n, (slack, at_work) = found[:, 0, 2], np.split(found[:, 1:], 2, axis=1)
        if self.carrier.pulls_only:
            at_work = np.where((pull_n > 0)[:, np.newaxis, np.newaxis], at_work, slack)
            pull_n = np.maximum(pull_n, 0.0)
        return Placed(pull_n, self.at_m, np.moveaxis(at_work, 1, 0), sources)
