"""Places along a run that are bored already: rows that may stand anywhere keep clear of them.

A back is screwed on, and a face frame held, where the shop's habit says; that screws come a little higher or lower does
no harm, but a screw in the dowel of a rail does. So these joints are planned after all others.
"""

from collections.abc import Iterable, Iterator, Mapping

from rodwork.geometry.vec import Vec, dot, sub
from rodwork.model.contact import Contact, Place
from rodwork.model.feature import Bore
from rodwork.model.machining import Machining
from rodwork.model.meeting import Carcass, Meeting, PinRow
from rodwork.model.panel import Panel

MAY_MOVE: tuple[Place, ...] = ("planted back", "face frame")
NEAR_MM = 30.0  # as deep into its boards as a screw of such a row goes beside others' bores
POCKET_MM = 60.0  # and a pocket, with its mouth: behind it stand pins and hinge plates
_INSIDE: tuple[Place, ...] = ("fixed shelf", "divider")
BESIDE_MM = 3.0  # across the board: its own faces, and hardly more
Bored = tuple[float, float]  # along the run, and half of its bore


def bored_along(
    meeting: Meeting, panels: Mapping[str, Panel], carcass: Carcass, made: Iterable[Machining]
) -> tuple[Bored, ...]:
    """What is bored near this contact in either of its boards, mm along the run from its beginning.

    Before a face frame a shelf or a divider counts as well, whatever joins it: slots and housings are no bores.
    """
    boards, contact = (meeting.host, meeting.guest), meeting.contact
    found = [(b.at, b.diameter / 2) for b in carcass.fitting_bores if b.panel in boards]
    found += [pin for row in carcass.pin_rows if row.panel in boards for pin in _pins(row, panels[row.panel])]
    for one in made:
        if one.part in boards and isinstance(one.feature, Bore):
            found.append((panels[one.part].pose.to_cabinet(one.feature.at), one.feature.diameter / 2))
    here = [(_along(contact, at), half) for at, half in found if _near(contact, at)]
    if contact.place == "face frame":
        joined = (panels[m.guest] for m in carcass.meetings if m.host == meeting.guest and m.contact.place in _INSIDE)
        here += [(_along(contact, _middle(board)), board.size[2] / 2) for board in joined]
    return tuple(here)


def _pins(row: PinRow, board: Panel) -> Iterator[tuple[Vec, float]]:
    """Bores for shelf pins, on whichever face of an upright: what is behind a pocket is in its way from either."""
    x, y, z = board.box[0]
    return (((x, y + row.from_front, z + height), row.diameter / 2) for height in row.heights)


def _middle(board: Panel) -> Vec:
    (x0, y0, z0), (x1, y1, z1) = board.box
    return (x0 + x1) / 2, (y0 + y1) / 2, (z0 + z1) / 2


def moved_clear(
    row: tuple[float, ...], bored: tuple[Bored, ...], half: float, wood: float, step: float
) -> tuple[float, ...]:
    """Each of a row at the nearest place with `wood` between it and all that is bored; none is moved past another.

    Where no place is clear it stays, and a check says so.
    """
    if not bored:
        return row
    out: list[float] = []
    for n, u in enumerate(row):
        low = (out[-1] + u) / 2 if n else u / 2
        high = (u + row[n + 1]) / 2 if n + 1 < len(row) else u
        steps = int(max(u - low, high - u) / step)
        tries = (round(u + sign * k * step, 6) for k in range(steps + 1) for sign in (-1, 1))
        free = (
            t for t in tries if low <= t <= high and all(abs(t - at) >= half + r + wood - 1e-6 for at, r in bored)
        )  # fmt: skip
        out.append(next(free, u))
    return tuple(out)


def _along(contact: Contact, at: Vec) -> float:
    return dot(sub(at, contact.from_point), contact.along)


def _near(contact: Contact, at: Vec) -> bool:
    off = sub(at, contact.from_point)
    beside = dot(off, contact.across)
    deep = POCKET_MM if contact.place == "face frame" else NEAR_MM
    return abs(dot(off, contact.out)) <= deep and -BESIDE_MM <= beside <= contact.width + BESIDE_MM
