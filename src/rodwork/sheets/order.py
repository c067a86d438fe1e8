"""The order of the cuts on one sheet: trims, then level by level, equal settings together, heavy sheets halved first.

Every cut runs right across the piece in hand. A piece is cut off at the fence: the setting is the size of what is cut
off, the rest stays in hand for the next cut. Where the piece in hand is heavier than one person lifts, the cut that
halves its weight best comes first. No cut needs a piece that is not there yet: a level is finished before the next.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from rodwork.model.cutting import Cut, CutKind, Leftover, Strip
from rodwork.model.sawing import Saw
from rodwork.sheets.problem import LEVEL, LOOSE, UPRIGHT, Piece, Tree

ONE_PERSON_KG = 25.0  # guideline for lifting close to the body: HSE, L23 and INDG143
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
EDGES = ("left end", "right end", "lower edge", "upper edge")
TRIM_ORDER = (2, 0, 3, 1)  # a long edge first: everything else is square to it


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A rectangle of a sheet in place: its corner and size in mm, without the saw cut; `name` of the piece."""

    tree: Tree
    x: float
    y: float
    name: str
    depth: int

    def size(self, kerf: float) -> tuple[float, float]:
        """Length along the sheet and width, mm."""
        return self.tree.wide / 10 - kerf, self.tree.high / 10 - kerf


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """A cut before it has its number and its settings are compared."""

    kind: CutKind
    level: int
    upright: bool
    setting: float
    piece: str
    gives: str
    rest: str
    start: tuple[float, float]
    end: tuple[float, float]
    hand: tuple[float, float]  # length along the sheet and width of the piece in hand, mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """All of a sheet: where its parts lie (piece, x, y, length, width, turned), leftovers, and cuts in order."""

    parts: tuple[Spot, ...]
    leftovers: tuple[Leftover, ...]
    strips: tuple[Strip, ...]
    cuts: tuple[Cut, ...]


def work_out(
    tree: Tree, pieces: tuple[Piece, ...], saw: Saw, size: tuple[float, float], *, trimmed: bool, name: str,
    keep: tuple[float, float], kg_per_mm2: float | None,
) -> Worked:  # fmt: skip
    """Places, leftovers and cuts of one sheet of this size; `trimmed`: its trims are still to be cut off."""
    trim = saw.trim if trimmed else (0.0, 0.0, 0.0, 0.0)
    root = Spot(tree=tree, x=trim[0], y=trim[2], name=name, depth=0)
    spots = tuple(_spots(root, pieces, saw.kerf))
    steps = [*_trims(size, trim, name)]
    by_level: dict[int, list[list[Step]]] = {}
    for spot in spots:
        if spot.tree.children and spot.tree.cut != LOOSE:
            steps_here = list(_divide(spot, pieces, saw.kerf, keep, kg_per_mm2))
            if steps_here:
                by_level.setdefault(spot.depth, []).append(steps_here)
    for level in sorted(by_level):
        steps += _together(by_level[level])
    return Worked(
        parts=tuple(spot for spot in spots if spot.tree.piece is not None),
        leftovers=tuple(_leftovers(spots, saw.kerf, keep)),
        strips=tuple(_strips(spots, saw.kerf)),
        cuts=tuple(_numbered(steps, saw, kg_per_mm2)),
    )


def _spots(spot: Spot, pieces: tuple[Piece, ...], kerf: float) -> Iterator[Spot]:
    """The rectangle and all in it, level by level within each branch, with the names of the pieces."""
    yield spot
    x, y = spot.x, spot.y
    for n, child in enumerate(spot.tree.children):
        if spot.tree.cut == LOOSE:
            x, y = spot.x + child.x / 10, spot.y + child.y / 10
        name = pieces[child.piece].name if child.piece is not None else _child_name(spot.name, n, spot.depth)
        yield from _spots(Spot(tree=child, x=x, y=y, name=name, depth=spot.depth + 1), pieces, kerf)
        if spot.tree.cut == UPRIGHT:
            x = round(x + child.wide / 10, 4)
        elif spot.tree.cut == LEVEL:
            y = round(y + child.high / 10, 4)


def _child_name(parent: str, n: int, depth: int) -> str:
    """3, 3A, 3A2, 3A2c: sheet, strip, piece of it, and so on."""
    if depth % 2 == 1:
        return f"{parent}{n + 1}"
    letters = LETTERS if depth == 0 else LETTERS.lower()
    return parent + (letters[n // 26 - 1] if n >= 26 else "") + letters[n % 26]


def _trims(size: tuple[float, float], trim: tuple[float, float, float, float], name: str) -> Iterator[Step]:
    left, right, low, high = 0.0, size[0], 0.0, size[1]
    for edge in TRIM_ORDER:
        off = trim[edge]
        if off <= 0:
            continue
        hand = (right - left, high - low)
        if edge == 2:
            low += off
            start, end = (left, low), (right, low)
        elif edge == 3:
            high -= off
            start, end = (left, high), (right, high)
        elif edge == 0:
            left += off
            start, end = (left, low), (left, high)
        else:
            right -= off
            start, end = (right, low), (right, high)
        gives, rest = f"the {EDGES[edge]}", f"{_mm(right - left)} × {_mm(high - low)}"
        yield Step(
            kind="trim", level=-1, upright=edge < 2, setting=off, piece=name, gives=gives, rest=rest,
            start=start, end=end, hand=hand,
        )  # fmt: skip


def _divide(
    spot: Spot, pieces: tuple[Piece, ...], kerf: float, keep: tuple[float, float], kg_per_mm2: float | None
) -> Iterator[Step]:
    """The cuts that part a rectangle into its children."""
    upright = spot.tree.cut == UPRIGHT
    sizes = [(c.wide if upright else c.high) / 10 for c in spot.tree.children]
    across = (spot.tree.high if upright else spot.tree.wide) / 10 - kerf
    names = [_name(spot, n, pieces, kerf, keep) for n in range(len(sizes))]
    begin = spot.x if upright else spot.y

    def cut(low: int, at: int, high: int) -> Step:
        """Part children low..at-1 from at..high-1."""
        setting = round(sum(sizes[low:at]) - kerf, 4)
        line = round(begin + sum(sizes[:at]) - kerf / 2, 4)
        start, end = ((line, spot.y), (line, spot.y + across)) if upright else (
            (spot.x, line), (spot.x + across, line)
        )  # fmt: skip
        whole = low == 0 and high == len(sizes)
        in_hand = round(sum(sizes[low:high]) - kerf, 4)
        return Step(
            kind="cut" if at == low + 1 else "break down", level=spot.depth, upright=upright, setting=setting,
            piece=spot.name if whole else _few(names[low:high]), gives=_few(names[low:at]), rest=_few(names[at:high]),
            start=start, end=end, hand=(in_hand, across) if upright else (across, in_hand),
        )  # fmt: skip

    def part(low: int, high: int) -> Iterator[Step]:
        kg = 0.0 if kg_per_mm2 is None else kg_per_mm2 * (sum(sizes[low:high]) - kerf) * across
        if kg > ONE_PERSON_KG and high - low > 2:
            at = min(range(low + 1, high), key=lambda n: max(sum(sizes[low:n]), sum(sizes[n:high])))
            yield cut(low, at, high)
            yield from part(low, at)
            yield from part(at, high)
        elif high - low > 1:
            yield cut(low, low + 1, high)
            yield from part(low + 1, high)

    yield from part(0, len(sizes))


def _name(spot: Spot, n: int, pieces: tuple[Piece, ...], kerf: float, keep: tuple[float, float]) -> str:
    """What a child is called on paper: the board's mark, the piece's name, an offcut to keep, or waste."""
    child = spot.tree.children[n]
    if child.piece is not None:
        return pieces[child.piece].name
    name = _child_name(spot.name, n, spot.depth)
    if child.children:
        return name
    return f"keep {name}" if _worth_keeping(child.wide / 10 - kerf, child.high / 10 - kerf, keep) else "waste"


def _worth_keeping(length: float, width: float, keep: tuple[float, float]) -> bool:
    return min(length, width) >= keep[0] and max(length, width) >= keep[1]


def _few(names: list[str]) -> str:
    """Pieces that are still one: A; A and B; A and the rest."""
    if len(names) == 1:
        return names[0]
    return f"{names[0]} and the rest" if len(names) > 2 else f"{names[0]} and {names[1]}"


def _together(runs: list[list[Step]]) -> list[Step]:
    """The cuts of one level, those of one setting after each other as far as each piece's own order allows."""
    runs = [list(run) for run in runs]
    ordered: list[Step] = []
    while any(runs):
        heads = [run[0] for run in runs if run]
        halving = [head for head in heads if head.kind == "break down"]
        way, setting = _setting(max(halving or heads, key=lambda s: (s.upright, s.setting)))
        for run in runs:
            while run and _setting(run[0]) == (way, setting):
                ordered.append(run.pop(0))
    return ordered


def _setting(step: Step) -> tuple[bool, float]:
    return step.upright, step.setting


def _numbered(steps: list[Step], saw: Saw, kg_per_mm2: float | None) -> Iterator[Cut]:
    before: tuple[object, ...] = ()
    for n, step in enumerate(steps, 1):
        setting = (step.kind == "trim", *_setting(step))
        length = abs(step.end[0] - step.start[0]) + abs(step.end[1] - step.start[1])
        kg = None if kg_per_mm2 is None else step.hand[0] * step.hand[1] * kg_per_mm2
        yield Cut(
            number=n, kind=step.kind, piece=step.piece, hand=(round(step.hand[0], 4), round(step.hand[1], 4)),
            run="across" if step.upright else "along",
            setting=step.setting, gives=step.gives, rest=step.rest, start=step.start, end=step.end,
            again=setting == before, long=saw.rail is not None and length > saw.rail,
            people=2 if kg is not None and kg > ONE_PERSON_KG else 1,
        )  # fmt: skip
        before = setting


def _strips(spots: tuple[Spot, ...], kerf: float) -> Iterator[Strip]:
    upright = spots[0].tree.cut == UPRIGHT
    for spot in spots:
        if spot.depth == 1 and spot.tree.children:
            low, size = (spot.x, spot.size(kerf)[0]) if upright else (spot.y, spot.size(kerf)[1])
            yield Strip(name=spot.name, upright=upright, low=low, high=round(low + size, 4))


def _leftovers(spots: tuple[Spot, ...], kerf: float, keep: tuple[float, float]) -> Iterator[Leftover]:
    for spot in spots:
        if spot.tree.piece is not None or spot.tree.children:
            continue
        length, width = spot.size(kerf)
        if length <= 0 or width <= 0:
            continue
        kept = _worth_keeping(length, width, keep)
        yield Leftover(name=spot.name, x=spot.x, y=spot.y, length=round(length, 4), width=round(width, 4), kept=kept)


def _mm(value: float) -> str:
    return f"{round(value, 1):g}"
