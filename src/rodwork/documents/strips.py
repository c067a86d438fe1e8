"""Rod strips, full size: the height, width and depth of each cabinet, to lay beside the boards and check them.

Paper moves and printers shrink, so a strip is to check, not to set: every sheet of it begins at a printed figure,
is laid to a steel rule there, and has a tick each 100 mm. A strip is 25 wide; it is cut off, so nothing is in its way.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from rodwork.documents.annotate import figure
from rodwork.documents.drawing import FAINT, LINE, THIN, Path_, Pen, Shape, Text, box, line, text_width, wrapped
from rodwork.documents.mouths import widest
from rodwork.documents.page import FOOT, MARGIN, Page, paper_size
from rodwork.documents.strip_lines import RodLine, RodStrip, run_strip, strips_of
from rodwork.model.feature import Channel, Cutout
from rodwork.model.rod import Rod

WIDE = 25.0
EDGE = 10.0  # paper left white at either end of a row
GAP = 8.0  # from one strip to the next, with its caption
LEAST_OVERLAP = 30.0
ROOM_FOR_LABEL = 14.0  # a line nearer than this to the end of a sheet is read on the next
CLEAR_OF_FIGURE = 2.5  # from a figure of the scale to the words beside it, so that they are not read as one
WARNING = "TO CHECK, NOT TO SET"
START = Pen(width=0.6)
LEADER = Pen(width=0.13, dashes=(0.6, 0.5))
SCALE_ZONE, LEADER_ZONE = 4.6, 3.0  # of the width: ticks at the foot, leaders at the head
FIGURE, WORDS, CAPTION = 4.2, 2.8, 3.4
FIGURE_ROW, WORDS_ROW = 4.2, 3.1
AIR = 0.9  # between a line and its label


@dataclass(frozen=True, slots=True)
class Tile:
    """What of a strip comes on one sheet: from its own first figure to its end."""

    strip: RodStrip
    start: float
    end: float
    number: int
    of: int

    @property
    def length(self) -> float:
        """Length on paper, full size."""
        return self.end - self.start

    @property
    def caption(self) -> str:
        """What the strip is."""
        text = f"{self.strip.cabinet}, {self.strip.name} from the {self.strip.datum}: "
        text += f"{figure(self.start)} to {figure(self.end)}"
        return text if self.of == 1 else f"{text}, sheet {self.number} of {self.of}"

    @property
    def taken(self) -> float:
        """How much of a row it takes: a short strip has a caption that is longer than it is."""
        return max(self.length, text_width(self.caption, CAPTION))


@dataclass(frozen=True, slots=True)
class Label:
    """A line's figure and words, as rows turned along the line."""

    line: RodLine
    rows: tuple[tuple[str, float, bool], ...]

    @property
    def width(self) -> float:
        """How much of the strip's length the rows take up."""
        return sum(FIGURE_ROW if bold else WORDS_ROW for _, _, bold in self.rows) + AIR


@dataclass
class Space:
    """The room between two lines while labels are put into it; not kept."""

    start: float
    stop: float
    is_board: bool
    low: float = 0.0
    high: float = 0.0

    def __post_init__(self) -> None:
        self.low, self.high = self.start, self.stop

    def has_room(self, width: float) -> bool:
        """Whether a label goes in; a board keeps room for its X."""
        return self.high - self.low >= width + (5.5 if self.is_board else 0.0)


def strip_pages(rod: Rod) -> tuple[Page, ...]:
    """The strips of every cabinet, as many to a page as go."""
    width, height = paper_size(rod.heading.paper, landscape=True)
    room = width - 2 * EDGE
    overlap = overlap_mm(rod)
    strips = [*(s for cabinet in rod.boxes for s in strips_of(cabinet)), *(run_strip(run) for run in rod.runs)]
    tiles = [t for strip in strips for t in tiles_of(strip, room, overlap)]
    top = height - 8.0
    many = int((top - MARGIN - FOOT) // (WIDE + GAP))
    rows = _rows(tiles, room)
    pages = []
    for n in range(0, len(rows), many):
        shapes: list[Shape] = []
        for k, row in enumerate(rows[n : n + many]):
            y = top - (k + 1) * (WIDE + GAP)
            x = EDGE
            for tile in row:
                shapes += tile_shapes(tile, x, y)
                x += tile.taken + EDGE
        pages.append(Page(kind="strips", title="Strips", shapes=tuple(shapes), bare=True))
    return tuple(pages)


def overlap_mm(rod: Rod) -> float:
    """How far two sheets of a strip overlap: more than the largest thing on it, so that each is whole on one.

    But a cut-out, which is larger than paper.
    """
    sizes = [part.size[2] for c in rod.cabinets for part in c.parts]
    for cabinet in rod.cabinets:
        for part in cabinet.parts:
            sizes += [
                f.width if isinstance(f, Channel) else widest(f) for f in part.features if not isinstance(f, Cutout)
            ]
    return max(LEAST_OVERLAP, -(-(max(sizes, default=0.0) + 10.0) // 10.0) * 10.0)


def tiles_of(strip: RodStrip, room: float, overlap: float) -> list[Tile]:
    """The sheets of a strip, each beginning at a round figure; a stretch with no line of its own has none."""
    advance = max((room - overlap) // 10.0 * 10.0, room / 2)  # whatever is on it, a strip comes to its end
    starts = [0.0]
    while starts[-1] + room < strip.length:
        starts.append(starts[-1] + advance)
    ranges = [(start, min(start + room, strip.length)) for start in starts]
    useful: list[tuple[float, float]] = []
    for a, b in ranges:
        here = [row.mm for row in strip.lines if a - 1e-6 <= row.mm <= b + 1e-6]
        if any(not useful or mm > useful[-1][1] - ROOM_FOR_LABEL for mm in here):
            useful.append((a, b))
    return [Tile(strip, a, b, n, len(useful)) for n, (a, b) in enumerate(useful, 1)]


def _rows(tiles: Sequence[Tile], room: float) -> list[list[Tile]]:
    """Tiles side by side where two go in one row of the page."""
    rows: list[list[Tile]] = []
    for tile in tiles:
        for row in rows:
            if sum(t.taken + EDGE for t in row) + tile.taken <= room:
                row.append(tile)
                break
        else:
            rows.append([tile])
    return rows


def tile_shapes(tile: Tile, x: float, y: float) -> tuple[Shape, ...]:
    """One sheet of a strip, full size, from its lower left corner."""
    strip = tile.strip
    shapes: list[Shape] = [box(x, y, tile.length, WIDE, FAINT)]
    shapes.append(Text(at=(x, y + WIDE + 1.4), text=tile.caption, size=CAPTION))
    here = [row for row in strip.lines if tile.start - 1e-6 <= row.mm <= tile.end + 1e-6]
    lines = _with_start(tile, here)
    for row in lines:
        at = x + row.mm - tile.start
        pen = START if row.mm == tile.start else LINE
        shapes.append(line((at, y), (at, y + WIDE), pen))
    spaces = _spaces(tile, lines)
    shapes += _labels(tile, lines, spaces, x, y)
    shapes += _crosses(tile, spaces, x, y)
    shapes += _scale(tile, lines, x, y)
    return tuple(shapes)


def _with_start(tile: Tile, here: Sequence[RodLine]) -> list[RodLine]:
    """The lines of the sheet, its own first figure among them."""
    if here and here[0].mm - tile.start < 0.05:
        return list(here)
    return [RodLine(mm=tile.start, words=f"{tile.strip.cabinet}, {tile.strip.name.lower()}"), *here]


def _spaces(tile: Tile, lines: Sequence[RodLine]) -> list[Space]:
    ends = sorted({row.mm for row in lines} | {tile.start, tile.end})
    out = []
    for a, b in pairwise(ends):
        middle = (a + b) / 2
        out.append(Space(a, b, any(low < middle < high for low, high in tile.strip.boards)))
    return out


def _label(row: RodLine) -> Label:
    room = WIDE - SCALE_ZONE - LEADER_ZONE - 0.8
    words = wrapped(row.words, WORDS, room)
    return Label(row, ((figure(round(row.mm, 1)), FIGURE, True), *((w, WORDS, False) for w in words)))


def _labels(tile: Tile, lines: Sequence[RodLine], spaces: list[Space], x: float, y: float) -> list[Shape]:
    """Each line's figure and words beside it; where lines stand close, their labels stand outside them in order."""
    shapes: list[Shape] = []
    for cluster in _clusters([_label(row) for row in lines], spaces):
        first, last = cluster[0].line.mm, cluster[-1].line.mm
        before = next((s for s in spaces if abs(s.stop - first) < 1e-6), None)
        after = next((s for s in spaces if abs(s.start - last) < 1e-6), None)
        left, right = _shared_out(cluster, before, after)
        for label in reversed(left):
            assert before is not None
            before.high -= label.width
            shapes += _placed(label, before.high, "before", tile, x, y)
        for label in right:
            assert after is not None
            shapes += _placed(label, after.low, "after", tile, x, y)
            after.low += label.width
        for label in cluster:
            if label not in left and label not in right:
                shapes += _further_off(label, spaces, tile, x, y)
    return shapes


def _clusters(labels: Sequence[Label], spaces: Sequence[Space]) -> list[list[Label]]:
    """Labels that have to stand together, since there is no room for one between their lines."""
    clusters: list[list[Label]] = []
    for label in labels:
        between = next((s for s in spaces if abs(s.stop - label.line.mm) < 1e-6), None)
        if clusters and between is not None and not between.has_room(max(label.width, clusters[-1][-1].width)):
            clusters[-1].append(label)
        else:
            clusters.append([label])
    return clusters


def _shared_out(cluster: Sequence[Label], before: Space | None, after: Space | None) -> tuple[list[Label], list[Label]]:
    """Which labels of a cluster stand before its first line, and which after its last: away from boards, and even.

    What has room for neither is left over.
    """

    def fits(labels: Sequence[Label], space: Space | None) -> bool:
        return not labels or (space is not None and space.has_room(sum(label.width for label in labels)))

    def cost(split: int) -> tuple[int, float]:
        on_board = (before.is_board if before and split else False) + (
            after.is_board if after and split < len(cluster) else False
        )
        return (on_board, abs(split - (len(cluster) // 2 if len(cluster) > 1 else 0)))

    for many in range(len(cluster), 0, -1):
        part = cluster[:many]
        splits = [k for k in range(many + 1) if fits(part[:k], before) and fits(part[k:], after)]
        if splits:
            k = min(splits, key=cost)
            return list(part[:k]), list(part[k:])
    return [], []


def _further_off(label: Label, spaces: Sequence[Space], tile: Tile, x: float, y: float) -> list[Shape]:
    """A label in the nearest stretch that has room; none at the end of a sheet if the next has it whole."""
    roomy = [s for s in spaces if s.has_room(label.width)]
    if not roomy:
        return []
    space = min(roomy, key=lambda s: min(abs(s.low - label.line.mm), abs(s.high - label.line.mm)))
    if space.start >= label.line.mm - 1e-6:
        shapes = _placed(label, space.low, "after", tile, x, y)
        space.low += label.width
        return shapes
    space.high -= label.width
    return _placed(label, space.high, "before", tile, x, y)


def _placed(label: Label, left: float, side: str, tile: Tile, x: float, y: float) -> list[Shape]:
    """A label with its left edge here, and a leader where it does not stand against its line."""
    shapes = _label_shapes(label, x + left - tile.start, y, side)
    near = left if side == "after" else left + label.width
    if abs(near - label.line.mm) > 0.2:
        shapes += _leader(x + label.line.mm - tile.start, x + left + label.width / 2 - tile.start, y)
    return shapes


def _label_shapes(label: Label, left: float, y: float, side: str) -> list[Shape]:
    """The rows of a label, turned to be read from the right; the figure next to its line."""
    shapes: list[Shape] = []
    rows = label.rows if side == "after" else (*label.rows[1:], label.rows[0])
    at = left + (AIR if side == "after" else 0.0)
    for text, size, bold in rows:
        pitch = FIGURE_ROW if bold else WORDS_ROW
        at += pitch
        shapes.append(Text(at=(at - 0.22 * pitch, y + SCALE_ZONE + 0.4), text=text, size=size, bold=bold, turn=90.0))
    return shapes


def _leader(at: float, to: float, y: float) -> list[Shape]:
    """From a line to its label that had no room beside it, along the head of the strip."""
    high = y + WIDE - LEADER_ZONE / 2
    return [Path_(points=((at, high), (to, high), (to, high - 1.2)), pen=LEADER)]


def _crosses(tile: Tile, spaces: Sequence[Space], x: float, y: float) -> list[Shape]:
    """An X where a board stands, in what room its labels have left."""
    shapes: list[Shape] = []
    for space in spaces:
        if space.is_board and space.high - space.low >= 3.0:
            size = min(6.0, 1.5 * (space.high - space.low - 0.8))
            at = x + (space.low + space.high) / 2 - tile.start
            shapes.append(Text(at=(at, y + WIDE / 2 - 0.33 * size), text="X", size=size, bold=True, anchor="middle"))
    return shapes


def _scale(tile: Tile, lines: Sequence[RodLine], x: float, y: float) -> list[Shape]:
    """Ticks to lay a rule to: each 10 mm, longer each 100 with its figure; and what the strip is for."""
    shapes: list[Shape] = []
    taken = [(row.mm, row.mm) for row in lines]
    first = -(-tile.start // 10.0)
    n = int(first)
    while n * 10.0 <= tile.end + 1e-6:
        mm = n * 10.0
        at = x + mm - tile.start
        whole = n % 10 == 0
        shapes.append(line((at, y), (at, y + (3.4 if whole else 1.1)), THIN))
        if whole:
            text = figure(mm)
            width = text_width(text, 2.6) + 1.2
            if mm + width < tile.end and all(b < mm - 1e-6 or a > mm + width for a, b in taken if a != mm):
                shapes.append(Text(at=(at + 0.7, y + 1.4), text=text, size=2.6))
                taken.append((mm, mm + width))
        n += 1
    shapes += _warning(tile, taken, x, y)
    return shapes


def _warning(tile: Tile, taken: Sequence[tuple[float, float]], x: float, y: float) -> list[Shape]:
    """TO CHECK, NOT TO SET: in every stretch with room for it, so that it is on every piece.

    In the middle, clear of the figures at both ends: close behind one it would be read as one with it ("0 TO CHECK").
    """
    size = 2.8
    width = text_width(WARNING, size, True) + 2 * CLEAR_OF_FIGURE
    ticks = [(n * 100.0, n * 100.0) for n in range(int(-(-tile.start // 100)), int(tile.end // 100) + 1)]
    marks = sorted([*taken, *ticks, (tile.start, tile.start), (tile.end, tile.end)])
    out: list[Shape] = []
    end = marks[0][1]
    for a, b in marks[1:]:
        if a - end >= width:
            at = x + (end + a) / 2 - tile.start
            out.append(Text(at=(at, y + 1.5), text=WARNING, size=size, bold=True, anchor="middle"))
        end = max(end, b)
    return out
