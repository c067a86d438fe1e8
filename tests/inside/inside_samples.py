"""Job texts for what stands inside a carcass and under it. The sizes are invented unless a test names a source."""

import pytest

from rodwork.job.faults import JobFaults
from rodwork.pipeline import set_out

HEAD = """
[job]
name = "Pottery studio"

[boards.birch18]
material = "birch plywood"
thickness = 18
actual = 17.6
sheet = [2440, 1220]

[boards.birch6]
material = "birch plywood"
thickness = 6
actual = 5.8
sheet = [2440, 1220]

[edgings.birch]
thickness = 1.0

[joints.dowels]
use = [{ family = "dowel" }]

[joints.screws]
use = [{ family = "screw" }]

[joints.tongues]
use = [{ family = "tongue" }]

[joints.housings]
use = [{ family = "housing" }]

[joints.cams]
use = [{ family = "cam", count = 2, first = 25 }]
"""
GROOVED = 'back = { board = "birch6", style = "grooved in the sides", void = 22 }\n'
CABINET = 'width = 600\nheight = 720\ndepth = 560\nboard = "birch18"\n'


def rod_of_text(*lines, size=CABINET, joint="dowels", more=""):
    """The set-out of one cabinet of these lines."""
    return set_out(text_of(*lines, size=size, joint=joint, more=more), "it.toml")


def text_of(*lines, size=CABINET, joint="dowels", more=""):
    return f'{HEAD}{more}\n[cabinets.it]\n{size}joint = "{joint}"\n' + "\n".join(lines) + "\n"


def refused(*lines, **kw):
    """The one fault that a cabinet of these lines is refused with."""
    with pytest.raises(JobFaults) as problem:
        rod_of_text(*lines, **kw)
    assert len(problem.value.faults) == 1, str(problem.value)
    fault = problem.value.faults[0]
    assert fault.line is not None
    assert fault.mend
    return f"{fault.what} {fault.mend}"


def box(part):
    a, b = part.pose.to_cabinet((0.0, 0.0, 0.0)), part.pose.to_cabinet(part.size)
    return tuple(map(min, a, b)), tuple(map(max, a, b))
