"""How long outlines take: 24 directions x 13 positions of 500 parts, some of which move.

    python tests/benchmarks/run_silhouettes.py [--parts 500] [--moving 100] [--shares 60 20 20]
    python tests/benchmarks/run_silhouettes.py --meshes 2000 100000 1000000

The parts are simple shapes, flat outlines with holes and meshes of about 2,000 triangles, in the
shares given, every one turned its own way and none of them hidden by a wall. With `--meshes`:
one outline of a mesh that grows, smooth and as rough as a scan is.
"""

import argparse
import math
import random
import sys
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import numpy as np
import shapely
import trimesh

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE.parents[1]), str(HERE)]

from parts_lists import SHAPES  # noqa: E402 - beside this file, found once path is set

from estimator.geometry.contours import Surface, outline  # noqa: E402
from estimator.geometry.measures import Measures, Region  # noqa: E402
from estimator.geometry.models import Mesh, Model  # noqa: E402
from estimator.geometry.patches import Sight, patches, thinned  # noqa: E402
from estimator.geometry.placing import rotation  # noqa: E402
from estimator.geometry.silhouettes import FRONT, view  # noqa: E402
from estimator.resolve.parts import DIMENSIONS, columns  # noqa: E402
from estimator.resolve.records import Assembly, Modelled, Part  # noqa: E402
from estimator.stages.blowing import WIND_FINENESS  # noqa: E402
from estimator.stages.blowing_rules import DIRECTIONS_DEG  # noqa: E402
from estimator.stages.measuring import measure_parts  # noqa: E402
from estimator.stages.outlining import Outliner  # noqa: E402

FIXED, MOVER = Assembly(key="fixed", stands="free"), Assembly(key="mover", stands="free")
POSITIONS = 13
MODELS = 10
"""Files of each kind; the parts share them."""
SIMPLE = [name for name in SHAPES if name not in ("section", "bought")]


def measures() -> Measures:
    """Return measures of a model that nobody weighs here."""
    one = Region(np.ones(1), np.zeros((1, 3)), np.zeros((1, 3, 3)))
    return Measures(np.ones((1, 3)), one, face=one, faces=one, outside=one)


def bumpy(triangles: int, rng: np.random.Generator, rough: float = 0.0) -> Mesh:
    """Return a ring with bumps, its corners off by a share of the mean edge."""
    sides = math.ceil(math.sqrt(triangles / 2))
    made = trimesh.creation.torus(0.12, 0.05, major_sections=sides, minor_sections=sides)
    points_m = np.array(made.vertices)
    for _ in range(6):
        way = rng.normal(size=3) * 25
        points_m += 0.004 * np.sin(points_m @ way + rng.uniform(0, 6))[:, None] * rng.normal(size=3)
    edges_m = np.diff(points_m[made.edges_unique], axis=1)
    points_m += rng.normal(0, rough * np.linalg.norm(edges_m, axis=-1).mean(), points_m.shape)
    return Mesh(points_m, np.asarray(made.faces, dtype=np.intp))


def scroll(rng: np.random.Generator) -> shapely.MultiPolygon:
    """Return a flat outline of some hundred corners with holes."""
    angle = np.linspace(0, 2 * np.pi, 120, endpoint=False)
    radius_m = 0.12 + 0.03 * np.sin(rng.integers(3, 9) * angle) + 0.01 * np.sin(11 * angle)
    edge = np.stack((radius_m * np.cos(angle), radius_m * np.sin(angle)), axis=-1)
    holes = [shapely.Point(0.05 * x, 0.05 * y).buffer(0.015) for x, y in ((1, 0), (-1, 0), (0, 1))]
    return shapely.MultiPolygon([shapely.Polygon(edge).difference(shapely.union_all(holes))])


def some_models(rng: np.random.Generator) -> Iterator[Modelled]:
    """Yield the models that the parts share."""
    for i in range(MODELS):
        yield Modelled(f"mesh {i}", "mesh", Model(measures(), mesh=bumpy(2000, rng)))
        yield Modelled(f"outline {i}", "outline", Model(measures(), outline=scroll(rng)))


def some_parts(count: int, moving: int, shares: list[int], rng: np.random.Generator) -> list[Part]:
    """Return parts, the first of them on the mover, each turned its own way."""
    dice = random.Random(1)  # noqa: S311 - made up, nothing secret
    found = []
    for i in range(count):
        kind = dice.choices(("simple", "outline", "mesh"), shares)[0]
        shape = dice.choice(SIMPLE) if kind == "simple" else kind
        cells = SHAPES[shape][2](dice) if kind == "simple" else {}
        sizes = {name.replace(" ", "_"): value / 1000 for name, value in cells.items()}
        found.append(
            Part(
                key=f"P{i}", name="", assembly=(MOVER if i < moving else FIXED).key, count=1,
                shape=shape, model="" if kind == "simple" else f"{kind} {i % MODELS}",
                dims=tuple(sizes.get(name, math.nan) for name in DIMENSIONS),
                angles_rad=tuple(rng.uniform(-1, 1, 3).tolist()),
                at_m=tuple((rng.uniform(-1, 1, 3) * (1.5, 1.0, 0.3)).tolist()),
            )
        )  # fmt: skip
    return found


def job(count: int, moving: int, shares: list[int]) -> None:
    """Print how long all views of a job take; those from behind are mirrors."""
    rng = np.random.default_rng(1)
    parts = some_parts(count, moving, shares, rng)
    models = {model.key: model for model in some_models(rng)}
    table = columns(parts, [FIXED, MOVER], models)
    began = time.perf_counter(), time.process_time()
    outliner = Outliner.of(table, measure_parts(table), np.ones(count, dtype=bool), WIND_FINENESS)
    fronts = [
        view(math.radians(DIRECTIONS_DEG[number])) for number in range(len(DIRECTIONS_DEG) // 2)
    ]
    turns = [rotation(2 * math.pi * position / POSITIONS) for position in range(POSITIONS)]
    views = [(front, [0]) for front in fronts] + [(f @ turn, [1]) for f in fronts for turn in turns]
    with ThreadPoolExecutor() as pool:
        list(pool.map(lambda asked: outliner.seen(*asked), views))
    wall_s, used_s = time.perf_counter() - began[0], time.process_time() - began[1]
    print(f"{count} parts, {moving} of them in {POSITIONS} positions, {len(views)} views: "
          f"{wall_s:.1f} s, {used_s:.1f} s of processors")  # fmt: skip


def meshes(sizes: list[int]) -> None:
    """Print how long one outline, and one drawing, of single meshes take."""
    print(
        f"{'triangles':>10}{'rough':>7}{'ready s':>9}{'outline s':>11}{'drawing s':>11}{'holes':>7}"
    )
    for size in sizes:
        for rough in (0.0, 0.05, 0.15):
            mesh = bumpy(size, np.random.default_rng(1), rough)
            turn = rotation(0.3, 0.5, 0.7)
            began = time.process_time()
            surface = Surface.of(mesh)
            ready = time.process_time()
            shown = outline(surface, FRONT @ turn)
            seen = time.process_time()
            patches(thinned(surface), Sight(FRONT @ turn, turn[2], 1e-4, 60))
            drawn = time.process_time()
            holes = sum(len(piece.interiors) for piece in shapely.get_parts(shown))
            print(f"{len(mesh.faces):>10,}{rough:>7}{ready - began:>9.3f}{seen - ready:>11.4f}"
                  f"{drawn - seen:>11.3f}{holes:>7}", flush=True)  # fmt: skip


def main() -> None:
    """Measure what was asked for."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--parts", type=int, default=500)
    parser.add_argument("--moving", type=int, default=100)
    parser.add_argument("--shares", type=int, nargs=3, default=[60, 20, 20])
    parser.add_argument("--meshes", type=int, nargs="+")
    asked = parser.parse_args()
    if asked.meshes:
        meshes(asked.meshes)
    else:
        job(asked.parts, asked.moving, asked.shares)


if __name__ == "__main__":
    main()
