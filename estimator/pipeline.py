"""The run, from a job that was read to a result: the list of steps, and doing them in order."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from importlib.metadata import version
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from estimator.reference.library import Library
from estimator.resolve.job import resolve
from estimator.resolve.options import named_option
from estimator.stages.blowing import blow
from estimator.stages.buying import buy
from estimator.stages.comparing import compare
from estimator.stages.holding import hold
from estimator.stages.measuring import measure_parts
from estimator.stages.picturing import picture
from estimator.stages.posing import pose
from estimator.stages.pricing import price
from estimator.stages.recording import Findings, record
from estimator.stages.turning import turn
from estimator.stages.weighing import weigh

if TYPE_CHECKING:
    import pandas as pd

    from estimator.sheets.rows import Job

Tell = Callable[[str], None]
"""Called with what is being done, for whoever wants to show progress."""


class Stage(NamedTuple):
    """One step of the run.

    Attributes:
        name: What it gives.
        words: What it does, for progress.
        needs: What it is given, by the names of earlier steps.
        run: The function that does it.
    """

    name: str
    words: str
    needs: tuple[str, ...]
    run: Callable[..., Any]


STAGES = (
    Stage("resolved", "looking up names", ("job", "library", "option"), resolve),
    Stage("shapes", "measuring parts", ("columns",), measure_parts),
    Stage("weights", "weighing", ("resolved", "shapes"), weigh),
    Stage("groups", "posing what moves", ("assemblies",), pose),
    Stage("wind", "blowing", ("resolved", "shapes", "groups"), blow),
    Stage("moving", "turning", ("resolved", "shapes", "weights", "wind"), turn),
    Stage(
        "held",
        "sharing between brackets",
        ("resolved", "weights", "groups", "wind", "every_case"),
        hold,
    ),
    Stage("order", "laying out what to buy", ("resolved", "weights"), buy),
    Stage("pricing", "adding up", ("resolved", "order"), price),
    Stage("comparison", "comparing", ("option", "weights", "groups", "held", "pricing"), compare),
    Stage("pictures", "drawing", ("resolved", "shapes", "groups"), picture),
)
"""The run, in order. Whatever a step needs was given by one above it."""


@dataclass(frozen=True, slots=True)
class Result:
    """What an estimate found.

    Attributes:
        document: Everything, as in `estimate.json`.
    """

    document: Mapping[str, Any]

    @property
    def complete(self) -> bool:
        """Return whether every row of the workbook could be used."""
        return bool(self.document["complete"])

    def frame(self, *keys: str) -> "pd.DataFrame":
        """Return a list of the document as a data frame: `frame("wind", "loads")`."""
        import pandas as pd  # noqa: PLC0415 - heavy, and only wanted by those who ask

        found: Any = self.document
        for key in keys:
            found = found[key]
        return pd.DataFrame(found)

    @property
    def parts(self) -> "pd.DataFrame":
        """Return the parts, a row each."""
        return self.frame("parts")

    @property
    def assemblies(self) -> "pd.DataFrame":
        """Return the assemblies, a row for each position."""
        return self.frame("assemblies")

    @property
    def wind(self) -> "pd.DataFrame":
        """Return the wind loads, a row for each case."""
        return self.frame("wind", "loads")

    @property
    def brackets(self) -> "pd.DataFrame":
        """Return the characteristic actions at each bracket."""
        return self.frame("brackets")

    @property
    def bracket_envelope(self) -> "pd.DataFrame":
        """Return the governing value of every component at each bracket."""
        return self.frame("bracket_envelope")


def estimate(
    job: "Job",
    option: str | None = None,
    *,
    tables: Path | None = None,
    tell: Tell | None = None,
    every_case: bool = False,
) -> Result:
    """Return everything there is to say of a job in one way of building.

    Args:
        job: As `read_job` gives it.
        option: Name of the way of building; the one the job shows, or its first, when None.
        tables: A folder of lookup tables of the maker's own.
        tell: Called with what is being done.
        every_case: Record every unfactored action at the wall, not only as drawn and the largest.

    Raises:
        RequestError: The job has no such option, or its movers make too many positions.
    """
    wanted = named_option(job, option)
    library = Library(tables)
    found = run(job, library, wanted, tell, every_case=every_case)
    others = [o for o in job.options if o != wanted]
    beside = {o: run(job, library, o, tell, upto="comparison") for o in others}
    ways = [{wanted: found, **beside}[o] for o in job.options or (wanted,)]
    findings = Findings(**{name: found[name] for name in Findings._fields})
    return Result(record(findings, ways, version("estimator")))


def run(
    job: "Job",
    library: Library,
    option: str,
    tell: Tell | None = None,
    *,
    upto: str = "",
    every_case: bool = False,
) -> dict[str, Any]:
    """Return what every step gave, by its name.

    Args:
        job: As read.
        library: The lookup tables.
        option: The way of building.
        tell: Called with what is being done.
        upto: Name of the last step wanted; all of them when blank.
        every_case: List every unfactored action at the wall.
    """
    found: dict[str, Any] = {
        "job": job,
        "library": library,
        "option": option,
        "every_case": every_case,
    }
    for stage in STAGES:
        if tell:
            tell(stage.words)
        found[stage.name] = stage.run(*(found[need] for need in stage.needs))
        if stage.name == "resolved":
            found["columns"] = found["resolved"].columns
            found["assemblies"] = found["resolved"].assemblies
        if stage.name == upto:
            break
    return found
