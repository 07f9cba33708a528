"""Recording what was taken for granted, and what nobody said."""

from collections.abc import Iterator

from estimator.resolve.assemblies import WALL
from estimator.resolve.job import Resolved
from estimator.sheets.columns import field_of
from estimator.stages import recording_brackets as brackets
from estimator.stages.arming import assumptions as arm_assumptions
from estimator.stages.findings import Findings
from estimator.stages.recording_blanks import lap_assumptions
from estimator.stages.recording_facts import fact_words
from estimator.stages.recording_plates import assumptions as plate_assumptions
from estimator.stages.recording_weighings import gauge_notes
from estimator.stages.weighing import Weights

Row = tuple[str, str, str]
"""What was taken for granted, its value, and why or what follows."""


def assumption_records(found: Findings) -> list[dict[str, str]]:
    """Return what was taken for granted, the general first."""
    rows = [
        *_of_weights(found.weights),
        *((a.what, a.value, a.why) for a in found.resolved.assumptions),
        *_at_wall(found),
        *brackets.assumptions(found.held, found.resolved.facts),
        *arm_assumptions(found.arms),
        *plate_assumptions(found.plates),
        *lap_assumptions(found.blanks),
        *_notes(found),
    ]
    return [{"what": what, "value": value, "why": why} for what, value, why in rows]


def untold_records(resolved: Resolved) -> list[dict[str, str]]:
    """Return what nobody said: facts of the job, then parts without a confidence."""
    rows = []
    for untold in resolved.untold:
        used = "nothing" if untold.used is None else fact_words(field_of(untold.item), untold.used)
        rows.append({"item": untold.item, "used": used, "why": untold.why})
    return rows


def _of_weights(weights: Weights) -> Iterator[Row]:
    """Yield what the weights rest on."""
    yield (
        "allowance for what is not listed yet", f"{100 * weights.not_listed:g} %",
        ("welds, rivets and what is not drawn yet weigh too; it is in the whole and at the "
        "brackets, not in the lines of parts, assemblies and lift units, and not on what was "
        "weighed as an assembly or a lift unit"),
    )  # fmt: skip
    yield (
        "low and high", "one in twenty on each side",
        ("densities and gauges by their bands; sizes by how sure they are: guess 20 %, "
        "drawn 10 %, quoted 5 %, weighed 2 % (program defaults); what shares a cause errs "
        "together, ends of different causes add as squares: exact for a plain sum; where two "
        "causes of 20 % meet in one part both ends are about 1 % of its mass too low"),
    )  # fmt: skip
    yield "a finish", "covers the whole outside", "both faces of what is flat"
    yield (
        "beaten work", "finished area x gauge",
        ("until a part says how it was formed; blank less trim can weigh less where metal was "
        "stretched"),
    )  # fmt: skip
    yield from gauge_notes(weights)


def _at_wall(found: Findings) -> Iterator[Row]:
    """Yield what is fixed straight to the wall, beside brackets."""
    at_wall = [a.key for a in found.resolved.assemblies if a.carried_by == WALL]
    if found.held and at_wall:
        yield (
            "fixed straight to the wall",
            ", ".join(at_wall),
            (
                "their weight, wind and loads are in no bracket's figures: the wall carries them "
                "beside those"
            ),
        )


def _notes(found: Findings) -> Iterator[Row]:
    """Yield what the steps noted on their own figures."""
    for note in found.order.notes:
        yield "cutting", note, "a program default"
    for note in found.pricing.notes:
        yield "price", note, "mark-up is on cost, margin is on price"
    for turned in found.moving:
        for note in turned.notes:
            yield f"{turned.assembly}, turning", note, "read it with its torque"
    if not found.pictures.drawn:
        yield "drawings", "left out", "there are too many parts to tell apart on paper"
