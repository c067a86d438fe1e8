"""The cutting list: what to saw, one row for every kind of board, kinds of one sheet together."""

from dataclasses import dataclass

from rodwork.documents.annotate import edges_text, listed, plain_name, several
from rodwork.documents.bevels import bevel_words
from rodwork.documents.figures import mass_text, size_text
from rodwork.documents.page import Page, body
from rodwork.documents.tables import Block, Column, band, flow, gap, heading, marks_text, rows
from rodwork.model.panel import Part, Point
from rodwork.model.rod import Rod
from rodwork.model.surface import EDGES
from rodwork.model.words import cabinet_words


@dataclass(frozen=True, slots=True, kw_only=True)
class CuttingRow:
    """Boards that are sawn and edged alike, over all copies and cabinets. Sizes are mm, mass is of one board.

    `cut` is what to saw to, `size` the finished board, length first; `edges` the cabinet words of the edged
    edges; `pairs` how many pairs of left and right are among them.
    """

    board: str
    name: str
    marks: tuple[str, ...]
    pairs: int
    cut: Point
    size: tuple[float, float, float]
    grain: bool
    edges: tuple[str, ...]
    edging: str | None
    measured: bool
    kg: float | None
    lipped: bool = False  # its edging is solid lippings, which the maker glues on
    lipping: bool = False  # it is such a strip itself
    bevels: tuple[str, ...] = ()  # what there is to know of bevelled ends; the sizes are over their long points

    @property
    def count(self) -> int:
        """How many to saw."""
        return len(self.marks)

    @property
    def area_m2(self) -> float:
        """Area of one board as sawn, m2."""
        return self.cut[0] * self.cut[1] * 1e-6

    @property
    def edging_text(self) -> str:
        """Which edges are edged, in words, and with what."""
        if self.lipping:
            return "glued on, flushed and trimmed"
        if not self.edges:
            return "not edged"
        edges = f"lipped: {edges_text(self.edges)}" if self.lipped else edges_text(self.edges)
        return f"{edges} ({self.edging})" if self.edging else edges

    @property
    def grain_text(self) -> str:
        """Which way the grain runs."""
        return "lengthways" if self.grain else "either way"

    @property
    def name_text(self) -> str:
        """The name, with the pairs left and right that must not be made as so many alike."""
        if not self.pairs:
            return self.name
        return f"{self.name}: a pair" if self.pairs == 1 else f"{self.name}: {self.pairs} pairs"


def cutting_rows(rod: Rod) -> tuple[CuttingRow, ...]:
    """Every board of the job once: kinds in the order of their sheets, then by width and length, widest first."""
    kinds: dict[tuple[object, ...], list[Part]] = {}
    for cabinet in rod.cabinets:
        for part in (p for p in cabinet.parts if not p.bought):
            kinds.setdefault(_sawn_alike(part, rod.step), []).append(part)
    order = list(rod.boards)
    found = [_row(parts, rod) for parts in kinds.values()]
    return tuple(sorted(found, key=lambda r: (order.index(r.board), -r.cut[1], -r.cut[0], r.marks)))


def edged(part: Part) -> dict[str, float]:
    """What the edging adds at each edged edge, by its cabinet word, mm."""
    words = cabinet_words(part.role, part.pose.rotation)
    return {words[s]: part.edging.at(s) for s in EDGES if part.edging.at(s)}


def _sawn_alike(part: Part, step: float) -> tuple[object, ...]:
    printed = tuple(size_text(v, step) for v in (*part.cut, *part.size[:2]))
    return (
        part.board, printed, tuple(sorted(edged(part).items())), part.edging_name, part.grain, part.measured,
        bevel_words(part),
    )  # fmt: skip


def _row(parts: list[Part], rod: Rod) -> CuttingRow:
    first = parts[0]
    left = sum(len(p.marks) for p in parts if p.role == "side" and p.name.startswith("left"))
    right = sum(len(p.marks) for p in parts if p.role == "side" and p.name.startswith("right"))
    counts: dict[str, int] = {}
    for p in parts:
        name = "lipping" if p.glued_on else plain_name(p.name)
        counts[name] = counts.get(name, 0) + len(p.marks)
    return CuttingRow(
        board=first.board,
        name=_named(counts),
        marks=tuple(m for p in parts for m in p.marks),
        pairs=left if left == right else 0,
        cut=first.cut,
        size=first.size,
        grain=first.grain,
        edges=tuple(edged(first)),
        edging=first.edging_name,
        measured=first.measured,
        lipped=(stock := rod.edgings.get(first.edging_name or "")) is not None and stock.lipping is not None,
        lipping=first.glued_on is not None,
        kg=first.weight.kg if first.weight else None,
        bevels=bevel_words(first),
    )


def _named(counts: dict[str, int]) -> str:
    """One name; or several with how many of each, left and right sides told apart."""
    if set(counts) == {"left side", "right side"} and counts["left side"] == counts["right side"]:
        return "left and right side"
    if len(counts) == 1:
        return next(iter(counts))
    return listed([f"{n} {name if n == 1 else several(name)}" for name, n in counts.items()])


# the page ----------------------------------------------------------------------------------------------------

_UNDER = "Saw to the large size, length first; then edge. All sizes in mm, over the long points of a bevelled end."


def cutting_list_pages(rod: Rod) -> tuple[Page, ...]:
    """The list, as many pages as it takes; a box to tick at each row."""
    area = body(rod.heading.paper, landscape=True)
    columns = _columns(area.width)
    blocks: list[Block] = []
    all_rows = cutting_rows(rod)
    for name, stock in rod.boards.items():
        mine = [r for r in all_rows if r.board == name]
        if not mine:
            continue
        sold = "" if stock.actual == stock.thickness else f" (sold as {size_text(stock.thickness)})"
        what = f"{name}: {stock.material}, {size_text(stock.actual)} thick{sold}"
        amount = sum(r.area_m2 * r.count for r in mine)
        count = sum(r.count for r in mine)
        boards = "1 board" if count == 1 else f"{count} boards"
        blocks.append(band(what, area.width, f"{boards}, {amount:.2f} m²"))
        blocks.append(gap(1.0, keep=True))
        for row in mine:
            blocks += rows(columns, _cells(row, rod.step), least=10.5, most=0.5 * area.height, tick=0)
        blocks.append(gap(4.0))
    pages = flow(blocks, area, heading(columns))
    right = f"{sum(r.count for r in all_rows)} boards"
    return tuple(
        Page(kind="cutting list", title="Cutting list", under=_UNDER, right=right, shapes=shapes) for shapes in pages
    )


def _columns(width: float) -> tuple[Column, ...]:
    fixed = (
        Column(title="sawn", width=9.0),
        Column(title="how many", width=14.0, size=7.0, bold=True, anchor="end"),
        Column(title="", width=3.0),
        Column(title="saw to", width=47.0, size=7.0, bold=True),
        Column(title="board", width=42.0, size=4.2),
        Column(title="edged after", width=33.0, size=3.8),
        Column(title="finished", width=36.0, size=3.6),
        Column(title="grain", width=21.0, size=3.6),
        Column(title="each", width=12.0, size=3.6),
    )
    rest = width - sum(c.width for c in fixed)
    return (*fixed[:5], Column(title="marks", width=rest, size=3.8), *fixed[5:])


def _cells(row: CuttingRow, step: float) -> tuple[str, ...]:
    name = f"{row.name_text} (cut already, measured)" if row.measured else row.name_text
    return (
        "",
        str(row.count),
        "",
        " × ".join(size_text(v, step) for v in row.cut),
        name,
        marks_text(row.marks),
        row.edging_text,
        " × ".join(size_text(v, step) for v in row.size),
        row.grain_text,
        mass_text(row.kg) if row.kg is not None else "",
    )
