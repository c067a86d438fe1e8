"""The lists as plain tables, for a spreadsheet or another shop's program. Sizes are mm, numbers are numbers."""

from dataclasses import dataclass
from decimal import Decimal

from rodwork.documents.buying_list import buying_rows
from rodwork.documents.cutting_list import cutting_rows
from rodwork.documents.cutting_words import CUT_HEADER, cut_rows
from rodwork.documents.settings_list import Boards, SettingBand, setting_bands
from rodwork.geometry.rounding import to_step
from rodwork.model.cutting import CuttingPlan
from rodwork.model.results import NOTHING_ASKED, Results
from rodwork.model.rod import Rod

Cell = str | int | float | Decimal | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """One sheet: its title, its heading and its rows."""

    title: str
    header: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


def cutting_table(rod: Rod) -> Table:
    """The cutting list, a row for every kind of board."""
    header = (
        "board", "material", "name", "how many", "cut length", "cut width", "length", "width", "thickness", "grain",
        "edged", "edging", "pairs", "marks", "kg each", "bevels",
    )  # fmt: skip
    rows: list[tuple[Cell, ...]] = []
    for r in cutting_rows(rod):
        rows.append(
            (
                r.board, rod.boards[r.board].material, r.name_text, r.count,
                *(to_step(v, rod.step) for v in (*r.cut, *r.size)), r.grain_text, ", ".join(r.edges), r.edging or "",
                r.pairs, ", ".join(r.marks), None if r.kg is None else round(r.kg, 2), "; ".join(r.bevels),
            )
        )  # fmt: skip
    return Table(title="cutting list", header=header, rows=tuple(rows))


def supplier_table(rod: Rod) -> Table:
    """What a supplier who cuts and edges needs: finished sizes, along the grain first, and which edges.

    What the maker lips comes as sawn, with nothing on its edges; lippings too.
    """
    header = (
        "mark",
        "how many",
        "length (grain)",
        "width",
        "thickness",
        "material",
        "grain",
        "edging",
        "edges",
        "bevels",
    )
    rows: list[tuple[Cell, ...]] = []
    for r in cutting_rows(rod):
        as_sawn = r.lipped or r.lipping
        board = rod.boards[r.board]
        length, width = (to_step(v, rod.step) for v in (r.cut if as_sawn else r.size[:2]))
        rows.append(
            (
                ", ".join(r.marks), r.count, length, width, board.actual, board.material, r.grain_text,
                *(("none", "") if as_sawn else (r.edging or "none", ", ".join(r.edges))), "; ".join(r.bevels),
            )
        )  # fmt: skip
    return Table(title="cut and edge", header=header, rows=tuple(rows))


def buying_table(rod: Rod, plan: CuttingPlan | None = None) -> Table:
    """The buying list."""
    header = ("group", "item", "needed", "unit", "reckoned from", "buy", "by", "price", "currency")
    rows = tuple(
        (
            r.group, r.item, r.needed, r.unit, r.reckoning, r.buy, r.by,
            r.price.amount if r.price else None, r.price.currency if r.price else None,
        )
        for r in buying_rows(rod, plan)
    )  # fmt: skip
    return Table(title="buying list", header=header, rows=rows)


def settings_table(rod: Rod) -> Table:
    """The settings list, a row for every setting and every group of boards worked alike at it."""
    header = (
        "no.", "stage", "machine", "cutter", "against the fence", "standing on", "fence", "as no.", "depth",
        "batten at", "where along", "taken from", "of", "boards", "first off",
    )  # fmt: skip
    rows = tuple(_setting_row(b, group) for b in setting_bands(rod) for group in b.boards)
    return Table(title="settings", header=header, rows=rows)


def _setting_row(b: SettingBand, group: Boards) -> tuple[Cell, ...]:
    s = b.setup
    boards = ", ".join(f"{mark} ({ends})" if ends else mark for mark, ends in group.marks)
    return (
        b.number, s.stage, s.tool, s.cutter, s.registers_on, s.stands_on, s.fence.mm if s.fence else None,
        b.as_number, s.depth, b.line, group.at, group.from_word, group.of, boards, s.first_off,
    )  # fmt: skip


def workbook_tables(rod: Rod, results: Results = NOTHING_ASKED) -> tuple[Table, ...]:
    """Everything that goes into the workbook."""
    plan = results.cutting
    cuts = (Table(title="cuts", header=CUT_HEADER, rows=tuple(cut_rows(plan))),) if plan else ()
    return (cutting_table(rod), supplier_table(rod), buying_table(rod, plan), settings_table(rod), *cuts)
