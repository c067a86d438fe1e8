"""The box pushed sideways: closed forms, and a finite-element referee that shares nothing with our own frame.

The referee is scikit-fem: Hermite beams and axial bars on fine meshes for the boards, plane-stress quadratic squares for
the back, tied by springs; 20 random boxes within 2 %.
"""

import random
from dataclasses import replace

import numpy as np
import pytest
import skfem
from skfem.helpers import dd, ddot, sym_grad

from rodwork.load.box import BOARDS, Beam, Box, Sheet, Spring, sway
from rodwork.load.racking import racking
from rodwork.load.station import load_of
from rodwork.model import demand
from tests.building import back, recipe, rod

EI = 9000 * 300 * 18**3 / 12
BEAM = Beam(bending_Nmm2=EI, along_N=9000 * 300 * 18)


def box(width=582.0, height=702.0, corner=1e15, sheet=None, **beams):
    boards = {name: beams.get(name, BEAM) for name in BOARDS}
    return Box(width_mm=width, height_mm=height, corner_Nmm_per_rad=corner, back=sheet, **boards)


def test_a_stiff_closed_frame_by_its_closed_form():
    """P h^2 (h + b) / 24 EI for four equal boards with stiff corners: moments P h/4 at each corner (any handbook)."""
    assert sway(box(), 100.0).top_mm == pytest.approx(100 * 702**2 * (702 + 582) / 24 / EI, rel=2e-3)


def test_springs_at_the_corners_add_their_turning():
    """Each corner carries P h/4, so by work the top goes P h^2 / 4k further."""
    stiff, soft = sway(box(), 100.0).top_mm, sway(box(corner=5e6), 100.0).top_mm
    assert soft - stiff == pytest.approx(100 * 702**2 / 4 / 5e6, rel=1e-3)


def test_hinged_corners_without_a_back_fold():
    assert sway(box(corner=0.0), 100.0) is None


def test_twice_the_push_goes_twice_as_far():
    assert sway(box(), 200.0).top_mm == pytest.approx(2 * sway(box(), 100.0).top_mm)


# the referee -------------------------------------------------------------------------------------------------


def random_box(seed):
    at = random.Random(seed)
    width, height = at.uniform(350, 1200), at.uniform(400, 1800)

    def beam():
        E, depth, thick = at.uniform(1600, 10000), at.uniform(250, 600), at.uniform(15, 25)
        return Beam(bending_Nmm2=E * depth * thick**3 / 12, along_N=E * depth * thick)

    springs = []
    for board in BOARDS:
        length = height if board in ("left", "right") else width
        n = at.randint(3, 7)
        springs += [
            Spring(board=board, at_mm=40 + (length - 80) * i / (n - 1), N_per_mm=at.uniform(200, 1200))
            for i in range(n)
        ]
    E = at.uniform(2000, 12000)
    sheet = Sheet(thickness_mm=at.uniform(3, 9), stiffness_N_per_mm2=E, shear_N_per_mm2=E / 2.6, springs=tuple(springs))
    corner = at.choice((0.0, at.uniform(1e5, 2e7)))
    return box(width, height, corner, sheet, **{name: beam() for name in BOARDS})


class Referee:
    """One box by scikit-fem: all its matrices in one, tied by springs."""

    def __init__(self, made):
        self.box, self.n, self.parts, self.ties = made, 0, [], []
        self.boards = {name: self.board(name) for name in BOARDS}
        self.back()

    def place(self, count):
        self.n += count
        return self.n - count

    def board(self, name):
        """Bending and stretching of one board; the rows that read a point's moves in x and z and its turning."""
        upright = name in ("left", "right")
        length = self.box.height_mm if upright else self.box.width_mm
        points = [0.0, length, *(s.at_mm for s in self.box.back.springs if s.board == name)]
        fine = np.unique(np.concatenate([np.linspace(0, length, 25), points]).round(9))
        mesh = skfem.MeshLine(fine)
        bent, drawn = skfem.Basis(mesh, skfem.ElementLineHermite()), skfem.Basis(mesh, skfem.ElementLineP1())
        beam = getattr(self.box, name)
        for basis, form in (
            (bent, skfem.BilinearForm(lambda u, v, w: beam.bending_Nmm2 * ddot(dd(u), dd(v)))),
            (drawn, skfem.BilinearForm(lambda u, v, w: beam.along_N * u.grad[0] * v.grad[0])),
        ):
            self.parts.append((self.place(basis.N), form.assemble(basis)))
        (b0, _), (d0, _) = self.parts[-2:]
        out = {}
        for i, x in enumerate(mesh.p[0]):
            across, turn = b0 + bent.nodal_dofs[0, i], b0 + bent.nodal_dofs[1, i]
            along = d0 + drawn.nodal_dofs[0, i]
            # turning counted alike on all boards: dz/dx on the lying, -dx/dz on the upright
            rows = (
                ({across: 1.0}, {along: 1.0}, {turn: -1.0}) if upright else ({along: 1.0}, {across: 1.0}, {turn: 1.0})
            )
            out[round(float(x), 6)] = rows
        return out

    def back(self):
        """The back in plane stress, with E and G as they are (nu 0), and its springs to the boards."""
        made, sheet = self.box, self.box.back
        sides = (made.width_mm, made.height_mm)
        mesh = skfem.MeshQuad.init_tensor(*(np.linspace(0, side, 7) for side in sides))
        basis = skfem.Basis(mesh, skfem.ElementVector(skfem.ElementQuad2()))
        E, G, t = sheet.stiffness_N_per_mm2, sheet.shear_N_per_mm2, sheet.thickness_mm

        @skfem.BilinearForm
        def plane(u, v, w):
            e, f = sym_grad(u), sym_grad(v)
            return t * (E * (e[0, 0] * f[0, 0] + e[1, 1] * f[1, 1]) + 4 * G * e[0, 1] * f[0, 1])

        start = self.place(basis.N)
        self.parts.append((start, plane.assemble(basis)))
        for s in sheet.springs:
            upright = s.board in ("left", "right")
            x = (0.0 if s.board == "left" else made.width_mm) if upright else s.at_mm
            z = s.at_mm if upright else (made.height_mm if s.board == "top" else 0.0)
            there = basis.probes(np.array([[x], [z]])).toarray()
            at_x, at_z, _ = self.boards[s.board][round(s.at_mm, 6)]
            for row, way in ((at_x, 0), (at_z, 1)):
                shares = {start + int(i): -there[way, i] for i in np.flatnonzero(np.abs(there[way]) > 1e-12)}
                self.ties.append(({**row, **shares}, s.N_per_mm))

    def sway(self, push):
        made = self.box
        W, H = round(made.width_mm, 6), round(made.height_mm, 6)
        for (one, a), (two, b) in (
            (("left", 0.0), ("bottom", 0.0)), (("right", 0.0), ("bottom", W)), (("left", H), ("top", 0.0)), (("right", H), ("top", W)),
        ):  # fmt: skip
            for way, k in ((0, 1e8), (1, 1e8), (2, made.corner_Nmm_per_rad)):
                row = dict(self.boards[one][a][way])
                for dof, r in self.boards[two][b][way].items():
                    row[dof] = row.get(dof, 0.0) - r
                self.ties.append((row, k))
        for board, at, way in (("bottom", 0.0, 0), ("bottom", 0.0, 1), ("bottom", W, 1)):
            self.ties.append((self.boards[board][at][way], 1e8))
        K = np.zeros((self.n, self.n))
        for start, part in self.parts:
            K[start : start + part.shape[0], start : start + part.shape[0]] += part.toarray()
        for row, k in self.ties:
            dofs, values = list(row), np.array(list(row.values()))
            K[np.ix_(dofs, dofs)] += k * np.outer(values, values)
        load = np.zeros(self.n)
        ((dof, _),) = self.boards["left"][H][0].items()
        load[dof] = push
        return float(np.linalg.solve(K, load)[dof])


@pytest.mark.parametrize("seed", range(20))
def test_20_random_boxes_agree_with_scikit_fem_within_2_per_cent(seed):
    made = random_box(seed)
    assert sway(made, 100.0).top_mm == pytest.approx(Referee(made).sway(100.0), rel=0.02)


# from the Rod ------------------------------------------------------------------------------------------------


def raked(style, tested=None, **changes):
    changes = {"back": back(style) if style else None, **changes}
    made = rod(**changes)
    made = replace(made, tested=tested or {})
    return racking(made.cabinets[0], made)


def stiff(nm=400.0):
    return {
        "dowel": demand.Tested(
            pull_N=None, shear_N=None, moment_Nmm=None, basis="working load", source="own", turning_Nmm_per_rad=nm * 1e3
        )
    }


def test_a_box_without_a_back_and_without_figures_is_asked_for():
    found = raked(None)
    assert (found.bare_mm, found.backed_mm, found.margin) == (None, None, None)
    assert "turning_nm_per_rad" in found.asks[0]
    assert "load-racking-unknown" in {f.code for f in load_of(rod(back=None)).findings}


def test_corners_as_tested_keep_a_box_without_a_back():
    soft, hard = raked(None, stiff(100)), raked(None, stiff(1000))
    assert hard.bare_mm < soft.bare_mm


def test_a_back_with_its_screws_keeps_the_front_better_than_a_loose_one():
    planted, loose, glued = (raked(style).backed_mm for style in ("planted", "grooved all round", "rebated"))
    assert glued < planted < loose
    assert raked("planted").margin > 1


def test_a_loose_back_leaves_the_lean_of_its_play():
    """2.9 mm on the diagonals of 600 x 720 at 0.5 all round: arithmetic of the check back-play, to its rounding."""
    how = raked("grooved all round").how
    free = float(how.split("free by ")[1].split(" mm")[0])
    diagonals = 2 * 600 * 720 / np.hypot(600, 720) * free / 720
    assert diagonals == pytest.approx(2.9, abs=0.1)


def test_more_screws_in_the_back_share_the_push():
    few = raked("planted", back=back("planted", joint=recipe(("screw", {"pitch_mm": 400.0, "glue": False}))))
    many = raked("planted", back=back("planted", joint=recipe(("screw", {"pitch_mm": 80.0, "glue": False}))))
    assert many.backed_mm < few.backed_mm
    assert many.margin > few.margin
