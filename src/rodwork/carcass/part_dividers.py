"""Part-height dividers: uprights inside one opening, from the board below it to the board above.

___________________
|     |     |     |      each on lines from the left ends of both boards, its left face the one that is named;
|_____|_____|_____|      as deep as the shelves, so that inset doors shut before it
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from rodwork.carcass.boards import DIVIDER, NO_NOTCH, Notch, Notches
from rodwork.carcass.divide import divide
from rodwork.carcass.pins import Bay
from rodwork.carcass.site import DRIVER_MM, Site, butt, numbered, piece, stop_of
from rodwork.geometry.directions import DOWN, LEFT, UP
from rodwork.geometry.vec import Vec
from rodwork.model.job import CannotBuild, PartDividers
from rodwork.model.meeting import Entry, Meeting
from rodwork.model.panel import Panel


@dataclass(frozen=True, slots=True, kw_only=True)
class Parted:
    """The part-height dividers of a cabinet with their joints."""

    panels: tuple[Panel, ...] = ()
    meetings: tuple[Meeting, ...] = ()


@dataclass(frozen=True, slots=True)
class _Place:
    """Where one stands: its left face, its bay and opening (from 0), and the boards below and above it."""

    asked: PartDividers
    x: float
    bay: int
    opening: int
    below: Panel
    above: Panel


def part_dividers(
    site: Site, bays: Sequence[Bay], shelves: Sequence[tuple[Panel, ...]], bottom: Panel, closes: Panel
) -> Parted:  # fmt: skip
    """Every part-height divider. `closes`: the board above the top openings. Raises CannotBuild."""
    places = [p for asked in site.cabinet.part_dividers for p in _places(site, asked, bays, shelves, bottom, closes)]
    panels = tuple(_made(site, p, numbered("part divider", n, len(places))) for n, p in enumerate(places, 1))
    met = (m for place, panel in zip(places, panels, strict=True) for m in _meetings(site, place, panel, places))
    return Parted(panels=panels, meetings=tuple(met))


def _places(
    site: Site, asked: PartDividers, bays: Sequence[Bay], shelves: Sequence[tuple[Panel, ...]], bottom: Panel,
    closes: Panel,
) -> Iterator[_Place]:  # fmt: skip
    """Of one table: bay by bay from the left."""
    beyond = [n for n in asked.bays if n > len(bays)]
    if beyond:
        raise CannotBuild(
            (*asked.path, "bays"), f"bay {beyond[0]} is asked for, and there are {len(bays)}",
            f"write numbers from 1 to {len(bays)}, from the left",
        )  # fmt: skip
    for i in (i for i in range(len(bays)) if asked.in_bay(i + 1)):
        _refuse(site, asked, i)
        boards = (bottom, *shelves[i], closes)
        spaces = divide(
            bays[i].x0, bays[i].x1, site.board.actual_mm, asked.widths, None, (*asked.path, "widths"), "the widths"
        ).spaces
        n = asked.opening - 1
        yield from (_Place(asked, x, i, n, boards[n], boards[n + 1]) for _, x in spaces[:-1])


def _refuse(site: Site, asked: PartDividers, i: int) -> None:
    """An opening of a bay (from 0) that is not there, is not free, or has no level board over it."""
    cabinet, path, n = site.cabinet, (*asked.path, "opening"), asked.opening
    there = len(site.spaces[i])
    where = f"opening {n}" + (f" of bay {i + 1}" if len(cabinet.bays) > 1 else "")
    if n > there:
        raise CannotBuild(
            path, f"part-height dividers in {where}, and there are {there}",
            f"write a number from 1 to {there}, from the bottom",
        )  # fmt: skip
    if n == there and site.roof is not None:
        raise CannotBuild(
            path, "a part-height divider stands under a level board, and that opening is under the slope",
            "write an opening below a fixed shelf, or have full-height dividers: dividers = 1",
        )  # fmt: skip
    if n == there and site.railed.panels:
        raise CannotBuild(
            path, f"rails stand over {where}, where the dividers would end", "write an opening below a fixed shelf"
        )
    for taken, what in (
        (cabinet.in_bays[i].loose_shelves[n - 1] > 0, "loose shelves"),
        (any(d.opening == n and d.in_bay(i + 1) for d in cabinet.drawers), "drawers"),
        (any(r.opening == n and r.in_bay(i + 1) for r in cabinet.clothes_rails), "a clothes rail"),
        (any(h.opening == n for h in cabinet.houses), "an appliance"),
        (sum(d.opening == n and d.in_bay(i + 1) for d in cabinet.part_dividers) > 1, "dividers of another table too"),
    ):
        if taken:
            raise CannotBuild(
                path, f"{where} has part-height dividers and {what}",
                "keep them apart with a fixed shelf, or bay by bay: bays = [...]",
            )  # fmt: skip


def _entry(site: Site, host: Panel) -> Entry:
    return site.entry(site.cabinet.divider_joint, host.size[2], site.board.actual_mm)


def _notch(site: Site, host: Panel) -> Notch:
    """What is taken off its front corner where it goes into a board behind the stop or the edging of that one."""
    entry = _entry(site, host)
    if entry.reach == 0:
        return NO_NOTCH
    before = site.cabinet.shelf_set_back_mm - host.box[0][1]  # of its front edge behind the host's
    return entry.reach, max(0.0, stop_of(site, entry, host.role) - before)


def _made(site: Site, at: _Place, name: str) -> Panel:
    z0, z1 = site.spaces[at.bay][at.opening]
    low: Vec = (at.x, site.cabinet.shelf_set_back_mm, z0 - _entry(site, at.below).reach)
    high: Vec = (at.x + site.board.actual_mm, site.frame.shelf_back, z1 + _entry(site, at.above).reach)
    notches = Notches(front_left=_notch(site, at.below), front_right=_notch(site, at.above))
    return piece(site, name, "part divider", low, high, DIVIDER, notches=notches)


def _meetings(site: Site, at: _Place, panel: Panel, places: Sequence[_Place]) -> Iterator[Meeting]:
    """On both boards; on the upper face of a shelf its row moves, so that it does not meet the one from below."""
    joint = site.cabinet.divider_joint
    for host, toward in ((at.below, DOWN), (at.above, UP)):
        shelf = host.role == "fixed shelf"
        covered = shelf and any(
            other.bay == at.bay and abs(other.x - at.x) < site.board.actual_mm + DRIVER_MM
            for other in places
            if (other.above is host if toward is DOWN else other.below is host)
        )
        yield butt(site, host, panel, toward, LEFT, "divider", joint, int(shelf and toward is DOWN), covered=covered)
