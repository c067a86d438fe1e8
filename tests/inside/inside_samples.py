"""Job texts for what stands inside a carcass and under it. The sizes are invented unless a test names a source."""

import pytest

from rodwork.job.faults import JobFaults
from rodwork.pipeline import set_out
from tests import texts

HEAD = (
    texts.HEAD
    + texts.EDGING
    + texts.joint("dowels", '"dowel"')
    + texts.joint("screws", '"screw"')
    + texts.joint("tongues", '"tongue"')
    + texts.joint("housings", '"housing"')
    + texts.joint("cams", '"cam", count = 2, first = 25')
)
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
