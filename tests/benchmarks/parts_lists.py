"""Long parts lists for the benchmark: the same list every time, as .csv files or as .xlsx.

python tests/benchmarks/parts_lists.py 1000 list.xlsx
"""

import argparse
import csv
import random
from collections.abc import Callable, Iterator
from pathlib import Path

import openpyxl

PARTS_PER_ASSEMBLY = 20
STANDS = ("flat to wall", "free", "off wall", "free")
HEADINGS = (
    "part", "name", "assembly", "count", "shape", "length [mm]", "width [mm]", "depth [mm]",
    "diameter [mm]", "bore [mm]", "end width [mm]", "end diameter [mm]", "wall [mm]", "section",
    "along", "made of", "gauge", "finish", "across [mm]", "up [mm]", "out [mm]", "turn [deg]",
    "tip [deg]", "set out", "spread [mm]", "relief", "cut away [%]", "mass each [kg]",
    "confidence",
)  # fmt: skip
Cells = dict[str, object]
METALS = ("copper", "lead", "stainless 316", "mild steel")
GAUGES = {"copper": "18 SWG", "lead": "Code 5", "stainless 316": "1.5 mm", "mild steel": "2 mm"}
TIMBERS = ("oak European", "larch European", "birch plywood")


def _sheet(rng: random.Random) -> Cells:
    return {"length": rng.randint(100, 900), "width": rng.randint(60, 500)}


def _disc(rng: random.Random) -> Cells:
    return {"diameter": rng.randint(80, 700)}


def _ring(rng: random.Random) -> Cells:
    diameter = rng.randint(200, 900)
    return {"diameter": diameter, "bore": diameter - rng.randint(40, 150)}


def _blade(rng: random.Random) -> Cells:
    return {"length": rng.randint(300, 900), "width": 90, "end width": rng.choice((0, 20))}


def _dome(rng: random.Random) -> Cells:
    diameter = rng.randint(100, 600)
    return {"diameter": diameter, "depth": diameter // 5}


def _cone(rng: random.Random) -> Cells:
    return {"length": rng.randint(100, 600), "diameter": rng.randint(60, 250), "end diameter": 30}


def _box(rng: random.Random) -> Cells:
    return {"length": rng.randint(100, 800), "width": rng.randint(60, 300), "depth": 45}


def _flat(rng: random.Random) -> Cells:
    return {"length": rng.randint(150, 1500), "width": 40, "depth": 6}


def _rod(rng: random.Random) -> Cells:
    return {"length": rng.randint(100, 1200), "diameter": rng.choice((10, 12, 16))}


def _tube(rng: random.Random) -> Cells:
    return {"length": rng.randint(200, 1500), "diameter": 48.3, "wall": 3.2}


def _section(rng: random.Random) -> Cells:
    return {"length": rng.randint(300, 2000), "section": "SHS 40x40x3"}


def _hoop(rng: random.Random) -> Cells:
    return {"diameter": rng.randint(300, 1200), "width": 40, "depth": 6}


def _bought(rng: random.Random) -> Cells:
    return {"mass each": round(rng.uniform(0.05, 3.0), 2), "diameter": 60, "length": 60}


SHAPES: dict[str, tuple[int, str, Callable[[random.Random], Cells]]] = {
    "sheet": (22, "skin", _sheet),
    "disc": (6, "skin", _disc),
    "ring": (6, "skin", _ring),
    "blade": (5, "skin", _blade),
    "leaf": (6, "skin", _sheet),
    "dome": (4, "skin", _dome),
    "cone": (5, "skin", _cone),
    "ellipsoid": (5, "skin", _box),
    "sphere": (2, "skin", _disc),
    "box": (7, "timber", _box),
    "flat": (12, "bar", _flat),
    "rod": (7, "bar", _rod),
    "tube": (4, "bar", _tube),
    "section": (3, "bar", _section),
    "hoop": (2, "bar", _hoop),
    "bought": (4, "bought", _bought),
}
"""Of a hundred parts so many, what they are made from, and sizes: a guess at a usual job."""


def part_rows(count: int, seed: int = 1) -> Iterator[Cells]:
    """Yield so many rows of a parts sheet, by heading without its unit."""
    rng = random.Random(seed)  # noqa: S311 - a made-up list, nothing secret
    names = list(SHAPES)
    weights = [SHAPES[name][0] for name in names]
    for i in range(count):
        shape = rng.choices(names, weights)[0]
        _, stuff, sizes = SHAPES[shape]
        yield {
            "part": f"P{i + 1}",
            "name": f"{shape} {i + 1}",
            "assembly": f"A{i // PARTS_PER_ASSEMBLY + 1}",
            **_counted(rng),
            "shape": shape,
            "across": rng.randint(-600, 600),
            "up": rng.randint(-400, 400),
            "out": rng.randint(40, 300),
            "confidence": rng.choice(("guess", "drawn", "quoted")),
            **sizes(rng),
            **_made_of(stuff, rng),
            **_pointed(shape, rng),
        } | ({"cut away": rng.choice((0.1, 0.3))} if shape == "sheet" and i % 10 == 0 else {})


def _counted(rng: random.Random) -> Cells:
    """Return how many are alike; several stand in a row."""
    count = rng.choices((1, 2, 6), (85, 10, 5))[0]
    return {"count": count} if count == 1 else {"count": count, "set out": "row", "spread": 800}


def _made_of(stuff: str, rng: random.Random) -> Cells:
    if stuff == "bought":
        return {}
    if stuff == "timber":
        return {"made of": rng.choice(TIMBERS), "finish": "timber oil"}
    metal = rng.choice(METALS if stuff == "skin" else METALS[2:])
    if stuff == "bar":
        return {"made of": metal}
    finish = rng.choice(("", "patina + wax", "oil gilding"))
    return {"made of": metal, "gauge": GAUGES[metal], "finish": finish, "relief": 1.05}


def _pointed(shape: str, rng: random.Random) -> Cells:
    """Return which way a part points: a third upright, a fifth oblique, many as drawn."""
    cells: Cells = {}
    if shape not in ("disc", "ring", "sphere", "dome", "hoop") and rng.random() < 1 / 3:
        cells["along"] = "up"
    if rng.random() < 1 / 5:
        cells |= {"turn": rng.randint(-60, 60), "tip": rng.choice((0, 0, 15))}
    return cells


def tables(count: int) -> dict[str, list[list[object]]]:
    """Return the sheets of a job with so many parts, each a list of rows."""
    assemblies = [
        [f"A{i + 1}", 500 * (i % 10), 400 * (i // 10 % 10), STANDS[i % 4]]
        for i in range(-(-count // PARTS_PER_ASSEMBLY))
    ]
    plain = [heading.split(" [")[0] for heading in HEADINGS]
    return {
        "job": [
            ["item", "value"],
            ["title", f"{count} parts"],
            ["datum height", "5 m"],
            ["basic wind speed", "24 m/s"],
        ],
        "assemblies": [["assembly", "across [mm]", "up [mm]", "stands"], *assemblies],
        "parts": [
            list(HEADINGS),
            *([row.get(name, "") for name in plain] for row in part_rows(count)),
        ],
    }


def write_list(count: int, path: Path) -> Path:
    """Write a job with so many parts: an .xlsx file, or else a folder of .csv files."""
    return write_tables(tables(count), path)


def write_tables(sheets: dict[str, list[list[object]]], path: Path) -> Path:
    """Write sheets of rows: an .xlsx file, or else a folder of .csv files."""
    write = _write_xlsx if path.suffix == ".xlsx" else _write_csv
    write(sheets, path)
    return path


def _write_xlsx(sheets: dict[str, list[list[object]]], path: Path) -> None:
    book = openpyxl.Workbook(write_only=True)
    for name, rows in sheets.items():
        sheet = book.create_sheet(name)
        percent = [text == "cut away [%]" for text in rows[0]]
        for row in rows:
            cells = [None if value == "" else value for value in row]
            sheet.append([
                _percent(sheet, value) if is_percent and isinstance(value, float) else value
                for value, is_percent in zip(cells, percent, strict=True)
            ])  # fmt: skip
    book.save(path)


def _percent(sheet: object, value: float) -> openpyxl.cell.WriteOnlyCell:
    cell = openpyxl.cell.WriteOnlyCell(sheet, value)
    cell.number_format = "0 %"
    return cell


def _write_csv(sheets: dict[str, list[list[object]]], folder: Path) -> None:
    folder.mkdir(parents=True)
    for name, rows in sheets.items():
        percent = [text == "cut away [%]" for text in rows[0]]
        with (folder / f"{name}.csv").open("w", encoding="utf-8", newline="") as stream:
            csv.writer(stream).writerows(
                [
                    f"{value:.0%}" if is_percent and isinstance(value, float) else value
                    for value, is_percent in zip(row, percent, strict=True)
                ]
                for row in rows
            )


def main() -> None:
    """Write one list."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("count", type=int)
    parser.add_argument("path", type=Path)
    asked = parser.parse_args()
    write_list(asked.count, asked.path)


if __name__ == "__main__":
    main()
