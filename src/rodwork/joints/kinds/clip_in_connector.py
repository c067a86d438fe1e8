"""Clip-in connector: the same undercut slot in both boards; the halves click together and nothing is bored."""

from dataclasses import dataclass

from rodwork.joints.kind import FixingPlan, JointKind, Run, straight_in
from rodwork.joints.undercut import SlotSettings, connector_length, row_of, slot
from rodwork.model.fixing import Item, Play
from rodwork.model.nature import Nature
from rodwork.model.settings import switch
from rodwork.model.shop import Shop


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings(SlotSettings):
    """What a job file may say of clip-in connectors. Take the sizes from the connector's own sheet."""

    glue: bool = switch(True, "glue as well, with the connector as its clamp")


def plan(run: Run, s: Settings, shop: Shop) -> tuple[FixingPlan, ...]:
    """Connectors along the run. The board needs a straight run-in as long as the slot is deep."""
    row, across = row_of(run, s, "clip-in connectors", shop)
    return tuple(
        FixingPlan(
            u=u, v=across, length=connector_length(s), law="meet", duty="both", host=slot("host", u, across, s),
            guest=slot("guest", u, across, s), play=Play(along=1.0, across=0.1, shape="box"),
            moves=straight_in(s.depth_mm), hardware=(Item(item="clip-in connector pair", count=1),),
        )
        for u in row
    )  # fmt: skip


KIND = JointKind(
    name="clip-in connector", title="Clip-in connectors", settings=Settings, plan=plan, glued=True,
    nature=Nature(
        machines=("undercut slot jointer",),
        registers_on="the outer face of the board worked on its end and, at the same fence, the end of the other",
        support="the machine's fence lies on the face; on an end under 19 mm clamp an offcut flush beside it",
        board_mm=(15.0, 40.0), glue="optional", clamps="none", draws_up=True, at_once=True, apart=False,
        shows="", covered_by="", demands_along_mm=1.0, demands_across_mm=0.2,
    ),
    places=("corner", "mitre", "on a slope", "fixed shelf", "divider"),
)  # fmt: skip
