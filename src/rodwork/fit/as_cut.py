"""Boards as cut: what a size that is off does, and the ways on, ranked by what will be seen and by minutes."""

from dataclasses import dataclass, replace

import numpy as np

from rodwork.fit.carcass import model_of
from rodwork.fit.forecast import Asked, ask
from rodwork.fit.measured import EXPLAINED, Measurement, surprise
from rodwork.fit.remedies import Tried, tried
from rodwork.fit.solve import poses
from rodwork.model.accuracy import Accuracy
from rodwork.model.dry_fit import AsCut, CorrectedMark, Remedy
from rodwork.model.measured import DIMENSIONS, Dimension, MeasuredBoard
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.setup import Fence, Reading, Setup, SetupFeature
from rodwork.model.slope import bevel_at
from rodwork.model.surface import OPPOSITE, Surface, axis_of
from rodwork.model.words import cabinet_words

SAMPLES = 800
WORTH_SAYING_MM = 0.15  # a size this near to what was asked is as asked
LIP_SAID_MM = 0.05
# what is seen counts against minutes: a lip over what a finger feels, then boards that lean; common practice
MINUTES_PER_MM_OF_LIP, MINUTES_PER_MM_OF_LEAN = 100.0, 5.0
SWAP, FENCE, OTHER_FACE, EDGE, TRIM, RECUT = 2.0, 3.0, 3.0, 4.0, 3.0, 8.0  # minutes; guesses of the order of the work


@dataclass(frozen=True, slots=True, kw_only=True)
class Copy:
    """One cabinet entry, with the boards of it that were measured, by part: then it is one copy by itself."""

    rod: Rod
    cabinet: RodCabinet
    measured: dict[str, MeasuredBoard]
    accuracy: Accuracy
    seed: int

    @property
    def numbers(self) -> tuple[int, ...]:
        """The copies of this entry."""
        return tuple(range(1, self.cabinet.count + 1))

    def mark(self, part: str) -> str:
        """The mark of a board of this copy."""
        return self.cabinet.part[part].marks[0]

    def mark_elsewhere(self, part: str) -> str | None:
        """The mark of the same board of another copy, if there is one that is not measured."""
        mine = self.cabinet.copy_of or self.cabinet.name
        others = (c for c in self.rod.cabinets if c is not self.cabinet and mine in (c.name, c.copy_of))
        return next((c.part[part].marks[0] for c in others if not c.part[part].measured), None)

    def measurements(self) -> tuple[Measurement, ...]:
        """Every size that was measured, as off from what was asked."""
        return tuple(
            Measurement(size=f"{part}/{dimension}", off_mm=value - _asked(self.cabinet.part[part], dimension))
            for part, board in self.measured.items()
            for dimension in DIMENSIONS
            if (value := board.of(dimension)) is not None
        )

    def believed(self) -> frozenset[tuple[str, str]]:
        """Sizes of which the tape is believed, not the habit of the saw."""
        return frozenset((p, d) for p, b in self.measured.items() for d in DIMENSIONS if b.of(d) is not None)


def asked_of(copy: Copy, rod: Rod | None = None, more: tuple[Measurement, ...] = ()) -> Asked:
    """The question of this copy, if need be set out otherwise, or with more boards cut to a size."""
    believed = copy.believed() | {_named(m.size) for m in more}
    model = model_of(rod or copy.rod, copy.cabinet.name, copy.accuracy, believed)
    found = tuple(m for m in copy.measurements() if m.size not in {x.size for x in more})
    known = {f"{p}/{d}" for p, d in believed if f"{p}/{d}" in model.sizes}
    kept = tuple(m for m in (*found, *more) if m.size in known and np.any(model.sizes[m.size]))
    return ask(model, kept, copy.seed, copy.accuracy.give.ease_mm)


def as_cut(copy: Copy) -> tuple[AsCut, ...]:
    """Every measured size of a board that is joined to others."""
    joined = {part for joint in copy.cabinet.joints for part in joint.parts}
    return tuple(
        _one(copy, part, dimension)
        for part, board in copy.measured.items()
        if part in joined
        for dimension in DIMENSIONS
        if board.of(dimension) is not None
    )


def _one(copy: Copy, part: str, dimension: Dimension) -> AsCut:
    board = copy.cabinet.part[part]
    asked_mm, value = _asked(board, dimension), copy.measured[part].of(dimension)
    assert value is not None
    off = round(value - asked_mm, 4)
    mates = _mates(copy.cabinet, board, dimension)
    cut = [m for m in mates if m in copy.measured and copy.measured[m].of(dimension) is not None]
    uncut = [m for m in mates if m not in cut]
    habit = model_of(copy.rod, copy.cabinet.name, copy.accuracy)
    odd = surprise(habit, Measurement(size=f"{part}/{dimension}", off_mm=off)) > EXPLAINED
    ways = _ways(copy, board, dimension, off, uncut) if abs(off) >= WORTH_SAYING_MM else ()
    return AsCut(
        mark=copy.mark(part), part=part, dimension=dimension, asked_mm=asked_mm, measured_mm=value,
        mates=(
            *(f"{copy.mark(m)} is cut {copy.measured[m].of(dimension):.1f}" for m in cut),
            *(f"{copy.mark(m)} is not cut yet" for m in uncut),
        ),
        warning="The habit of the saw does not explain this one: measure it once more." if odd else None,
        does=_does(copy, asked_of(copy)), ways=ways,
        corrected=_corrected(copy, board, dimension, off, uncut) if abs(off) >= WORTH_SAYING_MM else (),
    )  # fmt: skip


def middle(asked: Asked) -> dict[str, float]:
    """Outputs of the one assembly in the middle: what was measured as measured, all else as asked."""
    model = asked.model
    z = np.zeros((1, len(model.sources)))
    if asked.measured:
        forms = np.array([model.sizes[m.size] for m in asked.measured])
        tape = np.diag([m.tape_mm**2 for m in asked.measured])
        z = (forms.T @ np.linalg.solve(forms @ forms.T + tape, [m.off_mm for m in asked.measured]))[None, :]
    outputs = poses(asked.assembled, z).outputs[0]
    return dict(zip(model.outputs, (float(v) for v in outputs), strict=True))


def _does(copy: Copy, asked: Asked) -> tuple[str, ...]:
    """What will be seen if all goes on as it is: lips, lean, level."""
    out = middle(asked)
    said = []
    for name, value in out.items():
        if name.startswith("lip|") and not name.endswith("|to") and abs(value) >= LIP_SAID_MM:
            joint = next(j for j in copy.cabinet.joints if j.id == name.split("|")[1])
            host, guest = joint.parts
            proud, shy = (guest, host) if value > 0 else (host, guest)
            above = "in front of" if name.endswith("front") else "above" if _upright(copy, proud, shy) else "proud of"
            said.append(f"{_begun(proud)} stands {abs(value):.1f} {above} the {shy}.")
    if not said:
        said.append("No lip.")
    width, height = out.get("width", 0.0), out.get("height", 0.0)
    if abs(width) >= LIP_SAID_MM:
        way = "in" if width < 0 else "out"
        said.append(f"Sides lean {way} {round(10 * abs(width)) / 20:.2f} each at the top; diagonals will not show it.")
    if abs(height) >= LIP_SAID_MM:
        said.append(f"Top out of level {abs(height):.1f}.")
    return tuple(said)


def _ways(copy: Copy, board: Part, dimension: Dimension, off: float, uncut: list[str]) -> tuple[Remedy, ...]:
    now = asked_of(copy)
    out: list[tuple[str, str, float, Asked]] = []
    if uncut:
        same = tuple(Measurement(size=f"{m}/{dimension}", off_mm=off, tape_mm=0.02) for m in uncut)
        names = " and ".join(copy.mark(m) for m in uncut)
        to = _asked(board, dimension) + off
        out.append((f"{names} not cut yet: cut to {to:.1f} too.", _outside(copy, board, dimension, off), 0.0,
                    asked_of(copy, more=same)))  # fmt: skip
    as_asked = asked_of(copy, more=(Measurement(size=f"{board.id}/{dimension}", off_mm=0.0, tape_mm=0.1),))
    other = copy.mark_elsewhere(board.id)
    if other is not None:
        out.append((f"Swap: let it be {other}, and cut the mates of that one to it.", "This one is then as asked.",
                    SWAP, as_asked))  # fmt: skip
    out += _other_settings(copy, board, now)
    out.append(("Leave it.", " ".join(_does(copy, now)), 0.0, now))
    tape = _tape(copy, board, dimension, off)
    if tape is not None:
        out.append((f"Edge one end with {tape:g} tape, hidden in the corner, and bore it again.", "", EDGE, as_asked))
    if off > 0:
        out.append((f"Saw {off:.1f} off, from the end that is not worked yet.", "As asked.", TRIM, as_asked))
    else:
        cut = _asked(board, dimension)
        out.append((f"Cut a new one to {cut:.1f} from an offcut, with its machining.", "As asked.", RECUT, as_asked))
    ranked = sorted(((_cost(middle(a), minutes, copy), do, gains, minutes, a) for do, gains, minutes, a in out),
                    key=lambda way: way[0])  # fmt: skip
    return tuple(_remedy(do, gains, minutes, tried(a, a.draws(SAMPLES))) for _, do, gains, minutes, a in ranked)


def _remedy(do: str, gains: str, minutes: float, then: Tried) -> Remedy:
    return Remedy(do=do, gains=gains, minutes=minutes, chance=then.chance, lip_mm=then.lip_mm)


def _cost(out: dict[str, float], minutes: float, copy: Copy) -> float:
    """Minutes, and what is seen as if it were minutes."""
    lip = max((abs(v) for k, v in out.items() if k.startswith("lip|")), default=0.0)
    lean = max(abs(out.get("width", 0.0)), abs(out.get("height", 0.0)))
    over = max(0.0, lip - copy.accuracy.give.feel_mm)
    return minutes + MINUTES_PER_MM_OF_LIP * over + MINUTES_PER_MM_OF_LEAN * lean


def _other_settings(copy: Copy, board: Part, now: Asked) -> list[tuple[str, str, float, Asked]]:
    """Where a lip comes of this board: bore that joint from the opposite surface, if that takes the lip away."""
    lips = {k: v for k, v in middle(now).items() if k.startswith("lip|") and abs(v) >= WORTH_SAYING_MM}
    out = []
    for joint in copy.cabinet.joints:
        mine = [v for k, v in lips.items() if k.split("|")[1] == joint.id]
        if board.id not in joint.parts or not mine:
            continue
        register = joint.contact.guest_register if joint.parts[1] == board.id else joint.contact.host_register
        words = cabinet_words(board.role, board.pose.rotation)
        sloped = bevel_at(board, register.bears) != 0  # its inside arris is blunt: no fence is held against it
        for axis in (axis_of(register.along_from),) if sloped else (
            axis_of(register.across_from), axis_of(register.along_from)
        ):  # fmt: skip
            taken = _taken_from(copy.rod, copy.cabinet, board, joint.id, axis)
            if taken is None:
                continue
            other = asked_of(copy, rod=_turned(copy.rod, copy.cabinet, board, joint.id, axis))
            left = max(abs(v) for k, v in middle(other).items() if k.startswith("lip|") and k.split("|")[1] == joint.id)
            if left < 0.5 * max(abs(v) for v in mine):
                surface = OPPOSITE[taken]
                word, mark = words.get(surface, "opposite surface"), copy.mark(board.id)
                do = f"Not bored yet: take {joint.id} from the {word} on {mark}."
                out.append((do, " ".join(_does(copy, other)), OTHER_FACE, other))
                shift = max(mine, key=abs)
                do = f"Or set the fence over by {abs(shift):.1f} for {copy.mark(board.id)} at {joint.id} alone."
                out.append((do, "No lip there.", FENCE, other))
    return out


def _taken_from(rod: Rod, cabinet: RodCabinet, board: Part, joint: str, axis: int) -> Surface | None:
    """The surface from which a joint's machining in a board is set out on one axis of the board."""
    features = {f.id for f in board.features if f.joint == joint}
    for setup in rod.setups:
        for entry in setup.features:
            if (entry.cabinet, entry.part) == (cabinet.name, board.id) and entry.feature in features:
                for reading in (entry.along, entry.across):
                    if reading is not None and axis_of(reading.from_surface) == axis:
                        return reading.from_surface
    return None


def _turned(rod: Rod, cabinet: RodCabinet, board: Part, joint: str, axis: int) -> Rod:
    """The machining of one joint in one board set out from the opposite surface on one axis of the board."""
    features = {f.id for f in board.features if f.joint == joint}

    def turned(reading: Reading | None) -> Reading | None:
        if reading is None or axis_of(reading.from_surface) != axis:
            return reading
        return replace(
            reading, from_surface=OPPOSITE[reading.from_surface], word="opposite surface",
            mm=round(board.size[axis] - reading.mm, 6), line=None,
        )  # fmt: skip

    def mine(entry: SetupFeature) -> bool:
        return (entry.cabinet, entry.part) == (cabinet.name, board.id) and entry.feature in features

    setups: list[Setup] = []
    for setup in rod.setups:
        chosen = tuple(
            replace(e, along=turned(e.along), across=turned(e.across)) for e in setup.features if mine(e)
        )  # fmt: skip
        rest = tuple(e for e in setup.features if not mine(e))
        if rest:
            setups.append(replace(setup, features=rest))
        if chosen:
            across = chosen[0].across
            moved = setup.fence is not None and across is not None and across.word == "opposite surface"
            fence = Fence(id=f"{setup.id} turned", mm=across.mm) if moved and across is not None else setup.fence
            setups.append(replace(setup, id=f"{setup.id} turned", features=chosen, fence=fence))
    return replace(rod, setups=tuple(setups))


def _mates(cabinet: RodCabinet, board: Part, dimension: Dimension) -> list[str]:
    """Boards that must agree with this one: they run the same way and were asked to the same size."""
    axis = DIMENSIONS.index(dimension)
    return [
        p.id
        for p in cabinet.parts
        if p.id != board.id and p.in_box and p.role != "back" and dimension != "thickness"
        and _way(p, axis) == _way(board, axis) and abs(_asked(p, dimension) - _asked(board, dimension)) < LIP_SAID_MM
    ]  # fmt: skip


def _corrected(
    copy: Copy, board: Part, dimension: Dimension, off: float, uncut: list[str]
) -> tuple[CorrectedMark, ...]:
    """Numbers of the saw that follow: the mates that are not cut yet, and the back between them."""
    if dimension == "thickness" or not uncut:
        return ()
    axis = DIMENSIONS.index(dimension)
    follow = [(copy.cabinet.part[m], axis) for m in uncut]
    for part in copy.cabinet.parts:
        if part.role == "back" and part.id not in copy.measured:
            along = next((i for i in (0, 1) if _way(part, i) == _way(board, axis)), None)
            if along is not None and dimension == "length":
                follow.append((part, along))
    return tuple(
        CorrectedMark(
            mark=copy.mark(p.id), what=f"saw to {DIMENSIONS[i]}", was_mm=p.cut[i], now_mm=round(p.cut[i] + off, 1),
            why=f"{copy.mark(board.id)} is cut {_asked(board, dimension) + off:.1f}",
        )
        for p, i in follow
    )  # fmt: skip


def _outside(copy: Copy, board: Part, dimension: Dimension, off: float) -> str:
    """What it makes of the cupboard."""
    way = _way(board, DIMENSIONS.index(dimension))
    at, word = {0: (0, "wide"), 2: (1, "high"), 1: (2, "deep")}[way]
    return f"Cupboard {copy.cabinet.size[at] + off:.1f} {word}."


def _tape(copy: Copy, board: Part, dimension: Dimension, off: float) -> float | None:
    """A tape that makes a short board up, where no glued joint would come on it."""
    glued = any(j.glued and j.parts[1] == board.id for j in copy.cabinet.joints)
    if dimension != "length" or glued or off > -WORTH_SAYING_MM:
        return None
    fitting = [e.thickness for e in copy.rod.edgings.values() if abs(e.adds + off) < WORTH_SAYING_MM]
    return min(fitting, default=None)


def _asked(board: Part, dimension: Dimension) -> float:
    return board.size[DIMENSIONS.index(dimension)]


def _way(board: Part, axis: int) -> int:
    """Which axis of the cabinet an axis of the board runs along."""
    column = [abs(board.pose.rotation[i][axis]) for i in range(3)]
    return column.index(max(column))


def _upright(copy: Copy, proud: str, shy: str) -> bool:
    """Whether the board that stands proud rises past one that lies level."""
    return _way(copy.cabinet.part[proud], 0) == 2 and _way(copy.cabinet.part[shy], 0) != 2


def _named(size: str) -> tuple[str, str]:
    part, _, dimension = size.rpartition("/")
    return part, dimension


def _begun(text: str) -> str:
    return text[:1].upper() + text[1:]
