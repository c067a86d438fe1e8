"""Mitred corners: against linear programs of the same geometry made here from the Rod, and against trigonometry.

The programs know nothing of the model: every arris, slope and slot is put where its errors bring it by intersecting
lines in the plane of the corner, and HiGHS looks for the least give with which rigid boards close.
"""

from dataclasses import replace
from math import cos, radians, sin, sqrt, tan

import numpy as np
import pytest
from scipy.optimize import linprog

from rodwork.documents.dry_fit_words import mitres_words
from rodwork.fit.carcass import STRIP
from rodwork.fit.draws import draw
from rodwork.fit.forecast import stiff
from rodwork.fit.solve import SIGNED, all_as_drilled, factored, verdict
from rodwork.fit.station import dry_fit_of
from rodwork.model.dry_fit import Mitres
from rodwork.model.measured import MeasuredBoard
from rodwork.model.surface import axis_of
from rodwork.setout.measured_copies import measured_copies
from tests.building import recipe
from tests.fit.rods import ACCURACY, box, drilled, found, length, lips, model

T, SLOPE, DEGREE = 17.6, 17.6 * sqrt(2), 1000 * radians(1)
GIVE = ACCURACY.give
TILT = "shared bevel|saw, length stop|tilt 45"
SHEET = "shared size|birch18"
FAMILIES = ("loose tenon", "biscuit", "spline", "quarter-turn connector")


def mitred(family="biscuit", **changes):
    return box(sides="mitred", corner_joint=recipe(family), **changes)


class Geometry:
    """One mitred box with errors, in the test's own words: lengths, thickness, angles, settings, all in mm and mrad."""

    def __init__(self, rod, value):
        self.cabinet, self.value = rod.cabinets[0], value
        self.at = {
            (e.part, e.feature): (s, e) for s in rod.setups for e in s.features if e.feature is not None
        }  # fmt: skip
        self.saw = {e.part: s for s in rod.setups for e in s.features if e.feature is None and e.along is not None}

    def end(self, part, which, y):
        """(outside arris, way along the slope) in the x-z plane of a board that is sawn wrong; outside is its back."""
        size, saw = self.cabinet.part[part].size, self.saw[part]
        said = f"{saw.stage}|{saw.tool}|{saw.cutter}|{saw.fence.mm:g}|{saw.registers_on}"
        long = self.value(f"shared size|{said}") + self.value(f"each size|{part}|length")
        skew = self.value(f"shared square|{said}") + self.value(f"each square|{part}|{which}")
        angle = 45 + np.degrees((self.value(TILT) + self.value(f"each bevel|{part}|{which}")) / 1000)
        thick = self.value(SHEET) + self.value(f"each size|{part}|thickness")
        out = 1.0 if which == "right_end" else -1.0
        x = size[0] / 2 + out * (size[0] + long) / 2 + (y - size[1] / 2) * skew / 1000
        return np.array([x, -thick / 2]), np.array([-out * sin(radians(angle)), cos(radians(angle))])

    def slot(self, part, feature, y, own=""):
        """Where the middle of a slot comes, and how far it is off along the run."""
        setup, entry = self.at[part, feature]
        arris, way = self.end(part, entry.bears, y)
        said = f"{setup.stage}|{setup.tool}|{setup.cutter}|{setup.fence.mm:g}|"
        across = self.value(f"shared across|{said}") + self.value(f"each across|{part}|{feature}|{own}")
        kind = "marks" if setup.stop == "marks" else "stop"
        run = self.value(f"each {kind}|{part}|{feature}|")
        if kind == "stop":
            run += self.value(f"shared stop|{setup.tool}|{entry.along.word}|{entry.along.mm:g}")
        front = (
            self.value(f"each size|{part}|width") / 2
        )  # what one rip fence gives all boards moves none against another
        return arris + (entry.across.mm + across) * way, run - front

    def to_cabinet(self, part, plane, y):
        return np.array(self.cabinet.part[part].pose.to_cabinet((plane[0], y, plane[1])))


def columns(cabinet, part, point):
    """(3, 24): how the wood of a board at a point moves with the six movements of the four boards."""
    parts = [p.id for p in cabinet.parts]
    out = np.zeros((3, 6 * len(parts)))
    x, y, z = point
    out[:, 6 * parts.index(part) : 6 * parts.index(part) + 6] = [
        [1, 0, 0, 0, z, -y], [0, 1, 0, -z, 0, x], [0, 0, 1, y, -x, 0]
    ]  # fmt: skip
    return out


def least_give(rod, value):
    """By HiGHS: the least give of four rigid boards; unknowns in mm and rad / 1000 about the origin."""
    geometry, cabinet = Geometry(rod, value), rod.cabinets[0]
    rows, bounds = [], []

    def hold(row, constant, low, high, weight):
        rows.extend((np.append(row, -weight), np.append(-row, -weight)))
        bounds.extend((high - constant, constant - low))

    for joint in cabinet.joints:
        host, guest = joint.parts
        contact = joint.contact
        across, out, run = (np.array(v) for v in (contact.across, contact.out, contact.along))
        for point in (np.array(contact.from_point), np.array(contact.to_point)):
            for inwards in (0.0, contact.width):
                nominal = point + inwards * across
                between = columns(cabinet, guest, nominal) - columns(cabinet, host, nominal)
                y = cabinet.part[host].pose.to_part(tuple(nominal))[1]
                gap = offset(geometry, guest, contact.guest_register.bears, nominal, y, out)
                gap -= offset(geometry, host, contact.host_register.bears, nominal, y, out)
                hold(out @ between, gap, -GIVE.crush_mm, GIVE.close_mm, 0.5)
        for fixing in joint.fixings:
            hold_fixing(hold, geometry, cabinet, joint, fixing, across, run)
    n = 24
    rigid = [(0, 0)] * 6 + [(None, None)] * (n - 6) + [(None, None)]
    answer = linprog([0.0] * n + [1.0], A_ub=np.array(rows), b_ub=bounds, bounds=rigid, method="highs")
    assert answer.status == 0
    return answer.x[n]


def hold_fixing(hold, geometry, cabinet, joint, fixing, across, run):
    host, guest = joint.parts
    slot = next(f for f in cabinet.part[host].features if f.id == fixing.halves[0].feature)
    strip = getattr(slot, "length", 0.0) >= STRIP * joint.contact.length
    places = (("from", -slot.length / 2), ("to", slot.length / 2)) if strip else (("", 0.0),)
    for name, along in places:
        nominal = np.array(fixing.at) + along * run
        y = cabinet.part[host].pose.to_part(tuple(nominal))[1]
        between = columns(cabinet, guest, nominal) - columns(cabinet, host, nominal)
        middles, runs = [], []
        for half in fixing.halves:
            plane, off = geometry.slot(half.part, half.feature, y, name)
            middles.append(geometry.to_cabinet(half.part, plane, y))
            runs.append(off)
        apart = middles[1] - middles[0]
        hold(across @ between, across @ apart, -fixing.play.across, fixing.play.across, 1.0)
        hold(run @ between, runs[1] - runs[0], -fixing.play.along, fixing.play.along, 1.0)


def offset(geometry, part, end, nominal, y, out):
    """How far along `out` the slope as sawn lies from a point of the slope as drawn."""
    arris, way = geometry.end(part, end, y)
    on = geometry.to_cabinet(part, arris, y)
    slope = geometry.to_cabinet(part, arris + way, y) - on
    normal = np.array([-slope[2], 0.0, slope[0]])
    return float(normal @ (on - nominal) / (normal @ out))


@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize("budget", [1.0, 4.0])
def test_the_give_is_that_of_a_linear_program_made_from_the_rod(family, budget):
    """Angles are taken with their sines there, linear here: 0.1 mm of error in 1 m is nothing, 3e-3 mm is allowed."""
    rod = mitred(family, depth_mm=420.0)
    m = stiff(model(rod))
    z = draw(m.sources, 12, seed=5) * budget
    mine = verdict(factored(m, SIGNED), z).give_mm
    assert (np.abs(mine + 0.2) > 1e-6).mean() >= 0.5, "too many are clipped to compare"
    for i in range(len(z)):

        def value(key, i=i):
            return float(z[i, m.source_at[key]] * m.sources[m.source_at[key]].sigma) if key in m.source_at else 0.0

        theirs = least_give(rod, value)
        assert mine[i] == pytest.approx(max(theirs, -0.2), abs=3e-3)


def gapes_of(m, z):
    """How much further each mitre is open at the inside, drawn up and not bent, in the order of the joints."""
    linear = all_as_drilled(m)
    return [float(linear[m.output_at[f"mitre|{joint}"]] @ z[0]) for joint in m.joints]


@pytest.mark.parametrize("tenth", [-3, -1, 1, 3])
def test_a_blade_so_many_tenths_of_a_degree_off_opens_each_mitre_as_trigonometry_says(tenth):
    """Both halves lose t (tan(45 + a) - tan 45) at the inside, at a right angle to each other: geometry.

    All four corners alike, nothing can close them but bending: the give is what is open beyond crush and a shut look.
    """
    rod = mitred()
    m = stiff(model(rod))
    z = m.z_of({TILT: tenth / 10 * DEGREE})
    opens = sqrt(2) * T * (tan(radians(45 + tenth / 10)) - 1)
    assert gapes_of(m, z) == pytest.approx([opens] * 4, rel=0.01)
    assert opens == pytest.approx(2 * SLOPE * tenth / 10 * DEGREE / 1000, rel=0.01)
    give = verdict(factored(m, SIGNED), z).give_mm[0]
    tight = min(f.play.across for j in rod.cabinets[0].joints for f in j.fixings)  # no more is there to spare
    assert give == pytest.approx(max(abs(opens) - GIVE.crush_mm - GIVE.close_mm, -tight), abs=0.01 * abs(opens))
    assert np.abs(lips(drilled(rod, {TILT: tenth / 10 * DEGREE}))).max() < 1e-5


def test_one_end_off_is_shared_out_by_racking():
    """One half of one mitre 0.4 degrees off. Racking by r opens two corners and closes two: least squares leaves three
    quarters of it there and a quarter at each other corner, the one across closing; their sum nothing can change.
    Seats in the middle of their play hold against it a little.
    """
    m = stiff(model(mitred()))
    there = SLOPE * 0.4 * DEGREE / 1000
    gapes = gapes_of(m, m.z_of({"each bevel|top|left_end": 0.4 * DEGREE}))
    assert sum(gapes) == pytest.approx(there, rel=0.01)
    left_top, left_bottom, right_top, right_bottom = gapes
    assert [right_top, left_top, right_bottom, left_bottom] == pytest.approx(
        [0.75 * there, 0.25 * there, 0.25 * there, -0.25 * there], abs=0.07 * there
    )


def test_two_ends_off_against_each_other_are_no_gap():
    """One half 0.3 over and its mate 0.3 under: the corner is not where it was, and shut all along."""
    m = stiff(model(mitred()))
    off = {"each bevel|top|right_end": 0.3 * DEGREE, "each bevel|left side|left_end": -0.3 * DEGREE}
    assert np.abs(gapes_of(m, m.z_of(off))).max() < 1e-3


@pytest.mark.parametrize("family", FAMILIES)
def test_a_thin_sheet_is_no_lip_from_the_outside_arris(family):
    """Both halves are set out from the line that is seen: 0.5 less of sheet, and the arrises meet as before."""
    out = found(mitred(family, depth_mm=420.0), {SHEET: -0.5})
    assert np.abs(lips(out)).max() < 1e-3


def test_a_thin_sheet_taken_from_the_inside_in_one_half_stands_out_by_what_it_lacks():
    """The inside arris is 0.5 sqrt 2 nearer along the slope, which is 0.5 square to the face: geometry."""
    rod = mitred()

    def turned(entry):
        if entry.part not in ("top", "bottom") or entry.feature is None:
            return entry
        inside = replace(entry.across, from_surface="face_side", mm=round(SLOPE - entry.across.mm, 6))
        assert axis_of(entry.across.from_surface) == 2
        return replace(entry, across=inside)

    rod = replace(rod, setups=tuple(replace(s, features=tuple(turned(e) for e in s.features)) for s in rod.setups))
    out = drilled(rod, {SHEET: -0.5})
    assert np.abs(lips(out)) == pytest.approx([0.5] * 8, abs=1e-3)
    assert len(set(np.sign(lips(out)))) == 1


def test_a_fence_off_for_both_halves_is_no_lip_and_for_one_half_it_is():
    """F-e along the slope: 0.3 on one half alone is 0.3 sin 45 over the face of the other."""
    rod = mitred()
    keys = [s.key for s in model(rod).sources]
    assert not any(key.startswith("shared across|") for key in keys)  # one fence for both halves: it drops out
    holes = [key for key in keys if key.startswith(("each across|top", "each across|bottom"))]
    assert np.abs(lips(drilled(rod, dict.fromkeys(holes, 0.3)))) == pytest.approx([0.3 * sqrt(0.5)] * 8, abs=1e-3)


def test_long_points_of_one_side_off_put_the_top_out_of_level_and_nothing_proud():
    """Left side 0.4 long over its points: numbers start at the arris, so the top follows it."""
    out = found(mitred(), {length("left side"): 0.4})
    assert out["height"] == pytest.approx(0.4, abs=0.02)
    assert np.abs(lips(out)).max() < 0.01


def test_a_spline_holds_at_both_ends_of_its_groove_and_a_biscuit_where_it_stands():
    spline, biscuit = model(mitred("spline", depth_mm=420.0)), model(mitred("biscuit", depth_mm=420.0))
    at = spline.holds.of(0).at
    assert len(at) == 2
    assert np.ptp(at) == pytest.approx(400.0)  # 10 stopped before and behind
    assert len(biscuit.holds.of(0).at) == len(mitred("biscuit", depth_mm=420.0).cabinets[0].joints[0].fixings)


def test_what_is_said_of_the_mitres_has_the_spread_of_the_angles():
    """Eight ends share the tilt and have each their own: by hand, racked by least squares, one corner gapes
    SLOPE (2 a + (b1 + b2) - a quarter of the differences): of variance SLOPE^2 (4 a^2 + 2 b^2 3/4).
    """
    fit = dry_fit_of(mitred(), ACCURACY, samples=400).cabinets[0]
    tilt = ACCURACY.method("saw, length stop").error("bevel")
    sd = SLOPE / 1000 * sqrt(4 * tilt.shared.value**2 + 1.5 * tilt.each.value**2)
    assert fit.mitres.worst_mm == pytest.approx(1.96 * sd, rel=0.1)
    assert fit.mitres.likely_mm == pytest.approx(0.674 * sd, rel=0.1)
    assert 0.4 < fit.mitres.outside < 0.6
    assert dry_fit_of(box(), ACCURACY, samples=100).cabinets[0].mitres is None


def test_the_words_name_the_side_that_gapes_where_it_is_one():
    alike = Mitres(likely_mm=0.06, worst_mm=0.2, outside=0.5)
    assert mitres_words(alike) == "Mitres, before clamps bend them: 0.1 open, at worst 0.2, inside or outside alike."
    assert "outside, where it is seen" in mitres_words(replace(alike, outside=0.9))
    assert "at the inside" in mitres_words(replace(alike, outside=0.1))
    assert mitres_words(replace(alike, worst_mm=0.04)).startswith("Mitres close all along")


def test_a_mitred_board_as_cut_is_told_its_ways_on():
    rod = mitred()
    mark = rod.cabinets[0].part["left side"].marks[0]
    rod = measured_copies(replace(rod, measured=(MeasuredBoard(mark=mark, length=720.7),)))
    (cut,) = dry_fit_of(rod, ACCURACY, samples=200).cabinets[0].as_cut
    assert cut.does == ("No lip.", "Top out of level 0.7.")
    assert not any("inside" in way.do or "opposite" in way.do for way in cut.ways)
