"""Bores for hinges and handles: from the cabinet, where they were placed once, onto the boards."""

from collections.abc import Mapping

from rodwork.geometry.vec import neg
from rodwork.model.feature import Bore
from rodwork.model.fronts import FittingBore
from rodwork.model.machining import MACHINED_FACE, Machining
from rodwork.model.panel import Panel
from rodwork.model.surface import inward, surface_facing


def fitting_machining(bores: tuple[FittingBore, ...], panels: Mapping[str, Panel]) -> tuple[Machining, ...]:
    """Every bore, in the frame of its board."""
    return tuple(_machining(bore, panels[bore.panel]) for bore in bores)


def _machining(b: FittingBore, panel: Panel) -> Machining:
    into = panel.pose.direction_to_part(b.into)
    along, across = (surface_facing(panel.pose.direction_to_part(w)) for w in (b.along_from, b.across_from))
    bore = Bore(
        id=b.id, role=b.role, joint=None, stage=b.stage, at=panel.pose.to_part(b.at), into=into, along=inward(along),
        depth=b.depth, diameter=b.diameter, tip=b.tip, through=b.through,
    )  # fmt: skip
    return Machining(
        part=b.panel, feature=bore, tool="drill and fence", cutter=f"{b.diameter:g} mm",
        bears=surface_facing(neg(into)), along_from=along, across_from=across, stands_on=MACHINED_FACE,
    )  # fmt: skip
