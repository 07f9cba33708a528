"""Arms of brackets: rows and sentences of one section of the page, from the document alone."""

from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple

from estimator.reports import figures, matrices
from estimator.reports.document import Document
from estimator.reports.wall_pulls import SHARED

_NONE = "\N{EN DASH}"
_MPA = 1e6
LIGHTER, HEAVIER = 3, 6
"""Tried sections in print, besides the one the job is worked out with; all are in estimate.json."""
YIELD_RATIO = 1.0
STIFF = 2000.0
"""A movement below this part of the reach is printed as less than that."""
MEANINGS = tuple(
    " ".join(meaning.split())
    for meaning in """
    Stress ratio: the stress by the calculation, times the partial factor, over the yield of the
    table. It is elastic, of the bare section: plate, welds, holes and buckling are not in it.

    The stresses of bending both ways, of the force along, of shear and of twist are taken to meet
    at one point, as EN 1993-1-1 6.2.1(5) puts them together.

    Movements are of the end of the arm, where the load bears, for a plate that does not give and a
    wall that gives no more than the job sheet says: more is to be expected. What hangs on it moves
    by the tilt times its own distance besides.

    Tilt is the turn about the axis it stands under: about across it nods, about up it swings,
    about out it twists. On a dial or a figure it is what people see.
    """.strip().split("\n\n")
)
"""What the words of the section mean."""
FATIGUE = (
    "Signs and arms that stand out from a wall crack from four effects of wind: gusts, vortices, "
    "galloping and the air pushed by traffic (as quoted from the AASHTO rules for sign supports). "
    "Cracks begin at the welds of the plate and in the threads of fixings. No fatigue is worked "
    "out here: the slower an arm shakes and the more flat it carries, the more it is worth asking "
    "about."
)
STRENGTH_LEVEL = (
    "The wind of this rule is at strength level, so movements under it are on the large side: the "
    "rule holds movements against a wind that comes more often."
)
SHAKING = (
    "Lowest natural frequency of the arm, built in at the wall, with an even share of what hangs "
    "from its set as a point at its end. A plate and a wall that give, and the width of what hangs "
    "there, make it slower; a stay, not counted here, makes it faster up and down."
)


class ArmLine(NamedTuple):
    """The stress in one arm as printed."""

    bracket: str
    section: str
    standard: str
    grade: str
    yield_mpa: str
    gamma: str
    ratio: str
    together: str
    parts: tuple[str, ...]
    at_mm: str
    mark: str


class MoveLine(NamedTuple):
    """The movement of the end of one arm as printed."""

    bracket: str
    share: str
    ways: tuple[str, ...]
    sag_mm: str
    over: str
    tilts: tuple[str, ...]
    mark: str


class StayLine(NamedTuple):
    """One stay as printed."""

    bracket: str
    section: str
    length_mm: str
    pull: str
    ratio: str
    at_wall: tuple[str, str]
    push: str
    slack: str
    slenderness: str
    euler: str
    hinged: str


class TrialTable(NamedTuple):
    """Sections that were tried for one bracket as printed."""

    bracket: str
    heading: str
    rows: tuple[tuple[str, ...], ...]
    more: int


def context(document: Document) -> dict[str, Any]:
    """Return what the section is printed from."""
    arms = document["arms"]
    sources = [*(arm["stress"] for arm in arms if arm["stress"]),
               *(move for arm in arms for move in arm["moves"])]  # fmt: skip
    found = matrices.sources(sources)
    currency = str(document["job"]["currency"]["value"])
    return {
        "arm_lines": [_arm_line(arm, found) for arm in arms if arm["stress"]],
        "arm_moves": _moves(arms, found),
        "arm_sources": found.lists(),
        "arm_notes": list(said(arms)),
        "arm_level": STRENGTH_LEVEL if document["wind"]["level"] == "strength level" else "",
        "arm_limits": list(dict.fromkeys(_limit(arm) for arm in arms if arm["moves"])),
        "arm_yields": list(dict.fromkeys(_yielding(arm) for arm in arms if arm["yield_pa"])),
        "arm_shaking": _shaking(arms),
        "stay_lines": [_stay_line(arm, arm["stay"]) for arm in arms if arm["stay"]],
        "arm_trials": [_trial_table(arm, currency) for arm in arms if arm["trial"]],
        "arm_words": {"meanings": MEANINGS, "fatigue": FATIGUE, "shaking": SHAKING},
    }  # fmt: skip


def comes_from(row: Document) -> str:
    """Return what a figure comes from, in words."""
    told = (f"{row['combination']} ({row['clause']})", row["case"], row["position"],
            SHARED.get(row["sharing"], f"shared {row['sharing']}"), row["state"])  # fmt: skip
    return "; ".join(matrices.typeset(words) for words in told if words)


def ratio_words(ratio: float | None, gamma_m0: float) -> str:
    """Return a stress ratio as printed: a number, and when it is above one what that means."""
    if ratio is None:
        return "not known"
    number = figures.fixed(ratio, 2)
    if ratio <= YIELD_RATIO:
        return number
    divided = "" if gamma_m0 == 1.0 else f" divided by {figures.fixed(gamma_m0, 2)}"
    return f"{number}, above the yield of the table{divided}"


def _arm_line(arm: Document, found: matrices.Sources) -> ArmLine:
    stress = arm["stress"]
    parts = tuple(_mpa(stress[f"{kind}_pa"]) for kind in ("bending", "axial", "shear", "torsion"))
    return ArmLine(
        arm["bracket"], arm["section"], f"{arm['standard']}, {arm['made']}",
        arm["grade"], _mpa(arm["yield_pa"], 0), figures.fixed(arm["gamma_m0"], 2),
        ratio_words(arm["ratio"], arm["gamma_m0"]), _mpa(stress["von_mises_pa"]), parts,
        figures.bare_millimetres(stress["at_m"]), found.beside(stress),
    )  # fmt: skip


def _mpa(stress_pa: float | None, decimals: int = 1) -> str:
    return _NONE if stress_pa is None else figures.bare_fixed(stress_pa / _MPA, "MPa", decimals)


def _moves(arms: Sequence[Document], found: matrices.Sources) -> list[MoveLine]:
    """Return the movements of the arms; arms that move alike have lines together."""
    alike: dict[tuple[MoveLine, ...], list[tuple[MoveLine, ...]]] = {}
    for arm in arms:
        lines = tuple(_move_line(arm, move, found) for move in arm["moves"])
        printed = tuple(line._replace(bracket="", mark="") for line in lines)
        alike.setdefault(printed, []).append(lines)
    return [
        of[0]._replace(
            bracket=", ".join(line.bracket for line in of),
            mark=", ".join(dict.fromkeys(line.mark for line in of)),
        )
        for some in alike.values()
        for of in zip(*some, strict=True)
    ]


def _shaking(arms: Sequence[Document]) -> list[tuple[str, ...]]:
    """Return how fast the arms shake; those alike in every figure share a line."""
    alike: dict[tuple[str, ...], list[str]] = {}
    for arm in arms:
        if one := arm["shaking"]:
            hertz = (figures.significant(one[way]) for way in ("up_and_down", "sideways"))
            told = (*hertz, figures.kilograms(one["share_kg"]))
            alike.setdefault(told, []).append(arm["bracket"])
    return [(", ".join(brackets), *told) for told, brackets in alike.items()]


def _move_line(arm: Document, move: Document, found: matrices.Sources) -> MoveLine:
    ways = tuple(_mm(move[name]) for name in ("down_m", "up_m", "sideways_m"))
    beyond = move["over"] is not None and move["over"] < arm["sag_limit"]["over"]
    over = _over(move["over"])
    told = beyond and move["share"] != "permanent"
    return MoveLine(
        arm["bracket"], move["share"], ways, _mm(move["sag_m"]),
        f"{over}, more than the limit" if told else over,
        tuple(figures.fixed(angle, 2) for angle in move["tilt_deg"]), found.beside(move),
    )  # fmt: skip


def _over(over: float | None) -> str:
    """Return a movement as a part of the reach."""
    if over is None:
        return _NONE
    return f"less than L/{STIFF:.0f}" if over > STIFF else f"L/{over:.0f}"


def _mm(length_m: float) -> str:
    return figures.bare_millimetres(length_m, 1)


def said(arms: Sequence[Document]) -> Iterator[str]:
    """Yield what has to be said of arms: what is not known, how a grade counts, zinc."""
    told: dict[str, list[str]] = {}
    for arm in arms:
        for text in _notes(arm):
            told.setdefault(text, []).append(arm["bracket"])
    for text, brackets in told.items():
        yield f"{', '.join(brackets)}: {text}"


def _notes(arm: Document) -> Iterator[str]:
    if arm["note"]:
        yield f"{arm['note']}."
    if arm["counted_as"].casefold() not in arm["grade"].casefold():
        yield f"the grade, {arm['grade']}, counts as {arm['counted_as']}."
    if arm["galvanised"]:
        yield (
            "galvanised: zinc leaves the yield as it is, and its mass is not counted. Ask the "
            "galvaniser about vent holes and cold-formed corners."
        )
    if arm["stress"] is None:
        yield "no factored action is known, so there is no stress."


def _limit(arm: Document) -> str:
    limit = arm["sag_limit"]
    return f"L/{figures.fixed(limit['over'])}: {limit['source']}"


def _yielding(arm: Document) -> str:
    return (
        f"{arm['counted_as']}: {_mpa(arm['yield_pa'], 0)} {figures.head('MPa')},"
        f" {arm['yield_source']}; partial factor {figures.fixed(arm['gamma_m0'], 2)},"
        f" {arm['gamma_source']}"
    )


def _stay_line(arm: Document, stay: Document) -> StayLine:
    _, up_n, out_n = stay["at_wall_n"]
    pushes, times = stay["push_n"] > 0, stay["hinged_times"]
    slack = f"{stay['slack']} of {stay['cases']}" if stay["pulls_only"] else "can push"
    return StayLine(
        arm["bracket"], stay["section"], figures.bare_millimetres(stay["length_m"]),
        figures.newtons(stay["pull_n"]), ratio_words(stay["ratio"], arm["gamma_m0"]),
        (figures.newtons(out_n), figures.newtons(up_n)),
        figures.newtons(stay["push_n"]) if pushes else _NONE, slack,
        figures.fixed(stay["slenderness"]) if pushes else _NONE,
        figures.newtons(stay["euler_n"]) if pushes else _NONE,
        _NONE if times is None else f"{figures.fixed(times, 2)} times",
    )  # fmt: skip


def _trial_table(arm: Document, currency: str) -> TrialTable:
    trial = arm["trial"]
    rows = trial["rows"]
    at = next(i for i, row in enumerate(rows) if row["section"] == arm["section"])
    shown = rows[max(0, at - LIGHTER) : at + HEAVIER + 1]
    ended = "" if trial["fits"] else "; none is within both, and the heaviest was taken"
    heading = (
        f"{arm['bracket']}, typed as {trial['typed']}: worked out and priced with "
        f"{arm['section']}{ended}"
    )
    return TrialTable(
        arm["bracket"], heading, tuple(_trial_row(row, arm["gamma_m0"], currency) for row in shown),
        len(rows) - len(shown),
    )  # fmt: skip


def _trial_row(row: Document, gamma_m0: float, currency: str) -> tuple[str, ...]:
    tilt = _NONE if row["tilt_deg"] is None else figures.fixed(row["tilt_deg"], 2)
    sag = _NONE if row["sag_m"] is None else _mm(row["sag_m"])
    cost = "no price" if row["cost"] is None else figures.money(row["cost"], currency)
    ratio = row["note"] or ratio_words(row["ratio"], gamma_m0)
    return (row["section"], row["standard"], row["made"], ratio, sag, _over(row["over"]), tilt,
            figures.kilograms(row["arm_kg"]), cost)  # fmt: skip
