"""Doors by the trade's arithmetic. Margins: British lay-on practice, common practice, no source. Hinges: overlay =
fixed + rim - plate, cup 35 at rim + 17.5, screws 45 apart and 9.5 behind, plates 37 back: the practice of hinge charts."""

from dataclasses import replace

import pytest

from rodwork.carcass.hinges import guided
from rodwork.documents.spreadsheets import supplier_table
from rodwork.job.faults import JobFaults
from rodwork.model.job import CabinetEdging, CannotBuild
from rodwork.pipeline import set_out
from rodwork.setout.proof import prove
from tests.building import cabinet, job, rod_of
from tests.fronts.front_samples import box_of, doors, fronted
from tests.texts import HEAD, board


def only(rod):
    return rod.cabinets[0]


def at(part, id):
    return part.pose.to_cabinet(next(f for f in part.features if f.id == id).at)


def test_a_pair_on_600_is_297_each_and_717_high():
    """1.5 outside each, 3 between, 1.5 above and below; 715 with 2.5: common practice, no source."""
    c = only(fronted(doors("pair")))
    assert [c.part[n].size[:2] for n in ("left door", "right door")] == [(717.0, 297.0)] * 2
    assert only(fronted(doors("pair", ends=2.5))).part["left door"].size[0] == 715.0


def test_published_margins_in_inches():
    """A 24 in unit loses 1/4 in to its pair: 3/32 outside each and 1/16 between (a published door chart, second-hand)."""
    inch = 25.4
    margins = {"sides": 3 / 32 * inch, "between": 1 / 16 * inch}
    c = only(fronted(doors("pair", **margins), width_mm=24 * inch))
    wide = [c.part[n].size[1] for n in ("left door", "right door")]
    assert sum(wide) == pytest.approx((24 - 1 / 4) * inch, abs=1e-6)


def test_inset_doors_are_the_opening_less_their_margins():
    c = only(fronted(doors("pair", style="inset")))
    clear_w, clear_h = 600 - 2 * 17.6, 720 - 2 * 17.6
    for name in ("left door", "right door"):
        assert c.part[name].size[:2] == pytest.approx((clear_h - 4, (clear_w - 4 - 2) / 2))
        assert box_of(c.part[name])[0][1] == 0.0  # flush with the front


def test_the_frame_of_a_door():
    """Inside up on the bench, the hinged edge towards you, x up the grain."""
    c = only(fronted(doors("pair")))
    for name, toward in (("left door", (-1.0, 0.0, 0.0)), ("right door", (1.0, 0.0, 0.0))):
        pose = c.part[name].pose
        assert pose.direction_to_cabinet((0.0, 0.0, 1.0)) == (0.0, 1.0, 0.0)
        assert pose.direction_to_cabinet((0.0, -1.0, 0.0)) == toward
        assert not c.part[name].in_box


@pytest.mark.parametrize("hung", ["left", "right", "up"])
@pytest.mark.parametrize("style", ["overlay", "half overlay", "inset"])
def test_a_hinge_holds_its_door_where_the_margins_want_it(hung, style):
    rod = fronted(doors(hung, style=style), height_mm=500.0, kind="base")
    (door,) = only(rod).doors
    part = only(rod).part[door.door]
    axis, sign = {"left": (0, -1), "right": (0, 1), "up": (2, 1)}[hung]
    for hinge in door.hinges:
        edge = box_of(part)[sign > 0][axis]
        face = at(only(rod).part[hinge.carrier], hinge.plate[0])
        cup = at(part, hinge.cup)
        rim = (edge - cup[axis]) * sign - 17.5
        overlay = (edge - face[axis]) * sign
        assert 3 <= rim <= 8
        assert hinge.fixed + rim - hinge.plate_height == pytest.approx(overlay, abs=0.25 + 1e-9)  # half a fence step
        assert face[1] == pytest.approx(37 + (17.6 if style == "inset" else 0))
        assert cup[1] == pytest.approx(box_of(part)[1][1])
    assert prove(rod) == ()


def test_cup_and_plate_stand_at_one_height_and_the_cup_screws_by_the_chart():
    c = only(fronted(doors("left")))
    (door,) = c.doors
    for h in door.hinges:
        cup = at(c.part["door"], h.cup)
        plates = [at(c.part["left side"], p)[2] for p in h.plate]
        assert plates == pytest.approx([cup[2] - 16, cup[2] + 16])
        screws = [at(c.part["door"], f"{h.cup} screw {x}") for x in "ab"]
        assert [s[2] - cup[2] for s in screws] == pytest.approx([-22.5, 22.5])
        assert [s[0] - cup[0] for s in screws] == pytest.approx([9.5, 9.5])


@pytest.mark.parametrize(
    ("inches", "pounds", "number"), [(40, 15, 2), (60, 15, 3), (40, 30, 3), (80, 45, 4), (100, 60, 5), (101, 10, None)]
)
def test_number_of_hinges_by_the_published_guide(inches, pounds, number):
    """Hinge chart of practice, read second-hand, maker's name withheld."""
    assert guided(inches * 25.4 - 1e-9, pounds * 0.45359237 - 0.05) == number


def test_outer_hinges_keep_80_to_100_from_the_ends_and_clear_of_a_shelf():
    """A shelf 94 to 112 up the side is where a hinge would come at 100: it moves, or is told of."""
    c = only(fronted(doors("left", openings=2), openings=(100.0, "rest"), loose_shelves=(0, 0)))
    part = c.part["door"]
    cups = sorted(at(part, h.cup)[2] - 1.5 for h in c.doors[0].hinges)
    assert 717 - cups[-1] == 100
    assert 80 <= cups[0] <= 100


def test_a_hinge_moves_off_a_row_of_shelf_pins():
    rod = fronted(doors("left"), loose_shelves=(2,))
    side = only(rod).part["left side"]
    pins = [f.at for f in side.features if f.role == "shelf_pin"]
    plates = [f.at for f in side.features if f.role == "hinge"]
    assert pins
    assert plates
    for a in plates:
        for b in pins:
            assert ((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5 >= 8.0


@pytest.mark.parametrize(("actual", "deep"), [(17.6, 12.0), (15.0, 12.0), (14.7, 11.5), (12.0, 9.0)])
def test_plates_in_thin_board_are_bored_less_deep(actual, deep):
    """15 mm plywood measures 14.7: bores of 12 would leave 2.7 of it, and 3 is the least (common practice)."""
    made = job(
        cabinet(openings=("rest",), loose_shelves=(0,), edging=None, doors=replace(doors("pair"), board="front")),
        thickness=actual,
    )  # fmt: skip
    front = replace(made.boards["birch18"], name="front", actual_mm=18.0)
    rod = rod_of(replace(made, boards={**made.boards, "front": front}))
    assert {f.depth for f in only(rod).part["left side"].features if f.role == "hinge"} == {deep}
    assert [f.message for f in rod.findings if f.code == "near-far-face" and "inside: a bore" in f.message] == []


def test_hinges_and_handles_are_on_the_buying_list():
    hardware = {i.item: i.count for i in only(fronted(doors("pair", handle=128.0))).hardware}
    assert hardware == {"cup hinge 35 mm, fixed distance 11, plate 0": 4, "handle": 2}


def test_handle_bores_come_from_the_free_edge_and_go_through():
    c = only(fronted(doors("left", handle=128.0), kind="wall"))
    bores = [f for f in c.part["door"].features if f.role == "handle"]
    assert [f.through for f in bores] == [True, True]
    low, high = box_of(c.part["door"])
    points = [c.part["door"].pose.to_cabinet(f.at) for f in bores]
    assert [p[0] for p in points] == pytest.approx([high[0] - 40] * 2)
    assert [p[2] for p in points] == pytest.approx([low[2] + 60, low[2] + 60 + 128])


@pytest.mark.parametrize(
    ("height", "words", "middle"),
    [
        (720.0, {}, 720 - 1.5 - 60 - 64),  # near the upper end of a base unit
        (2000.0, {}, 1000.0),  # and of a tall one where a hand finds it
        (2000.0, {"handle_from_end": 60.0}, 2000 - 1.5 - 60 - 64),  # unless it is asked for
    ],
)
def test_a_handle_stands_near_the_upper_end_or_within_reach_on_a_tall_door(height, words, middle):
    """Common practice, no source."""
    c = only(fronted(doors("left", handle=128.0, **words), kind="tall", height_mm=height))
    bores = [c.part["door"].pose.to_cabinet(f.at)[2] for f in c.part["door"].features if f.role == "handle"]
    assert sum(bores) / 2 == pytest.approx(middle)


def test_a_door_that_begins_above_reach_has_its_handle_near_its_lower_end():
    """Common practice, no source."""
    high_up = replace(doors("left", handle=128.0), openings=(2, 2))
    c = only(fronted(high_up, kind="tall", height_mm=2100.0, openings=(1400.0, "rest"), loose_shelves=(0, 0)))
    (door,) = [p for p in c.parts if p.role == "door"]
    bores = [door.pose.to_cabinet(f.at)[2] for f in door.features if f.role == "handle"]
    assert sum(bores) / 2 == pytest.approx(box_of(door)[0][2] + 60 + 64)


@pytest.mark.parametrize(
    ("front", "changes", "says"),
    [
        (doors(("left", "right")), {}, "there are 1 bays"),
        (doors("pair", sides=40.0, between=40.0), {"width_mm": 230.0}, "a door would be"),
        (doors("left", hinge_fixed=(30.0,)), {}, "no hinge and plate"),
        (doors("left", cup_depth=17.0), {}, "too thin for a cup"),
        (doors("left", style="inset"), {"loose_shelves": (1,)}, "would shut on shelves"),
        (doors("left"), {"height_mm": 200.0}, "too short for two hinges"),
        (replace(doors("left"), openings=(1, 2)), {}, "over openings 1 to 2"),
    ],
)
def test_what_cannot_be_hung_is_refused_with_a_way_to_mend_it(front, changes, says):
    with pytest.raises(CannotBuild) as refused:
        fronted(front, **changes)
    assert says in str(refused.value)
    assert refused.value.mend
    assert refused.value.path[:2] == ("cabinets", "glaze")


def test_over_a_thick_side_the_margin_that_is_named_lets_the_hinges_reach():
    """22 less 1.5 is 20.5; a straight hinge of 11 with a rim of 8 reaches 19: a plate only brings the door back."""
    thick = f"{HEAD}{board('ply22', 22, 22)}[cabinets.it]\nwidth = 600\nheight = 720\ndepth = 320\nboard = 'ply22'\n"
    with pytest.raises(JobFaults) as refused:
        set_out(thick + 'doors = { hung = "left" }\n', "it.toml")
    assert "sides 1.5 mm larger under doors" in str(refused.value)
    assert "other plates" not in str(refused.value)
    (door,) = set_out(thick + 'doors = { hung = "left", sides = 3 }\n', "it.toml").cabinets[0].doors
    assert door.hinges[0].overlay == 19.0


def moved(rod, id, by):
    """The same set-out, one number of one bore moved in the settings list and in the board."""
    setups = []
    for s in rod.setups:
        features = tuple(
            replace(f, along=replace(f.along, mm=round(f.along.mm + by, 6))) if f.feature == id and f.along else f
            for f in s.features
        )
        stop = (
            tuple(sorted({*s.stop, *(f.along.mm for f in features if f.feature == id)}))
            if s.stop != "marks"
            else s.stop
        )
        setups.append(replace(s, features=features, stop=stop))
    parts = []
    for p in only(rod).parts:
        entry = next((f for s in setups for f in s.features if f.feature == id and f.part == p.id), None)
        if entry:
            way = -by if entry.along.from_surface == "right_end" else by
            p = replace(
                p, features=tuple(replace(f, at=(f.at[0] + way, *f.at[1:])) if f.id == id else f for f in p.features)
            )
        parts.append(p)
    return replace(rod, setups=tuple(setups), cabinets=(replace(only(rod), parts=tuple(parts)),))


def test_the_proof_finds_a_cup_that_does_not_meet_its_plate():
    rod = fronted(doors("left"))
    assert prove(rod) == ()
    hinge = only(rod).doors[0].hinges[0]
    causes = {(f.cause, f.part) for f in prove(moved(rod, hinge.cup, 3.0))}
    assert ("pair", "door") in causes


def test_the_proof_finds_a_cup_set_from_the_free_edge():
    rod = fronted(doors("left"))
    (door,) = only(rod).doors
    wrong = replace(rod, cabinets=(replace(only(rod), doors=(replace(door, hinged="right"),)),))
    assert any(f.cause == "datum" and "hinged edge" in f.message for f in prove(wrong))


def test_a_supplier_who_cuts_and_edges_is_told_finished_sizes_grain_first_and_edges():
    rod = fronted(doors("pair"), edging=CabinetEdging(edging="birch", on=("doors",)))
    table = supplier_table(rod)
    (row,) = [dict(zip(table.header, r, strict=True)) for r in table.rows if "G1-DRL" in r[0]]
    assert (row["how many"], row["length (grain)"], row["width"], row["thickness"]) == (2, 717.0, 297.0, 17.6)
    assert row["edging"] == "birch"
    assert len(row["edges"].split(", ")) == 4
    assert {m for r in table.rows for m in r[0].split(", ")} == {m for p in only(rod).parts for m in p.marks}


def bought(hung="left", width=596.0, edge=22.5, **changes):
    door = {"height": 715.0, "width": width, "cups_from_ends": 98.0, "cups_from_edge": edge}
    in_job = job(cabinet(openings=("rest",), loose_shelves=(0,), edging=None, **changes,
                         doors=replace(doors(hung, bought=door), board="bought22")))  # fmt: skip
    boards = {**in_job.boards, "bought22": replace(in_job.boards["birch18"], name="bought22", actual_mm=22.0)}
    return rod_of(replace(in_job, boards=boards))


def test_the_plates_stand_where_the_cups_of_a_bought_door_are():
    """A bought door of 715 x 596 x 22 with cups 98 in from each end, on a cabinet of 600 x 720: plates at 100.5 and 619.5."""
    rod = bought()
    c = only(rod)
    assert c.part["door"].size == (715.0, 596.0, 22.0)
    heights = sorted(at(c.part["left side"], p)[2] for h in c.doors[0].hinges for p in h.plate)
    assert heights == pytest.approx([100.5 - 16, 100.5 + 16, 619.5 - 16, 619.5 + 16])
    assert prove(rod) == ()
    assert not any(f.part == "door" for s in rod.setups for f in s.features)
    assert {i.item for i in c.hardware} == {
        "door 715 x 596 x 22, cups 98 from its ends",
        "cup hinge 35 mm, fixed distance 11, plate 0",
    }


@pytest.mark.parametrize(("changes", "says"), [({"width": 500.0}, "leave 50"), ({"edge": 18.0}, "come nearer than")])
def test_a_bought_door_that_does_not_go_on_is_refused(changes, says):
    with pytest.raises(CannotBuild, match=says):
        bought(**changes)


def test_the_proof_finds_a_plate_that_misses_a_bought_cup():
    rod = bought()
    door = only(rod).part["door"]
    cup = only(rod).doors[0].hinges[0].cup
    bored = tuple(replace(f, at=(f.at[0] + 2.0, *f.at[1:])) if f.id == cup else f for f in door.features)
    parts = tuple(replace(p, features=bored) if p.id == "door" else p for p in only(rod).parts)
    assert [f.cause for f in prove(replace(rod, cabinets=(replace(only(rod), parts=parts),)))] == ["pair"]
