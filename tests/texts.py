"""Pieces of job files that tests put together. Names and sizes are invented.

Every piece begins with its own blank line, so that they stand one after another; `HEAD` is fifteen lines long.
"""

JOB = """
[job]
name = "Pottery studio"
"""
EDGING = """
[edgings.birch]
thickness = 1.0
"""


def board(name: str, thickness: float, actual: float, sheet: str = "[2440, 1220]") -> str:
    """A board of birch plywood and what it measures."""
    return f"""
[boards.{name}]
material = "birch plywood"
thickness = {thickness}
actual = {actual}
sheet = {sheet}
"""


def joint(name: str, family: str) -> str:
    """A recipe of one family; `family` may go on with settings: '"cam", count = 2'."""
    return f"\n[joints.{name}]\nuse = [{{ family = {family} }}]\n"


BOARDS = board("birch18", 18, 17.6) + board("birch6", 6, 5.8)
HEAD = JOB + BOARDS
