"""Runs in which each check of runs has something to say, as job texts: what its page quotes."""

from rodwork.model.rod import Rod
from tests.runs.run_samples import rod_of

FRONTS = """
[cabinets.bench]
count = 2
width = 500
loose_shelves = 1
doors = { hung = "left" }

[cabinets.desk]
width = 503
loose_shelves = 1
doors = { hung = "left", sides = 2 }

[cabinets.plain]
count = 3
width = 600
"""
SINK = (
    "worktop = { board = 'top40', joint = 'edge_to_edge', joints_at = [%s], cut_outs = [{ for = 'sink', over = 1, "
    "width = %s, depth = 500, radius = %s }] }\n"
)
RUNS = {
    "run_longer_than_wall": "length = 1005\nof = ['bench', 'bench', { gap = 4 }]\nscrews = 'none'\n",
    "worktop_joint": "of = ['plain', { gap = 602, for = 'drier' }, 'plain']\nscrews = 'none'\n" + SINK % (900, 400, 20),
    "cut_out_edges": "of = ['plain', 'plain']\nscrews = 'none'\n" + SINK % (900, 400, 20),
    "cut_out_over_boards": "of = ['plain', 'plain']\nscrews = 'none'\n" + SINK % (900, 400, 20),
    "infill_missing": "length = 1100\nof = ['bench', 'bench', { infill = 'rest' }]\n",
    "margins_differ": "of = ['bench', 'bench', 'desk']\nscrews = 'none'\n",
    "neighbours_not_joined": "of = ['plain', 'plain']\n",
}


def run_rod(name: str) -> Rod:
    """The Rod in which a check has what its page quotes."""
    return rod_of(RUNS[name], FRONTS)
