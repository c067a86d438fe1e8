"""Do the two halves of every pair, put together from their printed numbers, meet?"""

from rodwork.model.feature import Feature, Groove, Rebate
from rodwork.model.fixing import Fixing, Half
from rodwork.model.setup import Reading
from rodwork.setout.proving.gaps import NOWHERE, fouls, gap_of, off_axis, tongue_of
from rodwork.setout.proving.meetings import Met
from rodwork.setout.proving.printed import Void
from rodwork.setout.proving.stand import LIES, Point, Stand, along_axis
from rodwork.setout.proving.trouble import DUST, Trouble, mm

Stands = dict[str, Stand]
Voids = dict[str, Void]


def touching(met: Met) -> Trouble | None:
    """The contact lies in the face of the host that looks at the guest, and begins at the guest's datums.

    Passed over for backs, which have no second half.
    """
    if met.of_back:
        return None
    contact, host, guest = met.joint.contact, met.host, met.guest
    if contact.guest_register.bears in guest.slope:
        return _touching_on_a_slope(met)
    out, along, across = along_axis(contact.out), along_axis(contact.along), along_axis(contact.across)
    mine, theirs = contact.host_register, contact.guest_register
    for stand, surface, way, sign in (
        (host, mine.bears, out, 1),
        (guest, theirs.bears, out, -1),
        (guest, theirs.along_from, along, -1),
        (guest, theirs.across_from, across, -1),
    ):
        if way is None:
            return Trouble("joint", "the two boards do not meet squarely")
        looks = stand.toward.get(surface)
        if looks is not None and looks != (way.axis, sign * way.sign):
            what = f"the {stand.word[surface]} of the {stand.part.name} is no surface that this joint can be set from"
            return Trouble("surface", what)
        plane = stand.plane(surface)
        if plane is not None and surface != theirs.bears and abs(contact.from_point[way.axis] - plane[1]) > DUST:
            what = f"where the joint begins on the {stand.word[surface]} of the {stand.part.name}"
            return Trouble("joint", what, mm(plane[1]), mm(contact.from_point[way.axis]))
    return None


def _touching_on_a_slope(met: Met) -> Trouble | None:
    """The same where the guest's end is bevelled: in a mitre the host's is too, and they look into each other."""
    contact, host, guest = met.joint.contact, met.host, met.guest
    mine, theirs = contact.host_register, contact.guest_register
    for stand, surface, way in (
        (host, mine.bears, contact.out),
        (guest, theirs.bears, _against(contact.out)),
        (guest, theirs.along_from, _against(contact.along)),
    ):
        if sum(a * b for a, b in zip(stand.looks(surface), way, strict=True)) < 1 - 1e-6:
            what = f"the {stand.word[surface]} of the {stand.part.name} is no surface that this joint can be set from"
            return Trouble("surface", what)
    at = guest.on_board(contact.from_point)
    arris = guest.on_slope(theirs.bears, theirs.across_from, 0.0)
    further = guest.on_slope(theirs.bears, theirs.across_from, 1.0)
    if arris is None or further is None:
        return Trouble("joint", "the two boards do not meet squarely")
    across = guest.way_in_cabinet((further[0] - arris[0], further[1] - arris[1], further[2] - arris[2]))
    edge, far = LIES[theirs.along_from]
    begins = list(arris)
    begins[edge] = guest.size[edge] if far else 0.0
    off = max(abs(p - q) for p, q in zip(at, begins, strict=True))
    if met.mitre:
        there = host.on_board(contact.from_point)
        own = host.on_slope(mine.bears, mine.across_from, 0.0) or there
        off = max([off, *(abs(there[i] - own[i]) for i in (2, LIES[mine.bears][0]))])
    if off > DUST or max(abs(p - q) for p, q in zip(across, contact.across, strict=True)) > 1e-5:
        what = f"where the joint begins on the {guest.word[theirs.bears]} of the {guest.part.name}"
        return Trouble("joint", what, "at the arris", f"{mm(off)} off it")
    return None


def _against(way: Point) -> Point:
    return (-way[0], -way[1], -way[2])


def halves(met: Met, fixing: Fixing, stands: Stands) -> Trouble | None:
    """Each half is in the board that the joint says, and belongs to this joint."""
    for half, part in zip(fixing.halves, met.joint.parts, strict=True):
        if half.part != part:
            return Trouble("joint", f"{fixing.id} has a half in another board", part, half.part)
    for half in (*fixing.halves, *fixing.others):
        if half.feature is None:
            continue
        feature = _feature_of(half, stands)
        if feature is None:
            return _lost(fixing, half, stands)
        if feature.joint != met.joint.id:
            return Trouble("joint", f"{half.feature} is in {fixing.id}", met.joint.id, feature.joint or "no joint")
    return None


def _feature_of(half: Half, stands: Stands) -> Feature | None:
    stand = stands.get(half.part)
    return next((f for f in stand.part.features if f.id == half.feature), None) if stand else None


def _lost(fixing: Fixing, half: Half, stands: Stands) -> Trouble:
    stand = stands.get(half.part)
    other = next((s for s in stands.values() if any(f.id == half.feature for f in s.part.features)), None)
    if stand is not None and other is not None and other.part.role == stand.part.role == "side":
        what = f"left and right hands exchanged: {half.feature} is in the other side"
        return Trouble("hand", what, stand.part.name, other.part.name)
    found = other.part.name if other else "in no board"
    return Trouble("joint", f"where {half.feature} of {fixing.id} is", half.part, found)


def registering(met: Met, fixing: Fixing, voids: Voids, half_step: float) -> Trouble | None:
    """The registering pair lies in one plane, or differs by the line and set-back printed beside both."""
    half = voids.get(fixing.halves[0].feature or "")
    twin = voids.get(fixing.halves[1].feature or "")
    if half is None or met.of_back:
        return None
    done = half.entry.done
    for is_along, mine in ((False, done.across), (True, done.along)):
        theirs = None
        if twin is not None:
            theirs = twin.entry.done.along if is_along else twin.entry.done.across
        if mine is None:
            continue
        trouble = _one_plane(met, mine, theirs, is_along, half_step)
        if trouble is None and theirs is not None and not isinstance(half.feature, Groove):
            trouble = _agree(met, mine, theirs, is_along)
        if trouble is not None:
            return trouble
    return None


def _one_plane(met: Met, mine: Reading, theirs: Reading | None, is_along: bool, half_step: float) -> Trouble | None:
    host, guest, register = met.host, met.guest, met.joint.contact.guest_register
    surface = theirs.from_surface if theirs else register.along_from if is_along else register.across_from
    apart = _apart(met, mine.from_surface, surface)
    if apart is None:
        return None
    printed = mine.set_back if is_along else mine.line
    if printed is None and abs(apart) > DUST:
        what = (
            f"the {mine.word} of the {host.part.name} and the {guest.word.get(surface, surface)} of the "
            f"{guest.part.name} do not lie in one plane, and no {'set-back' if is_along else 'line'} is printed"
        )
        return Trouble("pair", what, "0.0 apart", f"{mm(apart)} apart")
    other = None if theirs is None else theirs.set_back if is_along else theirs.line
    if theirs is not None and mm(other) != mm(printed):
        what = f"the {'set-back' if is_along else 'line'} printed beside one half and beside the other"
        return Trouble("line", what, mm(other), mm(printed))
    if printed is not None and abs(apart - printed) > half_step + 1e-6:
        what = f"the {'set-back' if is_along else 'line'} is not where the {guest.part.name} comes"
        return Trouble("line", what, mm(apart), mm(printed))
    return None


def _apart(met: Met, host_surface: str, guest_surface: str) -> float | None:
    """How far the guest's surface lies inside the host's, mm; None where they are not parallel."""
    a, b = met.host.plane(host_surface), met.guest.plane(guest_surface)
    (axis, far), register = LIES[host_surface], met.joint.contact.guest_register
    on_slope = register.bears in met.guest.slope and not met.mitre
    if on_slope and axis != 2 and LIES[guest_surface][0] == 2:
        at = met.host.on_board(met.joint.contact.from_point)[axis]  # the guest's arris, which has been proven
        return met.host.size[axis] - at if far else at
    if a is None or b is None or a[0] != b[0]:
        return None
    return (b[1] - a[1]) * -met.host.toward[host_surface].sign


def _agree(met: Met, mine: Reading, theirs: Reading, is_along: bool) -> Trouble | None:
    """Host mm = guest mm + line (or the line less it, where the guest stands before its line)."""
    shift = (mine.set_back if is_along else mine.line) or 0.0
    way = 1 if is_along else met.guest_way(mine.from_surface, met.host)
    home = theirs.mm if theirs.end_mm is None else theirs.end_mm  # of a keyhole the screw's home agrees
    want = shift + way * home
    if abs(mine.mm - want) <= DUST:
        return None
    what = f"the two numbers of a pair do not agree: {mm(home)} from the {theirs.word} of the {met.guest.part.name}" + (
        f" and {mm(shift)} to there" if shift else ""
    )
    return Trouble("pair", what, f"{mm(want)} from the {mine.word}", mm(mine.mm))


def pair(met: Met, fixing: Fixing, stands: Stands, voids: Voids, half_step: float) -> Trouble | None:
    """Carried back into the cabinet, the two halves meet: face to face, on one axis, or the board in its groove."""
    half = voids.get(fixing.halves[0].feature or "")
    twin = voids.get(fixing.halves[1].feature or "")
    if half is None or fixing.law == "none":
        return None
    if fixing.law == "enter":
        return _enters(met, fixing, half, tongue_of(fixing, voids), half_step)
    if twin is None:
        return None
    facing = sum(a * b for a, b in zip(half.into, twin.into, strict=True))
    if facing > -1 + 1e-6 if fixing.law == "meet" else abs(facing) < 1 - 1e-6:
        return Trouble("pair", f"it and its mate in the {met.guest.part.name} do not face each other")
    if not _lie_alike(half, twin):
        return Trouble("pair", f"it and its mate in the {met.guest.part.name} do not lie the same way")
    gap, allowed = gap_of(fixing, stands, voids) or 0.0, _rounding(met, half, half_step)
    if gap > allowed + DUST:
        what = f"it does not meet its mate in the {met.guest.part.name}"
        return Trouble("pair", what, f"no more than {mm(allowed)} apart", f"{mm(gap)} apart")
    return _where(fixing, half, half_step)


def _lie_alike(half: Void, twin: Void) -> bool:
    """Two long halves lie along one line; a round one lies every way."""
    if "any way" in (half.feature.lies, twin.feature.lies):
        return True
    a, b = (v.stand.way_in_cabinet(v.feature.along) for v in (half, twin))
    return abs(abs(sum(p * q for p, q in zip(a, b, strict=True))) - 1) < 1e-6


def _where(fixing: Fixing, half: Void, half_step: float) -> Trouble | None:
    """The halves are where the joint has them, not only together."""
    off = [abs(a - b) for a, b in zip(half.mouth(), fixing.at, strict=True)]
    way = along_axis(half.into)
    if fixing.law == "line" and way is not None:
        off[way.axis] = 0.0  # anywhere on the axis
    if max(off) <= half_step + DUST:
        return None
    what = "both halves agree, and are not where the joint has them"
    return Trouble("pair", what, _at(fixing.at), _at(half.mouth()))


def _at(point: tuple[float, float, float]) -> str:
    return ", ".join(mm(v) for v in point)


def _rounding(met: Met, half: Void, half_step: float) -> float:
    """How far apart the rounding of the printed line and set-back may hold two halves, mm."""
    register, squares = met.joint.contact.guest_register, 0.0
    along, across = half.entry.done.along, half.entry.done.across
    for mine, printed, theirs in (
        (across, across.line if across else None, register.across_from),
        (along, along.set_back if along else None, register.along_from),
    ):
        apart = None if mine is None else _apart(met, mine.from_surface, theirs)
        if printed is not None and apart is not None:
            squares += min(half_step, abs(apart - printed)) ** 2
    return float(squares**0.5)


def _enters(met: Met, fixing: Fixing, groove: Void, tongue: Void | None, half_step: float) -> Trouble | None:
    """The guest board itself, or its tongue, lies in the groove, with the play that is said and no more."""
    guest = met.guest
    by = fouls(groove, guest, tongue)
    if by >= NOWHERE:
        return Trouble("pair", f"the {guest.part.name} does not reach into it")
    if by > half_step + DUST:
        return Trouble("pair", f"the {guest.part.name} does not go into it", "room for it", f"{mm(by)} too little")
    run = along_axis(groove.feature.along)
    if run is None or isinstance(groove.feature, Rebate):
        return _where(fixing, groove, half_step)
    across = 3 - run.axis - groove.axis
    enters = guest.size[2] - (tongue.entry.setup.depth or 0.0 if tongue is not None else 0.0)
    spare = groove.high[across] - groove.low[across] - enters
    if abs(spare - 2 * fixing.play.across) > 2 * half_step + DUST:
        return Trouble("pair", f"the play of the {guest.part.name} in it", mm(2 * fixing.play.across), mm(spare))
    return _where(fixing, groove, half_step)


def one_axis(met: Met, fixing: Fixing, voids: Voids, half_step: float) -> Trouble | None:
    """Pilot, clearance and counterbore of one screw stand on one axis; a nut's bore crosses it."""
    if fixing.law != "line":
        return None
    chief = next((v for h in fixing.halves if (v := voids.get(h.feature or ""))), None)
    for other in fixing.others:
        void = voids.get(other.feature or "")
        if chief is None or void is None or _crosses(chief, void):
            continue
        off = off_axis(chief, void)
        if off > DUST + (0.0 if void.stand is chief.stand else _rounding(met, chief, half_step)):
            return Trouble("pair", f"{other.feature} is off the axis of its screw", "on one axis", f"{mm(off)} off")
    return None


def _crosses(a: Void, b: Void) -> bool:
    return abs(sum(p * q for p, q in zip(a.into, b.into, strict=True))) < 1e-6
