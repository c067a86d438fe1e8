"""For a router: any layout with the tool's gap between the parts, not only what a saw can do.

Parts are laid where the free space fits them best, all largest free rectangles being kept. It is tried in several
orders, and taken only where it is cheaper than what the saw's search found: that is a layout for a router too.
Source of the scheme: J. Jylänki, "A thousand ways to pack the bin" (2010), maximal rectangles, best short side fit.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field

from rodwork.sheets.problem import LOOSE, Kind, Laid, Piece, Problem, Tree

MOST_PIECES = 300  # beyond which it would take too long for what it gains
Rect = tuple[int, int, int, int]  # left, bottom, right, top


@dataclass(slots=True)
class Filling:
    """A sheet while it is being filled: which parts lie where, and every largest free rectangle."""

    kind: int
    free: list[Rect]
    parts: list[tuple[int, Rect, bool]] = field(default_factory=list)


def free_layout(problem: Problem, laid: Laid) -> Laid:
    """`laid`, or a layout that no saw can cut where one is found that costs less."""
    if laid.proven or len(problem.pieces) > MOST_PIECES:
        return laid
    best = laid
    for order in _orders(problem.pieces):
        filled = _filled(problem, order)
        if filled is None:
            continue
        cost = sum(problem.kinds[sheet.kind].cost for sheet in filled)
        if cost < best.cost:
            sheets = tuple((sheet.kind, _tree(sheet, problem)) for sheet in filled)
            best = Laid(sheets=sheets, cost=cost, bound=laid.bound, steps=laid.steps)
        if best.proven:
            break
    return best


def _orders(pieces: tuple[Piece, ...]) -> Iterator[list[int]]:
    """Several orders, the largest first by one measure or another."""
    keys = (
        lambda p: p.wide * p.high,
        lambda p: max(p.wide, p.high),
        lambda p: min(p.wide, p.high),
        lambda p: p.wide + p.high,
        lambda p: p.high,
        lambda p: p.wide,
    )
    for key in keys:
        yield sorted(range(len(pieces)), key=lambda i, key=key: (-key(pieces[i]), i))  # type: ignore[misc]


def _filled(problem: Problem, order: list[int]) -> list[Filling] | None:
    sheets: list[Filling] = []
    homes: dict[str, Filling] = {}
    for i in order:
        piece = problem.pieces[i]
        open_to = [homes[piece.together]] if piece.together in homes else sheets
        found = _best(problem, piece, open_to)
        if found is None and piece.together not in homes:
            sheet = _opened(problem, piece, sheets)
            if sheet is not None:
                sheets.append(sheet)
                found = _best(problem, piece, [sheet])
        if found is None:
            return None
        sheet, rect, turned = found
        sheet.parts.append((i, rect, turned))
        sheet.free = _without(sheet.free, rect)
        if piece.together:
            homes[piece.together] = sheet
    return sheets


def _best(problem: Problem, piece: Piece, sheets: list[Filling]) -> tuple[Filling, Rect, bool] | None:
    """Where the shorter side that is left over is least."""
    k = problem.rules.kerf
    sizes = [(piece.wide + k, piece.high + k, False)]
    if piece.turn:
        sizes.append((piece.high + k, piece.wide + k, True))
    best: tuple[int, int, Filling, Rect, bool] | None = None
    for sheet in sheets:
        for left, bottom, right, top in sheet.free:
            for w, h, turned in sizes:
                dw, dh = right - left - w, top - bottom - h
                if dw >= 0 and dh >= 0 and (best is None or (min(dw, dh), max(dw, dh)) < best[:2]):
                    best = (min(dw, dh), max(dw, dh), sheet, (left, bottom, left + w, bottom + h), turned)
    return None if best is None else best[2:]


def _opened(problem: Problem, piece: Piece, sheets: list[Filling]) -> Filling | None:
    """A new sheet, of the kind that is cheapest for its area among those that are left and large enough."""
    for n in sorted(range(len(problem.kinds)), key=lambda n: _price(problem.kinds[n])):
        kind = problem.kinds[n]
        k = problem.rules.kerf
        sheet = Filling(kind=n, free=[(0, 0, kind.wide + k, kind.high + k)])
        left = kind.copies is None or sum(s.kind == n for s in sheets) < kind.copies
        if left and _best(problem, piece, [sheet]) is not None:
            return sheet
    return None


def _price(kind: Kind) -> float:
    return kind.cost / (kind.wide * kind.high)


def _without(free: list[Rect], taken: Rect) -> list[Rect]:
    """The largest free rectangles once this one is taken; none that lies within another."""
    left, bottom, right, top = taken
    out: list[Rect] = []
    for rect in free:
        a, b, c, d = rect
        if a >= right or c <= left or b >= top or d <= bottom:
            out.append(rect)
            continue
        around = ((a, b, left, d), (right, b, c, d), (a, b, c, bottom), (a, top, c, d))
        out += [r for r in around if r[0] < r[2] and r[1] < r[3]]
    return [r for n, r in enumerate(out) if not any(_within(r, q, n > m) for m, q in enumerate(out) if m != n)]


def _within(a: Rect, b: Rect, later: bool) -> bool:
    """Whether a lies within b; of two that are the same the later one does."""
    inside = b[0] <= a[0] and b[1] <= a[1] and a[2] <= b[2] and a[3] <= b[3]
    return inside and (a != b or later)


def _tree(sheet: Filling, problem: Problem) -> Tree:
    kind, k = problem.kinds[sheet.kind], problem.rules.kerf
    children = tuple(
        Tree(wide=r[2] - r[0], high=r[3] - r[1], piece=i, turned=turned, x=r[0], y=r[1]) for i, r, turned in sheet.parts
    )
    return Tree(wide=kind.wide + k, high=kind.high + k, cut=LOOSE, children=children)
