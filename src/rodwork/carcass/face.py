"""The face that fronts lie on: the front of the carcass, or a frame planted on it. Fronts take their places from it.

overlay       over the boards round an opening, to `sides` and `ends` short of the outside
half overlay  over half of each outer board
inset         within the opening, flush with the face

On a frame an overlay front lies over each of its members by no more than it does at the outside.
"""

from dataclasses import dataclass

from rodwork.carcass.pins import Bay
from rodwork.model.panel import Panel

Span = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """Openings as seen from the front, mm: clear widths by bay, clear heights of each from the bottom, the outside.

    `y`: where the face lies, front to back. `bays`: the boards that side-hung doors are hung on; `over`: the boards
    above each opening, bay by bay, that lift-up doors are hung on. `framed`: fronts lie on a planted frame.
    """

    bays: tuple[Bay, ...]
    spaces: tuple[tuple[Span, ...], ...]
    wide: Span
    high: Span
    over: tuple[tuple[Panel, ...], ...]
    y: float = 0.0
    framed: bool = False
    thickness: float = 0.0  # of the frame

    def across(self, i: int, *, inset: bool, half: bool, sides: float, between: float) -> Span:
        """Left and right edge of the front of a bay (from 0). `half`: half overlay."""
        bay = self.bays[i]
        if inset:
            return round(bay.x0 + sides, 6), round(bay.x1 - sides, 6)
        outer, inner = (self.wide[0], bay.x0), (bay.x1, self.wide[1])
        if i > 0:
            outer = (self.bays[i - 1].x1, bay.x0)
        if i < len(self.bays) - 1:
            inner = (bay.x1, self.bays[i + 1].x0)
        left = self._edge(outer, i == 0, half, sides, between, self.bays[0].x0 - self.wide[0])
        right = self._edge(inner, i == len(self.bays) - 1, half, sides, between, self.bays[0].x0 - self.wide[0])
        return round(outer[0] + left, 6), round(inner[1] - right, 6)

    def _edge(self, board: Span, is_outer: bool, half: bool, margin: float, between: float, outer_wide: float) -> float:
        """How far from the far edge of a board a front begins that lies over it."""
        middle = (board[1] - board[0]) / 2 + between / 2
        if is_outer:
            return middle if half else margin
        # on a frame no further over an inner member than over an outer one
        return max(middle, board[1] - board[0] - (outer_wide - margin)) if self.framed else middle

    def upright(
        self, i: int, first: int, last: int, *, inset: bool, ends: float, between: float, shared: tuple[bool, bool]
    ) -> Span:
        """Lower and upper edge of fronts over these openings (from 1) of a bay (from 0).

        `shared`: whether the board below and the one above carry another front; else they are covered, but for `ends`.
        """
        spaces = self.spaces[i]
        low, high = spaces[first - 1][0], spaces[last - 1][1]
        if inset:
            return round(low + ends, 6), round(high - ends, 6)
        below = (self.high[0] if first == 1 else spaces[first - 2][1], low)
        above = (high, self.high[1] if last == len(spaces) else spaces[last][0])
        lying = spaces[0][0] - self.high[0]
        from_below = self._edge(below, not shared[0], False, ends, between, lying)
        from_above = self._edge(above, not shared[1], False, ends, between, lying)
        return round(below[0] + from_below, 6), round(above[1] - from_above, 6)

    def in_front(self, thickness: float, inset: bool, off: float) -> Span:
        """Where a front of this thickness lies, front to back; `off` on its buffers."""
        if inset:
            return round(self.y, 6), round(self.y + thickness, 6)
        return round(self.y - off - thickness, 6), round(self.y - off, 6)
