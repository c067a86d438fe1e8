"""A wall unit whose bottom stands between nothing: it hangs on its dowels or screws, pulled straight out."""

from collections.abc import Iterable

from rodwork.checks.check import Check
from rodwork.checks.spot import COMMON
from rodwork.model.finding import Finding
from rodwork.model.rod import Rod

CODE = "bottom-hangs"


def look(rod: Rod) -> Iterable[Finding]:
    """Every wall unit with top and bottom running through."""
    for cabinet in rod.cabinets:
        if cabinet.asked.style == "wall" and cabinet.asked.corners == "top and bottom through":
            yield Finding(
                severity="warning", code=CODE, cabinet=cabinet.name,
                where=tuple(p.id for p in cabinet.parts if p.role == "bottom"),
                message="Bottom: it runs through under the sides of a wall unit, so that it hangs, with all that "
                        "stands on it, from joints that are pulled straight out of the ends of the sides.",
                mend="Let the sides run through: the bottom then bears on its dowels or screws across their length. "
                     "Or carry the bottom from below, on a batten or on the unit under it.",
                source=f"mechanics: withdrawal instead of shear; {COMMON}",
            )  # fmt: skip


CHECK = Check(code=CODE, title="The bottom of a wall unit hangs on its joints", look=look)
