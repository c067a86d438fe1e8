"""Every shelf and bottom of a cabinet, read from the Rod: what it carries, how it is held, and what comes of it."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from rodwork.load.beam import NotHeld
from rodwork.load.boards import GRAVITY, BoardFigures, creep_share, figures_of, what_is_known
from rodwork.load.contents import STAYS, bearing, even_N_per_mm
from rodwork.load.held import ON_FRAME, ON_LEGS, PACKED, TAKEN, Held, held_at
from rodwork.load.section import Strip
from rodwork.load.shelf import Across, Limits, Sagged, Shelf, longest_span_mm, sagged, strip_under
from rodwork.model.demand import Contents
from rodwork.model.figure import Figure
from rodwork.model.loading import ShelfLoad
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet

THICKNESSES_MM = (15.0, 16.0, 18.0, 19.0, 22.0, 25.0, 28.0, 30.0, 32.0, 38.0)  # sold; common practice
STRIP_HEIGHTS_MM = tuple(range(20, 125, 5))
STIFFENERS = ("stiffener", "lipping", "rail", "face frame", "batten")
NEAR_MM = 1.0
DIVIDERS = ("divider", "part divider")
_ANY = Figure(value=1000.0, standing="arithmetic", source="any: pushes on two supports do not hang on it")
LEAST_SHARE = 0.9  # of its length along which a strip must lie to stiffen a shelf


@dataclass(frozen=True, slots=True)
class _OnEdge:
    """A strip that bends with a shelf: its board, its section, and what it weighs to the mm."""

    part: Part
    strip: Strip
    weight_N_per_mm: float


def shelf_loads(cabinet: RodCabinet, rod: Rod) -> tuple[ShelfLoad, ...]:
    """Each of them once; of boards that are the same, each stands on its own."""
    return tuple(_shelf_load(part, cabinet, rod) for part in bearing(cabinet))


def _shelf_load(part: Part, cabinet: RodCabinet, rod: Rod) -> ShelfLoad:
    board = figures_of(rod.boards[part.board], part.size[2])
    held = held_at(part, cabinet, rod)
    asks = list(_asks(part, cabinet, rod, board))
    made = _shelf(part, cabinet, rod, board, held)
    kg = even_N_per_mm(cabinet, part.size[1]) * part.size[0] / GRAVITY
    heavy = cabinet.asked.contents.heaviest_kg if cabinet.asked.contents else None
    on_edge = _stiffened_by(part, cabinet, rod)
    own = part.size[0] * _weighed_mm(part, on_edge) * part.size[2] * (board.weight_kg_m3 or 0.0) * 1e-9
    own += sum(s.weight_N_per_mm * s.part.size[0] / GRAVITY for s in on_edge)
    common: dict[str, Any] = {
        "part": part.id, "name": part.name, "spans": max(len(held) - 1, 1),
        "depth_mm": part.size[1], "thickness_mm": part.size[2],
        "contents_kg": kg + (heavy or 0.0), "own_kg": own, "stiffness": board.stiffness,
        "creep": _creep(board, cabinet), "stiffened": _stiffened(part, cabinet, rod),
        "taken": next((TAKEN[h.by] for h in held if h.by in TAKEN), ""),
    }  # fmt: skip
    try:
        if made is None:
            raise NotHeld("")
        found = sagged(made)
    except NotHeld as problem:
        if str(problem):
            asks.append(_not_held(held))
        limits = _limits(cabinet)
        return ShelfLoad(
            **common, span_mm=part.size[0], held=_in_words(held), new_mm=None, later_mm=None, moment_Nmm=None,
            straight_mm=limits.straight_mm(part.size[0]), sound_mm=limits.sound_mm(part.size[0]), straight=None,
            sound=None, strong=None, longest_mm=None, would_do=(), asks=tuple(asks),
        )  # fmt: skip
    return ShelfLoad(
        **common, span_mm=made.span_mm, held=_in_words(held), new_mm=found.new_mm, later_mm=found.later_mm,
        moment_Nmm=found.bent.moment_Nmm,
        straight_mm=found.straight_mm, sound_mm=found.sound_mm, straight=found.straight, sound=found.sound,
        strong=found.strong, longest_mm=longest_span_mm(made), would_do=_would_do(made, found, part, cabinet, rod),
        asks=tuple(asks),
    )  # fmt: skip


def _limits(cabinet: RodCabinet) -> Limits:
    sag = cabinet.asked.sag
    return Limits(straight_1_in=sag.straight_1_in, sound_1_in=sag.sound_1_in, most_mm=sag.most_mm)


def _creep(board: BoardFigures, cabinet: RodCabinet) -> Figure | None:
    contents = cabinet.asked.contents
    return creep_share(board, cabinet.asked.room, contents is None or contents.lasts in STAYS)


def _shelf(
    part: Part, cabinet: RodCabinet, rod: Rod, board: BoardFigures, held: tuple[Held, ...]
) -> Shelf | None:  # fmt: skip
    """The shelf as it is reckoned; None where its stiffness is not known."""
    if board.stiffness is None:
        return None
    first = _strip(_between_lippings_mm(part, cabinet), part.size[2], 0.0, board, cabinet)
    on_edge = _stiffened_by(part, cabinet, rod)
    strips = [first, *(s.strip for s in on_edge)]
    own = _weight_N_per_mm(replace(first, width_mm=_weighed_mm(part, on_edge)), board)
    weight = own + sum(s.weight_N_per_mm for s in on_edge)
    heavy = cabinet.asked.contents.heaviest_kg if cabinet.asked.contents else None
    creep = _creep(board, cabinet)
    across = None
    if held:
        front, back = max(h.first_mm for h in held), min(h.last_mm for h in held)
        across = Across(depth_mm=part.size[1], first_mm=front, last_mm=back) if back > front else None
    return Shelf(
        strips=tuple(strips), length_mm=part.size[0], at_mm=tuple(h.at_mm for h in held),
        turning_Nmm_per_rad=tuple(h.turning_Nmm_per_rad for h in held), weight_N_per_mm=weight,
        even_N_per_mm=even_N_per_mm(cabinet, part.size[1]), middle_N=(heavy or 0.0) * GRAVITY,
        creep=None if creep is None else creep.value, limits=_limits(cabinet), across=across,
        points=_standing_on(part, cabinet, rod),
    )  # fmt: skip


def reactions(
    part: Part, cabinet: RodCabinet, rod: Rod, propped: bool = False
) -> tuple[tuple[Held, float, float], ...]:
    """Where a lying board is held, the push up on it there, N, and the moment that its joints take, N mm.

    `propped`: held by what stands on other shelves too.

    Where its stiffness is not known any will do: on two supports the pushes do not hang on it. Empty: it would fall.
    """
    board = figures_of(rod.boards[part.board], part.size[2])
    held = held_at(part, cabinet, rod, propped)
    known = board if board.stiffness is not None else replace(board, stiffness=_ANY)
    made = _shelf(part, cabinet, rod, known, held)
    try:
        bent = sagged(made).bent if made is not None else None
    except NotHeld:
        return ()
    return tuple(zip(held, bent.reactions_N, bent.held_Nmm, strict=True)) if bent else ()


def _standing_on(part: Part, cabinet: RodCabinet, rod: Rod) -> tuple[tuple[float, float], ...]:
    """What uprights that stand on a board bring down on it, from the shelves that they hold: (place, N).

    All of it, though the board over them takes a share: on the safe side. A side stands beside it and brings nothing.
    """
    low, _ = part.box
    found = []
    for joint in cabinet.joints:
        upright = cabinet.part[joint.parts[1]]
        if joint.parts[0] != part.id or upright.role not in DIVIDERS or joint.contact.out[2] < 0.9:
            continue
        a, b = upright.box
        brings = sum(
            push
            for shelf in bearing(cabinet)
            if shelf.box[0][2] > low[2]  # what stands on a board brings down what lies over it, never what lies below
            for held, push, _ in reactions(shelf, cabinet, rod, propped=True)
            if upright.id in held.others
        )
        if brings:
            found.append(((a[0] + b[0]) / 2 - low[0], brings))
    return tuple(found)


def _strip(width: float, height: float, middle: float, board: BoardFigures, cabinet: RodCabinet) -> Strip:
    contents = cabinet.asked.contents or Contents()
    kmod = board.factors.kmod_of(cabinet.asked.room, contents.lasts) if board.factors else None
    strength = None
    if board.strength is not None and kmod is not None and board.factors is not None:
        strength = board.strength.value * kmod / board.factors.gamma_M
    assert board.stiffness is not None
    return Strip(
        width_mm=width, height_mm=height, middle_mm=middle, stiffness_N_per_mm2=board.stiffness.value,
        shear_N_per_mm2=board.shear.value if board.shear else None, strength_N_per_mm2=strength,
    )  # fmt: skip


def _weight_N_per_mm(strip: Strip, board: BoardFigures) -> float:
    return strip.width_mm * strip.height_mm * (board.weight_kg_m3 or 0.0) * 1e-9 * GRAVITY


def _lippings_along(part: Part, cabinet: RodCabinet) -> list[Part]:
    """Its own lippings, those along its length."""
    found = []
    for lipping in cabinet.lippings.get(part.id, ()):
        way = part.pose.direction_to_part(lipping.pose.direction_to_cabinet((1.0, 0.0, 0.0)))
        if abs(way[0]) > 0.5:
            found.append(lipping)
    return found


def _between_lippings_mm(part: Part, cabinet: RodCabinet) -> float:
    """How deep the board itself is, without the lippings along it: what is known of its stiffness is not theirs."""
    return part.size[1] - sum(lipping.size[2] for lipping in _lippings_along(part, cabinet))


def _weighed_mm(part: Part, on_edge: list[_OnEdge]) -> float:
    """How much of its depth weighs as the board itself does: all but the lippings that are reckoned as such."""
    return part.size[1] - sum(s.part.size[2] for s in on_edge if s.part.glued_on == part.id)


def _stiffened_by(part: Part, cabinet: RodCabinet, rod: Rod) -> list[_OnEdge]:
    """Strips on edge along its front or back, or under it, that touch it along nearly its whole length."""
    low, high = part.box
    found = list[_OnEdge]()
    for other in (*cabinet.whole_boards, *_lippings_along(part, cabinet)):
        if other.role not in STIFFENERS:
            continue
        a, b = other.box
        along = min(b[0], high[0]) - max(a[0], low[0])
        beside = abs(b[1] - low[1]) < NEAR_MM or abs(a[1] - high[1]) < NEAR_MM
        under = abs(b[2] - low[2]) < NEAR_MM and min(b[1], high[1]) > max(a[1], low[1])
        touches = under or (beside and min(b[2], high[2]) > max(a[2], low[2])) or other.glued_on is not None
        if touches and along > LEAST_SHARE * (high[0] - low[0]) and _glued(part, other, cabinet):
            of = figures_of(rod.boards[other.board], other.size[2])
            if of.stiffness is not None:
                middle = (a[2] + b[2]) / 2 - (low[2] + high[2]) / 2
                strip = _strip(b[1] - a[1], b[2] - a[2], middle, of, cabinet)
                found.append(_OnEdge(other, strip, _weight_N_per_mm(strip, of)))
    return found


def _stiffened(part: Part, cabinet: RodCabinet, rod: Rod) -> str:
    """What is asked to stiffen a shelf, and whether it is reckoned; nothing where there is no such strip."""
    under = {i for j in cabinet.joints if part.id in j.parts for i in j.parts}
    asked = [p for p in cabinet.parts if p.role == "stiffener" and p.id in under]
    if not asked:
        return ""
    reckoned = {s.part.id for s in _stiffened_by(part, cabinet, rod)}
    return "stiffened" if any(p.id in reckoned for p in asked) else "its stiffener not reckoned"


def _glued(part: Part, other: Part, cabinet: RodCabinet) -> bool:
    """Whether a strip is glued to a board: a lipping is by its nature, anything else by its joint."""
    joined = [j for j in cabinet.joints if set(j.parts) == {part.id, other.id}]
    return any(j.glued for j in joined) or (other.role == "lipping" and not joined)


def _asks(part: Part, cabinet: RodCabinet, rod: Rod, board: BoardFigures) -> Iterator[str]:
    stock = rod.boards[part.board]
    if board.stiffness is None:
        yield f"The catalogue has no stiffness for {stock.material} of {part.size[2]:g} mm. {what_is_known(stock)}"
    elif board.strength is None or board.factors is None:
        yield f"Its strength is not known. {what_is_known(stock)}"
    elif board.factors.kdef_of(cabinet.asked.room) is None:
        grade = board.grade or stock.material
        yield f"Eurocode 5 does not allow {grade} in a {cabinet.asked.room} room. Use a board made for it."
    if board.weight_kg_m3 is None:
        yield f"What {stock.material} weighs is not known: its own weight is left out. Write density under the board."


def _not_held(held: tuple[Held, ...]) -> str:
    if not held:
        return "Nothing holds it: no joint, no pin and no board under it. Give it two ends to lie on."
    return f"It is held at one place only ({_in_words(held)}): the other end hangs free. Give that end a joint or pins."


def _in_words(held: tuple[Held, ...]) -> str:
    if not held:
        return "held by nothing"
    by = {h.by for h in held}
    if len(held) == 1:
        return "held at one end only"
    stiff = any(h.turning_Nmm_per_rad for h in held)
    ends = "jointed, stiff as tested" if stiff else "jointed"
    word = "on pins" if by == {"on pins"} else ends if "jointed" in by else "lying on boards"
    below = next((b for b in (ON_LEGS, ON_FRAME, PACKED) if b in by), None)
    if below is not None:
        return f"{word}, {below}"
    return word if len(held) == 2 else f"{word}, over {len(held) - 1} spans"


def _would_do(shelf: Shelf, found: Sagged, part: Part, cabinet: RodCabinet, rod: Rod) -> tuple[str, ...]:
    """Where a limit is passed: the thickness, or the strip under an edge, that would keep every one."""
    if found.least >= 1:
        return ()
    out = []
    for thick in THICKNESSES_MM:
        other = _as_thick(shelf, thick, part, cabinet, rod) if thick > part.size[2] + 0.5 else None
        if other is not None and sagged(other).least >= 1:
            out.append(f"{thick:g} mm of the same board")
            break
    for height in STRIP_HEIGHTS_MM:
        if sagged(strip_under(shelf, float(height), part.size[2])).least >= 1:
            out.append(_strip_in_words(height, part, cabinet))
            break
    return tuple(out)


def _strip_in_words(height: int, part: Part, cabinet: RodCabinet) -> str:
    strip = f"a strip {height} high of the same board, on edge, glued under its"
    if part.role == "bottom":
        return f"{strip} front or back edge"
    has_one = any(j.parts[0] == part.id and cabinet.part[j.parts[1]].role == "stiffener" for j in cabinet.joints)
    return f"{strip} back edge as well" if has_one else f"{strip} front edge: stiffeners = {{ depth = {height} }}"


def _as_thick(shelf: Shelf, thick: float, part: Part, cabinet: RodCabinet, rod: Rod) -> Shelf | None:
    board = figures_of(rod.boards[part.board], thick)
    if board.stiffness is None:
        return None
    strip = _strip(_between_lippings_mm(part, cabinet), thick, 0.0, board, cabinet)
    grown = shelf.weight_N_per_mm * thick / part.size[2]
    return replace(shelf, strips=(strip, *shelf.strips[1:]), weight_N_per_mm=grown)
