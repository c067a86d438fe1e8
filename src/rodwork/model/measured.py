"""Boards as they were cut, by their mark."""

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

    def of(self, dimension: Dimension) -> float | None:
        """One size, mm, or None."""
        return {"length": self.length, "width": self.width, "thickness": self.thickness}[dimension]
