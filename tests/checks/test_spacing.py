"""Too close, too far apart, alone. Four diameters, 256 and 300: common practice, no source (see the page)."""

from dataclasses import replace

import pytest

from tests.building import back, cabinet, job, recipe, rod, rod_of
from tests.checks.shop import BASE, board, bore, rod_of_boards, row, told

CODE = "spacing"


def rows(*stands, law="meet", diameter=8.0, play=0.0, family="dowel", extra=(), **changes):
    """Left side and top with dowels or screws that stand so far from the front."""
    pairs = tuple((u, f"h{n}", f"g{n}", *extra) for n, u in enumerate(stands))
    joint = row(*pairs, law=law, family=family, play=play)
    side = board(
        *(bore(f"h{n}", (9.0, u, 18.0), diameter=diameter, joint=joint.id, **changes) for n, u in enumerate(stands))
    )
    top = replace(
        BASE.cabinets[0].part["top"],
        features=tuple(bore(f"g{n}", (564.8, u, 9.0), into=(-1.0, 0.0, 0.0), diameter=diameter - 1.5 if law == "line" else diameter,
                            joint=joint.id) for n, u in enumerate(stands)),
    )  # fmt: skip
    return rod_of_boards(side, top, joints=(joint,))


@pytest.mark.parametrize(
    ("apart", "severity"), [(32.0, None), (31.9, "warning"), (11.0, "warning"), (10.9, "fault"), (5.0, "fault")]
)
def test_dowels_stand_four_diameters_apart_and_never_with_less_than_three_of_wood(apart, severity):
    found = told(CODE, rows(40.0, 40.0 + apart))
    assert [f.severity for f in found] == ([severity] if severity else [])


def test_a_screw_s_diameter_is_its_clearance_less_its_play():
    """4 mm in a 4.5 bore: 16 apart is enough, or what its head needs."""
    screws = {"law": "line", "diameter": 4.5, "play": 0.25, "family": "screw"}
    assert told(CODE, rows(40.0, 56.0, **screws)) == []
    assert [f.severity for f in told(CODE, rows(40.0, 55.9, **screws))] == ["warning"]


def test_plugs_want_three_of_wood_between_them():
    """3 mm screws would do with 12; their plugs of 10 want 13."""
    plugged = {"law": "line", "diameter": 10.0, "play": 3.5, "family": "screw"}
    assert told(CODE, rows(40.0, 53.0, **plugged)) == []
    (found,) = told(CODE, rows(40.0, 52.9, **plugged))
    assert (found.severity, found.mend) == ("fault", "Stand them at least 13 apart, or take fewer.")


def test_a_dowel_and_a_screw_share_the_rule_between_them():
    joint = row((40.0, "h0", "g0"))
    screw = row((64.0, "h1", "g1"), law="line", family="screw", play=0.25).fixings[0]
    both = replace(joint, fixings=(*joint.fixings, replace(screw, id="2")))
    side = board(bore("h0", (9.0, 40.0, 18.0)), bore("h1", (9.0, 64.0, 18.0), diameter=4.5))
    top = replace(BASE.cabinets[0].part["top"], features=())
    assert told(CODE, rod_of_boards(side, _with(top, ("g0", 8.0), ("g1", 3.0)), joints=(both,))) == []
    nearer = replace(both, fixings=(both.fixings[0], replace(both.fixings[1], at=(17.6, 63.9, 711.0))))
    (found,) = told(CODE, rod_of_boards(side, _with(top, ("g0", 8.0), ("g1", 3.0)), joints=(nearer,)))
    assert "a dowel and a screw stand 23.9 apart, centre to centre: under 24" in found.message


def _with(top, *bores):
    return replace(
        top, features=tuple(bore(i, (564.8, 50.0, 9.0), into=(-1.0, 0.0, 0.0), diameter=d) for i, d in bores)
    )


@pytest.mark.parametrize(("law", "most"), [("meet", 256.0), ("line", 300.0)])
def test_not_too_far_apart(law, most):
    kind = {"law": law, "play": 0.0}
    assert told(CODE, rows(10.0, 10.0 + most, **kind)) == []
    (found,) = told(CODE, rows(10.0, 10.1 + most, **kind))
    assert found.severity == "warning"
    assert f"over {most:g}" in found.message


def test_neighbours_count_and_not_first_and_last():
    assert told(CODE, rows(10.0, 160.0, 310.0)) == []
    assert len(told(CODE, rows(310.0, 10.0, 20.0))) == 2  # in whatever order they are given: 10 apart, then 290


def test_one_alone_does_not_hold_a_board_from_turning():
    (found,) = told(CODE, rows(100.0))
    assert found.severity == "fault"
    assert "one dowel alone lets the board turn about it" in found.message
    (found,) = told(CODE, rows())
    assert "nothing holds it" in found.message
    assert told(CODE, rows(100.0, 200.0)) == []


def test_a_board_let_in_along_its_whole_length_needs_no_row():
    made = rod(shelf_joint=recipe("housing"), depth_mm=600.0)
    assert told(CODE, made) == []
    far = rod(shelf_joint=recipe("housing", ("screw", {"pitch_mm": 400.0})), depth_mm=600.0)
    assert told(CODE, far) == []
    assert len(told(CODE, rod(shelf_joint=recipe(("screw", {"pitch_mm": 400.0})), depth_mm=600.0))) == 1


def test_from_the_job():
    (found,) = told(CODE, rod(corner_joint=recipe(("dowel", {"count": 2})), depth_mm=400.0))
    assert (
        found.message
        == "Left side, right side, top and bottom: two dowels stand 320 apart: over 256 the joint may open between them."
    )
    assert found.mend == "Set one more between them, or lower the pitch to 256 or less."
    (found,) = told(CODE, rod(corner_joint=recipe(("dowel", {"count": 9}))))
    assert found.severity == "warning"
    assert found.mend == "Stand them at least 32 apart, or take fewer."


def test_ordinary_rows_are_sound_at_any_depth():
    for depth in (230.0, 320.0, 450.0, 600.0):
        for joint in (recipe("dowel"), recipe("screw"), recipe(("dowel", {"positions": "evenly"})),
                      recipe(("dowel", {"count": 3 if depth > 450 else 2}), ("screw", {"first_mm": 80.0, "end_mm": 90.0}))):  # fmt: skip
            if depth == 230.0 and len(joint.uses) == 2:
                continue
            made = rod_of(job(cabinet(depth_mm=depth, corner_joint=joint, back=back("planted"))))
            assert told(CODE, made) == [], (depth, joint.name)
