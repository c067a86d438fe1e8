"""Boards as cut: conditioning the forecast on what a tape has read.

With M z = m + N(0, u^2):  z' = z + K (m - M z - e),  K = M' (M M' + u^2)^-1: exact for Gaussian errors, and the same z
serve before and after, so that ways on can be compared. Source: the rule of Matheron, as in Hoffman and Ribak,
Constrained realizations of Gaussian fields, ApJ 380 (1991).
"""

from dataclasses import dataclass

import numpy as np

from rodwork.fit.arrays import Array
from rodwork.fit.draws import draw
from rodwork.fit.linear import LinearModel, Source

TAPE_MM = 0.1  # how far a tape or rule read with care is off; common practice, no source
EXPLAINED = 3.0  # a size more standard deviations off than this, the shop's habits do not explain


@dataclass(frozen=True, slots=True, kw_only=True)
class Measurement:
    """One size as cut: "part/length" and so on, and by how much it is off what was asked, mm."""

    size: str
    off_mm: float
    tape_mm: float = TAPE_MM


def conditioned(model: LinearModel, z: Array, found: tuple[Measurement, ...], seed: int, chunk: int = 0) -> Array:
    """(N, p) draws that agree with what was measured, each moved as little as the errors' sigmas allow."""
    if not found:
        return z
    forms = np.array([model.sizes[m.size] for m in found])
    tape = np.array([m.tape_mm for m in found])
    known = np.array([m.off_mm for m in found])
    gain = np.linalg.solve(forms @ forms.T + np.diag(tape**2), forms).T
    streams = [Source(key=f"tape|{m.size}", sigma=1.0, parameter=("tape", "size", "each"), words="tape") for m in found]
    noise = draw(streams, len(z), seed, chunk) * tape
    moved: Array = z + (known - z @ forms.T - noise) @ gain.T
    return moved


def surprise(model: LinearModel, one: Measurement) -> float:
    """How many standard deviations a size lies off what the shop's habits would lead one to expect."""
    return abs(one.off_mm) / float(np.sqrt((model.sizes[one.size] ** 2).sum() + one.tape_mm**2))
