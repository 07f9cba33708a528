"""Records of wind, movers, brackets, order and cost for the estimate document."""

import math
from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np

from estimator.core.units import Amount
from estimator.geometry.measures import Floats
from estimator.resolve.job import Resolved
from estimator.resolve.records import Facts
from estimator.stages.blowing import ALONG, Catch, Wind
from estimator.stages.blowing_looks import added_up
from estimator.stages.blowing_rules import SENSES
from estimator.stages.buying import Order
from estimator.stages.holding import HeldSet
from estimator.stages.holding_frames import root_of
from estimator.stages.posing import Group
from estimator.stages.pricing import Pricing
from estimator.stages.turning import HOLLOW, ICE, Turned
from estimator.stages.wall_points import WallPoint, wall_points
from estimator.wind.directions import bearing
from estimator.wind.figures import OFFSET_NAMES
from estimator.wind.walls import STANDINGS

MOST_LOADS = 20_000
"""More wind loads than this are recorded by their worst direction only."""
POINTS = (
    "north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west",
)  # fmt: skip


def known(value: float) -> float | None:
    """Return a number, or None where it is not known."""
    return None if math.isnan(value) else float(value)


def numbers(values: Any) -> list[float]:  # noqa: ANN401 - any array of one axis
    """Return an array of one axis as plain numbers."""
    return [float(value) for value in values]


def wind_record(resolved: Resolved, groups: Sequence[Group], wind: Wind) -> dict[str, Any]:
    """Return the wind: steps, what each assembly catches, and the load in every case."""
    loads = list(_loads(resolved, groups, wind))
    notes = list(wind.notes)
    if len(loads) > MOST_LOADS:
        kept = [load for load in loads if load["direction_deg"] in (0.0, 90.0, 180.0, 270.0)]
        notes.append(
            f"{len(loads) - len(kept)} wind loads between the four main directions were "
            "worked out but are not listed"
        )
        loads = kept
    pressures = [catch.pressure.pressure_pa for catch in wind.catches]
    return {
        "rule": resolved.facts.text("wind_rule"),
        "level": str(resolved.weather.level),
        "pressure_pa": max(pressures, default=None),
        "steps": [step._asdict() for step in wind.steps],
        "loads": loads,
        "parts": [_catch(catch) for catch in wind.catches],
        "notes": notes,
    }


def _catch(catch: Catch) -> dict[str, Any]:
    return {
        "part_or_assembly": catch.assembly,
        "height_m": known(catch.pressure.height_m),
        "pressure_pa": catch.pressure.pressure_pa,
        "coefficient": catch.coefficient.value,
        "area_m2": catch.seen.area_m2,
        "summed_area_m2": catch.seen.summed_m2,
        "why": f"{catch.why}. Height: {catch.pressure.why}. Coefficient: {catch.coefficient.rule} "
        f"({catch.coefficient.source})",
        "others": [list(other) for other in catch.coefficient.others],
    }


def _loads(resolved: Resolved, groups: Sequence[Group], wind: Wind) -> Iterator[dict[str, Any]]:
    directions_deg = resolved.weather.sides.directions_deg
    per_direction = len(wind.cases) // len(directions_deg)
    places = per_direction // len(SENSES)
    compass = [_compass(resolved.facts, direction) for direction in directions_deg]
    for group, blown in zip(groups, wind.groups, strict=True):
        acting = np.argwhere(np.any(blown.wrench != 0.0, axis=-1))
        for s, i, k in acting:
            direction_deg, sense, place = wind.cases[k]
            number, middle = int(k) // per_direction, k - k % places
            # What is not looked at in strips has the same force there again as in the middle.
            if k - middle >= len(OFFSET_NAMES) and np.array_equal(
                blown.wrench[s, i, k], blown.wrench[s, i, middle]
            ):
                continue
            assembly = resolved.assemblies[group.members[i]]
            case = f"{sense}, {place}"
            if not STANDINGS[assembly.stands].both_senses:
                # What stands clear is blown one way: its second sense is the first again.
                if sense != SENSES[0]:
                    continue
                case = f"{ALONG}, {place}"
            if added_up(assembly):
                # Only boards and figures bear off their middle; of others it is the same again.
                if k != middle and np.array_equal(
                    blown.wrench[s, i, k], blown.wrench[s, i, middle]
                ):
                    continue
                aside = f"boards and figures {place}"
                case = f"{ALONG}, {'each part at its own middle' if k == middle else aside}"
            key = assembly.key
            yield {
                "assembly": key,
                "position": group.states[s].label,
                "direction_deg": direction_deg,
                "compass": compass[number],
                "case": case,
                "force_n": blown.wrench[s, i, k, :3].tolist(),
                "moment_nm": blown.wrench[s, i, k, 3:].tolist(),
                "at_m": _acts_at(blown.points_m[s, i, number, k % places]),
                "area_m2": float(blown.area_m2[s, i, number]),
                "coefficient": float(blown.coefficient[s, i, k]),
            }


def _acts_at(point_m: Floats) -> list[float] | None:
    """Return where a force acts; None for the sum of many, which acts in no one place."""
    return None if np.isnan(point_m).any() else numbers(point_m)


def _compass(facts: Facts, direction_deg: float) -> str:
    """Return the compass point a wind comes from; blank when the wall's own is not known.

    With the wall facing a bearing, a wind from the right of somebody who looks at it comes from
    90 degrees less.
    """
    if not facts.has("wall_faces"):
        return ""
    bearing_deg = bearing(math.degrees(facts.number("wall_faces")), direction_deg)
    return POINTS[round(bearing_deg / 45.0) % len(POINTS)]


def moving_record(turned: Turned) -> dict[str, Any]:
    """Return what turns about one axle."""
    return {
        "assembly": turned.assembly,
        "out_of_balance_kgm": float(np.linalg.norm(turned.unbalance_kgm)),
        "gravity_torque_nm": turned.gravity_torque_nm,
        "wind_torque_nm": max(
            (case.torque_nm for case in turned.cases if case.mechanism not in (ICE, HOLLOW)),
            default=None,
        ),
        "inertia_kgm2": turned.inertia_kgm2,
        "counterweight_kg": known(turned.counterweight_kg),
        "counterweight_part": turned.counterweight or None,
        "counterweight_radius_m": known(turned.radius_m),
        "drive_torque_nm": known(turned.drive_torque_nm),
        "gravity_by_angle": [list(pair) for pair in turned.gravity_by_angle],
        "cases": [case._asdict() for case in turned.cases],
        "vane": turned.vane,
    }


def order_record(order: Order) -> dict[str, Any]:
    """Return the order list."""
    lines = []
    for line in order.lines:
        record = line._asdict()
        lines.append({k: known(v) if isinstance(v, float) else v for k, v in record.items()})
    return {"lines": lines, "total_cost": order.cost}


def cost_record(resolved: Resolved, pricing: Pricing) -> dict[str, Any]:
    """Return hours, costs and the way to the price."""
    cost = pricing.price_of("cost")
    return {
        "currency": resolved.facts.text("currency"),
        "lines": [
            {"name": x.name, "category": x.category, **x.amount._asdict(), "how": x.how}
            for x in pricing.lines
        ],
        "hours_lines": [
            {
                "activity": line.activity,
                "people": line.people,
                "low": line.person_hours.low,
                "likely": line.person_hours.likely,
                "high": line.person_hours.high,
                "rate": line.rate,
                "cost": line.cost.likely,
            }
            for line in pricing.hours
        ],
        "price_lines": [line._asdict() for line in pricing.price],
        "sum_of_likely": cost.likely,
        "mean": cost.mean,
    }


def marks_record(
    resolved: Resolved, groups: Sequence[Group], wind: Wind, held: Sequence[HeldSet], cg_m: Floats
) -> dict[str, Any]:
    """Return what is marked on the drawings."""
    datum_m, root = resolved.facts.number("datum_height"), root_of(resolved.facts)
    return {
        "cg_m": numbers(cg_m) if len(resolved.columns.parts) else None,
        "brackets": [_bracket_mark(point) for one in held for point in wall_points(one, root)],
        "wind_centres": [
            {"assembly": resolved.assemblies[row].key, "at_m": numbers(blown.at_m[0, i])}
            for group, blown in zip(groups, wind.groups, strict=True)
            for i, row in enumerate(group.members)
            if np.any(blown.wrench[0, i])
        ],
        "limits": [
            {
                "limit": row.text("limit"),
                "value_m": _amount(row.values["value"], "length"),
                "value_kg": _amount(row.values["value"], "mass"),
                "source": row.text("source") or "not said",
            }
            for row in resolved.chosen.of("limits")
        ],
        "ground_m": None if math.isnan(datum_m) else -datum_m,
    }


def _amount(amount: Amount, kind: str) -> float | None:
    return float(amount.value) if amount.kind == kind else None


def _bracket_mark(point: WallPoint) -> dict[str, Any]:
    """Return where a bracket meets the wall, its greatest characteristic pull-out and shear."""
    return {
        "bracket": f"{point.bracket} stay" if point.of_stay else point.bracket,
        "of_stay": point.of_stay,
        "at_m": list(point.at_m),
        "bears_m": list(point.bears_m),
        "pull_out_n": known(point.pull_out_n),
        "shear_n": known(point.shear_n),
    }
