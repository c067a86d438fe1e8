"""Weights and centres: school geometry, the solid's own mesh, and laws over cabinets of the whole vocabulary."""

from dataclasses import replace
from math import radians, tan

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodwork.documents.solids import part_mesh
from rodwork.geometry.prismatoid import moments, volume_and_centre
from rodwork.model.feature import Cutout
from rodwork.model.rod import Rod
from rodwork.model.weight import weight_of
from rodwork.setout.weights import weighed
from tests.building import back, rod
from tests.geometry.sample_boards import DOWN, X, board
from tests.laws.vocabulary import jobs

SQUARE = ((0.0, 0.0), (600.0, 0.0), (600.0, 300.0), (0.0, 300.0))


def mesh_volume_and_centre(part):
    """By tetrahedra from the origin to every triangle of the closed mesh: independent of outline and bevel."""
    mesh = part_mesh(part)
    a, b, c = np.array(mesh.points)[np.array(mesh.triangles)].swapaxes(0, 1)
    volumes = np.einsum("ij,ij->i", a, np.cross(b, c)) / 6
    return volumes.sum(), (volumes[:, None] * (a + b + c) / 4).sum(axis=0) / volumes.sum()


def cut_out(*polygon):
    return Cutout(
        id="cut", role="service", at=(0.0, 0.0, 18.0), into=DOWN, along=X, depth=18.0, width=1.0, length=1.0,
        ends="round", end_radius=0.0, polygon=polygon,
    )  # fmt: skip


def test_a_triangle_has_its_centre_at_a_third():
    area, along, across = moments(((0.0, 0.0), (300.0, 0.0), (0.0, 90.0)))
    assert (area, along / area, across / area) == pytest.approx((13500.0, 100.0, 30.0))


def test_a_wedge_of_45_degrees_by_hand():
    """A strip 100 long and 20 thick, its far edge bevelled at 45 from 60 at the face to 80 at the back.

    60 x 20 of square section with its middle at (30, 10), and a triangle of 20 x 20 / 2 with its at (60 + 20/3, 20/3).
    """
    outline = ((0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0))
    volume, centre = volume_and_centre(outline, (0.0, 0.0, 45.0, 0.0), 20.0)
    assert volume == pytest.approx(100 * (1200 + 200))
    assert centre == pytest.approx((50.0, (1200 * 30 + 200 * (60 + 20 / 3)) / 1400, (1200 * 10 + 200 * 20 / 3) / 1400))


def test_a_frustum_of_a_pyramid_by_its_textbook_formula():
    """h/3 (A + B + sqrt(AB)): Euclid's, as every book of solid geometry has it; all four edges bevelled at 30."""
    size, t = 200.0, 18.0
    grown = size + 2 * t * tan(radians(30))
    volume, centre = volume_and_centre(
        ((0.0, 0.0), (size, 0.0), (size, size), (0.0, size)), (30.0,) * 4, t
    )  # fmt: skip
    assert volume == pytest.approx(t / 3 * (size**2 + grown**2 + size * grown))
    a, b = grown, size  # the centre of a frustum: h/4 (A + 2 sqrt(AB) + 3B) / (A + sqrt(AB) + B) from its larger face
    assert centre[2] == pytest.approx(t / 4 * (a**2 + 2 * a * b + 3 * b**2) / (a**2 + a * b + b**2))
    assert centre[:2] == pytest.approx((100.0, 100.0))


def test_a_cut_out_moves_the_centre_away_from_itself_whichever_way_it_runs_round():
    hole = ((400.0, 100.0), (500.0, 100.0), (500.0, 200.0), (400.0, 200.0))
    for polygon in (hole, hole[::-1]):
        found = weight_of(board(), 700.0, (cut_out(*polygon),))
        assert found.kg == pytest.approx((180000 - 10000) * 18 * 700e-9, abs=1e-6)
        assert found.centre == pytest.approx(((180000 * 300 - 10000 * 450) / 170000, 150.0, 9.0))


@st.composite
def shaped_boards(draw):
    """Boards of three to six corners off square, notched or not, with edges bevelled either way."""
    x = st.integers(0, 80)
    top, right, left = draw(x), draw(x), draw(x)
    outline = [(0.0, 0.0), (600.0, 0.0), (600.0 - right, 300.0), (float(left), 300.0 - top)]
    if draw(st.booleans()):
        outline = [(0.0, 40.0), (60.0, 40.0), (60.0, 0.0), *outline[1:]]
        bevels = (0.0, 0.0, *draw(st.tuples(*[st.sampled_from([0.0, 12.5, 45.0, -30.0])] * 3)), 0.0)
        return board(outline=outline, bevels=bevels)
    return board(outline=outline, bevels=draw(st.tuples(*[st.sampled_from([0.0, 12.5, 45.0, -30.0])] * 4)))


@given(shaped_boards())
def test_weight_and_centre_are_those_of_the_solid_s_own_mesh(part):
    volume, centre = mesh_volume_and_centre(part)
    found = weight_of(part, 1e9)
    assert found.kg == pytest.approx(volume, rel=1e-9)
    assert found.centre == pytest.approx(tuple(centre), abs=1e-5)


@given(jobs())
@settings(max_examples=25)
def test_every_board_of_any_cabinet_weighs_what_its_solid_does_but_for_what_dowels_and_fittings_fill(drawn):
    """The unmachined solid to a millionth; the machined one is lighter, and never by as much as 6 in 100 of the unit."""
    for cabinet in (c for c in drawn.rod.cabinets if c.parts):
        heavier = machined = corners = 0.0
        for part in cabinet.whole_boards:
            cut_outs = tuple(f for f in part.features if isinstance(f, Cutout))
            volume, _ = mesh_volume_and_centre(replace(part, features=cut_outs))
            rounded = sum(4 * f.end_radius**2 for f in cut_outs) * part.size[2]  # what the cutter leaves in corners
            density = drawn.rod.boards[part.board].density_kg_m3
            oak = sum(
                mesh_volume_and_centre(strip)[0] * (drawn.rod.boards[strip.board].density_kg_m3 - density) * 1e-9
                for strip in cabinet.lippings.get(part.id, ())
            )  # more than the board's own wood would weigh there
            machined += oak
            assert part.weight.kg == pytest.approx(volume * density * 1e-9 + oak, abs=rounded * density * 1e-9 + 2e-6)
            heavier += part.weight.kg
            corners += rounded * density * 1e-9
            machined += mesh_volume_and_centre(part)[0] * density * 1e-9
        assert cabinet.weight.kg == pytest.approx(heavier, abs=1e-5)
        assert machined - corners - 1e-5 <= heavier <= 1.06 * machined


def test_the_centre_of_a_symmetrical_unit_is_in_its_middle():
    found = rod(back=back()).cabinets[0]
    assert found.weight.centre[0] == pytest.approx(300.0, abs=1e-6)
    bare = rod(back=None, openings=("rest",), loose_shelves=(0,), edging=None).cabinets[0]
    assert bare.weight.centre == pytest.approx((300.0, 160.0, 360.0), abs=1e-6)


def test_a_handed_unit_and_its_mirror_image_balance_in_mirrored_places():
    left, right = (rod(bays=bays).cabinets[0] for bays in ((150.0, "rest"), ("rest", 150.0)))
    assert left.weight.kg == pytest.approx(right.weight.kg)
    assert left.weight.centre[0] == pytest.approx(600.0 - right.weight.centre[0], abs=1e-5)
    assert left.weight.centre[0] < 299.0
    assert left.weight.centre[1:] == pytest.approx(right.weight.centre[1:])


def test_a_board_without_a_density_leaves_its_own_weight_and_the_unit_s_open():
    made = rod()
    boards = {**made.boards, "birch6": replace(made.boards["birch6"], density_kg_m3=None)}
    cabinet = weighed(replace(made, boards=boards)).cabinets[0]
    assert cabinet.weight is None
    assert [p.id for p in cabinet.parts if p.weight is None] == ["back"]


def test_weights_are_in_the_set_out_as_data_and_come_back():
    data = rod().to_dict()
    part = data["cabinets"][0]["parts"][0]
    assert set(part["weight"]) == {"kg", "centre"}
    assert Rod.from_dict(data).cabinets[0].weight == rod().cabinets[0].weight
