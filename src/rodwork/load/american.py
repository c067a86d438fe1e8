"""Nails and screws by American practice: the Wood Handbook's averages at failure, and the NDS allowable loads.

Wood Handbook: FPL-GTR-190, chapter 8. NDS: National Design Specification for Wood Construction, clause 12. Metric forms
of the Handbook in N and mm; the NDS in its own pounds and inches, turned to N. G is specific gravity, oven-dry.
Ultimate over allowable is 4.5 to 5.7, so the two are never to be mixed.
"""

from math import sqrt

N_PER_LB = 4.4482216152605
MM_PER_IN = 25.4
N_PER_MM_PER_LB_PER_IN = N_PER_LB / MM_PER_IN
PARTICLEBOARD_K = {"face": 41.1, "edge": 31.8}  # from memory, closes with 2,655 and 2,055 of the inch form
LATERAL_K = {  # N and mm, from memory; by specific gravity up to the key
    "softwood": {0.42: (50.04, 23.17, 23.30), 0.47: (62.55, 29.79, 26.34), 0.52: (76.45, 36.40, 29.51)},
    "hardwood": {0.47: (50.04, 23.17, 26.34), 0.56: (69.50, 31.99, 29.51), 0.74: (94.52, 44.13, 34.13)},
}


def nail_withdrawal(G: float, D: float, L: float) -> float:
    """Nail out of side grain, average at failure, N: 54.12 G^2.5 D L (eq. 8-1; exponent 5/2 by FPL notes 093, 236)."""
    return float(54.12 * G**2.5 * D * L)


def screw_withdrawal(G: float, D: float, L: float) -> float:
    """Wood screw out of side grain, average at failure, N: 108.25 G^2 D L (eq. 8-10)."""
    return 108.25 * G**2 * D * L


def lag_withdrawal(G: float, D: float, L: float) -> float:
    """Lag screw out of side grain, average at failure, N: 125.4 G^1.5 D^0.75 L; end grain about 3/4 of it."""
    return float(125.4 * G**1.5 * D**0.75 * L)


def particleboard_screw_withdrawal(G: float, D: float, L: float, surface: str) -> float:
    """Screw out of the face or edge of particleboard, average at failure, N, from memory: K D^.5 (L - D/3)^1.25 G^2."""
    return float(PARTICLEBOARD_K[surface] * sqrt(D) * max(L - D / 3, 0.0) ** 1.25 * G**2)


def _lateral_k(G: float, wood: str) -> tuple[float, float, float]:
    for up_to, k in LATERAL_K[wood].items():
        if up_to >= G:
            return k
    raise ValueError(f"no figure for {wood} of specific gravity {G:g}")


def lateral_nail(G: float, D: float, wood: str = "softwood") -> float:
    """Nail across its length, N, at small slip: K D^1.5, K from memory. Raises ValueError outside the table."""
    return float(_lateral_k(G, wood)[0] * D**1.5)


def lateral_screw(G: float, D: float, wood: str = "softwood") -> float:
    """Wood screw across its length, N, at small slip: K D^2, K from memory. Raises ValueError outside the table."""
    return float(_lateral_k(G, wood)[1] * D**2)


def lateral_lag(G: float, D: float, wood: str = "softwood") -> float:
    """Lag screw across its length, N: K D^2 (8-15), side member 3.5 D; K from memory. Raises ValueError outside."""
    return float(_lateral_k(G, wood)[2] * D**2)


def nds_nail_withdrawal(G: float, D_in: float) -> float:
    """Allowable, N per mm of penetration: 1,380 G^2.5 D lb/in (12.2-3)."""
    return float(1380 * G**2.5 * D_in * N_PER_MM_PER_LB_PER_IN)


def nds_screw_withdrawal(G: float, D_in: float) -> float:
    """Allowable, N per mm of thread: 2,850 G^2 D lb/in (12.2-2)."""
    return 2850 * G**2 * D_in * N_PER_MM_PER_LB_PER_IN


def nds_lag_withdrawal(G: float, D_in: float) -> float:
    """Allowable, N per mm of thread: 1,800 G^1.5 D^0.75 lb/in (12.2-1)."""
    return float(1800 * G**1.5 * D_in**0.75 * N_PER_MM_PER_LB_PER_IN)


def nds_lateral(
    G_main: float, G_side: float, D_in: float, side_in: float, main_in: float, Fyb_psi: float
) -> tuple[float, str]:
    """Allowable of one nail or screw across its length in single shear, N, and its yield mode (table 12.3.1A).

    Fe = 16,600 G^1.84 psi for D < 1/4 in; Kd = 2.2 to 0.17 in, then 10 D + 0.5. k2 holds (1 + 2 Re), from memory: one
    open program has (2 + Re), which is the same at Re = 1 alone.
    """
    Fem, Fes = 16600 * G_main**1.84, 16600 * G_side**1.84
    Re, Rt = Fem / Fes, main_in / side_in
    Kd = 2.2 if D_in <= 0.17 else 10 * D_in + 0.5
    k1 = (sqrt(Re + 2 * Re**2 * (1 + Rt + Rt**2) + Rt**2 * Re**3) - Re * (1 + Rt)) / (1 + Re)
    k2 = -1 + sqrt(2 * (1 + Re) + 2 * Fyb_psi * (1 + 2 * Re) * D_in**2 / (3 * Fem * main_in**2))
    k3 = -1 + sqrt(2 * (1 + Re) / Re + 2 * Fyb_psi * (2 + Re) * D_in**2 / (3 * Fem * side_in**2))
    pounds = {
        "Im": D_in * main_in * Fem / Kd,
        "Is": D_in * side_in * Fes / Kd,
        "II": k1 * D_in * side_in * Fes / Kd,
        "IIIm": k2 * D_in * main_in * Fem / ((1 + 2 * Re) * Kd),
        "IIIs": k3 * D_in * side_in * Fem / ((2 + Re) * Kd),
        "IV": D_in**2 / Kd * sqrt(2 * Fem * Fyb_psi / (3 * (1 + Re))),
    }
    mode = min(pounds, key=lambda m: pounds[m])
    return pounds[mode] * N_PER_LB, mode
