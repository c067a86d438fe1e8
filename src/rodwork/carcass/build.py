"""Which boards stand where: one cabinet of the job as panels in place, their meetings and their openings."""

from collections.abc import Callable, Mapping
from functools import partial

from rodwork.carcass import back as backs
from rodwork.carcass import drilled_sides, mitres, rails, under_roof
from rodwork.carcass.battens import battens
from rodwork.carcass.boards import LEFT_SIDE, LYING, NO_NOTCH, RIGHT_SIDE, TOP, Notches
from rodwork.carcass.brackets import brackets
from rodwork.carcass.clothes_rails import HungIn, clothes_rails
from rodwork.carcass.corner import blind_end
from rodwork.carcass.doors import Opened, bays_of, doors, drawer_across, drawer_edges, pins_of
from rodwork.carcass.drawers import Boxes, Drawn, drawer_back, drawers
from rodwork.carcass.face_frame import Stands, face_of
from rodwork.carcass.feet import stand, toe_notch
from rodwork.carcass.inside import (
    bays_in,
    depth_of_opening,
    divider_meetings,
    dividers_of,
    loose_shelves,
    openings_of,
    shelf_meetings,
    shelves_of,
)
from rodwork.carcass.lippings import lippings
from rodwork.carcass.part_dividers import part_dividers
from rodwork.carcass.scribes import scribes
from rodwork.carcass.services import back_cut_outs, drawer_room, housed
from rodwork.carcass.site import Site, butt, piece, site_of, stop_of
from rodwork.carcass.stiffeners import stiffeners
from rodwork.geometry.directions import DOWN, LEFT, RIGHT, UP
from rodwork.geometry.vec import Matrix, neg
from rodwork.model.fixing import tallied
from rodwork.model.job import Back, Board, Cabinet, Edging, Recipe
from rodwork.model.meeting import Carcass, EntryOf, Meeting
from rodwork.model.panel import Panel, Role
from rodwork.model.shop import Shop


def build(
    cabinet: Cabinet,
    boards: Mapping[str, Board],
    edgings: Mapping[str, Edging],
    shop: Shop,
    back_recipe: Callable[[Back], Recipe],
    entry: EntryOf,
) -> Carcass:
    """The carcass of one cabinet. Raises CannotBuild with the place in the job file, what is wrong and how to mend."""
    site = site_of(cabinet, boards, edgings, shop, back_recipe, entry)
    box = drilled_sides.as_bought(cabinet, _box(site))
    closes = box.get("top") or next(iter(site.railed.panels.values()))  # the top opening, above
    dividers = dividers_of(site)
    shelves = shelves_of(site)
    sides = (box["left side"], box["right side"])
    beside = max(site.spaces[0][-1], site.spaces[-1][-1])  # the lower of the top openings beside the sides
    hooked = brackets(cabinet, sides, site.frame, site.railed, beside, _back(site), shop.fence_step_mm)
    back = hooked.back
    meetings = [*_corners(site, box), *divider_meetings(site, box, dividers)]
    meetings += shelf_meetings(site, box, dividers, shelves)
    bays = bays_in(site, box, dividers)
    parted = part_dividers(site, bays, shelves, box["bottom"], closes)
    meetings += parted.meetings
    if back is not None:
        meetings += backs.meetings(site.frame, back, _held_by(site, box))
    meetings += rails.meetings(site.framed, site.railed, sides, site.rail_joint, site.entry)
    loose, rows = loose_shelves(site, bays)
    fixed = tuple(s for bay in shelves for s in bay)
    stands = Stands(cabinet, boards, bays, site.spaces, sides, box["bottom"], closes, dividers, shelves)
    faced = face_of(stands)
    if cabinet.blind is not None:
        faced = blind_end(stands, faced.face, cabinet.blind)
    opened = Opened(
        cabinet=cabinet, bays=bays, spaces=site.spaces, face=faced.face, pins=rows, edging=site.edging,
        step=shop.fence_step_mm, loose=loose, roof=site.roof,
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
    hangs = clothes_rails(HungIn(cabinet, boards, bays, site.spaces, site.frame.shelf_back, shop))
    vents = housed(cabinet, site.frame.shelf_back, bays, site.spaces[0])
    panels = (
        *box.values(),
        *site.railed.panels.values(),
        *dividers,
        *fixed,
        *parted.panels,
        *((back,) if back else ()),
        *faced.panels,
        *loose,
        *hung.panels,
        *boxes.panels,
        *strips,
        *hung_by.panels,
        *under.panels,
    )
    stiff = stiffeners(cabinet, boards, bays, (*fixed, *loose), served.rows, panels, hangs.rails, entry)
    lipped = lippings((*panels, *stiff.panels), edgings, boards, (*cabinet.place.path, "edging"))
    return Carcass(
        panels=(*panels, *stiff.panels, *lipped), meetings=(*meetings, *stiff.meetings), pin_rows=served.rows,
        openings=openings_of(site, bays, closes.id, shelves), shelf_pins=4 * len(loose),
        fitting_bores=(*served.bores, *hooked.bores, *hangs.bores), clothes_rails=hangs.rails,
        doors=hung.hung, drawers=boxes.made, matched=boxes.matched,
        fittings=tallied(
            (*served.items, *hung.items, *boxes.items, *strip_items, *under.items, *hooked.items, *hangs.items)
        ),
        footing=under.footing, brackets=hooked.brackets, machining=back_cut_outs(cabinet, back, vents),
    )  # fmt: skip


def _boxes(site: Site, opened: Opened, boards: Mapping[str, Board], back_recipe: Callable[[Back], Recipe]) -> Boxes:
    """The drawers of the cabinet, if it has any."""
    sets = [(d, bays_of(opened, d, d.path or (*site.cabinet.place.path, "drawers"))) for d in site.cabinet.drawers]
    total, out = sum(len(d.heights_mm) * len(bays) for d, bays in sets), Boxes()
    pins = {board: tuple(z for z, _ in at) for board, at in pins_of(opened.pins, opened.bays).items()}
    for asked, bays in sets:
        edges = {i: drawer_edges(opened, asked, i) for i in bays}
        n = asked.opening
        room = {i: _both(site.spaces[i][n - 1], opened.face.spaces[i][n - 1]) for i in bays}
        out = out.with_more(
            drawers(
                Drawn(
                    cabinet=site.cabinet, drawers=asked, boards=boards, bays=opened.bays, face=opened.face,
                    across={i: drawer_across(opened, asked, i) for i in bays}, edges=edges, pins=pins,
                    spaces=room,
                    depth=min(
                        drawer_room(site.cabinet, site.spaces[i][n - 1], depth_of_opening(site, i, n)) for i in bays
                    ),
                    edging=site.edging,
                    first=len(out.made) + 1, total=total, joint=asked.joint or site.cabinet.corner_joint,
                    bottom_held=back_recipe(drawer_back(asked.bottom_board)), entry=site.entry,
                    holes=drilled_sides.runner_holes(site.cabinet),
                )
            )
        )  # fmt: skip
    return out


def _both(a: tuple[float, float], b: tuple[float, float]) -> tuple[float, float]:
    return max(a[0], b[0]), min(a[1], b[1])


def _box(site: Site) -> dict[str, Panel]:
    """Sides, top and bottom: at each corner one board runs through, the other stands against it; or all are mitred.

    No top where there are rails.
    """
    if site.cabinet.sides == "mitred":
        return mitres.box(site.cabinet, site.board.actual_mm, site.frame, partial(piece, site))
    c, t, f = site.cabinet, site.board.actual_mm, site.frame
    w, h, ds, dc, lift = c.width_mm, c.height_mm, f.side_depth, f.cross_depth, c.toe_mm
    entry = site.entry(c.corner_joint, t, t)
    enters = entry.reach
    over, under = site.sides_pass("top"), site.sides_pass("bottom")
    toe, let_in = toe_notch(c), (enters, stop_of(site, entry, "top"))
    at_top, at_bottom = NO_NOTCH if over else let_in, toe if under else let_in
    z0, z1 = 0.0 if under else t - enters, h if over else h - t + enters

    def cross(name: Role, z: float, rotation: Matrix) -> Panel:
        passed = site.sides_pass(name)
        x0, x1 = (t - enters, w - t + enters) if passed else (0.0, w)
        notch = (enters, stop_of(site, entry, "side")) if passed else NO_NOTCH
        return piece(site, name, name, (x0, 0.0, z), (x1, dc, z + t), rotation, notches=Notches.in_front(notch))

    if site.roof is not None:
        return under_roof.box(c, site.roof, f, partial(piece, site)) | {"bottom": cross("bottom", lift, LYING)}
    box = {
        "left side": piece(site, "left side", "side", (0.0, 0.0, z0), (t, ds, z1), LEFT_SIDE,
                            ends=("right_end", "left_end"),
                            notches=Notches(front_left=at_top, front_right=at_bottom)),
        "right side": piece(site, "right side", "side", (w - t, 0.0, z0), (w, ds, z1), RIGHT_SIDE,
                             ends=("left_end", "right_end"),
                             notches=Notches(front_left=at_bottom, front_right=at_top)),
        "top": cross("top", h - t, TOP),
        "bottom": cross("bottom", lift, LYING),
    }  # fmt: skip
    if c.rails is not None and c.rails.instead_of_top:
        del box["top"]
    return box


def _held_by(site: Site, box: Mapping[str, Panel]) -> Mapping[str, Panel]:
    """The boards that the back is held by: a flat rail at the back in the place of a top."""
    rail = site.railed.panels.get(rails.BACK_RAIL) if site.railed.flat else None
    return {**box, "top": rail} if rail is not None else box


def _back(site: Site) -> Panel | None:
    f = site.frame
    if f.board is None or f.rotation is None:
        return None
    if site.roof is not None:
        return under_roof.back(site.roof, f, partial(piece, site))
    return piece(site, "back", "back", f.low, f.high, f.rotation, board=f.board)


def _corners(site: Site, box: Mapping[str, Panel]) -> list[Meeting]:
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
                out.append(butt(site, box[host], box[guest], toward, DOWN, "fixed shelf", c.corner_joint))
                continue
            out.append(butt(site, box[host], box[guest], toward, end, "corner", c.corner_joint, registers=face))
    return out + sloped
