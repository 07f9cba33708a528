"""Buying: blanks of what is made, whole pieces to buy by first fit, and what is left over."""

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial
from typing import NamedTuple

from estimator.reference.finding import Miss
from estimator.reference.library import Library
from estimator.reference.materials import Material, find_material
from estimator.reference.stock import find_kerf, offcut_rule, stock_sizes
from estimator.resolve.job import Resolved
from estimator.resolve.parts import DIMENSIONS
from estimator.resolve.records import Layer, Part, Pattern
from estimator.resolve.trade import (
    BARS,
    FLAT_FORMS,
    LONG_FORMS,
    SHEETS,
    Offer,
    Want,
    section_key,
)  # fmt: skip
from estimator.shop.bars import SECONDS, BarPlan, BarStock, cut_bars
from estimator.shop.offcuts import Account, Keep, bar_account, sheet_account, summed
from estimator.shop.sheets import Cutting, first_fit_sheets
from estimator.stages.measuring import GAINS
from estimator.stages.weighing import Weights

CUT_BY = {SHEETS: "guillotine", BARS: "bandsaw metal"}
"""How each is taken to be cut, for the kerf: program default."""
WHOLE_KG = 100.0
"""Bought by mass, from here up to the kilogram; below that to three figures."""
SECTION_WORDS = {
    "flat": ("flat", "width", "depth"),
    "rod": ("round", "diameter"),
    "tube": ("CHS", "diameter", "wall"),
    "hollow": ("RHS", "width", "depth", "wall"),
}
"""How the section of a bar is written, by shape."""


class OrderLine(NamedTuple):
    """One line of the order list; NaN where a figure is not known.

    Attributes:
        material, form, size_text, gauge: What it is.
        pieces: How many pieces of the job it makes.
        count_to_buy: Whole sheets or bars.
        stock_size: Size of one as sold.
        price_each, cost: In the currency of the job.
        bound_text: What no plan could beat.
        mass_kg: Bought.
        offcut_kg: Left and worth keeping.
        scrap_kg: Left and not.
        scrap_money: What that scrap cost.
        not_laid_out_m2: Area that has no blank, for the maker to lay out.
        how: How the line was found.
    """

    material: str
    form: str
    size_text: str
    mass_kg: float
    how: str
    gauge: str = ""
    pieces: int = 0
    count_to_buy: int = 0
    stock_size: str = ""
    price_each: float = math.nan
    cost: float = math.nan
    bound_text: str = ""
    offcut_kg: float = 0.0
    scrap_kg: float = 0.0
    scrap_money: float = 0.0
    not_laid_out_m2: float = 0.0


@dataclass(frozen=True, slots=True)
class Order:
    """The order list.

    Attributes:
        lines: What to buy.
        cost: Sum of what has a price.
        unpriced: What has none, in words.
        notes: What was taken for granted.
    """

    lines: tuple[OrderLine, ...]
    cost: float
    unpriced: tuple[str, ...]
    notes: tuple[str, ...]


@dataclass
class _Demand:
    """Everything wanted of one kind; `fixed` are the pieces that must lie along the roll."""

    label: str
    kg_per_size: float
    pieces: list[tuple[float, float]] = field(default_factory=list)
    fixed: set[int] = field(default_factory=set)
    loose_m2: float = 0.0
    loose_parts: list[str] = field(default_factory=list)


def buy(resolved: Resolved, weights: Weights) -> Order:
    """Return what to buy for everything that is made, and what is bought in."""
    demands = _demands(resolved, weights)
    lines: list[OrderLine] = []
    for want, demand in demands.items():
        lines.extend(_lines(resolved.library, want, demand, resolved.trade.offers.get(want, ())))
    lines.extend(_volumes(resolved, weights))
    lines.extend(_bought(resolved, weights))
    unpriced = [
        f"{line.material} {line.size_text}".strip() for line in lines if math.isnan(line.cost)
    ]
    notes = [f"{form}: cut by {by}" for form, by in CUT_BY.items()]
    return Order(
        tuple(lines), math.fsum(x.cost for x in lines if not math.isnan(x.cost)),
        tuple(dict.fromkeys(unpriced)), tuple(notes),
    )  # fmt: skip


def _demands(resolved: Resolved, weights: Weights) -> dict[Want, _Demand]:
    """Return what is wanted of each material and thickness or section."""
    found: dict[Want, _Demand] = {}
    columns, table = resolved.columns, weights.layers
    for row, layer, mass_kg in zip(table.part, table.layers, table.mass_kg, strict=True):
        part = columns.parts[row]
        if part.get_by != "make" or layer.form not in (SHEETS, BARS):
            continue
        entry = _WANTS[layer.form](resolved.library, part, layer, float(mass_kg))
        if entry is not None:
            want, label, kg_per_size = entry
            _add_blanks(found.setdefault(want, _Demand(label, kg_per_size)), part, layer)
    return found


def _sheet_want(_: Library, part: Part, layer: Layer, __: float) -> tuple[Want, str, float]:
    """Return the thickness a layer of sheet is cut from, with its kg/m2."""
    thick_m = part.dims[2] if math.isnan(layer.thickness_m) else layer.thickness_m
    kg_m2 = layer.mass_per_size_kg * (1.0 if layer.over in GAINS else thick_m)
    label = layer.gauge or f"{1000 * thick_m:g} mm"
    return Want(layer.material, SHEETS, round(1e6 * thick_m)), label, kg_m2


def _bar_want(
    library: Library, part: Part, layer: Layer, mass_kg: float
) -> tuple[Want, str, float] | None:
    """Return the section a bar is cut from, with its kg/m; None when it is no stock section."""
    length_m = _pattern(layer).blank.pieces[0].length_m
    words = layer.gauge if part.shape == "section" or layer.gauge else _section_words(part)
    if not words or not length_m > 0:
        return None
    return (
        Want(layer.material, BARS, section_key(library, words)), words,
        mass_kg / part.count / length_m,
    )  # fmt: skip


_WANTS: Mapping[str, Callable[[Library, Part, Layer, float], tuple[Want, str, float] | None]] = {
    SHEETS: _sheet_want,
    BARS: _bar_want,
}


def _section_words(part: Part) -> str:
    """Return the section of a bar as a merchant writes it; blank when it has none."""
    sizes = dict(zip(DIMENSIONS, part.dims, strict=True))
    bent_flat = part.shape == "hoop" and not math.isnan(sizes["depth"])
    word, *names = SECTION_WORDS.get("flat" if bent_flat else part.shape, ("",))
    if not word:
        return ""
    if word == "RHS" and sizes["width"] == sizes["depth"]:
        word = "SHS"
    return f"{word} " + "x".join(f"{1000 * sizes[name]:g}" for name in names)


def _pattern(layer: Layer) -> Pattern:
    """Return what a layer of sheet or bar is cut from."""
    if layer.pattern is None:
        msg = f"a layer of {layer.material} {layer.form} has no pattern; resolving gives every one"
        raise TypeError(msg)
    return layer.pattern


def _add_blanks(demand: _Demand, part: Part, layer: Layer) -> None:
    """Add the pieces of one layer of one part, or its area where it is not laid out."""
    pattern = _pattern(layer)
    if pattern.blank.kind == "area":
        area_m2 = pattern.finished_m2 * (1.0 + layer.laps) * (1.0 + pattern.spare)
        demand.loose_m2 += part.count * area_m2
        demand.loose_parts.append(part.key)
        return
    for piece in pattern.cut.pieces:
        size_m = piece.length_m, piece.width_m
        if pattern.roll_way == "width":
            size_m = piece.width_m, piece.length_m
        number = part.count * pattern.copies * piece.number
        if pattern.roll_way:
            demand.fixed.update(range(len(demand.pieces), len(demand.pieces) + number))
        demand.pieces += [size_m] * number


def _lines(
    library: Library, want: Want, demand: _Demand, offers: Sequence[Offer]
) -> Iterator[OrderLine]:
    """Return the order lines of one kind: whole pieces, and what is not laid out."""
    material = find_material(library, want.material)
    if isinstance(material, Miss):
        msg = f"{want.material} was found before and is gone"
        raise TypeError(msg)
    priced = bool(offers)
    sold = list(offers) or _commonly_sold(library, material, want.form)
    if demand.pieces and sold:
        yield from _planned(library, material, want, demand, (sold, priced))
    elif demand.pieces:
        yield _not_laid_out(
            want, demand, _size(demand.pieces), "no size is known that it is sold in"
        )
    if demand.loose_m2:
        names = ", ".join(dict.fromkeys(demand.loose_parts))
        yield _not_laid_out(
            want,
            demand,
            demand.loose_m2,
            f"area to buy, not laid out: {names}",
            sold if priced else (),
        )


def _commonly_sold(library: Library, material: Material, form: str) -> list[Offer]:
    """Return sizes that are commonly sold, without a price."""
    forms = FLAT_FORMS if form == SHEETS else LONG_FORMS
    sizes = [s for f in forms for s in stock_sizes(library, material, f)]
    flat = form == SHEETS
    return [
        Offer((s.length_m, s.width_m) if s.width_m is not None else (s.length_m,), math.nan)
        for s in sizes
        if (s.width_m is not None) == flat
    ]


def _planned(
    library: Library,
    material: Material,
    want: Want,
    demand: _Demand,
    sold: tuple[Sequence[Offer], bool],
) -> Iterator[OrderLine]:
    """Return a line for each size that first fit buys."""
    offers, priced = sold
    worth = [offer.price if priced else math.prod(offer.size_m) for offer in offers]
    rule = offcut_rule(library, material, want.form)
    keep = Keep(rule.min_side_m, rule.min_area_m2) if rule else Keep()
    kerf = find_kerf(library, CUT_BY[want.form])
    if isinstance(kerf, Miss):
        raise TypeError(kerf.sentence)
    cut = _CUTTERS[want.form](demand, offers, worth, kerf.high_m, keep)
    bound = cut.bound(priced)
    for index in dict.fromkeys(use.stock for use in cut.used):
        mine = [use for use in cut.used if use.stock == index]
        yield _bought_line(want, demand, offers[index], mine, (cut.how, bound))
    if cut.too_big:
        sizes = [demand.pieces[i] for i in cut.too_big]
        how = (
            f"{len(sizes)} pieces up to {_size_text(max(sizes))} are larger than any size sold: "
            "to be pieced up"
        )
        yield _not_laid_out(want, demand, _size(sizes), how, offers if priced else ())


class _Use(NamedTuple):
    """One sheet or bar: which size, how many pieces it gives, and where it goes."""

    stock: int
    pieces: int
    account: Account


class _Cut(NamedTuple):
    """A plan, whatever it cuts.

    Attributes:
        used: What it uses.
        too_big: Pieces that nothing sold can hold.
        how: How it was found.
        bound: Gives the bound in words, from whether there are prices.
    """

    used: tuple[_Use, ...]
    too_big: tuple[int, ...]
    how: str
    bound: Callable[[bool], str]


def _cut_sheets(
    demand: _Demand,
    offers: Sequence[Offer],
    worth: Sequence[float],
    kerf_m: float,
    keep: Keep,
) -> _Cut:
    sizes_m = [_two(offer) for offer in offers]
    cutting = Cutting(kerf_m, fixed=frozenset(demand.fixed))
    plan = first_fit_sheets(demand.pieces, sizes_m, worth, cutting)
    used = tuple(
        _Use(
            sheet.stock_index,
            len(sheet.placements),
            sheet_account(sheet, sizes_m[sheet.stock_index], 0.0, keep),
        )
        for sheet in plan.sheets
    )
    words = f"by area alone at least {plan.bound_sheets}; this plan {len(used)}"
    return _Cut(used, plan.too_large, "first fit, largest first", lambda _: words)


def _cut_bars(
    demand: _Demand,
    offers: Sequence[Offer],
    worth: Sequence[float],
    kerf_m: float,
    keep: Keep,
) -> _Cut:
    stock = [BarStock(offer.size_m[0], price) for offer, price in zip(offers, worth, strict=True)]
    plan = cut_bars([length_m for length_m, _ in demand.pieces], stock, kerf_m)
    used = tuple(
        _Use(
            bar.stock_index,
            len(bar.pieces),
            bar_account(bar, stock[bar.stock_index].length_m, 0.0, keep),
        )
        for bar in plan.bars
    )
    # Where nothing is proven the clock decided, and another machine may print another plan.
    how = "best cutting plan found" + ("" if plan.proven else f" in up to {SECONDS:g} s of looking")
    return _Cut(used, plan.too_long, how, partial(_bar_bound, plan))


def _bar_bound(plan: BarPlan, priced: bool) -> str:  # noqa: FBT001 - given by place
    """Return what no plan could beat, as a share of this one's cost, or length where unpriced."""
    less = "cost" if priced else "length"
    if plan.proven:
        return f"proven: no plan has less {less}"
    left = 1.0 - plan.bound_cost / plan.cost
    return f"proven: no plan can save more than {100 * left:.1f} % of the {less}"


_CUTTERS = {SHEETS: _cut_sheets, BARS: _cut_bars}


def _two(offer: Offer) -> tuple[float, float]:
    return offer.size_m[0], offer.size_m[-1]


def _bought_line(
    want: Want, demand: _Demand, offer: Offer, used: Sequence[_Use],
    said: tuple[str, str],
) -> OrderLine:  # fmt: skip
    account = summed(use.account for use in used)
    kg = account.times(demand.kg_per_size)
    count = len(used)
    scrap = account.scrap + account.cutting + account.trim
    return OrderLine(
        material=want.material,
        form=want.form,
        size_text=demand.label if want.form == BARS else "",
        gauge=demand.label if want.form == SHEETS else "",
        pieces=sum(use.pieces for use in used),
        count_to_buy=count,
        stock_size=_size_text(offer.size_m),
        price_each=offer.price,
        cost=count * offer.price,
        bound_text=said[1],
        mass_kg=kg.stock,
        offcut_kg=kg.offcuts,
        scrap_kg=scrap * demand.kg_per_size,
        scrap_money=count * offer.price * scrap / account.stock,
        how=said[0] + ("" if offer.price >= 0 else "; no price given"),
    )


def _size_text(size_m: Sequence[float]) -> str:
    """Return a stock size as a merchant writes it."""
    sizes = [size for size in size_m if size]
    if len(sizes) == 1:
        return f"{sizes[0]:g} m"
    return " x ".join(f"{1000 * size:.0f}" for size in sizes) + " mm"


def _size(pieces: Sequence[tuple[float, float]]) -> float:
    """Return the area of blanks, or the length of bars, which have no width."""
    return math.fsum(length_m * (width_m or 1.0) for length_m, width_m in pieces)


def _not_laid_out(
    want: Want, demand: _Demand, size: float, how: str, offers: Sequence[Offer] = ()
) -> OrderLine:
    """Return a line for an area or a length nobody has laid out.

    An area is priced by the cheapest square metre; a length has no price until it has a plan.
    """
    area_m2 = size if want.form == SHEETS else 0.0
    by_m2 = min(
        (o.price / math.prod(o.size_m) for o in offers if want.form == SHEETS), default=math.nan
    )
    return OrderLine(
        material=want.material, form=want.form,
        size_text=demand.label if want.form == BARS else "",
        gauge=demand.label if want.form == SHEETS else "", price_each=by_m2,
        cost=area_m2 * by_m2, bound_text="area alone, waste as stated in the build-up",
        mass_kg=size * demand.kg_per_size,
        not_laid_out_m2=area_m2, how=how,
    )  # fmt: skip


def _volumes(resolved: Resolved, weights: Weights) -> Iterator[OrderLine]:
    """Return a line for each material bought by the kilogram: cores, castings, coats, straps."""
    table = weights.layers
    loose_kg: dict[str, float] = {}
    for row, layer, mass_kg in zip(table.part, table.layers, table.mass_kg, strict=True):
        part = resolved.columns.parts[row]
        if part.get_by == "make" and layer.over != "each" and not _is_cut(part, layer):
            bought_kg = float(mass_kg) * (1.0 + layer.waste)
            loose_kg[layer.material] = loose_kg.get(layer.material, 0.0) + bought_kg
    for material, bought_kg in loose_kg.items():
        yield OrderLine(
            material=material,
            form="by mass",
            size_text=f"{bought_kg:.0f} kg" if bought_kg >= WHOLE_KG else f"{bought_kg:.3g} kg",
            bound_text="no layout; waste as stated in the build-up",
            mass_kg=bought_kg,
            how="bought by mass or by the piece; put its price on the costs sheet",
        )


def _is_cut(part: Part, layer: Layer) -> bool:
    """Return whether a layer is cut from sheets or bars, and so is in another line."""
    if layer.form == BARS:
        return bool(layer.gauge or _section_words(part))
    return layer.form == SHEETS


def _bought(resolved: Resolved, weights: Weights) -> Iterator[OrderLine]:
    """Return a line for each thing that is bought in, the alike together."""
    alike: dict[tuple[str, str, str], list[int]] = {}
    for row, part in enumerate(resolved.columns.parts):
        if part.get_by == "buy":
            key = (part.made_of or part.name, part.name, f"{part.price_each:g}")
            alike.setdefault(key, []).append(row)
    for (material, name, _), rows in alike.items():
        parts = [resolved.columns.parts[row] for row in rows]
        count, price = sum(part.count for part in parts), parts[0].price_each
        yield OrderLine(
            material=material,
            form="bought in",
            size_text=name,
            pieces=count,
            count_to_buy=count,
            price_each=price,
            cost=count * price,
            mass_kg=float(weights.parts.mass_kg[rows].sum()),
            how=", ".join(part.key for part in parts),
        )
