"""What boards and cabinets weigh, and what one pair of hands should not lift.

Source of the lifting figures: Health and Safety Executive, L23 and INDG143 (guideline weights for lifting and
lowering): at elbow height and close to the body 25 kg for men and 16 kg for women; less above the shoulder, below
the knee, at arm's length, when twisting or carrying far. They are guidelines for an assessment, not limits.
"""

from rodwork.model.panel import Panel
from rodwork.model.rod import BoardStock, Rod, RodCabinet

TWO_PEOPLE_KG = 25.0


def board_kg(part: Panel, rod: Rod) -> float | None:
    """Mass of a board, from its finished size and its material's density; None where that is not known."""
    density = rod.boards[part.board].density_kg_m3
    L, W, T = part.size
    return None if density is None else L * W * T * density * 1e-9


def cabinet_kg(cabinet: RodCabinet, rod: Rod) -> float | None:
    """Mass of one cabinet's boards, without fittings or contents; None where a density is not known."""
    each = [board_kg(p, rod) for p in cabinet.parts]
    return None if None in each else sum(m for m in each if m is not None)


def sheet_kg(stock: BoardStock) -> float | None:
    """Mass of a whole sheet as it is carried in; None where the density is not known."""
    density = stock.density_kg_m3
    return None if density is None else stock.sheet[0] * stock.sheet[1] * stock.actual * density * 1e-9
