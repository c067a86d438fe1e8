"""Drawers against hinges, open doors, their handles and their own opening. 12 mm for a plate, 35 for a handle: common practice."""

from dataclasses import replace

import pytest

from rodwork.job.faults import JobFaults
from rodwork.pipeline import set_out
from tests.checks.shop import told
from tests.fronts.front_samples import doors, drawers, fronted
from tests.runs.run_samples import rod_of
from tests.texts import HEAD

CODE = "drawer-against-door"


def two(hung="right", handle=128.0, number=2, **changes):
    """A door before the left bay, drawers in the right one."""
    words = {} if handle is None else {"handle": handle}
    values = {"bays": ("rest", "rest"), "width_mm": 1000.0, "depth_mm": 560.0, **changes}
    return fronted(doors(hung, bays=[1], **words), drawers=drawers(number, bays=[2]), **values)


@pytest.mark.parametrize(
    ("hung", "handle", "told_of"),
    [
        ("right", 128.0, True),  # on the divider beside the drawers, its handle out over them
        ("right", None, False),  # they pass its face by the margin
        ("left", 128.0, False),
        ("pair", 128.0, True),  # its right leaf
        ("up", 128.0, False),
    ],
)
def test_a_handle_over_the_drawers_of_the_next_bay(hung, handle, told_of):
    found = told(CODE, two(hung, handle))
    assert [f.severity for f in found] == ["note"] * told_of
    assert all("its handle, which stands 35 out" in f.message for f in found)


def test_the_mend_is_to_hang_the_door_on_its_other_side():
    (finding,) = told(CODE, two("right"))
    assert finding.mend.startswith("Hang the door on its other side")
    assert told(CODE, two("left")) == []


def test_only_drawers_at_the_height_of_the_handle_and_as_far_out_strike_it():
    """A handle 60 to 188 from the upper end of a base unit's door, as bored: the lower of two drawers is under it."""
    base = two("right", kind="base")
    (finding,) = told(CODE, base)
    assert "drawer 2 front" in finding.where
    assert "drawer 1 front" not in finding.where
    short = [replace(d, travel=300.0) for d in base.cabinets[0].drawers]  # the handle is 430 from the hinges
    assert told(CODE, replace(base, cabinets=(replace(base.cabinets[0], drawers=tuple(short)),))) == []


# --- behind a door: no job file comes to it, so boards are moved by hand ----------------------------------------------


def behind(door_style="overlay", packed=0.0):
    """A door before the opening of drawers that stand 30 back behind it, packed off the left side by so much."""
    made = fronted(doors("left", style=door_style), depth_mm=560.0)
    drawn = fronted(None, drawers=drawers(3, style="inset"), depth_mm=560.0).cabinets[0]

    def moved(part):
        x, y, z = part.pose.origin
        if part.id in {d.front for d in drawn.drawers}:
            return _narrower(replace(part, pose=replace(part.pose, origin=(x, y + 30.0, z))), packed)
        return replace(part, pose=replace(part.pose, origin=(x + packed / 2, y + 30.0, z)))  # it has 13.5 to each side

    ids = {i for d in drawn.drawers for i in (*d.box, d.front)}
    parts = (*made.cabinets[0].parts, *(moved(p) for p in drawn.parts if p.id in ids))
    return replace(made, cabinets=(replace(made.cabinets[0], parts=parts, drawers=drawn.drawers),))


def _narrower(part, by):
    """A front that is less wide by so much at its left, which is the far end of its length."""
    assert part.pose.direction_to_cabinet((1.0, 0.0, 0.0)) == pytest.approx((-1.0, 0.0, 0.0))
    return replace(part, size=(part.size[0] - by, *part.size[1:]))


def test_a_drawer_behind_a_door_runs_out_against_its_hinges():
    """Its front fills the opening but for 2 mm, and the plates stand 12 in."""
    found = told(CODE, behind())
    assert {f.severity for f in found} == {"fault"}
    assert any("runs out against a hinge" in f.message for f in found)


@pytest.mark.parametrize(("packed", "clear"), [(9.0, False), (9.6, True), (10.0, True), (12.0, True)])
def test_packed_off_by_the_plate_it_clears_them(packed, clear):
    """A front 2 mm off the side, packed by 10: 12 off it, as the plate; half a millimetre of brushing is let pass."""
    hinges = [f for f in told(CODE, behind(packed=packed)) if "against a hinge" in f.message]
    assert (hinges == []) is clear


@pytest.mark.parametrize(("packed", "clear"), [(12.0, False), (16.0, True)])
def test_an_inset_door_stands_in_the_way_by_its_thickness(packed, clear):
    """Open it stands 2 + 17.6 - 3 = 16.6 in; a front 2 off the side is packed by 14.6 and clears it."""
    found = [f for f in told(CODE, behind("inset", packed)) if "even open to a right angle" in f.message]
    assert (found == []) is clear


def test_a_box_wider_than_its_opening_meets_a_side():
    made = two("left")
    cabinet = made.cabinets[0]

    def shifted(part):
        x, y, z = part.pose.origin
        return replace(part, pose=replace(part.pose, origin=(x + 20.0, y, z)))

    moved = {"drawer 1 right side"}
    parts = tuple(shifted(p) if p.id in moved else p for p in cabinet.parts)
    (finding,) = told(CODE, replace(made, cabinets=(replace(cabinet, parts=parts),)))
    assert finding.severity == "fault"
    assert "right side" in finding.where
    assert "in an opening of" in finding.message


UNIT = '[cabinets.unit]\nkind = "base"\nwidth = 600\nheight = 720\ndepth = 560\nboard = "birch18"\ndoors = { hung = "pair" }\n'


def test_drawers_behind_doors_are_refused_before_a_check_is_asked():
    with pytest.raises(JobFaults, match="has doors and drawers"):
        set_out(HEAD + UNIT + 'drawers = { number = 2, bottom_board = "birch6", style = "inset" }\n', "it.toml")


# --- along a run ------------------------------------------------------------------------------------------------------

CABINETS = """
[boards.birch6]
material = "birch plywood"
thickness = 6
sheet = [2440, 1220]

[cabinets.bank]
width = 450
drawers = {{ number = 4, bottom_board = "birch6" }}

[cabinets.other]
width = 450
doors = {{ hung = "{hung}", handle = 128 }}
"""


@pytest.mark.parametrize(
    ("of", "hung", "told_of"),
    [
        ("'bank', 'other'", "left", True),
        ("'bank', 'other'", "right", False),
        ("'other', 'bank'", "right", True),
        ("'other', 'bank'", "left", False),
        ("'bank', { infill = 31 }, 'other'", "left", True),  # 31 and two margins of 1.5: 34 of 35
        ("'bank', { infill = 32 }, 'other'", "left", False),
    ],
)
def test_the_handle_of_a_neighbour_s_door(of, hung, told_of):
    rod = rod_of(f"of = [{of}]\nscrews = 'none'\n", CABINETS.format(hung=hung))
    found = told(CODE, rod)
    assert [(f.severity, f.cabinet) for f in found] == [("note", "north")] * told_of
    assert all(f.message.startswith("Door of the other, beside the drawers of the bank: ") for f in found)
