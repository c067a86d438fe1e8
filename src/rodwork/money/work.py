"""What joining a job takes: the settings, boards held, cuts, pieces and clamps of some joints, counted in the Rod.

Nothing here knows a family: a fixing is counted by its law, its pieces and the machining of its halves.
"""

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from decimal import Decimal
from math import ceil
from typing import Literal

from rodwork.geometry.vec import Vec
from rodwork.model.feature import Bore, Feature, Groove
from rodwork.model.fixing import Joint
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.setup import Setup, SetupFeature

IN_PLACE = "in place"
BATTEN = "batten on the line"
CLAMP_EVERY_MM = 250.0  # along a run, and never fewer than two; common practice, no source
Held = Literal["row", "one", "none"]  # a row of clamps while glue sets, one while it is driven, none at all
PER_METRE = Decimal(1000)


@dataclass(frozen=True, slots=True)
class Compared:
    """The joints that are compared, of one Rod: by cabinet and id, with every feature that belongs to them."""

    rod: Rod
    joints: tuple[tuple[RodCabinet, Joint], ...]
    features: dict[tuple[str, str], Feature]

    @staticmethod
    def of(rod: Rod, places: frozenset[str]) -> "Compared":
        """The joints at these places."""
        joints = tuple((c, j) for c in rod.cabinets for j in c.joints if j.contact.place in places)
        ids = {(c.name, j.id) for c, j in joints}
        features = {
            (c.name, f.id): f
            for c in rod.cabinets
            for part in c.parts
            for f in part.features
            if f.joint is not None and (c.name, f.joint) in ids
        }
        return Compared(rod, joints, features)


@dataclass(frozen=True, slots=True)
class Work:
    """What is done for the whole job, counted by the words of [times]; pieces by their name; glue; tools."""

    set_up: Counter[str] = field(default_factory=Counter)
    machining: Counter[str] = field(default_factory=Counter)
    assembly: Counter[str] = field(default_factory=Counter)
    metres: dict[str, Decimal] = field(default_factory=dict)
    pieces: Counter[str] = field(default_factory=Counter)
    tools: dict[str, None] = field(default_factory=dict)
    glue_m2: Decimal = Decimal(0)
    clamps: int = 0  # for one cabinet, the one that needs most


def work_of(compared: Compared, held: Callable[[Joint], Held]) -> Work:
    """All the work of these joints. `held` says what clamps a joint needs."""
    set_up, machining, tools = Counter[str](), Counter[str](), dict[str, None]()
    channel_mm = Decimal(0)
    copies = {c.name: c.count for c in compared.rod.cabinets}
    before: Setup | None = None
    for setup in compared.rod.setups:
        mine = [e for e in setup.features if e.feature is not None and (e.cabinet, e.feature) in compared.features]
        if not mine:
            continue
        tools[setup.tool] = None
        set_up.update(_changes(setup, before))
        before = setup
        machining["set_batten" if setup.stands_on == BATTEN else "hold_board"] += sum(
            copies[cabinet] for cabinet, *_ in {_held(e) for e in mine}
        )
        for entry in mine:
            word, mm = _cut(compared.features[entry.cabinet, entry.feature or ""])
            machining[word] += copies[entry.cabinet]
            channel_mm += mm * copies[entry.cabinet]
    metres = {"channel": channel_mm / PER_METRE}
    if in_place := _in_place(compared, copies):
        machining["bore_in_place"] += in_place
        tools[IN_PLACE] = None
    assembly, pieces, glued_mm, glue_mm2 = Counter[str](), Counter[str](), Decimal(0), Decimal(0)
    for cabinet, joint in compared.joints:
        _put_together(joint, cabinet, compared, assembly, pieces)
        if joint.glued:
            run = Decimal(str(joint.contact.length))
            glued_mm += run * cabinet.count
            glue_mm2 += run * Decimal(str(joint.contact.width)) * cabinet.count
    clamps, put_on = _clamps(compared, held)
    assembly["clamp"] += sum(put_on[name] * number for name, number in copies.items())
    metres["spread_glue"] = glued_mm / PER_METRE
    return Work(
        set_up=set_up, machining=machining, assembly=assembly, metres=metres, pieces=pieces, tools=tools,
        glue_m2=glue_mm2 / PER_METRE**2, clamps=max(clamps.values(), default=0),
    )  # fmt: skip


def _changes(setup: Setup, before: Setup | None) -> Iterator[str]:
    """What is turned or changed between one setting and the next: what is the same is not done again."""
    fresh = before is None or before.tool != setup.tool
    cutter = fresh or before is None or before.cutter != setup.cutter
    fence = setup.fence is not None and (cutter or before is None or before.fence != setup.fence)
    depth = setup.depth is not None and (cutter or before is None or before.depth != setup.depth)
    done = {"fetch_machine": fresh, "change_cutter": cutter, "set_fence": fence, "set_depth": depth,
            "first_off": fence or depth}  # fmt: skip
    return (word for word, is_done in done.items() if is_done)


def _held(e: SetupFeature) -> tuple[str, str, object, object]:
    """A board laid up once at a setting: the surface worked on, and the line where there is one."""
    return (e.cabinet, e.part, e.bears, e.across.line if e.across is not None else None)


def _cut(feature: Feature) -> tuple[str, Decimal]:
    """The word of [times] for a cut, and its length where it is timed by the metre; a slot is one plunge."""
    if isinstance(feature, Groove):
        return "channel", Decimal(str(feature.length))
    return "bore" if isinstance(feature, Bore) else "slot", Decimal(0)


def _in_place(compared: Compared, copies: dict[str, int]) -> int:
    return sum(copies[cabinet] for (cabinet, _), f in compared.features.items() if f.stage == IN_PLACE)


def _put_together(
    joint: Joint, cabinet: RodCabinet, compared: Compared, assembly: Counter[str], pieces: Counter[str]
) -> None:  # fmt: skip
    """What is pushed, driven and tightened in one joint, in every copy of the cabinet."""
    copies = cabinet.count
    for fixing in joint.fixings:
        for item in fixing.hardware:
            pieces[item.item] += item.count * copies
        bought = sum(item.count for item in fixing.hardware)
        driven = 1 if fixing.law in ("line", "none") and bought else 0
        assembly["drive"] += driven * copies
        assembly["fit_piece"] += (bought - driven) * copies
        others = (compared.features[cabinet.name, h.feature] for h in fixing.others if h.feature is not None)
        if not driven and any(feature.role == "access" for feature in others):
            assembly["tighten"] += copies


def _clamps(compared: Compared, held: Callable[[Joint], Held]) -> tuple[Counter[str], Counter[str]]:
    """Clamps of one copy of each cabinet, and how often one is put on.

    Across every board that is worked on its end, one row serving both its ends; one that holds a joint only while
    it is driven goes from joint to joint.
    """
    runs: dict[tuple[str, str], float] = {}
    clamps, put_on = Counter[str](), Counter[str]()
    for cabinet, joint in compared.joints:
        if held(joint) == "row":
            guest = (cabinet.name, joint.parts[1])
            runs[guest] = max(runs.get(guest, 0.0), joint.contact.length)
        elif held(joint) == "one":
            clamps[cabinet.name] = 1
            put_on[cabinet.name] += 1
    for (name, _), run in runs.items():
        row = max(2, ceil(run / CLAMP_EVERY_MM - 1e-9))
        clamps[name] += row
        put_on[name] += row
    return clamps, put_on


def along_of(point: Vec, joint: Joint) -> float:
    """How far along the run a point stands from its beginning, mm."""
    start, way = joint.contact.from_point, joint.contact.along
    return sum((point[k] - start[k]) * way[k] for k in range(3))
