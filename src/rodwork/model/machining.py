"""How one feature is machined: what set-out needs to know beyond the feature itself."""

from dataclasses import dataclass
from typing import Literal

from rodwork.model.feature import Feature
from rodwork.model.surface import Surface

# What a machine or a board stands on while a half is made.
THE_END = "the end"
BEVELLED_END = "the bevelled end"
MACHINED_FACE = "the machined face"
BATTEN = "batten on the line"
OWN_BASE = "its own base"  # the machine's, flat beside the board: its cutter's height is fixed
LAID_ON_LINE = "the other board, laid on the line"  # the machine upright against the end of that

FenceOn = Literal["centre", "near wall", "far wall", "no fence"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Machining:
    """A feature with its tool, and the surfaces that its two printed numbers are taken from.

    `line` and `set_back` are the joint's, where the two boards' surfaces are not flush; `fence_on` says which
    wall or middle the fence is set to, from `line` where a batten stands on it; with no fence, the
    tool itself holds its distance. `to_marks`: it stands to a pencil
    mark along the run, and needs no stop.
    """

    part: str
    feature: Feature
    tool: str
    cutter: str
    bears: Surface
    along_from: Surface
    across_from: Surface
    stands_on: str
    line: float | None = None
    set_back: float | None = None
    fence_on: FenceOn = "centre"
    to_marks: bool = False
