"""Nails, screws and dowels against published cases. Standing of each is in its docstring: what was read, what was not.

No printed textbook solution of a nail or screw with all its numbers was found. What stands in for it are regression
values of open-source design libraries (ourocode; xcfem/xc), which our own kernel reproduces: two programs that
agree, not the standard's own answer; and one printed handbook table of dowels.
"""

import csv
from math import sqrt
from pathlib import Path

import pytest

from rodwork.load import american as us
from rodwork.load import dowel_corner
from rodwork.load import eurocode5 as ec5

TABLE = Path(__file__).parent / "data" / "timber_dowel_shear_table.csv"


def test_yield_moments():
    """EN 1995-1-1 (8.14), (8.30); ourocode's tests, verified."""
    assert ec5.yield_moment(2.5, 600) == pytest.approx(1949.4698713738494, rel=1e-12)
    assert ec5.yield_moment(ec5.screw_diameter(4.5), 600) == pytest.approx(11514.524874935903, rel=1e-12)
    assert ec5.yield_moment(12, 400) == pytest.approx(76745.42328693614, rel=1e-12)


def test_staples_have_two_editions():
    """A trap: 240 d^2.6 in 2004, 150 d^3 in an amendment; the edition goes with the number."""
    assert ec5.staple_yield_moment(1.5, "2004") == pytest.approx(688.7, abs=0.1)
    assert ec5.staple_yield_moment(1.5, "amended") == pytest.approx(506.25)


def nail_in_osb():
    fh1, fh2 = ec5.embedment_particleboard(12, 2.5), ec5.embedment_timber(385, 2.5, predrilled=False)
    out, head = ec5.nail_withdrawal(385, 2.5, 40.5), ec5.head_pull_through(550, 5)
    return ec5.single_shear(12, 40.5, fh1, fh2, 2.5, ec5.yield_moment(2.5, 600), min(out, head), 0.5), out, head


def test_nine_nails_through_osb_into_timber():
    """ourocode, Test_Pointe.test_FvRk, verified: 5537.90 N, mode d, 615.32 N each; withdrawal 300.16, head 529.4."""
    shear, out, head = nail_in_osb()
    assert (out, head) == pytest.approx((300.155625, 529.375), rel=1e-9)
    assert (shear.mode, 9 * shear.N) == ("d", pytest.approx(5537.902373351718, rel=1e-9))


def test_four_screws_in_glulam():
    """ourocode, Test_Tirefond_inf_7.test_FvRk, verified to 2e-5: 7553.23 N, mode f, 2095.2 N each; n_ef as given."""
    fh = ec5.embedment_timber(385, 4.95, predrilled=False)
    head = ec5.head_as_tested(15, 10, 385, 380)
    out = ec5.screw_withdrawal(385, 6, 4.5, 80, tested=10 * 0.75, rho_tested=380)  # kd = 6/8 taken into fax,k
    shear = ec5.single_shear(100, 74, fh, fh, 4.95, ec5.yield_moment(4.95, 600), min(head, out), 1.0)
    assert head == pytest.approx(1515.77, abs=0.01)
    assert head < out
    assert shear.mode == "f"
    assert pytest.approx(7553.234585878883, rel=2e-5) == 2 * 1.8025009252216604 * shear.N


def test_four_screws_pulled_together():
    """ourocode, Test_Tirefond_inf_7.test_FaxRk, verified: 5278.21 N; the head governs; n^0.9."""
    assert ec5.together_axially(4) * ec5.head_as_tested(15, 10, 385, 380) == pytest.approx(5278.213553724563, rel=1e-9)


def test_the_printed_table_of_dowels_within_its_printing():
    """German handbook under DIN EN 1995-1-1/NA, C24, fu 360 (inferred: it is not printed, and reproduces the cells).

    Verified against the cells kept here: nearly all to half the last digit; a few with 30 degrees coarsely, 1.5 %.
    """
    close = cells = 0
    for row in csv.DictReader(TABLE.open(encoding="utf-8")):
        d, printed = float(row["d_mm"]), row["F_kN"]
        fh1, fh2 = (ec5.embedment_bolt(350, d, float(row[f"alpha{i}_deg"])) for i in (1, 2))
        kN = ec5.german_single_shear(fh1, fh2, d, ec5.yield_moment(d, 360)) / 1000
        digit = 10.0 ** -len(printed.partition(".")[2])
        close += abs(kN - float(printed)) <= 0.5 * digit + 1e-3
        cells += 1
        assert kN == pytest.approx(float(printed), rel=0.016), row
    assert cells == 164
    assert close >= 0.92 * cells


def test_the_german_form_drops_the_factor_that_eurocode_5_has():
    """A trap: mode f of EN 1995-1-1 holds 1.15; the annex's simplified form does not."""
    fh, My = ec5.embedment_bolt(350, 10, 0), ec5.yield_moment(10, 360)
    with_factor = dict(ec5.single_shear(500, 500, fh, fh, 10, My).modes)["f"]
    assert with_factor / ec5.german_single_shear(fh, fh, 10, My) == pytest.approx(1.15)
    assert ec5.german_single_shear(fh, fh, 10, My) == pytest.approx(4710, abs=6)


def test_a_thin_screw_has_no_withdrawal_without_a_test():
    """EN 1995-1-1, 8.7.2 (4): the rule is for 6 to 12 mm; others by their tested value alone."""
    assert ec5.screw_withdrawal(350, 4, 2.6, 30) is None
    assert ec5.screw_withdrawal(350, 6, 4.2, 40) == pytest.approx(0.52 * 6**-0.5 * 40**-0.1 * 350**0.8 * 6 * 40 * 0.75)


@pytest.mark.parametrize(
    ("kind", "fax", "capped"),
    [("round nail", 1e9, 0.15), ("screws", 1e9, 1.0), ("dowels", 1e9, 0.0), ("screws", 40, None)],
)
def test_the_rope_is_a_quarter_of_the_pull_and_no_more_than_its_share(kind, fax, capped):
    bare = dict(ec5.single_shear(50, 50, 20, 20, 4, 6000).modes)
    roped = dict(ec5.single_shear(50, 50, 20, 20, 4, 6000, fax, ec5.ROPE_SHARE[kind]).modes)
    for mode in "cdef":
        more = 10 if capped is None else capped * bare[mode]
        assert roped[mode] - bare[mode] == pytest.approx(more)
    assert (roped["a"], roped["b"]) == (bare["a"], bare["b"])


def test_johansens_modes_turned_round_are_the_same_joint():
    """Swapping the two boards swaps a with b and d with e, and changes nothing else."""
    one = dict(ec5.single_shear(18, 30, 25, 15, 4, 6000).modes)
    two = dict(ec5.single_shear(30, 18, 15, 25, 4, 6000).modes)
    for a, b in ("ab", "cc", "de", "ff"):
        assert one[a] == pytest.approx(two[b])


def test_splitting_and_slip():
    """EN 1995-1-1 (8.4) and table 7.1, as coded in ourocode."""
    assert ec5.splitting(40, 200, 100) == pytest.approx(14 * 40 * sqrt(100 / 0.5))
    assert ec5.slip_modulus(350, 350, 4) == pytest.approx(350**1.5 * 4 / 23)


# American practice -------------------------------------------------------------------------------------------


def test_nds_nail_withdrawal_of_a_solved_problem():
    """AWC solved problem E2.1a as encoded in xcfem/xc, verified: 3619.3 N/m."""
    assert 1000 * us.nds_nail_withdrawal(0.42, 0.131) == pytest.approx(3619.31305943, rel=1e-5)


def test_nds_lag_withdrawal_of_a_solved_problem():
    """AWC solved problem E2.3 as encoded in xcfem/xc, verified: 4247.9 N over 2.1875 in."""
    assert us.nds_lag_withdrawal(0.55, 0.5) * 2.1875 * 25.4 == pytest.approx(4247.9398904, rel=1e-5)


@pytest.mark.parametrize(("G", "D", "pounds"), [(0.73, 0.25, 397), (0.50, 0.375, 305), (0.42, 0.5, 291), (0.5, 1, 636)])
def test_nds_table_of_lag_screws(G, D, pounds):
    """NDS table 12.2A, read on a page that prints it: lb per in."""
    assert us.nds_lag_withdrawal(G, D) / us.N_PER_MM_PER_LB_PER_IN == pytest.approx(pounds, abs=0.6)


def test_nds_nail_across_its_length():
    """xcfem/xc, lateral_design_value_test_01, verified: 467.5 N (105.1 lb), mode IIIs."""
    newtons, mode = us.nds_lateral(0.5, 0.5, 0.148, 0.75, 2.25, 90000)
    assert (newtons, mode) == (pytest.approx(467.488421732, rel=1e-5), "IIIs")


def test_k2_of_the_nds_holds_one_and_twice_re():
    """A trap: one program has (2 + Re) there. Mode IIIm then is not the mirror image of mode IIIs."""

    def least(main, side, G_main, G_side):
        return us.nds_lateral(G_main, G_side, 0.148, side, main, 90000)

    (a, mode_a), (b, mode_b) = least(0.6, 2.0, 0.4, 0.6), least(2.0, 0.6, 0.6, 0.4)
    assert {mode_a, mode_b} == {"IIIm", "IIIs"}
    assert a == pytest.approx(b, rel=1e-9)


def test_wood_screw_of_the_handbook_and_the_nds_side_by_side():
    """Wood Handbook: No. 8 in red oak, 1 in: 1262 lb, second-hand; metric form from memory closes by conversion."""
    assert us.screw_withdrawal(0.70, 0.164 * 25.4, 25.4) / us.N_PER_LB == pytest.approx(1262, abs=2)
    assert us.nds_screw_withdrawal(0.45, 0.19) / us.N_PER_MM_PER_LB_PER_IN == pytest.approx(109, abs=1.0)
    assert us.nds_nail_withdrawal(0.45, 0.203) / us.N_PER_MM_PER_LB_PER_IN == pytest.approx(38, abs=0.5)


def test_nail_withdrawal_in_both_unit_forms():
    """Wood Handbook 8-1: 54.12 G^2.5 D L N and 7,850 G^2.5 D L lb; the exponent is 5/2 (FPL notes 093, 236)."""
    inch = 7850 * 0.5**2.5 * (3.33 / 25.4) * (32 / 25.4) * us.N_PER_LB
    assert us.nail_withdrawal(0.5, 3.33, 32) == pytest.approx(inch, rel=1e-3)
    assert us.nail_withdrawal(0.5, 3.33, 32) == pytest.approx(1019.476, rel=1e-3)


def test_handbook_constants_from_memory_close_with_their_inch_forms():
    """From memory, so held only to the other unit: K 2,655 face and 2,055 edge; lag 8,100 G^1.5 D^0.75 L."""
    for surface, K in (("face", 2655), ("edge", 2055)):
        inch = K * (4 / 25.4) ** 0.5 * ((30 - 4 / 3) / 25.4) ** 1.25 * 0.65**2 * us.N_PER_LB
        assert us.particleboard_screw_withdrawal(0.65, 4, 30, surface) == pytest.approx(inch, rel=0.01)
    inch = 8100 * 0.5**1.5 * (8 / 25.4) ** 0.75 * (40 / 25.4) * us.N_PER_LB
    assert us.lag_withdrawal(0.5, 8, 40) == pytest.approx(inch, rel=0.01)


def test_lateral_constants_close_with_their_inch_forms():
    """From memory, so held only to the other unit: K D^1.5 of nails, K D^2 of screws and lags, G .29 to .42."""
    d = 4 / 25.4
    assert us.lateral_nail(0.4, 4) == pytest.approx(1440 * d**1.5 * us.N_PER_LB, rel=0.01)
    assert us.lateral_screw(0.4, 4) == pytest.approx(3360 * d**2 * us.N_PER_LB, rel=0.01)
    assert us.lateral_lag(0.4, 4) == pytest.approx(3380 * d**2 * us.N_PER_LB, rel=0.01)
    with pytest.raises(ValueError, match="no figure"):
        us.lateral_nail(0.9, 4)


def test_face_holds_more_than_edge_in_particleboard():
    """Yorur et al. 2020, Maderas 22(3), 375-384, verified as a statement."""
    assert us.particleboard_screw_withdrawal(0.65, 4, 30, "face") > us.particleboard_screw_withdrawal(
        0.65, 4, 30, "edge"
    )


def test_failure_is_four_and_a_half_to_six_times_the_allowable():
    """7,850/1,380 = 5.7, 15,700/2,850 = 5.5, 8,100/1,800 = 4.5: never to be mixed."""
    assert us.nail_withdrawal(0.5, 25.4, 1) / us.nds_nail_withdrawal(0.5, 1) == pytest.approx(5.69, abs=0.02)
    assert us.screw_withdrawal(0.5, 25.4, 1) / us.nds_screw_withdrawal(0.5, 1) == pytest.approx(5.51, abs=0.02)


# dowels in case construction ---------------------------------------------------------------------------------


@pytest.mark.parametrize(("D", "pounds"), [(1 / 4, 111.6), (3 / 8, 134.1)])
def test_the_published_moment_of_a_dowelled_corner(D, pounds):
    """Zhang and Eckelman 1993, FPJ 43(6), 19-24, verified in the abstract; evaluated at E = 1/2 in."""
    assert dowel_corner.closing_lb_in(D, 0.5) == pytest.approx(pounds, abs=0.06)


def test_a_corner_is_a_little_stronger_pulled_open_and_grows_with_both_sizes():
    """The same abstract: tension slightly above compression; strength grows with D and with E."""
    for D in (0.25, 0.375):
        for E in (0.375, 0.5, 0.625):
            assert dowel_corner.opening_lb_in(D, E) > dowel_corner.closing_lb_in(D, E)
    assert (
        dowel_corner.closing_lb_in(0.3, 0.6)
        > dowel_corner.closing_lb_in(0.3, 0.5)
        > dowel_corner.closing_lb_in(0.25, 0.5)
    )


def test_outside_what_was_tested_nothing_is_said():
    assert dowel_corner.corner_moment(8, 12, "particleboard") is not None
    for case in (
        (8, 12, "birch plywood"),
        (12, 12, "particleboard"),
        (8, 20, "particleboard"),
        (8, 3, "particleboard"),
    ):
        assert dowel_corner.corner_moment(*case) is None
    assert dowel_corner.dowel_withdrawal(8, 20, "birch plywood", "end") is None
    assert dowel_corner.dowel_withdrawal(8, 20, "particleboard", "end") == pytest.approx(2.82 * 3.14159 * 160, rel=1e-4)
