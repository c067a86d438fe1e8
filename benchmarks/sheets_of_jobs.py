"""The cutting plan of whole jobs beside a general packing library: sheets, first answer, time, memory.

    python benchmarks/sheets_of_jobs.py [--parts 10000]

Times are of the processor, on one core. rectpack's best is that of all its guillotine variants whose layouts a saw
can make, one board at a time, with the same kerf, trims and grain.
"""

import argparse
import resource
import sys
import time
from pathlib import Path

ROOT = Path(__file__).parents[1]
sys.path[:0] = [str(ROOT / "src"), str(ROOT), str(ROOT / "benchmarks")]

from jobs import job_text  # noqa: E402
from tests.sheets.validator import faults  # noqa: E402

from rodwork.pipeline import set_out  # noqa: E402
from rodwork.sheets.bounds import cost_bound  # noqa: E402
from rodwork.sheets.first_answer import first_answer  # noqa: E402
from rodwork.sheets.lay_out import lay_out  # noqa: E402
from rodwork.sheets.parts import boards_of, pieces_of  # noqa: E402
from rodwork.sheets.plan import rules_of, sources_of  # noqa: E402
from rodwork.sheets.problem import Effort, Kind, Piece, Problem, Rules  # noqa: E402
from sheets import best_of_rectpack  # noqa: E402

SECONDS = 10.0


def problems(rod):
    for name in rod.boards:
        pieces = pieces_of(boards_of(rod, name), rod.sawing)
        if pieces:
            kinds = tuple(s.kind for s in sources_of(rod, name))
            yield name, Problem(pieces=pieces, kinds=kinds, rules=rules_of(rod))


def measured(title, rod):
    for name, problem in problems(rod):
        start = time.process_time()
        first = first_answer(problem, cost_bound(problem))
        at_once = time.process_time() - start
        settled = [0.0, None]
        start = time.process_time()

        def tell(laid, start=start, settled=settled):
            if settled[1] is None or laid.cost < settled[1]:
                settled[:] = [time.process_time() - start, laid.cost]

        effort = Effort(steps=10**9, go_on=lambda start=start: time.process_time() - start < SECONDS, tell=tell)
        laid = lay_out(problem, effort)
        assert not faults(problem, laid)
        theirs = best_of_rectpack(problem)[0]
        print(
            f"| {title}, {name} | {len(problem.pieces)} | {1000 * at_once:.0f} ms | {len(first.sheets)} | "
            f"{len(laid.sheets)}{', proven' if laid.proven else ''} | {settled[0]:.1f} s | {theirs} |"
        )


def many(count):
    pieces = tuple(
        Piece(name=str(n), wide=2000 + 371 * n % 4000, high=1000 + 533 * n % 3000, turn=n % 3 == 0)
        for n in range(count)
    )
    kind = Kind(name="sheet", wide=24300, high=12100, cost=1)
    problem = Problem(pieces=pieces, kinds=(kind,), rules=Rules(kerf=30))
    start = time.process_time()
    laid = lay_out(problem, Effort(steps=2000, polish=0))
    spent = time.process_time() - start
    print(
        f"| {count} parts | {spent:.1f} s | {len(laid.sheets)} | {laid.bound} | {len(faults(problem, laid))} faults |"
    )


def main():
    say = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    say.add_argument("--parts", type=int, default=0)
    a = say.parse_args()
    if a.parts:
        many(a.parts)
    else:
        studio = ROOT / "examples" / "pottery-studio.toml"
        measured("pottery studio", set_out(studio.read_text(encoding="utf-8"), "studio"))
        measured("kitchen", set_out(job_text(28), "kitchen"))
    print(f"{resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB at most")


if __name__ == "__main__":
    main()
