"""Where a cup may stand: 3 to 8 mm from the door's edge (hinge charts), its middle past the edge of what the door lies over."""

from dataclasses import replace

import pytest

from rodwork.model.fronts import FaceFrame
from tests.building import recipe
from tests.checks.shop import told
from tests.fronts.front_samples import doors, fronted

CODE = "hinge-cup"
FRAME = FaceFrame(
    board="birch18", stile_mm=60.0, rail_mm=38.0, overhang_mm=0.0, above_mm=0.0, below_mm=0.0, rails="between",
    joint=recipe(("pocket screw", {"first_mm": 9.5, "end_mm": 9.5})), fixed=recipe("pocket screw"),
)  # fmt: skip


def framed(over):
    """A door that lies so far over a stile of 60, on a hinge that says it can."""
    words = {"sides": 40.0, "ends": 25.0, "hinge_fixed": (over - 5.0,), "plates": (0.0,)}
    return fronted(doors("left", **words), face_frame=replace(FRAME, stile_mm=40.0 + over))


def with_rim(rim):
    rod = fronted(doors("left"))
    door = rod.cabinets[0].doors[0]
    hinges = tuple(replace(h, rim=rim) for h in door.hinges)
    return replace(rod, cabinets=(replace(rod.cabinets[0], doors=(replace(door, hinges=hinges),)),))


@pytest.mark.parametrize(("over", "number"), [(13.0, 0), (21.0, 0), (22.0, 1), (30.0, 1)])
def test_a_cup_s_middle_is_past_the_stile(over, number):
    """A rim of 5 puts it at 22.5: the door may lie over the stile by 21.5."""
    found = told(CODE, framed(over))
    assert len(found) == number
    assert all(f.severity == "fault" and "no more than 21.5" in f.mend for f in found)


@pytest.mark.parametrize(
    ("rim", "severities"),
    [(8.0, []), (3.0, []), (2.9, ["warning"]), (2.5, ["warning"]), (1.5, ["warning"]), (1.0, ["fault"])],
)
def test_wood_beside_the_cup(rim, severities):
    rod = with_rim(rim)
    hung = rod.cabinets[0].doors[0]
    near = [f for f in told(CODE, rod) if "beside the cup" in f.message]
    assert [f.severity for f in near] == severities
    assert all(hung.door.capitalize() in f.message for f in near)


def test_ordinary_doors_have_nothing_of_it():
    for style in ("overlay", "half overlay", "inset"):
        assert told(CODE, fronted(doors("pair", style=style))) == []
