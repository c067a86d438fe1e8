"""A box of four boards reckoned once more by hand, in plain numpy and `uncertainties`, beside the engine's own answer.

The hand knows its geometry (600 x 720 x 320 of 17.6 sheet) and the places of its dowels from the set-out, and nothing
else of the engine: boards move as rigid bodies, dowels pull with weight 1, shoulders with 100, as the as-drilled pose has it.
"""

import numpy as np
import pytest
from scipy.spatial.transform import Rotation
from uncertainties import ufloat

from rodwork.fit.draws import draw
from rodwork.fit.forecast import stiff
from rodwork.fit.solve import AS_DRILLED, as_drilled, factored
from tests.fit.rods import ACCURACY, box, from_the_other_side, length, model, with_play

WIDTH, HEIGHT, DEPTH, SHEET = 600.0, 720.0, 320.0, 17.6
X, Y, Z = np.eye(3)
MIDDLE = {
    "left side": (SHEET / 2, DEPTH / 2, HEIGHT / 2), "right side": (WIDTH - SHEET / 2, DEPTH / 2, HEIGHT / 2),
    "top": (WIDTH / 2, DEPTH / 2, HEIGHT - SHEET / 2), "bottom": (WIDTH / 2, DEPTH / 2, SHEET / 2),
}  # fmt: skip
BOARDS = tuple(MIDDLE)
INNER = {"left side": SHEET, "right side": WIDTH - SHEET, "top": HEIGHT - SHEET, "bottom": SHEET}  # x, or z


@pytest.fixture(scope="module")
def rod():
    return with_play(box(), 0.1, 0.1)


def moved(board, point, way):
    """(24,) how far a point of a board goes along a direction, per mm and rad of the movements of all four."""
    row = np.zeros(24)
    at = 6 * BOARDS.index(board)
    row[at : at + 3], row[at + 3 : at + 6] = way, np.cross(np.subtract(point, MIDDLE[board]), way)
    return row


def apart(flat, side, point, way):
    return moved(flat, point, way) - moved(side, point, way)


def dowels(rod):
    """(side, flat, place) of every dowel."""
    return [(*joint.parts, fixing.at) for joint in rod.cabinets[0].joints for fixing in joint.fixings]


def weighed(rod):
    """(rows, 24) what the as-drilled pose would have at nought, times the root of its weight: pegs across, then the rest."""
    across, rest = [], []
    for side, flat, at in dowels(rod):
        across.append(apart(flat, side, at, Z))
        rest.append(apart(flat, side, at, Y))
    for side in ("left side", "right side"):
        for flat in ("top", "bottom"):
            for y in (0.0, DEPTH):
                for z in (INNER[flat], HEIGHT if flat == "top" else 0.0):
                    rest.append(10 * apart(flat, side, (INNER[side], y, z), X))
    return np.array(across), np.array(rest)


def lip_of_a_hole(rod, point):
    """Lip of the top over the left side at a point, per mm that each dowel's two holes are apart across."""
    across, rest = weighed(rod)
    all_rows = np.concatenate([across, rest])
    answer = np.linalg.lstsq(all_rows, np.concatenate([-np.eye(len(across)), np.zeros((len(rest), len(across)))]))[0]
    return apart("top", "left side", point, Z) @ answer


@pytest.mark.parametrize("inner", [False, True])
def test_the_spread_of_a_lip_is_that_of_linear_error_propagation(rod, inner):
    """T14. `uncertainties` on the hand's own expression: holes, and the sheet where the top is bored from its inner face.

    Within 1 in 1000.
    """
    bored = from_the_other_side(rod, {"top", "bottom"}, axis=2) if inner else rod
    m = stiff(model(bored))
    mine = as_drilled(m, "lip|left side / top|from")
    kept = [
        i
        for i, s in enumerate(m.sources)
        if s.key.startswith("each across") or ("size" in s.key and "length" not in s.key)
    ]
    hole, sheet = (
        ACCURACY.method("dowel jig").error("across").each.value,
        ACCURACY.named("sheet as measured").error("size"),
    )
    lip = sum(k * (ufloat(0, hole) - ufloat(0, hole)) for k in lip_of_a_hole(rod, (SHEET, 0.0, HEIGHT)))
    if inner:
        lip += ufloat(0, sheet.shared.value) + ufloat(0, sheet.each.value)
    assert np.linalg.norm(mine[kept]) == pytest.approx(lip.std_dev, rel=1e-3)


def order(m):
    """Boards as their movements stand in q, six each; the first stands still and has none."""
    return list(dict.fromkeys(name for joint in m.joints for name in joint.split(" / ")))


def racked(m, angle):
    """(n,) both flats turned about the front-back axis, in mrad, the sides upright: it racks."""
    free = np.zeros((4, 6))
    for flat in ("top", "bottom"):
        free[order(m).index(flat), 4] = angle
    return free[1:].ravel()


def placements(m, q):
    """{board: (shift, turn in rad)} of one pose."""
    free = np.concatenate([np.zeros(6), q]).reshape(-1, 6)
    return {board: (free[i, :3], free[i, 3:] * 1e-3) for i, board in enumerate(order(m))}


def exact_diagonals(placed):
    """Rising less falling diagonal of the inner corners, where the lines of the inner faces cross, after exact turns."""

    def line(board):
        shift, turn = placed[board]
        upright = board.endswith("side")
        on, way = np.array(MIDDLE[board]), Z if upright else X
        on[0 if upright else 2] = INNER[board]
        exact = Rotation.from_rotvec(turn)
        middle = np.array(MIDDLE[board])
        point, along = middle + shift + exact.apply(on - middle), exact.apply(way)
        return point[[0, 2]], along[[0, 2]]

    def corner(side, flat):
        (p, u), (q, v) = line(side), line(flat)
        return p + u * np.linalg.solve(np.array([u, -v]).T, q - p)[0]

    rising = corner("left side", "bottom") - corner("right side", "top")
    falling = corner("left side", "top") - corner("right side", "bottom")
    return np.linalg.norm(rising) - np.linalg.norm(falling)


@pytest.mark.parametrize(("sigma", "rms", "most"), [(0.5, 0.001, 0.006), (2.0, 0.015, 0.08)])
def test_diagonals_agree_with_the_exact_quadrilateral(rod, sigma, rms, most):
    """T15. Lengths off by 0.5 or 2 mm and a rack of as many mrad: exact turns and crossing lines against the linear figure."""
    m = stiff(model(rod))
    print("seeds 6, 7")
    z = draw(m.sources, 300, seed=6)
    for i, source in enumerate(m.sources):
        sized = source.key in [length(board) for board in BOARDS]
        z[:, i] *= sigma / source.sigma if sized else 1.0 if source.key.startswith("each across") else 0.0
    racks = np.random.default_rng(7).normal(0.0, sigma, 300)
    poses = [factored(m, AS_DRILLED).to_pose @ one + racked(m, rack) for one, rack in zip(z, racks, strict=True)]
    at = m.output_at["diagonals"]
    linear = np.array([m.out_q[at] @ q + m.out_z[at] @ one for q, one in zip(poses, z, strict=True)])
    off = linear - [exact_diagonals(placements(m, q)) for q in poses]
    print(np.sqrt(np.mean(off**2)), np.abs(off).max(), linear.std())
    assert linear.std() > sigma / 2
    assert np.sqrt(np.mean(off**2)) < rms
    assert np.abs(off).max() < most


def test_a_top_too_long_shows_on_the_diagonals_once_a_side_is_set_square(rod):
    """F-b. Left side set square to bottom and top, top 1 longer: W / D of it by geometry; left to itself 0, even taper."""
    m = stiff(model(rod))
    z = m.z_of({length("top"): 1.0})[0]
    weights = AS_DRILLED.of(m.aim_kind) ** 0.5
    square = np.zeros((2, m.aim_q.shape[1]))
    for row, flat in zip(square, ("bottom", "top"), strict=True):
        row[6 * order(m).index(flat) - 6 + 4] = 1e3  # the left side stands still: they must not turn
    forms = np.vstack([m.aim_q * weights[:, None], square])
    q = np.linalg.lstsq(forms, np.append(-weights * (m.aim_z @ z), [0.0, 0.0]))[0]
    wide, high = WIDTH - 2 * SHEET, HEIGHT - 2 * SHEET
    out = dict(zip(m.outputs, m.out_q @ q + m.out_z @ z, strict=True))
    assert order(m)[0] == "left side"
    assert out["width"] == pytest.approx(1.0, abs=0.03)  # dowels keep a little of it back
    assert abs(out["diagonals"]) == pytest.approx(out["width"] * wide / np.hypot(wide, high), abs=1e-3)
    assert as_drilled(m, "diagonals") @ z == pytest.approx(0.0, abs=1e-4)
