"""What a part is made of: a material or a build-up, turned into layers that can be weighed."""

import math
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from difflib import get_close_matches

from estimator.core.problems import Cell, Problem, Severity
from estimator.reference.finding import NEIGHBOURS, Miss, Reason
from estimator.reference.finishes import Coat, Finish, find_finish
from estimator.reference.gauges import SheetGauge, find_gauge
from estimator.reference.library import Library
from estimator.reference.materials import Material, find_material
from estimator.resolve.moisture import Moisture, Timber, conditioned, density_words
from estimator.resolve.names import about, cannot_be_used, refusal
from estimator.resolve.records import Kind, Layer, Spread
from estimator.sheets.converters import folded
from estimator.sheets.rows import Row

FLAT = frozenset({"sheet", "disc", "ring", "sector", "blade", "leaf", "outline", "dome"})
"""Shapes that are a skin and nothing else: they need a gauge."""
HOLLOWABLE = frozenset({"box", "cone", "sphere", "ellipsoid", "torus", "mesh", "measured"})
"""Shapes that are a skin when a gauge is given, and solid when none is."""
WALLED = frozenset({"tube", "hollow", "formed", "hoop"})
"""Shapes whose blank wall is taken from the gauge."""
BARS = WALLED | {"rod", "flat", "section"}
"""Shapes that are cut from a bar by length."""
BARE_AREA = {"section": "", "run": "length", "bought": "each"}
"""Shapes whose skin is not known, with where a finish on them lies; blank: by its girth."""
NO_AREA = frozenset({"length", "each"})
"""What a layer may lie over that has no area for a finish to cover."""
_SHARE = re.compile(r"(.*?)(?:\s+(\d{1,3}(?:\.\d+)?)\s*%)?", re.DOTALL)
"""A material, perhaps with how much of the inside it fills."""
LAYER_UNITS = {"surface_mass": "kg/m2", "line_mass": "kg/m", "mass": "kg"}
FITS = {
    **dict.fromkeys(("one face", "both faces", "whole outside"), "surface_mass"),
    "length": "line_mass",
    "each": "mass",
}
"""Kind of amount that can lie over each place."""


@dataclass
class Maker:
    """Looks up materials, gauges, finishes and build-ups, each only once.

    Attributes:
        library: The lookup tables.
        build_ups: Rows of the `build-ups` sheet, by name as names are compared.
        refused: Rows of that sheet that could not be read, likewise.
        problems: What was found wrong so far.
        moisture: Of all timber; as the tables have it when None.
    """

    library: Library
    build_ups: Mapping[str, Sequence[Row]]
    refused: Mapping[str, Sequence[Row]] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)
    moisture: Moisture | None = None
    _kept: dict[tuple[str, ...], object] = field(default_factory=dict)

    def layers_of(self, row: Row, shape: str) -> tuple[Layer, ...] | None:
        """Return the layers of a part, or None with a problem when it cannot be weighed."""
        made_of, gauge = row.text("made_of"), row.text("gauge")
        layers = self._given_mass(row)
        if layers is None:
            build_up = self._named(made_of)
            layers = self._build_up(build_up) if build_up else self._plain(row, shape, made_of)
            if build_up and gauge:
                self._ask(row, "gauge", f'the build-up "{made_of}" says its own thickness')
            if build_up and layers is None:
                self.refuse(row, "made_of", cannot_be_used(build_up[0]), "", "")
        coats = self._coat(row, "finish", BARE_AREA.get(shape, "whole outside"))
        filling = self._contents(row)
        if layers is None or coats is None or filling is None:
            return None
        if filling and shape in HOLLOWABLE and any(layer.over == "solid" for layer in layers):
            self._ask(row, "contents", "it is solid, and filled as well")
        return (*layers, *coats, *filling)

    def look_over(self, row: Row) -> None:
        """Look up what a row of a build-up that could not be read names."""
        material = self._material(row, "material") if row.has("material") else None
        if material and row.has("over") and row.has("amount"):
            self._measured(row, material, row.text("over"))
        self._coat(row, "finish", "whole outside")

    def _named(self, made_of: str) -> tuple[Row, ...]:
        """Return the rows of a build-up, those that could not be read last; none if it is none."""
        name = folded(made_of)
        return (*self.build_ups.get(name, ()), *self.refused.get(name, ()))

    def thickness_m(self, row: Row) -> float:
        """Return the thickness a part's gauge means, NaN when there is none or it is unknown."""
        plain = row.has("made_of") and not self._named(row.text("made_of"))
        material = self._material(row, "made_of") if plain and row.has("gauge") else None
        if material is None:
            return math.nan
        gauge = self._gauge(row, "gauge", row.text("gauge"), material)
        return math.nan if gauge is None else gauge.thickness_m

    def _contents(self, row: Row) -> tuple[Layer, ...] | None:
        """Return what fills a part, `water` or `sand 50 %`; None with a problem."""
        if not row.has("contents"):
            return ()
        name, share = _SHARE.fullmatch(row.text("contents")).groups()  # type: ignore[union-attr]
        found = self._look_up(
            ("material", name),
            lambda: self._find(name),
            row.cell("contents"),
            about(row),
        )
        if not isinstance(found, Material):
            return None
        full = 1.0 if share is None else float(share) / 100
        if full > 1:
            self.refuse(row, "contents", f"{share} % is more than full", "0 to 100 %", "")
            return None
        filling = replace(
            _solid(found, ""),
            name="contents",
            over="inside",
            cell=row.cell("contents"),
            mass_per_size_kg=full * found.density_kg_m3,
            amount=f"{100 * full:g} % full, {density_words(found)}",
        )
        return (filling,)

    def _given_mass(self, row: Row) -> tuple[Layer, ...] | None:
        """Return the one layer of a part whose mass was typed."""
        for column, over, unit in (("mass_each", "each", "kg"), ("kg_per_m", "length", "kg/m")):
            if row.has(column):
                mass = row.number(column)
                amount = f"{mass:g} {unit} as typed"
                made_of = row.text("made_of") or "as given"
                return (Layer("as given", made_of, over, mass, amount=amount, skin=False,
                              cell=row.cell(column)),)  # fmt: skip
        return None

    def _plain(self, row: Row, shape: str, made_of: str) -> tuple[Layer, ...] | None:
        """Return the one layer of a part made of a plain material."""
        if not made_of:
            self.refuse(
                row,
                "made_of",
                "nothing says what it is made of or weighs",
                "a material, a build-up, or a mass each",
                "fill one of them",
            )
            return None
        material = self._material(row, "made_of")
        if material is None:
            return None
        if shape in FLAT and not row.has("gauge"):
            self.refuse(
                row,
                "gauge",
                f"the {shape} of {material.key} has no gauge",
                "a gauge with its system, or a thickness",
                "type 18 SWG, Code 5 or 1.2 mm",
            )
            return None
        if row.has("gauge") and shape in FLAT | HOLLOWABLE:
            return self._skin(row, material)
        if shape in HOLLOWABLE and material.group == "metal":
            self._ask(row, "gauge", f"no gauge is given, so it counts as solid {material.key}")
        return (replace(_solid(material, shape), cell=row.cell("made_of")),)

    def _skin(self, row: Row, material: Material) -> tuple[Layer, ...] | None:
        gauge = self._gauge(row, "gauge", row.text("gauge"), material)
        if gauge is None:
            return None
        return (_sheet_layer("skin", material, gauge, "one face"),)

    def _build_up(self, rows: Sequence[Row]) -> tuple[Layer, ...] | None:
        """Return the layers of a build-up; None when one of its own rows is wrong."""
        name = folded(rows[0].text("build_up"))
        key = ("build-up", name)
        if key not in self._kept:
            made = [self._build_up_layer(row) for row in self.build_ups.get(name, ())]
            whole = None not in made and name not in self.refused
            self._kept[key] = tuple(x for pair in made if pair for x in pair) if whole else None
        return self._kept[key]  # type: ignore[return-value]

    def _build_up_layer(self, row: Row) -> tuple[Layer, ...] | None:
        amount, over = row.values["amount"], row.text("over")
        material = self._material(row, "material")
        if material is None:
            return None
        layer = self._measured(row, material, over)
        if layer is None:
            return None
        layer = replace(
            layer,
            name=row.text("layer"),
            covers=row.number("covers", 1.0),
            laps=row.number("laps", 0.0),
            waste=row.number("waste", 0.0),
            amount=layer.amount or amount.text,
            cell=row.cell("over"),
        )
        coats = self._coat(row, "finish", "whole outside" if over == "solid" else over)
        if coats is None:
            return None
        return (layer, *(replace(coat, covers=layer.covers, cell=layer.cell) for coat in coats))

    def _measured(self, row: Row, material: Material, over: str) -> Layer | None:
        """Return a layer whose amount is a thickness, a share of the solid, or a mass per size."""
        amount = row.values["amount"]
        if amount.kind in ("gauge", "length") and FITS.get(over) == "surface_mass":
            gauge = self._gauge(row, "amount", amount.text, material)
            return None if gauge is None else _sheet_layer("", material, gauge, over)
        if amount.kind == "percent" and over == "solid":
            kg_m3 = amount.value * material.density_kg_m3
            return replace(_solid(material, ""), mass_per_size_kg=kg_m3, amount=amount.text)
        if FITS.get(over) == amount.kind:
            return Layer("", material.key, over, amount.value, sources=(material.source,),
                         cited=(str(material.citation),))  # fmt: skip
        wanted = LAYER_UNITS.get(FITS.get(over, ""), "%")
        self.refuse(
            row,
            "amount",
            f'"{amount.text}" cannot lie over {over}',
            f"an amount in {wanted}" + (", or a thickness" if wanted == "kg/m2" else ""),
            "change the amount or what it lies over",
        )
        return None

    def finish_by_length(self, row: Row, girth_m: float | None) -> tuple[Layer, ...] | None:
        """Return the layers of a finish on a bar of known girth, by its length."""
        if girth_m is None:
            return self._coat(row, "finish", "length")
        coats = self._coat(row, "finish", "whole outside")
        return coats and tuple(
            replace(coat, over="length", mass_per_size_kg=girth_m * coat.mass_per_size_kg)
            for coat in coats
        )

    def _coat(self, row: Row, column: str, over: str) -> tuple[Layer, ...] | None:
        """Return the layers that a finish adds, or None when there is no such finish."""
        if not row.has(column) or not over:
            return ()
        if over in NO_AREA:
            self._ask(row, column, f"the area under this finish over {over} is not known: no mass")
            return ()
        finish = self._look_up(
            ("finish", row.text(column)),
            lambda: find_finish(self.library, row.text(column)),
            row.cell(column),
            about(row),
        )
        if not isinstance(finish, Finish):
            return None
        return tuple(_coat_layer(coat, over) for coat in finish.parts)

    def roughness_m(self, row: Row) -> float:
        """Return the roughness of a part's finish for the wind, NaN when none is known.

        Without a finish of its own it has those of its build-up: of several the roughest counts.
        """
        build_up = self.build_ups.get(folded(row.text("made_of")), ())
        named = [row] if row.has("finish") else build_up
        finishes = (self._kept.get(("finish", one.text("finish"))) for one in named)
        known = (one.roughness_m for one in finishes if isinstance(one, Finish))
        return max((rough for rough in known if rough is not None), default=math.nan)

    def _material(self, row: Row, column: str) -> Material | None:
        typed = row.text(column)
        found = self._look_up(
            ("material", typed, column),
            lambda: self._find_material(typed, column),
            row.cell(column),
            about(row),
        )
        return found if isinstance(found, Material) else None

    def _find_material(self, typed: str, column: str) -> Material | Miss:
        """Return a material; near names of build-ups count among the choices for a part."""
        found = self._find(typed)
        if isinstance(found, Material) or column == "material" or found.reason is Reason.AMBIGUOUS:
            return found
        known = {**self.build_ups, **self.refused}
        near = get_close_matches(folded(typed), known, n=NEIGHBOURS)
        names = [f"{known[name][0].text('build_up')} (build-up)" for name in near]
        return replace(found, choices=(*names, *found.choices)[:NEIGHBOURS])

    def _find(self, typed: str) -> Material | Miss:
        """Return a material as it is at this job."""
        found = find_material(self.library, typed)
        return found if isinstance(found, Miss) else conditioned(found, self.moisture)

    def _gauge(self, row: Row, column: str, typed: str, material: Material) -> SheetGauge | None:
        found = self._look_up(
            ("gauge", typed, material.key),
            lambda: find_gauge(self.library, typed, material),
            row.cell(column),
            about(row),
        )
        return found if isinstance(found, SheetGauge) else None

    def _look_up(
        self, key: tuple[str, ...], find: Callable[[], object], cell: Cell, about: str
    ) -> object:
        """Return what a name leads to; a miss is a problem in every row that has it."""
        if key not in self._kept:
            self._kept[key] = find()
        found = self._kept[key]
        if isinstance(found, Miss):
            self.problems.append(
                Problem(
                    Severity.REFUSED,
                    cell,
                    found.sentence,
                    f"a {key[0]} of the tables",
                    found.advice,
                    about,
                )
            )
        return found

    def refuse(self, row: Row, column: str, *words: str) -> None:
        """Keep a problem: what was found, what is wanted, what to do."""
        found, expected, advice = words
        self.problems.append(refusal(row, column, found, expected, advice))

    def _ask(self, row: Row, column: str, found: str) -> None:
        advice = "look whether that is what you mean"
        asked = replace(refusal(row, column, found, "", advice), severity=Severity.QUESTION)
        self.problems.append(asked)


def _sheet_layer(name: str, material: Material, gauge: SheetGauge, over: str) -> Layer:
    spreads = _spread(
        f"gauge {gauge.label}", gauge.thickness_low_m, gauge.thickness_m, gauge.thickness_high_m
    )
    by_gauge = (
        spread._replace(kind=Kind.GAUGE, likely=gauge.surface_kg_m2, why=gauge.tolerance_note)
        for spread in spreads
    )
    return Layer(
        name, material.key, over, gauge.surface_kg_m2, thickness_m=gauge.thickness_m,
        amount=gauge.label, spreads=(*_density_spread(material), *by_gauge),
        sources=(material.source, gauge.source), form="sheet", gauge=gauge.label,
        cited=(str(material.citation), str(gauge.citation)),
    )  # fmt: skip


def _coat_layer(coat: Coat, over: str) -> Layer:
    low, likely, high = coat.mass_low_kg_m2, coat.mass_likely_kg_m2, coat.mass_high_kg_m2
    why = f"{low:.3g} to {high:.3g} kg/m2, {coat.citation.document}"
    return Layer(
        "finish", coat.key, over, likely, amount=f"{likely:.3g} kg/m2",
        spreads=tuple(
            spread._replace(kind=Kind.COAT, likely=likely, why=why)
            for spread in _spread(f"mass of {coat.key}", low, likely, high)
        ),
        sources=(coat.source,), cited=(str(coat.citation),),
    )  # fmt: skip


def _solid(material: Material, shape: str) -> Layer:
    return Layer(
        "solid", material.key, "solid", material.density_kg_m3,
        amount=density_words(material), spreads=_density_spread(material),
        sources=(material.source,), skin=False, form="bar" if shape in BARS else "",
        cited=(str(material.citation),),
    )  # fmt: skip


def _density_spread(material: Material) -> tuple[Spread, ...]:
    low, likely, high = (
        material.density_low_kg_m3, material.density_kg_m3, material.density_high_kg_m3
    )  # fmt: skip
    why = f"{low:.0f} to {high:.0f} kg/m3, {material.citation.document}"
    by_density = tuple(
        spread._replace(kind=Kind.DENSITY, likely=likely, why=why)
        for spread in _spread(f"density of {material.key}", low, likely, high)
    )
    return (*by_density, material.damp) if isinstance(material, Timber) else by_density


def _spread(cause: str, low: float, likely: float, high: float) -> tuple[Spread, ...]:
    """Return a spread as fractions of the likely value; none where there is no band."""
    if not likely > 0 or (low >= likely and high <= likely):
        return ()
    return (Spread(cause, (likely - low) / likely, (high - likely) / likely),)
