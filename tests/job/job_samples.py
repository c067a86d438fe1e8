"""A sound job file and joint families for the tests of this folder. Families and sizes are invented."""

from dataclasses import dataclass

from rodwork.job.faults import JobFaults
from rodwork.job.reader import read_job
from rodwork.model.settings import choice, length, switch, text, whole


@dataclass(frozen=True, slots=True, kw_only=True)
class Pegs:
    """Pegs: every kind of setting there is."""

    size: str = text("8x30", r"\d+x\d+", "8x30", "diameter x length")
    first_mm: float | None = length(None, 5, 1000, "front edge to the first")
    pitch_mm: float = length(96.0, 16, 1000, "from one to the next")
    positions: str = choice("fixed", ("fixed", "evenly"), "along the run")
    glue: bool = switch(True, "glued")
    count: int | None = whole(None, 2, 60, "in every row")


@dataclass(frozen=True, slots=True, kw_only=True)
class Clamps:
    """Settings that can contradict one another."""

    head: str = choice("flat", ("flat", "round"), "its head")
    head_mm: float | None = length(None, 4, 20, "diameter of its head")
    least_mm: float = length(10.0, 1, 50, "at least")
    most_mm: float = length(20.0, 1, 50, "at most")

    def __post_init__(self):
        if self.least_mm > self.most_mm:
            raise ValueError("least is over most")


FAMILIES = {"dowel": Pegs, "loose clamp": Clamps}

SOUND = """\
[job]
name = "Pottery studio"

[shop]
first = 40

[boards.birch18]
material = "birch plywood"
thickness = 18
actual = 17.6
sheet = [2440, 1220]
price = 64.00

[boards.birch6]
material = "birch plywood"
thickness = 6
sheet = [2440, 1220]

[edgings.birch]
thickness = 1.0
price_per_m = 0.85

[joints.corner]
use = [
  { family = "dowel", first = 40 },   # locates
  { family = "loose clamp" },
]

[cabinets.glaze]
kind = "wall"
count = 2
width = 600
height = "720 mm"
depth = 320
board = "birch18"
joint = "corner"
back = { board = "birch6", style = "grooved all round", void = 18 }
openings = [333, "rest"]
loose_shelves = 2
edging = { with = "birch", on = "fronts" }
contents = { kg_per_m2 = 60 }
"""


def with_lines(*changes: tuple[str, str], text: str = SOUND) -> str:
    """The sound file with each old text replaced by a new one; the old must be there once or more."""
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    return text


def job_of(*changes: tuple[str, str]):
    return read_job(with_lines(*changes), "job.toml", FAMILIES)[0]


def faults_of(text: str | bytes):
    """The faults of a wrong file, as (line, what, mend)."""
    try:
        read_job(text, "job.toml", FAMILIES)
    except JobFaults as wrong:
        return [(fault.line, fault.what, fault.mend) for fault in wrong.faults]
    return []
