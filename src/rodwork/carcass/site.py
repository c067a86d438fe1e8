"""What every step of building one cabinet shares: its sizes and rules, how a board of it is made and butted."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from rodwork.carcass import back as backs
from rodwork.carcass import front_grid, rails, under_roof
from rodwork.carcass.boards import UNNOTCHED, Notches, panel
from rodwork.carcass.contacts import facing, meet
from rodwork.carcass.divide import Division, divide
from rodwork.geometry.directions import FRONT
from rodwork.geometry.vec import Matrix, Vec, neg
from rodwork.model.contact import Place, Register
from rodwork.model.job import Back, Board, Cabinet, CannotBuild, Edging, Recipe
from rodwork.model.meeting import Entry, EntryOf, Meeting
from rodwork.model.panel import Panel, Role
from rodwork.model.shop import Shop
from rodwork.model.surface import EDGES, SURFACES, Surface

DRIVER_MM = 30.0  # beside a screw, for the drill that drives it; common practice, no source
SHOWS: dict[Role, tuple[Surface, ...]] = {
    "side": ("face_edge", "face_side", "back_side"),
    "top": ("face_edge", "face_side"),
    "bottom": ("face_edge", "face_side"),
    "fixed shelf": ("face_edge", "face_side", "back_side"),
    "loose shelf": ("face_edge", "face_side", "back_side"),
    "divider": ("face_edge", "face_side", "back_side"),
    "part divider": ("face_edge", "face_side", "back_side"),
    "rail": ("face_side",),
    "batten": (),
    "stiffener": ("face_edge", "face_side"),
    "plinth board": ("face_side",),
    "plinth frame": (),
    "back": ("face_side",),
    "face frame": (*EDGES, "back_side"),
    "infill": (*EDGES, "face_side"),
    "door": SURFACES,
    "drawer front": SURFACES,
    "drawer side": ("far_edge", "face_side"),
    "drawer back": ("far_edge", "face_side"),
    "drawer bottom": ("face_side",),
    "scribe": ("face_side",),
}
_EDGED_FRONT: dict[str, tuple[Role, ...]] = {
    "fronts": ("side", "top", "bottom", "fixed shelf", "loose shelf", "divider", "part divider"),
    "shelf fronts": ("fixed shelf", "loose shelf"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """What every step of building one cabinet needs."""

    cabinet: Cabinet
    board: Board
    shelf_board: Board
    edging: Edging | None
    shop: Shop
    entry: EntryOf
    frame: backs.Frame
    bays: Division
    heights: tuple[Division, ...]  # of each bay
    framed: rails.Framed
    railed: rails.Railed
    roof: under_roof.Roof | None = None

    @property
    def rail_joint(self) -> Recipe:
        """How its rails are joined."""
        return self.cabinet.rail_joint or self.cabinet.corner_joint

    @property
    def spaces(self) -> tuple[tuple[tuple[float, float], ...], ...]:
        """From where to where every opening is clear, bay by bay, each from the bottom."""
        return tuple(heights.spaces for heights in self.heights)

    def sides_pass(self, cross: str) -> bool:
        """Whether the sides run on past the ends of the top, or of the bottom."""
        return self.cabinet.sides == "through" or (self.cabinet.sides == "under the top" and cross == "bottom")


def site_of(
    cabinet: Cabinet,
    boards: Mapping[str, Board],
    edgings: Mapping[str, Edging],
    shop: Shop,
    back_recipe: Callable[[Back], Recipe],
    entry: EntryOf,
) -> Site:
    """The site of one cabinet. Raises CannotBuild where its boards leave no room inside it."""
    board, shelf_board = boards[cabinet.board], boards[cabinet.shelf_board]
    t = board.actual_mm
    for size, word in ((cabinet.width_mm, "width"), (cabinet.height_mm, "height")):
        if 2 * t >= size - 20:
            raise CannotBuild(
                (*cabinet.place.path, word),
                f"two boards of {t:g} mm leave {max(size - 2 * t, 0):g} mm inside a {word} of {size:g}",
                f"make the {word} at least {2 * t + 20:g}, or use a thinner board",
            )
    _refuse_hidden_edging(cabinet)
    edging = edgings[cabinet.edging.edging] if cabinet.edging else None
    frame = backs.frame(cabinet, boards, t, back_recipe, entry, shop, edging.adds_mm if edging else 0.0)
    path = cabinet.place.path
    roof = under_roof.roof_of(cabinet, t)
    framed = rails.Framed(
        cabinet=cabinet, board=board, edging=edging, cross=frame.cross_depth, shelf_back=frame.shelf_back,
        back_front=frame.low[1] if frame.board else None, void=frame.void,
    )  # fmt: skip
    railed = rails.rails(framed)
    bays = divide(t, cabinet.width_mm - t, t, cabinet.bays, None, (*path, "bays"), "the bays")
    low = t + cabinet.toe_mm
    inside = [(low, _under(cabinet, roof, railed, bay)) for bay in bays.spaces]
    return Site(
        cabinet=cabinet, board=board, shelf_board=shelf_board, shop=shop, entry=entry, frame=frame,
        edging=edging, framed=framed, railed=railed, roof=roof,
        bays=bays, heights=tuple(_heights(cabinet, i, shelf_board, inside[i], shop) for i in range(len(bays.spaces))),
    )  # fmt: skip


def _under(cabinet: Cabinet, roof: under_roof.Roof | None, railed: rails.Railed, bay: tuple[float, float]) -> float:
    """How high the room in a bay is: under a slope as at its low end, or where all bays are alike as in the lowest."""
    if roof is None:
        return railed.under
    return min(roof.under(x) for x in bay) if cabinet.by_bay else roof.least_clear


def _heights(cabinet: Cabinet, bay: int, shelf: Board, inside: tuple[float, float], shop: Shop) -> Division:
    """The clear heights of a bay (from 0)."""
    low, high = inside
    asked = front_grid.spaces(cabinet, bay, low, high, shelf.actual_mm)
    what = f"the openings of bay {bay + 1}" if cabinet.by_bay else "the openings"
    return divide(low, high, shelf.actual_mm, asked, shop.fence_step_mm, cabinet.openings_path(bay), what)


def _refuse_hidden_edging(cabinet: Cabinet) -> None:
    """An end that butts against another board carries no edging: the joint would hold on the tape alone."""
    on, mitred = cabinet.edging.on if cabinet.edging else (), cabinet.sides == "mitred"
    hidden = {
        "through": ("top and bottom ends",), "between": ("side tops", "side bottoms"), "under the top": ("side tops",),
        "mitred": ("top and bottom ends", "side tops", "side bottoms"),
    }[cabinet.sides]  # fmt: skip
    for word in on:
        if word in hidden:
            raise CannotBuild(
                (*cabinet.place.path, "edging", "on"),
                f"{word} {'are mitred' if mitred else 'butt against the other boards'}, so edging there would be inside"
                " the joint",
                f'leave "{word}" out'
                if mitred
                else f'leave "{word}" out, or run the other boards through (sides = '
                f'"{"between" if cabinet.sides == "through" else "through"}")',
            )


def edged(site: Site, role: Role, ends: tuple[Surface, ...] = ()) -> tuple[Surface, ...]:
    """The edges of a board of this role that are edged. `ends`: its (bottom, top) or (left, right) ends."""
    if site.cabinet.edging is None:
        return ()
    on = site.cabinet.edging.on
    out: list[Surface] = ["face_edge"] if any(role in _EDGED_FRONT.get(word, ()) for word in on) else []
    if role == "side" and ends:
        out += [end for end, word in zip(ends, ("side bottoms", "side tops"), strict=True) if word in on]
    if role in ("top", "bottom") and "top and bottom ends" in on and not site.sides_pass(role):
        out += ["left_end", "right_end"]
    return tuple(out)


def piece(
    site: Site, id: str, role: Role, low: Vec, high: Vec, rotation: Matrix, *,
    board: Board | None = None, ends: tuple[Surface, ...] = (), notches: Notches = UNNOTCHED,
    bevelled: Mapping[Surface, float] = MappingProxyType({}),
) -> Panel:  # fmt: skip
    """A board of this cabinet: `low` and `high` its box, edged and seen as its role is."""
    edges = edged(site, role, ends)
    shows = SHOWS[role]
    if role == "side" and site.cabinet.alcove is not None:  # its outside is behind the scribe
        shows = tuple(s for s in shows if s != "back_side")
    return panel(
        id=id, role=role, board=board or site.board, box=(low, high), rotation=rotation, edged=edges,
        edging=site.edging, shows=(*shows, *(e for e in edges if e not in shows)), notches=notches, bevelled=bevelled,
    )  # fmt: skip


def stop_of(site: Site, entry: Entry, host: Role) -> float:
    """Where a guest may begin to enter: behind the stop of its channel, or behind the edging that closes it."""
    closed_by = site.edging.adds_mm if site.edging and "face_edge" in edged(site, host) else 0.0
    return max(entry.stop, closed_by) if entry.reach > 0 else 0.0


def numbered(word: str, number: int, of: int) -> str:
    """A name of its own for each of several alike."""
    return word if of == 1 else f"{word} {number}"


def butt(
    site: Site,
    host: Panel,
    guest: Panel,
    toward: Vec,
    datum: Vec,
    place: Place,
    recipe: Recipe,
    stagger: int = 0,
    covered: bool = False,
    registers: Vec | None = None,
    ends_at: Vec | None = None,
) -> Meeting:
    """A guest's end against a host's face, both from the front.

    `toward` is the way from guest to host; `datum` the way that the host's end looks (at a corner) or the end that
    its line is measured from. The guest's registering face looks that way too, unless it `registers` another way.
    """
    return meet(
        host=host, guest=guest, place=place, recipe=recipe, stagger=stagger, covered=covered,
        host_register=Register(bears=facing(host, neg(toward)), along_from=facing(host, FRONT),
                               across_from=facing(host, datum)),
        guest_register=Register(bears=facing(guest, toward), along_from=facing(guest, FRONT),
                                across_from=facing(guest, registers or datum)),
        groove_at=ends_at or site.frame.wall_at,
    )  # fmt: skip
