"""How well and how fast wall plates in contact are solved: python tests/benchmarks/run_plates.py.

Random plates of 50 to 600 mm with up to nine fixings anywhere on them, also in even rows, and none
at all; actions of every kind, among them nearly pure pulls, pushes and moments; walls from as hard
as the fixings to 300 times as soft.
"""

import sys
import time
from pathlib import Path

import numpy as np

TESTS = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(TESTS.parent), str(TESTS / "supports")]

from test_contact import least_energy  # noqa: E402

from estimator.supports import contact as module  # noqa: E402
from estimator.supports.contact import RATIOS, WallPlate, contact, unheld  # noqa: E402

PLATES = 10_000
CASES = 5
COMPARED = 200
SEED = 20


def random_plate(rng: np.random.Generator) -> WallPlate:
    """Return a plate: one in ten bare, half with even rows, the rest with fixings anywhere."""
    sizes_m = rng.uniform(0.05, 0.6, 2)
    kind = rng.uniform()
    if kind < 0.1:
        points_m = np.zeros((0, 2))
    elif kind < 0.55:
        across, up = (np.linspace(-1, 1, n) * rng.uniform(0.1, 0.49) for n in rng.integers(1, 5, 2))
        points_m = np.stack(np.meshgrid(across, up), axis=-1).reshape(-1, 2) * sizes_m
    else:
        points_m = rng.uniform(-0.499, 0.499, (rng.integers(1, 10), 2)) * sizes_m
    return WallPlate(*sizes_m, points_m, 10 ** rng.uniform(-5, -2.8))


def random_actions(rng: np.random.Generator, cases: int) -> np.ndarray:
    """Return actions in which each number may be far larger or smaller than the others."""
    sizes = 10 ** rng.uniform(-3, 3, (cases, 6)) * [1, 1, 10, 1, 1, 1]
    return rng.normal(size=(cases, 6)) * sizes


def robustness() -> None:
    """Print the worst imbalance, what did not converge, and the steps taken."""
    rng = np.random.default_rng(SEED)
    module.AT_MOST = np.inf
    residuals, steps, refused = [], [], 0
    for _ in range(PLATES):
        plate, actions = random_plate(rng), random_actions(rng, CASES)
        held = ~unheld(plate, actions)
        refused += int((~held).sum())
        found = contact(plate, actions[held], 10 ** rng.uniform(0, 2.5, held.sum()))
        residuals.append(found.residual)
        steps.append(found.steps)
    residual, step = np.concatenate(residuals), np.concatenate(steps)
    print(f"{PLATES} plates, {len(residual)} cases solved, {refused} without equilibrium refused")
    print(f"worst residual {residual.max():.1e}, not converged {(residual > 1e-10).sum()}")
    print(f"steps: mean {step.mean():.1f}, most {step.max()}")


def agreement() -> None:
    """Print how far pulls are from those of an independent energy minimum."""
    rng = np.random.default_rng(SEED)
    worst = []
    while len(worst) < COMPARED:
        plate = random_plate(rng)
        if not len(plate.points_m):
            continue
        action = rng.normal(size=6) * [1, 1, 2000, 500, 500, 1]
        ratio = float(rng.choice(RATIOS))
        found = contact(plate, action, ratio)
        scale = max(found.pull_n.max(), found.pressed_n)
        worst.append(np.abs(found.pull_n - least_energy(plate, action, ratio)).max() / scale)
    print(
        f"{COMPARED} plates against an energy minimum (BFGS, 40,000 Gauss points):"
        f" worst {max(worst):.1e} of the largest force, median {np.median(worst):.1e}"
    )


def speed() -> None:
    """Print the time for a thousand cases of one plate."""
    rng = np.random.default_rng(SEED)
    points_m = np.array([(a, u) for u in (-0.135, 0.135) for a in (-0.085, 0.085)])
    plate = WallPlate(0.25, 0.35, points_m, 157e-6)
    actions = rng.normal(size=(1000, 6)) * [1, 1, 1000, 300, 300, 1]
    contact(plate, actions)
    begun = time.perf_counter()
    for _ in range(10):
        contact(plate, actions)
    print(f"{(time.perf_counter() - begun) * 100:.0f} ms per 1,000 cases")


if __name__ == "__main__":
    robustness()
    agreement()
    speed()
