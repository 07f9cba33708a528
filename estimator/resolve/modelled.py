"""Parts whose form comes from a file or from readings on a maquette: each model made once."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from estimator.core.problems import Problem, Severity
from estimator.files.shelf import Shelf
from estimator.resolve.maquettes import measured_model, with_spreads
from estimator.resolve.meshes import mesh_model
from estimator.resolve.outlines import outline_model
from estimator.resolve.records import Layer, Modelled
from estimator.sheets.converters import folded
from estimator.sheets.rows import Row

FromFile = Callable[[Row, Shelf, tuple[Layer, ...], list[Problem]], Modelled | None]
FROM_FILES: Mapping[str, FromFile] = {"mesh": mesh_model, "outline": outline_model}
"""Shapes that a file describes."""
MEASURED = "measured"
MODELLED = frozenset({*FROM_FILES, MEASURED})
"""Shapes that their dimensions alone do not describe."""
LACKS = {
    "mesh": (
        "which this mesh lacks: it is open, its triangles disagree about what is inside, or its "
        "skin leaves nothing there"
    ),
    "outline": "which a flat outline lacks",
    MEASURED: "which nobody measured on its maquette",
}
"""Why a model has not what a layer is to lie over, as the end of a sentence."""


@dataclass
class Modeller:
    """Makes the models that rows of the parts sheet name, and keeps them.

    Attributes:
        shelf: Where the files of the job lie.
        readings: Rows of the maquette sheet by part, as names are compared.
        unread: Rows of it that could not be read, likewise.
        models: Those made, by key.
        problems: What was found wrong so far.
    """

    shelf: Shelf
    readings: Mapping[str, Sequence[Row]] = field(default_factory=dict)
    unread: Mapping[str, Sequence[Row]] = field(default_factory=dict)
    models: dict[str, Modelled] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)
    _asked: set[tuple[str, str]] = field(default_factory=set)

    def model_of(
        self, row: Row, layers: tuple[Layer, ...]
    ) -> tuple[Modelled, tuple[Layer, ...]] | None:
        """Return the model of a part, and its layers with what the readings leave open.

        None, with a problem, when there is none.
        """
        found: list[Problem] = []
        made = self._made(row, layers, found)
        self.problems += [problem for problem in found if self._is_new(row, problem)]
        if made is None:
            return None
        model = self.models.setdefault(made.key, made)
        return model, with_spreads(layers, model)

    def _made(
        self, row: Row, layers: tuple[Layer, ...], problems: list[Problem]
    ) -> Modelled | None:
        """Return the model of a row, made anew; the shelf keeps what takes long."""
        shape = row.text("shape")
        if shape != MEASURED:
            return FROM_FILES[shape](row, self.shelf, layers, problems)
        name = folded(row.text("part"))
        rows, unread = self.readings.get(name, ()), self.unread.get(name, ())
        return measured_model(row, rows, layers, problems, unread)

    def _is_new(self, row: Row, problem: Problem) -> bool:
        """Return whether to say something: a doubt about a file is said at its first row only."""
        if problem.severity is Severity.REFUSED:
            return True
        doubt = (row.text("file") or row.text("part"), problem.found)
        new = doubt not in self._asked
        self._asked.add(doubt)
        return new


def by_part(rows: Sequence[Row]) -> dict[str, list[Row]]:
    """Return rows of the maquette sheet by the part they are readings of."""
    found: dict[str, list[Row]] = {}
    for row in rows:
        found.setdefault(folded(row.text("part")), []).append(row)
    return found
