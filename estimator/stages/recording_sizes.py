"""Recording the job at other sizes."""

from typing import Any

from estimator.stages.recording_ways import line_record
from estimator.stages.sizing import Growth, Sized, Sizes


def sizes_record(sizes: Sizes) -> dict[str, Any]:
    """Return the figures at every size, and the power of the size that each follows."""
    return {
        "lines": [_line(sized) for sized in sizes.sized],
        "growth": sizes.growth and _growth(sizes.growth),
        "misfits": [{"times": times, "why": why} for times, why in sizes.misfits],
    }


def _line(sized: Sized) -> dict[str, Any]:
    return {
        "times": sized.times,
        **line_record(sized.line),
        "skin_area_m2": sized.skin_m2,
        "material_cost": sized.material_cost,
        "unpriced": sized.unpriced,
        "hours_listed": sized.hours_listed,
        "hours_by_skin": sized.hours_by_skin,
        "price_listed": sized.price_listed,
        "price_by_skin": sized.price_by_skin,
    }


def _growth(growth: Growth) -> dict[str, Any]:
    """Return the powers under the names of the figures."""
    return {
        "mass_kg": growth.mass,
        "skin_area_m2": growth.skin,
        "wind_n": growth.wind,
        "windiest_n": growth.windiest,
        "material_cost": growth.material_cost,
        "price_listed": growth.price_listed,
        "price_by_skin": growth.price_by_skin,
        "pulls": [
            {"set": pull.set_name, "pull_out_n": pull.pull_out, "moment_nm": pull.moment}
            for pull in growth.pulls
        ],
    }
