"""Nails, screws, dowels and bolts by Eurocode 5: EN 1995-1-1:2004 with A1, clause 8. N, mm, N/mm2, kg/m3.

Every formula was read as code in an open library of timber design (ourocode), the yield moments on a second page too;
the standard itself was not read. Characteristic values: design value = kmod x value / gamma_M (2.17), gamma_M 1.3 for
connections. Not every panel is covered: plain MDF and the edge of a board have no embedment in the code.
"""

from dataclasses import dataclass
from math import cos, radians, sin, sqrt
from typing import Literal

GAMMA_CONNECTION = 1.3
ROPE_SHARE = {"round nail": 0.15, "square nail": 0.25, "other nail": 0.50, "screws": 1.00, "bolts": 0.25, "dowels": 0.0}
RHO_TESTED = 350.0  # kg/m3, of the timber that tested values stand on, where none is said; 8.7.2 (5)
Mode = Literal["a", "b", "c", "d", "e", "f"]
MODE_WORDS: dict[Mode, str] = {
    "a": "crushes the board under the head",
    "b": "crushes the board at the point",
    "c": "tilts in both boards",
    "d": "bends in the board at the point",
    "e": "bends in the board under the head",
    "f": "bends in both boards",
}


def yield_moment(d: float, fu: float, square: bool = False) -> float:
    """Yield moment of a nail, screw, dowel or bolt, N mm: 0.3 fu d^2.6, square nails 0.45 (8.14, 8.30)."""
    return float((0.45 if square else 0.3) * fu * d**2.6)


def staple_yield_moment(d: float, edition: Literal["2004", "amended"]) -> float:
    """Of a staple: 240 d^2.6 in the edition of 2004 (8.29); 150 d^3 in a later amendment, as one library has it."""
    return 240 * d**2.6 if edition == "2004" else 150 * d**3


def screw_diameter(root_mm: float) -> float:
    """Effective diameter of a screw, 8.7.1 (3): 1.1 of its root, unless a smooth shank goes in by four diameters."""
    return 1.1 * root_mm


def embedment_timber(rho_k: float, d: float, predrilled: bool) -> float:
    """Of timber along or across the grain under nails and screws to 8 mm (8.15, 8.16)."""
    return 0.082 * (1 - 0.01 * d) * rho_k if predrilled else 0.082 * rho_k * d**-0.3


def embedment_bolt(rho_k: float, d: float, angle_deg: float, softwood: bool = True) -> float:
    """Of timber under a bolt or dowel at an angle to the grain (8.31 to 8.33)."""
    k90 = (1.35 if softwood else 0.90) + 0.015 * d
    a = radians(angle_deg)
    return 0.082 * (1 - 0.01 * d) * rho_k / (k90 * sin(a) ** 2 + cos(a) ** 2)


def embedment_plywood(rho_k: float, d: float) -> float:
    """Of plywood, head at least 2 d (8.20)."""
    return float(0.11 * rho_k * d**-0.3)


def embedment_hardboard(t: float, d: float) -> float:
    """Of hardboard, head at least 2 d (8.21)."""
    return float(30 * d**-0.3 * t**0.6)


def embedment_particleboard(t: float, d: float) -> float:
    """Of particleboard and OSB, head at least 2 d (8.22)."""
    return float(65 * d**-0.7 * t**0.1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shear:
    """Resistance of one fastener in one shear plane, N, and the mode in which it gives out."""

    N: float
    mode: Mode
    modes: tuple[tuple[Mode, float], ...]


def single_shear(
    t1: float, t2: float, fh1: float, fh2: float, d: float, My: float, Fax: float = 0.0, rope_share: float = 0.0
) -> Shear:
    """Johansen's six modes with the rope effect (8.6, 8.2.2 (2)).

    `t1` the board under the head or the length in it, `t2` the length in the other. The rope is Fax/4, and no more than
    its share of the Johansen part; modes a and b have none.
    """
    beta = fh2 / fh1
    r = t2 / t1
    k = fh1 * t1 * d
    c = k / (1 + beta) * (sqrt(beta + 2 * beta**2 * (1 + r + r**2) + beta**3 * r**2) - beta * (1 + r))
    dd = 1.05 * k / (2 + beta) * (sqrt(2 * beta * (1 + beta) + 4 * beta * (2 + beta) * My / (k * t1)) - beta)
    k2 = fh1 * t2 * d
    e = (
        1.05 * k2 / (1 + 2 * beta)
        * (sqrt(2 * beta**2 * (1 + beta) + 4 * beta * (1 + 2 * beta) * My / (k2 * t2)) - beta)
    )  # fmt: skip
    f = 1.15 * sqrt(2 * beta / (1 + beta)) * sqrt(2 * My * fh1 * d)

    def roped(part: float) -> float:
        return part + min(Fax / 4, rope_share * part)

    modes: tuple[tuple[Mode, float], ...] = (
        ("a", k), ("b", fh2 * t2 * d), ("c", roped(c)), ("d", roped(dd)), ("e", roped(e)), ("f", roped(f)),
    )  # fmt: skip
    mode, least = min(modes, key=lambda m: m[1])
    return Shear(N=least, mode=mode, modes=modes)


def german_single_shear(fh1: float, fh2: float, d: float, My: float) -> float:
    """The German annex's simplified form: mode f without the factor 1.15, for members thick enough."""
    beta = fh2 / fh1
    return sqrt(2 * beta / (1 + beta)) * sqrt(2 * My * fh1 * d)


def nail_withdrawal(rho_k: float, d: float, in_point: float) -> float:
    """Smooth nail pulled out of the board at its point, N (8.24, 8.25): 20e-6 rho^2 d t."""
    return 20e-6 * rho_k**2 * d * in_point


def head_pull_through(rho_k: float, head: float) -> float:
    """Head of a nail pulled through a board, N (8.24, 8.26): 70e-6 rho^2 dh^2."""
    return 70e-6 * rho_k**2 * head**2


def screw_withdrawal(
    rho_k: float, d: float, root: float, length: float, angle_deg: float = 90.0, tested: float | None = None,
    rho_tested: float = RHO_TESTED,
) -> float | None:  # fmt: skip
    """One screw pulled out of timber, N, `length` its thread in it; None: outside the rule and not tested.

    For 6 <= d <= 12 and 0.6 <= root/d <= 0.75 (8.38 to 8.40); any other by its tested fax,k (8.40a).
    """
    a = radians(angle_deg)
    turned = 1.2 * cos(a) ** 2 + sin(a) ** 2
    if tested is not None:
        return float(tested * d * length / turned * (rho_k / rho_tested) ** 0.8)
    if not (6 <= d <= 12 and 0.6 <= root / d <= 0.75):
        return None
    fax = 0.52 * d**-0.5 * length**-0.1 * rho_k**0.8
    return float(fax * d * length * min(d / 8, 1.0) / turned)


def head_as_tested(f_head: float, head: float, rho_k: float, rho_tested: float = RHO_TESTED) -> float:
    """Head of a screw pulled through by its tested value, N (8.40b)."""
    return float(f_head * head**2 * (rho_k / rho_tested) ** 0.8)


def together_axially(n: int) -> float:
    """How many screws pulled together count for (8.41): n^0.9."""
    return float(float(n) ** 0.9)


def splitting(b: float, h: float, he: float, w: float = 1.0) -> float:
    """Timber split across the grain by a joint `he` from its loaded edge, N (8.4): 14 b w sqrt(he/(1 - he/h))."""
    return 14 * b * w * sqrt(he / (1 - he / h))


def slip_modulus(rho1: float, rho2: float, d: float, nailed: bool = False) -> float:
    """Kser of one fastener and shear plane, N/mm (table 7.1); in the limit state of strength 2/3 of it."""
    rho = sqrt(rho1 * rho2)
    return float(rho**1.5 * d**0.8 / 30 if nailed else rho**1.5 * d / 23)
