"""The dry fit's measurements: run `OPENBLAS_NUM_THREADS=1 .venv/bin/python benchmarks/fit.py`. Seconds are of
one processor.

Ratios are of one process, one after the other: the kernel and HiGHS judge the same assemblies.
"""

import resource
import sys
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np
from scipy.optimize import linprog

sys.path.insert(0, str(Path(__file__).parent))
from jobs import job_text

from rodwork.catalogue.accuracy import assumed_accuracy
from rodwork.fit.carcass import model_of
from rodwork.fit.draws import chunks, draw
from rodwork.fit.forecast import ask, forecast
from rodwork.fit.linear import LinearModel
from rodwork.fit.live import live as linear_answer
from rodwork.fit.live import row_chance
from rodwork.fit.solve import ASSEMBLED, SIGNED, factored, poses, verdict
from rodwork.model.rod import Rod
from rodwork.pipeline import dry_fit, set_out

BOX = """
[job]
name = "Box"
[boards.birch18]
material = "birch plywood"
thickness = 18
actual = 17.6
sheet = [2440, 1220]
[joints.dowels]
use = [{ family = "dowel", size = "8x30" }]
[cabinets.box]
kind = "open box"
width = 600
height = 720
depth = 320
board = "birch18"
joint = "dowels"
openings = ["rest", "rest"]
"""
SAMPLES = 10_000
BY_HIGHS = 60


def spent(start: float) -> float:
    """Seconds of this process since then."""
    return time.process_time() - start


def by_highs(model: LinearModel, z: np.ndarray) -> float:
    """Seconds for one linear program each."""
    a, c, b, w = model.one_sided()
    n = a.shape[1]
    rows = np.hstack([a, -w[:, None]])
    cost, bounds = [0.0] * n + [1.0], [(None, None)] * (n + 1)
    start = time.process_time()
    for one in z:
        linprog(cost, A_ub=rows, b_ub=b - c @ one, bounds=bounds, method="highs")
    return spent(start) / len(z)


def kernel(rod: Rod) -> None:
    """10,000 assemblies of five boards, six runs of four dowels."""
    model = model_of(rod, "box", assumed_accuracy())
    signed, assembled = factored(model, SIGNED), factored(model, ASSEMBLED)
    z = [draw(model.sources, size, 1, number) for number, size in chunks(SAMPLES)]
    verdict(signed, z[0][:10])
    poses(assembled, z[0][:10])
    start = time.process_time()
    gives = np.concatenate([verdict(signed, part).give_mm for part in z])
    judged = spent(start)
    start = time.process_time()
    for part in z:
        poses(assembled, part)
    posed = spent(start)
    each = by_highs(model, z[0][:BY_HIGHS])
    print(f"{SAMPLES} verdicts: {judged:.2f} s; poses: {posed:.2f} s; {model.row_q.shape[0]} rows of two sides")
    print(f"HiGHS one at a time: {1000 * each:.2f} ms each: {each * SAMPLES / judged:.0f} times as long")
    print(f"go together: {100 * (gives <= 0.1).mean():.1f} in 100")


def example(name: str) -> Rod:
    """An example job, set out."""
    return set_out((Path(__file__).parents[1] / "examples" / name).read_text(encoding="utf-8"), name)


def live(rod: Rod, name: str) -> None:
    """The answer while somebody types: the model, and from it every chance and spread; against 10,000 assemblies."""
    accuracy = assumed_accuracy()
    model = model_of(rod, name, accuracy)
    ease = accuracy.give.ease_mm
    found = linear_answer(model, ease)

    def anew() -> None:
        row_chance.cache_clear()
        linear_answer(model, ease)

    made, first, again = (
        1000 * median(work)
        for work in (lambda: model_of(rod, name, accuracy), anew, lambda: linear_answer(model, ease))
    )
    size = f"{len(rod.cabinet[name].parts)} parts"
    print(f"live linear answer, {name}, {size}: model {made:.1f} ms, answer {first:.1f}, {made + first:.1f} in all;")
    print(f"  after an edit that leaves the rows of fixings as they were {again:.1f} ms, {made + again:.1f} in all")
    whole = (verdict(factored(model, SIGNED), draw(model.sources, SAMPLES, 1)).give_mm <= ease).mean()
    print(f"  it says {100 * found.chance:.1f} in 100; {SAMPLES} assemblies say {100 * whole:.1f}")


def median(work: Callable[[], object]) -> float:
    """Seconds of the processor, the median of 15."""
    runs = []
    for _ in range(15):
        start = time.process_time()
        work()
        runs.append(spent(start))
    return sorted(runs)[7]


def memory(rod: Rod) -> None:
    """Peak memory with ten times the samples."""
    asked = ask(model_of(rod, "box", assumed_accuracy()), (), 1, 0.1)
    for samples in (10_000, 100_000):
        forecast(asked, samples)
        peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
        print(f"{samples} samples: peak {peak:.0f} MB")


def twenty() -> None:
    """A job of 20 cabinets, as the command asks it, on two cores: seconds by the clock and of both processors."""
    rod = set_out(job_text(20), "job")
    clock, start = time.perf_counter(), time.process_time()
    dry_fit(rod, None, 2000, 1, 2)
    print(f"20 cabinets: {time.perf_counter() - clock:.1f} s by the clock, {spent(start):.1f} s of the processors")


if __name__ == "__main__":
    box = set_out(BOX, "box")
    kernel(box)
    live(box, "box")
    live(example("first-cupboard.toml"), "glaze")
    studio = example("pottery-studio.toml")
    for cabinet in studio.boxes:
        live(studio, cabinet.name)
    memory(box)
    twenty()
