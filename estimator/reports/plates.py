"""Wall plates and fixings: rows, sentences and drawings of the page, from the document alone."""

from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple

from markupsafe import Markup

from estimator.reports import figures, matrices, selection, sentences
from estimator.reports.arms import comes_from
from estimator.reports.document import Document
from estimator.reports.plate_drawing import plate_drawing

MOST_DRAWN = 8
"""Kinds of plate in print, those with the largest pull; the figures of all are in the tables."""
_NONE = "\N{EN DASH}"
_MPA = 1e6
MEANINGS = tuple(
    " ".join(meaning.split())
    for meaning in """
    Pull is what draws one fixing out of the wall; shear is what pushes it along the wall, whichever
    way. Both are what acts on it, with partial factors: what it or the wall can take is not worked
    out here.

    The plate is taken to stay flat. Where it presses, the wall presses back in proportion; where it
    gapes, the fixings are stretched in proportion, and none of them pushes. That is solved for
    every case, bent both ways, on a wall of each stiffness.

    n is the stiffness of the fixings' metal over that of the wall: about 7 for steel in concrete,
    and more, nobody knows how much more without a test, for brick and stone. A softer wall means
    more pull on the fixings and less pressure on the wall.

    Two rules of thumb stand beside it. With the plate tilting about its edge the far fixings read
    too low where it bends one way (11.6 kN where contact has 15.8 kN, on a plate with four rows),
    so that figure is not to be used alone. With the plate turning about the middle of its fixings
    no wall helps, and on a hard wall they read high.

    Not in the model: prying of a plate that bends (which adds pull), bending of the plate,
    friction, tightening beforehand, holes with clearance (shear goes evenly to all, as if they were
    filled), a wall that crumbles, fixings near an edge or near each other.
    """.strip().split("\n\n")
)
"""What the words of the section mean, and what its numbers leave out."""
CAUTIONS = tuple(
    " ".join(caution.split())
    for caution in """
    These are estimates of what acts on the fixings, from a list of parts and an assumed wind.

    How strong the wall is, and what a fixing holds in it, comes from tests at the real wall or from
    the fixing's own approval, for whoever designs the fixing to judge.

    Every number leans on the assumptions beside it and in the register: if one of them is wrong,
    the loads on the fixings change.

    People walk below. Plan who looks at it and when, for rust, for nuts that come loose, and for a
    second line of support, such as a wire.
    """.strip().split("\n\n")
)
STRENGTH_LEVEL = (
    "The wind of this rule is at strength level, so these loads are on the large side. "
)


class FixingLine(NamedTuple):
    """The worst of one fixing as printed."""

    bracket: str
    number: str
    at_mm: tuple[str, ...]
    pull: tuple[str, str, str, str]
    shear: tuple[str, str, str]
    service: str


class WallLine(NamedTuple):
    """One plate on walls of each stiffness, and by rules of thumb, as printed."""

    bracket: str
    plate: str
    pulls: tuple[str, ...]
    peaks: tuple[str, ...]
    edge: str
    centroid: str


class CombinationLine(NamedTuple):
    """Pull and shear of the fixings of one plate in one combination, as printed."""

    bracket: str
    combination: str
    pairs: tuple[str, ...]


class StayLine(NamedTuple):
    """The wall point of one stay as printed."""

    bracket: str
    pull: tuple[str, str, str]
    shear: tuple[str, str, str]


def context(document: Document) -> dict[str, Any]:
    """Return what the section is printed from."""
    plates = document["plates"]
    found = [one for one in plates["brackets"] if one["found"]]
    stays = [one for one in plates["brackets"] if one["stay"]]
    told = matrices.sources(_sources(found, stays))
    return {
        "plate_rows": plates["brackets"],
        "plate_ratios": plates["stiffness_ratios"],
        "plate_fixings": [line for one in found for line in _fixing_lines(one, told)],
        "plate_walls": [_wall_line(one) for one in found],
        "plate_combinations": [line for one in found for line in _combination_lines(one)],
        "plate_numbers": max((len(one["found"]["fixings"]) for one in found), default=0),
        "plate_stays": [_stay_line(one, told) for one in stays],
        "plate_sources": told.lists(),
        "plate_drawings": list(_drawings(found)),
        "plate_said": [*_said(plates), *_proofs(document)],
        "plate_cautions": [*CAUTIONS, _made(document)],
        "plate_meanings": MEANINGS,
    }


def _sources(found: Sequence[Document], stays: Sequence[Document]) -> Iterator[Document]:
    for one in found:
        for fixing in one["found"]["fixings"]:
            yield fixing["pull"]
            yield fixing["shear"]
        yield one["found"]["governing"]
    for one in stays:
        yield one["stay"]["pull"]
        yield one["stay"]["shear"]


def _fixing_lines(one: Document, told: matrices.Sources) -> Iterator[FixingLine]:
    for fixing in one["found"]["fixings"]:
        pull, shear = fixing["pull"], fixing["shear"]
        yield FixingLine(
            one["bracket"],
            str(fixing["number"]),
            tuple(figures.bare_millimetres(way) for way in fixing["at_m"]),
            (figures.newtons(pull["pull_n"]), figures.newtons(pull["shear_n"]),
             f"{pull['ratio']:g}", told.beside(pull)),
            (figures.newtons(shear["shear_n"]), figures.newtons(shear["pull_n"]),
             told.beside(shear)),
            _pull(fixing["service"]),
        )  # fmt: skip


def _pull(pair: Document | None) -> str:
    return _NONE if pair is None else figures.newtons(pair["pull_n"])


def _wall_line(one: Document) -> WallLine:
    found, plate = one["found"], one["plate"]
    sizes = " x ".join(
        figures.bare_millimetres(plate[f"{name}_m"]) for name in ("width", "height", "thickness")
    )
    return WallLine(
        one["bracket"],
        sizes,
        tuple(figures.newtons(wall["pull_n"]) for wall in found["walls"]),
        tuple(figures.bare_fixed(wall["peak_pa"] / _MPA, "MPa", 2) for wall in found["walls"]),
        figures.newtons(found["rules"]["edge_n"]),
        figures.newtons(found["rules"]["centroid_n"]),
    )


def _combination_lines(one: Document) -> Iterator[CombinationLine]:
    """Yield the combinations in which some fixing of a plate carries its most."""
    told = _governing(one["found"])
    for row in one["found"]["combinations"]:
        if row["combination"] in told:
            words = matrices.typeset(row["combination"])
            yield CombinationLine(one["bracket"], words, _pairs(row))


def _governing(found: Document) -> set[str]:
    """Return the combinations in which some fixing carries its most."""
    pairs = [fixing[way] for fixing in found["fixings"] for way in ("pull", "shear")]
    return {pair["combination"] for pair in pairs}


def _pairs(row: Document) -> tuple[str, ...]:
    return tuple(
        f"{figures.newtons(pull_n)} / {figures.newtons(shear_n)}"
        for pull_n, shear_n in zip(row["pull_n"], row["shear_n"], strict=True)
    )


def _stay_line(one: Document, told: matrices.Sources) -> StayLine:
    pull, shear = one["stay"]["pull"], one["stay"]["shear"]
    return StayLine(
        one["bracket"],
        (figures.newtons(pull["pull_n"]), figures.newtons(pull["shear_n"]),
         told.beside(pull)),
        (figures.newtons(shear["shear_n"]), figures.newtons(shear["pull_n"]),
         told.beside(shear)),
    )  # fmt: skip


def _drawings(found: Sequence[Document]) -> Iterator[tuple[Markup, str]]:
    """Yield a drawing of each kind of plate with the most pull, and the words below it."""
    kinds = selection.grouped(found, _kind).values()
    worst = [(max(alike, key=_largest_pull), alike) for alike in kinds]
    for one, alike in selection.chief(worst, MOST_DRAWN, lambda kind: _largest_pull(kind[0])):
        governing = one["found"]["governing"]
        of = ", ".join(plate["bracket"] for plate in alike)
        like = f"{one['bracket']}, with the largest pull of {of}" if len(alike) > 1 else of
        yield (
            plate_drawing(one),
            (
                f"{like}: {comes_from(governing)}; n = {governing['ratio']:g}; peak"
                f" pressure {figures.bare_fixed(governing['peak_pa'] / _MPA, 'MPa', 2)}"
                f" {figures.head('MPa')}"
            ),
        )


def _kind(one: Document) -> tuple[object, ...]:
    """Return what plates of one set that look alike have in common."""
    points = tuple(tuple(fixing["at_m"]) for fixing in one["found"]["fixings"])
    return one["set"], *one["plate"].values(), one["diameter_m"], points


def _largest_pull(one: Document) -> float:
    return float(max(one["found"]["governing"]["pull_n"]))


def _said(plates: Document) -> Iterator[str]:
    """Yield what was not worked out, and what a single fixing leaves to be done."""
    told = selection.grouped(
        [one for one in plates["brackets"] if one["missing"]], lambda one: one["missing"]
    )
    for text, some in told.items():
        yield f"{', '.join(one['bracket'] for one in some)}: {text}."
    for one in plates["brackets"]:
        if one["found"] and one["found"]["turn_nm"] > 0:
            yield (
                f"{one['bracket']}: a single fixing cannot hold the plate against turning in its"
                f" own plane, by up to {figures.newton_metres(one['found']['turn_nm'])}; its"
                " shear leaves that out."
            )


def _proofs(document: Document) -> Iterator[str]:
    """Yield how many fixings would be proof tested, for information."""
    unfactored = sentences.characteristic(document)
    high = document["wind"]["level"] == "strength level"
    ways = [
        f"{one['tests']} of these {one['fixings']} fixings to {figures.newtons(one['load_n'])}"
        f" ({one['times']:g} times the largest {unfactored} pull, where"
        f" {figures.percent(one['share'])} are tested)"
        for one in document["plates"]["proof_tests"]
    ]
    if ways:
        yield (
            f"Proof tests, for information: {', or '.join(ways)}, and at least three wherever"
            " fixing, wall or its state differ (BS 8539:2012 Annex B.3, as quoted on a fixings"
            f" page; rounded up). {STRENGTH_LEVEL if high else ''}They show how well a fixing was"
            " set and say nothing of how strong the wall is; whoever designs the fixings says"
            " whether, where and how many."
        )


def _made(document: Document) -> str:
    """Return what made this page, from what and when."""
    return (
        f"Made on {document['made_on']} from {document['file']} by version"
        f" {document['program_version']}, inputs {document['inputs_sha256'][:12]}."
    )
