"""The strips between a unit in an alcove and the walls, and the battens behind them that they are fixed to.

A scribe stands flush with the front of the carcass, its straight edge against the side, at the width it is supplied
at: what the wall takes of it is planed off on site. Its batten is screwed to the outside of the side behind it.
"""

from collections.abc import Mapping
from math import ceil

from rodwork.carcass.boards import BACK_UP, LEFT_SIDE, RIGHT_SIDE, Box, panel
from rodwork.model.alcove import Alcove, ScribeStrip, Side
from rodwork.model.fixing import Item
from rodwork.model.job import Board
from rodwork.model.panel import Panel

# Common practice, no source
BATTEN_MM = 40.0
CLEAR_OF_WALL_MM = 2.0
SCREW_EVERY_MM = 400.0
PIN_EVERY_MM = 150.0
SCREW, PIN = "screw 4x30", "panel pin 40 mm"


def scribes(alcove: Alcove | None, boards: Mapping[str, Board]) -> tuple[tuple[Panel, ...], tuple[Item, ...]]:
    """Scribes and battens of a cabinet in an alcove, and what fixes them."""
    if alcove is None:
        return (), ()
    pairs = [(_strip(alcove, s, boards[s.board]), _batten(alcove, s, boards[s.board])) for s in alcove.scribes]
    panels = tuple(p for pair in pairs for p in pair if p is not None)
    battens = sum(1 for _, batten in pairs if batten is not None)
    rows = ((PIN, PIN_EVERY_MM, len(pairs)), (SCREW, SCREW_EVERY_MM, battens))
    items = (Item(item=item, count=n * (ceil(alcove.size[1] / every) + 1)) for item, every, n in rows if n)
    return panels, tuple(items)


def _strip(alcove: Alcove, strip: ScribeStrip, board: Board) -> Panel:
    box = _beside(alcove, strip.side, strip.rough, (0.0, board.actual_mm), (0.0, alcove.size[1]))
    return panel(
        id=f"{strip.side} scribe", role="scribe", board=board, box=box, rotation=BACK_UP, edged=(), edging=None,
        shows=("face_side",), in_box=False,
    )  # fmt: skip


def _batten(alcove: Alcove, strip: ScribeStrip, board: Board) -> Panel | None:
    """The batten behind a scribe, stopped over a skirting; None where the gap is too narrow for it."""
    t = board.actual_mm
    if strip.least < t + CLEAR_OF_WALL_MM:
        return None
    rotation = RIGHT_SIDE if strip.side == "left" else LEFT_SIDE
    low = max((s.foot[0] for s in alcove.scribes if s.foot), default=0.0)  # both stop at one height
    if low > alcove.size[1] / 2:
        return None
    box = _beside(alcove, strip.side, t, (t, t + BATTEN_MM), (low, alcove.size[1]))
    return panel(
        id=f"{strip.side} scribe batten", role="scribe", board=board, box=box, rotation=rotation, edged=(),
        edging=None, shows=(), in_box=False,
    )  # fmt: skip


def _beside(
    alcove: Alcove, side: Side, wide: float, deep: tuple[float, float], up: tuple[float, float]
) -> Box:  # fmt: skip
    """A box against the outside of one side of the carcass, in the cabinet's axes."""
    x0, x1 = (-wide, 0.0) if side == "left" else (alcove.size[0], alcove.size[0] + wide)
    return (x0, deep[0], up[0]), (x1, deep[1], up[1])
