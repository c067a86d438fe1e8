"""Where the weight of a cabinet is: its boards, what stands on its shelves, doors open and drawers out."""

from collections.abc import Iterable
from dataclasses import dataclass

from rodwork.load.boards import GRAVITY
from rodwork.load.contents import bearing, even_N_per_mm
from rodwork.model.panel import Part
from rodwork.model.rod import RodCabinet

DRAWER = ("drawer front", "drawer side", "drawer back", "drawer bottom")
FORWARD = 0.25  # contents pushed forward: their middle a quarter of the shelf's depth from its front; our own rule
LOADED_KG_PER_M3 = 136.2  # 8.5 lb per cubic foot of a drawer: 16 CFR 1261, as the CPSC's page says


@dataclass(frozen=True, slots=True, kw_only=True)
class Mass:
    """A weight at a place in the cabinet, N and mm."""

    N: float
    x: float
    y: float
    z: float


def board_masses(cabinet: RodCabinet, opened: bool) -> tuple[Mass, ...]:
    """Every board where it is; `opened`: doors at a right angle, drawers out by their whole length.

    A board of which no density is known is left out.
    """
    out = drawer_reach_mm(cabinet) if opened else 0.0
    return tuple(m for p in cabinet.whole_boards if (m := _of(p, opened, out)) is not None)


def _of(part: Part, opened: bool, out: float) -> Mass | None:
    if part.weight is None:
        return None
    low, high = part.box
    x, y, z = part.weight.centre
    if opened and part.role == "door":
        y = low[1] - (high[0] - low[0]) / 2
    if part.role in DRAWER:
        y -= out
    return Mass(N=part.weight.kg * GRAVITY, x=x, y=y, z=z)


def drawer_reach_mm(cabinet: RodCabinet) -> float:
    """How far drawers come out: the whole length of their longest side."""
    return max((p.size[0] for p in cabinet.parts if p.role == "drawer side"), default=0.0)


def content_masses(cabinet: RodCabinet, forward: bool) -> tuple[Mass, ...]:
    """What stands on each shelf and on the bottom, in the middle of its depth or pushed forward; the heaviest once."""
    heavy = (cabinet.asked.contents.heaviest_kg if cabinet.asked.contents else None) or 0.0
    boards = bearing(cabinet)
    highest = max(boards, key=lambda p: p.box[0][2], default=None)
    out = []
    for part in boards:
        low, high = part.box
        N = even_N_per_mm(cabinet, part.size[1]) * part.size[0] + (heavy * GRAVITY if part is highest else 0.0)
        y = low[1] + (FORWARD if forward else 0.5) * (high[1] - low[1])
        if N:
            out.append(Mass(N=N, x=(low[0] + high[0]) / 2, y=y, z=high[2]))
    return tuple(out)


def drawer_contents(cabinet: RodCabinet, opened: bool) -> tuple[Mass, ...]:
    """What the published rule fills drawers with: 8.5 lb in each cubic foot, over each drawer's bottom."""
    out = drawer_reach_mm(cabinet) if opened else 0.0
    deep = max((p.size[1] for p in cabinet.parts if p.role == "drawer side"), default=0.0)
    found = []
    for p in cabinet.parts:
        if p.role == "drawer bottom":
            low, high = p.box
            kg = p.size[0] * p.size[1] * deep * 1e-9 * LOADED_KG_PER_M3
            middle = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2 - out, high[2] + deep / 2)
            found.append(Mass(N=kg * GRAVITY, x=middle[0], y=middle[1], z=middle[2]))
    return tuple(found)


def together(masses: Iterable[Mass]) -> Mass:
    """All of them in one: their sum at their common middle; nought at the origin where there is none."""
    all_ = tuple(masses)
    N = sum(m.N for m in all_)
    if N <= 0:
        return Mass(N=0.0, x=0.0, y=0.0, z=0.0)
    return Mass(
        N=N, x=sum(m.N * m.x for m in all_) / N, y=sum(m.N * m.y for m in all_) / N, z=sum(m.N * m.z for m in all_) / N
    )
