"""Boards as they were cut, by their mark."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

Dimension = Literal["length", "width", "thickness"]
DIMENSIONS: tuple[Dimension, ...] = ("length", "width", "thickness")


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredBoard:
    """One board as cut: finished sizes, mm, edging included; None: not measured."""

    mark: str
    length: float | None = None
    width: float | None = None
    thickness: float | None = None

    def but(self, sizes: Mapping[Dimension, float]) -> "MeasuredBoard":
        """The same board with these sizes, and its own for the rest."""
        length, width, thickness = (sizes.get(d, self.of(d)) for d in DIMENSIONS)
        return MeasuredBoard(mark=self.mark, length=length, width=width, thickness=thickness)

    def of(self, dimension: Dimension) -> float | None:
        """One size, mm, or None."""
        return {"length": self.length, "width": self.width, "thickness": self.thickness}[dimension]
