"""The laws of a page catch what they are there to catch."""

import pytest
from page_laws import faults

from rodwork.documents.drawing import NO_PEN, Drawing, Path_, Text, box, line


def sheet(*shapes):
    return faults(Drawing(width=210, height=297, shapes=shapes))


def at(x, y, text, **how):
    return Text(at=(x, y), text=text, **how)


@pytest.mark.parametrize(
    ("shapes", "word"),
    [
        ((at(20, 20, "136"), at(22, 20, "232")), "overlap"),
        ((at(20, 20, "BOTTOM", size=5, turn=90), at(15, 25, "TOP of it all")), "overlap"),
        ((at(200, 20, "a long name"),), "off the paper"),
        ((line((-1, 0), (20, 20)),), "off the paper"),
        ((at(20, 20, "136", size=6), line((10, 22), (50, 22))), "struck out"),
        ((box(10, 10, 50, 30, fill="white"), at(20, 20, "136"), line((20, 10), (24, 40))), "struck out"),
        (
            (
                at(20, 20, "136", size=6),
                Path_(points=((18, 21), (26, 19), (26, 23)), closed=True, pen=NO_PEN, fill="black"),
            ),
            "struck",
        ),
        ((at(20, 20, "tiny", size=2),), "mm high"),
        ((at(20, 20, "the host board"),), "data model"),
        ((at(20, 20, "left_end"),), "data model"),
        ((at(20, 20, "-0.0 from the top"),), "minus nought"),
        ((at(20, 20, " 9"),), "ragged"),
    ],
)
def test_a_fault_is_found(shapes, word):
    assert any(word in fault for fault in sheet(*shapes))


@pytest.mark.parametrize(
    "shapes",
    [
        (at(20, 20, "136", size=5), at(30, 20, "232", size=5)),
        (at(20, 20, "BOTTOM", size=5, turn=90), at(21, 20, "TOP")),
        (line((10, 22), (50, 22)), box(15, 15, 30, 12, fill="white"), at(20, 20, "136", size=6)),
        (at(20, 20, "136", size=6), line((10, 19), (50, 19))),
        (at(20, 20, "from -0.5 to 10, a hostess"),),
        (Path_(points=((10, 10), (50, 60))), at(14, 60, "clear of a sloping line")),
    ],
)
def test_a_sound_sheet_passes(shapes):
    assert sheet(*shapes) == []
