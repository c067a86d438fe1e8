"""What a maker calls the surfaces of a board: by the way it stands; held to the proof, which has words of its own."""

from itertools import permutations, product

import pytest

from rodwork.model.pose import Pose
from rodwork.model.surface import SURFACES
from rodwork.model.words import cabinet_words
from rodwork.setout.proving.stand import Stand
from tests.building import rod
from tests.checks.shop import board

AXES = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


def turns():
    """All 24 ways in which a board can stand square in a cabinet."""
    for order in permutations(range(3)):
        for signs in product((1.0, -1.0), repeat=3):
            rows = tuple(tuple(s * v for v in AXES[i]) for i, s in zip(order, signs, strict=True))
            (a, b, c), (d, e, f), (g, h, i) = rows
            if a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g) > 0:
                yield rows


@pytest.mark.parametrize("role", ["rail", "batten", "plinth board", "lipping", "worktop"])
def test_a_board_of_any_role_has_words_by_the_way_it_stands(role):
    cabinet = rod().cabinets[0]
    assert len(list(turns())) == 24
    for rotation in turns():
        part = board(id="a board", role=role, pose=Pose(rotation=rotation, origin=(0.0, 0.0, 0.0)))
        words = cabinet_words(role, rotation)
        assert len({*words.values()}) == len(SURFACES)
        assert words == Stand(part, cabinet).word


def test_boards_that_shut_something_in_have_an_inside():
    for part in rod().cabinets[0].parts:
        words = cabinet_words(part.role, part.pose.rotation)
        assert (words["face_side"] == "inside") == (part.role in ("side", "top", "bottom")), part.id
    assert cabinet_words("side", rod().cabinets[0].part["left side"].pose.rotation)["left_end"] == "top end"
