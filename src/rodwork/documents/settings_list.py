"""The settings list: one machine setting after another, with every board that is done at it.

A maker turns the fence, then takes board after board. So a band is a setting, its figures are to be read at 1.5 m,
and only what changes from the band above is black.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby, pairwise

from rodwork.documents.annotate import capital, listed, setting
from rodwork.documents.drawing import Ink, Pen, Shape, Text, line, moved, text_width, wrapped
from rodwork.documents.figures import size_text, tick_box
from rodwork.documents.machined import sawn_square
from rodwork.documents.page import Area, Page, body, fitted
from rodwork.documents.tables import LEADING, Block, band, flow
from rodwork.model.cutting import CuttingPlan
from rodwork.model.machining import BATTEN, LAID_ON_LINE, OWN_BASE
from rodwork.model.panel import Part
from rodwork.model.rod import Rod
from rodwork.model.setup import Reading, Setup, SetupFeature
from rodwork.model.surface import Surface
from rodwork.model.words import cabinet_words

_ENDS: tuple[Surface, Surface] = ("left_end", "right_end")
_MOST_SPELLED_OUT = 6  # positions beyond this are told as a first, a last and a pitch where they have one


@dataclass(frozen=True, slots=True, kw_only=True)
class Boards:
    """Boards of a setting that are worked alike: `of` what ("ends of"), where along them, each (mark, ends).

    `at` are the places in figures, `from_word` the surface that they are taken from.
    """

    of: str
    at: str
    from_word: str
    marks: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SettingBand:
    """One setting as it is printed, and which of its words and figures are new since the setting before."""

    number: int
    setup: Setup
    line: float | None
    boards: tuple[Boards, ...]
    new: frozenset[str]
    as_number: int | None

    @property
    def sawing(self) -> bool:
        """Whether boards are sawn to size at it, rather than bored or grooved."""
        return all(f.feature is None for f in self.setup.features)

    @property
    def surface(self) -> str:
        """What is held against the fence, with what tells it apart in capitals; what lies on a line with its place."""
        if self.line is None:
            return capital(self.setup.registers_on)
        lies = "BATTEN" if self.setup.stands_on == BATTEN else "OTHER BOARD"
        return f"{lies} at {size_text(self.line)}"

    @property
    def set_by(self) -> str:
        """What holds the distance: the fence, the machine's own base, a jig or template that nobody sets, or marks."""
        if self.setup.fence is None:
            return "marks" if self.setup.is_marked else "template" if "template" in self.setup.tool else "jig"
        return "base" if self.setup.stands_on in (OWN_BASE, LAID_ON_LINE) else "fence"


def setting_bands(rod: Rod) -> tuple[SettingBand, ...]:
    """Every setting of the job in its order, numbered from 1."""
    bands: list[SettingBand] = []
    set_at: dict[str, int] = {}
    before: SettingBand | None = None
    for number, setup in enumerate(rod.setups, 1):
        fence = setup.fence.id if setup.fence else None
        kept = before is not None and before.setup.fence is not None and before.setup.fence.id == fence
        one = SettingBand(
            number=number,
            setup=setup,
            line=_line(setup),
            boards=tuple(_boards(setup, rod)),
            new=frozenset(),
            as_number=set_at.get(fence) if fence and not kept else None,
        )
        if fence:
            set_at.setdefault(fence, number)
        before = SettingBand(
            number=number, setup=setup, line=one.line, boards=one.boards, as_number=one.as_number,
            new=_changes(before, one),
        )  # fmt: skip
        bands.append(before)
    return tuple(bands)


def _changes(before: SettingBand | None, now: SettingBand) -> frozenset[str]:
    """Which of stage, tool, surface, fence and depth differ from the setting before."""

    def told(b: SettingBand) -> dict[str, object]:
        s = b.setup
        return {
            "stage": s.stage,
            "tool": (s.tool, s.cutter),
            "surface": (s.registers_on, b.line),
            "stands": (s.stands_on, s.tilt, s.first_off.partition(" for ")[2] if b.sawing else ""),
            "fence": ("" if b.sawing else s.fence.id, s.fence.mm) if s.fence else None,
            "depth": s.depth,
        }

    new = told(now)
    if before is None or before.setup.stage != now.setup.stage:
        return frozenset(new)
    old = told(before)
    return frozenset(k for k, v in new.items() if v != old[k])


def _line(setup: Setup) -> float | None:
    """Where the batten goes, where boards are worked on their faces from a line."""
    if setup.stands_on not in (BATTEN, LAID_ON_LINE):
        return None  # the line is told, but the fence is set from the board's own edge
    for f in setup.features:
        reading = f.across if f.across and f.across.line is not None else f.along
        if reading and reading.line is not None and f.bears in ("face_side", "back_side"):
            return reading.line
    return None


def _boards(setup: Setup, rod: Rod) -> Iterator[Boards]:
    """Boards worked alike: on the same surface and at the same places along it."""
    alike: dict[tuple[str, tuple[str, str]], dict[tuple[str, str], list[Surface]]] = {}
    for (cabinet, part_id, bears), entries in _by_surface(setup).items():
        part = rod.cabinet[cabinet].part[part_id]
        of = "" if bears is None else "ends of" if bears in _ENDS else f"{_words(part)[bears]} of"
        of = "outsides of" if of == "outside of" else "insides of" if of == "inside of" else of
        found = alike.setdefault((of, _where(entries, part, setup.is_marked)), {}).setdefault((cabinet, part_id), [])
        if bears in _ENDS:
            found.append(bears)
    for (of, where), parts in alike.items():
        yield Boards(of=of, at=where[0], from_word=where[1], marks=tuple(_marks(parts, rod)))


def _by_surface(setup: Setup) -> dict[tuple[str, str, Surface | None], list[SetupFeature]]:
    found: dict[tuple[str, str, Surface | None], list[SetupFeature]] = {}
    for f in setup.features:
        found.setdefault((f.cabinet, f.part, f.bears), []).append(f)
    return found


def _marks(parts: dict[tuple[str, str], list[Surface]], rod: Rod) -> Iterator[tuple[str, str]]:
    """(mark, ends) of every copy, a cabinet's boards together."""
    for cabinet in rod.cabinets:
        mine = [(cabinet.part[p], ends) for (c, p), ends in parts.items() if c == cabinet.name]
        for copy in range(max((len(p.marks) for p, _ in mine), default=0)):
            for part, ends in mine:
                if copy < len(part.marks):
                    words = _words(part)
                    named = sorted(words[e].removesuffix(" end") for e in ends)
                    yield part.marks[copy], ", ".join(named)


def _words(part: Part) -> dict[Surface, str]:
    return cabinet_words(part.role, part.pose.rotation)


def _where(entries: list[SetupFeature], part: Part, marked: bool) -> tuple[str, str]:
    """Where along the board, and from which surface: ("40, 136, 232", "front edge"); `marked`: each by two numbers."""
    both = [(f.along, f.across) for f in entries if f.along and f.across and f.feature]
    readings = [f.along for f in entries if f.along and f.feature]
    if not readings:
        return "", ""
    word = readings[0].word
    if marked:
        places = sorted((a.mm, b.mm) for a, b in both)
        said = ", ".join(f"{size_text(a)} by {size_text(b)}" for a, b in places)
        return said, f"{word} and then the {both[0][1].word}"
    stretches = sorted({(r.mm, r.end_mm) for r in readings if r.end_mm is not None})
    if not stretches:
        return positions_text(tuple(sorted({r.mm for r in readings}))), word
    if _runs_through(readings[0], part):
        return "right through", ""
    return ", ".join(_stretch(a, b) for a, b in stretches), word


def _stretch(a: float, b: float | None) -> str:
    return f"{size_text(a)} to {size_text(b or a)}"


def _runs_through(reading: Reading, part: Part) -> bool:
    long = part.size[0] if reading.from_surface in _ENDS else part.size[1]
    return reading.mm <= 0.05 and (reading.end_mm or 0.0) >= long - 0.05


def positions_text(positions: tuple[float, ...]) -> str:
    """Positions along a run; a long even row as "120 to 248, every 32"."""
    if len(positions) <= _MOST_SPELLED_OUT and not (len(positions) > 4 and _even(positions)):
        return ", ".join(size_text(p) for p in positions)
    runs: list[list[float]] = []
    for p in positions:
        run = runs[-1] if runs else []
        if run and (len(run) < 2 or abs((p - run[-1]) - (run[-1] - run[-2])) < 0.05):
            run.append(p)
        else:
            runs.append([p])
    return "; ".join(_run_text(r) for r in runs)


def _even(positions: tuple[float, ...]) -> bool:
    steps = [b - a for a, b in pairwise(positions)]
    return max(steps) - min(steps) < 0.05


def _run_text(run: list[float]) -> str:
    if len(run) < 4:
        return ", ".join(size_text(p) for p in run)
    return f"{size_text(run[0])} to {size_text(run[-1])}, every {size_text(run[1] - run[0])}"


# the pages ---------------------------------------------------------------------------------------------------

_BLACK = "Only what is BLACK changes from the setting before."
_FIGURE = 18.5  # its figures are 12 mm high
_LEAST = 31.0
_NUMBER, _TOOL, _FENCE, _DEPTH, _BOARDS = 0.0, 19.0, 82.0, 133.0, 172.0
_RULE = Pen(width=0.5)
_PLANNED = "The numbers between are square cuts: they stand on the cutting plan."
_SAW_LINES = 6  # lines of boards that stay together


def settings_pages(rod: Rod, plan: CuttingPlan | None = None) -> tuple[Page, ...]:
    """The settings list: sawing many to a page, machining in bands of four or five.

    A cutting plan has the settings of the saw at every cut; then only what it does not say is here.
    """
    bands = setting_bands(rod)
    area = body(rod.heading.paper, landscape=True)
    pages: list[Page] = []
    shown = [b for b in bands if plan is None or not (b.sawing and _planned(b, plan))]
    for sawing, some in groupby(shown, lambda b: b.sawing):  # what is lipped is sawn again, when grooves are cut
        group = list(some)
        if sawing and plan is not None:
            group = _shown_after(group)
        made = (_sawing_pages if sawing else _machining_pages)(group, bands, area)
        pages += [replace(p, under=f"{p.under} {_PLANNED}") for p in made] if sawing and plan is not None else made
    return tuple(pages)


def _planned(b: SettingBand, plan: CuttingPlan) -> bool:
    """Whether the cutting plan has this cut of every board: square, not to a line, before any lipping."""
    square = sawn_square(b.setup) and b.setup.stage == "before edging"
    return square and all(mark in plan.sheet_numbers for group in b.boards for mark, _ in group.marks)


def _shown_after(bands: list[SettingBand]) -> list[SettingBand]:
    """The bands with what is new since the one before on the page."""
    return [replace(b, new=_changes(before, b)) for before, b in zip([None, *bands], bands, strict=False)]


def _sawing_pages(sawing: list[SettingBand], bands: tuple[SettingBand, ...], area: Area) -> tuple[Page, ...]:
    blocks = [(b, block) for b in sawing for block in _sawing_row(b, area.width)]
    return _pages("Settings: sawing", blocks, bands, area, _sawing_head(area.width))


def _machining_pages(machining: list[SettingBand], bands: tuple[SettingBand, ...], area: Area) -> tuple[Page, ...]:
    blocks = [(b, block) for b in machining for block in _machining_band(b, area)]
    return _pages("Settings: machining", blocks, bands, area, None)


def _pages(
    title: str,
    blocks: list[tuple[SettingBand, Block]],
    bands: tuple[SettingBand, ...],
    area: Area,
    head: Block | None,
) -> tuple[Page, ...]:
    """Pages of bands; a strip across the page where the stage changes on it."""
    pages: list[Page] = []
    room = area.height - (head.height if head else 0.0)
    while blocks:
        taken: list[Block] = []
        numbers: list[int] = []
        first, used = blocks[0][0], 0.0
        stage = first.setup.stage
        while blocks:
            one, block = blocks[0]
            strip = [band(_stage(one).upper(), area.width, height=7.0)] if one.setup.stage != stage else []
            needed = sum(b.height for b in strip) + block.height
            if taken and used + needed > room:
                break
            blocks.pop(0)
            taken += [*strip, block]
            used += needed
            stage = one.setup.stage
            numbers.append(one.number)
        in_a_row = numbers[-1] - numbers[0] == len(set(numbers)) - 1 > 0
        right = f"{numbers[0]} to {numbers[-1]}" if in_a_row else listed([str(n) for n in dict.fromkeys(numbers)])
        under = f"{_stage(first).capitalize()}. {_BLACK} All in mm."
        (shapes,) = flow(taken, area, head)
        pages.append(Page(kind="settings", title=title, under=under, right=f"{right} of {len(bands)}", shapes=shapes))
    return tuple(pages)


def _stage(b: SettingBand) -> str:
    again = b.sawing and b.setup.stage != "before edging"
    return "after edging: to size again, the lippings flushed" if again else b.setup.stage


def _ink(b: SettingBand, *what: str) -> Ink:
    return "black" if b.new & set(what) else "grey"


# sawing: a table


_SAW = {"tool": 14.0, "size": 56.0, "surface": 94.0, "boards": 126.0}


def _sawing_head(width: float) -> Block:
    words = ((0.0, "no."), (_SAW["tool"], "saw"), (_SAW["size"], "set to"), (_SAW["surface"], "against it"))
    texts = [Text(at=(x, -4.2), text=t, size=3.4) for x, t in words]
    texts.append(Text(at=(_SAW["boards"] + 8.0, -4.2), text="boards", size=3.4))
    texts.append(Text(at=(width, -4.2), text="first off reads right", size=3.4, anchor="end"))
    return Block(height=6.0, shapes=(*texts, line((0.0, -6.0), (width, -6.0), _RULE)), keep=True)


def _sawing_row(b: SettingBand, width: float) -> tuple[Block, ...]:
    """One sawing setting; many boards in several blocks, so that they go on from page to page."""
    left = _SAW["boards"] + 8.0
    tokens = [mark for group in b.boards for mark, _ in group.marks]
    lines = list(_token_rows(tokens, 3.8, width - left - 12.0))
    blocks = []
    for start in range(0, len(lines), _SAW_LINES):
        part, last = lines[start : start + _SAW_LINES], start + _SAW_LINES >= len(lines)
        height = max(9.6, (4.2 if last else 2.6) + 5.4 * len(part))
        shapes = [shape for n, row in enumerate(part) for shape in _tokens(row, left, -6.4 - n * 5.4, 3.8)]
        if last:
            shapes.append(line((0.0, -height), (width, -height), Pen(width=0.2)))
        if start == 0:
            shapes += _saw_setting(b, left, width)
        else:
            shapes.append(Text(at=(0.0, -6.4), text=f"{b.number}, more", size=3.6, ink="grey"))
        blocks.append(Block(height=height - (0.0 if last else 2.6), shapes=tuple(shapes)))
    return tuple(blocks)


def _saw_setting(b: SettingBand, left: float, width: float) -> tuple[Shape, ...]:
    s = b.setup
    figure = size_text(s.fence.mm, 0.1) if s.fence else " to ".join(size_text(mm, 0.1) for mm in _marks_of_line(s))
    size = fitted(figure, 9.5, _SAW["surface"] - _SAW["size"] - 3.0, True)
    surface = fitted(b.surface, 4.4, left - _SAW["surface"] - 2.0, True)
    return (
        Text(at=(0.0, -7.4), text=str(b.number), size=6.5, bold=True),
        Text(
            at=(_SAW["tool"], -4.9 if s.tilt or s.fence is None else -7.0),
            text=s.tool.removeprefix("saw, "),
            size=4.4,
            ink=_ink(b, "tool"),
        ),
        *_blade(b, _SAW["size"] - _SAW["tool"] - 4.0),
        Text(at=(_SAW["size"], -8.0), text=figure, size=size, bold=True, ink=_ink(b, "fence")),
        Text(at=(_SAW["surface"], -7.0), text=b.surface, size=surface, bold=True, ink=_ink(b, "surface")),
        tick_box(width - 5.5, -8.0, 5.0),
    )


def _marks_of_line(s: Setup) -> tuple[float, float]:
    """The two marks of a line that is sawn to."""
    reading = next(r for f in s.features for r in (f.along, f.across) if r is not None and r.end_mm is not None)
    return reading.mm, reading.end_mm or 0.0


def _between(s: Setup) -> str:
    """Where the two marks are: "left edge to right edge"."""
    return re.sub(r"[\d.]+ at the ", "", s.first_off.removeprefix("the line runs from ").partition(",")[0])


def _blade(b: SettingBand, room: float) -> tuple[Shape, ...]:
    """How the blade is tilted, and for which ends, where it is."""
    s = b.setup
    if not s.tilt and s.fence is not None:
        return ()
    text = f"blade {_tilt(s)}, {s.first_off.partition(' for ')[2]}" if s.tilt else _between(s)
    return (Text(at=(_SAW["tool"], -8.4), text=text, size=fitted(text, 3.2, room), ink=_ink(b, "stands")),)


# machining: large bands


def _machining_band(b: SettingBand, area: Area) -> tuple[Block, ...]:
    """One setting; its boards beside the figures, or under them where they are many."""
    beside = _board_lines(b, area.width - _BOARDS)
    under = _board_lines(b, area.width - _TOOL)
    least = _LEAST + (3.6 * LEADING if len(_first_off_rows(b)) > 1 else 0.0)
    height = max(least, sum(h for h, _ in beside) + 4.0)
    if height <= min(area.height, least + sum(h for h, _ in under)):
        lines = _placed(beside, _BOARDS, -2.0)
        return (_ruled((*_figures(b), *lines), height, area.width),)
    blocks = []
    shapes, y, top = list(_figures(b)), -least, True
    for height, drawn in under:
        if -y + height + 2.0 > area.height:
            blocks.append(_ruled(tuple(shapes), -y + 2.0, area.width))
            shapes = [Text(at=(_TOOL, -5.0), text=f"{b.number}, continued", size=4.4, bold=True)]
            y, top = -7.0, False
        shapes += _shift(drawn, _TOOL, y)
        y -= height
    blocks.append(_ruled(tuple(shapes), max(-y + 2.0, least if top else 0.0), area.width))
    return tuple(blocks)


def _ruled(shapes: tuple[Shape, ...], height: float, width: float) -> Block:
    return Block(height=height, shapes=(*shapes, line((0.0, -height), (width, -height), _RULE)))


def _figures(b: SettingBand) -> tuple[Shape, ...]:
    s = b.setup
    number = str(b.number)
    shapes: list[Shape] = [
        Text(at=(_NUMBER, -12.5), text=number, size=fitted(number, 14.0, 16.5, True), bold=True),
        Text(at=(_NUMBER, -18.0), text=s.stage, size=2.9, ink=_ink(b, "stage")),
        *_words_of_setting(b),
        *_fence_figure(b),
    ]
    return (*shapes, *_depth_figure(b), *_first_off(b))


def _depth_figure(b: SettingBand) -> Iterator[Shape]:
    """How deep; in a word where it goes right through, or the depth of the setting before would be left on."""
    middle = (_DEPTH + _BOARDS - 4.0) / 2
    if b.setup.depth is None:
        yield Text(at=(middle, -15.0), text="through", size=7.0, bold=True, anchor="middle", ink=_ink(b, "depth"))
        return
    depth = size_text(b.setup.depth)
    size = fitted(depth, _FIGURE, _BOARDS - _DEPTH - 4.0, True)
    yield Text(at=(middle, -16.5), text=depth, size=size, bold=True, anchor="middle", ink=_ink(b, "depth"))
    yield Text(at=(middle, -20.8), text="deep", size=3.4, anchor="middle")


def _words_of_setting(b: SettingBand) -> Iterator[Shape]:
    s = b.setup
    room = _FENCE - _TOOL - 3.0
    tool = s.tool if s.cutter is None else f"{s.tool}, {s.cutter}"
    yield Text(at=(_TOOL, -6.0), text=tool, size=fitted(tool, 5.2, room, True), bold=True, ink=_ink(b, "tool"))
    held = "marked from the" if b.set_by == "marks" else f"{b.set_by} on the"
    above = held if b.line is None else f"line from the {s.registers_on}; stay on the X side"
    yield Text(at=(_TOOL, -11.0), text=above, size=fitted(above, 3.4, room))
    yield Text(
        at=(_TOOL, -17.2), text=b.surface, size=fitted(b.surface, 7.0, room, True), bold=True,
        ink=_ink(b, "surface"),
    )  # fmt: skip
    if b.line is None:
        stands = f"standing on {s.stands_on}" + (f", fence tilted {_tilt(s)}" if s.tilt else "")
        yield Text(at=(_TOOL, -21.6), text=stands, size=fitted(stands, 3.4, room), ink=_ink(b, "stands"))


def _tilt(s: Setup) -> str:
    return f"{size_text(round(s.tilt or 0.0, 1))} degrees"


def _fence_figure(b: SettingBand) -> Iterator[Shape]:
    s = b.setup
    middle = (_FENCE + _DEPTH - 3.0) / 2
    room = _DEPTH - _FENCE - 3.0
    if s.fence is None:
        says = "on the line" if b.line is not None else f"by the {b.set_by}"
        yield Text(at=(middle, -15.0), text=says, size=7.0, bold=True, anchor="middle", ink=_ink(b, "fence"))
        return
    figure = setting(s.fence.mm)
    size = fitted(figure, _FIGURE, room, True)
    yield Text(at=(middle, -16.5), text=figure, size=size, bold=True, anchor="middle", ink=_ink(b, "fence"))
    again = "" if b.as_number is None else f", as {b.as_number}"
    from_line = "from the line" if b.line is not None else b.set_by
    yield Text(at=(middle, -20.8), text=f"{from_line}{again}", size=3.4, bold=bool(again), anchor="middle")


def _first_off_rows(b: SettingBand) -> Sequence[str]:
    start = _TOOL + text_width("First off: ", 3.6, True) + 1.0
    return wrapped(b.setup.first_off, 3.6, _BOARDS - start - 22.0)[:2]


def _first_off(b: SettingBand) -> Iterator[Shape]:
    head = "First off: "
    start = _TOOL + text_width(head, 3.6, True) + 1.0
    yield Text(at=(_TOOL, -27.6), text=head.strip(), size=3.6, bold=True)
    for n, text in enumerate(_first_off_rows(b)):
        yield Text(at=(start, -27.6 - n * 3.6 * LEADING), text=text, size=3.6)
    yield Text(at=(_BOARDS - 12.5, -27.6), text="right", size=3.6, anchor="end")
    yield tick_box(_BOARDS - 11.0, -29.2, 5.5)


def _board_lines(b: SettingBand, width: float) -> list[tuple[float, tuple[Shape, ...]]]:
    """The boards as lines of (height, shapes from their own top left corner)."""
    lines: list[tuple[float, tuple[Shape, ...]]] = []
    for group in b.boards:
        lines += _where_lines(group, width)
        tokens = [f"{mark} {ends}".strip() for mark, ends in group.marks]
        for row in _token_rows(tokens, 4.2, width):
            lines.append((5.6, tuple(_tokens(row, 0.0, -4.4, 4.2))))
        lines.append((1.2, ()))
    return lines


def _where_lines(group: Boards, width: float) -> Iterator[tuple[float, tuple[Shape, ...]]]:
    """The places in bold figures; after them, on the same line where there is room, from where and of what."""
    rest = f"from the {group.from_word}, {group.of}" if group.from_word and group.of else group.of
    figures = wrapped(group.at, 4.6, width, True) if group.at else ()
    for text in figures[:-1]:
        yield 5.8, (Text(at=(0.0, -4.4), text=text, size=4.6, bold=True),)
    last = figures[-1] if figures else ""
    shapes: list[Shape] = [Text(at=(0.0, -4.4), text=last, size=4.6, bold=True)] if last else []
    x = text_width(last, 4.6, True) + 1.5 if last else 0.0
    if rest and x + text_width(rest, 3.6) <= width:
        shapes.append(Text(at=(x, -4.4), text=rest, size=3.6))
        rest = ""
    if shapes:
        yield 6.0, tuple(shapes)
    for text in wrapped(rest, 3.6, width) if rest else ():
        yield 4.8, (Text(at=(0.0, -3.6), text=text, size=3.6),)


def _placed(lines: list[tuple[float, tuple[Shape, ...]]], x: float, y: float) -> Iterator[Shape]:
    for height, shapes in lines:
        yield from _shift(shapes, x, y)
        y -= height


def _shift(shapes: Iterable[Shape], x: float, y: float) -> tuple[Shape, ...]:
    return moved(tuple(shapes), x, y)


def _token_rows(tokens: list[str], size: float, width: float) -> Iterator[list[tuple[float, str]]]:
    """Marks in as many columns as the widest allows: rows of (x, text)."""
    if not tokens:
        return
    widest = max(text_width(t, size) for t in tokens)
    pitch = min(widest + 6.0 + 3.0, width)
    columns = max(1, int((width + 3.0) / pitch))
    for start in range(0, len(tokens), columns):
        yield [(n * pitch, t) for n, t in enumerate(tokens[start : start + columns])]


def _tokens(row: list[tuple[float, str]], x: float, y: float, size: float) -> Iterator[Shape]:
    for at, text in row:
        yield tick_box(x + at, y - 0.5, 3.8)
        yield Text(at=(x + at + 5.2, y), text=text, size=size)
