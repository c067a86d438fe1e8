"""Is each bore and groove in the settings once, on the right board, surface, hand, end and datum?"""

import re
from collections.abc import Iterator, Sequence
from math import atan, degrees

from rodwork.model.feature import Bore, Cutout, Feature, Groove, Keyhole, Pocket, Slot
from rodwork.model.setup import Reading, Setup
from rodwork.model.surface import Surface
from rodwork.setout.proving.meetings import Met
from rodwork.setout.proving.printed import Entry, Void, read
from rodwork.setout.proving.stand import AT, ENDS_AND_EDGES, LIES, NAMED, Stand, along_axis
from rodwork.setout.proving.trouble import DUST, TILT_DEG, Trouble, mm, times

_FROM = ("along the length from the left end", "front to back from the front edge", "heights from the bottom end")
_CORNER_FROM = (
    "the right corner from the right end",
    "a drawer's back corner from the back end",
    "the top corner from the top end",
)


def listed(feature: Feature, entries: Sequence[Entry]) -> Trouble | None:
    """In exactly one setting; or, bored in place or bought, in none."""
    if feature.stage == "as bought":
        where = ", ".join(e.setup.id for e in entries)
        return Trouble("stage", "it comes bored", "in no setting", where) if entries else None
    if feature.stage == "in place":
        where = ", ".join(e.setup.id for e in entries)
        return Trouble("stage", "it is bored in place at assembly", "in no setting", where) if entries else None
    if len(entries) == 1:
        return None
    where = ", ".join(e.setup.id for e in entries)
    found = times(len(entries)) + (f" ({where})" if where else "")
    return Trouble("twice" if entries else "missing", "how often the settings list has it", "once", found)


def on_its_board(stand: Stand, entry: Entry, stands: dict[str, Stand]) -> Trouble | None:
    """The settings work it on the board that has it."""
    if entry.done.part == stand.part.id:
        return None
    other = stands.get(entry.done.part)
    found = other.part.name if other else entry.done.part
    if other is not None and other.part.role == stand.part.role == "side":
        what = "left and right hands exchanged: it is set out on the other side"
        return Trouble("hand", what, stand.part.name, found)
    return Trouble("wrong board", "it is set out on another board", stand.part.name, found)


def mouth(stand: Stand, feature: Feature, entry: Entry) -> Trouble | None:
    """The mouth lies in the surface that is worked, and the tool goes in there."""
    surface = _worked(stand, feature)
    if surface is None:
        return Trouble("surface", "it goes in askew, and no setting for that is known")
    axis = LIES[surface][0]
    if entry.done.bears != surface:
        found = stand.word.get(entry.done.bears or "", "no surface")
        return Trouble("surface", "worked from the wrong surface", stand.word.get(surface, surface), found)
    if surface in stand.slope:
        return _on_its_slope(stand, feature, surface)
    levels = {stand.coordinate(surface, 0.0, raw) for raw in (False, feature.stage == "before edging")}
    off = min(abs(feature.at[axis] - level) for level in levels)
    if off > DUST:
        return Trouble("surface", f"its mouth lies {mm(off)} away from the {stand.word.get(surface, surface)}")
    return None


def _on_its_slope(stand: Stand, feature: Feature, surface: Surface) -> Trouble | None:
    """The mouth lies in the bevelled end: as far along as its height above the back side says."""
    z, axis = feature.at[2], LIES[surface][0]
    lean = stand.slope[surface]
    there = stand.on_slope(surface, "back_side", z * (1.0 + lean * lean) ** 0.5)
    off = abs(feature.at[axis] - there[axis]) if there else 0.0
    if off > DUST or not -DUST <= z <= stand.size[2] + DUST:
        return Trouble("surface", f"its mouth lies {mm(off)} away from the slope of the {stand.word[surface]}")
    return None


def _worked(stand: Stand, feature: Feature) -> Surface | None:
    """The surface that the tool comes through: square to it, or, for a pocket, askew through a face."""
    for surface in ENDS_AND_EDGES:
        if surface in stand.slope and not isinstance(feature, Pocket):
            out, into = stand.looks(surface), stand.way_in_cabinet(feature.into)
            if sum(a * b for a, b in zip(out, into, strict=True)) < -1 + 1e-9:
                return surface
    inward = along_axis(feature.into)
    if inward is not None:
        return AT[inward.axis, inward.sign < 0]
    if isinstance(feature, Pocket) and abs(feature.into[2]) > 1e-6:
        return AT[2, feature.into[2] < 0]
    return None


def datums(
    stand: Stand, entry: Entry, met: Met | None, half_step: float, hinged: Surface | None = None
) -> Trouble | None:
    """Each printed number is taken from the right surface, and that surface goes by its right name.

    `hinged`: the hinged edge of a door, whose cups and handles are set out from it or from the one opposite.
    """
    for reading, is_along in ((entry.done.along, True), (entry.done.across, False)):
        if reading is None:
            continue
        surface = reading.from_surface
        if surface not in stand.word:
            return Trouble("surface", "a number is taken from no surface", "", surface)
        trouble = None
        aside = met is not None and not is_along and _aside(stand, entry, met)
        if met is not None:
            trouble = _registers(stand, reading, met, is_along, aside) or _outer_face(stand, reading, met)
        trouble = trouble or (None if aside or _across_a_door(reading, hinged) else _datum(stand, reading, met))
        name = _name(stand, surface, entry.done.bears)
        if trouble is None and reading.word != name:
            trouble = Trouble("word", "the surface has another name", name, reading.word)
        if trouble is None and met is not None:
            trouble = _line(reading, met, is_along, aside, half_step)
        if trouble is not None:
            return trouble
    return None


def _name(stand: Stand, surface: str, bears: str | None) -> str:
    """What a surface is called that a number is from: on a slope a rule is put to its arris."""
    arris = " arris" if bears in stand.slope and LIES[surface][0] == 2 else ""
    return stand.word[surface] + arris


def _across_a_door(reading: Reading, hinged: Surface | None) -> bool:
    return hinged is not None and LIES[reading.from_surface][0] == LIES[hinged][0]


def _aside(stand: Stand, entry: Entry, met: Met) -> bool:
    """Worked in a face of the board that meets with its end: there the numbers across are from that end."""
    if stand.part.id not in met.joint.parts or entry.done.bears not in LIES:
        return False
    return LIES[entry.done.bears][0] == LIES[met.registers(stand.part.id)[0].across_from][0]


def _registers(stand: Stand, reading: Reading, met: Met, is_along: bool, aside: bool) -> Trouble | None:
    """The surface that the joint registers on, named beside the one its mate registers on."""
    part = stand.part.id
    if part not in met.joint.parts:
        return _stranger(stand, met)
    mine, theirs = met.registers(part)
    wanted = mine.along_from if is_along else mine.bears if aside else mine.across_from
    if reading.from_surface == wanted:
        return None
    mate = met.mate(part)
    other = mate.word.get(theirs.along_from if is_along else theirs.across_from, "other surface")
    what = (
        f"registers on the {stand.word[reading.from_surface]} where its mate registers on the {other} of the "
        f"{mate.part.name}"
    )
    found = f"from the {stand.word[reading.from_surface]}"
    return Trouble("surface", what, f"from the {stand.word.get(wanted, wanted)}", found)


def _stranger(stand: Stand, met: Met) -> Trouble:
    """The bore or groove belongs to a joint of other boards."""
    hands = stand.part.role == met.host.part.role == "side"
    what = f"it belongs to the joint {met.joint.id}"
    expected, found = " or ".join(met.joint.parts), f"on the {stand.part.name}"
    if hands:
        return Trouble("hand", f"left and right hands exchanged: {what}", expected, found)
    return Trouble("joint", what, expected, found)


def _outer_face(stand: Stand, reading: Reading, met: Met) -> Trouble | None:
    """A flush corner: the board worked on its end registers on its outer face (the registering pair).

    Or on its inner face, where the line that this comes to, its own thickness from the other's end, is printed.
    """
    word = stand.word[reading.from_surface]
    if met.mitre and LIES[reading.from_surface][0] == 2 and word != "outside":
        what = f"registers on the {word} arris where only the outside arris of a mitre is seen"
        return Trouble("surface", what, "from the outside arris", f"from the {word} arris")
    if not met.corner or stand is not met.guest or LIES[reading.from_surface][0] != 2:
        return None
    inner = abs((met.joint.contact.line or 0.0) - stand.size[2]) <= DUST
    names = ("upper side", "underside") if stand.part.role == "rail" else ("outside", "inside")
    if word == names[inner]:
        return None
    what = f"registers on the {word} where its mate registers on its end: a flush corner is set from outside"
    return Trouble("surface", what, "from the outside", f"from the {word}")


def _datum(stand: Stand, reading: Reading, met: Met | None) -> Trouble | None:
    """Heights from the bottom, widths from the left, depths from the front; two corners from their own ends."""
    surface = reading.from_surface
    if LIES[surface][0] == 2:
        return None
    way = stand.named[surface]
    if met is not None and met.mitre and met.guest is stand and way.axis != 1:
        return None  # in a face of it from the mitre, whichever end that is
    if met is not None and met.of_back and (way.axis == 1 or stand.part.role == "back"):
        return None
    own = met is not None and (met.right_corner, met.back_corner, met.top_corner)[way.axis]
    if (way.sign > 0) == own:
        return None
    word = f"{NAMED[way.axis][own]} {'end' if LIES[surface][0] == 0 else 'edge'}"
    rule = (_CORNER_FROM if own else _FROM)[way.axis]
    what = f"taken from the wrong end or edge ({rule})"
    return Trouble("datum", what, f"from the {word}", f"from the {stand.word[surface]}")


def _line(reading: Reading, met: Met, is_along: bool, aside: bool, half_step: float) -> Trouble | None:
    """Line and set-back are printed beside both halves as the joint has them, to half a printed step."""
    contact = met.joint.contact
    line = None if aside else contact.line
    said, printed = (contact.set_back, reading.set_back) if is_along else (line, reading.line)
    stray = reading.line if is_along else reading.set_back
    word = "set-back" if is_along else "line"
    if (said is None) != (printed is None) or abs((said or 0.0) - (printed or 0.0)) > half_step + 1e-6:
        return Trouble("line", f"the {word} that is printed", mm(said), mm(printed))
    if stray is not None:
        return Trouble("line", f"a number printed beside the wrong {word}", "none", mm(stray))
    return None


def machine(stand: Stand, feature: Feature, entry: Entry, met: Met | None) -> Trouble | None:
    """Stage, fence, stops, bit and depth are those of this bore or groove."""
    setup = entry.setup
    if setup.stage != feature.stage:
        return Trouble("stage", "when it is done", feature.stage, setup.stage)
    tilt = degrees(atan(abs(stand.slope.get(entry.done.bears or "", 0.0))))
    if abs((setup.tilt or 0.0) - tilt) > TILT_DEG:
        return Trouble("setting", "how the fence is tilted, degrees", mm(tilt), mm(setup.tilt or 0.0))
    return _fence(stand, feature, entry, met) or _through(stand, feature) or _depth(feature, setup)


def _fence(stand: Stand, feature: Feature, entry: Entry, met: Met | None) -> Trouble | None:
    """The fence is put against a surface that a number is from, and set to that number, or from the line."""
    setup = entry.setup
    readings = [r for r in (entry.done.across, entry.done.along) if r is not None]
    against = [r for r in readings if r.word == setup.registers_on]
    if not against:
        words = " or ".join(r.word for r in readings)
        return Trouble("word", "what the fence is put against", words, setup.registers_on)
    host = met is not None and stand is met.host
    if setup.fence is not None:
        wanted = [v for r in against for v in _set_to(r, host, met, stand)]
        if not any(abs(setup.fence.mm - v) <= DUST for v in wanted):
            return Trouble("setting", "the fence", " or ".join(mm(v) for v in wanted), mm(setup.fence.mm))
    if isinstance(feature, Groove | Cutout) or not isinstance(setup.stop, tuple) or not setup.stop:
        return None
    others = [r for r in readings if r is not against[0]]
    wanted = [v for r in others for v in _set_to(r, host, met, stand)]
    if wanted and not any(abs(stop - v) <= DUST for stop in setup.stop for v in wanted):
        return Trouble("setting", "no stop is set for it", mm(wanted[0]), ", ".join(mm(s) for s in setup.stop))
    return None


def _set_to(reading: Reading, host: bool, met: Met | None, stand: Stand) -> Iterator[float]:
    """What a fence or a stop may read for this number: on the host, from the line or without the set-back.

    A line that falls off the board (less than nought) is no place for a batten: then it is set from the edge.
    """
    for value in (reading.mm, reading.end_mm):
        if value is None:
            continue
        if host and met is not None and (reading.line or 0.0) > 0:
            yield met.guest_way(reading.from_surface, stand) * (value - (reading.line or 0.0))
        else:
            yield value
            if host and reading.set_back:
                yield value - reading.set_back


def _through(stand: Stand, feature: Feature) -> Trouble | None:
    """A bore right through is as deep as the board, or as the board is below the housing of its own joint."""
    inward = along_axis(feature.into)
    if not _goes_through(feature) or inward is None:
        return None
    board = stand.size[inward.axis]
    housed = [g.depth for g in stand.part.features if isinstance(g, Groove) and g.joint == feature.joint]
    if any(abs(feature.depth - (board - less)) <= DUST for less in (0.0, *housed)):
        return None
    return Trouble("depth", "it goes right through", mm(board), mm(feature.depth))


def _goes_through(feature: Feature) -> bool:
    return isinstance(feature, Cutout) or (isinstance(feature, Bore) and feature.through)


def _depth(feature: Feature, setup: Setup) -> Trouble | None:
    through = _goes_through(feature)
    if not (through and setup.depth is None) and (setup.depth is None or abs(setup.depth - feature.depth) > DUST):
        return Trouble("depth", "its depth", mm(feature.depth), mm(setup.depth))
    bit = re.fullmatch(r"(\d+(?:\.\d+)?) mm", setup.cutter or "")
    size = _cut_with(feature)
    if size is not None and bit and abs(float(bit[1]) - size) > DUST:
        return Trouble("setting", "the bit", f"{mm(size)} mm", bit[0])
    return None


def _cut_with(feature: Feature) -> float | None:
    """The size of the bit or cutter that makes it in one pass; None where several would do."""
    if isinstance(feature, Bore | Pocket):
        return feature.diameter
    return feature.width if isinstance(feature, Slot) else None


def place(stand: Stand, feature: Feature, entry: Entry, half_step: float) -> tuple[Void | None, Trouble | None]:
    """The void that the printed numbers make, and whether each wall is within half a printed step."""
    void = read(stand, feature, entry)
    if void is None:
        return None, Trouble("place", "its printed numbers do not fix a place on the board")
    low, high = walls(feature)
    for reading in (entry.done.along, entry.done.across):
        if reading is None:
            continue
        axis = LIES[reading.from_surface][0]
        if isinstance(feature, Groove | Cutout) and reading.end_mm is None:
            return void, Trouble("place", f"only one wall is given from the {reading.word}", "two", "one")
        off = max(abs(void.low[axis] - low[axis]), abs(void.high[axis] - high[axis]))
        if off > half_step + 1e-6:
            return void, _misplaced(stand, feature, reading, off)
    return void, _entry_bore(stand, feature, entry, half_step) if isinstance(feature, Keyhole) else None


def _entry_bore(stand: Stand, feature: Keyhole, entry: Entry, half_step: float) -> Trouble | None:
    """The head goes in `slide` away from its home, on the side that `along` points to."""
    for reading in (entry.done.along, entry.done.across):
        if reading is None:
            continue
        axis = LIES[reading.from_surface][0]
        wanted = feature.at[axis] + feature.along[axis] * feature.slide
        off = abs(stand.coordinate(reading.from_surface, reading.mm, feature.stage == "before edging") - wanted)
        if off > half_step + 1e-6:
            return Trouble("place", f"the entry bore of a keyhole is {mm(off)} out from the {reading.word}")
    return None


def _misplaced(stand: Stand, feature: Feature, reading: Reading, off: float) -> Trouble:
    low, high = walls(feature)
    axis = LIES[reading.from_surface][0]
    zero = stand.coordinate(reading.from_surface, 0.0, feature.stage == "before edging")
    expected = " to ".join(mm(v) for v in sorted({round(abs(zero - v), 3) for v in (low[axis], high[axis])}))
    found = mm(reading.mm) + ("" if reading.end_mm is None else f" to {mm(reading.end_mm)}")
    return Trouble("place", f"its number from the {reading.word} is {mm(off)} out", expected, found)


def walls(feature: Feature) -> tuple[list[float], list[float]]:
    """Lowest and highest coordinate of the mouth on each axis of the board (of a bore: its middle)."""
    low, high = list(feature.at), list(feature.at)
    run, into = along_axis(feature.along), along_axis(feature.into)
    if isinstance(feature, Groove | Cutout) and run is not None and into is not None:
        for axis, size in ((run.axis, feature.length), (3 - run.axis - into.axis, feature.width)):
            low[axis] -= size / 2
            high[axis] += size / 2
    return low, high


def shared(setups: tuple[Setup, ...]) -> Iterator[tuple[str, Trouble]]:
    """A fence set once reads one figure; every stop is some board's; no two settings share a name."""
    fences: dict[str, tuple[float, str]] = {}
    ids: set[str] = set()
    for setup in setups:
        cabinet = setup.features[0].cabinet if setup.features else ""
        if setup.id in ids:
            yield cabinet, Trouble("twice", f"two settings are called {setup.id}")
        ids.add(setup.id)
        if setup.fence is not None:
            first, where = fences.setdefault(setup.fence.id, (setup.fence.mm, setup.id))
            if abs(first - setup.fence.mm) > DUST:
                what = f"fence {setup.fence.id}, set once for settings {where} and {setup.id}"
                yield cabinet, Trouble("setting", what, mm(first), mm(setup.fence.mm))
        for stop in _idle_stops(setup):
            yield cabinet, Trouble("setting", f"setting {setup.id} has a stop at {mm(stop)}, where nothing is bored")


def _idle_stops(setup: Setup) -> list[float]:
    if not isinstance(setup.stop, tuple) or not setup.stop:
        return []
    used: set[float] = set()
    for done in setup.features:
        for r in (done.along, done.across):
            if r is not None:
                net = r.mm - (r.line or 0.0)
                used |= {round(v, 2) for v in (r.mm, r.end_mm or r.mm, net, -net, r.mm - (r.set_back or 0.0))}
    return [stop for stop in setup.stop if round(stop, 2) not in used]
