"""The front shut: all that is seen of it is drawn where it stands."""

import pytest
from page_laws import check_pages
from tests.texts import HEAD

from rodwork.documents.drawing import Path_
from rodwork.documents.front_pages import front_pages
from rodwork.pipeline import set_out

UNIT = '[cabinets.unit]\nboard = "birch18"\nkind = "tall"\nwidth = 700\nheight = 2000\ndepth = 560\ndoors = { hung = "pair" }\n'


@pytest.mark.parametrize(
    ("feet", "high"),
    [
        ("", 0.0),
        ('feet = { style = "plinth frame", height = 80 }', 80.0),
        ('feet = { style = "legs", height = 150 }', 150.0),
    ],
)
def test_a_plinth_is_drawn_under_the_doors(feet, high):
    """The doors are 1997 high and begin 1.5 above the bottom of the carcass."""
    rod = set_out(f"{HEAD}{UNIT}{feet}\n", "it.toml")
    pages = front_pages(rod)
    check_pages(pages, rod)
    boards = [s.points for s in pages[0].shapes if isinstance(s, Path_) and s.closed and len(s.points) == 4]
    spans = [(min(y for _, y in b), max(y for _, y in b)) for b in boards]
    lowest, highest = min(low for low, _ in spans), max(top for _, top in spans)
    scale = (highest - lowest) / (2000 + high)
    assert any(
        low - lowest == pytest.approx((high + 1.5) * scale) and top - low == pytest.approx(1997 * scale)
        for low, top in spans
    )
