"""What can be wrong with a set-out, and how it is said."""

from typing import Literal, NamedTuple

Cause = Literal[
    "hand", "stands", "size", "edging", "sawing", "missing", "twice", "wrong board", "stage", "surface", "datum",
    "word", "place", "depth", "setting", "line", "pair", "row", "mark", "copy", "joint", "said",
]  # fmt: skip

TILT_DEG = 0.002  # a tilt is given in thousandths of a degree
DUST = 1e-3  # geometry is exact to 0.001 mm (design section 3)


class Trouble(NamedTuple):
    """A disagreement between the printed numbers and the cabinet: its cause, in words, and its two sides."""

    cause: Cause
    what: str
    expected: str = ""
    found: str = ""

    def said(self) -> str:
        """The sentence, with what was expected and what was found."""
        sides = f": expected {self.expected}, found {self.found}" if self.expected or self.found else ""
        return self.what + sides


def mm(value: float | None) -> str:
    """A length as it is printed, to 0.001 and at least 0.1; "none" where there is no number."""
    if value is None:
        return "none"
    text = f"{round(value, 3) + 0.0:.3f}".rstrip("0")
    return text + "0" if text.endswith(".") else text


def times(n: int) -> str:
    """How often."""
    return {0: "not at all", 1: "once", 2: "twice"}.get(n, f"{n} times")
