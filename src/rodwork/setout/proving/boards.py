"""Does each board stand as it should, on its own hand, edged and sawn to its size?"""

import re
from collections.abc import Iterator, Mapping
from math import atan, degrees

from rodwork.model.rod import EdgingStock, Rod, RodCabinet
from rodwork.model.surface import Surface
from rodwork.setout.proving.printed import Entry, Settings
from rodwork.setout.proving.stand import AT, ENDS_AND_EDGES, LIES, Stand, Way, outline_at, shifted
from rodwork.setout.proving.trouble import DUST, TILT_DEG, Cause, Trouble, mm, times

_SIZES = ("length", "width")
_FACE_SIDE_LOOKS: dict[str, Way] = {
    "top": Way(2, -1), "bottom": Way(2, 1), "fixed shelf": Way(2, 1), "loose shelf": Way(2, 1),
    "divider": Way(0, -1), "part divider": Way(0, -1), "back": Way(1, -1), "door": Way(1, 1), "drawer front": Way(1, 1),
    "infill": Way(1, -1), "batten": Way(1, -1), "plinth board": Way(1, -1), "worktop": Way(2, 1), "upstand": Way(1, -1),
    "stiffener": Way(1, -1), "end panel": Way(0, -1), "face frame": Way(1, 1),
}  # fmt: skip
_FRONT_EDGED = ("side", "top", "bottom", "fixed shelf", "loose shelf", "divider", "part divider", "rail")
_MARKED = {"LS": "left", "RS": "right"}
_OUT_MM = 0.01  # what the boards of the box may differ from the cabinet's outside size


def standing(stand: Stand) -> Iterator[Trouble]:
    """A board is turned, never mirrored; the face that is worked looks in; left is left and right is right."""
    trouble = _rigid(stand) or _hand(stand) or _worked_face(stand)
    if trouble:
        yield trouble


def _rigid(stand: Stand) -> Trouble | None:
    (a, d, g), (b, e, h), (c, f, i) = stand.columns
    square = all(
        abs(p[0] * q[0] + p[1] * q[1] + p[2] * q[2] - (j == k)) < 1e-6
        for j, p in enumerate(stand.columns)
        for k, q in enumerate(stand.columns)
    )
    if not square:
        return Trouble("stands", "a board can be turned, but neither stretched nor skewed")
    if a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g) < 0:
        return Trouble("hand", "the board is mirrored and not turned: left and right hands exchanged")
    return None


def _hand(stand: Stand) -> Trouble | None:
    """A side's name and its mark say on which hand it stands."""
    part = stand.part
    if part.role != "side":
        return None
    stands = "right" if stand.on_right else "left"
    said = {w for w in re.split(r"[^a-z]+", f"{part.id} {part.name}".lower()) if w in ("left", "right")}
    said |= {_MARKED[code] for m in part.marks if (code := m.rsplit("-", 1)[-1]) in _MARKED}
    for hand in sorted(said - {stands}):
        return Trouble("hand", "left and right hands exchanged", f"on the {hand}", f"on the {stands}")
    return None


def _worked_face(stand: Stand) -> Trouble | None:
    role = stand.part.role
    wanted = _FACE_SIDE_LOOKS.get(role)
    if role == "side":
        wanted = Way(0, -1 if stand.on_right else 1)
    elif role == "rail":
        wanted = _rail_looks(stand)
    looks = stand.toward.get("face_side")
    if wanted is not None and looks is not None and looks != wanted:
        cause: Cause = "hand" if role == "side" else "stands"
        return Trouble(cause, "the face that is worked looks the wrong way", _looking(wanted), _looking(looks))
    if role in _FRONT_EDGED and stand.toward.get("face_edge") == Way(1, 1):
        return Trouble("stands", "its front edge stands at the back")
    return None


def _rail_looks(stand: Stand) -> Way:
    """Into the cabinet: a flat rail down, one on edge at the front to the back, any other to the front."""
    if abs(stand.columns[2][2]) > 0.5:
        return Way(2, -1)
    return Way(1, 1 if stand.low[1] < _OUT_MM else -1)


def _looking(way: Way) -> str:
    return ("left", "right", "to the front", "to the back", "down", "up")[2 * way.axis + (way.sign > 0)]


def sized(stand: Stand, edgings: Mapping[str, EdgingStock], count: int) -> Iterator[Trouble]:
    """Outline, size, size to saw and edging agree, and every copy has its mark."""
    part = stand.part
    corners = [p for z in (0.0, part.size[2]) for p in outline_at(part, z)] if any(part.bevels) else part.outline
    for axis in (0, 1):
        reach = (min(p[axis] for p in corners), max(p[axis] for p in corners))
        if abs(reach[0]) > DUST or abs(reach[1] - part.size[axis]) > DUST:
            found = f"{mm(reach[0])} to {mm(reach[1])}"
            yield Trouble("size", f"its corners and its {_SIZES[axis]} differ", mm(part.size[axis]), found)
    if len(part.marks) != count:
        yield Trouble("mark", "marks: one for each copy of the cabinet", f"{count}", f"{len(part.marks)}")
    if part.glued_on is None:  # a lipping is sawn over size, and tried with its board
        yield from _edging(stand, edgings)


def _edging(stand: Stand, edgings: Mapping[str, EdgingStock]) -> Iterator[Trouble]:
    """Finished size less the size to saw to is what the edging adds, less what is milled off first."""
    part = stand.part
    stock = edgings.get(part.edging_name) if part.edging_name else None
    edged = [s for s in ENDS_AND_EDGES if part.edging.at(s)]
    if stock is None and (part.edging_name or edged):
        yield Trouble("edging", "its edging", "one of the job's edgings", part.edging_name or "not said")
        return
    if stock is not None and stock.adds and not edged:
        what = f"edging forgotten on the {part.name}: it is to carry {part.edging_name}, and no edge has it"
        yield Trouble("edging", what)
        return
    for surface in edged:
        if stock is not None and abs(part.edging.at(surface) - stock.adds) > DUST:
            what = f"what the edging adds at the {stand.word.get(surface, surface)}"
            yield Trouble("edging", what, mm(stock.adds), mm(part.edging.at(surface)))
    for axis in (0, 1):
        yield from _edged_size(stand, stock, axis)


def _edged_size(stand: Stand, stock: EdgingStock | None, axis: int) -> Iterator[Trouble]:
    part = stand.part
    here = [s for s in ENDS_AND_EDGES if LIES[s][0] == axis]
    edged = [s for s in here if part.edging.at(s)]
    mills = stock.mills if stock else 0.0
    want = [part.size[axis] - sum(part.edging.at(s) for s in edged) + mills * len(edged)]
    if stock is not None and not stock.adds:  # a tape that adds nothing does not show in the sizes
        want = [part.size[axis] + mills * n for n in (0, 1, 2)]
    if not any(abs(part.cut[axis] - w) <= DUST for w in want):
        words = " or ".join(stand.word.get(s, s) for s in edged or here)
        what = (
            f"edging forgotten on the {words} of the {part.name}: finished {_SIZES[axis]}, edging and size to saw "
            "do not add up"
        )
        yield Trouble("edging", what, f"sawn to {mm(want[0])}", f"sawn to {mm(part.cut[axis])}")


def outside(cabinet: RodCabinet, boxed: list[Stand]) -> Iterator[Trouble]:
    """The boards of the box come to the cabinet's outside sizes, and begin at its corner."""
    if not boxed:
        return
    for axis, at, word in ((0, 0, "width"), (2, 1, "height"), (1, 2, "depth")):
        low, high = min(s.low[axis] for s in boxed), max(s.high[axis] for s in boxed)
        if abs(low) > _OUT_MM or abs(high - cabinet.size[at]) > _OUT_MM:
            expected, found = f"0.0 to {mm(cabinet.size[at])}", f"{mm(low)} to {mm(high)}"
            yield Trouble("size", f"the boards do not come to the cabinet's {word}", expected, found)


def sawing(
    stand: Stand, settings: Settings, edgings: Mapping[str, EdgingStock], half_step: float
) -> Iterator[tuple[Trouble, Entry | None]]:
    """One setting gives the length and one the width, each from a surface that can give it."""
    stock = edgings.get(stand.part.edging_name or "")
    entries = settings.sawn.get(stand.part.id, [])
    if stand.part.bought:
        if entries:
            yield Trouble("sawing", "it is bought as it is, and the settings saw it"), entries[0]
        return
    again = {id(e) for e in entries if e.setup.stage != "before edging"} if stand.part.edging_name else set()
    yield from _sawn_again(stand, [e for e in entries if id(e) in again], stock, half_step)
    for axis, word in enumerate(_SIZES):
        each = [e for e in entries if (e.done.along, e.done.across)[axis] is not None and id(e) not in again]
        mine, to_lines = [e for e in each if not _is_to_a_line(e)], [e for e in each if _is_to_a_line(e)]
        yield from _sawn_askew(stand, to_lines, axis, stock.mills if stock else 0.0, half_step)
        if len(mine) != 1:
            what = f"how often the settings saw its {word}"
            yield Trouble("twice" if mine else "missing", what, "once", times(len(mine))), None
            continue
        trouble = _sawn(stand, mine[0], axis, half_step)
        if trouble:
            yield trouble, mine[0]


def _sawn_again(
    stand: Stand, entries: list[Entry], stock: EdgingStock | None, half_step: float
) -> Iterator[tuple[Trouble, Entry | None]]:
    """What is lipped over size is sawn once more, to its finished size; nothing else is."""
    over = stock is not None and stock.lipping is not None and stock.thickness - stock.adds > DUST
    for axis, word in enumerate(_SIZES):
        mine = [e for e in entries if (e.done.along, e.done.across)[axis] is not None]
        lipped = over and any(stand.part.edging.at(s) for s in ENDS_AND_EDGES if LIES[s][0] == axis)
        if len(mine) != lipped:
            what = f"how often the settings saw its {word} to size once it is lipped"
            yield Trouble("missing", what, times(int(lipped)), times(len(mine))), None
        elif mine:
            trouble = _sawn_to(stand, mine[0], axis, stand.part.size[axis], half_step)
            if trouble:
                yield trouble, mine[0]


def _is_to_a_line(entry: Entry) -> bool:
    return any(r is not None and r.end_mm is not None for r in (entry.done.along, entry.done.across))


def _sawn_askew(
    stand: Stand, entries: list[Entry], axis: int, mills: float, half_step: float
) -> Iterator[tuple[Trouble, Entry | None]]:
    """Each edge that runs askew is sawn once, to a line through both its corners."""
    added = {s: stand.part.edging.at(s) for s in ENDS_AND_EDGES}
    off = {s: a - mills if a else 0.0 for s, a in added.items()}
    lines = _askew_edges(stand, axis, off)
    if len(entries) != len(lines):
        what = f"how often the settings saw an edge of the {stand.part.name} that runs askew"
        yield Trouble("missing", what, times(len(lines)), times(len(entries))), None
        return
    for entry, ((_, first), (_, last)) in zip(entries, lines, strict=True):
        reading = (entry.done.along, entry.done.across)[axis]
        if reading is None or reading.end_mm is None or LIES[reading.from_surface][0] != axis:
            yield Trouble("surface", "the line to saw to is taken from no surface that it ends at"), entry
            continue
        far, less = LIES[reading.from_surface][1], off[reading.from_surface]
        want = [(stand.size[axis] - at if far else at) - less for at in (first, last)]
        for at, said in zip(want, (reading.mm, reading.end_mm), strict=True):
            if abs(at - said) > half_step + 1e-9:
                yield Trouble("sawing", "a mark of the line that an edge is sawn to", mm(at), mm(said)), entry
                break


def _askew_edges(
    stand: Stand, axis: int, off: Mapping[Surface, float]
) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    """Edges of the outline that end the board on this axis and run askew: there, one of its two ends is square.

    Each by its corners before edging, (along the edge, on the axis), the one nearest nought first; `off`: how far each
    edge then lies inside the finished one.
    """
    outline = stand.part.outline
    edges = list(zip(outline, (*outline[1:], outline[0]), strict=True))
    square = [a[axis] for a, b in edges if abs(a[axis] - b[axis]) <= DUST]
    if len(square) != 1:
        return []
    here = AT[axis, square[0] <= DUST]  # the askew end is the other one
    shifts = [off[here] if min(abs(a[0] - b[0]), abs(a[1] - b[1])) > DUST else off[_faces(a, b)] for a, b in edges]
    raw = shifted(outline, [-s for s in shifts])
    edges = list(zip(raw, (*raw[1:], raw[0]), strict=True))
    askew = [(a, b) for a, b in edges if abs(a[0] - b[0]) > DUST and abs(a[1] - b[1]) > DUST]
    pairs = [sorted(((a[1 - axis], a[axis]), (b[1 - axis], b[axis]))) for a, b in askew]
    return [(first, last) for first, last in pairs]


def _faces(a: tuple[float, float], b: tuple[float, float]) -> Surface:
    """The surface that an edge of an outline that runs along the board belongs to."""
    if abs(a[0] - b[0]) <= DUST:
        return "right_end" if b[1] > a[1] else "left_end"
    return "face_edge" if b[0] > a[0] else "far_edge"


def _sawn(stand: Stand, entry: Entry, axis: int, half_step: float) -> Trouble | None:
    part, word = stand.part, _SIZES[axis]
    reading = (entry.done.along, entry.done.across)[axis]
    if reading is None:
        return None
    forgotten = abs(reading.mm - part.cut[axis]) > half_step + 1e-9 and abs(reading.mm - part.size[axis]) < DUST
    if forgotten and LIES[reading.from_surface][0] == axis:
        what = f"the {word} to saw: edging forgotten on the {part.name}"
        return Trouble("edging", what, mm(part.cut[axis]), mm(reading.mm))
    trouble = _sawn_to(stand, entry, axis, part.cut[axis], half_step)
    if trouble is not None:
        return trouble
    if entry.setup.stage != "before edging":
        return Trouble("stage", "when it is sawn", "before edging", entry.setup.stage)
    tilt = max((abs(stand.slope.get(s, 0.0)) for s in ENDS_AND_EDGES if LIES[s][0] == axis), default=0.0)
    if abs((entry.setup.tilt or 0.0) - degrees(atan(tilt))) > TILT_DEG:
        what = "how the blade is tilted, degrees"
        return Trouble("setting", what, mm(degrees(atan(tilt))), mm(entry.setup.tilt or 0.0))
    return None


def _sawn_to(stand: Stand, entry: Entry, axis: int, want: float, half_step: float) -> Trouble | None:
    """A size that is sawn: from a surface that gives it, by its own name, with the fence set to it."""
    word = _SIZES[axis]
    reading = (entry.done.along, entry.done.across)[axis]
    if reading is None:
        return None
    if LIES[reading.from_surface][0] != axis:
        return Trouble("surface", f"no {word} is sawn from there", ("an end", "an edge")[axis], reading.word)
    if reading.word != stand.word.get(reading.from_surface):
        return Trouble(
            "word", "the surface has another name", stand.word.get(reading.from_surface, "none"), reading.word
        )
    if abs(reading.mm - want) > half_step + 1e-9:
        return Trouble("sawing", f"the {word} to saw", mm(want), mm(reading.mm))
    if entry.setup.registers_on != reading.word:
        return Trouble("word", "what the fence is put against", reading.word, entry.setup.registers_on)
    if entry.setup.fence is not None and abs(entry.setup.fence.mm - reading.mm) > DUST:
        return Trouble("setting", f"the fence for its {word}", mm(reading.mm), mm(entry.setup.fence.mm))
    return None


def marked(rod: Rod) -> Iterator[tuple[RodCabinet, str, Trouble]]:
    """Every board of the job has a mark of its own: (cabinet, part id, what is wrong)."""
    seen: dict[str, str] = {}
    for cabinet in rod.cabinets:
        for part in cabinet.parts:
            for mark in part.marks:
                if mark in seen:
                    yield cabinet, part.id, Trouble("mark", f"its mark {mark} is also on the {seen[mark]}")
                seen[mark] = f"{part.name} of {cabinet.name}"
