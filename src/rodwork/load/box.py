"""A box pushed sideways at its top, as a plane frame: four boards, corners that may turn, and a back fastened to them.

Boards are straight beams (Bernoulli), corners are springs against turning, every screw or nail of the back is a spring
both ways. The back is a sheet in plane stress (no Poisson's ratio), on 4 x 4 squares of quadratic displacements: no
finer, since the give of the wood close to a screw is in its slip modulus already. The box stands on its two bottom
corners. Direct stiffness; held to a finite-element library by tests. N, mm, rad.
"""

from dataclasses import dataclass
from itertools import pairwise
from math import hypot
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from typing import Any

    from numpy.typing import NDArray

    Matrix = NDArray[Any]
    Vector = NDArray[Any]

BoardName = Literal["left", "right", "top", "bottom"]
BOARDS: tuple[BoardName, ...] = ("left", "right", "top", "bottom")
SQUARES = 4  # of the back, each way
FOLDS_MM_PER_N = 1e6  # a box that goes so far under a newton is held by nothing


@dataclass(frozen=True, slots=True, kw_only=True)
class Beam:
    """One board of the frame: E I across its thickness, N mm2, and E A along it, N."""

    bending_Nmm2: float
    along_N: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Spring:
    """A screw or nail of the back: on which board, how far along it (from the left, or from the bottom), how stiff."""

    board: BoardName
    at_mm: float
    N_per_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """The back: its size as it lies behind the frame, its stiffness in its own plane, N/mm2, and its springs."""

    thickness_mm: float
    stiffness_N_per_mm2: float
    shear_N_per_mm2: float
    springs: tuple[Spring, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A frame between the middles of its boards, with what its corners take to be turned by a radian."""

    width_mm: float
    height_mm: float
    left: Beam
    right: Beam
    top: Beam
    bottom: Beam
    corner_Nmm_per_rad: float
    back: Sheet | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Swayed:
    """How far the top goes under the push, and what each spring of the back takes, N, in their order."""

    top_mm: float
    forces_N: tuple[float, ...]


def sway(box: Box, push_N: float) -> Swayed | None:
    """The box under a push at its top left corner; None where it is a mechanism and simply folds."""
    import numpy as np
    from scipy.sparse import csc_array
    from scipy.sparse.linalg import splu

    model = _Model(box)
    K = model.stiffness()
    held = [model.at[("corner", 0, 0), "x"], model.at[("corner", 0, 0), "z"], model.at[("corner", 1, 0), "z"]]
    free = [i for i in range(len(K)) if i not in held]
    load = np.zeros(len(K))
    load[model.at[("corner", 0, 1), "x"]] = push_N
    inner = K[np.ix_(free, free)]
    scale = 1 / np.sqrt(np.diag(inner).clip(min=1e-30))
    try:
        found = scale * splu(csc_array(inner * scale[:, None] * scale[None, :])).solve(scale * load[free])
    except RuntimeError:  # exactly singular
        return None
    moved = np.zeros(len(K))
    moved[free] = found
    top = float(moved[model.at[("corner", 0, 1), "x"]])
    if not 0 <= top < FOLDS_MM_PER_N * max(push_N, 1e-9):
        return None
    return Swayed(top_mm=top, forces_N=model.forces(moved))


Place = tuple[str, float, float]  # a node: ("corner", right, top), or (board, along, 0)


class _Model:
    """Numbering and stiffness of one box."""

    def __init__(self, box: Box) -> None:
        self.box = box
        self.at: dict[tuple[Place, str], int] = {}
        self.runs = {board: self._run(board) for board in BOARDS}
        for board, run in self.runs.items():
            for place, _ in run:
                for way in ("x", "z", f"turn {board}"):
                    self.at.setdefault((place, way), len(self.at))
        self.sheet = len(self.at)  # then all moves of the sheet in x, then in z
        self.nodes = (2 * SQUARES + 1) ** 2 if box.back else 0
        self.size = self.sheet + 2 * self.nodes

    def _run(self, board: BoardName) -> list[tuple[Place, float]]:
        """The nodes along one board, from the left or from the bottom."""
        upright = board in ("left", "right")
        length = self.box.height_mm if upright else self.box.width_mm
        inner = sorted({s.at_mm for s in (self.box.back.springs if self.box.back else ()) if s.board == board})
        far = 1.0 if board in ("right", "top") else 0.0
        ends: tuple[Place, Place] = (
            (("corner", far, 0), ("corner", far, 1)) if upright else (("corner", 0, far), ("corner", 1, far))
        )  # fmt: skip
        between: list[tuple[Place, float]] = [((board, a, 0), a) for a in inner if 1e-6 < a < length - 1e-6]
        return [(ends[0], 0.0), *between, (ends[1], length)]

    def _beam(self, board: BoardName) -> Beam:
        return {"left": self.box.left, "right": self.box.right, "top": self.box.top, "bottom": self.box.bottom}[board]

    def stiffness(self) -> "Matrix":
        """The whole stiffness, (n, n)."""
        import numpy as np

        K = np.zeros((self.size, self.size))
        for board, run in self.runs.items():
            for (a, x0), (b, x1) in pairwise(run):
                dofs, k = self._element(board, a, b, x1 - x0)
                K[np.ix_(dofs, dofs)] += k
        c = self.box.corner_Nmm_per_rad
        for place, boards in self._corners():
            i, j = (self.at[(place, f"turn {board}")] for board in boards)
            K[np.ix_([i, j], [i, j])] += np.array([[c, -c], [-c, c]])
        if self.box.back is not None:
            self._add_back(K)
        return K

    def _corners(self) -> tuple[tuple[Place, tuple[BoardName, BoardName]], ...]:
        return (
            (("corner", 0, 0), ("left", "bottom")), (("corner", 1, 0), ("right", "bottom")),
            (("corner", 0, 1), ("left", "top")), (("corner", 1, 1), ("right", "top")),
        )  # fmt: skip

    def _element(self, board: BoardName, a: Place, b: Place, length: float) -> "tuple[list[int], Matrix]":
        """A piece of a board: along it EA/L, across it the beam of two ends. Turning is counted about -y (x to z)."""
        import numpy as np

        beam, L = self._beam(board), length
        e = beam.bending_Nmm2 / L**3
        across, along, sign = ("x", "z", -1.0) if board in ("left", "right") else ("z", "x", 1.0)
        turn = f"turn {board}"
        dofs = [self.at[(p, w)] for p in (a, b) for w in (along, across, turn)]
        k = np.zeros((6, 6))
        k[np.ix_([0, 3], [0, 3])] = beam.along_N / L * np.array([[1, -1], [-1, 1]])
        s = sign * L
        k[np.ix_([1, 2, 4, 5], [1, 2, 4, 5])] = e * np.array(
            [
                [12, 6 * s, -12, 6 * s],
                [6 * s, 4 * L * L, -6 * s, 2 * L * L],
                [-12, -6 * s, 12, -6 * s],
                [6 * s, 2 * L * L, -6 * s, 4 * L * L],
            ]
        )
        return dofs, k

    def _places(self) -> list[tuple[Spring, Place, float, float]]:
        """Every spring with its node and its place on the sheet, from its bottom left corner."""
        box, out = self.box, []
        for s in box.back.springs if box.back else ():
            place = next(p for p, a in self.runs[s.board] if abs(a - self._clipped(s)) < 1e-6)
            upright = s.board in ("left", "right")
            x = (0.0 if s.board == "left" else box.width_mm) if upright else s.at_mm
            z = s.at_mm if upright else (box.height_mm if s.board == "top" else 0.0)
            out.append((s, place, x, z))
        return out

    def _clipped(self, s: Spring) -> float:
        length = self.box.height_mm if s.board in ("left", "right") else self.box.width_mm
        return 0.0 if s.at_mm <= 1e-6 else length if s.at_mm >= length - 1e-6 else s.at_mm

    def _rows(self, place: Place, x: float, z: float) -> tuple[tuple[list[int], list[float]], ...]:
        """How far a spring is stretched in x and in z: the frame's node less the sheet there."""
        along_x, along_z = _shapes(x, self.box.width_mm), _shapes(z, self.box.height_mm)
        wide = 2 * SQUARES + 1
        there = [(i * wide + j, a * b) for i, a in along_x for j, b in along_z]
        return tuple(
            (
                [self.at[(place, way)], *(self.sheet + nth * self.nodes + n for n, _ in there)],
                [1.0, *(-share for _, share in there)],
            )
            for nth, way in enumerate(("x", "z"))
        )

    def _add_back(self, K: "Matrix") -> None:
        import numpy as np

        back = self.box.back
        assert back is not None
        E, G = (v * back.thickness_mm for v in (back.stiffness_N_per_mm2, back.shear_N_per_mm2))
        (mx, kx, cx), (mz, kz, cz) = _quadratic(self.box.width_mm), _quadratic(self.box.height_mm)
        a, b, c = self.sheet, self.sheet + self.nodes, self.size
        K[a:b, a:b] += E * np.kron(kx, mz) + G * np.kron(mx, kz)
        K[b:c, b:c] += E * np.kron(mx, kz) + G * np.kron(kx, mz)
        mixed = G * np.kron(cx.T, cz)
        K[a:b, b:c] += mixed
        K[b:c, a:b] += mixed.T
        for s, place, x, z in self._places():
            for dofs, row in self._rows(place, x, z):
                K[np.ix_(dofs, dofs)] += s.N_per_mm * np.outer(row, row)

    def forces(self, moved: "Vector") -> tuple[float, ...]:
        """The size of what each spring takes."""
        out = []
        for s, place, x, z in self._places():
            gone = [
                sum(float(moved[i]) * r for i, r in zip(dofs, row, strict=True))
                for dofs, row in self._rows(place, x, z)
            ]
            out.append(s.N_per_mm * hypot(*gone))
        return tuple(out)


def _shapes(at: float, length: float) -> list[tuple[int, float]]:
    """The three nodes of the square that a place lies in, each with its share of the displacement there."""
    step = length / SQUARES
    n = min(int(at / step), SQUARES - 1)
    t = at / step - n
    return [(2 * n, (1 - t) * (1 - 2 * t)), (2 * n + 1, 4 * t * (1 - t)), (2 * n + 2, t * (2 * t - 1))]


def _quadratic(length: float) -> "tuple[Matrix, Matrix, Matrix]":
    """Along one side of the sheet, integrals of u v, of u' v' and of u' v (row: u), each (9, 9)."""
    import numpy as np

    h, size = length / SQUARES, 2 * SQUARES + 1
    each = (
        h / 30 * np.array([[4, 2, -1], [2, 16, 2], [-1, 2, 4]]),
        1 / (3 * h) * np.array([[7, -8, 1], [-8, 16, -8], [1, -8, 7]]),
        1 / 6 * np.array([[-3, -4, 1], [4, 0, -4], [-1, 4, 3]]),
    )
    even, bent, mixed = (np.zeros((size, size)) for _ in each)
    for n in range(SQUARES):
        at = slice(2 * n, 2 * n + 3)
        for whole, part in zip((even, bent, mixed), each, strict=True):
            whole[at, at] += part
    return even, bent, mixed
