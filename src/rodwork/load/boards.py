"""What each board of the job bears: the maker's declared figures first, then the catalogue's; never a guess."""

from dataclasses import dataclass
from functools import lru_cache

from rodwork.catalogue.strengths import Durability, Strength, durability, grades_of, strength_of
from rodwork.model.demand import Declared, Room
from rodwork.model.figure import Figure, least_sure
from rodwork.model.rod import BoardStock

GRAVITY = 9.81  # m/s2, as the shelf formula of the European MDF association has it


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardFigures:
    """A board in bending along its length: N/mm2; None where nothing is known. `creep` None: by kdef."""

    group: str | None
    grade: str | None
    stiffness: Figure | None
    strength: Figure | None
    shear: Figure | None
    creep: Figure | None
    compression: Figure | None  # along the sheet
    panel_shear: Figure | None  # in its own plane
    density: Figure | None  # characteristic, for fixings
    weight_kg_m3: float | None
    factors: Durability | None
    factors_source: Figure | None  # value 1: the code's own; standing and source of using that row


def figures_of(stock: BoardStock, thickness_mm: float, across: bool = False) -> BoardFigures:
    """Figures for a board of this stock; `across`: it bends over the width of the sheet."""
    row = strength_of(stock.material, stock.grade, thickness_mm)
    return _figures(row, stock.declared, stock.grade, stock.density_kg_m3, across)


@lru_cache(maxsize=512)
def _figures(
    row: Strength | None, declared: Declared | None, grade: str | None, weight: float | None, across: bool
) -> BoardFigures:
    stiffness = (row.stiffness_across if across else row.stiffness) if row else None
    strength = (row.strength_across if across else row.strength) if row else None
    creep = row.creep if row else None
    if declared is not None:
        stiffness = _entered(declared.stiffness_N_per_mm2, declared.source) or stiffness
        strength = _entered(declared.strength_N_per_mm2, declared.source) or strength
        creep = _entered(declared.kdef, declared.source) or creep
    return BoardFigures(
        group=row.group if row else None, grade=row.grade if row else grade, stiffness=stiffness,
        strength=strength, shear=row.shear if row else None, creep=creep, density=row.density if row else None,
        compression=row.compression if row else None, panel_shear=row.panel_shear if row else None, weight_kg_m3=weight,
        factors=durability()[row.factors] if row else None,
        factors_source=Figure(value=1.0, standing=row.factors_standing, source=row.factors_source) if row else None,
    )  # fmt: skip


def _entered(value: float | None, source: str) -> Figure | None:
    return None if value is None else Figure(value=value, standing="entered", source=source)


def what_is_known(stock: BoardStock) -> str:
    """What to write in the job for a board that the catalogue has no figures of."""
    grades = grades_of(stock.material)
    of = f" The catalogue has {', '.join(grades)} of {stock.material}, each in some thicknesses." if grades else ""
    return f"Write stiffness and strength under the board, from its maker's sheet, with declared_by.{of}"


def creep_share(board: BoardFigures, room: Room, stays: bool) -> Figure | None:
    """Further sag in time, as a share of the sag as new; None where the board may not stand there or is not known."""
    if not stays:
        return Figure(value=0.0, standing="judgement", source="no creep is reckoned for a load of a week or less")
    if board.creep is not None and (room == "heated" or board.creep.standing == "entered"):
        return board.creep
    kdef = board.factors.kdef_of(room) if board.factors else None
    if kdef is None or board.factors_source is None:
        return None
    standing = least_sure("second-hand", board.factors_source.standing)
    how = f"; {board.factors_source.source}" if not board.factors_source.is_firm else ""
    return Figure(value=kdef, standing=standing, source=f"EN 1995-1-1 table 3.2{how}")
