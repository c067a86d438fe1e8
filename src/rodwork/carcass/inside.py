"""What stands inside a carcass: dividers, fixed shelves bay by bay, loose shelves on their pins, the openings left."""

from collections.abc import Mapping
from dataclasses import replace
from functools import partial
from itertools import count, pairwise

from rodwork.carcass import rails, under_roof
from rodwork.carcass.boards import DIVIDER, LYING, NO_NOTCH, Notches
from rodwork.carcass.pins import Bay, PinHeights, pin_rows, shelf_heights
from rodwork.carcass.site import DRIVER_MM, Site, butt, numbered, piece, stop_of
from rodwork.geometry.directions import DOWN, LEFT, RIGHT, UP
from rodwork.model.job import CannotBuild
from rodwork.model.meeting import Meeting, PinRow
from rodwork.model.panel import Panel
from rodwork.model.rod import Opening

LOOSE_SIDE_MM = 1.0  # a loose shelf is this much shorter at each end; 2 in all is common practice
LOOSE_FRONT_MM = 2.0
LOOSE_BACK_MM = 2.0


def dividers_of(site: Site) -> tuple[Panel, ...]:
    """Full-height dividers between top and bottom, one at the end of every bay but the last."""
    c, t = site.cabinet, site.board.actual_mm
    entry = site.entry(c.divider_joint, t, t)
    low, high = c.toe_mm + t - entry.reach, c.height_mm - t + entry.reach
    rails.refuse_let_in(site.framed, c.divider_joint, entry)
    under_roof.refuse_let_in(c, entry)
    stop = stop_of(site, entry, "top")
    free = site.railed.kept_free
    beside_rail = (free + entry.reach, t) if free else NO_NOTCH
    spaces = site.bays.spaces[:-1]
    if site.roof is not None:
        return tuple(
            under_roof.divider(site.roof, numbered("divider", i, len(spaces)), (x1, low, site.frame.shelf_back),
                               partial(piece, site))
            for i, (_, x1) in enumerate(spaces, 1)
        )  # fmt: skip
    return tuple(
        piece(site, numbered("divider", i, len(spaces)), "divider", (x1, 0.0, low),
               (x1 + t, site.frame.shelf_back, high), DIVIDER,
               notches=replace(Notches.in_front((entry.reach, stop)), far_right=beside_rail))
        for i, (_, x1) in enumerate(spaces, 1)
    )  # fmt: skip


def shelves_of(site: Site) -> tuple[tuple[Panel, ...], ...]:
    """Fixed shelves of every bay, from the bottom up."""
    c, ts = site.cabinet, site.shelf_board.actual_mm
    entry = site.entry(c.shelf_joint, site.board.actual_mm, ts)
    back = c.shelf_set_back_mm
    for spaces in site.spaces:
        if len(spaces) > 1:
            rails.refuse_behind_shelf(site.framed, site.railed, spaces[-1])
    if back > site.frame.shelf_back - 50:
        raise CannotBuild(
            (*c.place.path, "shelf_set_back"), f"a shelf set back by {back:g} is {site.frame.shelf_back - back:g} deep",
            f"set it back by {site.frame.shelf_back - 50:g} or less",
        )  # fmt: skip
    number = sum(len(spaces) - 1 for spaces in site.spaces)
    counted = count(1)
    notch = (entry.reach, max(0.0, stop_of(site, entry, "side") - back))
    return tuple(
        tuple(
            piece(site, numbered("fixed shelf", next(counted), number), "fixed shelf",
                   (x0 - entry.reach, back, z), (x1 + entry.reach, site.frame.shelf_back, z + ts), LYING,
                   board=site.shelf_board, notches=Notches.in_front(notch))
            for _, z in spaces[:-1]
        )
        for (x0, x1), spaces in zip(site.bays.spaces, site.spaces, strict=True)
    )  # fmt: skip


def divider_meetings(site: Site, box: Mapping[str, Panel], dividers: tuple[Panel, ...]) -> list[Meeting]:
    """A divider registers on its left face, on lines from the left end of top and bottom."""
    joint = site.cabinet.divider_joint
    low = [butt(site, box["bottom"], divider, DOWN, LEFT, "divider", joint) for divider in dividers]
    if "top" not in box:
        return low + [rails.under_front_rail(site.railed, divider, joint) for divider in dividers]
    if site.cabinet.roof is not None:
        return low + [under_roof.under_top(site.cabinet.roof, box["top"], d, site.frame.wall_at) for d in dividers]
    before_rail = (0.0, _before_rail(site), 0.0) if site.railed.kept_free else None
    return low + [
        butt(site, box["top"], divider, UP, LEFT, "divider", joint, ends_at=before_rail) for divider in dividers
    ]


def shelf_meetings(
    site: Site, box: Mapping[str, Panel], dividers: tuple[Panel, ...], shelves: tuple[tuple[Panel, ...], ...]
) -> list[Meeting]:
    """A shelf registers on its underside, on lines from the bottom end of the uprights at both its ends.

    In every second bay both ends of the row move, so that rows on the two faces of a divider do not meet.
    """
    uprights = (box["left side"], *dividers, box["right side"])
    return [
        butt(
            site,
            uprights[bay + right],
            shelf,
            way,
            DOWN,
            "fixed shelf",
            site.cabinet.shelf_joint,
            bay % 2,
            covered=uprights[bay + right].role == "divider" and _covered(shelf, shelves[bay + (1 if right else -1)]),
        )
        for bay, in_bay in enumerate(shelves)
        for shelf in in_bay
        for right, way in ((0, LEFT), (1, RIGHT))
    ]


def _covered(shelf: Panel, beyond: tuple[Panel, ...]) -> bool:
    """Whether a shelf in the bay beyond the divider leaves no room to drive anything through it into this one."""
    (_, _, low), (_, _, high) = shelf.box
    return any(other.box[0][2] < high + DRIVER_MM and low < other.box[1][2] + DRIVER_MM for other in beyond)


def bays_in(site: Site, box: Mapping[str, Panel], dividers: tuple[Panel, ...]) -> tuple[Bay, ...]:
    """The bays from the left, between sides and dividers."""
    uprights = (box["left side"], *dividers, box["right side"])
    return tuple(
        Bay(left=uprights[i], right=uprights[i + 1], x0=x0, x1=x1) for i, (x0, x1) in enumerate(site.bays.spaces)
    )


def loose_shelves(site: Site, bays: tuple[Bay, ...]) -> tuple[tuple[Panel, ...], tuple[PinRow, ...]]:
    """Loose shelves on their pins, and the rows of bores that carry them."""
    c, ts = site.cabinet, site.shelf_board.actual_mm
    if not any(n for bay in c.in_bays for n in bay.loose_shelves):
        return (), ()
    heights = []
    for i, (*spaces, (low, high)) in enumerate(site.spaces):
        room = (*spaces, (low, high - site.railed.kept_free))
        beside = (site.spaces[j] for j in (i - 1, i + 1) if 0 <= j < len(site.spaces))
        beyond = [(under[1], over[0]) for in_bay in beside for under, over in pairwise(in_bay)]
        heights.append(_not_drawn(site, i + 1, shelf_heights(c, i, room, ts, beyond, site.shop)))
    low_y, high_y = LOOSE_FRONT_MM + c.shelf_set_back_mm, site.frame.shelf_back - LOOSE_BACK_MM
    places = [(bay, z) for bay, in_bay in zip(bays, heights, strict=True) for h in in_bay for z in h.shelves]
    loose = tuple(
        piece(site, numbered("loose shelf", i, len(places)), "loose shelf", (bay.x0 + LOOSE_SIDE_MM, low_y, z),
               (bay.x1 - LOOSE_SIDE_MM, high_y, z + ts), LYING, board=site.shelf_board)
        for i, (bay, z) in enumerate(places, 1)
    )  # fmt: skip
    return loose, pin_rows(c, bays, heights, site.frame.shelf_back, site.shop)


def _not_drawn(site: Site, bay: int, heights: tuple[PinHeights, ...]) -> tuple[PinHeights, ...]:
    """Pins of one bay (from 1): none where its drawers or clothes are."""
    drawn = {d.opening for d in site.cabinet.drawers if d.in_bay(bay)}
    drawn |= {r.opening for r in site.cabinet.clothes_rails if r.in_bay(bay)}
    return tuple(PinHeights(bored=(), shelves=()) if n in drawn else h for n, h in enumerate(heights, 1))


def openings_of(
    site: Site, bays: tuple[Bay, ...], above: str, shelves: tuple[tuple[Panel, ...], ...]
) -> tuple[Opening, ...]:
    """Every clear opening: what was asked of it and what came of it."""
    out = []
    for number, (bay, heights, in_bay) in enumerate(zip(bays, site.heights, shelves, strict=True), 1):
        names = ["bottom", *(s.id for s in in_bay), above]
        for i, ((z0, z1), asked) in enumerate(zip(heights.spaces, heights.asked, strict=True)):
            out.append(Opening(bay=number, asked=asked, comes_to=round(z1 - z0, 3), width=round(bay.x1 - bay.x0, 3),
                               between=(names[i], names[i + 1])))  # fmt: skip
    return tuple(out)


def depth_of_opening(site: Site, bay: int, opening: int) -> float:
    """How deep an opening of a bay (from 0) is: a fixing rail stands at the back of the top one."""
    top = opening == len(site.spaces[bay])
    return _before_rail(site) if top and site.railed.kept_free else site.frame.shelf_back


def _before_rail(site: Site) -> float:
    return site.frame.shelf_back - site.board.actual_mm
