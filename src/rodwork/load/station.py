"""Will it hold: the load of every cabinet of a Rod, and what there is to put right. Read this first.

contents -> shelves -> joints -> the box -> the wall (or: does it tip) -> lifting -> findings
"""

from rodwork.load.contents import contents_kg, in_words
from rodwork.load.findings import findings
from rodwork.load.hanging import hanging_load
from rodwork.load.joints import joint_loads
from rodwork.load.lifting import lifting
from rodwork.load.racking import racking
from rodwork.load.shelves import shelf_loads
from rodwork.load.tipping import tipping
from rodwork.model.loading import CabinetLoad, Loading
from rodwork.model.rod import Rod, RodCabinet

CLOTHES = (
    "Left out: what hangs on the clothes rails, in their sockets, the uprights and the chain to the wall. No figure "
    "for clothes stands in the sources at hand; what a rail bears is for its maker's sheet to say."
)


def load_of(rod: Rod) -> Loading:
    """The load of a whole job. Every cabinet entry is reckoned once, whatever its count."""
    cabinets = tuple(_cabinet(cabinet, rod) for cabinet in rod.boxes)
    return Loading(cabinets=cabinets, findings=findings(rod, cabinets))


def joints_bear(rod: Rod) -> tuple[bool, float | None]:
    """Whether anything is said to stand inside, and how many times over the weakest joint of a job then bears it.

    None where a figure is missing. For the comparison of ways of joining: shelves and the wall are the same in each.
    """
    full = [c for c in rod.boxes if contents_kg(c) > 0]
    margins = [j.margin for c in full for j in joint_loads(c, rod)]
    known = [m for m in margins if m is not None]
    return bool(full), min(known) if known and len(known) == len(margins) else None


def _cabinet(cabinet: RodCabinet, rod: Rod) -> CabinetLoad:
    words, figure = in_words(cabinet)
    shelves, joints = shelf_loads(cabinet, rod), joint_loads(cabinet, rod)
    return CabinetLoad(
        name=cabinet.name, count=cabinet.count, contents=words, contents_from=figure,
        shelves=shelves, joints=joints, racking=racking(cabinet, rod),
        hanging=hanging_load(cabinet, rod, shelves, joints), tipping=tipping(cabinet),
        lifting=lifting(cabinet), left_out=(CLOTHES,) if cabinet.clothes_rails else (),
    )  # fmt: skip
