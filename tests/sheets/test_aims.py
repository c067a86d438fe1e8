"""Of layouts that cost the same: an offcut worth keeping first, then few settings, few cuts, short cuts."""

from dataclasses import replace

from rodwork.sheets.aims import aims
from rodwork.sheets.problem import LEVEL, UPRIGHT, Kind, Piece, Problem, Rules, Tree

PROBLEM = Problem(
    pieces=tuple(Piece(name=f"P{n}", wide=4000, high=3000, turn=False) for n in range(4)),
    kinds=(Kind(name="sheet", wide=10000, high=10000, cost=1, copies=None),), rules=Rules(offcut=(2000, 6000)),
)  # fmt: skip


def leaf(wide, high, piece=None):
    return Tree(wide=wide, high=high, piece=piece)


def split(wide, high, cut, *children):
    return Tree(wide=wide, high=high, cut=cut, children=children)


def of(*trees):
    return aims(PROBLEM, tuple((0, tree) for tree in trees))


STRIP = split(10000, 3000, UPRIGHT, leaf(4000, 3000, 0), leaf(4000, 3000, 1), leaf(2000, 3000))
STRIPS = split(10000, 10000, LEVEL, STRIP, STRIP, leaf(10000, 4000))


def test_one_large_offcut_is_worth_more_than_the_same_area_in_two():
    whole = split(10000, 10000, LEVEL, leaf(10000, 2000, 0), leaf(10000, 8000))
    halves = split(10000, 10000, LEVEL, leaf(10000, 2000, 0), leaf(10000, 4000), leaf(10000, 4000))
    assert of(whole)[0] < of(halves)[0] < 0


def test_what_is_too_small_to_keep_is_worth_nothing():
    assert of(split(10000, 10000, LEVEL, leaf(10000, 8500, 0), leaf(10000, 1500)))[0] == 0


def test_settings_cuts_and_their_length_by_hand():
    """Two strips of 300: one setting; in each two boards of 400: one more. Cuts: 2 across 1000, 2 x 2 of 300."""
    _, settings, cuts, length = of(STRIPS)
    assert (settings, cuts, length) == (2, 6, 2 * 10000 + 4 * 3000)


def test_sheets_cut_alike_want_no_more_settings():
    assert of(STRIPS, STRIPS)[1] == of(STRIPS)[1]


def test_fewer_settings_go_before_fewer_cuts():
    odd = replace(STRIP, high=2900, children=tuple(replace(c, high=2900) for c in STRIP.children))
    other = split(10000, 10000, LEVEL, STRIP, odd, leaf(10000, 4100))
    assert of(other)[1] > of(STRIPS)[1]
    assert (0.0, *of(STRIPS)[1:]) < (0.0, *of(other)[1:])
