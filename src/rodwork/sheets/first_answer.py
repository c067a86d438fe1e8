"""The first answer, at once: best fit by several orders, in plain Python, for nobody waits for a compiler.

Each piece goes where it costs least of what is free, a large free piece being worth more than its share. The best of
a few orders is taken. Ensembles of this kind: C. Charalambous, K. Fleszar, Computers & Operations Research 38 (2011).
"""

from collections.abc import Callable

from rodwork.sheets.problem import LEVEL, UPRIGHT, Kind, Laid, Piece, Problem, Tree
from rodwork.sheets.ways import FILLS, ways

SEARCHED = 60  # free pieces looked at for each part, the newest: a list of ten thousand must not take minutes
ENOUGH = 150  # parts beyond which one order has to do

ORDERS: tuple[Callable[[Piece], tuple[int, ...]], ...] = (
    lambda p: (-p.high, -p.wide),
    lambda p: (-p.wide * p.high,),
    lambda p: (-max(p.wide, p.high), -min(p.wide, p.high)),
)


class Box:
    """A rectangle of a sheet while it is being filled."""

    __slots__ = ("children", "cut", "depth", "high", "parent", "piece", "turned", "wide")

    def __init__(self, wide: int, high: int, depth: int, parent: "Box | None") -> None:
        self.wide, self.high, self.depth, self.parent = wide, high, depth, parent
        self.cut, self.piece, self.turned = 0, -1, False
        self.children: list[Box] = []

    def tree(self) -> Tree:
        """As a value."""
        children = tuple(c.tree() for c in self.children)
        piece = None if self.piece < 0 else self.piece
        return Tree(wide=self.wide, high=self.high, cut=self.cut, children=children, piece=piece, turned=self.turned)


def first_answer(problem: Problem, bound: int) -> Laid | None:
    """The best of the orders, or None where none of them finds room for all."""
    best: Laid | None = None
    orders = ORDERS if len(problem.pieces) <= ENOUGH else ORDERS[:1]
    for order in orders:
        found = _filled(problem, sorted(range(len(problem.pieces)), key=lambda i: (*order(problem.pieces[i]), i)))
        if found is None:
            continue
        cost = sum(problem.kinds[k].cost for k, _ in found)
        if best is None or cost < best.cost:
            best = Laid(sheets=tuple((k, box.tree()) for k, box in found), cost=cost, bound=bound)
        if best.cost <= bound:
            break
    return best


def _filled(problem: Problem, order: list[int]) -> list[tuple[int, Box]] | None:
    sheets: list[tuple[int, Box]] = []
    free: list[Box] = []
    home: dict[str, Box] = {}
    used = [0] * len(problem.kinds)
    for i in order:
        piece = problem.pieces[i]
        spot = _best(problem, piece, free[-SEARCHED:], home.get(piece.together))
        if spot is None and piece.together not in home:
            opened = _new_sheet(problem, piece, used)
            if opened is not None:
                sheets.append(opened)
                free.append(opened[1])
                spot = _best(problem, piece, [opened[1]], None)
        if spot is None:
            return None
        box, turned, cut = spot
        _put(problem, i, box, turned, cut, free)
        if piece.together:
            home[piece.together] = _root(box)
    return sheets


def _best(problem: Problem, piece: Piece, free: list[Box], home: Box | None) -> tuple[Box, bool, int] | None:
    k, rules = problem.rules.kerf, problem.rules
    deep = 1 if piece.inner else 0
    longest = rules.longest + k if rules.longest else 0
    sizes = [(piece.wide + k, piece.high + k, False)]
    if piece.turn and piece.wide != piece.high:
        sizes.append((piece.high + k, piece.wide + k, True))
    found, least = None, float("inf")
    for box in free:
        lw, lh = box.wide, box.high
        for w, h, turned in sizes:
            if w > lw or h > lh or (home is not None and _root(box) is not home):
                continue
            along = box.parent.cut if box.parent else 0
            may = ways(lw, lh, box.depth, along, rules.first, rules.levels, longest, w, h, deep)
            if may == FILLS:
                loss = _worth(lw, lh)
                if loss < least:
                    found, least = (box, turned, 0), loss
                continue
            for cut in (UPRIGHT, LEVEL):
                if may & cut:
                    rest = ((lw - w, lh), (w, lh - h)) if cut == UPRIGHT else ((lw, lh - h), (lw - w, h))
                    loss = _worth(lw, lh) - sum(_worth(*size) for size in rest)
                    if loss < least:
                        found, least = (box, turned, cut), loss
    return found


def _worth(wide: int, high: int) -> float:
    return float((wide * high) ** 1.25)


def _new_sheet(problem: Problem, piece: Piece, used: list[int]) -> tuple[int, Box] | None:
    """The sheet that is cheapest for its area among those that are left and large enough."""
    k = problem.rules.kerf
    order = sorted(range(len(problem.kinds)), key=lambda n: _price(problem.kinds[n]))
    for n in order:
        kind = problem.kinds[n]
        box = Box(kind.wide + k, kind.high + k, 0, None)
        if (kind.copies is None or used[n] < kind.copies) and _best(problem, piece, [box], None) is not None:
            used[n] += 1
            return n, box
    return None


def _price(kind: Kind) -> tuple[bool, float]:
    return (kind.own, kind.cost / (kind.wide * kind.high))


def _put(problem: Problem, i: int, box: Box, turned: bool, cut: int, free: list[Box]) -> None:
    piece, k = problem.pieces[i], problem.rules.kerf
    w, h = (piece.high, piece.wide) if turned else (piece.wide, piece.high)
    w, h = w + k, h + k
    if cut:
        box = _split(box, cut, w if cut == UPRIGHT else h, free)
        if (box.wide, box.high) != (w, h):
            free.append(box)
            across = LEVEL if cut == UPRIGHT else UPRIGHT
            box = _split(box, across, h if cut == UPRIGHT else w, free)
    else:
        free.remove(box)
    box.piece, box.turned = i, turned


def _split(box: Box, cut: int, size: int, free: list[Box]) -> Box:
    """Cut a piece of this size off a free rectangle, which stays as the rest."""
    parent = box.parent
    free.remove(box)
    if parent is None or parent.cut != cut:
        box.cut = cut
        rest = Box(box.wide, box.high, box.depth + 1, box)
        box.children.append(rest)
        parent, box = box, rest
    if cut == UPRIGHT:
        made = Box(size, box.high, box.depth, parent)
        box.wide -= size
    else:
        made = Box(box.wide, size, box.depth, parent)
        box.high -= size
    parent.children.append(made)
    if box.wide > 0 and box.high > 0:
        free.append(box)
    else:
        parent.children.remove(box)
    return made


def _root(box: Box) -> Box:
    while box.parent is not None:
        box = box.parent
    return box
