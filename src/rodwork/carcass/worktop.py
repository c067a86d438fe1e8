"""The worktop of a run: its lengths and where they are joined, its cut-outs, its upstand.

It lies on everything that is no tall unit and no gap left open, over the fronts by `front` and over free ends.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise

from rodwork.carcass.boards import BACK_ACROSS, LYING, panel
from rodwork.carcass.contacts import edge_to_edge
from rodwork.carcass.in_lengths import OVER_CABINET_MM, Span, joints, longest
from rodwork.geometry.directions import FRONT, RIGHT, UP
from rodwork.model.feature import Cutout
from rodwork.model.job import Board, Cabinet, CannotBuild, Edging, Recipe
from rodwork.model.machining import MACHINED_FACE, Machining
from rodwork.model.meeting import Carcass, Meeting
from rodwork.model.panel import Panel
from rodwork.model.run import CLEAR_OF_CUT_OUT_MM, CabinetRun, CutOutPlace, Standing
from rodwork.model.run_asked import CutOutAsked, RunAsked, WorktopAsked
from rodwork.model.surface import Surface

OFF_WALL_MM = 2.0  # a worktop is this much short of a wall, so that it goes in; common practice, no source
LEAST_WOOD_MM = 20.0  # beside a cut-out, or it is no cut-out; checks ask for more


@dataclass(frozen=True, slots=True, kw_only=True)
class RunSite:
    """What every step of boarding one run needs."""

    asked: RunAsked
    run: CabinetRun
    built: Mapping[str, tuple[Cabinet, Carcass]]
    boards: Mapping[str, Board]
    edging: Edging | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Tops:
    """Worktops and upstands with their joints, and the cut-outs in them."""

    panels: tuple[Panel, ...] = ()
    meetings: tuple[Meeting, ...] = ()
    machining: tuple[Machining, ...] = ()
    joints: tuple[float, ...] = ()
    cut_outs: tuple[CutOutPlace, ...] = ()


def worktops(site: RunSite) -> Tops:
    """Everything on top of a run. Raises CannotBuild."""
    asked = site.asked.worktop
    if asked is None:
        return Tops()
    _depth_fits(site, asked)
    pieces: list[tuple[Span, float, bool]] = []  # along the run, its underside, whether it goes on from the last
    at: list[float] = []
    spans = []
    for stretch in _stretches(site):
        span = _span(site, asked, stretch)
        spans.append(span)
        places = _joints(site, asked, stretch, span)
        at += places
        ends = (span[0], *places, span[1])
        pieces += [((a, b), stretch[0].z1, n > 0) for n, (a, b) in enumerate(pairwise(ends))]
    _joints_used(site, asked, spans)
    tops = tuple(_top(site, asked, n, len(pieces), span, z) for n, (span, z, _) in enumerate(pieces, 1))
    meetings = tuple(
        edge_to_edge(host=a, guest=b, toward=RIGHT, datum=FRONT, flush=UP, recipe=_recipe(site, asked))
        for a, b, (_, _, goes_on) in zip(tops, tops[1:], pieces[1:], strict=False)
        if goes_on
    )  # fmt: skip
    cuts = [_cut_out(site, asked, n, cut, tops) for n, cut in enumerate(asked.cut_outs, 1)]
    return Tops(
        panels=(*tops, *_upstands(site, asked, spans)), meetings=meetings, machining=tuple(m for m, _ in cuts),
        joints=tuple(at), cut_outs=tuple(c for _, c in cuts),
    )  # fmt: skip


def _path(site: RunSite, *words: str | int) -> tuple[str | int, ...]:
    return (*site.asked.place.path, "worktop", *words)


def _front(site: RunSite, asked: WorktopAsked) -> float:
    """How far the worktop stands before the fronts of the carcasses."""
    deep = site.run.depth + site.run.behind
    return asked.front_mm if asked.depth_mm is None else round(asked.depth_mm - deep, 6)


def _depth_fits(site: RunSite, asked: WorktopAsked) -> None:
    front, deep = _front(site, asked), site.run.depth + site.run.behind
    if front < -site.run.front:
        short = -site.run.front - front
        raise CannotBuild(
            _path(site, "front" if asked.depth_mm is None else "depth"),
            f"a worktop {deep + front:g} deep would stand {short:g} behind the doors under it",
            f"make it {deep - site.run.front:g} deep or more: carcass {site.run.depth:g}, {site.run.behind:g} behind "
            f"it, {-site.run.front:g} of doors",
        )


def _stretches(site: RunSite) -> list[tuple[Standing, ...]]:
    """What one worktop lies on, from the left: neighbours of one height."""
    found = [tuple(group) for under, group in groupby(site.run.standings, lambda s: s.under_worktop) if under]
    if not found:
        raise CannotBuild(
            _path(site), "nothing in the run can carry a worktop: all are wall or tall units", "leave worktop out"
        )
    for stretch in found:
        heights = sorted({s.z1 for s in stretch})
        if len(heights) > 1:
            raise CannotBuild(
                _path(site),
                f"the worktop would lie on what is {' and '.join(f'{h:g}' for h in heights)} above the floor",
                "make these cabinets of one height, or put them into two runs",
            )
    return found


def _span(site: RunSite, asked: WorktopAsked, stretch: Sequence[Standing]) -> Span:
    """Where the worktop begins and ends: over a free end, short of a wall, against a taller neighbour."""
    run = site.run
    first, last = stretch[0] is run.standings[0], stretch[-1] is run.standings[-1]
    left = (-OFF_WALL_MM if run.walls in ("both", "left") else asked.ends_mm[0]) if first else 0.0
    right = (-OFF_WALL_MM if run.walls in ("both", "right") else asked.ends_mm[1]) if last else 0.0
    start, end = stretch[0].x0, stretch[-1].x1
    if first and run.walls in ("both", "left"):
        start = 0.0  # over what is left over beside the wall too
    if last and run.walls in ("both", "right"):
        end = run.length
    return round(start - left, 6), round(end + right, 6)


def _middle(site: RunSite, cut: CutOutAsked) -> float:
    if cut.at_mm is not None:
        return cut.at_mm
    over = site.run.standings[(cut.place or 1) - 1]
    return (over.x0 + over.x1) / 2


def _joints(site: RunSite, asked: WorktopAsked, stretch: Sequence[Standing], span: Span) -> tuple[float, ...]:
    """Where the worktop is joined: as asked, or as even as may be, off gaps and away from cut-outs."""
    board = site.boards[asked.board]
    if asked.joints_at_mm is not None:
        return tuple(sorted(x for x in asked.joints_at_mm if span[0] < x < span[1]))
    near = CLEAR_OF_CUT_OUT_MM
    barred = [(s.x0 - OVER_CABINET_MM, s.x1 + OVER_CABINET_MM) for s in stretch if s.stands_as == "gap"]
    middles = [(_middle(site, c), c.width_mm / 2) for c in asked.cut_outs]
    barred += [(m - half - near, m + half + near) for m, half in middles]
    places = joints(span, longest(board), barred)
    if places is None:
        raise CannotBuild(
            _path(site),
            f"a worktop {span[1] - span[0]:g} long does not come out of sheets of {board.name} ({longest(board):g} at "
            f"the most) without a joint over a gap or within {near:g} of a cut-out",
            "use a longer sheet for it, move a cut-out, or say joints_at",
        )
    return places


def _joints_used(site: RunSite, asked: WorktopAsked, spans: Sequence[Span]) -> None:
    """Every joint that is asked for must lie in a worktop."""
    for i, x in enumerate(asked.joints_at_mm or ()):
        if not any(a + LEAST_WOOD_MM < x < b - LEAST_WOOD_MM for a, b in spans):
            reach = " and ".join(f"{a:g} to {b:g}" for a, b in spans)
            raise CannotBuild(
                _path(site, "joints_at", i), f"a joint at {x:g} lies in no worktop: they reach from {reach}",
                "count from the left end of the run",
            )  # fmt: skip


def _recipe(site: RunSite, asked: WorktopAsked) -> Recipe:
    if asked.joint is None:
        raise CannotBuild(
            _path(site), "the worktop comes in more than one length, and nothing is said of how they are joined",
            'write joint = the NAME of a recipe that can join boards edge to edge, such as biscuits',
        )  # fmt: skip
    return asked.joint


def _top(site: RunSite, asked: WorktopAsked, n: int, of: int, span: Span, z: float) -> Panel:
    board, front = site.boards[asked.board], _front(site, asked)
    free = [span[0] < 0.0, span[1] > site.run.length]
    ends: tuple[Surface, ...] = ("left_end", "right_end")
    seen: tuple[Surface, ...] = ("face_edge", *(e for e, f in zip(ends, free, strict=True) if f))
    low, high = (span[0], -front, z), (span[1], site.run.depth + site.run.behind, z + board.actual_mm)
    return panel(
        id="worktop" if of == 1 else f"worktop {n}", role="worktop", board=board, box=(low, high), rotation=LYING,
        edged=seen if site.edging else (), edging=site.edging, shows=(*seen, "face_side"), in_box=False,
    )  # fmt: skip


def _upstands(site: RunSite, asked: WorktopAsked, spans: Sequence[Span]) -> tuple[Panel, ...]:
    """A board on edge at the wall over each worktop, in the lengths that its sheets give."""
    if not asked.upstand_mm:
        return ()
    board, top = site.boards[asked.upstand_board], site.boards[asked.board].actual_mm
    deep = site.run.depth + site.run.behind
    made: list[tuple[Span, float]] = []
    for span, stretch in zip(spans, _stretches(site), strict=True):
        places = joints(span, longest(board), ())
        ends = (span[0], *(places or ()), span[1])
        made += [((a, b), stretch[0].z1 + top) for a, b in pairwise(ends)]
    return tuple(
        panel(
            id="upstand" if len(made) == 1 else f"upstand {n}", role="upstand", board=board, rotation=BACK_ACROSS,
            box=((a, deep - board.actual_mm, z), (b, deep, z + asked.upstand_mm)), edged=(), edging=None,
            shows=("face_side", "far_edge"), in_box=False,
        )
        for n, ((a, b), z) in enumerate(made, 1)
    )  # fmt: skip


def _cut_out(
    site: RunSite, asked: WorktopAsked, n: int, cut: CutOutAsked, tops: Sequence[Panel]
) -> tuple[Machining, CutOutPlace]:
    """One cut-out in the length of worktop that it lies in, set out from that board's left end and front edge."""
    middle, path = _middle(site, cut), _path(site, "cut_outs", n - 1)
    x0, x1 = middle - cut.width_mm / 2, middle + cut.width_mm / 2
    board = next((t for t in tops if t.pose.origin[0] <= middle <= t.pose.origin[0] + t.size[0]), None)
    size = f"{cut.what}, {cut.width_mm:g} x {cut.depth_mm:g}"
    if board is None:
        raise CannotBuild(path, f"the cut-out for the {size}, lies over no worktop", "move it along the run")
    left, right = x0 - board.pose.origin[0], board.pose.origin[0] + board.size[0] - x1
    behind = board.size[1] - cut.from_front_mm - cut.depth_mm
    short = min(left, right, behind, cut.from_front_mm)
    if short < LEAST_WOOD_MM:
        where = {left: "its left end", right: "its right end", behind: "its back edge"}.get(short, "its front edge")
        raise CannotBuild(
            path, f"the cut-out for the {size}, leaves {max(short, 0.0):g} of {board.name} at {where}",
            f"leave {LEAST_WOOD_MM:g} at the least: move it, or look at the template again",
        )  # fmt: skip
    if 2 * cut.radius_mm > min(cut.width_mm, cut.depth_mm):
        raise CannotBuild(
            (*path, "radius"), f"a radius of {cut.radius_mm:g} is more than half the cut-out for the {size}",
            f"write {min(cut.width_mm, cut.depth_mm) / 2:g} or less",
        )  # fmt: skip
    y0 = cut.from_front_mm
    corners = ((left, y0), (left + cut.width_mm, y0), (left + cut.width_mm, y0 + cut.depth_mm),
               (left, y0 + cut.depth_mm))  # fmt: skip
    thick = board.size[2]
    feature = Cutout(
        id=f"{board.id} cut-out {n}", role="service", at=(left + cut.width_mm / 2, y0 + cut.depth_mm / 2, thick),
        into=(0.0, 0.0, -1.0), along=(1.0, 0.0, 0.0), depth=thick, length=cut.width_mm, width=cut.depth_mm,
        ends="round" if cut.radius_mm else "square", end_radius=cut.radius_mm, polygon=corners,
        stage="after edging",
    )  # fmt: skip
    machining = Machining(
        part=board.id, feature=feature, tool="router and template", cutter="template cutter",
        bears="face_side", along_from="left_end", across_from="face_edge", stands_on=MACHINED_FACE,
        fence_on="no fence", to_marks=True,
    )  # fmt: skip
    front = _front(site, asked)
    placed = CutOutPlace(
        what=cut.what, part=board.id, feature=feature.id, x0=round(x0, 6), x1=round(x1, 6), y0=round(y0 - front, 6),
        y1=round(y0 - front + cut.depth_mm, 6), radius=cut.radius_mm,
    )  # fmt: skip
    return machining, placed
