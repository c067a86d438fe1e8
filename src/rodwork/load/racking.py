"""The box pushed sideways at its top: by its corners alone, with its back, and what that does to the front opening.

A back keeps the rear of a box; the front opening still goes out of square as the sides twist:
    front = push / K(back) + push / (K(twist) + K(corners)/3),  K(twist) = sum over uprights of G t^3 / (3 H D)
(a plate twisted by its two ends, G t^3/3 to the width; the corners' share grows evenly from back to front, a third
of it counts). Fixed shelves are left out, on the safe side. A back that is loose in its grooves keeps the box only
within its play. Slip of screws and pins: table 7.1 of EN 1995-1-1; glue is taken as stiff.
"""

from dataclasses import dataclass, replace

from rodwork.catalogue.fasteners import fastener
from rodwork.load import eurocode5 as ec5
from rodwork.load.bears import bears
from rodwork.load.boards import BoardFigures, figures_of
from rodwork.load.box import Beam, BoardName, Box, Sheet, Spring, Swayed, sway
from rodwork.load.held import tested_for
from rodwork.model.fixing import Fixing, Joint
from rodwork.model.loading import Racking
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet

CORNERS = ("corner", "mitre")
PUSH_N = 100.0  # a hand against the top; our own figure
GLUED_N_PER_MM = 1e5  # each 100 mm of a glue line
GLUED_APART_MM = 100.0
SOURCE = "plane frame, boards and corners in its own plane; a hand's push of 100 N is our own figure"
_SIDES: tuple[BoardName, BoardName] = ("left", "right")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Fastened:
    """How the back is held: its springs with what each bears, N (None: not known), or its lean in its grooves."""

    springs: tuple[Spring, ...]
    bears_N: tuple[float | None, ...]
    lean: float
    how: str
    asks: tuple[str, ...]


def racking(cabinet: RodCabinet, rod: Rod) -> Racking | None:
    """The box under a push; None where it is no box of two sides, a top and a bottom, or a stiffness is not known."""
    frame = _frame(cabinet, rod)
    if frame is None:
        return None
    asks: list[str] = []
    bare = sway(frame, PUSH_N)
    if bare is None:
        asks.append(_corner_ask(cabinet))
    bare_mm = bare.top_mm if bare else None
    back = next((p for p in cabinet.parts if p.role == "back"), None)
    if back is None:
        return Racking(
            push_N=PUSH_N, bare_mm=bare_mm, backed_mm=None, margin=None, how="no back: its corners alone keep it",
            source=SOURCE, asks=tuple(asks),
        )  # fmt: skip
    held = _fastened(back, cabinet, rod)
    twist = _twist_N_per_mm(cabinet, rod)
    corners = PUSH_N / bare.top_mm if bare else 0.0
    backed, margin = _backed(frame, back, held, cabinet, rod)
    front = None
    if backed is not None and twist is not None:
        front = backed + PUSH_N / (twist + corners / 3)
    return Racking(
        push_N=PUSH_N, bare_mm=bare_mm, backed_mm=front, margin=margin, how=held.how, source=SOURCE,
        asks=(*asks, *held.asks),
    )  # fmt: skip


def _frame(cabinet: RodCabinet, rod: Rod) -> Box | None:
    """The four boards between their middles; corners as stiff as the maker's figures have them, else hinged."""
    found = {b: _board(cabinet, b) for b in ("left", "right", "top", "bottom")}
    beams = {b: beam for b, p in found.items() if p is not None and (beam := _beam(p, rod)) is not None}
    if found["top"] is not None and found["top"].role == "rail":
        rails = [beam for p in _flat_rails(cabinet) if (beam := _beam(p, rod)) is not None]
        beams["top"] = Beam(bending_Nmm2=sum(r.bending_Nmm2 for r in rails), along_N=sum(r.along_N for r in rails))
    if len(beams) < 4:
        return None
    side, top = found["left"], found["top"]
    assert side is not None
    assert top is not None
    width, height, _ = cabinet.size
    return Box(
        width_mm=width - side.size[2], height_mm=height - top.size[2], corner_Nmm_per_rad=_corner(cabinet, rod),
        left=beams["left"], right=beams["right"], top=beams["top"], bottom=beams["bottom"],
    )  # fmt: skip


def _board(cabinet: RodCabinet, name: str) -> Part | None:
    if name in ("top", "bottom"):
        rails = _flat_rails(cabinet) if name == "top" else ()
        return next((p for p in (*cabinet.parts, *rails) if p.role == name or p in rails), None)
    sides = sorted((p for p in cabinet.parts if p.role == "side"), key=lambda p: p.pose.to_cabinet((0.0, 0.0, 0.0))[0])
    return None if len(sides) < 2 else sides[0 if name == "left" else -1]


def _flat_rails(cabinet: RodCabinet) -> tuple[Part, ...]:
    """Rails that lie in place of a top."""
    return tuple(p for p in cabinet.parts if p.role == "rail" and abs(p.pose.rotation[2][2]) > 0.5)


def _beam(part: Part, rod: Rod) -> Beam | None:
    board = figures_of(rod.boards[part.board], part.size[2])
    if board.stiffness is None:
        return None
    E, (_, D, t) = board.stiffness.value, part.size
    return Beam(bending_Nmm2=E * D * t**3 / 12, along_N=E * D * t)


def _corner(cabinet: RodCabinet, rod: Rod) -> float:
    """The softest of the corners, N mm per rad, as far as its turning was tested; nought: a hinge."""
    found = []
    for joint in (j for j in cabinet.joints if j.contact.place in CORNERS):
        known = [t.turning_Nmm_per_rad or 0.0 for f in joint.fixings if (t := tested_for(f, rod)) is not None]
        found.append(sum(known))
    return min(found, default=0.0)


def _corner_ask(cabinet: RodCabinet) -> str:
    items = {h.item for j in cabinet.joints if j.contact.place in CORNERS for f in j.fixings for h in f.hardware}
    name = min(items, default="...")
    return (
        "How stiffly its corners resist turning is not known, so alone they are reckoned as hinges. Write "
        f'turning_nm_per_rad with its source under [tested."{name}"]'
    )


def _fastened(back: Part, cabinet: RodCabinet, rod: Rod) -> _Fastened:
    """Screws and pins as springs, glue lines as stiff ones; where it only lies in grooves, its lean."""
    joints = [j for j in cabinet.joints if back.id in j.parts]
    springs: list[Spring] = []
    strengths: list[float | None] = []
    asks: list[str] = []
    for joint in joints:
        frame_part = cabinet.part[joint.parts[0] if joint.parts[1] == back.id else joint.parts[1]]
        board = _name_of(frame_part, cabinet)
        if board is None:
            continue
        if joint.glued:
            springs += _glue_line(joint, board, cabinet)
            strengths += [None] * (len(springs) - len(strengths))
            continue
        for fixing in joint.fixings:
            k = _slip(fixing, joint, cabinet, rod)
            if k is not None:
                springs.append(Spring(board=board, at_mm=_along(fixing.at, board, cabinet), N_per_mm=k))
                of = bears(fixing, joint, cabinet, rod)
                strengths.append(of.shear.value if of.shear else None)
    if springs:
        glued = any(j.glued for j in joints)
        how = "its back is glued in" if glued else f"its back is held by {len(springs)} screws or pins"
        return _Fastened(springs=tuple(springs), bears_N=tuple(strengths), lean=0.0, how=how, asks=tuple(asks))
    lean = _lean(back, joints, cabinet)
    how = f"its back is loose in its grooves: the top is free by {lean * cabinet.size[1]:.1f} mm; pin or glue it"
    return _Fastened(springs=(), bears_N=(), lean=lean, how=how, asks=())


def _name_of(part: Part, cabinet: RodCabinet) -> BoardName | None:
    if part.role == "side":
        return "left" if part == _board(cabinet, "left") else "right"
    if part.role == "bottom":
        return "bottom"
    return "top" if part.role == "top" or part in _flat_rails(cabinet) else None


def _along(at: tuple[float, float, float], board: BoardName, cabinet: RodCabinet) -> float:
    """Place along a board of the frame between the middles of its neighbours, mm."""
    side, top = _board(cabinet, "left"), _board(cabinet, "top")
    half = (top if board in _SIDES else side).size[2] / 2  # type: ignore[union-attr]
    length = (cabinet.size[1] if board in _SIDES else cabinet.size[0]) - 2 * half
    return round(min(max((at[2] if board in _SIDES else at[0]) - half, 0.0), length), 6)


def _glue_line(joint: Joint, board: BoardName, cabinet: RodCabinet) -> list[Spring]:
    a, b = (_along(p, board, cabinet) for p in (joint.contact.from_point, joint.contact.to_point))
    n = max(2, round(abs(b - a) / GLUED_APART_MM) + 1)
    return [Spring(board=board, at_mm=round(a + (b - a) * i / (n - 1), 6), N_per_mm=GLUED_N_PER_MM) for i in range(n)]


def _slip(fixing: Fixing, joint: Joint, cabinet: RodCabinet, rod: Rod) -> float | None:
    """Kser of a screw or pin of the back, N/mm, from the boards' characteristic densities; None for anything else."""
    known = next((f for item in fixing.hardware if (f := fastener(item.item)) is not None), None)
    if known is None or known.how not in ("thread", "smooth") or fixing.law == "enter":
        return None
    densities = [
        d.value
        for p in joint.parts
        if (d := figures_of(rod.boards[cabinet.part[p].board], cabinet.part[p].size[2]).density)
    ]
    if len(densities) < 2:
        return None
    return ec5.slip_modulus(densities[0], densities[1], known.diameter_mm, nailed=known.how == "smooth")


def _lean(back: Part, joints: list[Joint], cabinet: RodCabinet) -> float:
    """How far a box leans before a back, loose in its grooves, stands in them corner to corner; small angles.

    across / back's height + up / back's width, both grooves together.
    """
    plays = [(cabinet.part[j.parts[0]].role == "side", j.fixings[0].play.along) for j in joints if j.fixings]
    across, up = sum(p for side, p in plays if side), sum(p for side, p in plays if not side)
    wide, high = (back.size[0], back.size[1]) if abs(back.pose.rotation[0][0]) > 0.5 else (back.size[1], back.size[0])
    return across / high + up / wide


def _backed(
    frame: Box, back: Part, held: _Fastened, cabinet: RodCabinet, rod: Rod
) -> tuple[float | None, float | None]:  # fmt: skip
    """How far the rear of the box goes, mm, and how many times over its worst screw or pin bears what it takes."""
    if not held.springs:
        return held.lean * cabinet.size[1], None
    board: BoardFigures = figures_of(rod.boards[back.board], back.size[2])
    if board.stiffness is None or board.panel_shear is None:
        return None, None
    sheet = Sheet(
        thickness_mm=back.size[2], stiffness_N_per_mm2=board.stiffness.value,
        shear_N_per_mm2=board.panel_shear.value, springs=held.springs,
    )  # fmt: skip
    moved: Swayed | None = sway(replace(frame, back=sheet), PUSH_N)
    if moved is None:
        return None, None
    margins = [b / f for b, f in zip(held.bears_N, moved.forces_N, strict=True) if b is not None and f > 1e-9]
    known = bool(margins) and all(b is not None for b in held.bears_N)
    return moved.top_mm, min(margins) if known else None


def _twist_N_per_mm(cabinet: RodCabinet, rod: Rod) -> float | None:
    """What it takes at the front of the top to twist all uprights by a millimetre; None where a figure is missing."""
    height, depth = cabinet.size[1], cabinet.size[2]
    total = 0.0
    for part in cabinet.parts:
        if part.role in ("side", "divider"):
            shear = figures_of(rod.boards[part.board], part.size[2]).panel_shear
            if shear is None:
                return None
            total += shear.value * part.size[2] ** 3 / (3 * height * depth)
    return total or None
