"""A run: where its cabinets stand, what is left of the wall, and the boards that go along it.

The frame is the run's own: x from the left end of its wall, y to the back from the fronts of the carcasses, z up from
the floor. Every board of a run lies outside the cabinets' boxes.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from rodwork.carcass.columns import free
from rodwork.carcass.lippings import lippings
from rodwork.carcass.run_boards import Boarded, boarded
from rodwork.carcass.run_screws import connecting, items
from rodwork.carcass.run_wall import RunWall, wall_of
from rodwork.carcass.under_roof import refuse_in_run
from rodwork.carcass.worktop import RunSite
from rodwork.geometry.stack import Dimension, stack
from rodwork.geometry.vec import Vec
from rodwork.model.accuracy import Accuracy
from rodwork.model.fixing import Item
from rodwork.model.job import NO_WORKTOP_OVER, Board, Cabinet, CannotBuild, Edging
from rodwork.model.machining import Machining
from rodwork.model.meeting import Carcass
from rodwork.model.run import CabinetRun, StackUp, Standing
from rodwork.model.run_asked import RunAsked, RunEntry
from rodwork.model.survey import Survey

LEAST_INFILL_MM = 10.0  # that can be sawn and fixed at all; a check asks for more at a wall
SIGMAS = 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class BuiltRun:
    """A run as it stands, its boards with their meetings, and what is machined that belongs to no joint."""

    run: CabinetRun
    carcass: Carcass
    machining: tuple[Machining, ...]
    size: Vec


def build_run(
    asked: RunAsked,
    built: Mapping[str, tuple[Cabinet, Carcass]],
    boards: Mapping[str, Board],
    edgings: Mapping[str, Edging],
    surveys: Mapping[str, Survey],
    accuracy: Accuracy,
) -> BuiltRun:
    """The run, with the cabinets as they were built. Raises CannotBuild with the place in the job file."""
    for n, entry in enumerate(asked.of):
        if entry.stands_as == "cabinet":
            refuse_in_run(built[entry.name][0], (*asked.place.path, "of", n))
    wall = wall_of(asked, surveys, [cabinet for cabinet, _ in _cabinets(asked, built)])
    length, left, widths = _filled(asked, wall, [_width(entry, built, boards) for entry in asked.of])
    standings = _heights(asked, _side_by_side(asked, wall, widths, left), built)
    depth = max(cabinet.depth_mm for cabinet, _ in _cabinets(asked, built))
    run = CabinetRun(
        name=asked.name, where=asked.where, length=length, walls=asked.walls, starts=wall.starts,
        above_floor=asked.above_floor_mm, behind=asked.behind_mm, depth=depth, front=_front(asked, built),
        scribe=asked.scribe_mm, standings=standings, stack=_stack(asked, wall, built, boards, left, widths, accuracy),
        survey=asked.survey, origin=wall.origin, out=(wall.out_left, wall.out_right),
        door_width=_door_width(asked, built),
    )  # fmt: skip
    site = RunSite(asked=asked, run=run, built=built, boards=boards, edging=edgings.get(asked.edging or ""))
    made = boarded(site)
    lipped = lippings(made.panels, edgings, boards, (*asked.place.path, "edging"))
    made = replace(made, panels=(*made.panels, *lipped))
    screws, alone = connecting(asked, standings, built)
    run = replace(made.run, screws=screws, not_connected=alone)
    return BuiltRun(
        run=run, carcass=_carcass(made, items(screws, standings, built)), machining=made.machining,
        size=(length, _height(made, standings), depth + asked.behind_mm),
    )  # fmt: skip


def _carcass(made: Boarded, fittings: tuple[Item, ...]) -> Carcass:
    return Carcass(
        panels=made.panels, meetings=made.meetings, pin_rows=(), openings=(), shelf_pins=0, fittings=fittings
    )  # fmt: skip


def _cabinets(asked: RunAsked, built: Mapping[str, tuple[Cabinet, Carcass]]) -> list[tuple[Cabinet, Carcass]]:
    return [built[e.name] for e in asked.of if e.stands_as == "cabinet"]


def _width(entry: RunEntry, built: Mapping[str, tuple[Cabinet, Carcass]], boards: Mapping[str, Board]) -> float | None:
    """What one thing takes of the length; None: what is left."""
    if entry.stands_as == "cabinet":
        return built[entry.name][0].width_mm
    return boards[entry.name].actual_mm if entry.stands_as == "end panel" else entry.mm


def _filled(asked: RunAsked, wall: RunWall, widths: Sequence[float | None]) -> tuple[float, float, list[float]]:
    """Length of the run, what is left over in it, and the width of everything, infills shared."""
    known = sum(w for w in widths if w is not None)
    open_ = sum(1 for w in widths if w is None)
    path = (*asked.place.path, "of")
    if wall.length is None:
        if open_:
            raise CannotBuild(
                path, "an infill takes what is left, and no length is said",
                "write length = the clear length that the run has, or a size for the infill",
            )  # fmt: skip
        return round(known, 6), 0.0, [w for w in widths if w is not None]
    left = round(wall.length - known, 6)
    least = open_ * LEAST_INFILL_MM
    if left < least:
        what = f"what stands in the run is {known:g} long, and there are {wall.length:g}"
        short = f"{-left:g} too long" if left < 0 else f"which leaves {left:g} for {_infills(open_)}"
        raise CannotBuild(
            path, f"{what}: {short}",
            f"take {least - left:g} off the widths in it, or leave something out",
        )  # fmt: skip
    each = left / open_ if open_ else 0.0
    return wall.length, 0.0 if open_ else left, [each if w is None else w for w in widths]


def _infills(number: int) -> str:
    return "one infill" if number == 1 else f"{number} infills"


def _side_by_side(asked: RunAsked, wall: RunWall, widths: Sequence[float], left: float) -> tuple[Standing, ...]:
    """Everything from the left; what is left over lies at the end that it does not start from."""
    x, out = left if wall.starts == "right" else 0.0, []
    for entry, width in zip(asked.of, widths, strict=True):
        end = x + width
        out.append(
            Standing(
                stands_as=entry.stands_as,
                name=entry.name,
                copy=entry.copy,
                x0=round(x, 6),
                x1=round(end, 6),
                z0=0.0,
                z1=0.0,
                part=None,
                under_worktop=entry.under_worktop,
            )
        )
        x = end
    return tuple(out)


def _heights(
    asked: RunAsked, places: Sequence[Standing], built: Mapping[str, tuple[Cabinet, Carcass]]
) -> tuple[Standing, ...]:
    """Feet and head of everything: of what is no cabinet by the cabinets beside it."""
    up = asked.above_floor_mm
    out = []
    for i, s in enumerate(places):
        beside = [built[n.name][0] for n in _beside(places, i)]
        heights = [c.height_mm for c in beside]
        if s.stands_as == "cabinet":
            cabinet = built[s.name][0]
            out.append(replace(s, z0=up, z1=up + cabinet.height_mm, under_worktop=cabinet.kind not in NO_WORKTOP_OVER))
            continue
        head = max(heights) if s.stands_as == "end panel" else min(heights)
        chosen = next(c for c in beside if c.height_mm == head)
        to_floor = s.stands_as == "gap" or (s.stands_as == "end panel" and chosen.kind != "wall")
        under = s.under_worktop and chosen.kind not in NO_WORKTOP_OVER
        out.append(replace(s, z0=0.0 if to_floor else up + chosen.toe_mm, z1=up + head, under_worktop=under))
    return tuple(out)


def _beside(places: Sequence[Standing], i: int) -> list[Standing]:
    """The cabinets that something stands against, or the nearest there are."""
    if places[i].stands_as == "cabinet":
        return [places[i]]
    against = [n for n in (*places[max(i - 1, 0) : i], *places[i + 1 : i + 2]) if n.stands_as == "cabinet"]
    if against:
        return against
    cabinets = [(abs(k - i), n) for k, n in enumerate(places) if n.stands_as == "cabinet"]
    return [min(cabinets, key=lambda c: c[0])[1]]


def _front(asked: RunAsked, built: Mapping[str, tuple[Cabinet, Carcass]]) -> float:
    """The plane of the doors that stand furthest to the front; nought where there are none."""
    planes = [
        p.box[0][1]
        for _, carcass in _cabinets(asked, built)
        for p in carcass.panels
        if p.role in ("door", "drawer front")
    ]
    return round(min([0.0, *planes]), 6)


def _door_width(asked: RunAsked, built: Mapping[str, tuple[Cabinet, Carcass]]) -> float | None:
    """Of all doors, where the run asked for equal ones and has any; a blind end or a face frame keeps to itself."""
    if asked.doors == "by cabinet":
        return None
    plain = [carcass for cabinet, carcass in _cabinets(asked, built) if free(cabinet)]
    doors = (p for carcass in plain for p in carcass.panels if p.role == "door")
    return next((round(p.box[1][0] - p.box[0][0], 6) for p in doors), None)


def _stack(
    asked: RunAsked,
    wall: RunWall,
    built: Mapping[str, tuple[Cabinet, Carcass]],
    boards: Mapping[str, Board],
    left: float,
    widths: Sequence[float],
    accuracy: Accuracy,
) -> StackUp:
    """How far all that stands side by side may come out longer or shorter, by how true the shop works.

    A cabinet is as wide as its top, and two sides where they run through. Tops of one length are sawn at one stop and
    are off by the same; so are boards of one material. Infills are cut to what is there.
    """
    length = accuracy.method("saw, length stop").error("size")
    row: list[Dimension] = []
    behind = [length.shared, length.each]

    def add(nominal: float, setting: str, shared: float, each: float) -> None:
        row.append(Dimension(1.0, nominal, SIGMAS * shared, -SIGMAS * shared, setting))
        row.append(Dimension(1.0, 0.0, SIGMAS * each, -SIGMAS * each))

    def thickness(board: Board) -> None:
        sheet = accuracy.named("sheet as sold" if board.actual_mm == board.thickness_mm else "sheet as measured")
        error = sheet.error("size")
        behind.extend((error.shared, error.each))
        add(board.actual_mm, f"sheet {board.name}", error.shared.value, error.each.value)

    for entry in asked.of:
        if entry.stands_as == "cabinet":
            cabinet, carcass = built[entry.name]
            top = next(p for p in carcass.panels if p.role in ("top", "bottom"))
            add(top.size[0], f"stop {top.size[0]:.1f}", length.shared.value, length.each.value)
            if cabinet.sides == "through":
                for _ in range(2):
                    thickness(boards[cabinet.board])
        elif entry.stands_as == "end panel":
            thickness(boards[entry.name])
    said = stack(row)
    infills = sum(w for e, w in zip(asked.of, widths, strict=True) if e.stands_as == "infill")
    return StackUp(
        length=round(sum(widths), 3), worst=round(said.worst, 2), likely=round(said.likely, 2),
        left=None if wall.length is None or asked.walls == "none" else round(left + infills, 3),
        measured=any(not s.assumed for s in behind),
    )  # fmt: skip


def _height(made: Boarded, standings: Sequence[Standing]) -> float:
    tops = [s.z1 for s in standings]
    tops += [p.box[1][2] for p in made.panels]
    return round(max(tops), 6)
