"""Quarter-turn connector: the same undercut slot in both boards, a lever in one half turned by a key from outside."""

from dataclasses import dataclass
from math import sqrt

from rodwork.geometry.vec import neg
from rodwork.joints.kind import ACROSS, ALONG, FixingPlan, JointKind, Run, Void, straight_in
from rodwork.joints.undercut import SlotSettings, connector_length, row_of, slot
from rodwork.model.feature import Bore, Pocket
from rodwork.model.fixing import Item, Play
from rodwork.model.job import CannotBuild
from rodwork.model.nature import Nature
from rodwork.model.settings import choice, length, switch
from rodwork.model.shop import Shop


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings(SlotSettings):
    """What a job file may say of quarter-turn connectors. Take the sizes from the connector's own sheet."""

    key_mm: float = length(6.0, 3, 12, "bore for the key")
    key_distance_mm: float = length(6.0, 2, 40, "end of the board to the middle of the bore for the key")
    key_aside_mm: float = length(0.0, 0, 60, "middle of the connector to the bore for the key, towards the back")
    key_side: str = choice("inside", ("inside", "outside"), "the face that the key goes in through")
    glue: bool = switch(False, "glue as well, with the connector as its clamp")
    caps: bool = switch(True, "a cap in every bore for the key")


def plan(run: Run, s: Settings, shop: Shop) -> tuple[FixingPlan, ...]:
    """Connectors along the run, the lever in the board that meets with its end."""
    row, across = row_of(run, s, "quarter-turn connectors", shop)
    deep = _depth_at(s.key_aside_mm, s)
    if s.key_distance_mm - s.key_mm / 2 >= deep:
        raise CannotBuild(
            ("key_aside" if deep < s.depth_mm else "key_distance",),
            f"a key bore {s.key_distance_mm:g} from the end misses a lever in a slot that is {deep:.1f} deep there",
            "take `key_distance` and `key_aside` from the connector's own sheet",
        )  # fmt: skip
    return tuple(_connector(u, across, run, s) for u in row)


def _depth_at(aside: float, s: Settings) -> float:
    """How deep the arc of the slot is so far from its middle, mm; nought beyond its ends."""
    radius = s.cutter_mm / 2
    below = radius**2 - aside**2
    return max(sqrt(below) - (radius - s.depth_mm), 0.0) if below > 0 else 0.0


def _slanting_key(u: float, v: float, run: Run, s: Settings) -> Void:
    """In a mitre the key still turns across the slot, so its bore runs level with the mitre and askew to the face."""
    lean = run.nears / sqrt(1 - run.nears**2)
    out = s.key_distance_mm * lean
    inside = s.key_side == "inside"
    at = (u + s.key_aside_mm, run.guest_thickness + out if inside else out, s.key_distance_mm)
    cut = Pocket(
        id="k", role="access", at=at, into=neg(ACROSS) if inside else ACROSS, along=ALONG, diameter=s.key_mm,
        depth=round(abs(at[1] - v), 1),  # a stop is set to a tenth: what is set is what the sheet says
    )  # fmt: skip
    return Void(
        board="guest", tool="drill and fence", cutter=f"{s.key_mm:g} mm", stands_on="the machined face", cut=cut
    )


def _connector(u: float, v: float, run: Run, s: Settings) -> FixingPlan:
    """The bore for the key reaches the middle of the slot, from the inner face or from the outer one."""
    inside, thickness = s.key_side == "inside", run.guest_thickness
    key = _slanting_key(u, v, run, s) if run.nears else Void(
        board="guest", tool="drill and fence", cutter=f"{s.key_mm:g} mm", stands_on="the machined face",
        cut=Bore(id="k", role="access", at=(u + s.key_aside_mm, thickness if inside else 0.0, s.key_distance_mm),
                 into=neg(ACROSS) if inside else ACROSS, along=ALONG, diameter=s.key_mm,
                 depth=round(thickness - v if inside else v, 6)),
    )  # fmt: skip
    bought = [
        Item(item="quarter-turn connector with lever", count=1),
        Item(item="quarter-turn connector plain", count=1),
    ]
    if s.caps:
        bought.append(Item(item=f"cap for a bore of {s.key_mm:g}", count=1))
    return FixingPlan(
        u=u, v=v, length=connector_length(s), law="meet", duty="both", host=slot("host", u, v, s),
        guest=slot("guest", u, v, s), others=(key,), play=Play(along=1.0, across=0.1, shape="box"),
        moves=straight_in(s.depth_mm), hardware=tuple(bought),
    )  # fmt: skip


KIND = JointKind(
    name="quarter-turn connector", title="Quarter-turn connectors", settings=Settings, plan=plan, glued=True,
    nature=Nature(
        machines=("undercut slot jointer", "drill and fence"),
        registers_on="the outer face of the board worked on its end and, at the same fence, the end of the other; "
        "the bore for the key from the end, in the face it is turned through",
        support="the machine's fence lies on the face; on an end under 19 mm clamp an offcut flush beside it",
        board_mm=(15.0, 40.0), glue="optional", clamps="none", draws_up=True, at_once=True, apart=True,
        shows="a small bore for the key", covered_by="a cap in each", demands_along_mm=1.0, demands_across_mm=0.2,
    ),
    places=("corner", "mitre", "on a slope", "fixed shelf", "divider"),
)  # fmt: skip
