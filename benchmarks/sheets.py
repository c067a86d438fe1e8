"""The cutting plan against published instances.

    python benchmarks/sheets.py FOLDER [--turn] [--seconds 10] [--levels 3] [--every 1] [--set bwmv500]

FOLDER holds the instances as lines of JSON: id, bins (w, h, cost, copies), items (w, h, copies). They are not part of
this project. Times are of the processor, on one core.
"""

import argparse
import json
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "src"))
sys.path.insert(0, str(Path(__file__).parents[1]))

from tests.sheets.validator import Lies, faults, separable

from rodwork.sheets.bounds import cost_bound
from rodwork.sheets.lay_out import lay_out
from rodwork.sheets.problem import Effort, Kind, Piece, Problem, Rules


def problem_of(row, turn, levels, first):
    pieces = [
        Piece(name=f"{n}.{c}", wide=item["w"], high=item["h"], turn=turn)
        for n, item in enumerate(row["items"])
        for c in range(item["copies"])
    ]
    kinds = [
        Kind(name=str(n), wide=b["w"], high=b["h"], cost=b["w"] * b["h"], copies=b["copies"])
        for n, b in enumerate(row["bins"])
    ]
    return Problem(pieces=tuple(pieces), kinds=tuple(kinds), rules=Rules(levels=levels, first=first, offcut=(1, 1)))


def solve(problem, seconds, seed=1):
    start = time.process_time()
    effort = Effort(steps=10**9, polish=0, seed=seed, go_on=lambda: time.process_time() - start < seconds)
    laid = lay_out(problem, effort)
    return laid, time.process_time() - start


def best_of_rectpack(problem):
    """(sheets, share that could be sawn) of the best of its guillotine variants, those that no saw can cut left out."""
    import rectpack
    from rectpack import guillotine

    fits = ("GuillotineBssf", "GuillotineBlsf", "GuillotineBaf")  # with each way of splitting: 18, in 4 orders
    names = [n for n in dir(guillotine) if n.startswith(fits) and n not in fits]
    sorts = [rectpack.SORT_AREA, rectpack.SORT_PERI, rectpack.SORT_SSIDE, rectpack.SORT_LSIDE]
    best, sawn, tried = None, 0, 0
    kind, k, turn = problem.kinds[0], problem.rules.kerf, all(p.turn for p in problem.pieces)
    for name in names:
        for sort in sorts:
            packer = rectpack.newPacker(
                mode=rectpack.PackingMode.Offline, bin_algo=rectpack.PackingBin.BBF,
                pack_algo=getattr(guillotine, name), sort_algo=sort, rotation=turn,
            )  # fmt: skip
            for n, p in enumerate(problem.pieces):
                packer.add_rect(p.wide + k, p.high + k, n)
            packer.add_bin(kind.wide + k, kind.high + k, float("inf"))
            packer.pack()
            tried += 1
            if len(packer.rect_list()) < len(problem.pieces):
                continue
            lies = {}
            for b, x, y, w, h, n in packer.rect_list():
                lies.setdefault(b, []).append(Lies(n, x, y, w - k, h - k))
            if all(separable(on, k, kind.wide, kind.high) for on in lies.values()):
                sawn += 1
                best = len(lies) if best is None else min(best, len(lies))
    return best, sawn / tried


def main():
    say = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    say.add_argument("folder", type=Path)
    say.add_argument("--set", default="bwmv500")
    say.add_argument("--cls", default="")
    say.add_argument("--turn", action="store_true")
    say.add_argument("--seconds", type=float, default=7.0)
    say.add_argument("--levels", type=int, default=0)
    say.add_argument("--first", type=int, default=0)
    say.add_argument("--every", type=int, default=1)
    say.add_argument("--seed", type=int, default=1)
    say.add_argument("--only", default="", help="only these instances, by id, with commas between")
    say.add_argument("--rectpack", action="store_true", help="beside it, all guillotine variants that are separable")
    a = say.parse_args()
    file = a.folder / f"{a.set}.jsonl"
    if not file.exists():
        sys.exit(f"{file} is not there: the instances are not part of this project, see docs/benchmarks.md")
    rows = [r for line in file.open() if a.cls in ("", str((r := json.loads(line))["cls"]))][:: a.every]
    if a.only:
        rows = [r for r in rows if r["id"] in a.only.split(",")]
    solve(problem_of(rows[0], a.turn, a.levels, a.first), 0.2)
    total = bound = spent = worst = steps = theirs = 0
    used, share = {}, []
    for row in rows:
        problem = problem_of(row, a.turn, a.levels, a.first)
        laid, seconds = solve(problem, a.seconds, a.seed)
        wrong = faults(problem, laid, a.levels or None, a.first)
        assert not wrong, (row["id"], wrong[:3])
        sheets = len(laid.sheets)
        total, spent, worst, steps = total + sheets, spent + seconds, max(worst, seconds), steps + laid.steps
        bound += cost_bound(problem) / problem.kinds[0].cost
        used[row["cls"]] = used.get(row["cls"], 0) + sheets
        area = sum(p.wide * p.high for p in problem.pieces)
        share.append((row["cls"], area / laid.cost))
        if a.rectpack:
            theirs += best_of_rectpack(problem)[0]
    print(f"{a.set} {a.cls} turn={a.turn} levels={a.levels} {len(rows)} instances: {total} sheets, bound {bound:g}")
    print(
        f"  {spent:.0f} s, {spent / len(rows):.2f} s each, worst {worst:.1f} s, {steps / max(spent, 1e-9):.0f} steps/s"
    )
    print("  by class", used)
    for cls in dict(share):
        mine = [s for c, s in share if c == cls]
        print(f"  {cls}: mean share of the area used {100 * sum(mine) / len(mine):.2f} %")
    if a.rectpack:
        print(f"  rectpack, the best of its guillotine variants that can be sawn: {theirs}")


if __name__ == "__main__":
    main()
