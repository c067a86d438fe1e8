"""What a bowl comes down on: tops, flat rails, dividers under a cut-out. Arithmetic, seen from above."""

import pytest

from tests.checks.shop import told
from tests.runs.run_samples import rod_of

CODE = "cut-out-over-boards"
RUN = "of = ['it']\nscrews = 'none'\nworktop = { board = 'top40', cut_outs = [{ for = 'sink', over = 1, %s }] }\n"
SINK = "width = 500, depth = 440, radius = 15"
IT = "\n[cabinets.it]\nwidth = 800\n"


@pytest.mark.parametrize(
    ("words", "cut", "lies_over"),
    [
        ("", SINK, ["top"]),
        # flat, 80 wide: the front one to 80 from the front, the back one from 480 of 560. The cut-out is 20 to 460.
        ("rails = { top_front = 80, top_back = 80 }", SINK, ["front rail"]),
        ("rails = { top_front = 80, top_back = 80 }", SINK + ", from_front = 90", ["front rail", "back rail"]),
        # on edge: 0 to 17.6, and 542.4 to 560
        ("rails = { top_front = 80, top_back = 80, set = 'on edge' }", SINK, []),
        ("rails = { top_front = 80, set = 'on edge' }", SINK + ", from_front = 50", ["front rail"]),
        ("rails = { top_front = 80, set = 'on edge' }", SINK + ", from_front = 58", []),
        ("rails = { top_front = 80, top_back = 80 }\ndividers = 1", SINK, ["front rail", "divider"]),
        ("rails = { top_front = 80, set = 'on edge' }\nfixed_shelves = 1", SINK, []),
    ],
)
def test_what_lies_under_it(words, cut, lies_over):
    found = told(CODE, rod_of(RUN % cut, IT + words + "\n"))
    assert [f.severity for f in found] == ["warning"] * len(lies_over)
    assert all(f"over the {name} of it" in f.message for f, name in zip(found, lies_over, strict=True))


def test_the_rails_that_are_named_for_a_top_are_clear_of_it():
    """As a maker would follow it: copied from the finding into the cabinet."""
    (finding,) = told(CODE, rod_of(RUN % SINK, IT))
    rails = finding.mend.split("in place of its top, ")[1].split(", or cut")[0]
    assert told(CODE, rod_of(RUN % SINK, IT + rails + "\n")) == []


def test_a_rail_that_would_be_cut_away_whole_is_left_out_instead():
    """The front rail is 80 wide, and 60 of it are under the cut-out; the back one is 80, and 45 are."""
    rails = "rails = { top_front = 80, top_back = 80 }"
    front, back = told(CODE, rod_of(RUN % "width = 500, depth = 505, radius = 15", IT + rails + "\n"))
    assert front.mend.endswith("or leave that rail out.")
    assert back.mend.endswith("or cut 45 of it away under the cut-out.")


def test_a_cut_out_beside_the_cabinet_is_none_of_its_business():
    run = RUN.replace("['it']", "['it', 'sink']") % "width = 500, depth = 440, radius = 15"
    assert told(CODE, rod_of(run.replace("over = 1", "over = 2"), IT + "\n[cabinets.sink]\nwidth = 800\nrails = "
                             "{ top_front = 80, set = 'on edge' }\n")) == []  # fmt: skip
