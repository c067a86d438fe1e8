"""Where a guest's edge or end meets a host, from the two panels and the surfaces each half is set out from."""

from math import inf

from rodwork.geometry.vec import Vec, along, clean, dot, neg, norm, sub
from rodwork.model.contact import Contact, Place, Register
from rodwork.model.job import Recipe
from rodwork.model.meeting import Meeting
from rodwork.model.panel import Panel, Point
from rodwork.model.slope import (
    across_the_board,
    askew,
    bevel_at,
    corner_of,
    inward_of,
    on_the_slope,
    outward_of,
    reckoned_outwards,
    run_of,
)
from rodwork.model.surface import EDGES, OPPOSITE, Surface, axis_of, distance_from, surface_facing

_FLUSH_MM = 3e-6  # points are cleaned to the sixth digit on both boards


def meet(
    *,
    host: Panel,
    guest: Panel,
    place: Place,
    host_register: Register,
    guest_register: Register,
    recipe: Recipe,
    stagger: int = 0,
    covered: bool = False,
    groove_at: Vec | None = None,
    datum: bool = True,
) -> Meeting:
    """The meeting of two panels.

    `groove_at`: a point on the near wall of a back groove in the host, cabinet axes, where fixings must end.
    `datum` is False where a board enters a back groove: its numbers come from the host's own ends.
    """
    own = guest_register
    along_run = guest.pose.direction_to_cabinet(run_of(guest, own.bears, own.along_from, own.across_from))
    out = guest.pose.direction_to_cabinet(inward_of(guest, guest_register.bears))
    across = guest.pose.direction_to_cabinet(neg(reckoned_outwards(guest, own.bears, own.across_from)))
    corner = guest.pose.to_cabinet(corner_of(guest, own.bears, own.along_from, own.across_from))
    mitred = bevel_at(host, host_register.bears) != 0  # there the two arrises are one
    reach = 0.0 if mitred else distance_from(host_register.bears, host.size, host.pose.to_part(corner))
    reach = 0.0 if abs(reach) < _FLUSH_MM else reach
    origin = along(corner, (out, reach))
    start, end, host_start, host_end = _overlap(host, guest, guest_register, origin, along_run, reach)
    if datum:
        start = 0.0  # numbers run from the guest's own end, even where the host begins a little later
    origin = clean(along(origin, (along_run, start)))
    length = end - start
    line = set_back = None
    if datum and not across_the_board(host, along_run):  # else every place along it is its own
        at = host.pose.to_part(origin)
        line = _offset(distance_from(host_register.across_from, host.size, at))
        set_back = _offset(distance_from(host_register.along_from, host.size, at))
    contact = Contact(
        from_point=origin, to_point=clean(along(origin, (along_run, length))), along=along_run, across=across,
        out=out, width=_width(guest, guest_register), place=place,
        host_register=host_register, guest_register=guest_register, line=line, set_back=set_back,
    )  # fmt: skip
    to_groove = groove_at is not None
    wall = start + dot(sub(groove_at, origin), along_run) if groove_at is not None else host_end
    if wall > end - _FLUSH_MM:  # else the guest goes on past the groove, to the end of the host
        host_end = min(host_end, wall)
    run_to = min(length, dot(sub(groove_at, origin), along_run)) if groove_at is not None else length
    return Meeting(
        id=f"{host.id} / {guest.id}", host=host.id, guest=guest.id, contact=contact, recipe=recipe,
        host_thickness=host.size[2 if mitred else axis_of(host_register.bears)], reach=round(reach, 6),
        run_to=round(run_to, 6), to_groove=to_groove, stagger=stagger, covered=covered,
        beyond_start=round(start - host_start, 6), beyond_end=round(host_end - end, 6),
        host_run=_host_run(host, along_run),
    )  # fmt: skip


def edge_to_edge(*, host: Panel, guest: Panel, toward: Vec, datum: Vec, flush: Vec, recipe: Recipe) -> Meeting:
    """The meeting of two boards joined in width, edge against edge, one pair of faces flush.

    Ways in the cabinet: `toward` from host to guest, `datum` that of the ends from which numbers along the joint
    are taken (left, else down), `flush` that in which the flush faces look.
    """

    def register(panel: Panel, edge: Vec) -> Register:
        return Register(
            bears=facing(panel, edge), along_from=facing(panel, datum), across_from=facing(panel, flush)
        )  # fmt: skip

    return meet(
        host=host, guest=guest, place="edge to edge", recipe=recipe,
        host_register=register(host, toward), guest_register=register(guest, neg(toward)),
    )  # fmt: skip


def facing(panel: Panel, way: Vec) -> Surface:
    """The surface of a panel that looks this way in the cabinet; of one on a slope, if it lay level."""
    return surface_facing(panel.pose.direction_if_level(way))


def _width(guest: Panel, register: Register) -> float:
    """How wide the surface that meets the host is, along it, mm."""
    wide = guest.size[axis_of(register.across_from)]
    return round(on_the_slope(guest, register.bears, wide), 6) if axis_of(register.across_from) == 2 else wide


def _offset(distance: float) -> float | None:
    """None where the two surfaces are flush, else how far apart they lie."""
    return None if abs(distance) < _FLUSH_MM else round(distance, 6)


def _overlap(
    host: Panel, guest: Panel, register: Register, origin: Vec, along_run: Vec, reach: float
) -> tuple[float, float, float, float]:
    """Where the run begins and ends (both boards are there), and where the host does, from the corner, mm."""
    bears, across = register.bears, register.across_from
    beside = guest.pose.to_cabinet(corner_of(guest, bears, register.along_from, OPPOSITE[across]))
    host_start, host_end = _span(host, origin, along_run, beside)
    first, last = (
        guest.pose.to_cabinet(corner_of(guest, bears, end, across))
        for end in (register.along_from, OPPOSITE[register.along_from])
    )
    start, end = 0.0, round(dot(sub(last, first), along_run) + _grows(guest, register, reach), 6)
    return max(start, host_start), min(end, host_end), host_start, host_end


def _grows(guest: Panel, register: Register, reach: float) -> float:
    """How much longer the guest is where it leaves the host's face than at its edge: its far end may run askew."""
    far = OPPOSITE[register.along_from]
    if not askew(guest.outline, far) or askew(guest.outline, register.bears):
        return 0.0
    end, run = outward_of(guest, far), run_of(guest, register.bears, register.along_from, register.across_from)
    return max(0.0, -dot(end, inward_of(guest, register.bears)) / dot(end, run)) * max(reach, 0.0)


def _span(host: Panel, origin: Vec, direction: Vec, beside: Vec) -> tuple[float, float]:
    """Where the host begins and ends along a line, mm from the origin; `beside`: a point beyond the guest's width.

    One with an edge askew does so where the first of the two long edges of what meets it does.
    """
    pose = host.pose
    if any(askew(host.outline, edge) for edge in EDGES):
        way = pose.direction_to_part(direction)
        off = sub(beside, along(origin, (direction, dot(sub(beside, origin), direction))))
        spans = [_crossed(host.outline, pose.to_part(p), way) for p in (origin, along(origin, (off, 1.0)))]
        return max(s[0] for s in spans), min(s[1] for s in spans)
    at = sorted(dot(sub(pose.to_cabinet(c), origin), direction) for c in ((0.0, 0.0, 0.0), host.size))
    return at[0], at[1]


def _crossed(outline: tuple[Point, ...], at: Vec, way: Vec) -> tuple[float, float]:
    """From where to where a line lies between the edges of a convex outline that it crosses, drawn out."""
    first, last = -inf, inf
    for (ax, ay), (bx, by) in zip(outline, (*outline[1:], outline[0]), strict=True):
        out = (by - ay, ax - bx, 0.0)
        if abs(leans := dot(out, way)) > 1e-9 * norm(out):
            crosses = dot(out, (ax - at[0], ay - at[1], 0.0)) / leans
            first, last = (first, min(last, crosses)) if leans > 0 else (max(first, crosses), last)
    return first, last


def _host_run(host: Panel, along_run: Vec) -> tuple[Surface, Surface]:
    """The host's edges where the run begins and where it ends."""
    way = host.pose.direction_to_part(along_run)
    axis = max(range(3), key=lambda i: abs(way[i]))
    low: tuple[Surface, Surface, Surface] = ("left_end", "face_edge", "back_side")
    first = low[axis]
    return (first, OPPOSITE[first]) if way[axis] > 0 else (OPPOSITE[first], first)
