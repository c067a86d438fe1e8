"""Connecting screws between cabinets that stand against each other: through bores for shelf pins that both have."""

from collections import Counter
from collections.abc import Mapping, Sequence
from itertools import pairwise

from rodwork.geometry.directions import LEFT, RIGHT
from rodwork.model.fixing import Item
from rodwork.model.job import Cabinet, CannotBuild
from rodwork.model.meeting import Carcass
from rodwork.model.run import ConnectingScrew, Standing
from rodwork.model.run_asked import RunAsked

Built = Mapping[str, tuple[Cabinet, Carcass]]
LEAST_APART_MM = 96.0  # of two screws that hold a pair of sides flush; common practice, no source
CLEAR_OF_PLATE_MM = 25.0  # of its head beside the bores of a hinge plate; common practice, no source
SAME_MM = 0.1
Bore = tuple[float, float]  # height from the underside of the cabinet, from its front


def connecting(
    asked: RunAsked, standings: Sequence[Standing], built: Built
) -> tuple[tuple[ConnectingScrew, ...], tuple[int, ...]]:
    """The screws, and which pairs (by the left one, from 1) stand against each other with none. Raises CannotBuild."""
    if asked.screws is None:
        return (), ()
    out, alone = list[ConnectingScrew](), list[int]()
    for n, (a, b) in enumerate(pairwise(standings), 1):
        if a.stands_as != "cabinet" or b.stands_as != "cabinet":
            continue
        heights = asked.screws.heights_mm
        if heights:
            _within(asked, heights, (built[a.name][0], built[b.name][0]))
            bores = [(h, asked.screws.front_mm) for h in heights]
        else:
            bores = _through_pins(built[a.name], built[b.name])
        if not bores:
            alone.append(n)
        out += [
            ConnectingScrew(between=(n, n + 1), height=h, front=f, by_pins=not heights) for h, f in bores
        ]  # fmt: skip
    return tuple(out), tuple(alone)


def _within(asked: RunAsked, heights: Sequence[float], pair: tuple[Cabinet, Cabinet]) -> None:
    """A screw goes through both sides, between their bottoms and tops."""
    least, most = 40.0, min(c.height_mm for c in pair) - 40.0
    for i, height in enumerate(heights):
        if not least <= height <= most:
            raise CannotBuild(
                (*asked.place.path, "screws", "heights", i),
                f"a connecting screw at {height:g} would go into the top or bottom of {pair[0].name} or {pair[1].name}",
                f"write heights from {least:g} to {most:g}",
            )


def _through_pins(a: tuple[Cabinet, Carcass], b: tuple[Cabinet, Carcass]) -> list[Bore]:
    """The lowest and the highest bore for pins that both sides have, clear of hinge plates; one where they are near."""
    both = [
        bore
        for bore in _pins(a, "right side")
        if any(abs(bore[0] - o[0]) < SAME_MM and abs(bore[1] - o[1]) < SAME_MM for o in _pins(b, "left side"))
    ]
    plates = (*_plates(a, "right side"), *_plates(b, "left side"))
    free = [c for c in both if not any(abs(c[0] - z) < CLEAR_OF_PLATE_MM and abs(c[1] - y) < 40.0 for z, y in plates)]
    if not free:
        return []
    front = min(f for _, f in free)
    row = sorted(c for c in free if c[1] == front)
    return [row[0], row[-1]] if row[-1][0] - row[0][0] >= LEAST_APART_MM else [row[-1]]


def _pins(of: tuple[Cabinet, Carcass], side: str) -> list[Bore]:
    panel = next(p for p in of[1].panels if p.id == side)
    bottom = panel.box[0][2]
    rows = [r for r in of[1].pin_rows if r.panel == side]
    return [(round(bottom + h, 3), row.from_front) for row in rows for h in row.heights]


def _plates(of: tuple[Cabinet, Carcass], side: str) -> list[Bore]:
    way = LEFT if side == "left side" else RIGHT
    return [(b.at[2], b.at[1]) for b in of[1].fitting_bores if b.panel == side and b.into == way]


def items(screws: Sequence[ConnectingScrew], standings: Sequence[Standing], built: Built) -> tuple[Item, ...]:
    """What is bought for them, by how much they go through."""
    counts: Counter[str] = Counter()
    for screw in screws:
        pair = [built[standings[n - 1].name][1] for n in screw.between]
        grip = sum(next(p.size[2] for p in carcass.panels if p.role == "side") for carcass in pair)
        counts[f"connecting screw with sleeve, for {grip:g} mm"] += 1
    return tuple(Item(item=name, count=n) for name, n in counts.items())
