"""Is a layout one that a saw can make? An independent look: rectangles only, nothing of the search's own arithmetic.

From the trees only the places of the parts are read, by walking down them once; everything else is asked of the
rectangles: inside the sheet and its trims, a saw cut apart, separable by cuts right across in so many levels, grain
kept, every part once.
"""

from collections import Counter
from dataclasses import dataclass

from rodwork.sheets.problem import UPRIGHT, Laid, Problem, Tree


@dataclass(frozen=True)
class Lies:
    piece: int
    x: int
    y: int
    w: int
    h: int


def places(tree: Tree, kerf: int) -> list[Lies]:
    """Where each part lies on its sheet, its own size, from the lower left corner inside the trims."""
    out = []

    def walk(t, x, y):
        if t.piece is not None:
            out.append(Lies(t.piece, x, y, t.wide - kerf, t.high - kerf))
        for c in t.children:
            walk(c, x, y)
            if t.cut == UPRIGHT:
                x += c.wide
            else:
                y += c.high

    walk(tree, 0, 0)
    return out


def faults(problem: Problem, laid: Laid, levels: int | None = None, first: int = 0) -> list[str]:
    """Everything that is wrong with a layout; empty: it can be sawn. `levels`: cuts allowed, a trimming cut on top."""
    found = []
    seen = Counter()
    used = Counter(k for k, _ in laid.sheets)
    for kind, n in used.items():
        copies = problem.kinds[kind].copies
        if copies is not None and n > copies:
            found.append(f"{n} of {problem.kinds[kind].name}, there are {copies}")
    if laid.cost != sum(problem.kinds[k].cost for k, _ in laid.sheets):
        found.append("the cost is not that of the sheets")
    homes = {}
    for number, (kind, tree) in enumerate(laid.sheets):
        sheet, lies = problem.kinds[kind], places(tree, problem.rules.kerf)
        if not lies:
            found.append(f"sheet {number} is empty")
        for p in lies:
            piece = problem.pieces[p.piece]
            seen[p.piece] += 1
            if (p.w, p.h) != (piece.wide, piece.high) and not (piece.turn and (p.w, p.h) == (piece.high, piece.wide)):
                found.append(f"{piece.name} is {p.w} x {p.h}")
            if p.x < 0 or p.y < 0 or p.x + p.w > sheet.wide or p.y + p.h > sheet.high:
                found.append(f"{piece.name} leaves the sheet")
            if piece.together and homes.setdefault(piece.together, number) != number:
                found.append(f"{piece.name} is not with its own")
        for i, a in enumerate(lies):
            for b in lies[i + 1 :]:
                k = problem.rules.kerf
                if a.x < b.x + b.w + k and b.x < a.x + a.w + k and a.y < b.y + b.h + k and b.y < a.y + a.h + k:
                    found.append(f"{a} and {b} are less than a saw cut apart")
        if not separable(lies, problem.rules.kerf, sheet.wide, sheet.high, levels, first):
            found.append(f"sheet {number} cannot be sawn in {levels} levels")
    found += [f"part {i} lies {seen[i]} times" for i in range(len(problem.pieces)) if seen[i] != 1]
    return found


def separable(lies: list[Lies], kerf: int, wide: int, high: int, levels: int | None = None, first: int = 0) -> bool:
    """Whether cuts right across part them all, in so many levels and a trimming cut (None: any number)."""
    box = (0, 0, wide, high)
    if levels is None:
        return _parted(lies, kerf, box, None, 1) or _parted(lies, kerf, box, None, 2)
    ways = (first,) if first else (1, 2)
    return any(_parted(lies, kerf, box, levels, way) for way in ways)


def _parted(lies, kerf, box, levels, way):
    """Cut this way wherever nothing is in the way, then each piece the other way."""
    x0, y0, x1, y1 = box
    if not lies:
        return True
    if len(lies) == 1:
        p = lies[0]
        extra = int(p.x > x0 or p.x + p.w < x1) + int(p.y > y0 or p.y + p.h < y1)
        return levels is None or (levels >= 0 and extra <= levels + 1)
    if levels is not None and levels <= 0:
        return False
    start, size = (lambda p: p.x, lambda p: p.w) if way == 1 else (lambda p: p.y, lambda p: p.h)
    order = sorted(lies, key=start)
    groups, end = [[order[0]]], start(order[0]) + size(order[0])
    for p in order[1:]:
        if start(p) >= end + kerf:
            groups.append([p])
        else:
            groups[-1].append(p)
        end = max(end, start(p) + size(p))
    if len(groups) == 1 and levels is None and all(len(g) == len(lies) for g in groups):
        # nothing parts this way: the other way has to, or it is interlocked
        other = 3 - way
        if _groups(lies, kerf, other) == 1:
            return False
        return _parted(lies, kerf, box, levels, other)
    low, high = (x0, x1) if way == 1 else (y0, y1)
    for g in groups:
        a, b = min(start(p) for p in g), max(start(p) + size(p) for p in g)
        inner = (a, y0, b, y1) if way == 1 else (x0, a, x1, b)
        if len(groups) == 1 and (a, b) == (low, high):
            inner = box
        if not _parted(g, kerf, inner, None if levels is None else levels - 1, 3 - way):
            return False
    return True


def _groups(lies, kerf, way):
    start, size = (lambda p: p.x, lambda p: p.w) if way == 1 else (lambda p: p.y, lambda p: p.h)
    order = sorted(lies, key=start)
    n, end = 1, start(order[0]) + size(order[0])
    for p in order[1:]:
        n += start(p) >= end + kerf
        end = max(end, start(p) + size(p))
    return n
