"""Laws that every joint family must obey, in every cabinet that can be built."""

from collections import defaultdict
from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from rodwork.joints.place import join
from rodwork.joints.registry import joint_kinds
from rodwork.model.feature import Groove
from rodwork.model.pose import Pose
from rodwork.setout.turn import same_by_a_turn
from tests.building import back, cabinet, job, made, recipe, rod_of
from tests.cabinets import built, cabinets

LAW = settings(
    max_examples=60, deadline=None, derandomize=True,
    suppress_health_check=[HealthCheck.filter_too_much, HealthCheck.too_slow],
)  # fmt: skip


def features_of(rod_cabinet):
    return {f.id: (p, f) for p in rod_cabinet.parts for f in p.features}


def in_cabinet(part, point):
    """Rotation times point plus origin, written out again so that the law does not lean on the code it tests."""
    r, o = part.pose.rotation, part.pose.origin
    return tuple(sum(r[i][k] * point[k] for k in range(3)) + o[i] for i in range(3))


def turned(part, direction):
    return tuple(sum(part.pose.rotation[i][k] * direction[k] for k in range(3)) for i in range(3))


def apart(p, q):
    return max(abs(a - b) for a, b in zip(p, q, strict=True))


@LAW
@given(built())
def test_halves_meet(b):
    """meet: same point, opposite ways. line: on one axis, the clearance's exit the pilot's entry."""
    for c in b.rod.cabinets:
        by_id = features_of(c)
        for joint in c.joints:
            for fixing in joint.fixings:
                (host, guest) = (by_id.get(h.feature) for h in fixing.halves)
                if fixing.law == "meet":
                    assert apart(in_cabinet(host[0], host[1].at), in_cabinet(guest[0], guest[1].at)) < 1e-5
                    assert apart(turned(host[0], host[1].into), [-v for v in turned(guest[0], guest[1].into)]) < 1e-9
                elif fixing.law == "line":
                    way = turned(host[0], host[1].into)
                    exit_ = [a + d * host[1].depth for a, d in zip(in_cabinet(host[0], host[1].at), way, strict=True)]
                    gap = 0.5 if joint.contact.place == "inset back" else 0.0  # the back's clearance stands between
                    assert apart(exit_, in_cabinet(guest[0], guest[1].at)) == pytest.approx(gap, abs=1e-5)
                    assert apart(way, turned(guest[0], guest[1].into)) < 1e-9


@LAW
@given(built())
def test_every_void_lies_inside_its_board(b):
    for c in b.rod.cabinets:
        for part in c.parts:
            for f in part.features:
                end = [f.at[i] + f.into[i] * (f.depth + getattr(f, "tip", 0.0)) for i in range(3)]
                for i in range(3):
                    assert -1e-6 <= f.at[i] <= part.size[i] + 1e-6, (part.id, f)
                    assert -1e-6 <= end[i] <= part.size[i] + 1e-6, (part.id, f)
                if isinstance(f, Groove):
                    for sign in (-1, 1):
                        tip = [f.at[i] + sign * f.along[i] * f.length / 2 for i in range(3)]
                        assert all(-1e-6 <= tip[i] <= part.size[i] + 1e-6 for i in range(3)), (part.id, f)


@LAW
@given(built())
def test_registering_surfaces_lie_in_one_plane_or_differ_by_what_is_printed(b):
    def plane(part, surface, way):
        axis = {"left_end": 0, "right_end": 0, "face_edge": 1, "far_edge": 1, "back_side": 2, "face_side": 2}[surface]
        point = [0.0, 0.0, 0.0]
        if surface in ("right_end", "far_edge", "face_side"):
            point[axis] = part.size[axis]
        return sum(w * x for w, x in zip(way, in_cabinet(part, point), strict=True))

    for c in b.rod.cabinets:
        part = {p.id: p for p in c.parts}
        for joint in c.joints:
            k = joint.contact
            if k.place in ("back in a groove", "back in a rebate", "mitre"):
                continue  # only one board is machined: there is no pair; in a mitre a line, which has its own tests
            host, guest = (part[i] for i in joint.parts)
            across = [plane(p, r.across_from, k.across) for p, r in
                      ((guest, k.guest_register), (host, k.host_register))]  # fmt: skip
            along = [plane(p, r.along_from, k.along) for p, r in
                     ((guest, k.guest_register), (host, k.host_register))]  # fmt: skip
            # the line is measured from the host's datum into it, which at an inner face is against `across`
            towards = -1.0 if k.place == "corner" and k.line is not None else 1.0
            assert across[0] - across[1] == pytest.approx(towards * (k.line or 0.0), abs=1e-5), joint.id
            assert along[0] - along[1] == pytest.approx(k.set_back or 0.0, abs=1e-5), joint.id


@LAW
@given(built())
def test_host_reads_guest_plus_line_and_set_back(b):
    for c in b.rod.cabinets:
        read = {e.feature: e for s in b.rod.setups for e in s.features if e.cabinet == c.name and e.feature}
        for joint in c.joints:
            for fixing in joint.fixings:
                host, guest = (read.get(h.feature) for h in fixing.halves)
                if host is None or guest is None:
                    continue
                assert host.across.line == guest.across.line
                assert host.along.set_back == guest.along.set_back
                # from a line the guest stands on its X side, which at an inner face is towards the host's own end
                before = joint.contact.place == "corner" and host.across.line is not None
                from_line = -guest.across.mm if before else guest.across.mm
                off = 0.05 if before else 0.0  # a line may stand off the step of the numbers by half of it
                assert host.across.mm == pytest.approx(from_line + (host.across.line or 0.0), abs=off + 1e-6)
                home = guest.along.mm if guest.along.end_mm is None else guest.along.end_mm
                assert host.along.mm == pytest.approx(home + (host.along.set_back or 0.0), abs=0.05 + 1e-6)


@LAW
@given(built())
def test_each_printed_number_is_within_half_a_step_and_rows_do_not_spread(b):
    half = b.rod.step / 2 + 1e-6
    for c in b.rod.cabinets:
        assert c.proof.largest_gap_mm <= half
        assert c.proof.largest_spread_in_a_row_mm <= 1e-6


@LAW
@given(built(dividers=False))
def test_mirror_then_set_out_is_set_out_then_mirror_and_swap_hands(b):
    """A cabinet without dividers is its own mirror: the left side's machining, mirrored, is the right side's.

    Rows that run from left to right (a back screwed on) start at the left on every cabinet and are left out.
    """
    c = b.rod.cabinets[0]
    sideways = {j.id for j in c.joints if abs(j.contact.along[0]) > 0.5}
    left, right = c.part["left side"], c.part["right side"]

    def mirrored(part):
        return sorted(_key(f, part.size[0] - f.at[0], f.at[1], f.at[2], (-f.into[0], *f.into[1:])) for f in part.features
                      if f.joint not in sideways)  # fmt: skip

    def as_is(part):
        return sorted(_key(f, *f.at, f.into) for f in part.features if f.joint not in sideways)

    assert mirrored(left) == as_is(right)
    assert as_is(left) == mirrored(right)
    for lying in ("top", "bottom"):
        assert mirrored(c.part[lying]) == as_is(c.part[lying])


def _key(f, x, y, z, into):
    sizes = tuple(v for n in f.__dataclass_fields__ if isinstance(v := getattr(f, n), float) and n != "depth")
    return (
        f.kind,
        f.role,
        round(x, 4),
        round(y, 4),
        round(z, 4),
        tuple(round(v, 4) + 0.0 for v in into),
        f.depth,
        *sizes,
    )


@LAW
@given(cabinets(), st.tuples(*[st.floats(-5000, 5000)] * 3))
def test_moving_the_cabinet_changes_nothing_on_the_bench(asked, shift):
    from hypothesis import assume

    from rodwork.model.job import CannotBuild

    in_job = job(asked)
    try:
        one = made(asked, in_job)
    except CannotBuild:
        assume(False)
    move = lambda p: tuple(a + b for a, b in zip(p, shift, strict=True))  # noqa: E731
    panels = tuple(
        replace(p, pose=Pose(rotation=p.pose.rotation, origin=move(p.pose.origin))) for p in one.carcass.panels
    )
    meetings = tuple(
        replace(m, contact=replace(m.contact, from_point=move(m.contact.from_point), to_point=move(m.contact.to_point)))
        for m in one.carcass.meetings
    )
    there = join(replace(one.carcass, panels=panels, meetings=meetings), in_job.shop)
    assert len(there.machining) == len(one.machining)
    for a, c in zip(one.machining, there.machining, strict=True):
        assert (a.part, a.bears, a.along_from, a.across_from) == (c.part, c.bears, c.along_from, c.across_from)
        assert apart(a.feature.at, c.feature.at) < 1e-5
        assert apart(a.feature.into, c.feature.into) < 1e-9


@pytest.mark.parametrize("family", ["dowel", "screw"])
def test_a_row_off_the_middle_stays_on_the_same_side_of_the_board_on_both_hands(family):
    """6 from the outer face on the left is 6 from the outer face on the right: a swapped face would make it 11.6."""
    off = recipe((family, {"offset_mm": 6.0, **({"pilot": "beforehand"} if family == "screw" else {})}))
    c = rod_of(job(cabinet(corner_joint=off, shelf_joint=off))).cabinets[0]
    by_id = features_of(c)
    for joint in c.joints:
        for fixing in joint.fixings:
            if fixing.family != family:
                continue
            part, f = by_id[fixing.halves[1].feature]
            assert f.at[2] == pytest.approx(6.0), (
                joint.id,
                part.id,
            )  # back side: outside of tops, underside of shelves
            host, g = by_id[fixing.halves[0].feature]
            height = in_cabinet(host, g.at)[2]
            face = {"top": 720.0, "bottom": 0.0}.get(part.id, joint.contact.from_point[2])
            assert abs(height - face) == pytest.approx(6.0)


@pytest.mark.parametrize("corner", ["dowel", "screw"])
@pytest.mark.parametrize("shelf", ["dowel", "screw"])
def test_thickness_moves_lengths_and_lines_and_never_a_fence_or_a_depth(corner, shelf):
    """17.6 and 18.2 board: the same fences, depths and distances from the front; only lengths and lines move."""

    def job_at(t):
        asked = cabinet(corner_joint=recipe(corner), shelf_joint=recipe(shelf), openings=(300.0, "rest"))
        return rod_of(job(asked, thickness=t))

    thin, thick = job_at(17.6), job_at(18.2)

    def worked(rod):
        settings_ = [s for s in rod.setups if not s.tool.startswith("saw") and s.tool != "drill and pin strip"]
        return [
            (s.tool, s.cutter, s.registers_on, s.fence and s.fence.mm, s.depth if s.tool == "dowel jig" else None)
            for s in settings_
        ]

    assert worked(thin) == worked(thick)

    def fronts(rod):
        return {
            e.feature: e.along.mm for s in rod.setups for e in s.features if e.feature and e.along.word == "front edge"
        }

    assert fronts(thin) == fronts(thick)
    assert thin.cabinets[0].part["top"].size[0] == pytest.approx(564.8)
    assert thick.cabinets[0].part["top"].size[0] == pytest.approx(563.6)
    assert thin.cabinets[0].part["left side"].size[:2] == thick.cabinets[0].part["left side"].size[:2]


def test_top_and_bottom_are_one_kind_of_board_and_the_sides_are_two():
    c = rod_of(job(cabinet())).cabinets[0]
    assert c.part["bottom"].same_as == "top"
    assert c.part["right side"].same_as is None
    assert c.part["loose shelf 2"].same_as == "loose shelf 1"


def test_sides_that_a_turn_carries_onto_each_other_are_one_kind():
    """A side without shelf or back, set upside down, is the other side: every number is taken from its own end."""
    c = rod_of(
        job(cabinet(back=None, openings=("rest",), loose_shelves=(0,), edging=None,
                    corner_joint=recipe(("dowel", {"positions": "evenly"}))))
    ).cabinets[0]  # fmt: skip
    assert c.part["right side"].same_as == "left side"
    with_shelf = rod_of(job(cabinet(back=None, edging=None, openings=(300.0, "rest"), loose_shelves=(0, 0)))).cabinets[
        0
    ]
    assert with_shelf.part["right side"].same_as is None


@LAW
@given(cabinets())
def test_the_turn_test_is_reflexive_and_symmetric(asked):
    from hypothesis import assume

    from rodwork.model.job import CannotBuild

    in_job = job(asked)
    try:
        one = made(asked, in_job)
    except CannotBuild:
        assume(False)
    cuts = defaultdict(list)
    for m in one.machining:
        cuts[m.part].append(m)
    for p in one.carcass.panels:
        assert same_by_a_turn(p, cuts[p.id], p, cuts[p.id])
    for p, q in combinations(one.carcass.panels, 2):
        assert same_by_a_turn(p, cuts[p.id], q, cuts[q.id]) == same_by_a_turn(q, cuts[q.id], p, cuts[p.id])


def test_one_bore_moved_by_more_than_the_tolerance_makes_two_kinds_of_board():
    in_job = job(cabinet())
    one = made(in_job.cabinets[0], in_job)
    panels = {p.id: p for p in one.carcass.panels}
    top, bottom = ([m for m in one.machining if m.part == name] for name in ("top", "bottom"))
    assert same_by_a_turn(panels["top"], top, panels["bottom"], bottom)
    for shift, same in ((0.009, True), (0.011, False)):
        f = bottom[0].feature
        moved = [replace(bottom[0], feature=replace(f, at=(f.at[0], f.at[1] + shift, f.at[2]))), *bottom[1:]]
        assert same_by_a_turn(panels["top"], top, panels["bottom"], moved) is same


def test_every_family_is_exercised_by_the_laws():
    """A new file in kinds/ must come into the random cabinets, or its law is not tested."""
    import tests.cabinets as drawn

    text = Path(drawn.__file__).read_text(encoding="utf-8")
    backs = {kind.name for kind in joint_kinds().values() if kind.backs}
    for name in joint_kinds():
        assert f'"{name}"' in text or name in backs, f"no random cabinet uses {name}"
    for kind in joint_kinds().values():
        for style in kind.backs:
            assert style in text, f"no random cabinet has a back that is {style}"


def test_a_shelf_is_not_screwed_through_a_divider_that_has_a_shelf_on_its_other_face():
    from rodwork.model.job import CannotBuild

    with pytest.raises(CannotBuild, match="another shelf stands on the other face of the divider"):
        rod_of(job(cabinet(bays=("rest", "rest"), width_mm=900.0, shelf_joint=recipe("screw"))))


def test_a_channel_as_deep_as_its_board_is_refused():
    from rodwork.model.job import CannotBuild

    for joint in ({"shelf_joint": recipe(("housing", {"depth_mm": 17.8}))}, {"back": back(depth_mm=17.5)}):
        with pytest.raises(CannotBuild, match=r"cuts a 17.6 mm board in two"):
            rod_of(job(cabinet(**joint)))


def test_back_styles_say_where_shelves_stop():
    """Depths for a 320 cabinet with a 5.8 back, 6 mm cutter: arithmetic beside each."""
    stops = {
        "grooved all round": (320.0, 320.0, 296.0),  # 320 - 18 void - 6 groove
        "grooved in the sides": (320.0, 296.1, 296.0),  # top and bottom bear on the back, half the slack behind
        "rebated": (320.0, 320.0, 314.2),
        "rebated in the sides": (320.0, 314.2, 314.2),
        "planted": (314.2, 314.2, 314.2),
        "inset": (320.0, 320.0, 314.2),
    }
    for style, (side, cross, shelf) in stops.items():
        c = rod_of(job(cabinet(back=back(style)))).cabinets[0] if style != "inset" else rod_of(
            job(cabinet(back=back(style, board="birch6", joint=recipe(("screw", {"offset_mm": 3.0})))))
        ).cabinets[0]  # fmt: skip
        assert c.part["left side"].size[1] == pytest.approx(side), style
        assert c.part["top"].size[1] == pytest.approx(cross), style
        assert c.part["fixed shelf"].size[1] == pytest.approx(shelf), style
