"""Machine settings at job level: each fence is set once for every board of the job that shares it."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Literal

from rodwork.geometry.rounding import to_step
from rodwork.model.feature import NOT_SET_OUT, Stage, noun_of, through
from rodwork.model.machining import BATTEN, LAID_ON_LINE, OWN_BASE, THE_END, Machining
from rodwork.model.panel import Panel
from rodwork.model.setup import Fence, Reading, Setup, SetupFeature
from rodwork.model.slope import askew, bevel_at
from rodwork.model.surface import EDGES, OPPOSITE, Surface, axis_of, level
from rodwork.model.words import cabinet_words
from rodwork.setout.readings import readings, worded

_STAGES: tuple[Stage, ...] = ("before edging", "after edging", "in place")
_TOOLS = (
    "saw, rip fence", "saw, length stop", "saw, to a line", "dowel jig", "drill and fence", "router and fence",
    "router and batten", "slot jointer", "undercut slot jointer", "mortise jointer", "pocket jig",
    "drill and pin strip", "router and template",
)  # fmt: skip
_SAWS = _TOOLS[:3]
_FROM_THE_LINE = (BATTEN, LAID_ON_LINE)
_BY_ITS_BASE = (OWN_BASE, LAID_ON_LINE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """What has to be the same for boards to share a machine setting."""

    stage: Stage
    tool: str
    cutter: str | None
    fence_mm: float | None
    depth: float | None
    stands_on: str
    registers_on: str
    line: float | None
    thing: str = ""  # what is made, alone: "bore"
    to_marks: bool = False
    tilt: float = 0.0  # of the blade or the fence, degrees
    tilted_for: str = ""  # the ends that the blade is tilted for

    def order(self) -> tuple[object, ...]:
        """Stage, machine, cutter, fence, depth: what is harder to change comes first."""
        tool = _TOOLS.index(self.tool) if self.tool in _TOOLS else len(_TOOLS)
        fence = self.fence_mm if self.fence_mm is not None else -1.0
        widest_first = -fence if self.tool in _SAWS else fence
        return (
            _STAGES.index(self.stage), tool, self.cutter or "", widest_first, -(self.depth or 0.0),
            self.tilt, self.tilted_for, self.stands_on != THE_END, self.stands_on == BATTEN, self.registers_on,
            self.line or 0.0,
        )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardWork:
    """One part of one cabinet and its machining."""

    cabinet: str
    panel: Panel
    machining: tuple[Machining, ...]
    mills_mm: float
    sawn_again: bool = False  # once its lippings are on

    @property
    def sawn(self) -> bool:
        """Whether it is sawn here."""
        return not self.panel.bought


def settings(work: Iterable[BoardWork], step: float) -> tuple[Setup, ...]:
    """Every setting of the job in the order of work, with the boards done at it."""
    shared: dict[Setting, list[SetupFeature]] = {}
    for board in work:
        words = cabinet_words(board.panel.role, board.panel.pose.rotation)
        sawing = _sawing(board, words, step) if board.sawn else ()
        for setting, entry in (*sawing, *_machining(board, words, step)):
            shared.setdefault(setting, []).append(entry)
    ordered = sorted(shared, key=Setting.order)
    fences = _fences(ordered)
    return tuple(
        _setup(f"S{number}", setting, tuple(shared[setting]), fences.get(_fence_key(setting)))
        for number, setting in enumerate(ordered, 1)
    )


def _sawing(board: BoardWork, words: Mapping[Surface, str], step: float) -> tuple[tuple[Setting, SetupFeature], ...]:
    """To width from the far edge, to length from the bottom or left end, before edging; then what runs askew."""
    panel = board.panel
    datum: Surface = "right_end" if words["right_end"] in ("bottom end", "left end") else "left_end"
    across = Reading(from_surface="far_edge", word=words["far_edge"], mm=to_step(panel.cut[1], step))
    along = Reading(from_surface=datum, word=words[datum], mm=to_step(panel.cut[0], step))

    def tilted(axis: int) -> dict[str, float]:
        return {words[e]: abs(bevel_at(panel, e)) for e in EDGES if axis_of(e) == axis and bevel_at(panel, e)}

    return (
        (_saw(_SAWS[0], across, tilted(1)), _sawn(board, across=across)),
        (_saw(_SAWS[1], along, tilted(0)), _sawn(board, along=along)),
        *(_askew(board, words, step, edge) for edge in EDGES if askew(panel.outline, edge)),
        *_again(board, across, along, step),
    )


def _again(board: BoardWork, across: Reading, along: Reading, step: float) -> Iterator[tuple[Setting, SetupFeature]]:
    """A board with lippings that are over size is sawn to its finished size once they are on."""
    if not board.sawn_again:
        return
    size = board.panel.size
    if board.panel.edging.face_edge or board.panel.edging.far_edge:
        wide = replace(across, mm=to_step(size[1], step))
        yield _saw(_SAWS[0], wide, stage="after edging"), _sawn(board, across=wide)
    if board.panel.edging.left_end or board.panel.edging.right_end:
        long = replace(along, mm=to_step(size[0], step))
        yield _saw(_SAWS[1], long, stage="after edging"), _sawn(board, along=long)


def _askew(board: BoardWork, words: Mapping[Surface, str], step: float, edge: Surface) -> tuple[Setting, SetupFeature]:
    """An edge that runs askew is sawn to a line between two marks, both measured from the edge opposite it.

    Before edging: every edge of the board lies so far inside the finished one as its edging adds.
    """
    datum, axis = OPPOSITE[edge], axis_of(edge)
    beside: tuple[Surface, Surface] = ("face_edge", "far_edge") if axis == 0 else ("left_end", "right_end")
    first, last = (to_step(_mark(board, edge, other), step) for other in beside)
    reading = Reading(from_surface=datum, word=words[datum], mm=first, end_mm=last)
    setting = Setting(
        stage="before edging", tool=_SAWS[2], cutter=None, fence_mm=None, depth=None, stands_on="saw table",
        registers_on=words[datum], line=None, to_marks=True,
        thing=f"{first:.1f} at the {words[beside[0]]} to {last:.1f} at the {words[beside[1]]}",
    )  # fmt: skip
    return setting, _sawn(board, along=reading) if axis == 0 else _sawn(board, across=reading)


def _mark(board: BoardWork, edge: Surface, beside: Surface) -> float:
    """Where the line of an edge askew comes to an edge beside it on the raw board, from the edge opposite, mm."""
    panel, axis = board.panel, axis_of(edge)
    less = {e: added - board.mills_mm if (added := panel.edging.at(e)) else 0.0 for e in EDGES}
    oblique = askew(panel.outline, edge)
    assert oblique is not None
    (x, y), way = oblique
    along = less[beside] if level(beside, panel.size) == 0 else panel.size[1 - axis] - less[beside]
    reaches = (way[0] * x + way[1] * y - less[edge] - way[1 - axis] * along) / way[axis]
    end = panel.size[axis] - reaches if level(OPPOSITE[edge], panel.size) else reaches
    return end - less[OPPOSITE[edge]]


def _saw(
    tool: str, reading: Reading, tilted: Mapping[str, float] = MappingProxyType({}), stage: Stage = "before edging"
) -> Setting:  # fmt: skip
    """`tilted`: the ends that are bevelled, by their words, and how much; both by the same where there are two."""
    return Setting(
        stage=stage, tool=tool, cutter=None, fence_mm=reading.mm, depth=None, stands_on="saw table",
        registers_on=reading.word, line=None, tilt=round(max(tilted.values(), default=0.0), 3),
        tilted_for="both" if len(tilted) > 1 else "".join(tilted),
    )  # fmt: skip


def _sawn(board: BoardWork, along: Reading | None = None, across: Reading | None = None) -> SetupFeature:
    return SetupFeature(
        cabinet=board.cabinet, part=board.panel.id, feature=None, bears=None, along=along, across=across
    )


def _machining(board: BoardWork, words: Mapping[Surface, str], step: float) -> tuple[tuple[Setting, SetupFeature], ...]:
    out = []
    for m in board.machining:
        if m.feature.stage in NOT_SET_OUT:
            continue
        along, across = readings(m, board.panel, words, board.mills_mm, step)
        setting = Setting(
            stage=m.feature.stage, tool=m.tool, cutter=m.cutter, fence_mm=_fence_mm(m, across),
            depth=None if through(m.feature) else m.feature.depth, stands_on=m.stands_on,
            registers_on=worded(m, board.panel, words, m.across_from),
            tilt=round(abs(bevel_at(board.panel, m.bears)), 3),
            line=across.line if m.stands_on in _FROM_THE_LINE else None, thing=noun_of(m.feature), to_marks=m.to_marks,
        )  # fmt: skip
        entry = SetupFeature(
            cabinet=board.cabinet, part=m.part, feature=m.feature.id, bears=m.bears, along=along, across=across
        )
        out.append((setting, entry))
    return tuple(out)


def _fence_mm(m: Machining, across: Reading) -> float | None:
    """What the fence is set to: from the line where there is one; None where the batten itself is the fence."""
    if m.fence_on == "no fence":
        return None
    at = across.end_mm if m.fence_on == "far wall" and across.end_mm is not None else across.mm
    if m.stands_on not in _FROM_THE_LINE:
        return at
    from_line = abs(round(at - (across.line or 0.0), 6))
    return None if m.fence_on == "near wall" and abs(from_line) < 1e-9 else from_line


def _fence_key(setting: Setting) -> tuple[object, ...]:
    """One setting of a fence is one error: it outlives a change of depth or of the surface held against it."""
    own = (setting.registers_on,) if setting.tool in _SAWS else (setting.stands_on in _BY_ITS_BASE,)
    return (setting.stage, setting.tool, setting.cutter, setting.fence_mm, *own)


def _fences(ordered: list[Setting]) -> dict[tuple[object, ...], Fence]:
    out: dict[tuple[object, ...], Fence] = {}
    counts = {"C": 0, "F": 0}
    for setting in ordered:
        key = _fence_key(setting)
        if setting.fence_mm is None or key in out:
            continue
        letter = "C" if setting.tool in _SAWS else "F"
        counts[letter] += 1
        out[key] = Fence(id=f"{letter}{counts[letter]}", mm=setting.fence_mm)
    return out


def _setup(id: str, s: Setting, entries: tuple[SetupFeature, ...], fence: Fence | None) -> Setup:
    none = s.tool in _SAWS[:2] or (_is_channel(entries) and not s.to_marks)
    stops: tuple[float, ...] | Literal["marks"] = () if none else "marks" if s.to_marks else _stops(entries)
    return Setup(
        id=id, stage=s.stage, tool=s.tool, cutter=s.cutter, registers_on=s.registers_on, stands_on=s.stands_on,
        fence=fence, stop=stops, depth=s.depth, first_off=_first_off(s, entries), features=entries,
        tilt=s.tilt or None,
    )  # fmt: skip


def _is_channel(entries: tuple[SetupFeature, ...]) -> bool:
    return any(e.across is not None and e.across.end_mm is not None for e in entries)


def _stops(entries: tuple[SetupFeature, ...]) -> tuple[float, ...]:
    """Where the tool goes in; for a keyhole where it ends as well."""
    marks = {mm for e in entries if e.along is not None for mm in (e.along.mm, e.along.end_mm) if mm is not None}
    return tuple(sorted(marks))


def _first_off(s: Setting, entries: tuple[SetupFeature, ...]) -> str:
    """What to measure on a test piece before the first board, and what it should read."""
    if s.fence_mm is None and s.tool in _SAWS:
        return f"the line runs from {s.thing}, both from the {s.registers_on}"
    if s.tool in _SAWS:
        return f"reads {s.fence_mm:.1f}" + (", its lippings flushed" if s.stage == "after edging" else _blade(s))
    start = "the line" if s.stands_on in _FROM_THE_LINE else f"the {s.registers_on}"
    if _is_channel(entries):
        across = entries[0].across
        assert across is not None
        assert across.end_mm is not None
        width = across.end_mm - across.mm
        if s.depth is None:
            return f"the template stands on its lines, {across.mm:.1f} and {across.end_mm:.1f} from {start}"
        wall = f"far wall {s.fence_mm:.1f} from {start}" if s.fence_mm == across.end_mm else (
            f"near wall on {start}" if s.fence_mm is None else f"near wall {s.fence_mm:.1f} from {start}"
        )  # fmt: skip
        return f"{wall}, {width:.1f} wide, {s.depth:g} deep"
    depth = "right through" if s.depth is None else f"{s.depth:g} to the shoulder"
    if s.fence_mm is None:
        return f"{s.thing} {depth} " + (
            "on its own axis" if s.tool != "drill and fence" else "where its two marks cross"
        )
    slope = f" along the slope, fence at {_degrees(s.tilt)}" if s.tilt else ""
    return f"middle of the {s.thing} {s.fence_mm:.1f} from {start}{slope}, {depth}"


def _blade(s: Setting) -> str:
    """How the blade stands where an end is bevelled, and what the length is then taken over."""
    if not s.tilt:
        return ""
    points = "long points" if s.tilted_for == "both" else "long point"
    ends = "both ends" if s.tilted_for == "both" else f"the {s.tilted_for}"
    return f" over the {points}, blade tilted {_degrees(s.tilt)} for {ends}"


def _degrees(tilt: float) -> str:
    return f"{tilt:.1f}".removesuffix(".0") + " degrees"
