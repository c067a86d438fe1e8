"""Jobs that read well and cannot be made: each is refused at its line, with a mend, or is set out with a STOP."""

from pathlib import Path

import pytest

from rodwork.job.faults import JobFaults
from rodwork.pipeline import set_out

FIRST = (Path(__file__).parents[2] / "examples" / "first-cupboard.toml").read_text(encoding="utf-8")

REFUSED = [
    ('openings = [260, "rest"]', 'openings = [900, "rest"]', "openings", "232.8 too many"),
    ('openings = [260, "rest"]', 'openings = [660, "rest"]', "openings", "leaves 7.2 for each of the rest"),
    ("width = 600", "width = 100\ndividers = 3", "bays", "the bays do not fit"),
    ("actual = 17.6 ", "actual = 59.0 ", "birch18", "41 mm off"),
    ("depth = 320", "depth = 80", "depth", "leaves 52 mm of depth inside"),
    ("void = 22", "void = 255", "back", "leaves 59 mm of depth inside"),
    ('use = [{ family = "dowel", size = "8x30" }]', 'use = [{ family = "dowel", first = 200, end = 200 }]', "use",
     "two dowels do not fit"),
    ('use = [{ family = "dowel", size = "8x30" }]', 'use = [{ family = "screw", size = "4x25" }]', "use",
     "goes only 7.4 mm into the second board"),
    ('use = [{ family = "dowel", size = "8x30" }]', 'use = [{ family = "housing" }]', "use", "cannot make top to left side"),
    ('use = [{ family = "dowel", size = "8x30" }]', 'use = [{ family = "groove" }]', "use", "cannot make top to left side"),
    ('style = "grooved all round", void = 22', 'style = "planted", void = 22', "void", "there is no void behind it"),
    ('style = "grooved all round", void = 22', 'style = "grooved all round", depth = 17', "depth", "in two"),
    ('style = "grooved all round", void = 22', 'style = "rebated", joint = "dowels"', "joint", "takes no joint of its own"),
    ("loose_shelves = [0, 1]", "loose_shelves = [0, 9]", "loose_shelves", "do not fit in an opening"),
    ("loose_shelves = [0, 1]", "shelf_set_back = 280", "shelf_set_back", "Set it back by 242 or less"),
    ('edging = { with = "birch", on = "fronts" }', 'edging = { with = "birch", on = "top and bottom ends" }', "on",
     "inside the joint"),
    ("depth = 320", "depth = 90\npins = { front = 50, back = 50 }", "pins", "of the pins"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "word", "says"), REFUSED, ids=[r[3] for r in REFUSED])
def test_what_cannot_be_made_is_refused_with_its_line_and_a_mend(old, new, word, says):
    assert old in FIRST
    with pytest.raises(JobFaults) as refused:
        set_out(FIRST.replace(old, new), "job.toml")
    (fault,) = refused.value.faults
    assert says in str(fault)
    assert fault.mend
    changed = FIRST.replace(old, new).splitlines()
    assert 1 <= fault.line <= len(changed)


STOPPED = [
    ('size = "8x30"', 'size = "8x30", depth_in_face = 15', "near-far-face"),
    ('size = "8x30"', 'size = "16x40"', "beside-the-bore"),
    ('size = "8x30"', 'size = "8x30", depth_in_face = 9, depth_in_end = 12', "cannot-be-made"),
    ("sheet = [2440, 1220]      # along the grain first", "sheet = [700, 600]", "larger-than-sheet"),
    ('openings = [260, "rest"]', "openings = [260, 300]", "opening-not-as-asked"),
]


@pytest.mark.parametrize(("old", "new", "code"), STOPPED, ids=[s[2] for s in STOPPED])
def test_what_should_not_be_made_is_set_out_with_a_finding(old, new, code):
    assert old in FIRST
    found = set_out(FIRST.replace(old, new), "job.toml").findings
    assert code in {f.code for f in found if f.severity in ("fault", "warning")}
