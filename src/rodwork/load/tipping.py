"""Does a standing unit fall forward: equilibrium about its front feet, and what a wall restraint must bear.

    keeps = sum of weights behind the feet x their distance,  tips = those in front, and a child's pull
The states are those of the rule for clothing storage units, 16 CFR 1261 (Federal Register 87 FR 72598): doors and
drawers open, drawers filled with 8.5 lb per cubic foot (read on the CPSC's page), 60 lb (27.2 kg) on the front edge,
the back raised as by a carpet, 0.43 in (from memory). The rule is for units of 27 in and more that store clothing; for
others it is a measure to go by. It is a sum, not the rule's test.
"""

from dataclasses import replace
from math import atan2, cos, sin

from rodwork.load.boards import GRAVITY
from rodwork.load.masses import Mass, board_masses, content_masses, drawer_contents, drawer_reach_mm
from rodwork.model.loading import Tipping, TippingState
from rodwork.model.rod import RodCabinet

CHILD_KG = 27.2
CARPET_MM = 10.9
ON_THE_FLOOR_MM = 2.0
RESTRAINT_BELOW_TOP_MM = 50.0
SOURCE = "statics; child of 27.2 kg and filled drawers by 16 CFR 1261, carpet of 10.9 mm from memory"
FRONTS = ("door", "drawer front")


def tipping(cabinet: RodCabinet) -> Tipping | None:
    """Every state; None for a unit that hangs or is a wall unit."""
    if cabinet.asked.hanging is not None or cabinet.asked.style == "wall":
        return None
    feet = front_feet_mm(cabinet)
    height = cabinet.size[1] + _below(cabinet) - RESTRAINT_BELOW_TOP_MM
    states = tuple(_state(cabinet, feet, height, *how) for how in _states(cabinet))
    need = max(s.restraint_N for s in states)
    return Tipping(states=states, restraint_N=need, words=_words(cabinet))


def _words(cabinet: RodCabinet) -> tuple[str, ...]:
    """What the customer is told, of the doors and drawers that it has."""
    roles = {p.role for p in cabinet.parts}
    opens = " and ".join(word for word, role in (("doors", "door"), ("drawers", "drawer front")) if role in roles)
    drawers = "drawer front" in roles
    return (
        "Fix it to the wall at its top with the restraint that comes with it, into masonry or a stud.",
        f"Never let children climb on it{f' or hang on its {opens}' if opens else ''}.",
        "Open one drawer at a time. Put what is heavy in the lowest drawers and shelves."
        if drawers
        else "Put what is heavy on the lowest shelves.",
        "Do not stand a television or anything heavy on its top.",
    )


def front_feet_mm(cabinet: RodCabinet) -> float:
    """How far behind the front of the carcass it stands: its front legs, else the foremost board on the floor, mm.

    A plinth board that is clipped before legs carries nothing.
    """
    if cabinet.footing is not None:
        return min(y for _, y in cabinet.footing.feet)
    boxes = [p.box for p in cabinet.whole_boards if p.role not in FRONTS]
    floor = min((low[2] for low, _ in boxes), default=0.0)
    return min((low[1] for low, _ in boxes if low[2] - floor < ON_THE_FLOOR_MM), default=0.0)


def _below(cabinet: RodCabinet) -> float:
    """How far under its carcass the floor is, mm."""
    return cabinet.footing.below if cabinet.footing is not None else 0.0


def _states(cabinet: RodCabinet) -> tuple[tuple[str, bool, bool, bool], ...]:
    """(words, opened, filled, a child on it)."""
    if any(p.role in FRONTS for p in cabinet.parts):
        return (
            ("empty, all open", True, False, False),
            ("full, all open", True, True, False),
            ("empty, open, a child on the front", True, False, True),
            ("full, open, a child on the front", True, True, True),
        )
    return (
        ("empty, a child on the front edge", False, False, True),
        ("full, a child on the front edge", False, True, True),
    )


def _state(
    cabinet: RodCabinet, feet: float, height: float, words: str, opened: bool, filled: bool, child: bool
) -> TippingState:
    masses = list(board_masses(cabinet, opened))
    if filled:
        masses += [*content_masses(cabinet, False), *drawer_contents(cabinet, opened)]
    if child:
        masses.append(Mass(N=CHILD_KG * GRAVITY, x=0.0, y=_foremost(cabinet, opened), z=_climbs_to(cabinet)))
    up = _below(cabinet)
    stood = tuple(replace(m, z=m.z + up) for m in masses)
    return state(words, stood, feet, cabinet.size[2], height)


def state(words: str, masses: tuple[Mass, ...], feet: float, depth: float, restraint_at: float) -> TippingState:
    """One state: the unit leans by the carpet under its back, and all weights with it."""
    lean = atan2(CARPET_MM, max(depth - feet, 1.0))
    keeps = tips = 0.0
    for m in masses:
        arm = (m.y - feet) * cos(lean) - m.z * sin(lean)
        keeps += m.N * max(arm, 0.0)
        tips += m.N * max(-arm, 0.0)
    margin = keeps / tips if tips > 0 else float("inf")
    return TippingState(
        state=words, keeps_Nmm=keeps, tips_Nmm=tips, margin=margin,
        restraint_N=max(tips - keeps, 0.0) / restraint_at, source=SOURCE,
    )  # fmt: skip


def _foremost(cabinet: RodCabinet, opened: bool) -> float:
    """The front edge of what is open farthest: a door's free edge, a drawer's front; else of the carcass."""
    fronts = [p.box for p in cabinet.parts if p.role in FRONTS]
    edge = min((low[1] for low, _ in fronts), default=0.0)
    if not opened:
        return edge
    doors = [low[1] - (high[0] - low[0]) for p in cabinet.parts if p.role == "door" for low, high in (p.box,)]
    drawers = [p.box[0][1] - drawer_reach_mm(cabinet) for p in cabinet.parts if p.role == "drawer front"]
    return min([edge, *doors, *drawers])


def _climbs_to(cabinet: RodCabinet) -> float:
    """How high the child's weight bears: the highest shelf or drawer, or the middle of the highest door."""
    on = [p.box[1][2] for p in cabinet.parts if p.role in ("fixed shelf", "loose shelf", "drawer front", "bottom")]
    return max(on, default=cabinet.size[1] / 2)
