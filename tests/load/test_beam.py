"""Beams against published cases and against two finite-element libraries (sources beside each)."""

import random
from itertools import pairwise

import pytest

from rodwork.load.beam import Beam, NotHeld, PointLoad, Support, bend
from rodwork.load.section import Strip, section
from tests.load.referees import by_anastruct, by_pynite

EI = 2500 * 300 * 18**3 / 12  # the MDF association's example: 300 x 18 of E 2500
W = 20 * 9.81 / 800  # 20 kg on 800


def beam(length, places, even=0.0, points=(), springs=None, bending=EI, shear=None):
    return Beam(
        length_mm=length, bending_Nmm2=bending, shear_N=shear, even_N_per_mm=even,
        supports=tuple(Support(at_mm=x, turning_Nmm_per_rad=k) for x, k in zip(places, springs or [0.0] * len(places), strict=True)),
        points=tuple(PointLoad(at_mm=x, N=force) for x, force in points),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("case", "sag", "source"),
    [
        (beam(800, (0, 800), W), 3.588477, "mdf-info.eu, MDF shelves: 5 W L^3 g/(32 E b t^3), verified"),
        (beam(600, (0, 600), 20 * 9.81 / 600), 1.513889, "the same formula"),
        (beam(800, (0, 800), points=((400, 196.2),)), 5.741564, "P L^3/48EI: 8/5 of the even load"),
        (beam(1600, (0, 800, 1600), W), 1.492656, "two spans, exact: wL^4/184.6EI; wL^4/185EI is 0.2 % low"),
        (beam(800, (0, 800), W, springs=(1e16, 1e16)), 3.588477 / 5, "built in: wL^4/384EI"),
        (beam(800, (0,), W, springs=(1e16,)), W * 800**4 / 8 / EI, "cantilever: wL^4/8EI"),
    ],
)
def test_sag_of_published_cases(case, sag, source):
    assert bend(case).sag_mm == pytest.approx(sag, rel=2e-6), source


def test_two_spans_take_five_quarters_of_a_span_in_the_middle_and_an_eighth_of_its_moment():
    """R = 1.25 wL = 245.25 N, M = wL^2/8 = 19620 N mm: any handbook of beams; PyNiteFEA agrees."""
    found = bend(beam(1600, (0, 800, 1600), W))
    assert found.reactions_N[1] == pytest.approx(245.25, rel=1e-9)
    assert found.moment_Nmm == pytest.approx(19620.0, rel=1e-9)
    assert min(found.sag_at_mm, 1600 - found.sag_at_mm) == pytest.approx(0.4215 * 800, abs=0.1)


def test_the_rounded_handbook_form_of_two_spans_is_a_trap():
    assert bend(beam(1600, (0, 800, 1600), W)).sag_mm / (W * 800**4 / 185 / EI) == pytest.approx(1.002, abs=3e-4)


def test_shear_adds_an_eighth_of_wl_over_ga():
    """Wood Handbook FPL-GTR-190, eq. 9-2: 5/384 W L^3/EI + 1/8 W L/GA'."""
    GA = 160 * 300 * 18 * 5 / 6
    assert bend(beam(800, (0, 800), W, shear=GA)).sag_mm == pytest.approx(3.588477 + W * 800**2 / 8 / GA, rel=1e-6)


@pytest.mark.parametrize("places", [(), (0,), (300,), (0, 0)])
def test_what_is_not_held_is_said_and_not_reckoned(places):
    with pytest.raises(NotHeld):
        bend(beam(800, places, W))


def random_case(seed):
    """A stiffened shelf over two to four supports, evenly and singly loaded, some of its ends held from turning."""
    at = random.Random(seed)
    length = at.uniform(400, 2400)
    inner = [at.uniform(0.2, 0.8) * length for _ in range(at.choice((0, 0, 1, 2)))]
    places = [0.0, *sorted(inner), length]
    if any(b - a < 60 for a, b in pairwise(places)):
        places = [0.0, length]
    board = Strip(
        width_mm=at.uniform(150, 600), height_mm=at.uniform(12, 30), middle_mm=0.0,
        stiffness_N_per_mm2=at.uniform(1200, 11000), shear_N_per_mm2=None, strength_N_per_mm2=None,
    )  # fmt: skip
    deep = at.uniform(20, 100)
    under = Strip(
        width_mm=at.uniform(12, 30), height_mm=deep, middle_mm=-(board.height_mm + deep) / 2,
        stiffness_N_per_mm2=at.uniform(1200, 11000), shear_N_per_mm2=None, strength_N_per_mm2=None,
    )  # fmt: skip
    strips = [board, under] if at.random() < 0.7 else [board]
    points = [(at.uniform(0.05, 0.95) * length, at.uniform(10, 400))] if at.random() < 0.5 else []
    springs = [at.uniform(1e5, 1e8) if at.random() < 0.3 else 0.0 for _ in places]
    return strips, length, places, at.uniform(0.05, 2.0), points, springs


def by_hand(strips):
    """EI of strips by another way: second moments about the foot of all, moved to the axis at the end."""
    first = sum(s.stiffness_N_per_mm2 * s.width_mm * s.height_mm * s.middle_mm for s in strips)
    second = sum(
        s.stiffness_N_per_mm2
        * s.width_mm
        * ((s.middle_mm + s.height_mm / 2) ** 3 - (s.middle_mm - s.height_mm / 2) ** 3)
        / 3
        for s in strips
    )
    return second - first**2 / sum(s.stiffness_N_per_mm2 * s.width_mm * s.height_mm for s in strips)


@pytest.mark.parametrize("tens", range(20))
def test_200_random_stiffened_shelves_agree_with_two_finite_element_libraries(tens):
    """Within 0.1 %: sag, reactions and moment by PyNiteFEA; where no end is held from turning, by anastruct too."""
    for seed in range(10 * tens, 10 * tens + 10):
        strips, length, places, even, points, springs = random_case(seed)
        made = section(strips)
        assert made.bending_Nmm2 == pytest.approx(by_hand(strips), rel=1e-9)
        found = bend(beam(length, places, even, points, springs, bending=made.bending_Nmm2))
        sag, reactions, moment = by_pynite(places, length, made.bending_Nmm2, even, points, springs, found.sag_at_mm)
        assert found.sag_mm == pytest.approx(sag, rel=1e-3), seed
        assert found.moment_Nmm == pytest.approx(moment, rel=1e-3), seed
        assert found.reactions_N == pytest.approx(reactions, rel=1e-3, abs=1e-3 * even * length), seed
        if not any(springs):
            sag, reactions = by_anastruct(places, length, made.bending_Nmm2, even, points, found.sag_at_mm)
            assert found.sag_mm == pytest.approx(sag, rel=1e-3), seed
            assert found.reactions_N == pytest.approx(reactions, rel=1e-3, abs=1e-3 * even * length), seed


def test_pushes_of_the_supports_balance_the_load_to_1e_9():
    for seed in range(200):
        strips, length, places, even, points, springs = random_case(seed)
        found = bend(beam(length, places, even, points, springs, bending=section(strips).bending_Nmm2))
        total = even * length + sum(force for _, force in points)
        assert sum(found.reactions_N) == pytest.approx(total, rel=1e-9)
