"""A job with a surveyed alcove in it, in pieces, for the tests of this folder.

Its readings are those of a worked case in our own papers: widths 1212, 1206, 1215 at the front and 1209, 1203, 1211 at
the back, the left wall 6 out in 2400, the floor 8 low at the right, skirting 18. Heights, depths and ceiling, of which
the case says nothing, are invented.
"""

from rodwork.model.alcove import Alcove
from rodwork.model.survey import Survey
from rodwork.pipeline import nothing_beside, read
from tests.texts import HEAD

SURVEY = """\
[surveys.alcove]
heights = [-900, 0, 1100]
widths = [1212, 1206, 1215]
back_widths = [1209, 1203, 1211]
depths = [340, 338, 342]
left_plumb = { out = 6, height = 2400 }
floor = [-1000, -1008]
ceiling = [1400, 1396]
skirting = { height = 120, out = 18 }
"""
SOCKET = """\
[services.socket]
survey = "alcove"
what = "socket"
low = [300, -700]
size = [146, 86]
out = 10
"""
PLAIN_CABINET = """\
[cabinets.any]
width = 600
height = 720
depth = 320
board = "birch18"
"""


def survey_of(text: str = SURVEY, name: str = "alcove") -> Survey:
    """The survey that a job file with these tables has."""
    job, _ = read(HEAD + text + PLAIN_CABINET, "job.toml", nothing_beside)
    return job.surveys[name]


def with_line(word: str, line: str, text: str = SURVEY) -> str:
    """The survey's text with the line of one word put otherwise (blank: left out); a new word is put at its head."""
    rows = [row for row in text.splitlines() if row.split(" = ")[0] != word]
    return "\n".join([rows[0], *([line] if line else []), *rows[1:]]) + "\n"


BOOKCASE = """\
[cabinets.library]
kind = "bookcase"
height = 2000
depth = 300
board = "birch18"
alcove = "alcove"
fixed_shelves = 4
"""


def job_text(cabinet: str = BOOKCASE, survey: str = SURVEY) -> str:
    """A whole job with a unit in the alcove."""
    return HEAD + survey + cabinet


def alcove_of(cabinet: str = BOOKCASE, survey: str = SURVEY) -> Alcove:
    """Where the unit of such a job stands."""
    job, _ = read(job_text(cabinet, survey), "job.toml", nothing_beside)
    alcove = job.cabinets[0].alcove
    assert alcove is not None
    return alcove
