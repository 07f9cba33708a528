"""The run, from a job that was read to a result: the list of steps, and doing them in order."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from importlib.metadata import version
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from estimator.files.shelf import Shelf
from estimator.reference.library import Library
from estimator.resolve.brackets import NOTHING_TRIED
from estimator.resolve.job import resolve
from estimator.resolve.options import named_option
from estimator.resolve.scaling import scaled, unfit
from estimator.stages.arming import arm, picked
from estimator.stages.blanking import lay_out
from estimator.stages.blowing import blow
from estimator.stages.burdening import burden
from estimator.stages.buying import buy
from estimator.stages.comparing import compare
from estimator.stages.facing import face
from estimator.stages.findings import Findings
from estimator.stages.holding import hold
from estimator.stages.holding_loads import Asked
from estimator.stages.icing import ice_up
from estimator.stages.measuring import measure_parts
from estimator.stages.picturing import picture
from estimator.stages.plating import plate
from estimator.stages.posing import pose
from estimator.stages.pricing import price
from estimator.stages.recording import record
from estimator.stages.sizing import AS_DRAWN, SIZES, Sizes, Worked, size_up
from estimator.stages.slender import find_slender
from estimator.stages.swinging import swing
from estimator.stages.turning import turn
from estimator.stages.weighing import weigh
from estimator.stages.working import work

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
    Stage("resolved", "looking up names", ("job", "library", "option", "files", "tried"), resolve),
    Stage("shapes", "measuring parts", ("columns",), measure_parts),
    Stage("weights", "weighing", ("resolved", "shapes"), weigh),
    Stage("groups", "posing what moves", ("assemblies",), pose),
    Stage("wind", "blowing", ("resolved", "shapes", "groups"), blow),
    Stage("moving", "turning", ("resolved", "shapes", "weights", "wind"), turn),
    Stage("swinging", "swinging", ("resolved", "groups", "wind", "moving"), swing),
    Stage("iced", "icing", ("resolved", "shapes", "weights", "groups", "wind"), ice_up),
    Stage("burdens", "snowing and flooding", ("resolved", "shapes", "groups", "iced"), burden),
    Stage(
        "held",
        "sharing between brackets",
        ("resolved", "weights", "groups", "wind", "burdens", "asked"),
        hold,
    ),
    Stage("arms", "bending arms", ("resolved", "weights", "held"), arm),
    Stage("blanks", "cutting blanks", ("resolved",), lay_out),
    Stage("order", "laying out what to buy", ("resolved", "weights"), buy),
    Stage("pricing", "adding up", ("resolved", "order"), price),
    Stage("faces", "outlining", ("resolved", "shapes", "groups"), face),
    Stage(
        "comparison",
        "comparing",
        ("resolved", "weights", "groups", "wind", "held", "pricing"),
        compare,
    ),
    Stage("plates", "bedding plates", ("resolved", "held"), plate),
    Stage("slender", "shaking", ("resolved", "shapes", "weights", "groups"), find_slender),
    Stage("working", "lifting", ("resolved", "shapes", "weights", "groups"), work),
    Stage("pictures", "drawing", ("resolved", "shapes", "groups"), picture),
)
"""The run, in order. Whatever a step needs was given by one above it."""
SIZED = frozenset(
    {
        "shapes",
        "weights",
        "groups",
        "wind",
        "iced",
        "burdens",
        "held",
        "order",
        "pricing",
        "comparison",
    }
)
"""The steps that are done again at other sizes."""


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
    given = Given(job, Library(tables), Shelf(job.folder), every_case)
    found = run(given, wanted, tell)
    others = [o for o in job.options if o != wanted]
    compared = given._replace(compared=True)
    beside = {o: run(compared, o, tell, upto="comparison") for o in others}
    ways = [{wanted: found, **beside}[o] for o in job.options or (wanted,)]
    found["sizes"] = at_sizes(found, tell)
    findings = Findings(**{name: found[name] for name in Findings._fields})
    return Result(record(findings, ways, version("estimator")))


class Given(NamedTuple):
    """What every run of a job is given, whichever way of building it works out.

    Attributes:
        job: As read.
        library: The lookup tables.
        files: Where the files lie that its rows name.
        every_case: List every unfactored action at the wall.
        compared: Only what ways of building are compared by.
        tried: Section of each bracket whose section is to be tried, by its mark.
    """

    job: "Job"
    library: Library
    files: Shelf
    every_case: bool = False
    compared: bool = False
    tried: Mapping[str, str] = NOTHING_TRIED


def run(given: Given, option: str, tell: Tell | None = None, upto: str = "") -> dict[str, Any]:
    """Return what every step gave, by its name.

    Args:
        given: The job and what it is looked up in.
        option: The way of building.
        tell: Called with what is being done.
        upto: Name of the last step wanted; all of them when blank.
    """
    found: dict[str, Any] = {**given._asdict(), "option": option}
    for stage in STAGES:
        if tell:
            tell(stage.words)
        found[stage.name] = stage.run(*(found[need] for need in stage.needs))
        if stage.name == "resolved":
            found["columns"] = found["resolved"].columns
            found["assemblies"] = found["resolved"].assemblies
            # A section that is tried is picked by all that its bracket may have to carry.
            trying = any(bracket.trial for bracket in found["resolved"].brackets)
            found["asked"] = Asked(given.every_case, compared=given.compared and not trying)
        if stage.name == "arms" and (better := picked(found["arms"])):
            return run(given._replace(tried=better), option, tell, upto)
        if stage.name == upto:
            break
    return found


def at_sizes(found: Mapping[str, Any], tell: Tell | None = None) -> Sizes:
    """Return the figures of a job larger and smaller; none of one without parts.

    Args:
        found: What every step gave of it as drawn.
        tell: Called with what is being done.
    """
    worked: dict[float, Worked] = {}
    misfits: list[tuple[float, str]] = []
    for times in SIZES if found["columns"].parts else ():
        if tell:
            tell(f"trying {times:g} times the size")
        at_size = dict(found) if times == AS_DRAWN else _given_again(found, times)
        misfit = next(unfit(at_size["columns"]), "")
        if misfit:
            misfits.append((times, misfit))
            continue
        if times != AS_DRAWN:
            at_size = _stepped(at_size)
        worked[times] = Worked(**{name: at_size[name] for name in Worked._fields})
    return size_up(worked, misfits)


def _given_again(found: Mapping[str, Any], times: float) -> dict[str, Any]:
    """Return what the steps need of a job so many times as large."""
    larger = replace(scaled(found["resolved"], times), as_made=found["weights"].as_made)
    return {
        "resolved": larger,
        "columns": larger.columns,
        "assemblies": larger.assemblies,
        "asked": Asked(compared=True),
    }


def _stepped(given: dict[str, Any]) -> dict[str, Any]:
    """Return what the steps give that are done again."""
    for stage in STAGES:
        if stage.name in SIZED:
            given[stage.name] = stage.run(*(given[need] for need in stage.needs))
    return given
