"""A shelf and its stiffeners bending as one section: the transformed area, about its own neutral axis.

    z = sum(E A z) / sum(E A),  EI = sum(E (b h^3/12 + A (z_i - z)^2))
Source: any text on composite beams. It holds where the strips are glued along their whole length.
"""

from collections.abc import Sequence
from dataclasses import dataclass

SHEAR_AREA = 5 / 6  # of a rectangle


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """A rectangle of one material: its width and height as it bends, and the height of its middle, mm."""

    width_mm: float
    height_mm: float
    middle_mm: float
    stiffness_N_per_mm2: float
    shear_N_per_mm2: float | None
    strength_N_per_mm2: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """Strips that bend together: E I, G A' (None: no shear is reckoned), and the neutral axis."""

    strips: tuple[Strip, ...]
    bending_Nmm2: float
    shear_N: float | None
    neutral_mm: float

    def used(self, moment_Nmm: float) -> float | None:
        """Largest share of a strip's strength that a moment uses; None where a strength is not known."""
        shares = []
        for s in self.strips:
            if s.strength_N_per_mm2 is None:
                return None
            far = abs(s.middle_mm - self.neutral_mm) + s.height_mm / 2
            stress = s.stiffness_N_per_mm2 * far * abs(moment_Nmm) / self.bending_Nmm2
            shares.append(stress / s.strength_N_per_mm2)
        return max(shares)


def section(strips: Sequence[Strip]) -> Section:
    """The section that strips glued together make."""
    area = sum(s.stiffness_N_per_mm2 * s.width_mm * s.height_mm for s in strips)
    axis = sum(s.stiffness_N_per_mm2 * s.width_mm * s.height_mm * s.middle_mm for s in strips) / area
    bending = sum(
        s.stiffness_N_per_mm2
        * (s.width_mm * s.height_mm**3 / 12 + s.width_mm * s.height_mm * (s.middle_mm - axis) ** 2)
        for s in strips
    )
    shears = [s.shear_N_per_mm2 for s in strips]
    known = [SHEAR_AREA * s.shear_N_per_mm2 * s.width_mm * s.height_mm for s in strips if s.shear_N_per_mm2 is not None]
    return Section(
        strips=tuple(strips), bending_Nmm2=bending, shear_N=None if None in shears else sum(known), neutral_mm=axis
    )
