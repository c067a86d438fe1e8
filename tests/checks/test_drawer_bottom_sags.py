"""Bottoms by width: 450, 600 and 900 mm. Common practice, no source."""

from dataclasses import replace

import pytest

from tests.checks.shop import told
from tests.fronts.front_samples import drawers, fronted

CODE = "drawer-bottom-sags"


def bottom(width, thickness):
    """A drawer whose bottom is made so wide and so thick."""
    rod = fronted(None, drawers=drawers(1), depth_mm=560.0)
    cabinet = rod.cabinets[0]
    parts = tuple(
        replace(p, size=(width, p.size[1], thickness)) if p.role == "drawer bottom" else p for p in cabinet.parts
    )
    return replace(rod, cabinets=(replace(cabinet, parts=parts),))


@pytest.mark.parametrize(
    ("width", "thickness", "thin"),
    [
        (450.0, 3.0, False), (451.0, 3.0, True), (600.0, 5.0, False), (600.0, 4.9, True), (601.0, 5.8, True),
        (900.0, 8.0, False), (901.0, 8.0, True), (1200.0, 11.0, False),
    ],
)  # fmt: skip
def test_a_bottom_by_its_width(width, thickness, thin):
    assert [f.severity for f in told(CODE, bottom(width, thickness))] == (["warning"] if thin else [])
