"""Strips on edge under the front edges of shelves, as they are asked for."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from rodwork.model.job import Recipe

StiffenedShelves = Literal["all", "fixed", "loose"]


@dataclass(frozen=True, slots=True, kw_only=True)
class StiffenersAsked:
    """What a maker asks of the stiffeners of a cabinet, mm: how deep they hang, how far back from the shelf's front."""

    depth_mm: float
    set_back_mm: float
    board: str
    shelves: StiffenedShelves
    joint: "Recipe"
    path: tuple[str | int, ...]
