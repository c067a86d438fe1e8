"""Laws over random cabinets of the whole vocabulary, read from the text of a job as a maker writes it.

A hundred are drawn for each law in every run, other ones for each. RODWORK_LAWS=2000 in the environment draws so many.
"""

import os
from math import isfinite

import pytest
from hypothesis import HealthCheck, given, settings

from rodwork.checks.kinds.cannot_be_made import CODE as CANNOT
from rodwork.checks.kinds.larger_than_sheet import CODE as TOO_LARGE
from rodwork.job.faults import JobFaults
from rodwork.pipeline import cutting, dry_fit, load, set_out
from rodwork.setout.proof import prove
from tests.fronts.front_samples import box_of, foul, strikes_slope, swung
from tests.geometry.overlap import overlaps, placed, struck
from tests.laws.vocabulary import jobs, texts

EACH = int(os.environ.get("RODWORK_LAWS", "100"))
LAW = settings(max_examples=EACH, deadline=None, suppress_health_check=[HealthCheck.too_slow])
DEGREES = (0.1, 3, 10, 35, 70, 100)
TOUCH = ("corner", "fixed shelf", "divider", "planted back", "edge to edge", "face frame", "on a slope")


@LAW
@given(jobs())
def test_no_two_boards_overlap(drawn):
    for cabinet in drawn.rod.cabinets:
        assert overlaps(cabinet) == []


@LAW
@given(jobs())
def test_boards_that_are_joined_touch(drawn):
    """Between the two boards of a joint there is no gap: their solids lie against each other."""
    from rodwork.documents.solids import part_solid

    for cabinet in drawn.rod.cabinets:
        solids = {}
        for joint in cabinet.joints:
            if joint.contact.place not in TOUCH:
                continue
            for id in joint.parts:
                if id not in solids:
                    solids[id] = placed(part_solid(cabinet.part[id], 8), cabinet.part[id].pose)
            host, guest = (solids[id] for id in joint.parts)
            assert host.min_gap(guest, 5.0) < 1e-3, joint.id


@LAW
@given(jobs())
def test_every_joint_is_proven(drawn):
    assert [f.message for f in prove(drawn.rod)] == []
    for cabinet in drawn.rod.cabinets:
        assert cabinet.proof.largest_gap_mm <= drawn.rod.step / 2 + 1e-6
        joined = {p for j in cabinet.joints for p in j.parts}
        assert {p.id for p in cabinet.parts if p.in_box and p.role != "loose shelf"} <= joined


@LAW
@given(jobs())
def test_every_bore_lies_inside_its_board(drawn):
    assert [f.message for f in drawn.rod.findings if f.code == CANNOT and f.severity == "fault"] == []
    for cabinet in drawn.rod.cabinets:
        for part in cabinet.parts:
            for f in part.features:
                r = getattr(f, "diameter", 0.0) / 2
                for k in range(3):
                    room = r * (1 - abs(f.into[k])) if f.kind == "bore" else 0.0
                    assert room - 1e-6 <= f.at[k] <= part.size[k] - room + 1e-6, (part.id, f.id)


@LAW
@given(jobs())
def test_every_door_swings_open_and_every_drawer_runs_out_and_touch_nothing(drawn):
    for cabinet in drawn.rod.cabinets:
        for door in cabinet.doors:
            across, run = (2, 0) if door.hinged == "up" else (0, 2)
            for degrees in DEGREES:
                corners, (a, b) = swung(cabinet.part[door.door], door.hinged, degrees)
                for other in cabinet.whole_boards:
                    if other.pose.slopes:
                        assert not strikes_slope(cabinet.part[door.door], door.hinged, degrees, other), door.door
                        continue
                    low, high = box_of(other)
                    if other.id == door.door or high[run] <= a + 1e-6 or low[run] >= b - 1e-6:
                        continue
                    assert not foul(corners, ((low[across], low[1]), (high[across], high[1]))), (door.door, other.id)
        for drawer in cabinet.drawers:
            mine = {drawer.front, *drawer.box}
            for id in mine:
                low, high = box_of(cabinet.part[id])
                low = (low[0], low[1] - drawer.travel, low[2])
                for other in (p for p in cabinet.whole_boards if p.id not in mine):
                    a, b = box_of(other)
                    assert not all(low[k] + 1e-6 < b[k] and a[k] + 1e-6 < high[k] for k in range(3)), (id, other.id)


@LAW
@given(jobs())
def test_every_clothes_rail_has_its_room_and_looks_from_one_upright_at_the_other(drawn):
    for cabinet in drawn.rod.cabinets:
        for rail in cabinet.clothes_rails:
            assert struck(cabinet, rail) == []
            left, right = (box_of(cabinet.part[id]) for id in rail.uprights)
            assert left[1][0] < rail.low[0] < rail.high[0] < right[0][0]
            assert rail.under > 0


@LAW
@given(jobs())
def test_the_outside_is_as_asked_and_cut_sizes_grow_by_edging_only(drawn):
    for cabinet in drawn.rod.cabinets:
        boxes = [box_of(p) for p in cabinet.parts if p.in_box]
        assert boxes or cabinet.is_run
        for k, size in zip((0, 2, 1), () if cabinet.is_run else cabinet.size, strict=not cabinet.is_run):
            assert max(b[1][k] for b in boxes) - min(b[0][k] for b in boxes) == pytest.approx(size, abs=1e-6)
        for part in cabinet.parts:
            if part.glued_on is not None:  # sawn over size: flushed on both faces, trimmed at both ends
                how = drawn.rod.edgings[cabinet.part[part.glued_on].edging_name].lipping
                assert part.cut[0] == pytest.approx(part.size[0] + 2 * how.longer)
                assert part.cut[1] == pytest.approx(part.size[1] + 2 * how.proud)
                continue
            e = part.edging
            assert part.cut[0] == pytest.approx(part.size[0] - e.left_end - e.right_end)
            assert part.cut[1] == pytest.approx(part.size[1] - e.face_edge - e.far_edge)


@settings(max_examples=max(EACH // 25, 4), deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(jobs())
def test_every_station_takes_it(drawn):
    """Load, dry fit and cutting plan give an answer for each cabinet, or say that it is none of theirs, and why."""
    for cabinet in load(drawn.rod).cabinets:
        assert all(isfinite(s.new_mm) and s.new_mm >= 0 for s in cabinet.shelves if s.new_mm is not None)
    for fit in dry_fit(drawn.rod, samples=40).cabinets:
        assert 0.0 <= fit.chance <= 1.0
    plan = cutting(drawn.rod, steps=20)
    sawn = [m for board in plan.boards for s in board.sheets for p in s.sawn for m in p.marks]
    parts = [p for c in drawn.rod.cabinets for p in c.parts if not p.bought]
    uncut = {f.where[0] for f in plan.findings if f.code == "cannot_be_sawn"}
    assert sorted(sawn) == sorted(m for p in parts if p.board not in uncut for m in p.marks)
    told = {(f.cabinet, part) for f in drawn.rod.findings if f.code == TOO_LARGE for part in f.where}
    large = {p.board for c in drawn.rod.cabinets for p in c.parts if (c.name, p.id) in told}
    assert uncut <= large  # what no sheet is large enough for is told with the set-out already


@settings(max_examples=EACH, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(texts())
def test_what_is_refused_is_refused_with_a_place_and_a_way_to_mend_it(text):
    try:
        set_out(text, "drawn.toml")
    except JobFaults as problem:
        for fault in problem.faults:
            assert fault.line is None or fault.line > 0
            assert fault.what
            assert fault.mend
