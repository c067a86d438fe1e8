"""The boards of a run: infills, end panels, plinth board, cornice and pelmet; its worktop stands in worktop.py.

All of them lie outside the cabinets. Strips stand on edge with their face to the front; lengths that no sheet gives
are joined where it does not matter: a plinth board under a cabinet, never in a gap.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby, pairwise

from rodwork.carcass.boards import BACK_ACROSS, BACK_UP, DIVIDER, FACING_LEFT, FACING_RIGHT, panel
from rodwork.carcass.in_lengths import OVER_CABINET_MM, Span, joints, longest
from rodwork.carcass.worktop import RunSite, Tops, worktops
from rodwork.geometry.vec import Matrix, Vec
from rodwork.model.job import Board, CannotBuild
from rodwork.model.machining import Machining
from rodwork.model.meeting import Meeting
from rodwork.model.panel import Panel, Role
from rodwork.model.run import CabinetRun, Standing
from rodwork.model.run_asked import StripAsked
from rodwork.model.surface import Surface

LEAST_RETURN_MM = 60.0

_SHOWS: Mapping[Role, tuple[Surface, ...]] = {
    "infill": ("face_side",),
    "end panel": ("face_edge", "face_side", "back_side"),
    "plinth board": ("face_side",),
    "cornice": ("face_side", "face_edge", "far_edge"),
    "pelmet": ("face_side", "face_edge", "far_edge"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Boarded:
    """A run with its boards, and what is machined in them that belongs to no joint."""

    run: CabinetRun
    panels: tuple[Panel, ...]
    meetings: tuple[Meeting, ...]
    machining: tuple[Machining, ...]


def boarded(site: RunSite) -> Boarded:
    """Every board of a run. Raises CannotBuild."""
    standings, upright = _upright(site)
    run = replace(site.run, standings=standings)
    plinth, plinth_joints = _plinth(site)
    tops: Tops = worktops(site)
    run = replace(run, plinth_joints=plinth_joints, joints=tops.joints, cut_outs=tops.cut_outs)
    strips = (*_strips(site, "cornice", site.asked.cornice), *_strips(site, "pelmet", site.asked.pelmet))
    return Boarded(
        run=run, panels=(*upright, *plinth, *tops.panels, *strips), meetings=tops.meetings, machining=tops.machining
    )


def _board(
    site: RunSite, id: str, role: Role, board: Board, low: Vec, high: Vec, rotation: Matrix,
    edged: tuple[Surface, ...] = (),
) -> Panel:  # fmt: skip
    return panel(
        id=id, role=role, board=board, box=(low, high), rotation=rotation, edged=edged if site.edging else (),
        edging=site.edging, shows=_SHOWS[role], in_box=False,
    )  # fmt: skip


def numbered(word: str, number: int, of: int) -> str:
    """A name with its number, where there are several."""
    return word if of == 1 else f"{word} {number}"


# infills and end panels


def _upright(site: RunSite) -> tuple[tuple[Standing, ...], tuple[Panel, ...]]:
    """Infills and end panels where they stand; an infill at a wall has something over to be scribed."""
    out, panels = [], list[Panel]()
    counts = {kind: sum(1 for s in site.run.standings if s.stands_as == kind) for kind in ("infill", "end panel")}
    seen = dict.fromkeys(counts, 0)
    for i, s in enumerate(site.run.standings):
        if s.stands_as not in counts:
            out.append(s)
            continue
        seen[s.stands_as] += 1
        name = numbered(s.stands_as, seen[s.stands_as], counts[s.stands_as])
        panels.append(_infill(site, i, s, name) if s.stands_as == "infill" else _end_panel(site, s, name))
        out.append(replace(s, part=name))
    return tuple(out), tuple(panels)


def _infill(site: RunSite, i: int, s: Standing, name: str) -> Panel:
    board, run = site.boards[s.name], site.run
    left = run.scribe + run.out[0] if i == 0 and run.walls in ("both", "left") else 0.0
    right = run.scribe + run.out[1] if i == len(run.standings) - 1 and run.walls in ("both", "right") else 0.0
    y = run.front
    low, high = (s.x0 - left, y, s.z0), (s.x1 + right, y + board.actual_mm, s.z1)
    return _board(site, name, "infill", board, low, high, BACK_UP)


def _end_panel(site: RunSite, s: Standing, name: str) -> Panel:
    run = site.run
    low, high = (s.x0, run.front, s.z0), (s.x1, run.depth + run.behind, s.z1)
    return _board(site, name, "end panel", site.boards[s.name], low, high, DIVIDER, ("face_edge",))


# along the run


def _stretches(standings: Sequence[Standing], key: Callable[[Standing], object]) -> Iterator[tuple[Standing, ...]]:
    """Neighbours that have this in common; None parts them."""
    for what, group in groupby(standings, key):
        if what is not None:
            yield tuple(group)


def _plinth(site: RunSite) -> tuple[tuple[Panel, ...], tuple[float, ...]]:
    """The plinth board between what goes to the floor, and where it is joined."""
    asked = site.asked.plinth
    if asked is None:
        return (), ()

    def over_it(s: Standing) -> bool | None:
        panel_to_floor = s.stands_as == "end panel" and s.z0 == 0.0
        open_gap = s.stands_as == "gap" and not s.under_worktop
        return None if panel_to_floor or open_gap else True

    board, at = site.boards[asked.board], list[float]()
    pieces: list[Span] = []
    for stretch in _stretches(site.run.standings, over_it):
        span = (stretch[0].x0, stretch[-1].x1)
        barred = _not_over_a_cabinet(stretch)
        places = _joined(site, "plinth", span, board, barred, "a gap")
        at += places
        ends = (span[0], *places, span[1])
        pieces += list(pairwise(ends))
    high = (site.run.above_floor if asked.height_mm is None else asked.height_mm) - asked.clear_mm
    panels = tuple(
        _board(site, numbered("plinth board", n, len(pieces)), "plinth board", board, (a, asked.set_mm, 0.0),
               (b, asked.set_mm + board.actual_mm, high), BACK_ACROSS)
        for n, (a, b) in enumerate(pieces, 1)
    )  # fmt: skip
    return panels, tuple(at)


def _not_over_a_cabinet(stretch: Sequence[Standing]) -> list[Span]:
    return [(s.x0 - OVER_CABINET_MM, s.x1 + OVER_CABINET_MM) for s in stretch if s.stands_as != "cabinet"]


def _joined(
    site: RunSite, word: str, span: Span, board: Board, barred: Sequence[Span], where: str
) -> tuple[float, ...]:
    """Where a strip is joined, or it cannot be made of this sheet."""
    places = joints(span, longest(board), barred)
    if places is None:
        raise CannotBuild(
            (*site.asked.place.path, word),
            f"a {word} {span[1] - span[0]:g} long does not come out of sheets of {board.name} "
            f"({longest(board):g} at the most) without a joint in {where}",
            "use a longer sheet for it",
        )
    return places


def _strips(site: RunSite, role: Role, asked: StripAsked | None) -> tuple[Panel, ...]:
    """Cornice or pelmet over each stretch of one height, with a return at each free end.

    The strip goes past its returns, which butt against its back; for a mitre the return is sawn longer by the
    thickness of the strip.
    """
    if asked is None or asked.height_mm is None:
        return ()
    board, up = site.boards[asked.board], asked.height_mm
    fronts, returns = list[tuple[Vec, Vec]](), list[tuple[Vec, Vec, Matrix]]()
    for stretch in _places_for(site, role, up):
        z = stretch[0].z1 if role == "cornice" else stretch[0].z0 - up
        span = (stretch[0].x0, stretch[-1].x1)
        places = _joined(site, role, span, board, _not_over_a_cabinet(stretch), "an infill")
        y1 = asked.set_mm + board.actual_mm
        fronts += [((a, asked.set_mm, z), (b, y1, z + up)) for a, b in pairwise((span[0], *places, span[1]))]
        returns += [
            ((x0, y1, z), (x1, site.run.depth + site.run.behind, z + up), turn)
            for x0, x1, turn in _return_places(site, stretch, board.actual_mm, y1)
        ]
    made = [
        _board(site, numbered(role, n, len(fronts)), role, board, low, high, BACK_ACROSS)
        for n, (low, high) in enumerate(fronts, 1)
    ]
    made += [
        _board(site, f"{role} return {n}", role, board, low, high, turn)
        for n, (low, high, turn) in enumerate(returns, 1)
    ]
    return tuple(made)


def _places_for(site: RunSite, role: Role, up: float) -> tuple[tuple[Standing, ...], ...]:
    """The stretches that a strip so high goes along."""
    path = (*site.asked.place.path, role)
    stretches = tuple(_stretches(site.run.standings, lambda s: _stands_under(site, role, s)))
    if not stretches:
        raise CannotBuild(
            path, f"there is no place for a {role}: a worktop lies on all of it", f"leave {role} out, or the worktop"
        )
    if role == "pelmet" and up > site.run.above_floor:
        raise CannotBuild(
            (*path, "height"),
            f"a pelmet {up:g} high does not go under carcasses {site.run.above_floor:g} above the floor",
            "write above_floor = the height that the wall units hang at",
        )
    return stretches


def _return_places(
    site: RunSite, stretch: Sequence[Standing], thick: float, behind: float
) -> Iterator[tuple[float, float, Matrix]]:
    """Where a return stands along the run, and how it is turned: at free ends that have the depth for one."""
    if site.run.depth + site.run.behind - behind < LEAST_RETURN_MM:
        return
    if _free(site, stretch[0], -1):
        yield stretch[0].x0, stretch[0].x0 + thick, FACING_LEFT
    if _free(site, stretch[-1], 1):
        yield stretch[-1].x1 - thick, stretch[-1].x1, FACING_RIGHT


def _stands_under(site: RunSite, role: Role, s: Standing) -> float | None:
    """The height at which a strip goes along over or under this; None where it does not."""
    if s.stands_as == "gap":
        return None
    if role == "cornice":
        return None if site.asked.worktop is not None and s.under_worktop else s.z1
    return s.z0 if s.z0 == site.run.above_floor else None  # an end panel to the floor stops a pelmet


def _free(site: RunSite, end: Standing, way: int) -> bool:
    """Whether nothing as high stands beyond this end of a stretch, and no wall."""
    standings = site.run.standings
    i = [s.x0 for s in standings].index(end.x0) + way
    if 0 <= i < len(standings):
        return standings[i].stands_as == "gap" or standings[i].z1 < end.z1
    walled = ("both", "left") if way < 0 else ("both", "right")
    return site.run.walls not in walled
