"""Rounding as the shop rounds: to the nearest step, half a step up."""

from math import ceil, floor

_DUST = 1e-9  # 8.75 may arrive as 8.749999999; it is still half-way


def to_step(value_mm: float, step_mm: float) -> float:
    """value_mm to the nearest multiple of step_mm; half a step rounds up (design section 3)."""
    return round(floor(value_mm / step_mm + 0.5 + _DUST) * step_mm, 6)


def down_to_step(value_mm: float, step_mm: float) -> float:
    """The largest multiple of step_mm that is not above value_mm."""
    return round(floor(value_mm / step_mm + _DUST) * step_mm, 6)


def up_to_step(value_mm: float, step_mm: float) -> float:
    """The smallest multiple of step_mm that is not below value_mm."""
    return round(ceil(value_mm / step_mm - _DUST) * step_mm, 6)
