"""Two doors that open against each other, on one divider or on neighbours of a run. 35 mm for a handle: common practice."""

from dataclasses import replace

import pytest

from tests.checks.shop import told
from tests.fronts.front_samples import doors, fronted
from tests.runs.run_samples import rod_of

CODE = "door-against-neighbour"


def two(hung, **words):
    return fronted(doors(hung, **words), bays=("rest", "rest"), width_mm=900.0)


@pytest.mark.parametrize(
    ("hung", "words", "told_of"),
    [
        (("right", "left"), {"handle": 128.0}, True),
        (("right", "left"), {}, False),  # no handle: they stand back to back
        (("left", "right"), {"handle": 128.0}, False),  # hinged on the sides
        (("right", "right"), {"handle": 128.0}, False),
    ],
)
def test_doors_that_open_against_each_other(hung, words, told_of):
    assert [f.severity for f in told(CODE, two(hung, **words))] == (["warning"] if told_of else [])


def moved(made, by, handle_up=0.0):
    """The second door stood further to the right, its handle higher."""
    cabinet = made.cabinets[0]
    door = cabinet.part["door 2"]
    x, y, z = door.pose.origin
    up = door.pose.direction_to_part((0.0, 0.0, handle_up))
    raised = [
        replace(f, at=tuple(a + u for a, u in zip(f.at, up, strict=True))) if f.role == "handle" else f
        for f in door.features
    ]
    door = replace(door, pose=replace(door.pose, origin=(x + by, y, z)), features=tuple(raised))
    parts = tuple(door if p.id == "door 2" else p for p in cabinet.parts)
    return replace(made, cabinets=(replace(cabinet, parts=parts),))


@pytest.mark.parametrize(
    ("room", "up", "wants"),
    [
        (34.9, 0.0, 70), (69.9, 0.0, 70), (70.0, 0.0, None),  # handle against handle
        (34.9, 200.0, 35), (35.0, 200.0, None),  # each against the other's door
        (69.9, 140.0, 70), (69.9, 149.0, None),  # bores 128 apart and 10 more at each end: 148
    ],
)  # fmt: skip
def test_handles_at_one_height_want_room_for_both(room, up, wants):
    found = told(CODE, moved(two(("right", "left"), handle=128.0), room - 3.0, up))
    assert [f"want {wants}" in f.message for f in found] == ([] if wants is None else [True])


def test_the_mends_on_a_divider():
    (finding,) = told(CODE, moved(two(("right", "left"), handle=128.0), 40.0))
    assert "set the handles at different heights" in finding.mend
    assert told(CODE, moved(two(("right", "left"), handle=128.0), 40.0, 160.0)) == []
    (close,) = told(CODE, two(("right", "left"), handle=128.0))
    assert "heights" not in close.mend  # 3 apart, it would not help
    assert told(CODE, two(("right", "right"), handle=128.0)) == []


# --- along a run --------------------------------------------------------------------------------------------

CABINETS = """
[cabinets.one]
width = 450
doors = {{ hung = "{one}", handle = 128 }}

[cabinets.other]
width = 450
doors = {{ hung = "{other}"{handle} }}
"""


def row(one, other, between="", handle=", handle = 128"):
    return rod_of(
        f"of = ['one', {between}'other']\nscrews = 'none'\n", CABINETS.format(one=one, other=other, handle=handle)
    )


@pytest.mark.parametrize(
    ("one", "other", "between", "handle", "wants"),
    [
        ("right", "left", "", ", handle = 128", 70),
        ("right", "left", "", "", 35),
        ("pair", "pair", "", ", handle = 128", 70),
        ("left", "left", "", ", handle = 128", None),
        ("right", "right", "", ", handle = 128", None),
        ("left", "right", "", ", handle = 128", None),
        ("up", "left", "", ", handle = 128", None),
        ("right", "left", "{ infill = 60 }, ", ", handle = 128", 70),  # 60 and two margins of 1.5
        ("right", "left", "{ infill = 67 }, ", ", handle = 128", None),
        ("right", "left", "{ infill = 31 }, ", "", 35),
        ("right", "left", "{ infill = 32 }, ", "", None),
        ("right", "left", "{ gap = 602, for = 'drier' }, ", ", handle = 128", None),
    ],
)
def test_doors_of_neighbours_that_open_against_each_other(one, other, between, handle, wants):
    found = told(CODE, row(one, other, between, handle))
    assert [f.severity for f in found] == ([] if wants is None else ["note"])
    assert all(f.message.endswith(f" {wants}.") for f in found)


def test_equal_neighbours_are_told_once():
    same = CABINETS.format(one="pair", other="left", handle="").replace("width = 450", "width = 450\ncount = 3")
    found = told(CODE, rod_of("of = ['one', 'one', 'one']\nscrews = 'none'\n", same))
    assert [f.message for f in found] == [
        "Right door of the one and left door of the one, beside each other: opened together they stand 3 apart, and their "
        "handles want 70."
    ]


def test_two_pairs_are_not_told_to_hang_a_leaf_the_other_way():
    """Of a pair no leaf can be: both stand between a side or divider and the other leaf."""
    (finding,) = told(CODE, two("pair", handle=128.0))
    assert finding.severity == "warning"
    assert finding.mend.startswith("Fit stops")
    (single,) = told(CODE, two(("right", "left"), handle=128.0))
    assert "the other way" in single.mend
