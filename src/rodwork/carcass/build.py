"""Which boards stand where: one cabinet of the job as panels in place, their meetings and their openings."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import partial
from types import MappingProxyType

from rodwork.carcass import back as backs
from rodwork.carcass import drilled_sides, front_grid, mitres, rails, under_roof
from rodwork.carcass.battens import battens
from rodwork.carcass.boards import DIVIDER, LEFT_SIDE, LYING, NO_NOTCH, RIGHT_SIDE, TOP, UNNOTCHED, Notches, panel
from rodwork.carcass.brackets import brackets
from rodwork.carcass.contacts import facing, meet
from rodwork.carcass.corner import blind_end
from rodwork.carcass.divide import Division, divide
from rodwork.carcass.doors import Opened, bays_of, doors, drawer_across, drawer_edges, pins_of
from rodwork.carcass.drawers import Boxes, Drawn, drawer_back, drawers
from rodwork.carcass.face_frame import Stands, face_of
from rodwork.carcass.feet import stand, toe_notch
from rodwork.carcass.pins import Bay, PinHeights, pin_rows, shelf_heights
from rodwork.carcass.scribes import scribes
from rodwork.carcass.services import back_cut_outs, drawer_room, housed
from rodwork.geometry.directions import DOWN, FRONT, LEFT, RIGHT, UP
from rodwork.geometry.vec import Matrix, Vec, neg
from rodwork.model.contact import Place, Register
from rodwork.model.fixing import tallied
from rodwork.model.job import Back, Board, Cabinet, CannotBuild, Edging, Recipe
from rodwork.model.meeting import Carcass, Entry, EntryOf, Meeting, PinRow
from rodwork.model.panel import Panel, Role
from rodwork.model.rod import Opening
from rodwork.model.shop import Shop
from rodwork.model.surface import EDGES, SURFACES, Surface

LOOSE_SIDE_MM = 1.0  # a loose shelf is this much shorter at each end; 2 in all is common practice
LOOSE_FRONT_MM = 2.0
LOOSE_BACK_MM = 2.0

_SHOWS: dict[Role, tuple[Surface, ...]] = {
    "side": ("face_edge", "face_side", "back_side"),
    "top": ("face_edge", "face_side"),
    "bottom": ("face_edge", "face_side"),
    "fixed shelf": ("face_edge", "face_side", "back_side"),
    "loose shelf": ("face_edge", "face_side", "back_side"),
    "divider": ("face_edge", "face_side", "back_side"),
    "rail": ("face_side",),
    "batten": (),
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
    "fronts": ("side", "top", "bottom", "fixed shelf", "loose shelf", "divider"),
    "shelf fronts": ("fixed shelf", "loose shelf"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Site:
    """What every step of building one cabinet needs."""

    cabinet: Cabinet
    board: Board
    shelf_board: Board
    edging: Edging | None
    shop: Shop
    entry: EntryOf
    frame: backs.Frame
    bays: Division
    heights: Division
    framed: rails.Framed
    railed: rails.Railed
    roof: under_roof.Roof | None = None

    @property
    def rail_joint(self) -> Recipe:
        return self.cabinet.rail_joint or self.cabinet.corner_joint

    def sides_pass(self, cross: str) -> bool:
        """Whether the sides run on past the ends of the top, or of the bottom."""
        return self.cabinet.sides == "through" or (self.cabinet.sides == "under the top" and cross == "bottom")


def build(
    cabinet: Cabinet,
    boards: Mapping[str, Board],
    edgings: Mapping[str, Edging],
    shop: Shop,
    back_recipe: Callable[[Back], Recipe],
    entry: EntryOf,
) -> Carcass:
    """The carcass of one cabinet. Raises CannotBuild with the place in the job file, what is wrong and how to mend."""
    site = _site(cabinet, boards, edgings, shop, back_recipe, entry)
    box = drilled_sides.as_bought(cabinet, _box(site))
    closes = box.get("top") or next(iter(site.railed.panels.values()))  # the top opening, above
    dividers = _dividers(site)
    shelves = _shelves(site, len(dividers) + 1)
    sides = (box["left side"], box["right side"])
    hooked = brackets(cabinet, sides, site.frame, site.railed, site.heights.spaces[-1], _back(site), shop.fence_step_mm)
    back = hooked.back
    meetings = [*_corners(site, box), *_divider_meetings(site, box, dividers)]
    meetings += _shelf_meetings(site, box, dividers, shelves)
    if back is not None:
        meetings += backs.meetings(site.frame, back, _held_by(site, box))
    meetings += rails.meetings(site.framed, site.railed, sides, site.rail_joint, site.entry)
    bays = _bays(site, box, dividers)
    loose, rows = _loose(site, bays)
    fixed = tuple(s for bay in shelves for s in bay)
    stands = Stands(cabinet, boards, bays, site.heights.spaces, sides, box["bottom"], closes, dividers, shelves)
    faced = face_of(stands)
    if cabinet.blind is not None:
        faced = blind_end(stands, faced.face, cabinet.blind)
    opened = Opened(
        cabinet=cabinet, bays=bays, spaces=site.heights.spaces, face=faced.face, pins=rows, edging=site.edging,
        step=shop.fence_step_mm, loose=loose,
    )  # fmt: skip
    boxes = _boxes(site, opened, boards, back_recipe)
    hung = doors(opened, boards, boxes.bores)
    rear = None if back is None else site.frame.high[1]
    hung_by = battens(cabinet, boards, sides, site.railed.under, rear, entry)
    meetings += (*boxes.meetings, *faced.meetings, *hung_by.meetings)
    under = stand(cabinet, boards, sides, site.frame.cross_depth, entry)
    meetings += under.meetings
    strips, strip_items = scribes(cabinet.alcove, boards)
    served = drilled_sides.served(cabinet, rows, (*hung.bores, *boxes.bores))
    vents = housed(cabinet, site.frame.shelf_back, bays, site.heights)
    panels = (
        *box.values(),
        *site.railed.panels.values(),
        *dividers,
        *fixed,
        *((back,) if back else ()),
        *faced.panels,
        *loose,
        *hung.panels,
        *boxes.panels,
        *strips,
        *hung_by.panels,
        *under.panels,
    )
    return Carcass(
        panels=panels, meetings=tuple(meetings), pin_rows=served.rows,
        openings=_openings(site, bays, closes.id, shelves), shelf_pins=4 * len(loose),
        fitting_bores=(*served.bores, *hooked.bores), doors=hung.hung, drawers=boxes.made, matched=boxes.matched,
        fittings=tallied((*served.items, *hung.items, *boxes.items, *strip_items, *under.items, *hooked.items)),
        footing=under.footing, brackets=hooked.brackets, machining=back_cut_outs(cabinet, back, vents),
    )  # fmt: skip


def _boxes(site: _Site, opened: Opened, boards: Mapping[str, Board], back_recipe: Callable[[Back], Recipe]) -> Boxes:
    """The drawers of the cabinet, if it has any."""
    sets = [(d, bays_of(opened, d, d.path or (*site.cabinet.place.path, "drawers"))) for d in site.cabinet.drawers]
    total, out = sum(len(d.heights_mm) * len(bays) for d, bays in sets), Boxes()
    pins = {board: tuple(z for z, _ in at) for board, at in pins_of(opened.pins, opened.bays).items()}
    for asked, bays in sets:
        edges = {i: drawer_edges(opened, asked, i) for i in bays}
        space, face = site.heights.spaces[asked.opening - 1], opened.face.spaces[asked.opening - 1]
        out = out.with_more(
            drawers(
                Drawn(
                    cabinet=site.cabinet, drawers=asked, boards=boards, bays=opened.bays, face=opened.face,
                    across={i: drawer_across(opened, asked, i) for i in bays}, edges=edges, pins=pins,
                    space=(max(space[0], face[0]), min(space[1], face[1])),
                    depth=drawer_room(site.cabinet, space, _depth_of_opening(site, asked.opening)),
                    edging=site.edging,
                    first=len(out.made) + 1, total=total, joint=asked.joint or site.cabinet.corner_joint,
                    bottom_held=back_recipe(drawer_back(asked.bottom_board)), entry=site.entry,
                    holes=drilled_sides.runner_holes(site.cabinet),
                )
            )
        )  # fmt: skip
    return out


def _site(
    cabinet: Cabinet,
    boards: Mapping[str, Board],
    edgings: Mapping[str, Edging],
    shop: Shop,
    back_recipe: Callable[[Back], Recipe],
    entry: EntryOf,
) -> _Site:
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
    low, high = t + cabinet.toe_mm, roof.least_clear if roof else railed.under
    return _Site(
        cabinet=cabinet, board=board, shelf_board=shelf_board, shop=shop, entry=entry, frame=frame,
        edging=edging, framed=framed, railed=railed, roof=roof,
        bays=divide(t, cabinet.width_mm - t, t, cabinet.bays, None, (*path, "bays"), "the bays"),
        heights=divide(
            low, high, shelf_board.actual_mm, front_grid.spaces(cabinet, low, high, shelf_board.actual_mm),
            shop.fence_step_mm, (*path, "openings"), "the openings",
        ),
    )  # fmt: skip


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


def _edged(site: _Site, role: Role, ends: tuple[Surface, ...] = ()) -> tuple[Surface, ...]:
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


def _panel(
    site: _Site, id: str, role: Role, low: Vec, high: Vec, rotation: Matrix, *,
    board: Board | None = None, ends: tuple[Surface, ...] = (), notches: Notches = UNNOTCHED,
    bevelled: Mapping[Surface, float] = MappingProxyType({}),
) -> Panel:  # fmt: skip
    edged = _edged(site, role, ends)
    shows = _SHOWS[role]
    if role == "side" and site.cabinet.alcove is not None:  # its outside is behind the scribe
        shows = tuple(s for s in shows if s != "back_side")
    return panel(
        id=id, role=role, board=board or site.board, box=(low, high), rotation=rotation, edged=edged,
        edging=site.edging, shows=(*shows, *(e for e in edged if e not in shows)), notches=notches, bevelled=bevelled,
    )  # fmt: skip


def _box(site: _Site) -> dict[str, Panel]:
    """Sides, top and bottom: at each corner one board runs through, the other stands against it; or all are mitred.

    No top where there are rails.
    """
    if site.cabinet.sides == "mitred":
        return mitres.box(site.cabinet, site.board.actual_mm, site.frame, partial(_panel, site))
    c, t, f = site.cabinet, site.board.actual_mm, site.frame
    w, h, ds, dc, lift = c.width_mm, c.height_mm, f.side_depth, f.cross_depth, c.toe_mm
    entry = site.entry(c.corner_joint, t, t)
    enters = entry.reach
    over, under = site.sides_pass("top"), site.sides_pass("bottom")
    toe, let_in = toe_notch(c), (enters, _stop(site, entry, "top"))
    at_top, at_bottom = NO_NOTCH if over else let_in, toe if under else let_in
    z0, z1 = 0.0 if under else t - enters, h if over else h - t + enters

    def cross(name: Role, z: float, rotation: Matrix) -> Panel:
        passed = site.sides_pass(name)
        x0, x1 = (t - enters, w - t + enters) if passed else (0.0, w)
        notch = (enters, _stop(site, entry, "side")) if passed else NO_NOTCH
        return _panel(site, name, name, (x0, 0.0, z), (x1, dc, z + t), rotation, notches=Notches.in_front(notch))

    if site.roof is not None:
        return under_roof.box(c, site.roof, f, partial(_panel, site)) | {"bottom": cross("bottom", lift, LYING)}
    box = {
        "left side": _panel(site, "left side", "side", (0.0, 0.0, z0), (t, ds, z1), LEFT_SIDE,
                            ends=("right_end", "left_end"),
                            notches=Notches(front_left=at_top, front_right=at_bottom)),
        "right side": _panel(site, "right side", "side", (w - t, 0.0, z0), (w, ds, z1), RIGHT_SIDE,
                             ends=("left_end", "right_end"),
                             notches=Notches(front_left=at_bottom, front_right=at_top)),
        "top": cross("top", h - t, TOP),
        "bottom": cross("bottom", lift, LYING),
    }  # fmt: skip
    if c.rails is not None and c.rails.instead_of_top:
        del box["top"]
    return box


def _held_by(site: _Site, box: Mapping[str, Panel]) -> Mapping[str, Panel]:
    """The boards that the back is held by: a flat rail at the back in the place of a top."""
    rail = site.railed.panels.get(rails.BACK_RAIL) if site.railed.flat else None
    return {**box, "top": rail} if rail is not None else box


def _depth_of_opening(site: _Site, opening: int) -> float:
    """How deep an opening is: a fixing rail stands at the back of the top one."""
    top = opening == len(site.heights.spaces)
    return site.frame.shelf_back - (site.board.actual_mm if top and site.railed.kept_free else 0.0)


def _dividers(site: _Site) -> tuple[Panel, ...]:
    """Full-height dividers between top and bottom, one at the end of every bay but the last."""
    c, t = site.cabinet, site.board.actual_mm
    entry = site.entry(c.divider_joint, t, t)
    low, high = c.toe_mm + t - entry.reach, c.height_mm - t + entry.reach
    rails.refuse_let_in(site.framed, c.divider_joint, entry)
    under_roof.refuse_let_in(c, entry)
    stop = _stop(site, entry, "top")
    free = site.railed.kept_free
    beside_rail = (free + entry.reach, t) if free else NO_NOTCH
    spaces = site.bays.spaces[:-1]
    if site.roof is not None:
        return tuple(
            under_roof.divider(site.roof, _numbered("divider", i, len(spaces)), (x1, low, site.frame.shelf_back),
                               partial(_panel, site))
            for i, (_, x1) in enumerate(spaces, 1)
        )  # fmt: skip
    return tuple(
        _panel(site, _numbered("divider", i, len(spaces)), "divider", (x1, 0.0, low),
               (x1 + t, site.frame.shelf_back, high), DIVIDER,
               notches=replace(Notches.in_front((entry.reach, stop)), far_right=beside_rail))
        for i, (_, x1) in enumerate(spaces, 1)
    )  # fmt: skip


def _stop(site: _Site, entry: Entry, host: Role) -> float:
    """Where a guest may begin to enter: behind the stop of its channel, or behind the edging that closes it."""
    closed_by = site.edging.adds_mm if site.edging and "face_edge" in _edged(site, host) else 0.0
    return max(entry.stop, closed_by) if entry.reach > 0 else 0.0


def _numbered(word: str, number: int, of: int) -> str:
    return word if of == 1 else f"{word} {number}"


def _shelves(site: _Site, bays: int) -> tuple[tuple[Panel, ...], ...]:
    """Fixed shelves of every bay, from the bottom up."""
    c, ts = site.cabinet, site.shelf_board.actual_mm
    entry = site.entry(c.shelf_joint, site.board.actual_mm, ts)
    back = c.shelf_set_back_mm
    if back > site.frame.shelf_back - 50:
        raise CannotBuild(
            (*c.place.path, "shelf_set_back"), f"a shelf set back by {back:g} is {site.frame.shelf_back - back:g} deep",
            f"set it back by {site.frame.shelf_back - 50:g} or less",
        )  # fmt: skip
    tops = [z1 for _, z1 in site.heights.spaces[:-1]]
    notch = (entry.reach, max(0.0, _stop(site, entry, "side") - back))
    return tuple(
        tuple(
            _panel(site, _numbered("fixed shelf", bay * len(tops) + i, bays * len(tops)), "fixed shelf",
                   (x0 - entry.reach, back, z), (x1 + entry.reach, site.frame.shelf_back, z + ts), LYING,
                   board=site.shelf_board, notches=Notches.in_front(notch))
            for i, z in enumerate(tops, 1)
        )
        for bay, (x0, x1) in enumerate(site.bays.spaces)
    )  # fmt: skip


def _back(site: _Site) -> Panel | None:
    f = site.frame
    if f.board is None or f.rotation is None:
        return None
    if site.roof is not None:
        return under_roof.back(site.roof, f, partial(_panel, site))
    return _panel(site, "back", "back", f.low, f.high, f.rotation, board=f.board)


def _corners(site: _Site, box: Mapping[str, Panel]) -> list[Meeting]:
    """The four corners: outer faces flush, each half from the surface that lies in the other's plane.

    Where a fitting is sunk in the inner face, both are set out from that face and the line where it comes.
    """
    if site.cabinet.sides == "mitred":
        return mitres.corners(site.cabinet, box, site.frame.wall_at)
    sloped = under_roof.corners(site.cabinet.roof, box, site.frame.wall_at) if site.cabinet.roof else []
    c, t, out = site.cabinet, site.board.actual_mm, list[Meeting]()
    inner = site.entry(c.corner_joint, t, t).inner
    for side, way in (("left side", LEFT), ("right side", RIGHT)):
        for cross, up in (("top", UP), ("bottom", DOWN)):
            if cross not in box or (cross == "top" and sloped):
                continue
            passed = site.sides_pass(cross)
            host, guest, toward, end = (side, cross, way, up) if passed else (cross, side, up, way)
            face = neg(end) if inner else end
            if cross == "bottom" and c.toe_mm:  # it stands on a line, as a shelf does
                out.append(_butt(site, box[host], box[guest], toward, DOWN, "fixed shelf", c.corner_joint))
                continue
            out.append(_butt(site, box[host], box[guest], toward, end, "corner", c.corner_joint, registers=face))
    return out + sloped


def _butt(
    site: _Site,
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


def _divider_meetings(site: _Site, box: Mapping[str, Panel], dividers: tuple[Panel, ...]) -> list[Meeting]:
    """A divider registers on its left face, on lines from the left end of top and bottom."""
    joint = site.cabinet.divider_joint
    low = [_butt(site, box["bottom"], divider, DOWN, LEFT, "divider", joint) for divider in dividers]
    if "top" not in box:
        return low + [rails.under_front_rail(site.railed, divider, joint) for divider in dividers]
    if site.cabinet.roof is not None:
        return low + [under_roof.under_top(site.cabinet.roof, box["top"], d, site.frame.wall_at) for d in dividers]
    before_rail = (0.0, _depth_of_opening(site, len(site.heights.spaces)), 0.0) if site.railed.kept_free else None
    return low + [
        _butt(site, box["top"], divider, UP, LEFT, "divider", joint, ends_at=before_rail) for divider in dividers
    ]


def _shelf_meetings(
    site: _Site, box: Mapping[str, Panel], dividers: tuple[Panel, ...], shelves: tuple[tuple[Panel, ...], ...]
) -> list[Meeting]:
    """A shelf registers on its underside, on lines from the bottom end of the uprights at both its ends.

    In every second bay both ends of the row move, so that rows on the two faces of a divider do not meet.
    """
    uprights = (box["left side"], *dividers, box["right side"])
    return [
        _butt(
            site,
            uprights[bay + right],
            shelf,
            way,
            DOWN,
            "fixed shelf",
            site.cabinet.shelf_joint,
            bay % 2,
            covered=bool(dividers) and uprights[bay + right].role == "divider",
        )
        for bay, in_bay in enumerate(shelves)
        for shelf in in_bay
        for right, way in ((0, LEFT), (1, RIGHT))
    ]


def _bays(site: _Site, box: Mapping[str, Panel], dividers: tuple[Panel, ...]) -> tuple[Bay, ...]:
    uprights = (box["left side"], *dividers, box["right side"])
    return tuple(
        Bay(left=uprights[i], right=uprights[i + 1], x0=x0, x1=x1) for i, (x0, x1) in enumerate(site.bays.spaces)
    )


def _loose(site: _Site, bays: tuple[Bay, ...]) -> tuple[tuple[Panel, ...], tuple[PinRow, ...]]:
    """Loose shelves on their pins, and the rows of bores that carry them."""
    c, ts = site.cabinet, site.shelf_board.actual_mm
    if not any(c.loose_shelves):
        return (), ()
    *spaces, (low, high) = site.heights.spaces
    every = shelf_heights(c, (*spaces, (low, high - site.railed.kept_free)), ts)
    heights = [_not_drawn(site, n, every) for n in range(1, len(bays) + 1)]
    low_y, high_y = LOOSE_FRONT_MM + c.shelf_set_back_mm, site.frame.shelf_back - LOOSE_BACK_MM
    places = [(bay, z) for bay, in_bay in zip(bays, heights, strict=True) for h in in_bay for z in h.shelves]
    loose = tuple(
        _panel(site, _numbered("loose shelf", i, len(places)), "loose shelf", (bay.x0 + LOOSE_SIDE_MM, low_y, z),
               (bay.x1 - LOOSE_SIDE_MM, high_y, z + ts), LYING, board=site.shelf_board)
        for i, (bay, z) in enumerate(places, 1)
    )  # fmt: skip
    return loose, pin_rows(c, bays, heights, site.frame.shelf_back, site.shop)


def _not_drawn(site: _Site, bay: int, heights: tuple[PinHeights, ...]) -> tuple[PinHeights, ...]:
    """Pins of one bay (from 1): none where its drawers are."""
    drawn = {d.opening for d in site.cabinet.drawers if d.in_bay(bay)}
    return tuple(PinHeights(bored=(), shelves=()) if n in drawn else h for n, h in enumerate(heights, 1))


def _openings(
    site: _Site, bays: tuple[Bay, ...], above: str, shelves: tuple[tuple[Panel, ...], ...]
) -> tuple[Opening, ...]:
    """Every clear opening: what was asked of it and what came of it."""
    out = []
    for number, (bay, in_bay) in enumerate(zip(bays, shelves, strict=True), 1):
        names = ["bottom", *(s.id for s in in_bay), above]
        for i, ((z0, z1), asked) in enumerate(zip(site.heights.spaces, site.heights.asked, strict=True)):
            out.append(Opening(bay=number, asked=asked, comes_to=round(z1 - z0, 3), width=round(bay.x1 - bay.x0, 3),
                               between=(names[i], names[i + 1])))  # fmt: skip
    return tuple(out)
