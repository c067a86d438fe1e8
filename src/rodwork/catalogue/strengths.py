"""What sheet materials bear: stiffness, strength, creep and density by grade and thickness, each with its source.

Two tables: `strengths.toml`, our gathering of product standards and associations' figures, and `eurocode5.toml`, the
factors for duration and damp. Both are held to published figures by tests.
"""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any, get_args

from rodwork.model.demand import Lasts, Room
from rodwork.model.figure import Figure, Standing

SERVICE_CLASS: Mapping[Room, int] = MappingProxyType({"heated": 1, "damp": 2, "wet": 3})
_LASTS: tuple[Lasts, ...] = get_args(Lasts)


@dataclass(frozen=True, slots=True, kw_only=True)
class Durability:
    """Factors of Eurocode 5 for one kind of board: by service class, and kmod by how long the load lasts."""

    kmod: Mapping[int, tuple[float, ...]]
    kdef: Mapping[int, float]
    gamma_M: float

    def kmod_of(self, room: Room, lasts: Lasts) -> float | None:
        """What is left of the strength under such a load; None where the board may not stand there."""
        row = self.kmod.get(SERVICE_CLASS[room])
        return (row[_LASTS.index(lasts)] or None) if row else None

    def kdef_of(self, room: Room) -> float | None:
        """Further sag under a load that stays, as a share of the sag as new; None where it may not stand there."""
        return self.kdef.get(SERVICE_CLASS[room])


@dataclass(frozen=True, slots=True, kw_only=True)
class Strength:
    """One grade of one material in one range of thickness. N/mm2 and kg/m3; across: over the sheet's width."""

    group: str
    grade: str
    over_mm: float
    to_mm: float
    stiffness: Figure
    stiffness_across: Figure
    strength: Figure
    strength_across: Figure
    shear: Figure
    density: Figure
    compression: Figure
    panel_shear: Figure
    creep: Figure | None  # None: by kdef
    factors: str  # whose row of eurocode5.toml is used
    factors_standing: Standing
    factors_source: str


@cache
def durability() -> Mapping[str, Durability]:
    """Factors of Eurocode 5 by the kind of board."""
    table = _table("eurocode5.toml")
    return MappingProxyType(
        {
            name: Durability(
                kmod={int(c): tuple(map(float, row)) for c, row in said["kmod"].items()},
                kdef={int(c): float(value) for c, value in said["kdef"].items()}, gamma_M=said["gamma_M"],
            )
            for name, said in table.items()
        }
    )  # fmt: skip


@cache
def strengths() -> tuple[Strength, ...]:
    """Every row of the table, in its order."""
    table = _table("strengths.toml")
    return tuple(_strength(row, table["grades"][row["grade"]]) for row in table["rows"])


def strength_of(material: str, grade: str | None, thickness_mm: float) -> Strength | None:
    """The row for a board, or None where the table has none: of that grade, else the first of the material."""
    group = _table("strengths.toml")["groups"].get(material)
    fits = [r for r in strengths() if r.group == group and r.over_mm < thickness_mm <= r.to_mm]
    if grade is not None:
        fits = [r for r in fits if r.grade.casefold() == grade.strip().casefold()]
    return fits[0] if fits else None


def grades_of(material: str) -> tuple[str, ...]:
    """The grades that the table has of a material."""
    group = _table("strengths.toml")["groups"].get(material)
    return tuple(dict.fromkeys(r.grade for r in strengths() if r.group == group))


@cache
def _table(name: str) -> dict[str, Any]:
    return tomllib.loads(files("rodwork.catalogue").joinpath(f"data/{name}").read_text(encoding="utf-8"))


def _strength(row: dict[str, Any], grade: dict[str, Any]) -> Strength:
    def figure(said: list[Any]) -> Figure:
        return Figure(value=float(said[0]), standing=said[1], source=said[2])

    along, strong = figure(row["stiffness"]), figure(row["strength"])
    across, strong_across = row.get("stiffness_across"), row.get("strength_across")
    return Strength(
        group=row["group"], grade=row["grade"], over_mm=float(row["over"]), to_mm=float(row["to"]), stiffness=along,
        stiffness_across=figure(across) if across else along, strength=strong,
        strength_across=figure(strong_across) if strong_across else strong, shear=figure(grade["shear"]),
        density=figure(grade["density"]),
        compression=figure(grade["compression"]), panel_shear=figure(grade["panel_shear"]),
        creep=figure(grade["creep"]) if "creep" in grade else None,
        factors=grade["as"], factors_standing=grade["as_standing"], factors_source=grade["as_source"],
    )  # fmt: skip
